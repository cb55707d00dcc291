"""What the fronts of measure, edge, corner, yarn and weave offer: how it prints, and what it refuses."""

from __future__ import annotations

import importlib
import inspect
import math
import operator
import re
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import product
from typing import Any
from xml.etree import ElementTree

import pandas as pd
import pytest
from hostile import LONG_NAME, NAMELESS, Hostile, LyingWhole
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc import EXAMPLES, Fabric, HemError, Length
from hemcalc.corner import basted_lines, plan_corner
from hemcalc.edge import MarginRule, plan_edge, plan_section, rule_table
from hemcalc.measure import Count, MeasuredCount, caution_for
from hemcalc.measure.errors import shown
from hemcalc.weave import Allowances, open_line, steps_at, ways_at
from hemcalc.yarn import (
    LinearDensity,
    cloth_yarn,
    diameter_by_volume,
    gap_ratio,
    pearl_cotton,
    peirce_diameter,
    tapestry_needle,
)

FRONTS = ("measure", "edge", "corner", "yarn", "weave")

EDGE = plan_edge("28/in", "3/8 in", clear=8)
SECTION = plan_section(EDGE, "0.5 mm")
CORNER = plan_corner(EDGE, plan_edge("26/in", "3/8 in", clear=8))
TABLE = rule_table("28/in", range(4, 9), (4, 8))
CLOTH = Fabric("28/in", "27/in", "0.5 mm", shrink_warp="8 %", shrink_weft="3 %")
MEASURED = Count.measured([28, 29], over="1 in")
PIECE = EXAMPLES["coaster"]
WEAVE = open_line(PIECE)
YARN = LinearDensity("20 tex")

