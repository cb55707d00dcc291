"""Things that are listed in words, a line each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import islice

from hemcalc.measure.errors import of_type, one_of, several
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.units import UNITS
from hemcalc.sums.working import Working


def listed(things: Iterable[object], unit: str = "", most: int | None = None) -> str:
    """What each of these says, a line each; of a mapping, each behind its name.

    Parameters
    ----------
    things : iterable or mapping
        Texts, sums with their working, or whatever has a ``text()``; anything else as Python prints it.
    unit : str
        The unit to say it in, where a thing's text takes one; its own if left out.
    most : int, optional
        How many of them, from the first.

    Raises
    ------
    HemError
        If `things` is no list of things.

    Examples
    --------
    >>> from hemcalc import Length
    >>> print(listed({"hem": Length("1/2 in"), "groups": 21}, "in"))
    hem: 1/2 in
    groups: 21
    """
    if of_type(unit, str, "unit", "'in'"):
        one_of(unit, UNITS, "unit")
    if most is not None:
        most = whole_threads(most, "most", example=3)
    named = (
        [*things.items()]
        if isinstance(things, Mapping)
        else [("", thing) for thing in several(things, "things", "things", "fabric.notes")]
    )
    lines = (f"{name}: {_said(thing, unit)}" if name else _said(thing, unit) for name, thing in named)
    return "\n".join(islice(lines, most))


def _said(thing: object, unit: str) -> str:
    if isinstance(thing, Working):
        return thing.line
    text = getattr(thing, "text", None)
    if not callable(text):
        return str(thing)
    return str(text(unit) if unit else text())
