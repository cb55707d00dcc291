"""Find her slip: the sheet of an invented learner, with one slip in it, to be marked by the learner."""

from __future__ import annotations

import html
import random

import ipywidgets as widgets

from hemcalc.measure.errors import HemError
from hemcalc.measure.html import table_html
from hemcalc.panels.fields import form
from hemcalc.panels.page import OnPage, said_html
from hemcalc.sums.exercises import Exercise, as_seed, exercise
from hemcalc.sums.practice import find_her_slip
from hemcalc.sums.slip import SELDOM
from hemcalc.sums.slips import SLIPS
from hemcalc.sums.sums import sums_of
from hemcalc.sums.working import Working

_CHOICES = 4
_NAMES = ("Ada", "Bea", "Cora", "Dora", "Edda", "Fay")
_UNSAID = "choose"


class HerSlip(OnPage):
    """A sheet with a slip in it, two questions about it, and what is said of the answers."""

    def __init__(self, seed: int) -> None:
        self.seed = seed
        layout, style = widgets.Layout(width="100%", max_width="720px"), {"description_width": "190px"}
        self.sheet = widgets.HTML(layout=widgets.Layout(max_width="900px"))
        self.number = widgets.Dropdown(description="her first wrong number", style=style, layout=layout)
        self.why = widgets.Dropdown(description="what happened", style=style, layout=layout)
        self.another = widgets.Button(description="Another sheet", layout=widgets.Layout(width="140px"))
        self._beside = widgets.HTML()
        self.widget = form([self.sheet, self.number, self.why, self.another, self._beside])
        self.said = ""
        self._holding = False
        for box in (self.number, self.why):
            box.observe(lambda _: self._answered(), "value")
        self.another.on_click(lambda _: self.show(self.seed + 1))
        self.show(seed)

    def show(self, seed: int) -> None:
        """Show the sheet of this seed, or of the next one that has a slip in it."""
        seed = as_seed(seed)
        self.sums, self.slip, self.hers = _sheet(seed)
        self.seed = seed
        key = self.sums.key
        self.wrong = [name for name, working in self.hers.items() if working.value != key[name].value]
        chance = random.Random(f"clauses {seed}")
        others = _others(self.sums, self.slip, self.hers)
        chance.shuffle(others)
        offered = [self.slip, *others[: _CHOICES - 1]]
        chance.shuffle(offered)
        self._holding = True
        self.number.options = [_UNSAID, *self.hers]
        self.why.options = [(_UNSAID, ""), *((SLIPS[name].clause, name) for name in offered)]
        self.number.value, self.why.value = _UNSAID, ""
        self._holding = False
        self.learner = _NAMES[seed % len(_NAMES)]
        rows = [[name, working.line] for name, working in self.hers.items()]
        facts = html.escape(self.sums.text())
        table = table_html(["number", "her working"], rows, f"The sheet of {self.learner} (invented)")
        self.sheet.value = f'<p style="line-height:1.4">{facts}</p>{table}'
        self._say("Which number went wrong first, and what happened?")

    def _answered(self) -> None:
        if self._holding:
            return
        number, why = self.number.value, self.why.value
        if _UNSAID in (number, why) or not why:
            self._say("Answer both questions.")
        elif number != self.wrong[0]:
            self._say(
                f"Not yet: her {number} follows from an earlier number."
                if number in self.wrong
                else f"Not yet: her {number} is right."
            )
        elif why != self.slip:
            changed = SLIPS[why].working(sums_of(self.sums.piece, self.sums.side), number, self._unit(number))
            would = f"it would be {changed.text()}" if changed else "it would be another number"
            self._say(f"Not yet: if {SLIPS[why].clause}, {would}; she has {self.hers[number].text()}.")
        else:
            slip = SLIPS[self.slip]
            self._say(f"Yes: {slip.clause}. What to ask {self.learner}: {slip.question}")

    def _unit(self, number: str) -> str:
        return next(asked.unit for asked in self.sums.asked if asked.name == number)

    def _say(self, text: str) -> None:
        self.said = text
        self._beside.value = said_html(text)

    def in_words(self) -> str:
        """The sheet, line by line."""
        lines = [self.sums.text(), *(f"{name}: {working.line}" for name, working in self.hers.items())]
        return "\n".join(lines)

    def in_html(self) -> str:
        """The sheet."""
        return str(self.sheet.value)


def _sheet(seed: int) -> tuple[Exercise, str, dict[str, Working]]:
    """A sum and a sheet that a slip which is often enough made has changed; the same for a seed."""
    chance = random.Random(f"her slip {seed}")
    names = [slip.name for slip in SLIPS.values() if slip.often > SELDOM]
    while True:
        sums, slip = exercise(chance.randrange(10**6), 3), chance.choice(names)
        try:
            hers = dict(find_her_slip(sums, slip))
        except HemError:
            continue
        if len(_others(sums, slip, hers)) >= _CHOICES - 1:
            return sums, slip, hers


def _others(sums: Exercise, slip: str, hers: dict[str, Working]) -> list[str]:
    """Slips that would give another sheet than hers, which is not the right one either."""
    others = []
    for name, known in SLIPS.items():
        if name == slip or known.often <= SELDOM:
            continue
        try:
            sheet = find_her_slip(sums, name)
        except HemError:
            continue
        if any(sheet[number].value != working.value for number, working in hers.items()):
            others.append(name)
    return others


def her_slip_panel(seed: int = 1) -> HerSlip:
    """A sheet to be marked: which number went wrong first, and what happened; the same for the same seed.

    Examples
    --------
    >>> panel = her_slip_panel(3)
    >>> panel.number.value, panel.why.value = panel.wrong[0], panel.slip
    >>> panel.said.startswith("Yes: ")
    True
    """
    return HerSlip(seed)
