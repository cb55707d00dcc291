"""The one error that bad input gets, and how it quotes what it was given.

Every refusal in hemcalc is a `HemError`: one sentence that says what was wrong, what is
allowed, and an example. The people who read it sew; a traceback would tell them nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any, TypeVar

T = TypeVar("T")

_QUOTED = 40  # characters of the input that a sentence repeats; keeps it under 400


class HemError(ValueError):
    """Bad input, said in one sentence.

    Parameters
    ----------
    sentence : str
        What was wrong, what is allowed, and an example.
    about : str
        Name of the input that the sentence speaks of, such as ``"hem"``, so that a panel
        can show it beside the control that caused it; empty if it is no single one.

    Examples
    --------
    >>> error = HemError("The hem must be 1 thread or more, such as 16.", about="hem")
    >>> str(error), error.about
    ('The hem must be 1 thread or more, such as 16.', 'hem')
    """

    # A traceback names it as people import it.
    __module__ = "hemcalc"

    def __init__(self, sentence: str, about: str = "") -> None:
        super().__init__(sentence)
        self.about = about

    def _render_traceback_(self) -> list[str]:
        """What a notebook shows of it: the sentence, without a traceback."""
        return [str(self)]


def shown(value: object) -> str:
    """The value as a sentence may quote it: short, however long the input is.

    Examples
    --------
    >>> shown("three eighths"), shown(8.5), shown(True), shown([1, 2])
    ("'three eighths'", '8.5', 'True', 'a list')
    >>> shown(10**5000)
    'a number of about 5001 digits'
    """
    # Each kind prints itself by its own rule: a subclass may print otherwise, or fail to.
    if isinstance(value, str):
        return _quoted(str.__str__(value))
    if value is None or isinstance(value, bool):
        return str(value)
    if isinstance(value, float):
        return float.__repr__(value)
    if isinstance(value, Decimal):
        return _short(Decimal.__str__(value))
    if isinstance(value, int):
        return _exact(Fraction(int.__index__(value)))
    if isinstance(value, Fraction):
        return _exact(value)
    name = _printable(type(value).__name__)[:_QUOTED] or "nameless object"
    article = "an" if name[0].lower() in "aeiou" else "a"
    return f"{article} {name} object" if name.endswith("s") else f"{article} {name}"


def _quoted(text: str) -> str:
    plain = _printable(_short(text))
    mark = '"' if "'" in plain and '"' not in plain else "'"
    return f"{mark}{plain}{mark}"


def _short(text: str) -> str:
    return text if len(text) <= _QUOTED else text[: _QUOTED - 1] + "…"


def _printable(text: str) -> str:
    """The text on one line, with a mark for what can't be seen."""
    return "".join(
        c if c.isprintable() else " " if c.isspace() else "\N{REPLACEMENT CHARACTER}" for c in text
    )


def _exact(number: Fraction) -> str:
    top, bottom = number.numerator, number.denominator
    if max(abs(top), bottom) < 10**15:
        return str(number)
    # Python refuses to print very long integers, so their length is estimated instead.
    digits = int(max(top.bit_length(), bottom.bit_length()) * 0.30103) + 1
    kind = f"{'negative ' if top < 0 else ''}{'number' if bottom == 1 else 'fraction'}"
    return f"a {kind} of about {digits} digits"


def of_type(value: object, kind: type[T], about: str, example: str) -> T:
    """The value, if it is one of this type; `example` is how such a value is had, in Python.

    Examples
    --------
    >>> of_type(8, int, "clear", "8")
    8
    >>> of_type("coaster", HemError, "piece", "example('coaster')")
    Traceback (most recent call last):
    hemcalc.HemError: piece is 'coaster', but must be a HemError; for example example('coaster').
    """
    if isinstance(value, kind):
        return value
    raise HemError(f"{about} is {shown(value)}, but must be {_a(kind)}; for example {example}.", about)


def _a(kind: type) -> str:
    return f"{'an' if kind.__name__[0].lower() in 'aeiou' else 'a'} {kind.__name__}"


def all_of(value: object, kind: type[T], about: str, example: str = "[]") -> tuple[T, ...]:
    """The things in a list or a tuple, if all of them are of this type.

    Examples
    --------
    >>> all_of([1, 2], int, "readings")
    (1, 2)
    """
    if isinstance(value, tuple | list) and all(isinstance(one, kind) for one in value):
        return tuple(value)
    raise HemError(
        f"{about} is {shown(value)}, but must be a list, each thing in it {_a(kind)}; "
        f"for example {about}={example}.",
        about,
    )


def one_of(value: object, allowed: Sequence[str], about: str) -> str:
    """The value, if it is one of the words allowed.

    Examples
    --------
    >>> one_of("cm", ("in", "cm", "mm"), "unit")
    'cm'
    >>> one_of("furlong", ("in", "cm", "mm"), "unit")
    Traceback (most recent call last):
    hemcalc.HemError: unit is 'furlong', but must be one of 'in', 'cm', 'mm'; for example 'in'.
    """
    if isinstance(value, str) and value in allowed:
        return value
    words = ", ".join(repr(word) for word in allowed)
    raise HemError(
        f"{about} is {shown(value)}, but must be one of {words}; for example {allowed[0]!r}.", about
    )


def true_or_false(value: object, about: str) -> bool:
    """The value, if it is True or False.

    Examples
    --------
    >>> true_or_false(False, "washed")
    False
    """
    if isinstance(value, bool):
        return value
    raise HemError(f"{about} is {shown(value)}, but must be True or False; for example True.", about)


def parts_of(value: object, about: str, number: int, what: str, example: object) -> tuple[Any, ...]:
    """The parts of a tuple or list of so many; `what` says what they are.

    Examples
    --------
    >>> parts_of([224, 168], "design", 2, "two whole numbers, across and down", (224, 168))
    (224, 168)
    """
    if isinstance(value, tuple | list) and len(value) == number:
        return tuple(value)
    raise HemError(f"{about} is {shown(value)}, but must be {what}; for example {example}.", about)