#: One good call of each function and class that people call: what it is, and by name what it takes.
CALLS: dict[str, tuple[Callable[..., Any], dict[str, Any]]] = {
    "caution_for": (lambda tool: caution_for(tool), {"tool": "blade"}),
    "Count": (Count, {"threads": 28, "over": "1 in"}),
    "Count.measured": (Count.measured, {"readings": [28, 29], "over": "1 in", "confidence": "95 %"}),
    "Count.lying_over": (EDGE.count.lying_over, {"over": Length("1 in")}),
    "Count.stated": (EDGE.count.stated, {"state": CLOTH.state(washed=True)}),
    "Count.width": (EDGE.count.width, {"threads": 14}),
    "Count.sure_width": (MEASURED.sure_width, {"threads": 14}),
    "Count.threads_in": (EDGE.count.threads_in, {"length": "1/2 in"}),
    "Count.sure_threads_in": (MEASURED.sure_threads_in, {"length": "1/2 in"}),
    "Count.text": (EDGE.count.text, {"unit": "in"}),
    "Count.unit_or": (EDGE.count.unit_or, {"unit": "in"}),
    "MeasuredCount": (
        MeasuredCount,
        {"threads": 28, "over": Length("1 in"), "readings": (28, 28), "confidence": "95 %"},
    ),
    "MeasuredCount.worst": (MEASURED.worst, {"size": "10 in"}),
    "MeasuredCount.error_with": (MEASURED.error_with, {"places": 4}),
    "MeasuredCount.plus_minus_mm": (MEASURED.plus_minus_mm, {"size": "10 in"}),
    "Fabric": (
        Fabric,
        {
            "warp": "28/in",
            "weft": "27/in",
            "thickness": "0.5 mm",
            "shrink_warp": "8 %",
            "shrink_weft": 0,
            "washed": True,
        },
    ),
    "Fabric.in_hand": (CLOTH.in_hand, {"washed": True}),
    "Fabric.state": (CLOTH.state, {"washed": True}),
    "Fabric.unwashed_size": (CLOTH.unwashed_size, {"across": "10 in", "down": "8 in"}),
    "Length": (Length, {"mm": 5, "state": None}),
    "Length.text": (Length(5).text, {"unit": "in"}),
    "Length.number": (Length(5).number, {"unit": "in"}),
    "Length.stated": (Length(5).stated, {"state": CLOTH.state(washed=True)}),
    "Length.rounded_up": (Length(5).rounded_up, {"mark": "1/8 in"}),
    "plan_edge": (
        plan_edge,
        {"count": "28/in", "hem": "3/8 in", "clear": 8, "drawn": 2, "turn": 4, "handling": "1/2 in"},
    ),
    "Edge.width": (EDGE.width, {"threads": 11}),
    "Edge.table": (EDGE.table, {"unit": "in"}),
    "rule_table": (
        rule_table,
        {"count": "28/in", "hems": (4, 6), "clears": (4, 8), "drawn": 2, "handling": 0},
    ),
    "RuleTable.at": (TABLE.at, {"hem": 4, "clear": 8}),
    "RuleTable.narrowest": (TABLE.narrowest, {"clear": 8}),
    "plan_section": (plan_section, {"edge": EDGE, "thickness": "0.5 mm", "neutral": 0.5}),
    "Section.profile": (SECTION.profile, {"progress": 0.5}),
    "bend_length": (
        importlib.import_module("hemcalc.edge").bend_length,
        {"angle": 180, "inner_radius": 0.1, "thickness": 0.5, "neutral": 0.5},
    ),
    "neutral_share": (
        importlib.import_module("hemcalc.edge").neutral_share,
        {"measured": 2.1, "angle": 90, "inner_radius": 1, "thickness": 1},
    ),
    "plan_corner": (
        plan_corner,
        {"across": EDGE, "down": EDGE, "corner": "mitred", "allowance": "1/8 in", "order": "corner first"},
    ),
    "basted_lines": (basted_lines, {"corner": CORNER, "progress": 0.5}),
    "Corner.layers": (CORNER.layers, {"x": 1, "y": "1/8 in"}),
    "Corner.folding": (CORNER.folding, {"progress": 0.5}),
    "Corner.folded": (CORNER.folded, {"progress": 0.5}),
    "Corner.step": (CORNER.step, {"progress": 0.5}),
    "Corner.landings_table": (CORNER.landings_table, {"unit": "mm"}),
    "LinearDensity": (LinearDensity, {"tex": 20}),
    "LinearDensity.weighed": (LinearDensity.weighed, {"grams": 10, "length": "80 m"}),
    "LinearDensity.from_number": (LinearDensity.from_number, {"number": 60, "system": "Nm"}),
    "LinearDensity.number": (YARN.number, {"system": "den"}),
    "LinearDensity.text": (YARN.text, {"system": "den"}),
    "cloth_yarn": (cloth_yarn, {"across": "28/in", "down": "27/in", "grams_per_m2": 190, "crimp": "8 %"}),
    "diameter_by_volume": (diameter_by_volume, {"yarn": "20 tex", "fibre": "flax", "packing": 0.6}),
    "peirce_diameter": (peirce_diameter, {"yarn": "Ne 30"}),
    "gap_ratio": (
        gap_ratio,
        {"diameter": "0.3 mm", "count": "28/in", "cloth_yarn": "0.4 mm", "what": "thread"},
    ),
    "tapestry_needle": (tapestry_needle, {"size": 24}),
    "pearl_cotton": (pearl_cotton, {"number": 8}),
    "Allowances": (
        Allowances,
        {"u_turn": 1, "eye": "1 in", "crimp": "8 %", "darned_crimp": "5 %", "tuck": "1 cm"},
    ),
    "Allowances.span": (Allowances().span, {"length": 40, "edge": EDGE}),
    "Allowances.tucked_threads": (Allowances().tucked_threads, {"edge": EDGE}),
    "open_line": (
        open_line,
        {"piece": PIECE, "turn_at": "line", "allowances": Allowances(), "wrong_start": []},
    ),
    "Weave.line": (WEAVE.line, {"side": "top", "thread": 5}),
    "Weave.crossing": (WEAVE.crossing, {"row": 1, "column": 1}),
    "Weave.ends_at": (WEAVE.ends_at, {"corner": "top left"}),
    "Weave.tails_at": (WEAVE.tails_at, {"corner": "top left"}),
    "Weave.open_square": (WEAVE.open_square, {"corner": "top left"}),
    "Weave.window": (WEAVE.window, {"corner": "top left", "inside": 3, "hem": 4}),
    "steps_at": (steps_at, {"weave": WEAVE, "corner": "top left"}),
    "ways_at": (ways_at, {"weave": WEAVE, "corner": "top left"}),
}
#: The arithmetic and order of lengths, in which the other may be anything.
OPERATORS: dict[str, tuple[Callable[..., Any], dict[str, Any]]] = {
    name: (call, {"other": Length(3)})
    for name, call in {
        "length + x": lambda other: Length(5) + other,
        "x + length": lambda other: other + Length(5),
        "length - x": lambda other: Length(5) - other,
        "x - length": lambda other: other - Length(1),
        "length / x": lambda other: Length(5) / other,
        "length < x": lambda other: Length(5) < other,
        "length <= x": lambda other: Length(5) <= other,
        "length > x": lambda other: Length(5) > other,
        "length >= x": lambda other: Length(5) >= other,
    }.items()
} | {
    "length * x": (lambda other: Length(5) * other, {"other": 3}),
    "x * length": (lambda other: other * Length(5), {"other": 3}),
    "x / length": (lambda other: other / Length(5), {"other": Length(5)}),
}
EVERY = CALLS | OPERATORS
#: Results that nobody makes by hand; and the error itself.
RESULTS = {"Band", "Basted", "Corner", "Edge", "HemError", "MarginRule", "RuleTable", "Section", "Weave"}


