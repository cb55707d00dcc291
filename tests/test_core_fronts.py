"""What the fronts of measure, edge, corner, yarn and weave offer: how it prints, and what it refuses."""

from __future__ import annotations

import inspect
import operator
from collections.abc import Callable
from fractions import Fraction
from functools import cached_property, partial
from typing import Any
from xml.etree import ElementTree

import pandas as pd
import pytest
import walk
from cases import for_each, held_to_its_limit
from hostile import LONG_NAME, NAMELESS, Hostile, LyingWhole, any_text
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc import (
    EXAMPLES,
    Fabric,
    HemError,
    Length,
    check,
    piece_spacings,
    save_piece,
    suggest_clear,
    thread_needed,
)
from hemcalc.books import comparisons
from hemcalc.corner import basted_lines, plan_corner
from hemcalc.edge import MarginRule, plan_edge, plan_section, rule_table
from hemcalc.edge.bend import bend_length
from hemcalc.finish import counting_plan, finish_steps
from hemcalc.stitch import needlefuls
from hemcalc.stitch.dividing import nearest_dividing
from hemcalc.sums import sums_of
from hemcalc.weave import Allowances, open_line, steps_at, ways_at
from hemcalc.weave.crossings import ROW, Cloth
from hemcalc.yarn import LinearDensity, cloth_yarn, diameter_by_volume, gap_ratio

FRONTS = ("measure", "edge", "corner", "yarn", "weave")

EDGE = plan_edge("28/in", "3/8 in", clear=8)
SECTION = plan_section(EDGE, "0.5 mm")
CORNER = plan_corner(EDGE, plan_edge("26/in", "3/8 in", clear=8))
TABLE = rule_table("28/in", range(4, 9), (4, 8))
CLOTH = Fabric("28/in", "27/in", "0.5 mm", shrink_warp="8 %", shrink_weft="3 %")
PIECE = EXAMPLES["coaster"]
WEAVE = open_line(PIECE)
#: What the core offers, walked.
CORE = [walked for package in FRONTS for walked in walk.public(package)]


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
        faults = [*walk.refusal_faults(str(error), *values)]
    else:
        faults = []
        look_at_everything(result)
    assert not faults


SIZES = st.text(alphabet="0123456789/.,½⅜⅟⁄ -−–+e%\"'′″inchcmftydperthreads", max_size=30)
UNITS = st.sampled_from(
    ["in", '"', "inches", "cm", "mm", "m", "yd", "/in", "/cm", "/10 cm", " %", "", " per in"]
)
FIGURES = st.text("0123456789", max_size=4)
NEARLY = st.tuples(st.sampled_from(["", "-"]), FIGURES, st.sampled_from(" ,.½/"), FIGURES, UNITS).map("".join)
PLAIN = st.one_of(
    st.none(),
    st.booleans(),
    any_text(max_size=200),
    SIZES,
    NEARLY,
    st.builds(operator.mul, any_text(min_size=1, max_size=3), st.integers(1, 3000)),
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
        st.lists(inner, max_size=3), st.dictionaries(any_text(max_size=3), inner, max_size=2)
    ),
    max_leaves=4,
)


@settings(max_examples=4 * settings().max_examples)
@given(data=st.data())
def test_nothing_but_an_error_of_one_sentence_comes_out(data):
    walked = data.draw(st.sampled_from(CORE))
    about, value = data.draw(st.sampled_from(walked.inputs)).name, data.draw(RUBBISH)
    assert_answered(lambda wrong: walked.bound(about, wrong)(), value)


@given(values=st.tuples(RUBBISH, RUBBISH, RUBBISH, RUBBISH, RUBBISH, RUBBISH))
def test_several_wrong_inputs_at_once_still_get_one_sentence(values):
    def plan(count, hem, clear, drawn, turn, handling):
        return plan_edge(count, hem, clear=clear, drawn=drawn, turn=turn, handling=handling)

    assert_answered(plan, *values)


IS_NO_PIECE = "piece is 'coaster', but must be a Piece; for example "
TAKE_A_PIECE = [
    *((f, {}) for f in (open_line, suggest_clear, piece_spacings, finish_steps, counting_plan)),
    *((thread_needed, {}), (sums_of, {}), (check, {"answers": {"hem": 10}})),
    (save_piece, {"path": "kept.json"}),
]


