"""The one error that bad input gets, and how it quotes what it was given.

Every refusal in hemcalc is a `HemError`: one sentence that says what was wrong, what is
allowed, and an example. The people who read it sew; a traceback would tell them nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from contextlib import suppress
from decimal import Decimal
from fractions import Fraction
from itertools import islice
from typing import Any, TypeVar

T = TypeVar("T")

_MOST_WORDS = 240  # characters of what is allowed
_NO_LISTS = (str, bytes, bytearray, memoryview, Mapping, Set)
_MOST_THINGS = 10_000  # in a list that somebody gives
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
        return _exact(Fraction(value.numerator, value.denominator))
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
    if isinstance(value, tuple | list):
        things = several(value, about, f"things that are each {_a(kind)}", f"{about}={example}")
        if all(isinstance(one, kind) for one in things):
            return things
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
    # A word of another class than Python's may be compared, or printed, by a rule of its own.
    if isinstance(value, str) and (word := str.__str__(value)) in allowed:
        return word
    words = ", ".join(repr(word) for word in allowed)
    if len(words) > _MOST_WORDS:  # as many as a sentence holds
        words = f"{words[:_MOST_WORDS].rpartition(', ')[0]} and others"
    raise HemError(
        f"{about} is {shown(value)}, but must be one of {words}; for example {allowed[0]!r}.", about
    )


def several(value: object, about: str, wanted: str, example: str) -> tuple[Any, ...]:
    """The things of a list, a tuple, a range or whatever else gives one after another.

    Text, bytes, dicts and sets, which hold nothing twice and in no order, are no such list, though
    Python would go through them; nor is what fails on the way, or has no end. `wanted` says what
    each thing must be.

    Examples
    --------
    >>> several(range(4, 6), "hems", "numbers of threads", "range(4, 17)")
    (4, 5)
    >>> several("4", "hems", "numbers of threads", "range(4, 17)")
    Traceback (most recent call last):
    hemcalc.HemError: hems is '4', but must be a list of numbers of threads; for example range(4, 17).
    """
    things: tuple[Any, ...] | None = None
    if isinstance(value, Iterable) and not isinstance(value, _NO_LISTS):
        with suppress(RuntimeError, TypeError, ValueError, LookupError, ArithmeticError, AttributeError):
            things = tuple(islice(iter(value), _MOST_THINGS + 1))
    if things is None:
        raise HemError(
            f"{about} is {shown(value)}, but must be a list of {wanted}; for example {example}.", about
        )
    if len(things) > _MOST_THINGS:
        raise HemError(
            f"{about} has more than {_MOST_THINGS:,} {wanted}, which is too many; for example {example}.",
            about,
        )
    return things


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
    if isinstance(value, tuple | list) and len(parts := several(value, about, what, str(example))) == number:
        return parts
    raise HemError(f"{about} is {shown(value)}, but must be {what}; for example {example}.", about)
