"""Boxes to write in: a guess that is committed before anything is shown, and an answer that is marked.

A guess is kept, and stands beside what is shown after it. A leader types a show of hands instead,
how many said what, and sees it as bars beside the truth.
"""

from __future__ import annotations

import html
import re
from fractions import Fraction

import ipywidgets as widgets

from hemcalc.course.checks import Check, check_of
from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.exact import decimal_text, exact_number
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES, UNITS
from hemcalc.panels.page import Followers, OnPage, said_html
from hemcalc.sums.reading import read_answer
from hemcalc.sums.verdict import HALF_STEP, Verdict, judge

_MAX_HANDS = 400
_BAR = "#444"


class _Box(OnPage):
    """A box to write in, a button, and what is said beside it."""

    def __init__(self, label: str, button: str, hint: str) -> None:
        self.box = widgets.Text(
            description=label,
            placeholder=hint,
            continuous_update=False,
            style={"description_width": "initial"},
            layout=widgets.Layout(width="320px"),
        )
        self.button = widgets.Button(description=button, layout=widgets.Layout(width="110px"))
        self._beside = widgets.HTML(layout=widgets.Layout(width="540px", min_height="34px"))
        self.widget = widgets.VBox([widgets.HBox([self.box, self.button]), self._beside])
        self.said = ""

    def _say(self, text: str) -> None:
        self.said = text
        self._beside.value = said_html(text)

    def in_words(self) -> str:
        """Its label, and room to write."""
        return f"{self.box.description}: ______"


class GuessBox(_Box):
    """A guess, or a show of hands, that is committed and kept. Made by `guess_box`."""

    _keeps = ("hands", "unit")  # which still stand beside the truth in another cell

    def __init__(self, label: str, unit: str) -> None:
        super().__init__(label, "Commit", "such as 12; a class: 12 × 3, 14 × 5")
        self.unit = unit
        #: How many said what; empty until it is committed.
        self.hands: dict[Fraction, int] = {}
        self._waiting = Followers()
        self.button.on_click(lambda _: self.commit())
        self._say("Write your guess, then commit to it.")

    @property
    def guess(self) -> Fraction | None:
        """The one guess, if one person guessed."""
        (one, *more) = self.hands or (None,)
        return None if more else one

    def commit(self) -> None:
        """Keep what is written; from now on it can't be changed."""
        try:
            self.hands = _hands(self.box.value, self.unit)
        except HemError as error:
            self._say(str(error))
            return
        if not self.hands:
            self._say("Write a guess first; for example 12.")
            return
        self.box.disabled = self.button.disabled = True
        total = sum(self.hands.values())
        self._say("Kept. Now see." if total == 1 else f"Kept: {total} hands. Now see.")
        self._waiting.tell()

    def beside(self, truth: int | Fraction | Length) -> Compared:
        """The guess beside the truth, or the hands as bars; it waits for a guess that is yet to come."""
        if self.unit in UNITS:
            compared = Compared(self, of_type(truth, Length, "truth", "Length('14 in')"))
        else:
            compared = Compared(self, exact_number(truth, "truth", "14"))
        self._waiting.add(compared.update)
        return compared


class Compared(OnPage):
    """Guesses beside the truth: what is said once, and changes when a guess is committed."""

    _keeps = ("_box", "_near", "truth", "_said")

    def __init__(self, box: GuessBox, truth: Fraction | Length) -> None:
        self._box = box
        self._near = Fraction(0)
        if isinstance(truth, Length):
            self.truth, self._near = truth.number(box.unit), HALF_STEP / MILLIMETRES[box.unit]
            self._said = truth.text(box.unit)
        else:
            self.truth, self._said = truth, _number(truth)
        self.widget = widgets.HTML()
        self.update()

    def update(self) -> None:
        """Show the guesses as they are now."""
        self.widget.value = self.in_html()

    def __repr__(self) -> str:
        return self.text()

    def text(self) -> str:
        """What was guessed, and what it is."""
        hands, it_is = self._box.hands, f"it is {self._said}"
        if not hands:
            return f"No guess was committed; {it_is}."
        if self._box.guess is not None and sum(hands.values()) == 1:
            return f"You guessed {_number(self._box.guess)}; {it_is}."
        said = ", ".join(f"{_number(value)} by {times}" for value, times in sorted(hands.items()))
        right = sum(times for value, times in hands.items() if abs(value - self.truth) <= self._near)
        return f"Said {said}; {it_is}, said by {right} of {sum(hands.values())}."

    in_words = text

    def in_html(self) -> str:
        """The same, with bars for a show of hands."""
        hands = self._box.hands
        if sum(hands.values()) < 2:
            return f"<p>{html.escape(self.text())}</p>"
        most = max(hands.values())
        rows = "".join(
            f'<tr><th scope="row">{self._said if value == self.truth else _number(value)}'
            f"{' = the truth' if value == self.truth else ''}</th>"
            f'<td><div style="background:{_BAR};height:1em;width:{300 * times // most}px"></div></td>'
            f"<td>{times}</td></tr>"
            for value, times in sorted({self.truth: 0, **hands}.items())
        )
        return f"<table><caption>{html.escape(self.text())}</caption>{rows}</table>"