# None and False are what some inputs take; all else here is right nowhere.
WRONG_EVERYWHERE = {
    "nan": math.nan,
    "infinity": math.inf,
    "decimal nan": Decimal("NaN"),
    "signalling nan": Decimal("sNaN"),
    "huge decimal": Decimal("1e999999"),
    "empty text": "",
    "spaces": "  \t\n",
    "word": "three eighths",
    "negative length": "-3/8 in",
    "negative with a minus sign": "\N{MINUS SIGN}3/8 in",
    "negative with a full-width hyphen": "\N{FULLWIDTH HYPHEN-MINUS}3/8 in",
    "negative count": "-28/in",
    "unknown unit": "3 ells",
    "two units": "3 ft 2 in",
    "arabic digits": "\N{ARABIC-INDIC DIGIT THREE} cm",
    "full-width digits": "\N{FULLWIDTH DIGIT THREE} cm",
    "superscript": "3\N{SUPERSCRIPT TWO} cm",
    "exponent": "3e2 mm",
    "doubtful comma": "1,500 mm",
    "nought below the line": "3/0 in",
    "two fractions": "1/2/4 in",
    "improper fraction": "1 5/4 in",
    "long text": "3/8 in" * 100_000,
    "long digits": "9" * 5000 + " mm",
    "a wall of signs": "\"'" * 5000,
    "unseen signs": "\x00\u202e\ud800" * 300,
    "strokes": "/" * 5000,
    "bytes": b"3/8 in",
    "empty list": [],
    "nested": [[{"hem": ["3/8 in"]}], [None]],
    "set": {3},
    "class": Length,
    "function": len,
    "complex": 3j,
    "hostile": Hostile(),
    "nameless": NAMELESS,
    "long name": LONG_NAME,
}


def public() -> dict[str, Any]:
    """The callables of the fronts, and the public methods of their classes that take something."""
    found: dict[str, Any] = {}
    for front in FRONTS:
        module = importlib.import_module(f"hemcalc.{front}")
        for name in module.__all__:
            thing = getattr(module, name)
            if callable(thing):
                found[name] = thing
            # HemError's own methods are Python's.
            for method, member in inspect.getmembers(thing, callable) if name != "HemError" else ():
                if not method.startswith("_") and inspect.isclass(thing):
                    takes = list(inspect.signature(member).parameters)
                    if takes not in ([], ["self"]):
                        found[f"{name}.{method}"] = member
    return found


def test_the_walk_passes_everything_that_the_fronts_offer():
    inherited = {f"MeasuredCount.{method}" for method in vars(Count)}
    assert set(public()) - inherited == set(CALLS) | RESULTS


@pytest.mark.parametrize("name", EVERY)
def test_a_good_call_is_answered(name):
    call, takes = EVERY[name]
    call(**takes)


#: What is right all the same: no tail begun wrong.
LET_THROUGH = {"open_line": {("wrong_start", "empty list")}}


@lru_cache
def quotes(text: str) -> tuple[str, ...]:
    """How a sentence may quote it: whole, or from its middle, what stands behind a number."""
    return shown(text), *(shown(text[start : start + 200].strip()) for start in range(min(len(text), 100)))


def assert_one_sentence(error: HemError, *values: object) -> None:
    """At most 400 characters, one sentence, an example; what it quotes of the input aside."""
    sentence = str(error)
    assert len(sentence) <= 400
    assert sentence.isprintable()
    assert "for example" in sentence
    for value in values:
        for quoted in quotes(value) if type(value) is str else (shown(value),):
            sentence = sentence.replace(quoted, "it")
    assert sentence.endswith(".")
    assert not re.search(r"[.!?]\s", sentence)


def look_at_everything(result: object) -> None:
    """What came out must be whole: each of its properties has a value, and it prints."""
    if isinstance(result, pd.DataFrame):
        return
    for name, member in inspect.getmembers_static(type(result)):
        if isinstance(member, property | cached_property) and not name.startswith("_"):
            value = getattr(result, name)
            if isinstance(value, MarginRule):
                look_at_everything(value)
    assert str(result)
    assert repr(result)
    assert result == result
    hash(result)


