"""The bars of the hours, held against the spells that they show."""

import pytest
from cases import for_each
from matplotlib.patches import Rectangle

from hemcalc.draw.finish.hours import draw_hours, hours_alt
from hemcalc.draw.look import TYPE
from hemcalc.finish import Pace, hours
from hemcalc.piece import EXAMPLES
from hemcalc.workshop import example_workshop, timetable

SHOWN = [*(hours(EXAMPLES[name], Pace(9, 25)) for name in EXAMPLES), *timetable(example_workshop(), 4).days]


def spells_of(took):
    return (took if hasattr(took, "spells") else took.hours).spells


@for_each("took", SHOWN)
def test_each_bar_is_solid_to_the_least_and_hatched_to_the_most(took):
    (axes,) = draw_hours(took).sheet.figure.axes
    bars = [patch for patch in axes.patches if isinstance(patch, Rectangle)]
    spells = spells_of(took)
    assert len(bars) == 2 * len(spells)
    for row, (spell, sure, perhaps) in enumerate(zip(spells, bars[::2], bars[1::2], strict=True)):
        assert (sure.get_x(), sure.get_width()) == pytest.approx((0, spell.least))
        assert perhaps.get_x() + perhaps.get_width() == pytest.approx(spell.most)
        assert (sure.get_hatch(), perhaps.get_hatch()) == ("", "///")
        assert sure.get_y() + sure.get_height() / 2 == pytest.approx(-row)


def test_who_does_a_step_is_said_and_seen():
    (day,) = [day for day in timetable(example_workshop(), 4).days if day.kind == "sampler"]
    still = draw_hours(day)
    bars = still.sheet.figure.axes[0].patches[::2]
    assert len({bar.get_facecolor() for bar in bars}) == 3
    assert still.alt.count(", leader") == day.steps_prepared
    assert still.alt.count(", for home") == len(day.hours.spells) - day.steps_done
    assert still.alt.startswith("sampler, ")


def test_the_words_have_every_steps_minutes_and_counts():
    took = hours(EXAMPLES["coaster"], Pace(15, 40))
    alt = hours_alt(took)
    for spell in took.spells:
        assert f"{spell.step.number} {spell.step.title} {spell.text()}" in alt
    assert "(84 stitches)" in alt


@pytest.mark.parametrize("size", TYPE)
@pytest.mark.parametrize("took", [SHOWN[1], SHOWN[-1], SHOWN[7]], ids=repr)
def test_no_label_lies_on_another_and_all_are_within_the_sheet(took, size):
    still = draw_hours(took, size)
    still.png()
    figure = still.sheet.figure
    boxes = [text.get_window_extent() for text in figure.axes[0].texts if text.get_visible()]
    for i, box in enumerate(boxes):
        assert box.x0 >= 0
        assert box.x1 <= figure.bbox.width
        assert box.y0 >= 0
        assert box.y1 <= figure.bbox.height
        assert not any(box.overlaps(other) for other in boxes[:i])
