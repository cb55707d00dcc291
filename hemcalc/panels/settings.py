"""Unit, hand, type and colours: set once for every panel of a kernel, and kept in the project's folder.

What isn't set is as each example has it. The file is a few words of JSON; whatever is wrong with it
is said beside the settings, and stops nothing.
"""

from __future__ import annotations

import html
import json
import os
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache, cached_property
from pathlib import Path
from types import MappingProxyType
from typing import Any

import ipywidgets as widgets

from hemcalc.draw.look import TYPE
from hemcalc.measure.errors import HemError, one_of
from hemcalc.measure.files import alone, read_file, write_file
from hemcalc.measure.units import UNITS
from hemcalc.panels.page import SHARED, Followers, classed
from hemcalc.stitch.groups import HANDS
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.workshop import Workshop

#: As the piece, the cloth or the example has it: nothing is set.
OWN = "as the example has it"
#: What can be set, and to what; the first means that nothing is set.
SETTINGS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "unit": (OWN, *UNITS),
        "hand": (OWN, *HANDS),
        "type": tuple(TYPE),
        "colours": ("in colour", "in greys"),
    }
)
#: Where it is kept, unless this variable names another file, or none.
FILE, ELSEWHERE = ".hemcalc.json", "HEMCALC_SETTINGS"

_VERSION = 1
_MAX_BYTES = 10_000  # bytes of a file that are read
#: Of every picture of a page on which the settings stand (each panel and form has them in a drawer), or that
#: is sent round by who has set them.
GREYS = "<style>.jp-Notebook img, .stage img, body > main img { filter: grayscale(1) }</style>"


class Settings:
    """What was set, and who follows it; read from a file, and kept there when it changes, if there is one.

    Examples
    --------
    >>> settings = Settings()
    >>> settings.choose("unit", "cm")
    >>> settings.chosen
    {'unit': 'cm'}
    >>> settings.choose("unit", OWN)
    >>> settings.chosen
    {}
    """

    def __init__(self, file: Path | None = None) -> None:
        self.file = file
        #: What can't be done with the file, in a sentence; empty if nothing is wrong.
        self.sentence = ""
        self.chosen: dict[str, str] = {}
        #: Whose methods are called when something was set.
        self.followers = Followers()
        if file is not None and os.path.exists(file):
            try:
                self.chosen = _read(file)
            except HemError as error:
                self.sentence, self.file = str(error), None

    def __getitem__(self, name: str) -> str:
        """What is set; the first of what can be, if nothing is."""
        return self.chosen.get(name, SETTINGS[name][0])

    @property
    def greys(self) -> bool:
        """Whether pictures and pages are to be in greys."""
        return self["colours"] == SETTINGS["colours"][1]

    def choose(self, name: str, value: str) -> None:
        """Set it, for every panel there is and will be; keep it in the file."""
        choices = SETTINGS[one_of(name, tuple(SETTINGS), "setting")]
        if one_of(value, choices, name) == self[name]:
            return
        self.chosen = {other: said for other, said in self.chosen.items() if other != name}
        if value != choices[0]:
            self.chosen[name] = value
        self._keep(name)
        self.followers.tell()

    def hold(self, name: str, value: str) -> None:
        """Have it so where nothing else is chosen in this kernel, whatever is in the file."""
        self.chosen[name] = value

    def follow(self, method: Callable[[], None]) -> None:
        """Have this method called whenever something was set, as long as its object lives."""
        self.followers.add(method)

    def _keep(self, name: str) -> None:
        """Put this setting into the file, beside those that another kernel may have put there since."""
        if self.file is None:
            return
        try:
            with alone(self.file):
                kept = _read(self.file) if os.path.exists(self.file) else {}
                kept.pop(name, None)
                kept |= {name: self.chosen[name]} if name in self.chosen else {}
                said = json.dumps({"version": _VERSION, **kept}, indent=2) + "\n"
                write_file(self.file, said.encode(), replace=True)
        except HemError as error:
            self.sentence, self.file = str(error), None

    @cached_property
    def menus(self) -> dict[str, Any]:
        """A list to choose from for each setting; each may be seen in several places."""
        self.follow(self.show)
        return {name: self._menu(name) for name in SETTINGS}

    @cached_property
    def controls(self) -> Any:
        """The lists in a row, and below them what is wrong with the file."""
        row = widgets.HBox(list(self.menus.values()), layout=widgets.Layout(flex_flow="row wrap"))
        self.show()
        return classed(widgets.VBox([row, self._said]), SHARED)

    def drawer(self) -> Any:
        """The controls in a closed drawer; they are the same ones wherever it is."""
        drawer = widgets.Accordion([self.controls], titles=("Unit, hand, type, colours: for every page",))
        drawer.selected_index = None
        return drawer

    @cached_property
    def _said(self) -> Any:
        return widgets.HTML()

    def _menu(self, name: str) -> Any:
        menu = widgets.Dropdown(
            options=SETTINGS[name],
            value=self[name],
            description=name,
            style={"description_width": "initial"},
            layout=widgets.Layout(width="initial"),
        )
        menu.observe(lambda change: self.choose(name, change["new"]), "value")
        return menu

    def show(self) -> None:
        """Have the lists say what is set, and what is wrong with the file."""
        for name, menu in self.menus.items():
            menu.value = self[name]
        style = GREYS if self.greys else ""
        self._said.value = f'{style}<div role="status">{html.escape(self.sentence)}</div>'


@cache
def in_force() -> Settings:
    """The settings of this kernel."""
    named = os.environ.get(ELSEWHERE)
    if named is not None:
        return Settings(Path(named) if named else None)
    folder = Path(__file__).resolve().parents[2]
    return Settings(folder / FILE if (folder / "pyproject.toml").is_file() else None)


def settings_panel() -> Any:
    """The settings of this kernel, to be shown in a notebook."""
    return in_force().controls


def as_set(thing: Any) -> Any:
    """A class in the unit that is set, a kit for the hand; all else, or with nothing set, as it is.

    In a class each learner has a hand of her own, and keeps it.
    """
    chosen = in_force().chosen
    if isinstance(thing, Workshop) and "unit" in chosen:
        return replace(thing, unit=chosen["unit"])
    if isinstance(thing, Kit) and "hand" in chosen:
        return replace(thing, hand=chosen["hand"])
    return thing


def _read(file: Path) -> dict[str, str]:
    """What the file says was chosen; refused if it can't be read, or says what this hemcalc doesn't know."""
    held = read_file(file, most=_MAX_BYTES)
    try:
        said = json.loads(held)
        version = said.pop("version")
        if type(version) is int and version > _VERSION:
            raise HemError(
                f"The settings in {file.name} were written by a newer hemcalc and are left alone, so what "
                "you set here holds until you close this page."
            )
        if (
            type(version) is bool
            or version != _VERSION
            or any(said[name] not in SETTINGS[name][1:] for name in said)
        ):
            raise ValueError
    except HemError:
        raise
    except (ValueError, TypeError, LookupError, AttributeError, RecursionError):
        raise HemError(
            f"The settings in {file.name} can't be read, so what you set here holds until you close this "
            "page; delete that file from the project's folder to have settings remembered again."
        ) from None
    return dict(said)