def assert_answered(entry: Callable[[Any], object], *values: object) -> None:
    """Either a whole result or one sentence comes out, and no other error."""
    try:
        result = entry(*values)
    except HemError as error:
        assert_one_sentence(error, *values)
    else:
        look_at_everything(result)


@pytest.mark.parametrize("name", EVERY)
def test_what_is_wrong_everywhere_gets_one_sentence_anywhere(name):
    call, takes = EVERY[name]
    let_through = set()
    for about, (wrong, value) in product(takes, WRONG_EVERYWHERE.items()):
        try:
            call(**{**takes, about: value})
        except HemError as error:
            assert_one_sentence(error, value)
        else:
            let_through.add((about, wrong))
    assert let_through == LET_THROUGH.get(name, set())


SIZES = st.text(alphabet="0123456789/.,½⅜⅟⁄ -−–+e%\"'′″inchcmftydperthreads", max_size=30)
UNITS = st.sampled_from(
    ["in", '"', "inches", "cm", "mm", "m", "yd", "/in", "/cm", "/10 cm", " %", "", " per in"]
)
NEARLY = st.tuples(st.from_regex(r"-?[0-9]{0,4}[ ,.½/][0-9]{0,4}", fullmatch=True), UNITS).map("".join)
PLAIN = st.one_of(
    st.none(),
    st.booleans(),
    st.text(max_size=200),
    SIZES,
    NEARLY,
    st.builds(operator.mul, st.text(min_size=1, max_size=3), st.integers(1, 3000)),
    st.integers(),
    st.integers(-1000, 1000),
    st.builds(lambda digits, sign: sign * 10**digits, st.integers(10, 6000), st.sampled_from([-1, 1])),
    st.floats(),
    st.decimals(),
    st.fractions(),
    st.builds(lambda bits: Fraction(1, 2**bits), st.integers(1, 5000)),
    st.complex_numbers(),
    st.binary(),
    st.integers().map(lambda _: Hostile()),
    st.builds(LyingWhole, st.integers()),
    st.sampled_from([NAMELESS, LONG_NAME, Length, len, Length(5), CLOTH.across, CLOTH, EDGE, PIECE]),
)
RUBBISH = st.recursive(
    PLAIN,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=3), inner, max_size=2)
    ),
    max_leaves=4,
)


@pytest.mark.parametrize("name", EVERY)
@settings(max_examples=settings().max_examples // 4)
@given(data=st.data())
def test_nothing_but_an_error_of_one_sentence_comes_out(name, data):
    call, takes = EVERY[name]
    about, value = data.draw(st.sampled_from(sorted(takes))), data.draw(RUBBISH)
    assert_answered(lambda wrong: call(**{**takes, about: wrong}), value)


@given(values=st.tuples(RUBBISH, RUBBISH, RUBBISH, RUBBISH, RUBBISH, RUBBISH))
def test_several_wrong_inputs_at_once_still_get_one_sentence(values):
    def plan(count, hem, clear, drawn, turn, handling):
        return plan_edge(count, hem, clear=clear, drawn=drawn, turn=turn, handling=handling)

    assert_answered(plan, *values)


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: open_line("coaster"), "piece is 'coaster', but must be a Piece; "),
        (lambda: steps_at(PIECE, "top left"), "weave is a Piece, but must be a Weave; "),
        (lambda: ways_at(None, "top left"), "weave is None, but must be a Weave; "),
        (lambda: plan_section(PIECE, "1 mm"), "edge is a Piece, but must be an Edge; "),
        (lambda: plan_corner(EDGE, "3/8 in"), "down is '3/8 in', but must be an Edge; "),
        (lambda: basted_lines(EDGE), "corner is an Edge, but must be a Corner; "),
        (lambda: TABLE.at(99, 4), "hem is 99, but this table has 4, 5, 6, 7, 8; "),
        (lambda: rule_table("28/in", 4, [4]), "hems is 4, but must be a list of one or more numbers "),
        (lambda: CLOTH.in_hand(washed="yes"), "washed is 'yes', but must be True or False; "),
    ],
)
def test_a_wrong_type_is_refused_in_words_that_say_what_is_wanted(call, said):
    with pytest.raises(HemError) as caught:
        call()
    assert str(caught.value).startswith(said)


