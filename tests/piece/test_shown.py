"""How what piece, stitch, finish, sums and books hand out shows itself: a line, words, tables."""

import importlib
import inspect
import re
from xml.etree import ElementTree

import pytest
from cases import for_each
from pandas.api.types import is_bool_dtype, is_numeric_dtype

from hemcalc import Fabric, Kit, Piece, open_line, plan_section
from hemcalc.books import book_ranges, comparisons
from hemcalc.corner import basted_lines
from hemcalc.draw import draw_corner, draw_edge, draw_open_line, draw_section, draw_weave
from hemcalc.finish import Pace, counting_plan, finish_steps, hours, rescue
from hemcalc.measure import Length
from hemcalc.paper import gauge_card, paper_mitre
from hemcalc.piece import EXAMPLES, Sides
from hemcalc.stitch import (
    Sample,
    hem_stitch,
    needlefuls,
    piece_spacings,
    space_stitches,
    suggest_clear,
    thread_needed,
)
from hemcalc.sums import check, from_example, judge
from hemcalc.weave import steps_at, ways_at

FRONTS = ("piece", "stitch", "finish", "sums")


def all_of(name):
    """One of each thing that is handed out, for a piece."""
    piece = EXAMPLES[name]
    left, corner, weave = piece.edges_in_hand.left, piece.corners.top_left, open_line(piece)
    report = check(piece, {"first drawn": 3, "total": 31, "cut across": "11 in", "hem": None})
    return (
        piece,
        *(piece.clear, piece.edges, piece.corners, piece.cut_size, piece.finished_size, piece.trimmed_size),
        *(piece.cut_size.across, piece.fits("12 in")),
        *(piece_spacings(piece), piece_spacings(piece).top, hem_stitch("4 mm", "2 mm", "0.5 mm")),
        *(thread_needed(piece), Sample(20, "27 cm"), suggest_clear(piece, 12)[0]),
        *(steps := finish_steps(piece), steps[0], counting_plan(piece)),
        *(rescue(piece, "wrong thread drawn"), took := hours(piece), took.spells[0], Pace(), Pace(15, 40)),
        *(report, *report, judge(31, 37), from_example(name)),
        *(piece.fabric, piece.fabric.across, *piece.edges_in_hand, *left.bands, left.rule),
        *(plan_section(left, "0.3 mm"), corner, *corner.landings, *basted_lines(corner)),
        *(weave, weave.cloth, weave.allowances, *weave.tails),
        *(*steps_at(weave, "top left"), *ways_at(weave, "top left")),
    )


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_says_in_a_line_what_a_person_wants_to_know(name):
    for thing in all_of(name):
        line = repr(thing)
        assert len(line.splitlines()) == 1
        assert len(line) <= 100, line
        assert not re.search(r"Fraction\(|<.* at 0x|[a-z]=", line), line


def test_nothing_that_is_exported_is_left_out():
    shown = {type(thing).__name__ for thing in all_of("coaster")}
    for package in FRONTS:
        front = importlib.import_module(f"hemcalc.{package}")
        named = {name for name in front.__all__ if inspect.isclass(getattr(front, name))}
        assert named <= shown


@for_each("name", EXAMPLES)
def test_the_numbers_in_the_line_are_its_own(name):
    piece = EXAMPLES[name]
    across, down = piece.design
    assert repr(piece).startswith(f"Piece({across} × {down} threads on ")
    assert f"hem {piece.hem}" in repr(piece)
    plan = thread_needed(piece)
    assert repr(plan).startswith(f"ThreadPlan({plan.stitches} stitches, ")
    assert repr(plan).endswith(f"buy {plan.buy().text('cm')})")
    assert repr(piece.cut_size).startswith("Size(cut ")
    assert repr(piece.finished_size).startswith("Size(finished ")
    across, raw = repr(piece.cut_size.across), not piece.fabric.washed
    assert (" after the wash, " in across, across.endswith(" before it)")) == (raw, raw)
    steps = finish_steps(piece)
    assert repr(steps) == f"Steps({len(steps)}, from {steps[0].title} to {steps[len(steps) - 1].title})"


def test_sides_are_said_as_far_as_a_line_of_100_characters_holds_them():
    ten = 10**81  # "Sides(all sides: )" is 18 characters, and it 82
    assert repr(Sides(ten, ten, ten, ten)) == f"Sides(all sides: {ten})"
    ten *= 10
    assert repr(Sides(ten, ten, ten, ten)) == "Sides(int, all sides)"


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_table_in_a_notebook_heads_its_columns_and_rows(name):
    tables = [thing for thing in (*all_of(name), comparisons("group")) if hasattr(thing, "_repr_html_")]
    assert len(tables) >= 7
    for thing in tables:
        table = ElementTree.fromstring(thing._repr_html_())
        assert table.tag == "table"
        assert table.findtext("caption")
        columns = table.findall("thead/tr/th")
        assert {th.get("scope") for th in columns} == {"col"}
        for row in table.findall("tbody/tr"):
            assert [cell.tag for cell in row] == ["th"] + ["td"] * (len(columns) - 1)
            assert row[0].get("scope") == "row"


