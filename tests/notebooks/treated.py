"""Treats each notebook as a learner may, and tells where she is answered by more or less than a sentence.

    python tests/notebooks/treated.py [NAME ...] [--orders N] [--seed N]

On a kernel as `open` starts it, cells are run from each one on as after a restart, without each one as if she
had deleted it, each twice, and all in random orders; and into each box go answers of every wrong kind. A cell
then shows what it shows from top to bottom, or a sentence. What is printed is all else: a traceback, another
number, a box that says nothing or fails. A cell that is missing is missed by those alone that its names
reach: they are run then, and the rest in the orders. A notebook takes a minute or more; test_treated.py has a
small part.
"""

from __future__ import annotations

import argparse
import ast
import os
import random
import re
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import nbformat
from jupyter_client.manager import start_new_kernel
from nbval.plugin import get_sanitize_patterns

from hemcalc.launch.lab import answer_in_sentences

HERE = Path(__file__).parent
FOLDER = HERE.parents[1] / "notebooks"
RULES = get_sanitize_patterns((HERE / "sanitize.cfg").read_text("ascii"))
SEEN = ("text/plain", "text/html")
PATIENCE = 120  # seconds for a cell
LONGEST = 400  # characters of a sentence
ANSWERS = "import wrong_answers\nprint(*wrong_answers.tried([*Out.values(), *globals().values()]), sep='\\n')"


class Page:
    """The code cells of a notebook, and one kernel that is made to forget between trials."""

    def __init__(self, path: Path, client: Any) -> None:
        cells = nbformat.read(path, as_version=4).cells
        self.cells = [cell for cell in cells if cell.cell_type == "code"]
        self.saved = [shown(cell.outputs) for cell in self.cells]
        self.made, self.read = (
            [names(cell.source, kind) for cell in self.cells] for kind in (ast.Store, ast.Load)
        )
        self.sentences: Counter[str] = Counter()
        self._client = client

    def run(self, code: str, cell: str = "") -> list[dict[str, Any]]:
        """What the kernel shows when this is run as the cell of that name."""
        asked = {"code": code, "silent": False, "store_history": True, "allow_stdin": False}
        asked["stop_on_error"] = False  # ipykernel 6 gives up what is asked for too soon after what failed
        message = self._client.session.msg("execute_request", asked)
        message["metadata"]["cellId"] = cell  # as the lab names it
        self._client.shell_channel.send(message)
        outputs = []
        while True:
            answer = self._client.get_iopub_msg(timeout=PATIENCE)
            if answer["parent_header"].get("msg_id") != message["header"]["msg_id"]:
                continue
            outputs.append({"output_type": answer["msg_type"], **answer["content"]})
            if answer["content"].get("execution_state") == "idle":
                return outputs

    def amiss(self, order: Sequence[int]) -> Iterator[str]:
        """Run these cells where nothing is known yet; what shows neither what is saved nor a sentence."""
        self.run("%reset -f")
        for at in order:
            outputs = self.run(self.cells[at].source, self.cells[at].id)
            now, said = (
                shown(outputs),
                ["\n".join(each["traceback"]) for each in outputs if "traceback" in each],
            )
            self.sentences.update(said)
            if wrong := [text for text in said if not is_sentence(text)]:
                yield f"cell {at}: no sentence: {wrong[0][:LONGEST]}"
            # A cell that stops half-way has shown the first of what it shows.
            elif not (self.saved[at].startswith(now) if said else now == self.saved[at]):
                yield f"cell {at}: shows {now[:200]!r}"

    def trials(self, orders: int, seed: int) -> Iterator[tuple[str, list[int]]]:
        """Each trial by name, and the cells that it runs."""
        every = list(range(len(self.cells)))
        for at in every:
            if missing := self.reached(at):
                needed = {cell for each in missing for cell in (each, *self.needed(each))}
                yield f"cell {at} deleted", sorted(needed - {at})
                yield f"restarted before cell {at + 1}", sorted(needed - set(range(at + 1)))
        yield "each twice, then all again", sorted(every * 2) + every
        for number in range(seed, seed + orders):
            yield f"order {number}", random.Random(number).sample(every, len(every))

    def needed(self, at: int) -> set[int]:
        """The cells whose names this one needs, by what they need in their turn."""
        before = {cell for cell in range(at) if self.made[cell] & self.read[at]}
        return before.union(*(self.needed(cell) for cell in before))

    def reached(self, at: int) -> list[int]:
        """The cells that need this one."""
        return [cell for cell in range(at + 1, len(self.cells)) if at in self.needed(cell)]

    def answers(self) -> Iterator[str]:
        """What is amiss when every box of the page is given answers of every wrong kind."""
        for cell in ["%reset -f", *(cell.source for cell in self.cells)]:
            self.run(cell)
        for output in self.run(ANSWERS):
            yield from filter(None, "\n".join(output.get("traceback", [output.get("text", "")])).splitlines())


