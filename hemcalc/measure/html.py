"""A table as a notebook shows it: plain HTML whose header cells say what they head.

A screen reader speaks a cell's column and row with it, so every column has a header, and the
first cell of each row is that row's.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape


def table_html(columns: Sequence[str], rows: Iterable[Sequence[str]], caption: str) -> str:
    """The rows as an HTML table; whatever stands in them is text, and never mark-up.

    The first column heads the rows.

    Examples
    --------
    >>> print(table_html(["band", "threads"], [["clear", "8"]], "One edge"))
    <table>
    <caption>One edge</caption>
    <thead><tr><th scope="col">band</th><th scope="col">threads</th></tr></thead>
    <tbody>
    <tr><th scope="row">clear</th><td>8</td></tr>
    </tbody>
    </table>
    """
    head = "".join(f'<th scope="col">{escape(column)}</th>' for column in columns)
    lines = ["<table>", f"<caption>{escape(caption)}</caption>", f"<thead><tr>{head}</tr></thead>", "<tbody>"]
    for row in rows:
        first, *rest = (escape(cell) for _, cell in zip(columns, row, strict=True))
        cells = "".join(f"<td>{cell}</td>" for cell in rest)
        lines.append(f'<tr><th scope="row">{first}</th>{cells}</tr>')
    return "\n".join([*lines, "</tbody>", "</table>"])
