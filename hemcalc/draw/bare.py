"""Axes that have nothing but a scale: no ticks, no frame, no title, which take most of the time to make."""

from __future__ import annotations

from typing import Any

from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.axis import XAxis, YAxis
from matplotlib.patches import Rectangle
from matplotlib.spines import Spines
from matplotlib.transforms import Transform


class _NoTicks:
    """An axis that gives its scale, and has no ticks to make, to clip or to place."""

    majorTicks: Any = ()
    minorTicks: Any = ()

    def get_children(self) -> list[Artist]:
        """What is drawn of it: nothing."""
        return []

    def reset_ticks(self) -> None:
        """Make none."""

    def set_tick_params(self, *args: Any, **settings: Any) -> None:
        """Have none to set."""


class _Across(_NoTicks, XAxis):
    __name__ = "xaxis"


class _Up(_NoTicks, YAxis):
    __name__ = "yaxis"


class _Box(Rectangle):
    """The whole of some axes, by which every artist on them is clipped: its corners are 0 and 1."""

    def get_transform(self) -> Transform:
        """That of the axes, there already; usual ones make it anew for every artist."""
        return self.get_data_transform()


class BareAxes(Axes):
    """Axes for a picture that says its own numbers: made in a quarter of the time of usual ones."""

    def __init__(self, *args: Any, **settings: Any) -> None:
        super().__init__(*args, **settings)
        self.set_axis_off()

    def _gen_axes_spines(self, *args: Any, **settings: Any) -> dict[str, Any]:
        return {}

    def _gen_axes_patch(self) -> Rectangle:
        return _Box((0, 0), 1, 1)

    def _init_axis(self) -> None:
        self.spines = Spines()
        self.xaxis, self.yaxis = _Across(self, clear=False), _Up(self, clear=False)

    def _update_title_position(self, renderer: object) -> None:
        """Have none to place."""

    def grid(self, *args: Any, **settings: Any) -> None:
        """Have none."""

    def tick_params(self, *args: Any, **settings: Any) -> None:
        """Have none to set."""
