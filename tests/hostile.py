"""Things that nobody means to give, and that fail when they are looked at: for tests of refusals."""

from __future__ import annotations


class Hostile:
    """Fails whatever is asked of it."""

    def _fail(self, *_: object) -> None:
        raise RuntimeError("asked of a hostile object")

    __repr__ = __str__ = __format__ = __bool__ = __len__ = __iter__ = _fail
    __int__ = __float__ = __index__ = _fail


class LyingWhole(int):
    """A whole number that won't be printed."""

    def __repr__(self) -> str:
        raise RuntimeError("asked of a hostile object")

    __str__ = __repr__


NAMELESS = type("", (), {})()
LONG_NAME = type("Long" * 200, (), {})()
