"""The notebooks as tests of one process: a cell must show what is saved of it, as with nbval."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import nbformat
import pytest
from ipykernel.inprocess.manager import InProcessKernelManager

sys.path.insert(0, str(Path(__file__).parents[1] / "notebooks"))
from treated import shown


class Page(pytest.Item):
    """A notebook, from top to bottom. nbval has a kernel in another process, which would not see a change."""

    def runtest(self) -> None:
        """Stop at the first cell that shows anything else, or fails."""
        manager = InProcessKernelManager()
        manager.start_kernel()
        client = manager.client()
        client.start_channels()
        for cell in nbformat.read(self.path, as_version=4).cells:
            if cell.cell_type == "code":
                client.execute(cell.source)
                outputs = []
                while client.iopub_channel.msg_ready():
                    said = client.get_iopub_msg()
                    outputs.append({"output_type": said["msg_type"], **said["content"]})
                assert not any("traceback" in output for output in outputs)
                assert shown(outputs) == shown(cell.outputs)


class Pages(pytest.File):
    """A notebook's file."""

    def collect(self) -> Iterator[Page]:
        """It is one test."""
        yield Page.from_parent(self, name="page")


def pytest_collect_file(file_path: Path, parent: pytest.Collector) -> Pages | None:
    """Every notebook is such a file."""
    return Pages.from_parent(parent, path=file_path) if file_path.suffix == ".ipynb" else None
