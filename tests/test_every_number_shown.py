"""Every number that is shown, against a second reckoning: that of its own side, in its own state.

What an output says is taken apart: each number that the second reckoning has, side by side and
in the state of the cloth that the words give, is struck out, and no figure may be left over.
The second reckoning uses fractions and the trade's model, and nothing of how hemcalc plans.
"""

import csv
import html
import io
import math
import os
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import cycle
from xml.etree import ElementTree

import pypdfium2 as pdfium
import pytest
from cases import for_each
from hypothesis import HealthCheck, given, reject, settings
from hypothesis import strategies as st

from hemcalc.corner.mitre import CORNER_KINDS
from hemcalc.draw.corner.mitre import corner_alt
from hemcalc.draw.edge.profile import section_alt
from hemcalc.draw.edge.ruler import edge_alt
from hemcalc.edge.section import plan_section
from hemcalc.finish.hours import hours
from hemcalc.finish.steps import finish_steps
from hemcalc.finish.words import PRACTICE
from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.panels.corner import corner_panel
from hemcalc.panels.margin import margin_panel
from hemcalc.panels.mine_plan import MinePlan
from hemcalc.paper.gauge import gauge_card
from hemcalc.paper.key import leader_key
from hemcalc.paper.labels import kit_labels
from hemcalc.paper.sheet import learner_sheet
from hemcalc.paper.shopping import shopping_list
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import THROUGH, Piece
from hemcalc.piece.sides import Sides
from hemcalc.stitch.suggestions import suggest_clear
from hemcalc.sums.checking import check
from hemcalc.sums.exercises import from_example
from hemcalc.workshop.goods import Goods
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.spreadsheet import csv_text, kit_rows, kits_table
from hemcalc.workshop.workshop import Linen, Workshop

SIDES = ("left", "right", "top", "bottom")
MM = {"in": Fraction(127, 5), "cm": Fraction(10), "mm": Fraction(1)}
MARK = {"in": Fraction(127, 40), "cm": Fraction(5), "mm": Fraction(1)}


# The second reckoning


def to_nearest(number):
    return math.floor(number + Fraction(1, 2))


def said(mm, unit, when=""):
    """A length as it stands in print: to 1/16 in, or a tenth of a millimetre."""
    steps = {"in": 16, "cm": 100, "mm": 10}[unit]
    exact = mm / MM[unit] * steps
    whole = to_nearest(exact)
    figure = Fraction(whole, steps)
    if unit == "in":
        inches, part = divmod(figure, 1)
        words = " ".join(str(n) for n in (inches, part) if n) or "0"
    else:
        words = f"{float(figure):.2f}".rstrip("0").rstrip(".")
    return f"{'' if whole == exact else '≈ '}{words} {unit}" + (f" {when}" if when else "")


def in_mm(text):
    """What a piece was asked for as a length: a figure and a unit."""
    figure, unit = text.rsplit(" ", 1)
    return sum(Fraction(part) for part in figure.split()) * MM[unit]


def listed(names):
    if len(names) == 4:
        return "all sides"
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def kinds(values):
    """Sides that are alike, in the order in which they first come."""
    found = {}
    for side in SIDES:
        found.setdefault(values[side], []).append(side)
    return [(names, value) for value, names in found.items()]


@dataclass(frozen=True)
class Reckoned:
    """A piece reckoned anew from what was asked for."""

    piece: Piece

    def shrinks(self, side):
        cloth = self.piece.fabric
        # Warp threads run down: their shrinkage shortens the length, which top and bottom are counted on.
        return cloth.shrink_weft if side in ("left", "right") else cloth.shrink_warp

    def pitch(self, side, *, washed=None):
        """Millimetres from thread to thread, in hand unless it is asked for another state."""
        cloth = self.piece.fabric
        count = cloth.warp if side in ("left", "right") else cloth.weft
        pitch = count.over.mm / count.threads
        if washed is None or washed == cloth.washed:
            return pitch
        return pitch * (1 - self.shrinks(side)) if washed else pitch / (1 - self.shrinks(side))

    @property
    def when(self):
        """What is said beside a length after a wash that is still to come."""
        cloth = self.piece.fabric
        yet = not cloth.washed and (cloth.shrink_warp or cloth.shrink_weft)
        return "after the wash" if yet else ""

    @cached_property
    def edge(self):
        """The numbers of each side's ledger."""
        return {side: self._edge(side) for side in SIDES}

    def _edge(self, side):
        piece, after, now = self.piece, self.pitch(side, washed=True), self.pitch(side)
        c, w = getattr(piece.clear, side), piece.drawn
        h = piece.hem if isinstance(piece.hem, int) else to_nearest(in_mm(piece.hem) / after)
        t = piece.turn
        if t is None:
            t = math.ceil(Fraction(h, 2))
        elif isinstance(t, str):
            t = to_nearest(in_mm(t) / after)
        e = piece.handling if isinstance(piece.handling, int) else math.ceil(in_mm(piece.handling) / now)
        total = c + w + 2 * h + t
        return {
            **{"clear": c, "drawn": w, "hem": h, "turn": t, "handling": e, "first": c + 1, "second": c + 2},
            **{"open": c + w, "fold 1": c + w + h, "fold 2": c + w + 2 * h, "cut": total},
            **{"rule": 4 * h, "need": total + e, "margin": max(4 * h, total + e)},
        }

    def each(self, name):
        return {side: self.edge[side][name] for side in SIDES}

    def size(self, beyond):
        """Threads across and down of the design with so many threads of each side."""
        (across, down), of = self.piece.design, self.each(beyond) if beyond else dict.fromkeys(SIDES, 0)
        return across + of["left"] + of["right"], down + of["top"] + of["bottom"]

    def measures(self, threads, *, washed=None):
        return tuple(
            n * self.pitch(side, washed=washed) for n, side in zip(threads, ("left", "top"), strict=True)
        )

    def to_cut(self, unit):
        return tuple(math.ceil(mm / MARK[unit]) * MARK[unit] for mm in self.measures(self.size("margin")))

    def between(self, side):
        """Threads between the corners along a side."""
        (across, down), clear = self.piece.design, self.piece.clear
        return (
            down + clear.top + clear.bottom
            if side in ("left", "right")
            else across + clear.left + clear.right
        )

    def left(self, side, threads, unit):
        """A width that must not be less, on the finest mark of the ruler that has it all."""
        mark = Fraction(127, 80) if unit == "in" else 1
        return said(math.ceil(threads * self.pitch(side) / mark) * mark, unit)

    def width(self, side, threads, unit):
        return said(threads * self.pitch(side), unit)

    @cached_property
    def corner(self):
        """Hem and turn in hand, mm, of the sides at left and right, and at top and bottom."""
        return tuple(
            (self.edge[side]["hem"] * self.pitch(side), self.edge[side]["turn"] * self.pitch(side))
            for side in ("left", "top")
        )


