"""How quick hemcalc is, against the claims that are made of it: a table and ratios, in one run.

    python tests/bench/bench.py

It passes and fails nothing. Times are processor time of this process, so that other work on
the machine weighs less; what a reader waits for is printed beside them. Ratios are of times
taken in turn in the same run.

A *move* sets one slider of a panel from Python and ends when the finished picture, as it goes
to the page, is there: plan, view, PNG and HTML. No word has been set before, as in a class
that drags a slider for the first time; *again* is the same moves a second time.

*Anew* goes from the same values to the same picture as a notebook without a panel would: the
plan, a figure from `plt.subplots` of the same size and dpi, the same artists made by the same
view classes, every text set by matplotlib, saved by `savefig` as PNG, and closed; with
`bbox_inches="tight"`, which is what the inline figures of a notebook do, and without. Its axes
have no ticks either. The claim is held against the first.
"""

from __future__ import annotations

import io
import random
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest import mock

ROOT = Path(__file__).parents[2]
# As a script it is started from its own folder; it is to measure the hemcalc beside it.
sys.path.insert(0, str(ROOT))

IMPORT_RUNS = 9
IMPORT = """
import sys, time
before = time.process_time()
import {module}
print(time.process_time() - before)
print(*(name for name in ("matplotlib", "pandas", "ipywidgets", "numpy") if name in sys.modules))
"""


def ms(seconds: float) -> str:
    """In milliseconds."""
    return f"{1000 * seconds:.1f} ms"


def p95(times: Sequence[float]) -> float:
    """The time that nineteen in twenty don't exceed."""
    return sorted(times)[min(int(0.95 * len(times)), len(times) - 1)]


class Report:
    """Prints rows, and gathers which claims were met."""

    def __init__(self) -> None:
        self.claims: list[str] = []

    def row(self, *cells: str) -> None:
        """One row of the table."""
        print("  ".join(cell.ljust(width) for cell, width in zip(cells, (40, 15, 15, 15, 15), strict=False)))

    def claim(self, words: str, met: bool, found: str) -> None:
        """A claim, and whether this run bears it out."""
        self.claims.append(f"{'met    ' if met else 'NOT MET'}  {words}: {found}")


