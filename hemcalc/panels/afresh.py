"""A box to have one of her pages as it was; hers is kept beside it."""

from __future__ import annotations

from pathlib import Path

import ipywidgets as widgets

import hemcalc
from hemcalc.launch.own_pages import afresh, originals
from hemcalc.measure.errors import HemError
from hemcalc.panels.page import OnPage, said_html

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
