"""The two ledgers: what is drawn stands where the numbers say, on both strips."""

import pytest

from hemcalc import check, example
from hemcalc.draw import draw_answers
from hemcalc.draw.look import TYPE
from hemcalc.draw.sheet import Sheet
from hemcalc.draw.sums.answer_ruler import AnswerRuler, answer_alt

BREAD = example("bread cloth")


@pytest.fixture
def ruler():
    return AnswerRuler(Sheet(9, 3.2), (0.01, 0.02, 0.98, 0.96))


def shown(patches):
    """Start and end of each band that is visible."""
    return [(p.get_x(), p.get_x() + p.get_width()) for p in patches if p.get_visible()]


def leaders(ruler):
    xs = [x for x in ruler.leaders.get_xdata() if x == x]
    return list(zip(xs[::2], xs[1::2], strict=True))


def test_right_answers_stand_straight_above_the_right_ledger(ruler):
    ruler.update(check(BREAD, {"first drawn": 8, "fold 1": 20, "fold 2": 31, "cut": 37}))
    bands = [(-6, 0), (0, 7), (7, 9), (9, 20), (20, 31), (31, 37)]
    assert shown(ruler.right) == bands
    assert shown(ruler.hers) == bands
    assert leaders(ruler) == [(7, 7), (20, 20), (31, 31), (37, 37)]


def test_the_slip_is_seen_as_the_first_leader_that_leans(ruler):
    report = check(BREAD, {"first drawn": 8, "fold 1": 20, "fold 2": 20, "total": 26})
    ruler.update(report)
    assert leaders(ruler) == [(7, 7), (20, 20), (31, 20), (37, 26)]
    assert shown(ruler.hers)[-1] == (20, 26)
    alt = answer_alt(report)
    assert "fold 2 after 20, 11 threads too near; cut after 26, 11 threads too near" in alt
    assert "Right: first drawn 8, fold 1 after 20, fold 2 after 31, cut after 37" in alt


def test_a_band_of_which_an_end_is_not_known_is_left_white(ruler):
    ruler.update(check(BREAD, {"fold 1": 20, "cut": "1 in", "hem": 11}))
    assert shown(ruler.hers) == [(-6, 0)]
    assert leaders(ruler) == [(20, 20)]


def test_lines_out_of_their_order_make_no_bands(ruler):
    ruler.update(check(BREAD, {"first drawn": 8, "fold 1": 31, "fold 2": 20, "cut": 37}))
    assert shown(ruler.hers) == [(-6, 0), (0, 7), (7, 9), (9, 31)]


def test_no_line_yet_is_said(ruler):
    report = check(BREAD, {"rule": 44})
    ruler.update(report)
    assert shown(ruler.hers) == [(-6, 0)]
    assert answer_alt(report).startswith("Two ledgers. Yours: no line yet.")


@pytest.mark.parametrize("size", TYPE)
def test_no_label_lies_on_another_and_all_are_within_the_sheet(size):
    answers = {"first drawn": 8, "fold 1": 12, "fold 2": 13, "cut": 14}
    still = draw_answers(check(example("bookmark"), answers), size)
    still.png()
    figure = still.sheet.figure
    texts = [text for text in figure.axes[0].texts if text.get_visible() and text.get_text()]
    boxes = [text.get_window_extent() for text in texts]
    for i, box in enumerate(boxes):
        assert box.x0 >= 0
        assert box.x1 <= figure.bbox.width
        assert box.y1 <= figure.bbox.height
        for other in boxes[:i]:
            assert not box.overlaps(other), (texts[i].get_text(), size)


def test_many_answers_add_no_artist(ruler):
    ruler.update(check(BREAD, {"cut": 37}))
    before = len(ruler.axes.get_children())
    for cut in range(30, 80, 7):
        ruler.update(check(BREAD, {"cut": cut, "fold 1": cut - 9}))
    assert len(ruler.axes.get_children()) == before