def imports(report: Report) -> None:
    """Import of hemcalc against matplotlib.pyplot, each in processes of its own, in turn."""
    times: dict[str, list[float]] = {"hemcalc": [], "matplotlib.pyplot": []}
    heavy = ""
    for run in range(IMPORT_RUNS + 1):
        for module, found in times.items():
            code = IMPORT.format(module=module)
            said = subprocess.run(
                [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
            ).stdout.split("\n")
            if run:  # the first may still compile
                found.append(float(said[0]))
            if module == "hemcalc":
                heavy = said[1]
    ours, theirs = (statistics.median(found) for found in times.values())
    report.row("import", "median", "least")
    for module, found in times.items():
        report.row(f"  {module}", ms(statistics.median(found)), ms(min(found)))
    report.claim("import at most a tenth of pyplot", ours <= theirs / 10, f"{ours / theirs:.3f}")
    report.claim("import brings in the standard library only", not heavy, heavy or "none other")


@contextmanager
def pyplot_figures() -> Iterator[None]:
    """Have the views make their figures by pyplot, with texts that matplotlib sets."""
    import matplotlib.pyplot as plt
    from matplotlib.text import Text

    from hemcalc.draw.look import PAPER, TYPE
    from hemcalc.draw.sheet import Sheet

    class PyplotSheet(Sheet):
        """A sheet on a figure of pyplot, whose artists are drawn with everything else."""

        def __init__(self, width: float, height: float, *, dpi: int = 100) -> None:
            self.figure, axes = plt.subplots(figsize=(width, height), dpi=dpi, facecolor=PAPER)
            axes.remove()
            self.type = TYPE["page"]

        def moving(self, axes: Any, *artists: Any) -> None:
            """Nothing is kept."""

    class PlainWord(Text):
        """A text set anew each time; on paper it has a white box, as the kept ones have."""

        def __setattr__(self, name: str, value: Any) -> None:
            if name == "on_paper" and value:
                self.set_bbox({"facecolor": PAPER, "edgecolor": "none", "pad": 1.0})
            super().__setattr__(name, value)

    with (
        mock.patch("hemcalc.panels.margin.Sheet", PyplotSheet),
        mock.patch("hemcalc.panels.corner.Sheet", PyplotSheet),
        mock.patch("hemcalc.panels.bolt.Sheet", PyplotSheet),
        mock.patch("hemcalc.draw.marks.Word", PlainWord),
    ):
        yield


def anew(plan: Callable[[Any], Any], picture: Callable[[], Any], values: Any, tight: bool) -> float:
    """Time from a panel's values to PNG by pyplot, from an empty figure on."""
    import matplotlib.pyplot as plt

    with pyplot_figures():
        forget()
        before = time.process_time()
        view = picture()
        view.update(plan(values))
        view.sheet.figure.savefig(io.BytesIO(), format="png", dpi=100, bbox_inches="tight" if tight else None)
        plt.close(view.sheet.figure)
        return time.process_time() - before


def forget() -> None:
    """Let no corner and no word be there already."""
    from hemcalc.draw.corner.mitre import landing_words
    from hemcalc.draw.lettering import lettering
    from hemcalc.panels.corner import corner_kept

    for kept in (lettering, landing_words, corner_kept):
        kept.cache_clear()


def moves(report: Report, title: str, panel: Any, picture: Callable[[], Any], name: str, values: Any) -> None:
    """Moves of one slider against drawing each of its pictures anew."""
    slider = panel.controls[name].widget
    forget()
    passes: list[list[tuple[float, float]]] = []
    seen: list[Any] = []
    for _ in ("first", "again"):
        taken = []
        for value in values:
            if value == slider.value:
                continue
            wall, cpu = time.perf_counter(), time.process_time()
            slider.value = value
            taken.append((time.process_time() - cpu, time.perf_counter() - wall))
            if not panel.sentences:
                seen.append(panel.values)
        passes.append(taken)
    cpu, wall = ([times[i] for times in passes[0]] for i in (0, 1))
    again = [times[0] for times in passes[1]]
    some = seen[: len(values) : max(len(values) // 8, 1)]
    anew(panel.plan, picture, some[0], True)  # the first brings pyplot in
    tight, plain = ([anew(panel.plan, picture, at, kind) for at in some] for kind in (True, False))
    report.row(f"{title}, {name}", "median", "p95", "waited median", "waited p95")
    report.row("  move", *(ms(f(times)) for times in (cpu, wall) for f in (statistics.median, p95)))
    report.row("  move, again", ms(statistics.median(again)), ms(p95(again)))
    report.row("  anew, tight", ms(statistics.median(tight)), ms(p95(tight)))
    report.row("  anew, plain savefig", ms(statistics.median(plain)), ms(p95(plain)))
    ratio = statistics.median(cpu) / statistics.median(tight)
    loose = statistics.median(cpu) / statistics.median(plain)
    report.claim(
        f"{title}, {name}: at most a fifth of anew",
        ratio <= 0.2,
        f"{ratio:.2f} ({loose:.2f} of plain savefig)",
    )
    report.claim(
        f"{title}, {name}: at most 50 ms",
        statistics.median(cpu) <= 0.05,
        f"median {ms(statistics.median(cpu))}, p95 {ms(p95(cpu))}",
    )


def panels(report: Report) -> None:
    """The panels that draw, at their normal size."""
    import matplotlib

    matplotlib.use("agg")
    from hemcalc.draw.sheet import Sheet
    from hemcalc.draw.stitch.open_line import OpenLineRows
    from hemcalc.draw.weave.lens import LENS_SHEET, WeaveLens
    from hemcalc.panels.bolt import BoltView, bolt_panel
    from hemcalc.panels.corner import CornerPicture, corner_panel
    from hemcalc.panels.margin import MarginPicture, margin_panel
    from hemcalc.panels.spacing import spacing_panel
    from hemcalc.panels.stitch import StitchPicture, stitch_panel
    from hemcalc.panels.weave import weave_panel

    def rows() -> OpenLineRows:
        return OpenLineRows(Sheet(9, 4.8), (0.01, 0.01, 0.98, 0.98), ((48, 3), (96, 5)), advice=True)

    folds = [i / 25 for i in range(26)]
    margin, corner = margin_panel(), corner_panel()
    moves(report, "margin", margin, MarginPicture, "clear", range(13))
    moves(report, "margin", margin, MarginPicture, "fold", folds)
    moves(report, "corner", corner, CornerPicture, "hem", corner.controls["hem"].widget.options[:12])
    moves(report, "corner", corner, CornerPicture, "fold", folds)
    moves(report, "spacing", spacing_panel(), rows, "design", range(70, 96))
    moves(report, "weave", weave_panel(), lambda: WeaveLens(Sheet(*LENS_SHEET)), "step", range(1, 41))
    moves(report, "stitch", stitch_panel(), StitchPicture, "step", range(10))
    # Of one size: the plan of several would be all that is measured.
    moves(report, "bolt", bolt_panel(), BoltView, "learners", range(1, 25))


def edges(report: Report) -> None:
    """Many edges with their rules."""
    from hemcalc import plan_edge

    wall, before = time.perf_counter(), time.process_time()
    holding = many = 0
    for per_inch in range(20, 40):
        for hem in range(1, 41):
            for clear in range(20):
                holding += plan_edge(f"{per_inch}/in", hem, clear=clear).rule.holds
                many += 1
    taken, waited = time.process_time() - before, time.perf_counter() - wall
    report.row("edges", "in all", "", "waited")
    report.row(f"  {many} planned, rule holds for {holding}", f"{taken:.2f} s", "", f"{waited:.2f} s")
    report.claim(f"{many} edges with their rules in under 2 s", taken < 2, f"{taken:.2f} s")


def spacing(report: Report) -> None:
    """The stitch groups of a side of a million threads, every group said."""
    from hemcalc import space_stitches

    space_stitches(999_999)  # the module is brought in first
    taken = []
    for threads in range(1_000_000, 1_000_020):
        before = time.perf_counter()
        many = len(space_stitches(threads).groups)
        taken.append(time.perf_counter() - before)
    report.row("spacing", "median", "p95", "")
    report.row(f"  {threads} threads in {many} groups", ms(statistics.median(taken)), ms(p95(taken)), "")
    report.claim("a million threads spaced in under 50 ms", p95(taken) < 0.05, ms(p95(taken)))


def layouts(report: Report) -> None:
    """Invented workshops laid out on a bolt: how long it takes, and how near the bound it comes."""
    from hemcalc import cut_from_bolt

    report.row("layouts on a bolt", "median", "longest", "widest gap", "proven best")
    for pieces, sizes, seconds, gap in ((24, 3, 2.0, None), (72, 3, 2.0, None), (200, 8, 10.0, 0.05)):
        taken, gaps = [], []
        for seed in range(20):
            wanted, width, turn = _invented(random.Random(seed), pieces, sizes)
            before = time.process_time()
            layout = cut_from_bolt(wanted, width, grain=turn)
            taken.append(time.process_time() - before)
            gaps.append(float(layout.gap_share))
        report.row(
            f"  {pieces} pieces, {sizes} sizes",
            f"{statistics.median(taken):.2f} s",
            f"{max(taken):.2f} s",
            f"{max(gaps):.1%}",
            f"{gaps.count(0)} of {len(gaps)}",
        )
        name = f"{pieces} pieces of {sizes} sizes"
        report.claim(f"{name} in at most {seconds:g} s", max(taken) <= seconds, f"{max(taken):.2f} s")
        if gap is not None:
            report.claim(f"{name} within {gap:.0%} of the bound", max(gaps) <= gap, f"{max(gaps):.1%}")


def _invented(chance: random.Random, pieces: int, sizes: int) -> tuple[list[Any], str, str]:
    """Sizes from 2 to 24 in, in sixteenths, on a usual bolt, turned or not."""
    from hemcalc.bolt import CutSize

    wanted = []
    for number in range(sizes):
        across, down = (f"{chance.randint(32, longest)}/16 in" for longest in (20 * 16, 24 * 16))
        wanted.append(CutSize(f"size {number}", across, down, pieces // sizes))
    width = chance.choice(["36 in", "55 in", "58 in", "140 cm"])
    return wanted, width, chance.choice(["fixed", "free"])


def pages(report: Report) -> None:
    """The class of twelve on paper, in one file, no picture of it drawn before."""
    import tempfile

    from hemcalc.paper import print_workshop
    from hemcalc.paper.artwork import drawn
    from hemcalc.workshop.example import example_workshop

    shop = example_workshop()
    taken = []
    for _ in range(3):
        drawn.cache_clear()
        with tempfile.TemporaryDirectory() as desk:
            before = time.process_time()
            (file,) = print_workshop(f"{desk}/autumn", shop)
            taken.append(time.process_time() - before)
            size = file.stat().st_size
    report.row("pages", "median", "longest", "size")
    report.row(
        f"  a class of {len(shop.kits)} in one file",
        f"{statistics.median(taken):.2f} s",
        f"{max(taken):.2f} s",
        f"{size / 1000:.0f} kB",
    )
    report.claim("a class of twelve printed in at most 9 s", max(taken) <= 9, f"{max(taken):.2f} s")


def main() -> None:
    """Measure everything and say which claims this run bears out."""
    report = Report()
    for measure in (imports, panels, edges, spacing, layouts, pages):
        measure(report)
    print("\nClaims, in this run:")
    print("\n".join(report.claims))


if __name__ == "__main__":
    main()
