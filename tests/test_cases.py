"""The cases of a test that runs many are all tried, and those that fail are named."""

import pytest
from cases import for_each


def test_every_case_that_fails_is_named():
    tried = []

    @for_each("n", range(4))
    @for_each(("low", "high"), [(1, 3)])
    def within(n, low, high):
        tried.append(n)
        assert low <= n < high
        with pytest.raises(ValueError, match=str(n)):
            raise ValueError(1)

    with pytest.raises(BaseExceptionGroup, match="3 of 4 cases") as raised:
        within()
    assert [each.__notes__ for each in raised.value.exceptions] == [
        [f"in the case of {{'n': {n}}}"] for n in (0, 2, 3)
    ]
    assert tried == [0, 1, 2, 3]
    with pytest.raises(AssertionError, match="no case"):
        for_each("n", [])