def names(source: str, kind: type[ast.expr_context]) -> set[str]:
    """The names that a cell makes (`Store`, and imports) or reads (`Load`)."""
    nodes = list(ast.walk(ast.parse(source)))
    imported = {alias.name for node in nodes if isinstance(node, ast.ImportFrom) for alias in node.names}
    found = {node.id for node in nodes if isinstance(node, ast.Name) and isinstance(node.ctx, kind)}
    return found | imported if kind is ast.Store else found


def shown(outputs: Iterable[dict[str, Any]]) -> str:
    """What nbval would compare of them, in one text."""
    texts = []
    for output in outputs:
        data = output.get("data", {})
        texts += [output["text"]] if output["output_type"] == "stream" else []
        texts += [f"\n{kind}: {data[kind]}" for kind in SEEN if kind in data]
    text = "".join(texts)
    for rule, instead in RULES:
        text = re.sub(rule, instead, text)
    return text


def is_sentence(text: str) -> bool:
    """Whether it is what a learner can read: a line or two, and nothing of Python's insides."""
    return 0 < len(text) <= LONGEST and not re.search(r"\n|Traceback|File |\x1b", text)


@contextmanager
def opened(path: Path) -> Iterator[Page]:
    """The page on a kernel of its own, started as `open` has the lab start it, in a passing folder."""
    with tempfile.TemporaryDirectory() as passing:
        variables = os.environ | {"IPYTHONDIR": passing, "HEMCALC_SETTINGS": ""}
        variables["PYTHONPATH"] = os.pathsep.join([str(FOLDER.parent), str(HERE)])
        answer_in_sentences(variables)
        manager, client = start_new_kernel(
            kernel_name="python3", cwd=passing, env=variables, stderr=subprocess.DEVNULL
        )
        try:
            yield Page(path, client)
        finally:
            client.stop_channels()
            manager.shutdown_kernel(now=True)


if __name__ == "__main__":
    asked = argparse.ArgumentParser()
    asked.add_argument("names", nargs="*", default=sorted(path.stem for path in FOLDER.glob("*.ipynb")))
    asked.add_argument("--orders", type=int, default=5)
    asked.add_argument("--seed", type=int, default=1)
    chosen, found, sentences = asked.parse_args(), 0, Counter()
    for name in chosen.names:
        with opened(FOLDER / f"{name}.ipynb") as page:
            trials = list(page.trials(chosen.orders, chosen.seed))
            wrong = [f"{trial}: {said}" for trial, order in trials for said in page.amiss(order)]
            wrong += [f"an answer: {said}" for said in page.answers()]
        print(f"{name}: {len(trials)} trials, {len(wrong)} amiss", *wrong, sep="\n  ", flush=True)
        found += len(wrong)
        sentences += page.sentences
    print("said:", *(f"{many:5} {said}" for said, many in sentences.most_common()), sep="\n  ")
    sys.exit(found > 0)
