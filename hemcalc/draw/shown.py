"""Which cell of a notebook shows what: when a cell is run again, what it showed before is let go.

IPython keeps every result that it showed, and ipywidgets every widget, so that a notebook that is run
all day would only grow. The page no longer has the old ones by then.
"""

from __future__ import annotations

import sys
from typing import Protocol


class Closable(Protocol):
    """What can be let go."""

    def close(self) -> None:
        """Let go of what takes much room."""


#: By cell: the run of it that showed something last, and what that showed.
_SHOWN: dict[str, tuple[str, list[Closable]]] = {}


def show(what: Closable) -> None:
    """Note that the cell that is being run shows this, and let go what an earlier run of it showed."""
    cell, run = _running()
    if not cell:
        return
    before, kept = _SHOWN.get(cell, ("", []))
    _SHOWN[cell] = run, [what, *(kept if run == before else ())]
    if run != before:
        here = {id(each) for _, each_kept in _SHOWN.values() for each in each_kept}
        for old in kept:
            if id(old) not in here:  # another cell may show it
                old.close()


def _running() -> tuple[str, str]:
    """The cell that is being run, as the page calls it, and this run of it; empty outside a notebook."""
    if "IPython" not in sys.modules:
        return "", ""
    shell = sys.modules["IPython"].get_ipython()
    asked = shell.get_parent() if hasattr(shell, "get_parent") else {}
    return asked.get("metadata", {}).get("cellId", ""), asked.get("header", {}).get("msg_id", "")
