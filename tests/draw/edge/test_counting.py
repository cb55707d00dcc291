"""A ruler on the cloth, held against the count that was measured with it."""

import math
import re
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc import Count, Length
from hemcalc.draw.edge.counting import Counted, CountingPicture, counting_alt, draw_counting
from hemcalc.draw.look import TYPE

LONGEST = Length("4 in")
PICTURE = CountingPicture(LONGEST)


@st.composite
def counts(draw):
    """What the sliders of the panel can say was counted."""
    unit, ruler = draw(st.sampled_from((("in", "1/2 in"), ("in", "4 in"), ("cm", "1 cm"), ("mm", "100 mm"))))
    threads = draw(st.sampled_from((4, 200)) | st.integers(4, 200))
    sure = draw(st.sampled_from(("80 %", "99 %")))
    count = Count.measured([threads] * draw(st.integers(1, 6)), ruler, sure)
    return Counted(count, Length(draw(st.sampled_from(("2 in", "50 cm")))), unit)


def xs(line):
    return [float(x) for x in line.get_xdata() if not math.isnan(x)][::2]


@settings(max_examples=15)
@given(counted=counts())
def test_threads_lie_a_pitch_apart_and_the_ruler_spans_what_was_counted(counted):
    PICTURE.update(counted)
    pitch, over = float(counted.count.pitch.mm), float(counted.count.over.mm)
    threads = xs(PICTURE.threads)
    assert threads == pytest.approx([(n + 0.5) * pitch for n in range(len(threads))])
    under = sum(x < over - 1e-9 for x in threads)
    assert abs(under - float(counted.count.mean)) <= 0.5
    assert PICTURE.ruler.get_width() == pytest.approx(over)
    for end, at in zip(PICTURE.ends, (0, over), strict=True):
        assert end.get_x() + end.get_width() / 2 == pytest.approx(at)
        assert end.get_width() == pytest.approx(pitch)


@settings(max_examples=15)
@given(counted=counts())
def test_the_ruler_has_its_units_marks(counted):
    PICTURE.update(counted)
    step = 25.4 / 8 if counted.unit == "in" else 1
    marks = xs(PICTURE.marks)
    assert marks == pytest.approx([n * step for n in range(len(marks))])
    assert marks[-1] <= float(counted.count.over.mm) + 1e-6 < marks[-1] + step


@settings(max_examples=15)
@given(counted=counts(), size=st.sampled_from(tuple(TYPE)))
def test_words_stand_clear_whatever_the_sliders_say(counted, size, troubles):
    PICTURE.sheet.set_type(TYPE[size])
    PICTURE.update(counted)
    assert troubles(PICTURE.sheet) == []


@for_each("size", TYPE)
@for_each("over", ["1/2 in", "4 in", "12 in", "1 cm"])
def test_words_stand_clear_in_finished_figures(over, size, troubles):
    counted = Counted(Count.measured([28, 29, 27], over=over), Length("10 in"), "in")
    assert troubles(draw_counting(counted, size).sheet) == []


@settings(max_examples=15)
@given(counted=counts())
def test_the_words_for_those_who_do_not_see_it_state_its_numbers(counted):
    alt, count = counting_alt(counted), counted.count
    for said in (
        count.over.text(counted.unit),
        f"{float(count.mean):.4g} threads",
        count.text(counted.unit),
        f"{counted.threads} thread",
        f"{float(100 * count.confidence):.0f} times in 100, cut {counted.to_cut.text(counted.unit)} (rounded",
    ):
        assert said in alt
    assert ("its ≈ " in alt) == (count.threads_in(counted.size).denominator > 1)
    # How far it may be off is said in the reader's unit only, to the next mark.
    assert set(re.findall(r"\d (in|cm|mm)\b", alt)) == {counted.unit}
    mark = {"in": 25.4 / 16, "cm": 1, "mm": 1}[counted.unit]
    said = re.search(r"within (.*?) two times in three, at worst within (.*?)\. ", alt).groups()
    for text, off in zip(
        said, (count.plus_minus_mm(counted.size), float(count.worst(counted.size).mm)), strict=True
    ):
        assert off <= float(Length(text).mm) + 1e-9 < off + mark + 1e-8


@settings(max_examples=15)
@given(counted=counts())
def test_what_it_says_to_cut_is_the_next_mark_that_has_its_threads_for_sure(counted):
    mark = {"in": Length("1/8 in"), "cm": Length(5), "mm": Length(1)}[counted.unit]
    assert abs(counted.threads - counted.count.threads_in(counted.size)) <= Fraction(1, 2)
    assert counted.count.sure_threads_in(counted.to_cut) >= counted.threads
    assert counted.count.sure_threads_in(counted.to_cut - mark) < counted.threads
