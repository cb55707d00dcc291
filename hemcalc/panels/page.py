"""What a panel brings to the page it stands on: its style, and the names that a screen reader speaks.

A slider of ipywidgets has a role and a value but no name, and says of a list of lengths only which
place in it is set. A small script gives each its label and the words of what is set. It is started
by a picture that can't be loaded: what stands in a `widgets.HTML` is put into the page as it is, but
a script element put in so is not run by any browser.
"""

from __future__ import annotations

import html
from collections.abc import Callable
from pathlib import Path
from typing import Any
from weakref import WeakMethod

import ipywidgets as widgets

from hemcalc.draw.shown import show

#: The class of a panel's outermost box; with the other beside it, everything on it grows.
ROOT, PROJECTOR = "hemcalc-panel", "hemcalc-projector"
#: The class of what stands in several places, and stays when one of them is let go.
SHARED = "hemcalc-shared"
#: The least width of a picture beside its controls, pixels.
PICTURE_WIDE = 600
_LARGEST = 1.25  # times its own size that a picture is enlarged to

_HERE = Path(__file__).parent
STYLE, SCRIPT = ((_HERE / name).read_text(encoding="utf-8") for name in ("page.css", "page.js"))

#: How a panel that doesn't answer is woken.
_WAKE = "Run the page from the top to wake it: menu <i>Run</i>, <i>Run All Cells</i>."
#: What stands under a panel's still, on a page that was opened and not yet run.
STILL_ASLEEP = f'<p class="hemcalc-still">This picture moves with sliders once it is awake. {_WAKE}</p>'


def spoken() -> Any:
    """The style and the script, as a part of a panel that takes no room."""
    started = f'<img hidden alt="" src="data:," onerror="{html.escape(SCRIPT)}">'
    return widgets.HTML(
        f"<style>{STYLE}</style>{started}", layout=widgets.Layout(height="0", margin="0", overflow="hidden")
    )


def asleep() -> Any:
    """How to wake a panel: seen only while no kernel answers, as the page itself knows."""
    line = widgets.HTML(
        f'<div role="note"><b>This panel is asleep:</b> its sliders move nothing. {_WAKE}</div>'
    )
    line.add_class("hemcalc-asleep")
    return line


def picture_wide(width: float, height: float) -> str:
    """How wide a picture of so many inches may become: until it is as high as what is seen of a page.

    A page may say with `--hemcalc-around` how much of the window is taken by what stands round it;
    without that it is what a notebook in the lab leaves.
    """
    seen = f"calc((100vh - var(--hemcalc-around, 250px)) * {width / height:.3f})"
    return f"min({round(100 * _LARGEST * width)}px, {seen})"


def close_widgets(widget: Any) -> None:
    """Close a widget with all that is in it but what is shared; ipywidgets closes the outermost alone."""
    if SHARED in getattr(widget, "_dom_classes", ()):
        return
    for child in getattr(widget, "children", ()):
        close_widgets(child)
    for part in (getattr(widget, name, None) for name in ("layout", "style")):
        if part is not None:
            part.close()
    widget.unobserve_all()
    widget.close()


def said_html(text: str, more: str = "") -> str:
    """Words that are read out by a screen reader when they change, a line each; and `more`, as HTML."""
    lines = "<br>".join(html.escape(line) for line in text.splitlines())
    return f'<div role="status" style="line-height:1.4">{lines}{more}</div>'


class OnPage:
    """What a notebook shows as a widget, and lets go when its cell is run again; its words are kept."""

    #: All of it, of ipywidgets.
    widget: Any
    _closed: str | None = None
    #: What is asked for even after it was let go.
    _keeps: tuple[str, ...] = ()

    @property
    def closed(self) -> bool:
        """Whether it was let go."""
        return self._closed is not None

    def in_words(self) -> str:
        """What it says, for where no widget runs."""
        raise NotImplementedError

    def in_html(self) -> str:
        """The same for a page."""
        return f"<p>{html.escape(self.in_words())}</p>"

    def close(self) -> None:
        """Let go of widgets, pictures and plans, once the page no longer shows them; its words are kept."""
        if self.closed:
            return
        words, kept = self.in_words(), {name: vars(self)[name] for name in self._keeps}
        close_widgets(self.widget)
        vars(self).clear()
        vars(self).update(kept, _closed=words)

    def _repr_mimebundle_(self, **kwargs: Any) -> dict[str, Any]:
        """The widget, and its words for where no widget runs."""
        if self._closed is not None:
            return {"text/plain": self._closed}
        show(self)
        alive: dict[str, Any] = dict(self.widget._repr_mimebundle_(**kwargs))
        return alive | {"text/plain": self.in_words(), "text/html": self.in_html()}


def classed(widget: Any, *names: str) -> Any:
    """The widget, with these classes."""
    for name in names:
        widget.add_class(name)
    return widget


class Followers:
    """Methods that are called together, none of which keeps its object alive."""

    def __init__(self) -> None:
        self._methods: list[WeakMethod[Callable[[], None]]] = []

    def add(self, method: Callable[[], None]) -> None:
        """Have this method called, as long as its object lives."""
        self._methods.append(WeakMethod(method))

    def tell(self) -> None:
        """Call each; those whose object is gone, or was let go by its page, are forgotten."""
        alive = [
            (kept, method)
            for kept in self._methods
            if (method := kept()) and not getattr(getattr(method, "__self__", None), "closed", False)
        ]
        self._methods = [kept for kept, _ in alive]
        for _, method in alive:
            method()
