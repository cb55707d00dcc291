"""A hundred things that nobody means to give: left in a variable, typed by mistake, or made to fail."""

from __future__ import annotations

import datetime
import math
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
from hypothesis import strategies as st

from hemcalc import Count, Fabric, Length, Sides, example, plan_edge


def any_text(**limits: int) -> st.SearchStrategy[str]:
    """Text of any letters, named by what they are not: by a codec, each would be asked for, for seconds."""
    return st.text(st.characters(exclude_categories=["Cs"]), **limits)


def _fail(*_: object, **__: object) -> Any:
    raise RuntimeError("asked of a hostile object")


def failing(base: type, *methods: str, name: str = "Hostile") -> type:
    """A class whose methods of these names fail."""
    return type(name, (base,), dict.fromkeys(methods, _fail) | {"__slots__": ()})


class Hostile:
    """Fails whatever is asked of it."""

    __repr__ = __str__ = __format__ = __bool__ = __len__ = __iter__ = __contains__ = __getitem__ = _fail
    __int__ = __float__ = __index__ = __eq__ = __lt__ = __hash__ = _fail


class LyingWhole(int):
    """A whole number that won't be printed."""

    __repr__ = __str__ = __format__ = _fail


NAMELESS = type("", (), {})()
LONG_NAME = type("Long" * 200, (), {})()
NUMBER = ("__repr__", "__str__", "__format__", "__eq__", "__hash__", "__lt__", "__gt__", "__bool__")


def endless() -> Any:
    """Numbers without an end."""
    while True:
        yield 8


def round_about() -> list[object]:
    """A list that holds itself."""
    inner: list[object] = []
    inner.append(inner)
    return inner


