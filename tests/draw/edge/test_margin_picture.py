"""The margin panel's picture, whose scale follows what it shows."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from hemcalc import HemError, plan_edge, plan_section
from hemcalc.draw.look import TYPE
from hemcalc.measure.units import UNITS
from hemcalc.panels.choices import MAX_DRAWN, WIDEST_HEM
from hemcalc.panels.margin import WIDEST_CLEAR, MarginPicture, MarginPlan

PICTURE = MarginPicture()


@settings(max_examples=20)
@given(data=st.data())
def test_whatever_is_asked_for_has_room_and_no_words_collide(data, troubles):
    hem = data.draw(st.sampled_from((1, WIDEST_HEM)) | st.integers(1, WIDEST_HEM))
    edge = plan_edge(
        data.draw(st.sampled_from(("10/in", "60/in", "29/in", "11.5/cm"))),
        hem,
        clear=data.draw(st.sampled_from((0, WIDEST_CLEAR)) | st.integers(0, WIDEST_CLEAR)),
        drawn=data.draw(st.integers(1, MAX_DRAWN)),
        turn=data.draw(st.none() | st.integers(0, hem)),
        handling=data.draw(st.sampled_from((0, 8))),
    )
    try:
        section = plan_section(edge, data.draw(st.sampled_from(("0.2 mm", "0.4 mm", "1.5 mm"))))
    except HemError:
        assume(False)
    fold = data.draw(st.sampled_from((0.0, 0.3, 0.6, 0.75, 0.9, 1.0)))
    PICTURE.sheet.set_type(TYPE[data.draw(st.sampled_from(tuple(TYPE)))])
    PICTURE.update(
        MarginPlan(edge, section, fold, data.draw(st.sampled_from(UNITS)), data.draw(st.booleans()))
    )
    assert troubles(PICTURE.sheet) == []
    (left, right), (bottom, top) = PICTURE.profile.axes.get_xlim(), PICTURE.profile.axes.get_ylim()
    assert PICTURE.ruler.axes.get_xlim() == pytest.approx((left, right))
    assert max(edge.total + edge.handling, edge.rule.margin) <= right
    for patch in PICTURE.profile.axes.patches:
        if patch.get_visible():
            xs, ys = zip(*patch.get_xy(), strict=True)
            assert left <= min(xs) <= max(xs) <= right
            assert bottom <= min(ys) <= max(ys) <= top
    # As large as may be: a frame a quarter smaller had no room for it.
    wide = right - left
    needs = (
        edge.total + edge.handling + 6,
        edge.rule.margin + 6,
        2 * (edge.fold_1 + 6),
        4.4 * (edge.hem + 5),
    )
    assert wide <= 1.25 * max(needs)
