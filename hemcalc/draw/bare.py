"""What is quicker than usual: axes that have nothing but a scale, and a canvas whose patterns are plainer.

Ticks, frame and title take most of the time in which axes are made; the dots of a pattern, drawn as circles
of eight curves each, half of that in which a picture is.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.axis import XAxis, YAxis
from matplotlib.backend_bases import GraphicsContextBase
from matplotlib.backends.backend_agg import FigureCanvasAgg, RendererAgg
from matplotlib.patches import Rectangle
from matplotlib.path import Path
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


@lru_cache
def _eight_cornered(dots: str, density: float) -> Path:
    """A pattern of dots with straight sides, from curve's end to curve's end."""
    circles: Any = Path.hatch(dots, density)
    corners = circles.vertices.reshape(-1, len(Path.unit_circle()), 2)[:, :-1:3]
    codes = [Path.MOVETO, *[Path.LINETO] * 7, Path.CLOSEPOLY] * len(corners)
    return Path(corners.reshape(-1, 2), codes)


class _Gear(GraphicsContextBase):
    """What is drawn with: dots so small that nobody sees corners."""

    def get_hatch_path(self, density: float = 6.0) -> Path:
        """The pattern's path, which fills a cell."""
        hatch = self.get_hatch()
        return (
            _eight_cornered(hatch, density) if set(hatch or "") == {"."} else super().get_hatch_path(density)
        )


class QuickCanvas(FigureCanvasAgg):
    """A canvas for a figure that is drawn again and again."""

    def get_renderer(self) -> RendererAgg:
        """What draws on it."""
        renderer: RendererAgg = super().get_renderer()
        vars(renderer)["new_gc"] = _Gear
        return renderer


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