#: Things that are right in no place, each made anew, since one may be used up.
NOWHERE: dict[str, Callable[[], object]] = {
    "nan": lambda: math.nan,
    "infinity": lambda: math.inf,
    "minus infinity": lambda: -math.inf,
    "a huge float": lambda: 1e308,
    "a decimal nan": lambda: Decimal("NaN"),
    "a signalling nan": lambda: Decimal("sNaN"),
    "a decimal infinity": lambda: Decimal("Infinity"),
    "a huge decimal": lambda: Decimal("1e999999"),
    "5,000 digits": lambda: 10**5000,
    "5,000 digits below nought": lambda: -(10**5000),
    "31 digits": lambda: 10**30,
    "a negative number": lambda: -1,
    "a negative fraction": lambda: Fraction(-3, 8),
    "a negative decimal": lambda: Decimal("-9.5"),
    "bytes": lambda: b"3/8 in",
    "a bytearray": lambda: bytearray(b"3/8 in"),
    "a memoryview": lambda: memoryview(b"3/8 in"),
    "a list of a list": lambda: [[{"hem": ["3/8 in"]}], [None]],
    "a list that holds itself": round_about,
    "a list of hostiles": lambda: [Hostile(), Hostile()],
    "a pair of hostiles": lambda: (Hostile(), Hostile()),
    "a dict": lambda: {"hem": 3},
    "a dict of a hostile": lambda: {"hem": Hostile(), 3: None},
    "a set": lambda: {3},
    "a frozen set": lambda: frozenset({"in"}),
    "a range of 31 digits": lambda: range(10**30),
    "an endless generator": endless,
    "a class": lambda: Length,
    "a module": lambda: math,
    "an error": lambda: ValueError("3/8 in"),
    "an object": object,
    "a hostile": Hostile,
    "whose == fails": failing(object, "__eq__"),
    "whose hash fails": failing(object, "__hash__"),
    "whose repr fails": failing(object, "__repr__", "__str__"),
    "whose length fails": failing(object, "__len__", "__bool__"),
    "whose iteration fails": failing(object, "__iter__"),
    "whose int fails": failing(object, "__int__", "__index__", "__float__"),
    "a list that fails": failing(list, "__iter__", "__getitem__", "__eq__", "__repr__"),
    "a nameless object": lambda: NAMELESS,
    "a long name": lambda: LONG_NAME,
    "a complex number": lambda: 3j,
    "a date": lambda: datetime.date(2026, 10, 3),
    "a time": lambda: datetime.datetime(2026, 10, 3, 9, 30),
    "a span of time": lambda: datetime.timedelta(hours=5),
    "not implemented": lambda: NotImplemented,
    "an ellipsis": lambda: ...,
    "a slice": lambda: slice(3),
    "numpy's nan": lambda: np.float64("nan"),
    "numpy's complex": lambda: np.complex128(3j),
    "numpy's truth": lambda: np.bool_(True),
    "numpy's date": lambda: np.datetime64("2026-10-03"),
    "numpy's not a time": lambda: np.datetime64("NaT", "s"),
    "numpy's bytes": lambda: np.bytes_(b"3/8 in"),
    "an array of texts": lambda: np.array(["3/8 in", "1 cm"]),
    "an array of objects": lambda: np.array([Hostile(), None], dtype=object),
    "an empty array": lambda: np.array([]),
    "an array of no dimension": lambda: np.array(3.0),
    "a table of numbers in numpy": lambda: np.ones((3, 3)),
    "pandas's NA": lambda: pd.NA,
    "pandas's NaT": lambda: pd.NaT,
    "pandas's time": lambda: pd.Timestamp("2026-10-03"),
    "pandas's span": lambda: pd.Timedelta("5h"),
    "an empty column": lambda: pd.Series([], dtype=object),
    "a table": lambda: pd.DataFrame({"hem": [3]}),
    "an empty table": pd.DataFrame,
    "an index": lambda: pd.Index(["in"]),
    "a category": lambda: pd.Categorical(["in"]),
}
#: Things that are right in some places.
SOMEWHERE: dict[str, Callable[[], object]] = {
    "None": lambda: None,
    "True": lambda: True,
    "False": lambda: False,
    "nought": lambda: 0,
    "eight": lambda: 8,
    "ten million and one": lambda: 10_000_001,
    "a float": lambda: 2.5,
    "a whole float": lambda: 8.0,
    "a fraction": lambda: Fraction(3, 8),
    "a decimal": lambda: Decimal("9.5"),
    "a fine decimal": lambda: Decimal("1." + "3" * 99),
    "numpy's whole number": lambda: np.int64(8),
    "numpy's small number": lambda: np.uint8(200),
    "numpy's float": lambda: np.float64(2.5),
    "numpy's text": lambda: np.str_("3/8 in"),
    "an array": lambda: np.array([1, 2]),
    "a whole number that lies": lambda: LyingWhole(8),
    "a whole number that fails": lambda: failing(int, *NUMBER)(8),
    "a fraction that fails": lambda: failing(Fraction, *NUMBER)(3, 8),
    "a text that fails": lambda: failing(str, "__hash__")("3/8 in"),
    "a text of another class": lambda: type("Text", (str,), {})("3/8 in"),
    "an empty text": lambda: "",
    "spaces": lambda: "  \t\n",
    "a word": lambda: "three eighths",
    "a piece's name": lambda: "coaster",
    "a length": lambda: "3/8 in",
    "a negative length": lambda: "-3/8 in",
    "a minus sign": lambda: "\N{MINUS SIGN}3/8 in",
    "a full-width hyphen": lambda: "\N{FULLWIDTH HYPHEN-MINUS}3/8 in",
    "a negative count": lambda: "-28/in",
    "an unknown unit": lambda: "3 ells",
    "two units": lambda: "3 ft 2 in",
    "arabic figures": lambda: "\N{ARABIC-INDIC DIGIT THREE} cm",
    "full-width figures": lambda: "\N{FULLWIDTH DIGIT THREE} cm",
    "a superscript": lambda: "3\N{SUPERSCRIPT TWO} cm",
    "an exponent": lambda: "3e2 mm",
    "a doubtful comma": lambda: "1,500 mm",
    "nought below the line": lambda: "3/0 in",
    "two strokes": lambda: "1/2/4 in",
    "an improper fraction": lambda: "1 5/4 in",
    "a long text": lambda: "3/8 in" * 100_000,
    "long figures": lambda: "9" * 5000 + " mm",
    "figures alone": lambda: "9" * 5000,
    "a wall of signs": lambda: "\"'" * 5000,
    "strokes": lambda: "/" * 5000,
    "a letter and marks": lambda: "a" + "\N{COMBINING ACUTE ACCENT}" * 5000,
    "half a surrogate": lambda: "\ud800",
    "a name with half a surrogate": lambda: "Ada \udcff",
    "NUL": lambda: "\x00",
    "a name with a NUL": lambda: "Ada\x00",
    "unseen signs": lambda: "\x00\u202e\ud800" * 300,
    "a name with a stroke": lambda: "../../Ada",
    "a device": lambda: "/dev/null",
    "a folder": lambda: ".",
    "a path": lambda: Path("no folder/no file"),
    "a path of half a surrogate": lambda: Path("\ud800"),
    "markup": lambda: "<script>alert(1)</script>",
    "a generator": lambda: (n for n in (1, 2)),
    "a map": lambda: map(str, (1, 2)),
    "an open iterator": lambda: iter([3]),
    "a column": lambda: pd.Series([1, 2]),
    "a fraction of 5,000 digits": lambda: Fraction(1, 3**10000),
    "a range": lambda: range(3),
    "an empty list": list,
    "an empty tuple": tuple,
    "a list of a number": lambda: [3],
    "a pair": lambda: (1, "two"),
    "a list of a pair": lambda: [(1, "two")],
    "a million numbers": lambda: [8] * 1_000_000,
    "an empty dict": dict,
    "an empty set": set,
    "a function": lambda: len,
    "a function that fails": lambda: _fail,
    "a Length": lambda: Length("3/8 in"),
    "no Length": lambda: Length(0),
    "a huge Length": lambda: Length(10**9),
    "a Count": lambda: Count("28/in"),
    "a Fabric": lambda: Fabric("28/in"),
    "an Edge": lambda: plan_edge("28/in", "3/8 in", clear=8),
    "a Piece": lambda: example("coaster"),
    "Sides": lambda: Sides(1, 2, 3, 4),
    "Sides of anything": lambda: Sides(None, "two", Hostile(), 3),
}
WRONG = NOWHERE | SOMEWHERE
