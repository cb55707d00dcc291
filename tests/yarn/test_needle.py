"""The trade's scales: larger is finer, and every figure says where it is from."""

from itertools import pairwise

import pytest
from cases import for_each

from hemcalc.measure import HemError
from hemcalc.yarn import pearl_cotton, tapestry_needle
from hemcalc.yarn.needle import BOOK_PAIRS, PEARL_COTTONS, TAPESTRY_NEEDLES, book_pairs


def test_a_larger_needle_number_is_a_finer_needle():
    for coarse, fine in pairwise(TAPESTRY_NEEDLES):
        assert fine.size > coarse.size
        assert fine.diameter_mm < coarse.diameter_mm


def test_a_larger_pearl_cotton_number_is_a_finer_thread():
    assert [thread.number for thread in PEARL_COTTONS] == [3, 5, 8, 12, 16]
    known = [thread.density.tex for thread in PEARL_COTTONS if thread.density is not None]
    assert len(known) >= 4
    assert known == sorted(known, reverse=True)


def test_every_figure_shows_the_reader_where_it_is_from():
    for needle in TAPESTRY_NEEDLES:
        assert needle.source in needle.text()
        assert "from memory" in needle.text()
        assert f"{needle.diameter_mm:.2f} mm" in needle.text()
    for thread in PEARL_COTTONS:
        assert thread.source in thread.text()
        assert ("from memory" in thread.text()) == (thread.density is not None)
    for pair in BOOK_PAIRS:
        assert len(pair.source) > 20


def test_a_thread_without_a_figure_says_so_instead_of_guessing():
    assert pearl_cotton(16).density is None
    assert "not known" in pearl_cotton(16).text()
    assert "weigh" in pearl_cotton(16).text()


@for_each("size", [19, 0, -24, "24", 24.0, True, None, 10**30])
def test_an_unknown_needle_is_refused_with_those_there_are(size):
    with pytest.raises(HemError, match="18, 20, 22, 24, 26, 28; for example 24"):
        tapestry_needle(size)


@for_each("number", [4, 0, "8", 8.0, True, None])
def test_an_unknown_pearl_cotton_is_refused_with_those_there_are(number):
    with pytest.raises(HemError, match="3, 5, 8, 12, 16; for example 8"):
        pearl_cotton(number)


def test_a_number_that_no_book_prints_has_no_pairs():
    assert book_pairs(55) == ()
    for thread in (0, "50", 50.0, True):
        with pytest.raises(HemError, match="for example 50"):
            book_pairs(thread)
