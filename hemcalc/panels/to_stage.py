"""From a panel in a notebook to the same panel on the stage."""

from __future__ import annotations

import html
import webbrowser
from typing import Any

import ipywidgets as widgets

from hemcalc.launch.stage import running
from hemcalc.panels.fields import button


def to_stage(name: str) -> Any:
    """A button that opens this panel on the stage or, where none runs, says how it is started."""
    said = widgets.HTML()

    def press() -> None:
        page = running(name)
        if page is not None:
            webbrowser.open(page.as_uri())
            said.value = "The stage is open in another tab of your browser."
        else:
            command = html.escape(f"python3 -m hemcalc stage {name}")
            said.value = (
                "For a wall or a hall, leave this one running, open a second terminal in the project's "
                f"folder and type <code>{command}</code>"
            )

    return widgets.HBox([button("On the stage", press), said])