@for_each("name", EXAMPLES)
def test_a_size_has_each_number_under_its_heading(name):
    for size in (EXAMPLES[name].cut_size, EXAMPLES[name].finished_size):
        table = ElementTree.fromstring(size._repr_html_())
        heads = [th.text for th in table.findall("thead/tr/th")]
        assert len(table.findall("tbody/tr")) == 2
        for at, row in enumerate(table.findall("tbody/tr")):
            cells = dict(zip(heads, (cell.text for cell in row), strict=True))
            lengths = [Length(cells[f"{when} the wash"].removeprefix("≈ ")) for when in ("before", "after")]
            for length, exact in zip(lengths, (size.before[at], size.after[at]), strict=True):
                assert abs(length.mm - exact.mm) <= Length("1/32 in").mm
            assert (cells["way"], cells["threads"]) == (("across", "down")[at], str(size.threads[at]))
            assert cells.get("to cut") == (size.to_cut("in")[at].text("in") if size.use == "to cut" else None)


def test_tables_have_numbers_as_numbers():
    plan = thread_needed(EXAMPLES["sampler"])
    table = plan.table("m")
    assert all(is_numeric_dtype(table[column]) for column in table)
    assert list(table.columns) == ["stitches", "least, m", "middle, m", "most, m"]
    assert table.loc["hem stitch", "most, m"] == pytest.approx(plan.hem.high_mm / 1000)
    assert table.loc["hem stitch", "middle, m"] == pytest.approx(plan.hem.middle_mm / 1000)
    assert table.loc["basting", "least, m"] == pytest.approx(plan.basting.low_mm / 1000)

    shown = [
        [cell.text or "" for cell in row] for row in ElementTree.fromstring(plan._repr_html_()).iter("tr")
    ]
    assert [row[1] for row in shown[1:]] == [str(plan.stitches), str(plan.seam_stitches), ""]
    assert [row[2] for row in shown[1:]] == [each.text("cm") for each in (plan.hem, plan.seams, plan.basting)]

    spacing = space_stitches(26)
    assert spacing.table()["threads"].sum() == 26
    assert spacing.table()["groups"].sum() == spacing.count
    shown = ElementTree.fromstring(spacing._repr_html_()).findall("tbody/tr")
    assert [sum(int(row[at].text) for row in shown) for at in (0, 2)] == [spacing.count, 26]

    steps = finish_steps(EXAMPLES["sampler"])
    assert list(steps.table().index) == [step.number for step in steps]
    assert list(steps.table()["what to do"]) == [step.task for step in steps]

    report = check(EXAMPLES["coaster"], {"hem": 9, "total": 3})
    assert list(report.table()["verdict"]) == [mark.verdict for mark in report]

    compared = comparisons("mitre allowance", "group")
    table = compared.table()
    assert list(table.index) == [each.row.id for each in compared]
    assert list(table["ours, most"]) == [float(each.ours[1]) for each in compared]
    for column in ("theirs, least", "theirs, most", "ours, least", "ours, most", "difference"):
        assert is_numeric_dtype(table[column])
    assert is_bool_dtype(table["agrees"])
    assert "why it differs" not in compared._repr_html_()
    assert "why it differs" in comparisons("rounding")._repr_html_()
    # Topics stand in the order of the rows.
    assert list(comparisons("corner", "piece").by_topic().index) == ["piece", "corner"]


def test_words_have_their_parts():
    spacing = space_stitches(26)
    assert spacing.text() == f"Work {spacing.order}."
    size = EXAMPLES["coaster"].cut_size
    assert size.text("cm") == "cut {} ({})".format(*size.parts("cm"))
    assert repr(book_ranges("threads drawn")) == "BookRanges(threads drawn: 2 to 10 threads)"
    steps = finish_steps(EXAMPLES["coaster"])
    assert steps.text().splitlines() == [step.text() for step in steps]


@pytest.mark.parametrize("count", ["28/in", "11/cm"])
def test_a_piece_speaks_the_unit_of_its_cloth_where_none_is_asked_for(count):
    fabric = Fabric(count, "80/10 cm" if "cm" in count else "54/2 in", shrink_warp="3 %", shrink_weft="2 %")
    piece = Piece(fabric, (104, 90), hem="1 cm", clear=8)
    kit, side = Kit("Ada", piece), piece.edges.left
    own, other = ("cm", "in") if "cm" in count else ("in", "cm")
    said = [size.text() for size in (piece.cut_size, piece.trimmed_size, piece.finished_size)]
    said += [str(piece.fabric.down_washed), piece.fits("14 in").text(), finish_steps(piece).text()]
    said += [kit.cloth_text(), *(size.text(own) for size in kit.to_cut()), suggest_clear(piece)[0].text()]
    corner = piece.corners.top_left
    stills = (draw_edge(side), draw_section(plan_section(side, "0.4 mm")), draw_corner(corner))
    stills += (draw_weave(open_line(piece), step=9), draw_open_line(space_stitches(83), side.count))
    said += [still.alt for still in stills]
    said += [paper(kit).pages[0].alt for paper in (gauge_card, paper_mitre)]
    assert not [text for text in said if re.search(rf"\d[ /]{other}\b", text)]
    assert side.table().columns[-1].startswith(f"width, {own}")
    asked = piece.cut_size.text(other)
    assert re.search(rf"\d {other}\b", asked)


def test_lengths_of_thread_may_be_typed():
    assert needlefuls(3000.0, "50 cm", "10 cm") == 8
