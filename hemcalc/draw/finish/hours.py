"""The hours of a piece as bars, a step each: solid to the least that it takes, hatched on to the most."""

from __future__ import annotations

from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.draw.look import BANDS, LINES, BandLook, type_size
from hemcalc.draw.marks import Label, Labels
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.finish.hours import Hours, clock_text
from hemcalc.measure.errors import of_type
from hemcalc.workshop.timetable import Day

_APART = 5.0  # from a bar to its words, points
_THICK = 0.62  # of a step's row
_TICKS = (15, 30, 60)  # minutes from one mark of the scale to the next
_MAX_TICKS = 8

#: Who does a step: what is said of it, and how its bar is filled.
_WHO = {"class": BANDS["face"].fill, "leader": BANDS["clear"].fill, "home": BANDS["drawn"].fill}


def draw_hours(took: Hours | Day, size: str = "page") -> Still:
    """How long each step takes, as a finished figure.

    Of a class's day it is said at each step that the leader prepares, or that is left for home.

    The type is for a ``"page"`` or a ``"projector"``.
    """
    if not isinstance(took, Day):
        of_type(took, Hours, "took", "hours(example('coaster'))")
    type_ = type_size(size)
    work, who = _who(took)
    rows = len(work.spells)
    sheet = Sheet(9, (0.8 + rows / 4.2) * type_.text / 9 + 0.4, dpi=150, size=type_)
    longest = max(spell.most for spell in work.spells)
    step = next((tick for tick in _TICKS if longest / tick <= _MAX_TICKS), _TICKS[-1])
    ends = [float(tick) for tick in range(0, int(longest) + 1, step)]
    axes = sheet.axes((0.01, 0.0, 0.98, 1.0), (0, 1), (-rows - 2, 1.8))
    shown = Labels(sheet, axes, 2 * rows + len(ends) + 2)
    titles = [f"{spell.step.number}. {spell.step.title}" for spell in work.spells]
    words = [_words(took, row, counted=size == "page") for row in range(rows)]
    widths = [[shown.size(Label(0, 0, text, small=True))[0] for text in each] for each in (titles, words)]
    apart = _APART * sheet.points(axes)[0]
    # Minutes to the width of the sheet, such that every row has room.
    before = max(widths[0]) + apart
    room = [1 - before - apart - end for end in widths[1]]
    scale = max(spell.most / left for spell, left in zip(work.spells, room, strict=True))
    axes.set_xlim(-before * scale, (1 - before) * scale)
    labels = [Label(-before * scale, 1.2, _headline(took), "left", "center", bold=True)]
    for row, (spell, whose) in enumerate(zip(work.spells, who, strict=True)):
        fill = _WHO[whose]
        for start, end, hatch in ((0.0, spell.least, ""), (spell.least, spell.most, "///")):
            bar = Rectangle((start, -row - _THICK / 2), end - start, _THICK, **BandLook(fill, hatch).patch)
            axes.add_artist(bar)
        labels.append(Label(-apart * scale, -row, titles[row], "right", small=True))
        labels.append(Label(spell.most + apart * scale, -row, words[row], "left", small=True))
    rule, bottom = LINES["dimension"], -rows - 0.1
    axes.add_line(Line2D([0, ends[-1]], [bottom, bottom], color=rule.colour, linewidth=rule.width))
    for tick in ends:
        axes.add_line(Line2D([tick, tick], [bottom, bottom + 0.2], color=rule.colour, linewidth=rule.width))
        labels.append(Label(tick, bottom - 0.5, f"{tick:.0f}", small=True))
    labels.append(Label(ends[-1] / 2, bottom - 1.3, "minutes", small=True))
    shown.show(labels)
    return Still(sheet, hours_alt(took))


def hours_alt(took: Hours | Day) -> str:
    """The figure in words, with its numbers."""
    work, _ = _who(took)
    steps = "; ".join(
        f"{spell.step.number} {spell.step.title} {_words(took, row)}" for row, spell in enumerate(work.spells)
    )
    return f"{_headline(took)} Step by step: {steps}."


def _who(took: Hours | Day) -> tuple[Hours, list[str]]:
    """The hours, and whose each step is."""
    if isinstance(took, Hours):
        return took, ["class"] * len(took.spells)
    prepared, done = took.steps_prepared, took.steps_done
    left = len(took.hours.spells) - done
    return took.hours, ["leader"] * prepared + ["class"] * (done - prepared) + ["home"] * left


def _words(took: Hours | Day, row: int, *, counted: bool = True) -> str:
    """What stands behind a bar: how long, whose if it isn't the class's, and what was counted."""
    work, who = _who(took)
    spell, whose = work.spells[row], who[row]
    said = {"class": "", "leader": ", leader", "home": ", for home"}[whose]
    return f"{spell.text()}{said}{f' ({spell.counted})' if counted and spell.counted else ''}"


def _headline(took: Hours | Day) -> str:
    work, _ = _who(took)
    whole = (
        f"{clock_text(work.least)} to {clock_text(work.most)} hours: solid the least, hatched to the most."
    )
    return whole if isinstance(took, Hours) else f"{took.kind}, {whole}"
