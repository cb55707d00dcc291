"""Where the books conflict: who prints what, and with whom a choice agrees."""

from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.books import book_ranges, read_rows
from hemcalc.books.ranges import SUBJECTS
from hemcalc.edge.ledger import BOOKS_DRAW
from hemcalc.measure import HemError, Length
from hemcalc.stitch.groups import BOOKS_GROUP


# The hull of what the books print is what the library says that they print.
def test_the_ranges_that_the_library_quotes_are_those_of_the_books():
    drawn, grouped = book_ranges("threads drawn"), book_ranges("threads to a group")
    assert (drawn.low, drawn.high) == BOOKS_DRAW
    assert (grouped.low, grouped.high) == BOOKS_GROUP


def test_a_book_that_prints_several_figures_stands_there_once_with_all_of_them():
    turning = {book.source.title: book for book in book_ranges("first turning").books}
    ingalls = turning["Text-Book on Domestic Art"]
    assert (ingalls.low, ingalls.high) == (Fraction(1, 16), Fraction(1, 2))
    assert turning["Encyclopedia of Needlework"].high == Length("2 mm").inches


def test_custom_and_open_work_are_no_book_on_a_plain_hem_stitch():
    every = [book for subject in SUBJECTS for book in book_ranges(subject).books]
    assert not any("Common practice" in book.source.title for book in every)
    assert book_ranges("threads drawn").high == 10


@given(st.sampled_from(("threads drawn", "threads to a group")), st.integers(1, 30))
def test_a_choice_agrees_with_just_the_books_that_print_it(subject, choice):
    ranges = book_ranges(subject, choice)
    assert {book.source.title for book in ranges.agreeing} == {
        book.source.title for book in ranges.books if book.low <= choice <= book.high
    }
    assert (f"is what {len(ranges.agreeing)} of them" in ranges.text()) == bool(ranges.agreeing)


def test_its_words():
    assert book_ranges("threads drawn").text() == "9 books print 2 to 10 threads."
    assert book_ranges("threads drawn", 8).text().endswith("Yours, 8 threads, is what 2 of them print.")
    assert book_ranges("threads to a group", 2).text().endswith("is what 2 of them print.")
    assert book_ranges("threads drawn", 1).text().endswith("Yours, 1 thread, is what none of them prints.")
    assert (
        book_ranges("first turning", Length("1/2 in"))
        .text()
        .endswith("Yours, 1/2 in, is what 1 of them prints.")
    )


@for_each(
    ("subject", "choice", "sentence"),
    [
        ("needles", None, "subject is 'needles', but must be one of 'threads drawn'"),
        ("threads drawn", "1/4 in", "choice is '1/4 in', but must be a whole number of threads"),
        ("threads drawn", 0, "choice is 0, but must be a whole number of threads, 1 or more"),
        ("first turning", 8, "choice: A length is written as text"),
    ],
)
def test_what_is_none_is_refused_in_a_sentence(subject, choice, sentence):
    with pytest.raises(HemError, match=sentence):
        book_ranges(subject, choice)


def test_rows_without_the_subject_are_refused():
    others = [row for row in read_rows() if row.topic != "group"]
    with pytest.raises(HemError, match="nothing on threads to a group"):
        book_ranges("threads to a group", rows=others)


def test_one_thread_is_said_in_the_singular():
    assert "Yours, 1 thread, is" in book_ranges("threads drawn", 1).text()
    assert "Yours, 2 threads, is" in book_ranges("threads drawn", 2).text()