#: What each prints, in a line.
PRINTED = {
    "Fabric(28/in across × 27/in down, 0.5 mm thick, not washed yet, the wash takes 3 % × 8 %)": CLOTH,
    "Fabric(28/in across × 28/in down, not washed yet, the wash takes nothing)": Fabric("28/in"),
    "Edge(28/in: clear 8, drawn 2, hem 11, turn 6; cut after thread 38)": EDGE,
    "Band(drawn, threads 9 to 10)": EDGE.bands[1],
    "MarginRule(rule 44, need 38: 6 threads to spare)": EDGE.rule,
    "MarginRule(rule 16, need 20: 4 threads short)": TABLE.at(4, 8),
    "RuleTable(5 hems × 2 clear bands: holds in 7 of 10)": TABLE,
    "Corner(mitred, corner first, hems of 11 × 10 threads at 44.39°)": CORNER,
    "LinearDensity(20 tex)": YARN,
    "YarnDiameter(≈ 0.12 mm)": diameter_by_volume("10 tex"),
    "TapestryNeedle(size 24, 0.76 mm)": tapestry_needle(24),
    "PearlCotton(number 8, 110 to 150 tex)": pearl_cotton(8),
    "GapRatio(thread 0.30 mm in a gap of 0.51 mm: 0.59)": gap_ratio("0.3 mm", "28/in", "0.4 mm"),
    "Allowances(U-turn 1.6 pitches, eye 0, crimp 8 %, darned 8 %, tuck 10 mm)": Allowances(crimp="8 %"),
}


@pytest.mark.parametrize("printed", PRINTED)
def test_an_object_prints_what_a_person_wants_to_know(printed):
    assert repr(PRINTED[printed]) == printed


@pytest.mark.parametrize("name", EXAMPLES)
def test_whatever_a_piece_is_made_of_prints_in_one_short_line(name):
    piece = EXAMPLES[name]
    weave, corner = open_line(piece), piece.corners.top_left
    things = [
        piece.fabric,
        piece.fabric.across,
        *piece.edges_in_hand,
        *piece.edges_in_hand.left.bands,
        piece.edges_in_hand.left.rule,
        plan_section(piece.edges_in_hand.left, "0.3 mm"),
        corner,
        *corner.landings,
        *basted_lines(corner),
        weave,
        weave.cloth,
        weave.allowances,
        *weave.tails,
        *steps_at(weave, "top left"),
        *ways_at(weave, "top left"),
    ]
    for thing in things:
        assert len(repr(thing)) <= 110, repr(thing)
        assert repr(thing).startswith(f"{type(thing).__name__}(")
        assert "\n" not in repr(thing)


def test_an_edge_shows_its_ledger_as_a_table():
    table = EDGE.table("mm")
    assert list(table.columns) == ["band", "first", "last", "threads", "width, mm"]
    assert table["threads"].sum() == EDGE.total
    assert table["width, mm"].sum() == pytest.approx(float(EDGE.width(EDGE.total).mm))
    assert table["width, mm"].dtype == float
    for unit, width in (("in", EDGE.width(8).inches), ("cm", EDGE.width(8).cm)):
        assert EDGE.table(unit)[f"width, {unit}"].tolist()[0] == float(width)
    assert table["last"].tolist() == [band.last for band in EDGE.bands]
    shown = [[cell.text for cell in row] for row in ElementTree.fromstring(EDGE._repr_html_()).iter("tr")]
    assert [row[:4] for row in shown[1:]] == [
        [str(cell) for cell in row[:4]] for row in table.itertuples(index=False)
    ]
    assert shown[1][4:] == [EDGE.width(8).text("in"), EDGE.width(8).text("cm")]
    washed = plan_edge(CLOTH.across_washed, "3/8 in", clear=8)
    assert "width, in after the wash" in washed.table().columns


def test_the_rule_s_table_has_a_row_for_every_hem_and_clear_band():
    table = TABLE.table()
    for row in table.itertuples():
        rule = TABLE.at(row.hem, row.clear)
        assert (row.rule, row.need, row.slack, row.holds) == (rule.rule, rule.need, rule.slack, rule.holds)
    assert len(table) == len(TABLE.hems) * len(TABLE.clears)
    assert f"<td>−{-TABLE.at(4, 8).slack}</td>" in TABLE._repr_html_()


def test_the_landings_are_a_table_of_numbers():
    table = CORNER.landings_table("in")
    assert table["apart, in"].tolist() == [float(each.apart.inches) for each in CORNER.landings]
    assert table["apart, threads"].tolist() == [float(each.apart_threads) for each in CORNER.landings]
    assert table[["line", "side"]].values.tolist() == [[each.line, each.side] for each in CORNER.landings]
    assert len(plan_corner(EDGE, EDGE, corner="square").landings_table()) == 0


def test_a_section_shows_where_its_folds_land():
    shown = SECTION._repr_html_()
    assert f"<td>{SECTION.landing_mm:.2f}</td><td>{SECTION.landing_threads:.2f}</td>" in shown
    assert f"<td>{SECTION.finished_edge_mm:.2f}</td>" in shown
