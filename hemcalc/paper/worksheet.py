"""Sums on paper: a worksheet for the class, and its key for the leader, as PDF.

Pages are A4 or US Letter, in black and white, with a bar to hold a ruler against: if it is not
as long as it says, the printer has scaled the page.
"""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeAlias

from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from hemcalc.draw.look import INK, PAPER
from hemcalc.measure.errors import HemError, shown
from hemcalc.paper.formats import PaperSize, paper_size
from hemcalc.paper.leaflet import pdf_of, printing
from hemcalc.piece.files import write_file
from hemcalc.sums.exercises import Exercise

__all__ = ["save_worksheet"]

_MARGIN = 0.8  # inches, all round; printers leave a quarter of an inch unprinted
_TEXT = 10.5  # points
_LINE = 0.21  # inches from one line of text to the next
_ROOM = 0.34  # inches for a number to be written in
_ACROSS = 84  # letters that a line of text holds on both papers
_FOOT = 0.8  # inches that the ruler's bar and its words take
_Block: TypeAlias = list[tuple[str, float, bool]]  # lines: text, height, whether one writes behind it
_INVENTED = "The workshop, its guild and every number here are invented."


def save_worksheet(
    path: str | Path,
    exercises: Sequence[Exercise],
    *,
    paper: str = "A4",
    key: bool = False,
    title: str = "Hemstitched edges: sums",
    replace: bool = False,
) -> Path:
    """Save exercises as a PDF to print: the worksheet, or the leader's key with the working.

    Parameters
    ----------
    path : str or Path
        Where to, such as ``"sums.pdf"``.
    exercises : sequence of Exercise
        From `hemcalc.exercise` or `hemcalc.class_set`.
    paper : str
        ``"A4"`` or ``"Letter"``.
    key : bool
        Whether the right numbers and their working are printed, for the leader.
    title : str
        Stands at the top of each page.
    replace : bool
        Whether a file that is there already may be overwritten.

    Returns
    -------
    Path
        The file.

    Raises
    ------
    HemError
        If there is such a file and it may not be replaced, there is no such folder, or the
        exercises or the paper are none.

    Examples
    --------
    >>> import tempfile
    >>> from hemcalc import class_set
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     save_worksheet(f"{folder}/sums.pdf", class_set(3), paper="Letter").name
    'sums.pdf'
    """
    sheet = paper_size(paper)
    if not isinstance(exercises, Sequence) or not all(isinstance(sums, Exercise) for sums in exercises):
        raise HemError("exercises must be a list of exercises; for example class_set(3).", "exercises")
    if not exercises:
        raise HemError(
            "exercises is empty, but must have one at least; for example class_set(3).", "exercises"
        )
    if not isinstance(path, str | Path) or not str(path).lower().endswith(".pdf"):
        raise HemError(f"path is {shown(path)}, but must end in .pdf; for example 'sums.pdf'.", "path")
    # Drawn in full before the file is touched, so that a failure leaves nothing half written.
    pages = _pdf(exercises, sheet, key=key, title=title)
    write_file(path, pages, replace=replace)
    return Path(path)


def _pdf(exercises: Sequence[Exercise], paper: PaperSize, *, key: bool, title: str) -> bytes:
    inches = paper.width / 25.4, paper.height / 25.4
    pages = _paged([_lines(i, sums, key) for i, sums in enumerate(exercises, 1)], inches[1])
    heading = f"{title}: key for the leader" if key else title
    with printing():
        figures = [
            _page(blocks, inches, heading, f"page {number} of {len(pages)}", named=not key)
            for number, blocks in enumerate(pages, 1)
        ]
    return pdf_of(title, paper, figures)


def _lines(number: int, sums: Exercise, key: bool) -> _Block:
    """An exercise as lines."""
    told = textwrap.wrap(f"{number}.  {sums.text}", _ACROSS, subsequent_indent="     ")
    lines = [(line, _LINE, False) for line in told]
    worked = sums.key
    for asked in sums.asked:
        if key:
            answer = f"{asked.name}:  {worked[asked.name].line}"
            lines += [(line, _LINE, False) for line in textwrap.wrap(f"     {answer}", _ACROSS)]
        else:
            wrapped = textwrap.wrap(f"     {asked.sentence}", _ACROSS - 20, subsequent_indent="     ")
            last = len(wrapped) - 1
            lines += [(line, _LINE if i else _ROOM, i == last) for i, line in enumerate(wrapped)]
    return [*lines, ("", 0.6 * _LINE, False)]


def _paged(blocks: list[_Block], height: float) -> list[list[_Block]]:
    """The blocks page by page, none of them broken."""
    room = height - 2 * _MARGIN - _FOOT - 0.75
    pages: list[list[_Block]] = [[]]
    left = room
    for block in blocks:
        tall = sum(line[1] for line in block)
        if tall > left and pages[-1]:
            pages.append([])
            left = room
        pages[-1].append(block)
        left -= tall
    return pages


def _page(
    blocks: list[_Block],
    paper: tuple[float, float],
    heading: str,
    foot: str,
    *,
    named: bool,
) -> Figure:
    width, height = paper
    figure = Figure(figsize=paper, facecolor=PAPER)
    right = width - _MARGIN

    def write(x: float, y: float, text: str, size: float = _TEXT, **how: Any) -> None:
        figure.text(x / width, y / height, text, fontsize=size, color=INK, va="baseline", **how)

    def rule(xs: tuple[float, float], ys: tuple[float, float], thick: float = 0.8) -> None:
        line = Line2D([x / width for x in xs], [y / height for y in ys], color=INK, linewidth=thick)
        figure.add_artist(line)

    y = height - _MARGIN
    write(_MARGIN, y, heading, 14, weight="bold")
    if named:
        write(right - 2.6, y - 0.32, "name")
        rule((right - 2.1, right), (y - 0.34, y - 0.34))
    y -= 0.75
    for block in blocks:
        for text, tall, blank in block:
            y -= tall
            write(_MARGIN, y, text)
            if blank:
                rule((right - 1.6, right), (y - 0.03, y - 0.03))
    _ruler_bar(write, rule)
    write(_MARGIN, _MARGIN - 0.15, _INVENTED, 8)
    write(right, _MARGIN - 0.15, foot, 8, ha="right")
    return figure


def _ruler_bar(write: Callable[..., None], rule: Callable[..., None]) -> None:
    """Ten centimetres along the top of the bar, four inches along its foot."""
    y, cm = _MARGIN + 0.42, 1 / 2.54
    rule((_MARGIN, _MARGIN + 10 * cm), (y, y), 1.2)
    for mark in range(11):
        tall = 0.16 if mark % 5 == 0 else 0.1
        rule((_MARGIN + mark * cm, _MARGIN + mark * cm), (y, y + tall))
    for mark in range(4):
        rule((_MARGIN + mark, _MARGIN + mark), (y, y - 0.14))
    words = "Hold a ruler against it: 10 cm above, 3 in"
    write(_MARGIN + 10 * cm + 0.15, y + 0.05, words, 8)
    write(_MARGIN + 10 * cm + 0.15, y - 0.1, "below. If not, print it unscaled.", 8)