def square_root(number, unit):
    """A length that is a root, which is never printed exactly unless the root is."""
    fine = Fraction(math.isqrt(int(number * 10**24)), 10**12)
    return said(Fraction(to_nearest(fine * 10**6), 10**6), unit)


# Words taken apart

NAMES = r"(?:left|right|top|bottom)"
LISTED = rf"{NAMES}(?:, {NAMES})*(?: and {NAMES})?"
WHERE = rf"(?:on|of) (?:(every side)|the ({LISTED}))"
LENGTH = r"(?:≈ )?(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?) (?:in|cm|mm)\b(?: (?:after|before) the wash)?"


def sides_in(words):
    return list(SIDES) if re.search("every side|all sides", words) else re.findall(NAMES, words)


def told(text):
    """What is told of sides, and of which: 'so much on the left and right, so much on the top'."""
    for sentence in re.split(r"(?<=\.) ", text):
        if before := re.match(rf"(On every side|{LISTED.replace('(?:left', '(?i:left', 1)}): ", sentence):
            yield sentence[before.end() :], sides_in(before[0].lower())
            continue
        for clause in re.split(r"[:;] ", sentence):
            at = 0
            for mark in re.finditer(WHERE, clause):
                yield clause[at : mark.start()], sides_in(mark[0])
                at = mark.end()
            yield clause[at:], None


def strike(text, *expected):
    """The text without what was expected in it, each once; a thing that is missing is a fault."""
    for words in sorted(expected, key=len, reverse=True):
        assert words in text, f"{words!r} is not in {text!r}"
        text = text.replace(words, " § ", 1)
    return text


def nothing_left(text):
    left = re.findall(r"[^§]{0,30}\d[^§]{0,30}", text)
    assert not left, f"not reckoned: {left}"


def strike_size(text, unit, size, when="", between=" and "):
    across, down = (said(mm, unit) for mm in size)
    return strike(text, f"{across} across{between}{down} down{f' {when}' if when else ''}")


def check_told(text, of, unit):
    """Every number of a step is one of its sides' or of the whole piece, with its width in hand beside it."""
    whole = {*of.piece.design, *of.size("fold 1"), *of.size("cut"), *of.size("margin")}
    text = re.sub(r"fold lines? [12]( runs)?", "fold line", text)
    for words, sides in told(text):
        rest = words
        for pair in re.finditer(rf"(\d+) threads? \(({LENGTH})\)", words):
            for side in sides or SIDES:
                assert int(pair[1]) in numbers_of(of, side), (pair[0], side, text)
                wide = of.left if words[: pair.start()].endswith("at least ") else of.width
                assert pair[2] == wide(side, int(pair[1]), unit), (pair[0], side, text)
            rest = rest.replace(pair[0], "§")
        for number in re.findall(r"(?<![\d./])\d+(?![\d./])", re.sub(LENGTH, "§", rest)):
            for side in sides or ():
                assert int(number) in numbers_of(of, side), (number, side, text)
            if sides is None:
                assert int(number) in whole, (number, text)
        assert not re.findall(LENGTH, rest), (rest, text)


