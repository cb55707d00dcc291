"""Words for what was reckoned: numbers as one says them, the same in every sentence."""

from __future__ import annotations

__all__ = ["threads_said"]


def threads_said(number: int) -> str:
    """A number of threads as one says it.

    Examples
    --------
    >>> threads_said(1), threads_said(2)
    ('1 thread', '2 threads')
    """
    return f"{number} thread{'' if number == 1 else 's'}"
