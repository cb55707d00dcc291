"""Pictures that are drawn before they are asked for, while the kernel has nothing else to do.

Who moves a slider by its keys goes on the same way, mostly, or back. Those pictures are there when
the key is pressed, and need only be sent.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any, Protocol

from hemcalc.draw.sheet import Sheet, picture_html
from hemcalc.measure.errors import HemError

#: So many pictures of a panel are kept, of some 60 kB each: with fewer, one that is drawn ahead
#: would take the place of the one that she comes back to.
KEPT = 24
#: Seconds in which the picture before is on its way.
REST = 0.02


class View(Protocol):
    """What a panel draws with."""

    sheet: Sheet

    def update(self, result: Any) -> None:
        """Show this result."""

    def alt(self, result: Any) -> str:
        """The picture in words, with its numbers."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A picture of a panel: the result that it shows, its words, and how wide it stands; or none yet."""

    result: Any = None
    words: str = ""
    png: bytes = b""
    wide: int = 0

    @property
    def html(self) -> str:
        """The picture for a page, with its words."""
        return self.html_of(self.words)

    def html_of(self, words: str) -> str:
        """The picture for a page, with other words."""
        return picture_html(self.png, words, self.wide) if self.png else ""


def drawn_by(view: View, result: Any) -> Drawn:
    """The picture of a result."""
    view.update(result)
    return Drawn(result, view.alt(result), view.sheet.png(), view.sheet.shown_wide)


class Ahead:
    """What was drawn last and what may be wanted next, by the values of the controls.

    Parameters
    ----------
    draw : function
        From values to what is drawn of them; may raise HemError.
    """

    def __init__(self, draw: Callable[[Mapping[str, Any]], Drawn]) -> None:
        self._draw = draw
        self._kept: dict[tuple[Any, ...], Drawn] = {}
        self._next: asyncio.TimerHandle | None = None

    def drawn(self, values: Mapping[str, Any]) -> Drawn:
        """The picture of these values, drawn if it isn't kept.

        Raises
        ------
        HemError
            If they ask for what is not possible.
        """
        key = _key(values)
        drawn = self._kept.pop(key, None) or self._draw(values)
        self._kept[key] = drawn
        if len(self._kept) > KEPT:
            del self._kept[next(iter(self._kept))]
        return drawn

    def forget(self) -> None:
        """Keep nothing, and draw nothing ahead any more."""
        self.want(())
        self._kept.clear()

    def want(self, wanted: Sequence[Mapping[str, Any]]) -> None:
        """Have those drawn that aren't yet, and no others, one after the other as there is time for them."""
        if self._next is not None:
            self._next.cancel()
            self._next = None
        wanted = [values for values in wanted if _key(values) not in self._kept]
        if wanted:
            with suppress(RuntimeError):  # no page can be waiting for it
                self._next = asyncio.get_running_loop().call_later(REST, self._make, wanted)

    def _make(self, wanted: Sequence[Mapping[str, Any]]) -> None:
        with suppress(HemError):  # which is said when she comes to it
            self.drawn(wanted[0])
        self.want(wanted[1:])


def _key(values: Mapping[str, Any]) -> tuple[Any, ...]:
    """What a picture is kept by; the page reckons 0.29 in another way than we do."""
    return tuple(round(value, 6) if isinstance(value, float) else value for value in values.values())


def next_places(slider: Any, before: Any) -> list[Any]:
    """The places where a slider may be moved next, the likeliest first; none if it is no slider.

    Examples
    --------
    >>> import ipywidgets as widgets
    >>> next_places(widgets.IntSlider(7, 0, 9), before=6), next_places(widgets.IntSlider(7, 0, 9), 8)
    ([8, 6, 9], [6, 8, 5])
    """
    if not getattr(slider, "continuous_update", False):  # one that is slow is followed at rest
        return []
    if hasattr(slider, "options"):
        places = list(slider.options)
        if before not in places:
            return []
        at, was = places.index(slider.value), places.index(before)
        found = ((at + by, places[at + by]) for by in _by(was <= at) if 0 <= at + by < len(places))
        return [place for _, place in found]
    near = [slider.value + by * slider.step for by in _by(before <= slider.value)]
    return [place for place in near if slider.min <= place <= slider.max]


def _by(up: bool) -> tuple[int, int, int]:
    return (1, -1, 2) if up else (-1, 1, -2)
