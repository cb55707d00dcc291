"""Answers of every wrong kind, written into each box of a page, and what is amiss with what it says."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Any

import ipywidgets as widgets

from hemcalc.measure.lengths import Length
from hemcalc.panels.boxes import AnswerBox, GuessBox

#: What somebody may write in place of an answer; none is right anywhere.
WRONG = (
    *("", " ", "None", "nothing", "a bundle", "a bit more", "?", "yes", "True", "nan", "inf", "-inf", "½½"),
    *("[12, 14]", "(12, 14)", "{12}", "12 14", "1/0", "1 / (2 - 2)", "12 +", "2 ** 99999", "12; drop", "=A1"),
    *(
        "9" * 5000,
        "1e999999",
        "1/" + "9" * 4000,
        "-987654",
        "−987654",
        "0.0000001",
        "1,2,3,4",
        "١٢",
        "twelvety",
    ),
    *("12 furlongs", "12 threads in", "3/8", "987654 kg", "987654 °C", "987654 %", "12 × 9999", "12 × −3"),
    *("\x00", "<b>12</b>", "'; print(1)", "\\", "1\u202e2", "12\n14", "😀"),
)
_TEXTS = (widgets.Text, widgets.Textarea, widgets.Combobox)
#: Buttons that write files or print pages: no answer is given with them.
_WRITES = re.compile(r"keep|save|print|open|write|make|pdf|sheet|lay|page", re.IGNORECASE)
LONGEST = 400


def tried(things: Iterable[Any]) -> Iterator[str]:
    """What is amiss when each box among these, and each text in the panels, is given each wrong answer."""
    kept = {id(thing): thing for thing in things}
    for thing in kept.values():
        if isinstance(thing, AnswerBox | GuessBox):
            yield from _box(thing)
        elif isinstance(getattr(thing, "widget", None), widgets.Widget):
            yield from _panel(thing.widget)


def wrong_for(box: AnswerBox | GuessBox) -> tuple[str, ...]:
    """The same, and the right number with a unit of another kind."""
    if isinstance(box, GuessBox):
        return WRONG
    right = box.check.right
    if isinstance(right, Length):
        return (*WRONG, f"{right.number(box.check.unit)} threads")
    return (*WRONG, f"{right} in", f"{right} kg")


def _box(box: AnswerBox | GuessBox) -> Iterator[str]:
    name = box.box.description
    for answer in wrong_for(box):
        # A guess that was read is kept, whatever it is; the next is given to a box as it was.
        if isinstance(box, GuessBox):
            box.hands, box.box.disabled, box.button.disabled = {}, False, False
        try:
            box.box.value = answer
            _click(box.button)
        except Exception as error:
            yield f"{name}, {answer[:30]!r}: {type(error).__name__}: {error}"[:LONGEST]
            continue
        said = box.said
        if not said or len(said) > LONGEST or "\n" in said:
            yield f"{name}, {answer[:30]!r}: {len(said)} characters are said: {said[:80]}"
        if isinstance(box, AnswerBox) and (said.startswith("Right") or (box.verdict and box.verdict.right)):
            yield f"{name}, {answer[:30]!r}: counts as right: {said[:80]}"


def _panel(panel: widgets.Widget) -> Iterator[str]:
    """Its texts one after the other, each put back as it was, with its buttons clicked once each."""
    parts = list(_inside(panel))
    buttons = [
        part for part in parts if type(part) is widgets.Button and not _WRITES.search(part.description)
    ]
    for text in [part for part in parts if isinstance(part, _TEXTS)]:
        before = text.value
        for answer in (*WRONG, before):
            try:
                text.value = answer
            except Exception as error:
                yield f"{text.description}, {answer[:30]!r}: {type(error).__name__}: {error}"[:LONGEST]
    for button in buttons:
        if button.comm is None:  # its row was taken out by one before: nobody can click it
            continue
        try:
            _click(button)
        except Exception as error:
            yield f"[{button.description}]: {type(error).__name__}: {error}"[:LONGEST]


def _click(button: widgets.Button) -> None:
    """Click it, and let what goes wrong be seen here; ipywidgets would show it in the page."""
    for callback in button._click_handlers.callbacks:
        callback(button)


def _inside(widget: widgets.Widget) -> Iterator[widgets.Widget]:
    yield widget
    for child in getattr(widget, "children", ()):
        yield from _inside(child)