def numbers_of(of, side):
    edge, between = of.edge[side], of.between(side)
    covers = 2 * edge["hem"] + edge["turn"] + edge["drawn"] - 1
    spare = edge["margin"] - edge["cut"]
    return {*edge.values(), covers, spare, between, between // 2, between - between // 2}


# The outputs


def printed(leaflet):
    """What a printer's page says, in the order in which it was set, without the words at head and foot."""
    pages = pdfium.PdfDocument(leaflet.pdf())
    text = " ".join(" ".join(page.get_textpage().get_text_bounded().split()) for page in pages)
    for pattern in (
        r"The upper bar is 100 mm long, the lower 4 in\. Hold a ruler against one\. If it differs, "
        r"print again at 100 %, not fitted to the page\.",
        r"page \d+ of \d+",
    ):
        text = re.sub(pattern, "§", text)
    return text


def shop_of(piece, unit):
    """A class of one, with a linen of her own."""
    kit = Kit("Ada", piece, "mat", thread="white thread", needle="blunt needle", basting="blue thread")
    goods = (Goods("white thread", "80 m"), Goods("blue thread", "100 m"), Goods("blunt needle", 6))
    return Workshop(
        "A mat", (kit,), (Linen(piece.fabric, "150 cm", Goods("linen", "10 cm")),), goods, unit=unit
    )


def rows_of(of, unit):
    """The rows of the edge's table: a name, and what stands in each column."""
    tables = {
        "draw threads": lambda e, s: f"{e['first']} to {e['open']}" if e["drawn"] > 1 else str(e["first"]),
        "fold 1 after thread": lambda e, s: str(e["fold 1"]),
        "fold 2 after thread": lambda e, s: str(e["fold 2"]),
        "cut after thread": lambda e, s: str(e["cut"]),
        "hem" if of.when else "hem, finished": lambda e, s: (
            f"{e['hem']} threads, {of.width(s, e['hem'], unit)}"
        ),
        "turn": lambda e, s: f"{e['turn']} threads, {of.width(s, e['turn'], unit)}",
        "margin to leave, at least": lambda e, s: f"{e['margin']} threads, {of.left(s, e['margin'], unit)}",
    }
    if of.when:
        tables["hem, finished"] = lambda e, s: said(e["hem"] * of.pitch(s, washed=True), unit, of.when)
    columns = {side: tuple(cell(of.edge[side], side) for cell in tables.values()) for side in SIDES}
    found = kinds(columns)
    rows = [["counted outward from the design", *(listed(names) for names, _ in found)]]
    rows += [[name, *cells] for name, *cells in zip(tables, *(column for _, column in found), strict=True)]
    return rows


def cloth_of(of, unit):
    """The rows of the cloth's table that are reckoned: sizes, each in its state."""
    cut, finished = of.size("margin"), of.size("fold 1")
    across, down = (said(mm, unit) for mm in of.to_cut(unit))
    wide, long = (said(mm, unit) for mm in of.measures(finished, washed=True))
    mark = said(MARK[unit], unit)
    return (
        "design {} × {} threads".format(*of.piece.design),
        f"to cut {across} across × {down} down ({cut[0]} × {cut[1]} threads, rounded up to {mark})",
        f"finished {wide} × {long}{f' {of.when}' if of.when else ''} ({finished[0]} × {finished[1]} threads)",
        *counts_of(of, unit),
    )


def counts_of(of, unit):
    """The counts in hand, per inch or per cm, and as they were given."""
    words = []
    # The pieces here that are given in centimetres have a whole or a half number of threads in one.
    given = "cm" if (10 / of.pitch("left")).denominator <= 2 else "in"
    for side in ("left", "top"):
        ruler, own = (per(of.pitch(side), each) for each in ("in" if unit == "in" else "cm", given))
        words.append(ruler if ruler == own else f"{ruler} ({own})")
    return (words[0],) if words[0] == words[1] else (f"{words[0]} across, {words[1]} down",)


def per(pitch, unit):
    exact = MM[unit] / pitch
    return f"{'' if (exact * 100).denominator == 1 else '≈ '}{hundredths(exact)}/{unit}"


def hundredths(number):
    return f"{float(Fraction(to_nearest(number * 100), 100)):.2f}".rstrip("0").rstrip(".")


def strike_spacing(text, of, side, group=4):
    """The groups of a side struck out: they take up its threads, with as few off-size ones as can be."""
    threads = of.between(side)
    for work in re.finditer(
        r"Work ((?:\d+ (?:groups? )?of \d+(?:, )?)+), from (?:right to left|left to right)\.", text
    ):
        runs = [(int(n), int(size)) for n, size in re.findall(r"(\d+) (?:groups? )?of (\d+)", work[1])]
        if sum(n * size for n, size in runs) == threads:
            off = sum(n for n, size in runs if size != group)
            assert off == min(
                k
                for k in range(group + 1)
                for size in (group - 1, group + 1)
                if (threads - k * size) % group == 0 and k * size <= threads
            )
            return text.replace(work[0], "§"), sum(n for n, _ in runs)
    raise AssertionError(f"no groups that take up the {threads} threads of the {side} in {text!r}")


def check_rulers(text, of, unit):
    """The words of each kind of side's ruler of threads, in the order of the kinds, struck out."""
    for side in dict.fromkeys(names[0] for names, _ in ruler_kinds(of)):
        e = of.edge[side]
        bands = [
            ("clear", 0),
            ("drawn", e["clear"]),
            ("face", e["open"]),
            ("back", e["fold 1"]),
            ("turn", e["fold 2"]),
        ]
        ends = [e["clear"], e["open"], e["fold 1"], e["fold 2"], e["cut"]]
        words = [
            f"{name} {first + 1}" + (f"–{last}" if last > first + 1 else "")
            for (name, first), last in zip(bands, ends, strict=True)
            if last > first
        ]
        words += [f"handling {e['handling']}"] if e["handling"] else []
        words += [f"fold 1: after {e['fold 1']}"]
        words += (
            [f"fold 2: after {e['fold 2']}", f"cut: after {e['cut']}"]
            if e["turn"]
            else [f"fold 2, cut: after {e['cut']}"]
        )
        words += [f"rule: 4 hems = {e['rule']} threads, {of.width(side, e['rule'], unit)}"]
        words += [f"needed: {e['need']} threads, {of.width(side, e['need'], unit)}"]
        words += [verdict_of(e)]
        text = strike(text, *words)
    return text


def ruler_kinds(of):
    return kinds(
        {side: (*of.edge[side].items(), of.pitch(side), of.pitch(side, washed=True)) for side in SIDES}
    )


def verdict_of(e):
    spare = e["rule"] - e["need"]
    many = f"{abs(spare)} thread{'' if abs(spare) == 1 else 's'}"
    return (
        f"The rule is enough: {many} to spare." if spare >= 0 else f"The rule is not enough: {many} too few."
    )


# The pieces: every kind, alone and mixed at random


def random_piece(chance):
    """Counts that differ, four sides that differ, washed or not, a hem of either kind, any turn."""
    unit = chance(st.sampled_from(("in", "cm")))
    counts = st.integers(18, 60) if unit == "in" else st.integers(8, 24)
    fabric = Fabric(
        *(f"{chance(counts)}/{unit}" for _ in "12"),
        shrink_warp=f"{chance(st.integers(0, 15))} %",
        shrink_weft=f"{chance(st.integers(0, 9))} %",
        washed=chance(st.booleans()),
    )
    tiny, usual, large = st.integers(8, 40), st.integers(60, 300), st.integers(800, 3000)
    same = chance(st.sampled_from(("width", "threads")))
    hem = (
        chance(st.sampled_from(("1/4 in", "3/8 in", "1 cm", "14 mm")))
        if same == "width"
        else chance(st.integers(2, 20))
    )
    return Piece(
        fabric,
        tuple(chance(tiny | usual | large) for _ in "12"),
        hem=hem,
        same=same,
        clear=Sides(*(chance(st.integers(0, 16)) for _ in SIDES)),
        drawn=chance(st.integers(2, 4)),
        turn=chance(st.sampled_from((None, 0, "2 mm"))),
        handling=chance(st.sampled_from((0, 5, "6 mm", "1/2 in"))),
        corner=chance(st.sampled_from(CORNER_KINDS)),
        through=chance(st.sampled_from(THROUGH)),
    )


#: The workshop's own pieces, and some that were once shown wrong.
PIECES = {
    **EXAMPLES,
    "other bands left and right": Piece(
        Fabric("25/in", washed=True), (75, 75), hem="3/8 in", clear=Sides(4, 5, 4, 5)
    ),
    "to be washed": Piece(
        Fabric("28/in", shrink_warp="8 %", shrink_weft="8 %"), (100, 100), hem="1/4 in", clear=8
    ),
    "washed more one way": Piece(
        Fabric("25/in", "24/in", shrink_warp="12 %", shrink_weft="3 %"),
        (101, 150),
        hem="1/2 in",
        clear=Sides(5, 6, 7, 9),
        handling="1/2 in",
        turn="1/4 in",
    ),
    "three drawn": Piece(
        Fabric("11/cm", "10/cm", washed=True), (90, 80), hem=8, same="threads", clear=5, drawn=3
    ),
    "no turn": Piece(Fabric("30/in", washed=True), (90, 80), hem=8, same="threads", clear=5, turn=0),
}
each_piece = pytest.mark.parametrize("name", PIECES)
each_unit = pytest.mark.parametrize("unit", ["in", "cm", "mm"])
# A page is slow to print: one piece in inches, the next in centimetres.
on_paper = pytest.mark.parametrize(("name", "unit"), list(zip(PIECES, cycle(("in", "cm")), strict=False)))


# The ledger, in the class CSV and the tables of a notebook


def check_row(row, of, unit):
    ledger = {
        "first thread drawn": "first",
        "fold 1 after": "fold 1",
        "fold 2 after": "fold 2",
        "cut after": "cut",
    }
    for column, name in ledger.items():
        told = {}
        for number, names in re.findall(r"(\d+)(\D*)", row[column]):
            told |= dict.fromkeys(sides_in(names) or SIDES, int(number))
        assert told == of.each(name), column
    assert [row["cut across"], row["cut down"]] == [said(mm, unit) for mm in of.to_cut(unit)]
    wide, long = (said(mm, unit) for mm in of.measures(of.size("fold 1"), washed=True))
    assert row["finished"] == f"{wide} × {long}" + (f" {of.when}" if of.when else "")
    assert row["cloth"] == ("washed" if of.piece.fabric.washed else "not washed yet")
    ruler = "in" if unit == "in" else "cm"
    counts = [per(of.pitch(side), ruler) for side in ("left", "top")]
    assert row["count"] == (counts[0] if counts[0] == counts[1] else "{} across, {} down".format(*counts))
    named = {*ledger, "cut across", "cut down", "finished", "count"}
    # The kit's own numbers, which the thread's and the class's tests reckon anew.
    named |= {"groups of", "thread", "thread needed", "thread to have (cm)", "basting to have (cm)"}
    named |= {"needle", "needles", "learner", "linen", "sharp", "sharps", "pins"}
    nothing_left(" ".join(str(value) for column, value in row.items() if column not in named))


@each_unit
@each_piece
def test_the_class_csv_and_the_table_of_kits(name, unit):
    of, shop = Reckoned(PIECES[name]), shop_of(PIECES[name], unit)
    (row,) = csv.DictReader(io.StringIO(csv_text(kit_rows(shop)), newline=""))
    check_row(row, of, unit)
    (row,) = kits_table(shop).reset_index().to_dict("records")
    check_row({name: str(value) for name, value in row.items()}, of, unit)


# Steps, rulers and their alt texts


def check_steps(piece, unit, hand="right"):
    of = Reckoned(piece)
    steps = {
        # The ruler's error, and what is counted inward or in tens, is reckoned anew in tests/finish.
        step.title: re.sub(
            r"A ruler read to .*?trust the count\.|Counted inward from .*?\.(?= |$)"
            r"| \(\d+ lines? of 10[^)]*\)",
            "",
            f"{step.task} Check: {step.check}",
        )
        for step in finish_steps(piece, unit=unit, hand=hand)
    }
    for title in ("Hold the raw edge", "Find the middle", "Count out the design", "Stitch the design"):
        steps.pop(title)
    before = steps.pop("Check before the snip")
    check_sides(before, of, r"to draw is thread (\d+)|(?<=,) (\d+)(?= on)", "first")
    cut, design = of.size("margin"), of.measures(piece.design)

    count = steps.pop("Count the cloth")
    ruler = "in" if unit == "in" else "cm"
    count = strike(count, f"{per(of.pitch('left'), ruler)} across and {per(of.pitch('top'), ruler)} down")
    count = strike(count, "{} threads across and {} threads down".format(*piece.design))
    nothing_left(strike_size(count, unit, design))

    prepare = re.sub(r"This is a piece for practised hands: .*?\. ", "", steps.pop("Prepare the cloth"))
    if of.when:
        for side, way in (("left", "width"), ("top", "length")):
            lost = of.shrinks(side)
            prepare = strike(
                prepare, f"{hundredths(100 * lost)} % off its {way}" if lost else f"nothing off its {way}"
            )
    nothing_left(prepare)

    size = steps.pop("Cut the cloth to size")
    size = strike_size(strike_size(size, unit, of.to_cut(unit), between=" × "), unit, of.to_cut(unit))
    size = strike(size, f"({cut[0]} × {cut[1]} threads, rounded up to {said(MARK[unit], unit)})")
    check_told(size, of, unit)
    check_sides(size, of, r"at least (\d+) threads", "margin")

    lines = steps["Baste the lines"]
    if piece.turn != 0:
        for i, line in enumerate(("fold 1", "fold 2", "cut")):
            check_sides(lines, of, r"after threads (\d+), (\d+) and (\d+)", line, i)
    first = steps["Draw the first thread of each side"]
    check_sides(first, of, r"basted line, thread (\d+)|(?<=,) (\d+)(?= on)", "first")

    cut_line = steps.pop("Cut along the cut line")
    cut_line = strike_size(cut_line, unit, of.measures(of.size("cut")))
    check_told(strike(cut_line, "{} threads across and {} threads down".format(*of.size("cut"))), of, unit)

    check_corner(piece, of, unit, steps)

    stitch, corners = steps.pop("Hem stitch the sides"), steps.pop("Turn the corners")
    for pair in (("left", "right"), ("top", "bottom")):
        threads = of.between(pair[0])
        stitch = re.sub(
            rf" {threads} threads do not divide by 4, so \d groups? (?:is|are) of [35]: no fewer will do\.",
            "",
            stitch,
        )
    for side in ("left", "top"):
        if not re.search(r"Work \d", stitch):
            continue  # all four alike
        stitch, many = strike_spacing(stitch, of, side)
        stitch = strike(stitch, f"{many} stitches take up all {of.between(side)} threads.")
    nothing_left(re.sub("[12] threads? (?:inside|deep)", "", stitch))
    assert set(re.findall(r"\d+", corners)) <= {"3", "4", "5"}  # the first group: regular, or an off-size one

    hem = steps["Fold the hem"]
    check_sides(hem, of, r"just beyond thread (\d+)|(?<=,) (\d+)(?= on)", "open")
    steps["Fold the hem"] = re.sub(r"\d+(?: to \d+)? layers", "", hem)

    finish = steps.pop("Finish")
    finish = strike_size(finish, unit, of.measures(of.size("fold 1")))
    if of.when:
        finish = strike_size(finish, unit, of.measures(of.size("fold 1"), washed=True), of.when)
    nothing_left(strike(finish, "{} threads across and {} threads down".format(*of.size("fold 1"))))

    darn = steps.pop("Darn the tails back")
    darn = re.sub(r"The plan allows .*?(?:too short|cut line)\.", "", darn)
    for tail in re.finditer(
        r"The ([^.]+?) (?:is|are) too short: (?:it|each) "
        r"(?:crosses only (\d+) threads?|is used up in its turn), "
        r"and a gap begins at thread (\d+) of the side that it runs into, in the (\w+) band, "
        r"where it (shows|does not show)\.",
        darn,
    ):
        check_tail(of, *tail.groups())
        darn = darn.replace(tail[0], "")
    check_told(darn, of, unit)
    for text in steps.values():
        check_told(text, of, unit)


def check_corner(piece, of, unit, steps):
    """The steps of the corners, each kind by its own geometry."""
    (hx, tx), (hy, ty) = of.corner
    if piece.corner in ("square", "uncut"):
        # Folded square: no fold at the corner, and no seam, but an end of the width of either hem.
        thin = steps.pop("Thin the square corners", "")
        if thin:
            quarter = MM["in"] / 4
            thin = strike(thin, *(said(mm, unit) for mm in (hx + tx - quarter, hy + ty - quarter, quarter)))
            nothing_left(re.sub("fold line 1", "", thin))
        steps.pop("Leave the corners whole", "")
        check_told(steps.pop("Oversew the square corners").replace("meets: ", ""), of, unit)
        return
    legs = tx + hx * ty / hy, ty + hy * tx / hx
    if piece.corner == "untrimmed":
        steps.pop("Leave the corners whole")
    else:
        trim = steps.pop("Trim the corners", None) or steps.pop("Leave the points of the corners")
        trim = strike_legs(trim, legs, unit) if any(legs) else trim
        trim = trim.replace("fold lines 2", "").replace("fold lines 1", "")
        nothing_left(strike(trim, square_root(4 / (1 / hx**2 + 1 / hy**2), unit)))

    fold = steps.pop("Fold the corners").replace("fold lines 1", "").replace(" along ", " of ")
    fold = strike_legs(fold, (2 * hx + tx + hx * ty / hy, 2 * hy + ty + hy * tx / hx), unit)
    apart = {
        "left and right": abs(hx**2 - hy**2) / (2 * hy) / of.pitch("top"),
        "top and bottom": abs(hx**2 - hy**2) / (2 * hx) / of.pitch("left"),
    }
    for times in (1, 2):
        for at, each in apart.items():
            halves = math.floor(2 * times * each + Fraction(1, 2))
            whole, half = divmod(halves, 2)
            if 2 * times * each >= 1 and halves > 1:  # what is less a hand can't do, and no number says
                many = f"{whole} 1/2 threads" if half else f"{whole} thread{'s' * (whole > 1)}"
                lean = rf"(fold line {times} by (?:half a thread )?.*?)(?<![\d/]){many}( on the {at})?"
                fold = re.sub(lean, r"\1", fold)
    angle = abs(2 * math.degrees(math.atan2(hx, hy)) - 90)
    if angle > 2:
        fold = fold.replace(f"about {math.floor(angle + 0.5)} degrees", "")
    nothing_left(re.sub(r"[Ff]old line [12]", "", fold))

    seam = steps.pop("Sew the mitres")
    nothing_left(strike(seam, square_root(hx**2 + hy**2, unit)))


def check_tail(of, whose, crossed, gap, band, shows):
    ends = re.findall(rf"({LISTED}) tails? of the ({LISTED})", whose)
    assert ends
    for side, other in ((a, b) for toward, names in ends for a in sides_in(names) for b in sides_in(toward)):
        e = of.edge[other]
        # An odd thread goes to the upper or the left end.
        half = math.ceil(of.between(side) / 2) if other in ("left", "top") else of.between(side) // 2
        reach = max(math.floor(half - Fraction(8, 5) - 10 / of.pitch(other)), 0)
        first = e["second"] + reach
        assert (int(crossed or 0), int(gap)) == (reach, first)
        bands = {"drawn": "open", "face": "fold 1", "back": "fold 2", "turn": "cut"}
        assert band == next(name for name, last in bands.items() if first <= e[last])
        assert (shows == "shows") == (first <= e["fold 1"])


def strike_legs(text, legs, unit):
    x, y = (said(mm, unit) for mm in legs)
    if x == y:
        return strike(text, f"{x} of both raw edges")
    return strike(text, f"{x} of the top and bottom raw edges and {y} of the left and right ones")


def near(number):
    """A measured number to the nearest hundredth."""
    fine = Fraction(to_nearest(number * 10**6), 10**6)
    return f"{'' if (100 * fine).denominator == 1 else '≈ '}{hundredths(fine)}"


def check_sides(text, of, pattern, name, group=0):
    """A number that a pattern finds, read for all four sides."""
    found = {}
    for words, sides in told(text):
        for match in re.finditer(pattern, f"{words.rstrip()} on"):
            number = [each for each in match.groups() if each][group]
            found |= {side: int(number) for side in sides or ()}
    assert found == of.each(name), (name, text)


@each_unit
@each_piece
def test_the_steps(name, unit):
    check_steps(PIECES[name], unit)


@each_unit
@each_piece
def test_the_pictures_in_words(name, unit):
    check_pictures(PIECES[name], unit)


def check_pictures(piece, unit):
    """The alt texts of each side's ruler and section, and of each corner."""
    of = Reckoned(piece)
    for side in SIDES:
        edge = getattr(piece.edges_in_hand, side)
        e, text = of.edge[side], edge_alt(edge, unit)
        bands = zip(
            ("clear", "drawn", "face", "back", "turn"),
            (0, e["clear"], e["open"], e["fold 1"], e["fold 2"]),
            (e["clear"], e["open"], e["fold 1"], e["fold 2"], e["cut"]),
            strict=True,
        )
        text = strike(
            text,
            f"a ruler of {e['cut']} threads",
            *(f"{b} {f + 1}" + (f"–{last}" if last > f + 1 else "") for b, f, last in bands if last > f),
            f"Fold 1 after thread {e['fold 1']}, fold 2 after {e['fold 2']}, cut after {e['cut']}",
            f"Rule: {e['rule']} threads, {of.width(side, e['rule'], unit)}",
            f"needed: {e['need']} threads, {of.width(side, e['need'], unit)}",
            verdict_of(e),
        )
        nothing_left(text)
        # What a bend takes is measured physics, and held by tests/draw/edge/test_profile.py.
        # A thin cloth: of thick cloth the narrowest hems can't be folded.
        text = section_alt(plan_section(edge, "0.2 mm"), 0.0, unit)
        hem = f"hem of {e['hem']} thread{'s' if e['hem'] > 1 else ''} ({of.width(side, e['hem'], unit)})"
        nothing_left(strike(text, "cloth 0.2 mm thick", hem, f"turn of {e['turn']}"))
    (hx, _), (hy, _) = of.corner
    for corner in piece.corners:
        strike(corner_alt(corner, 1.0, unit), f"corner of hems {said(hx, unit)} and {said(hy, unit)}, folded")


# Paper


def strike_notes(text, piece):
    """The words on what was rounded, which the edge's own tests reckon anew."""
    return strike(text, *(note for note in piece.notes if note in text and re.search(r"\d", note)))


def strike_thread(text, kit, unit):
    """Thread and needles, which the thread's own tests reckon anew."""
    for each in (*kit.uses, *kit.counted):
        text = text.replace(each.text(), "§")
    return text


def check_sheet(piece, unit):
    of, kit = Reckoned(piece), shop_of(piece, unit).kits[0]
    leaflet = learner_sheet(kit, unit=unit)
    text = printed(leaflet)
    for number, step in enumerate(finish_steps(piece, unit=unit), 1):
        text = strike(text, f"{number}. {step.title}")
        for words in (step.task.replace(f" {PRACTICE}", ""), step.check):
            for sentence in re.split(r"(?<=[.;,:]) ", words):
                if re.search(r"\d", sentence):
                    text = text.replace(sentence, "§", 1)
    text = strike(text, *(" ".join(row) for row in rows_of(of, unit)), *cloth_of(of, unit))
    text = check_rulers(strike_thread(strike_notes(text, piece), kit, unit), of, unit)
    for side in ("left", "top"):
        if re.search(r"Work \d", text):
            text, _ = strike_spacing(text, of, side)
            text = text.replace(f"{of.between(side)} threads", "§")
    # The pictures' words: the blank cloth's counts, the depth of the bite, and the names of the lines.
    text = strike(text, " ".join(map(str, counted(of))))
    bite = min(2, *of.each("hem").values())
    text = strike(text, f"{bite} thread{'s' if bite > 1 else ''} deep")
    nothing_left(re.sub(r"fold [12]\b", "", text))
    cut = of.each("cut")
    told = (
        str(cut["left"])
        if len(set(cut.values())) == 1
        else ", ".join(f"{n} {listed(names)}" for names, n in kinds(cut))
    )
    assert f"cut after thread {told};" in " ".join(page.alt for page in leaflet.pages)


def counted(of):
    """Threads from the raw edge to the outline, and from there to the centre line, and on: both ways."""
    margins = of.each("margin")
    for first, last, threads in zip(("left", "top"), ("right", "bottom"), of.piece.design, strict=True):
        yield from (margins[first], threads - threads // 2, threads // 2, margins[last])


@on_paper
def test_the_learners_sheet(name, unit):
    check_sheet(PIECES[name], unit)


def gauge_of(of, side, unit):
    e = of.edge[side]
    h, t = e["hem"], e["turn"]
    marks = [("cut", 2 * h + t), ("two hems: fold 2", 2 * h), ("hem: fold 1", h)]
    marks += [("open line", 2 * h + t), ("turn and hem: fold 1", h + t), ("turn: fold 2", t)]
    return tuple(
        f"{name}, {of.width(side, n, unit)}"
        for name, n in marks
        if t or name not in ("two hems: fold 2", "turn: fold 2")
    )


@on_paper
def test_the_hem_gauge(name, unit):
    check_gauge(PIECES[name], unit)


def check_gauge(piece, unit):
    of, kit = Reckoned(piece), shop_of(piece, unit).kits[0]
    leaflet = gauge_card(kit, unit=unit)
    text, alt = printed(leaflet), " ".join(page.alt for page in leaflet.pages)
    alike = kinds({s: (of.edge[s]["hem"] * of.pitch(s), of.edge[s]["turn"] * of.pitch(s)) for s in SIDES})
    if len(alike) > 1 and "Ada, mat: all sides" in text:
        # Nobody could tell two cards apart: every mark lies within a line's width of the other's.
        (hx, tx), (hy, ty) = of.corner
        apart = (hx - hy, 2 * (hx - hy), 2 * (hx - hy) + tx - ty, tx - ty, hx - hy + tx - ty)
        assert max(map(abs, apart)) < Fraction(16, 10) * MM["in"] / 72
        alike = [(list(SIDES), None)]
    for names, _ in alike:
        # A card's words stand before its name.
        card, text = re.split(rf"Ada, mat: {listed(names)}", text, maxsplit=1)
        card = card[card.index("cut, ") :]
        nothing_left(re.sub(r"fold [12]", "", strike(card, *gauge_of(of, names[0], unit))))
        for mark in gauge_of(of, names[0], unit)[: 3 if of.edge[names[0]]["turn"] else 2]:
            alt = strike(alt, f"{mark.replace(', ', ' ')} {listed(names)}")
    nothing_left(text)
    nothing_left(re.sub(r"page \d of \d on A4|fold [12]", "", alt))


@on_paper
def test_the_key_the_labels_and_the_shopping_list(name, unit):
    check_lists(PIECES[name], unit)


def check_lists(piece, unit):
    of, shop = Reckoned(piece), shop_of(piece, unit)
    kit = shop.kits[0]
    across, down = (said(mm, unit) for mm in of.to_cut(unit))

    key = printed(leader_key(shop))
    key = strike(key, *(" ".join(row) for row in rows_of(of, unit)), *cloth_of(of, unit))
    key = strike_notes(strike_thread(key, kit, unit), piece)
    for side in ("left", "top"):
        if re.search(r"Work \d", key):
            key, _ = strike_spacing(key, of, side)
            key = key.replace(f"{of.between(side)} threads", "§")
    out = ("blunt needle 1 0 0 1", "sharp needle 1 0 0 1", "pins 12 0 0 12")
    key = strike(key, "1 learner, 0 spare kits", *out, "Ada mat right 2 12")
    nothing_left(key)

    labels = printed(kit_labels(shop))
    state = "washed" if piece.fabric.washed else "not washed yet"
    labels = strike(labels, f"cloth, {state}: {across} across × {down} down", *counts_of(of, unit))
    # Thread, needles and pins are reckoned anew in the tests of the kit.
    labels = strike(labels, *(line.text() for line in (*kit.uses, *kit.counted)))
    nothing_left(labels)

    shopping = printed(shopping_list(shop))
    assert f"1 of mat, {across} across × {down} down" in shopping


# Everything at once, of any piece


#: How many pieces are made up, and every which one is printed too; more are tried when it is asked for.
MADE_UP, PRINTED = int(os.environ.get("HEMCALC_PIECES", "8")), 40


def check_table(piece, unit):
    """The edge's table as my piece shows it: as HTML, read back cell by cell, and in words."""
    of, shop = Reckoned(piece), shop_of(piece, unit)
    mine = MinePlan(shop.kits[0], hours(piece), unit)
    table = ElementTree.fromstring(re.search("<table.*</table>", mine.html(), re.DOTALL)[0])
    assert sorted([cell.text or "" for cell in row] for row in table.iter("tr")) == sorted(rows_of(of, unit))
    cut = [said(mm, unit) for mm in of.to_cut(unit)]
    strike(mine.text(), "{} across × {} down ({} × {} threads".format(*cut, *of.size("margin")))
    for side in SIDES:
        e = of.edge[side]
        bands = ElementTree.fromstring(getattr(piece.edges_in_hand, side)._repr_html_()).iter("tr")
        found = {row[0].text: [cell.text for cell in row][1:4] for row in bands}
        for name, last in (("clear", "clear"), ("drawn", "open"), ("face", "fold 1"), ("back", "fold 2")):
            assert found.get(name, ["", str(e[last])])[1] == str(e[last]), (side, name)


def check_answers(piece):
    """The checker, asked with the second reckoning's numbers: all of them are right."""
    of = Reckoned(piece)
    finished, cut = of.size("fold 1"), of.size("margin")
    for side in SIDES:
        e = of.edge[side]
        names = ("hem", "turn", "fold 1", "fold 2", "cut", "rule", "need", "margin")
        answers = {name: e[name] for name in names} | {"first drawn": e["first"]}
        answers |= {"finished across": finished[0], "finished down": finished[1]}
        answers |= {"cut across": cut[0], "cut down": cut[1]}
        report = check(piece, {name: str(number) for name, number in answers.items()}, side=side)
        assert report.all_right, (side, report.text())


def check_beginning(piece, unit, beginning):
    """The steps of a piece that was not begun as blank cloth to size: what is counted of each side."""
    of = Reckoned(piece)
    steps = {step.title: step for step in finish_steps(piece, unit=unit, beginning=beginning)}
    check_sides(steps["See that the cloth has room"].task, of, r"at least (\d+) threads", "need")
    first = steps["Check before the snip"].task
    check_sides(first, of, r"to draw is thread (\d+)|(?<=,) (\d+)(?= on)", "first")
    strike(
        steps["Cut along the cut line"].check, "{} threads across and {} threads down".format(*of.size("cut"))
    )


@settings(max_examples=MADE_UP, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(st.data(), st.sampled_from(["in", "cm", "mm"]))
def test_any_piece_says_the_same_everywhere(data, unit):
    try:
        piece = random_piece(data.draw)
    except HemError:
        reject()  # hems too wide for so few threads, and the like
    ways = suggest_clear(piece, 2)[:1] if data.draw(st.booleans()) else ()
    for tried in (piece, *(way.piece for way in ways)):
        check_pictures(tried, unit)
        check_table(tried, unit)
        check_answers(tried)
        check_steps(tried, unit, data.draw(st.sampled_from(["right", "left"])))
        check_beginning(tried, unit, data.draw(st.sampled_from(["stitched", "blank, larger"])))
        (row,) = csv.DictReader(io.StringIO(csv_text(kit_rows(shop_of(tried, unit))), newline=""))
        check_row(row, Reckoned(tried), unit)
    if unit != "mm" and data.draw(st.integers(1, PRINTED)) == PRINTED:
        for on_paper in (check_sheet, check_gauge, check_lists):
            on_paper(piece, unit)


# The form of a sum, and the margin's panel


@for_each("side", SIDES)
@for_each("name", EXAMPLES)
def test_the_form_of_a_sum(name, side):
    form, of = from_example(name, side), Reckoned(EXAMPLES[name])
    e, finished, cut = of.edge[side], of.size("fold 1"), of.size("margin")
    expected = {
        **{"first drawn": e["first"], "finished across": finished[0], "finished down": finished[1]},
        **{"cut across": cut[0], "cut down": cut[1]},
    }
    for name_of, worked in form.key.items():
        assert worked.value == expected.get(name_of, e.get(name_of)), name_of
    assert form.check({name_of: str(int(worked.value)) for name_of, worked in form.key.items()}).all_right


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_margins_panel(name):
    panel = margin_panel()
    panel.reset(name)
    of, unit = Reckoned(EXAMPLES[name]), panel.values["unit"]
    e, pitch = of.edge["left"], of.pitch("left", washed=True)
    bounds = [0, e["clear"], e["open"], e["fold 1"], e["fold 2"], e["cut"]]
    bands = zip(("clear", "drawn", "face", "back", "turn"), bounds, bounds[1:], strict=False)
    (alt,) = re.findall(r'alt="([^"]*)"', panel.picture.value)
    # What a bend takes is measured physics, and held by tests/draw/edge/test_profile.py.
    text = strike(
        html.unescape(alt).partition(", folded: ")[0],
        f"a ruler of {e['cut']} threads",
        *(f"{band} {first + 1}–{last}" for band, first, last in bands),
        f"Fold 1 after thread {e['fold 1']}, fold 2 after {e['fold 2']}, cut after {e['cut']}",
        f"Rule: {e['rule']} threads, {said(e['rule'] * pitch, unit)}",
        f"needed: {e['need']} threads, {said(e['need'] * pitch, unit)}",
        verdict_of(e),
        f"cloth {EXAMPLES[name].fabric.thickness.text('mm')} thick",
        f"hem of {e['hem']} threads ({said(e['hem'] * pitch, unit)}), turn of {e['turn']}",
    )
    nothing_left(text)
    for way in ("count across", "count down"):
        assert "after its first wash" in panel.controls[way].beside.value


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_corners_panel(name):
    panel = corner_panel()
    panel.reset(name)
    of, unit = Reckoned(EXAMPLES[name]), panel.values["unit"]
    (alt,) = re.findall(r'alt="([^"]*)"', panel.picture.value)
    (hx, _), (hy, _) = of.corner
    strike(
        alt,
        f"hems {said(hx, unit)} and {said(hy, unit)}",
        f"seam {square_root(hx**2 + hy**2, unit)}",
    )