@for_each(
    ("call", "said"),
    [
        *((partial(f, "coaster", **more), IS_NO_PIECE) for f, more in TAKE_A_PIECE),
        (lambda: comparisons("hemming"), "topic is 'hemming', but must be one of "),
        (lambda: steps_at(PIECE, "top left"), "weave is a Piece, but must be a Weave; "),
        (lambda: ways_at(None, "top left"), "weave is None, but must be a Weave; "),
        (lambda: plan_section(PIECE, "1 mm"), "edge is a Piece, but must be an Edge; "),
        (lambda: plan_corner(EDGE, "3/8 in"), "down is '3/8 in', but must be an Edge; "),
        (lambda: basted_lines(EDGE), "corner is an Edge, but must be a Corner; "),
        (lambda: TABLE.at(99, 4), "hem is 99, but this table has 4, 5, 6, 7, 8; for example 4."),
        *(
            (
                partial(rule_table("28/in", hems, [4]).at, 99, 4),
                f"hem is 99, but this table has {said}.",
            )
            for hems, said in (
                ([4], "4; for example 4"),
                (range(4, 12), "4, 5, 6, 7, 8, 9, 10, 11; for example 4"),
                (range(4, 13), "4, 5, 6, 7, 8, 9, 10, 11, …; for example 4"),
            )
        ),
        (lambda: rule_table("28/in", 4, [4]), "hems is 4, but must be a list of one or more numbers "),
        (lambda: CLOTH.in_hand(washed="yes"), "washed is 'yes', but must be True or False; "),
    ],
)
def test_a_wrong_type_is_refused_in_words_that_say_what_is_wanted(call, said):
    with pytest.raises(HemError) as caught:
        call()
    assert str(caught.value).startswith(said)


#: At the first number a thing is taken, at the second no more; and what is said of that.
LIMITS = [
    (lambda mm: bend_length(180, mm, 1, 0.5), 100_000, 100_001, "from 0 to 100000"),
    (lambda grams: cloth_yarn("28/in", "28/in", grams), 5000, 5001, "at most 5000"),
    (lambda signs: LinearDensity("20 tex".zfill(signs)), 80, 81, "too long a text"),
    (LinearDensity, 100_000, 100_001, "from 0.001 to 100000 tex"),
    (LinearDensity, Fraction(1, 1000), Fraction(1, 1001), "from 0.001 to 100000 tex"),
    (lambda turn: Allowances(u_turn=turn), 10**6, 10**6 + 1, "at most 1,000,000"),
    (lambda mm: needlefuls(mm, "50 cm", "10 cm"), 1e9, 1e9 + 1, "from 0 to 1e+09"),
    (lambda within: nearest_dividing(100, 4, 4, within=within), 50, 51, "from 0 to 50"),
    (lambda within: suggest_clear(PIECE, within=within), 12, 13, "from 0 to 12"),
]


@for_each(("make", "taken", "refused", "said"), LIMITS)
def test_at_a_limit_a_thing_is_taken_and_just_beyond_it_the_limit_is_said(make, taken, refused, said):
    held_to_its_limit(make, taken, refused, said)


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
    "Corner(mitred, corner first, hems of 11 × 11 threads at 45°, 6 mm left beyond the fold)": plan_corner(
        EDGE, EDGE, allowance="6 mm"
    ),
    # (π/4 − 1/2) × 0.5, and a fold round half a turn is 0.75 deep where it takes π/4; else 0.5 and π/8.
    "Section(hem of 11 threads, cloth 0.5 mm thick: fold 2 stops 0.14 mm short, hem 0.04 mm narrower)": (
        SECTION
    ),
    "Section(hem of 11 threads, cloth 0.5 mm thick: fold 2 stops 0.00 mm short, hem 0.11 mm wider)": (
        plan_section(plan_edge("28/in", "3/8 in", clear=8, turn=0), "0.5 mm")
    ),
    # Two threads of each of four sides, of which one is darned back at both ends.
    "Weave(8 threads withdrawn, tails turned at 'line': 8 darned back, 0 too short, 0 faults)": WEAVE,
    "Cloth(rows 1 to 3, columns 1 to 5, 1 lines touched)": Cloth((1, 3), (1, 5)).withdraw(ROW, 2, 1, 3),
    "YarnDiameter(≈ 0.12 mm)": diameter_by_volume("10 tex"),
    "GapRatio(thread 0.30 mm in a gap of 0.51 mm: 0.59)": gap_ratio("0.3 mm", "28/in", "0.4 mm"),
    "Allowances(U-turn 1.6 pitches, eye 0, crimp 8 %, darned 8 %, tuck 10 mm)": Allowances(crimp="8 %"),
}


@for_each("printed", PRINTED)
def test_an_object_prints_what_a_person_wants_to_know(printed):
    assert repr(PRINTED[printed]) == printed


@for_each("name", EXAMPLES)
def test_a_step_of_the_weave_prints_as_much_of_its_words_as_a_line_holds(name):
    for step in steps_at(open_line(EXAMPLES[name]), "top left"):
        said = repr(step).removeprefix("WeaveStep(").removesuffix(")")
        assert step.text() == said or (said.endswith("…") and step.text().startswith(said[:-1]))


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
    shown = [[cell.text for cell in row] for row in ElementTree.fromstring(TABLE._repr_html_()).iter("tr")]
    assert shown[0] == ["threads", *(f"hem {hem}" for hem in TABLE.hems)]
    for clear, row in zip(TABLE.clears, shown[1:], strict=True):
        slacks = [str(TABLE.at(hem, clear).slack).replace("-", "−") for hem in TABLE.hems]
        assert row == [f"clear {clear}", *slacks]


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
