"""A file of her own: read as it was written, added to, and never written over."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import HemError
from hemcalc.sums import exercise, from_example, sums_of
from hemcalc.sums.practice import provoking
from hemcalc.sums.progress import Done, Progress, load_progress
from hemcalc.sums.slips import SLIPS

DONE = st.builds(
    Done,
    st.integers(-(10**9), 10**9),
    st.integers(1, 4),
    st.integers(0, 9),
    st.integers(1, 9),
    st.sampled_from(["", *SLIPS]),
    st.sampled_from(["sum", "corner", "wash"]),
)


@given(st.lists(DONE, max_size=6))
def test_it_is_read_as_it_was_written_in_words(tmp_path_factory, done):
    path = tmp_path_factory.mktemp("hers") / "my_sums.txt"
    Progress(tuple(done)).save(str(path))
    assert load_progress(str(path)) == Progress(tuple(done))
    assert path.read_text().splitlines()[1:] == [each.text() for each in done]


def test_it_is_added_to_and_nothing_of_hers_is_lost(tmp_path):
    path = str(tmp_path / "my_sums.txt")
    first = Progress((Done(1, 2, 2, 2),))
    first.save(path)
    longer = Progress((*first.done, Done(2, 3, 1, 3, "turn forgotten")))
    longer.save(path)
    assert load_progress(path) == longer
    for other in (first, Progress((Done(9, 1, 1, 1),))):
        with pytest.raises(HemError, match="would be lost"):
            other.save(path)
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear Ada,")
    with pytest.raises(HemError, match="is not a file of sums"):
        longer.save(str(letter))
    assert letter.read_text() == "Dear Ada,"


def test_the_slip_just_made_comes_next_and_an_older_one_again_after_a_while():
    def meets(sums, slip):
        right = sums_of(sums.piece, sums.side)
        return any(SLIPS[slip].working(right, name) not in (None, sums.key[name]) for name in sums.key)

    wrong = Progress((Done(7, 3, 1, 3, "turn forgotten"),))
    assert meets(wrong.next_sum(), "turn forgotten")
    later = Progress((*wrong.done, Done(8, 3, 3, 3), Done(9, 3, 3, 3)))
    assert meets(later.next_sum(), "turn forgotten")
    assert later.next_sum() == provoking("turn forgotten", 10, 3) != exercise(10, 4)
    assert Progress((Done(2, 1, 1, 1), Done(9, 3, 3, 3))).next_sum() == exercise(10, 4)
    assert Progress().next_sum() == exercise(1, 1)


def test_a_sum_that_is_all_right_is_one_that_was_done():
    sums = exercise(7, 3)
    right = sums.check({name: working.text() for name, working in sums.key.items()})
    assert Progress().with_sum(sums, right).done == (Done(7, 3, 3, 3),)


def test_only_sums_with_a_seed_go_in():
    sums = from_example("coaster")
    with pytest.raises(HemError, match="must have a seed; for example"):
        Progress().with_sum(sums, sums.check({}))