def _number(value: Fraction) -> str:
    return ("−" if value < 0 else "") + decimal_text(abs(value))


def _hands(text: str, unit: str) -> dict[Fraction, int]:
    """How many said what: 12 × 3, 14 × 5, or one guess."""
    hands: dict[Fraction, int] = {}
    counted = unit not in UNITS
    for part in filter(None, (part.strip() for part in re.split(r"[;,]\s+|[;\n]", text))):
        found = re.fullmatch(r"(.+?)\s*[x×:]\s*(\d{1,3})", part)
        said, times = (found[1], int(found[2])) if found else (part, 1)
        answer = read_answer("slack" if counted else "guess", said, "threads" if counted else unit)
        if answer is None:
            continue
        if counted and answer.unit != "threads":
            raise HemError(
                f"guess is {shown(said)}, but must be a number, without a unit; for example 12.", "guess"
            )
        value = answer.value if counted else answer.mm / MILLIMETRES[unit]
        hands[value] = hands.get(value, 0) + times
    if sum(hands.values()) > _MAX_HANDS:
        raise HemError(f"A show of hands has at most {_MAX_HANDS}; for example 12 × 3, 14 × 5.", "guess")
    return hands


class AnswerBox(_Box):
    """An answer that is marked when it is committed. Made by `check_box`."""

    def __init__(self, check: Check) -> None:
        super().__init__("my answer", "Check", f"in {check.unit or check.of}")
        #: The sum, with what is right: in the kernel, and never in the page.
        self.check = check
        self.verdict: Verdict | None = None
        self.button.on_click(lambda _: self.mark())
        self.box.observe(lambda _: self.mark(), "value")

    def mark(self) -> None:
        """Mark what is written."""
        answer, check = self.box.value if self.box.value.strip() else None, self.check
        self.verdict = judge(answer, check.right, check.slips, of=check.of, unit=check.unit)
        self._say("Write your answer first." if answer is None else self.verdict.text())


def guess_box(label: str = "my guess", unit: str = "threads") -> GuessBox:
    """A box for a guess, to be committed before anything is shown.

    Parameters
    ----------
    label : str
        What stands before the box.
    unit : str
        What a bare number is in: ``"threads"``, or anything that is counted, ``"in"``, ``"cm"``, ``"mm"``.

    Examples
    --------
    >>> box = guess_box()
    >>> box.box.value = "thirty"
    >>> box.commit()
    >>> box.beside(14)
    You guessed 30; it is 14.
    >>> hands = guess_box()
    >>> hands.box.value = "12 × 3, 14 × 5"
    >>> hands.commit()
    >>> hands.beside(14)
    Said 12 by 3, 14 by 5; it is 14, said by 5 of 8.
    """
    return GuessBox(of_type(label, str, "label", "'my guess'"), of_type(unit, str, "unit", "'threads'"))


def check_box(name: str) -> AnswerBox:
    """The box for the sum that a notebook asks for; its key is not in the page.

    Examples
    --------
    >>> box = check_box("where the coaster is cut")
    >>> box.box.value = "24"
    >>> box.said
    'Not yet: 24 threads is what comes out if the turn is forgotten.'
    """
    return AnswerBox(check_of(name))
