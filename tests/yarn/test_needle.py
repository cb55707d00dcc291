"""The trade's scales: larger is finer, and every figure says where it is from."""

from itertools import combinations, pairwise

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


def test_what_a_book_pairs_overlaps_at_its_ends_alone():
    for one, other in combinations(BOOK_PAIRS, 2):
        if (one.work, one.source) == (other.work, other.source):
            assert min(one.threads[1], other.threads[1]) <= max(one.threads[0], other.threads[0])


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


# The ranges as they are printed: sources in data/published.csv, H091 to H100.
def test_a_cotton_has_a_needle_just_where_a_book_prints_one():
    printed = {
        "sewing": [*range(30, 51), *range(60, 71), *range(80, 101)],
        "hemming cotton cloth": [*range(70, 81)],
        "basting cotton cloth": [*range(36, 41)],
        "hem stitch on crash": [50],
        "hem stitch on fine sheer linen": [*range(100, 151)],
        "hem stitch on a pillow case": [70],
    }
    for work, threads in printed.items():
        assert [n for n in range(1, 300) if any(pair.work == work for pair in book_pairs(n))] == threads
    sewing = [
        [pair.needles[0] for pair in book_pairs(n) if pair.work == "sewing"] for n in (40, 50, 70, 90, 91)
    ]
    assert sewing == [[7, 8], [8], [9], [10, 11], [11]]


def test_a_number_that_no_book_prints_has_no_pairs():
    assert book_pairs(55) == ()
    for thread in (0, "50", 50.0, True):
        with pytest.raises(HemError, match="for example 50"):
            book_pairs(thread)
