"""A button for what is done only when it is asked for, such as writing a file."""

from __future__ import annotations

from collections.abc import Callable
from inspect import isbuiltin, isroutine, signature
from pathlib import Path
from typing import Any

import ipywidgets as widgets

import hemcalc
from hemcalc.launch.own_pages import afresh, originals
from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.panels.page import OnPage, said_html
from hemcalc.panels.settings import as_set, in_force


class DoButton(OnPage):
    """A button that does one thing, and says what came of it. Made by `do_button`."""

    def __init__(
        self, label: str, do: Callable[..., Any], things: tuple[object, ...], file: str = ""
    ) -> None:
        self.button = widgets.Button(description=label, layout=widgets.Layout(width="240px"))
        self._beside = widgets.HTML()
        self.widget = widgets.HBox([self.button, self._beside])
        self._do, self._things, self._file = do, things, file
        #: Whether it makes pages itself, which may be in greys.
        self._prints = isroutine(do) and not isbuiltin(do) and "greys" in signature(do).parameters
        self.said = ""
        self.button.on_click(lambda _: self.press())

    def press(self) -> None:
        """Do it; what is not possible is said in its sentence."""
        try:
            things, settings = [as_set(each) for each in self._things], in_force()
            if self._file:
                pages = self._do(*things, unit=settings.chosen.get("unit"))
                made = pages.save(self._file, greys=settings.greys)
            else:
                made = self._do(*things, **({"greys": True} if settings.greys and self._prints else {}))
            several = list(made) if isinstance(made, list | tuple) else [made]
            self.said = "Done" + "".join(f"; {each}" for each in several if each is not None) + "."
        except HemError as error:
            self.said = str(error)
        self._beside.value = said_html(self.said)

    def in_words(self) -> str:
        """What stands on the button."""
        return f"[{self.button.description}]"


def do_button(label: str, do: Callable[..., Any], *things: object, file: str = "") -> DoButton:
    """A button for what is done only when it is asked for, such as writing a file.

    Parameters
    ----------
    label : str
        What stands on the button.
    do : function
        What is done when it is pressed.
    *things : object
        What the function is given; a class in the unit, a kit for the hand that is set for every page.
    file : str, optional
        If the function makes pages: where they are saved, in the unit and the colours that are set.

    Examples
    --------
    >>> button = do_button("Add them", sum, [7, 2, 11])
    >>> button.button.click()
    >>> button.said
    'Done; 20.'
    """
    of_type(label, str, "label", "'Save it'")
    if not callable(do):
        raise HemError(f"do is {shown(do)}, but must be a function; for example save_piece.", "do")
    return DoButton(label, do, things, of_type(file, str, "file", "'coaster.pdf'"))


#: The checkout, in which the originals are.
CHECKOUT = Path(hemcalc.__file__).parents[1]


class AfreshBox(OnPage):
    """A list of the pages, a button, and what was done. Made by `afresh_box`."""

    def __init__(self, checkout: Path) -> None:
        self.checkout = checkout
        pages = [page.stem.replace("_", " ") for page in originals(checkout)]
        self.menu = widgets.Dropdown(options=pages, description="page", layout=widgets.Layout(width="380px"))
        self.button = widgets.Button(
            description="Give me this page afresh", layout=widgets.Layout(width="auto")
        )
        self.button.on_click(lambda _: self.give())
        self.beside = widgets.HTML()
        self.widget = widgets.VBox([widgets.HBox([self.menu, self.button]), self.beside])
        self.said = ""

    def give(self) -> None:
        """Put the original of the page chosen in the place of hers, and say where hers is kept."""
        try:
            self.said = afresh(self.checkout, (self.menu.value or "").partition(" ")[0])
        except HemError as error:
            self.said = str(error)
        self.beside.value = said_html(self.said)

    def in_words(self) -> str:
        """How to do without it."""
        return "Give me a page afresh: python3 -m hemcalc afresh 03"


def afresh_box() -> AfreshBox:
    """A box in which a page is chosen and had as it was, ready to be shown in a notebook."""
    return AfreshBox(CHECKOUT)
