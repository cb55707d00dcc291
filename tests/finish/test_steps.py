"""The finish step by step: every number is the piece's, and nothing that can hurt lacks its caution."""

import importlib.util
import math
import pathlib
import re
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.finish.counting import counting_plan
from hemcalc.finish.open_line import longest_eye
from hemcalc.finish.steps import Step, finish_steps
from hemcalc.finish.words import MOVEMENTS
from hemcalc.measure.cautions import CAUTIONS, caution_for
from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides
from hemcalc.piece.sizes import BEGINNINGS
from hemcalc.stitch.groups import WORKED
from hemcalc.stitch.spacing import space_stitches
from hemcalc.weave.reach import Allowances
from hemcalc.weave.weave import open_line

_SPEC = importlib.util.spec_from_file_location("sentences", pathlib.Path(__file__).with_name("sentences.py"))
READER = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(READER)

SIDES = ("left", "right", "top", "bottom")
BREAD = EXAMPLES["bread cloth"]
# Hems alike both ways: 14 threads and a turn of 7, 1/2 in and 1/4 in.
EVEN = Piece(Fabric("28/in", thickness="0.4 mm", washed=True), (224, 224), hem="1/2 in", clear=6)
SMALL = Piece(Fabric("22/in"), (26, 26), hem=9, same="threads", clear=5)


def a_piece(**changes):
    return EVEN.with_changes(**changes)


def called(title, piece, **words):
    """The one step whose title begins so."""
    (step,) = [step for step in finish_steps(piece, **words) if step.title.startswith(title)]
    return step


@st.composite
def pieces(draw):
    counts = st.sampled_from(("20/in", "27/in", "28/in", "11/cm"))
    shares = st.sampled_from((0, Fraction(3, 100), Fraction(1, 30)))
    same = draw(st.sampled_from(("width", "threads")))
    corner = draw(st.sampled_from(("mitred", "mitred", "untrimmed", "square", "uncut")))
    allowance = {"mitred": draw(st.sampled_from((None, "1 mm"))), "square": "1 mm"}.get(corner)
    clear = st.integers(0, 12)
    return Piece(
        Fabric(
            draw(counts),
            draw(counts),
            shrink_warp=draw(shares),
            shrink_weft=draw(shares),
            washed=draw(st.booleans()),
        ),
        draw(st.tuples(*[st.integers(10, 400)] * 2)),
        hem=f"{draw(st.integers(4, 30))} mm" if same == "width" else draw(st.integers(3, 24)),
        clear=Sides(*(draw(clear) for _ in range(4))),
        drawn=draw(st.integers(1, 6)),
        turn=draw(st.sampled_from((None, 0, 1, "2 mm", "1/50 in"))),
        handling=draw(st.sampled_from((0, 12, "1 cm"))),
        same=same,
        corner=corner,
        allowance=allowance,
    )


asked = st.fixed_dictionaries(
    {
        "group": st.integers(2, 6),
        "hand": st.sampled_from(("right", "left")),
        "unit": st.sampled_from(("in", "cm", "mm")),
        "beginning": st.sampled_from(BEGINNINGS),
    }
)

# Every number in the words is worked out here once more, from the piece's inputs alone.

NUMBER = re.compile(
    r"(?:≈ )?(?:\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+)(?:/in\b|/cm\b| in\b| cm\b| mm\b| %| degrees)?"
)


def numbers(step):
    """The numbers of a step, each with its unit and its sign of rounding."""
    words = re.sub(r"[Ff]old lines? [12]", "fold line", f"{step.task} {step.check}")
    return set(NUMBER.findall(words))


def hundredth(number, unit):
    exact = Fraction(f"{number:.6f}") if isinstance(number, float) else number
    figure = math.floor(exact * 100 + Fraction(1, 2)) / 100
    return f"{'' if (exact * 100).denominator == 1 else '≈ '}{figure:g}{unit}"


class Expected:
    """The numbers that each step should have, by its title."""

    def __init__(self, piece, group, unit, beginning):
        self.piece, self.group, self.unit = piece, group, unit
        self.larger = beginning != "blank, to size"
        fabric = piece.fabric
        self.w = piece.drawn
        self.pitch, self.c, self.h, self.t, self.e = {}, {}, {}, {}, {}
        for side in SIDES:
            count = fabric.warp if side in ("left", "right") else fabric.weft
            edge = getattr(piece.edges, side)
            self.pitch[side] = 1 / count.per_mm
            self.c[side] = getattr(piece.clear, side)
            self.h[side], self.t[side], self.e[side] = edge.hem, edge.turn, edge.handling
        self.total = {s: self.c[s] + self.w + 2 * self.h[s] + self.t[s] for s in SIDES}
        self.margin = {s: max(4 * self.h[s], self.total[s] + self.e[s]) for s in SIDES}
        wide, high = piece.design
        self.between = {
            **dict.fromkeys(("left", "right"), high + self.c["top"] + self.c["bottom"]),
            **dict.fromkeys(("top", "bottom"), wide + self.c["left"] + self.c["right"]),
        }
        self.hx, self.hy = (self.h[s] * self.pitch[s] for s in ("left", "top"))
        self.tx, self.ty = (self.t[s] * self.pitch[s] for s in ("left", "top"))

    def long(self, mm):
        """A length in words; a measured one is known to a millionth."""
        return Length(Fraction(f"{mm:.6f}") if isinstance(mm, float) else mm).text(self.unit)

    def threads(self, many, sides=SIDES):
        """The threads of each side, and how wide they are, where that isn't less than a ruler shows."""
        said = {word for s in sides for word in (str(many[s]), self.long(many[s] * self.pitch[s]))}
        return {word for word in said if not word.startswith("≈ 0 ")}

    def at_least(self, many):
        """The threads of each side, and the next mark of a ruler, 1/16 in or 1 mm, that has them all."""
        mark = Fraction(254, 160) if self.unit == "in" else 1
        wide = {s: math.ceil(many[s] * self.pitch[s] / mark) * mark for s in SIDES}
        return {word for s in SIDES for word in (str(many[s]), self.long(wide[s]))}

    def across_down(self, margins, unwashed_to_washed=False):
        """Threads across and down, with these margins, and how long they are in hand, or washed."""
        wide = self.piece.design[0] + margins["left"] + margins["right"]
        high = self.piece.design[1] + margins["top"] + margins["bottom"]
        lengths = [wide * self.pitch["left"], high * self.pitch["top"]]
        if unwashed_to_washed:
            lengths = [
                lengths[0] * (1 - self.piece.fabric.shrink_weft),
                lengths[1] * (1 - self.piece.fabric.shrink_warp),
            ]
        return (wide, high), lengths

    def size(self, margins):
        counted, lengths = self.across_down(margins)
        return {*map(str, counted), *map(self.long, lengths)}

    # One for each title

    def prepare_the_cloth(self):
        shares = (self.piece.fabric.shrink_warp, self.piece.fabric.shrink_weft)
        said = set() if self.piece.fabric.washed else {hundredth(100 * s, " %") for s in shares if s}
        few, turned = min(self.h.values()), [s for s in SIDES if self.t[s]]
        if few <= 4:
            said.add(str(few))
        narrow = min(turned, key=lambda s: self.t[s] * self.pitch[s], default=None)
        if narrow and self.t[narrow] * self.pitch[narrow] <= 2:
            said |= self.threads(self.t, [narrow])
        return said

    @property
    def mark(self):
        """The finest mark of a ruler: a sixteenth of an inch, or a millimetre."""
        return Fraction(254, 160) if self.unit == "in" else Fraction(1)

    def ruler(self):
        """That mark, and the threads that it may hide."""
        return {self.long(self.mark), str(max(math.ceil(self.mark / p) for p in self.pitch.values()))}

    def in_lines(self, many):
        """A count, and the same in lines of ten."""
        return {str(many)} | (
            {str(many // 10), "10", *([str(many % 10)] if many % 10 else [])} if many >= 10 else set()
        )

    def inward(self, after):
        """What is counted inward from the raw edge of a cloth cut to size, and what more there may be."""
        mark = {"in": Fraction(254, 80), "cm": Fraction(5), "mm": Fraction(1)}[self.unit]
        counted, lengths = self.across_down(self.margin)
        pitches = self.pitch["left"], self.pitch["top"]
        cut = (math.ceil(each / mark) * mark / pitch for each, pitch in zip(lengths, pitches, strict=True))
        extra = max(math.floor(many) - plan for many, plan in zip(cut, counted, strict=True))
        return {str(self.margin[s] - after[s]) for s in SIDES} | ({str(extra)} if extra else set())

    @property
    def halves(self):
        wide, high = self.piece.design
        return {"left": wide - wide // 2, "right": wide // 2, "top": high - high // 2, "bottom": high // 2}

    @property
    def room(self):
        return {s: self.total[s] + self.e[s] for s in SIDES} if self.larger else self.margin

    def hold_the_raw_edge(self):
        return {"10", *(str(self.margin[s] - self.c[s]) for s in SIDES)} if self.w > 1 else set()

    def find_the_middle(self):
        said = {str(self.room[s] + self.halves[s]) for s in SIDES}
        for a, b in (("left", "right"), ("top", "bottom")):
            off = abs(self.room[a] + self.halves[a] - self.room[b] - self.halves[b]) // 2
            said |= {str(off)} if off and not self.larger else set()
        return said

    def count_out_the_design(self):
        said = self.size(dict.fromkeys(SIDES, 0)) | self.ruler() | {"10"}
        said |= set.union(*(self.in_lines(half) for half in self.halves.values()))
        none = dict.fromkeys(SIDES, 0)
        return said | ({str(self.room[s]) for s in SIDES} if self.larger else self.inward(none))

    def stitch_the_design(self):
        return set()

    def check_before_the_snip(self):
        said = self.threads(self.c, [s for s in SIDES if self.c[s]]) | self.ruler()
        said |= {str(self.c[s] + 1) for s in SIDES}
        for s, across in zip(SIDES, ("top", "top", "left", "left"), strict=True):
            said |= self.in_lines(self.between[s]) | {self.long(self.between[s] * self.pitch[across])}
        return said | ({str(self.room[s] - self.c[s]) for s in SIDES} if self.larger else self.inward(self.c))

    def count_the_cloth(self):
        per = "in" if self.unit == "in" else "cm"
        to = Fraction(254, 10) if per == "in" else 10
        counts = {hundredth(to / self.pitch[side], f"/{per}") for side in ("left", "top")}
        return counts | self.size(dict.fromkeys(SIDES, 0)) | self.ruler()

    def cut_the_cloth_to_size(self):
        mark = {"in": Fraction(254, 80), "cm": Fraction(5), "mm": Fraction(1)}[self.unit]
        counted, lengths = self.across_down(self.margin)
        to_cut = {self.long(math.ceil(each / mark) * mark) for each in lengths}
        return self.at_least(self.margin) | {*map(str, counted)} | to_cut | {self.long(mark)}

    def see_that_the_cloth_has_room(self):
        return self.at_least({s: self.total[s] + self.e[s] for s in SIDES})

    def draw_the_first_thread_of_each_side(self):
        first = {str(self.c[s] + 1) for s in SIDES}
        cut = {str(self.total[s]) for s in SIDES} if self.larger else set()
        return first | cut

    def draw_one_thread_on_each_side(self):
        first = {str(self.c[s] + 1) for s in SIDES}
        return first | self.threads(dict.fromkeys(SIDES, 1))

    def withdraw_the_other_threads_to_the_corners(self):
        last = {str(self.c[s] + self.w) for s in SIDES}
        halves = {str(half) for n in self.between.values() for half in (n // 2, n - n // 2)}
        return (
            {str(self.c[s] + 2) for s in SIDES} | last | halves | self.threads(dict.fromkeys(SIDES, self.w))
        )

    def darn_the_tails_back(self):
        said, eye, spare = {str(self.c[s] + 2) for s in SIDES}, Fraction(10), []
        said.add(self.long(eye))
        for other in SIDES:
            covers = self.w - 1 + 2 * self.h[other] + self.t[other]
            said.add(str(covers))
            for side in SIDES[2:] if other in SIDES[:2] else SIDES[:2]:
                whole = self.between[side]
                half = whole // 2 if other in ("right", "bottom") else whole - whole // 2
                spare.append((half - Fraction(8, 5) - covers) * self.pitch[other])
                crossed = max(math.floor(half - Fraction(8, 5) - eye / self.pitch[other]), 0)
                if crossed < covers:
                    said |= {str(crossed)} if crossed else set()
                    said.add(str(self.c[other] + 2 + crossed))
        return said | ({self.long(min(spare) // self.mark * self.mark)} if min(spare) >= 0 else set())

    def run_the_ends_in(self):
        return {str(self.c[s] + 1) for s in SIDES if self.w == 1} | {str(self.h[s]) for s in SIDES}

    def baste_the_lines(self):
        turned = [s for s in SIDES if self.t[s]]
        lines = {str(self.c[s] + self.w + times * self.h[s]) for s in SIDES for times in (1, 2)}
        cut = {str(self.total[s]) for s in turned}
        fold_1 = {s: self.c[s] + self.w + self.h[s] for s in SIDES}
        inward = set() if self.larger else self.inward(fold_1)
        return lines | cut | inward | self.threads(self.h) | self.threads(self.t, turned)

    def cut_along_the_cut_line(self):
        off = {s: self.margin[s] - self.total[s] for s in SIDES}
        gone = set() if self.larger else self.threads(off, [s for s in SIDES if off[s]])
        return gone | self.threads(self.total) | self.size(self.total)

    @property
    def steepness(self):
        return math.hypot(1 / self.hx, 1 / self.hy)

    @property
    def trim(self):
        """The constant of the cut's line, x / hx + y / hy."""
        return 2 + self.steepness if self.piece.allowance else 4  # an allowance of 1 mm

    def legs(self, line):
        x, y = 2 * self.hx + self.tx, 2 * self.hy + self.ty
        return {
            self.long(x - self.hx * (line - y / self.hy)),
            self.long(y - self.hy * (line - x / self.hx)),
        }

    def trim_the_corners(self):
        said = {self.long(Fraction(1))} if self.piece.allowance else set()
        return said | self.legs(self.trim) | {self.long(float((self.trim - 2) / self.steepness))}

    def leave_the_points_of_the_corners(self):
        return {self.long(2 / self.steepness)}

    def thin_the_square_corners(self):
        return {self.long(Fraction(1)), self.long(self.hx + self.tx - 1), self.long(self.hy + self.ty - 1)}

    def leave_the_corners_whole(self):
        corner = self.piece.corners.top_left
        if self.piece.corner == "uncut":
            return self.layers()
        over = corner.overhang
        return {self.long(reach) for reach in (over.reach_mm, over.work_reach_mm or over.reach_mm)}

    def layers(self):
        areas = self.piece.corners.top_left.layer_areas
        return {str(min(areas)), str(max(areas))}

    def fold_the_corners(self):
        said = self.legs(2)
        landings = self.piece.corners.top_left.landings
        folds = [each for each in landings if each.line != "cut" and 2 * each.apart_threads >= 1]
        halves = {Fraction(math.floor(2 * each.apart_threads + Fraction(1, 2)), 2) for each in folds}
        said |= {Length(half).text("mm").removesuffix(" mm") for half in halves if half.denominator == 1}
        said |= {f"{half // 1} 1/2" for half in halves if half.denominator == 2 and half > 1}
        angle = abs(90 - 2 * math.degrees(math.atan(self.hy / self.hx)))
        if halves and angle > 2:
            said.add(f"{math.floor(angle + 0.5)} degrees")
        lands = abs(4 - self.trim) / self.steepness if self.piece.corner == "mitred" else 0
        return said | ({self.long(lands)} if lands > 1e-6 else set())

    def turn_in_the_raw_edge(self):
        return self.threads(self.t, [s for s in SIDES if self.t[s]])

    def overcast_the_raw_edge(self):
        return set()

    def fold_the_hem(self):
        return {str(self.c[s] + self.w) for s in SIDES} | self.threads(self.h) | self.layers()

    def sew_the_mitres(self):
        return {self.long(math.hypot(self.hx, self.hy))}

    def oversew_the_square_corners(self):
        return self.threads(self.h, ["top", "bottom"])

    def hem_stitch_the_sides(self):
        said = {str(min(2, *self.h.values()))}
        for n in self.between.values():
            spacing = space_stitches(n, self.group)
            assert sum(spacing.groups) == n
            said |= {str(n), str(len(spacing.groups))}
            said |= {str(number) for stretch in spacing.stretches for number in stretch}
            said |= set(NUMBER.findall(" ".join(spacing.notes)))
        return said

    def turn_the_corners(self):
        said = {str(space_stitches(n, self.group).groups[0]) for n in self.between.values()}
        return said | ({str(self.w)} if self.w > 4 else set())

    def finish(self):
        margins = {s: self.c[s] + self.w + self.h[s] for s in SIDES}
        said = self.size(margins)
        if not self.piece.fabric.washed and (self.piece.fabric.shrink_warp or self.piece.fabric.shrink_weft):
            said |= set(map(self.long, self.across_down(margins, True)[1]))
        return said


def assert_its_numbers(piece, group=4, hand="right", unit="in", beginning="blank, to size"):
    expected = Expected(piece, group, unit, beginning)
    for step in finish_steps(piece, group=group, hand=hand, unit=unit, beginning=beginning):
        assert numbers(step) == getattr(expected, step.title.lower().replace(" ", "_"))(), step.title
        assert not re.search(r"\d", step.caution), step.title


@for_each("beginning", BEGINNINGS)
@for_each("unit", ["in", "cm", "mm"])
@for_each("name", EXAMPLES)
def test_every_number_is_the_examples_own(name, unit, beginning):
    assert_its_numbers(EXAMPLES[name], unit=unit, beginning=beginning)


@given(pieces(), asked)
@settings(max_examples=12, deadline=None)
def test_every_number_is_the_pieces_own(piece, words):
    assert_its_numbers(piece, **words)


# c = 7, w = 2; h = 11, t = 6 of 29 threads to the inch on the left and right, h = 10, t = 5 of 27 on the
# top and bottom: worked out by hand, as is what trimming takes, h/2 + t of each edge for equal hems, here
# h (2 - t'/h') - (h - t): 5.5 + 6 of 29, 0.40 in, and 5.45 + 5 of 27, 0.39 in.
def test_the_bread_cloth_in_full():
    steps = {step.title: step for step in finish_steps(BREAD)}
    cut = steps["Cut the cloth to size"].task
    assert "at least 44 threads (1 9/16 in) on the left and right" in cut
    assert "at least 40 threads (1 1/2 in) on the top and bottom" in cut
    assert "11 in across × 10 in down" in cut
    assert "to draw is thread 8 on every side" in steps["Check before the snip"].task
    assert (
        "with the needle, thread 9 on every side" in steps["Withdraw the other threads to the corners"].task
    )
    basted = steps["Baste the lines"].task
    assert "after threads 20, 31 and 37 on the left and right" in basted
    assert "after threads 19, 29 and 34 on the top and bottom" in basted
    away = steps["Cut along the cut line"].task
    assert "7 threads (≈ 1/4 in) on the left and right, 6 threads (≈ 1/4 in) on the top and bottom" in away
    assert "takes ≈ 3/8 in of both raw edges" in steps["Trim the corners"].task
    turned = steps["Turn in the raw edge"].task
    assert "6 threads (≈ 3/16 in) on the left and right, 5 threads (≈ 3/16 in) on the top" in turned
    folded = steps["Fold the hem"].check
    assert "11 threads (≈ 3/8 in) on the left and right, 10 threads (≈ 3/8 in) on the top" in folded
    assert "4 layers, the same everywhere" in folded
    stitched = steps["Hem stitch the sides"].task
    # 188 + 14 = 202 are 48 groups of 4 and 2 of 5, 230 + 14 = 244 are 61 of 4.
    assert "Work 12 groups of 4, 1 of 5, 24 of 4, 1 of 5, 12 of 4, from left to right." in stitched
    assert "Top and bottom: Work 61 groups of 4, from left to right." in stitched
    # 230 + 2 (7 + 2 + 11) = 270 of 29, and 188 + 2 (7 + 2 + 10) = 226 of 27.
    assert "≈ 9 5/16 in across and ≈ 8 3/8 in down" in steps["Finish"].check


# Order


FINE = [
    "Prepare the cloth",
    "Count the cloth",
    "Cut the cloth to size",
    "Hold the raw edge",
    "Find the middle",
    "Count out the design",
    "Stitch the design",
    "Check before the snip",
    "Draw the first thread of each side",
    "Withdraw the other threads to the corners",
    "Darn the tails back",
    "Baste the lines",
    "Cut along the cut line",
    "Trim the corners",
    "Fold the corners",
    "Turn in the raw edge",
    "Fold the hem",
    "Sew the mitres",
    "Hem stitch the sides",
    "Turn the corners",
    "Finish",
]


def changed_titles(**changes):
    """What a changed piece's finish has instead of the usual steps: old title to new."""
    found = [step.title for step in finish_steps(a_piece(**changes))]
    return [title for title in FINE if title not in found], [title for title in found if title not in FINE]


def test_the_order_is_that_of_the_trade():
    assert [step.title for step in finish_steps(BREAD)] == FINE
    assert [step.number for step in finish_steps(BREAD)] == list(range(1, 22))


@given(pieces(), asked)
@settings(max_examples=20, deadline=None)
def test_trim_comes_before_corner_before_turn_before_hem(piece, words):
    titles = [step.title for step in finish_steps(piece, **words)]
    trim = {"Trim the corners", "Thin the square corners", "Leave the corners whole"}
    trim.add("Leave the points of the corners")
    groups = (
        {"Cut along the cut line"},
        trim,
        {"Fold the corners"} if piece.corner in ("mitred", "untrimmed") else set(),
        {"Turn in the raw edge", "Overcast the raw edge"},
        {"Fold the hem"},
        {"Sew the mitres", "Oversew the square corners"},
        {"Hem stitch the sides"},
    )
    places = []
    for group in filter(None, groups):
        (at,) = [titles.index(title) for title in group if title in titles]
        places.append(at)
    assert places == sorted(places)
    assert [step.number for step in finish_steps(piece, **words)] == list(range(1, len(titles) + 1))


# The cases that need other words


def test_a_square_corner_is_thinned_and_oversewn():
    gone, instead = changed_titles(corner="square")
    assert gone == ["Trim the corners", "Fold the corners", "Sew the mitres"]
    assert instead == ["Thin the square corners", "Oversew the square corners"]
    piece = Piece(Fabric("20/in", "30/in"), (80, 80), hem="1/2 in", clear=4, corner="square")
    step = called("Oversew the square corners", piece)
    assert "15 threads (1/2 in) on the top and bottom" in step.task
    for corner in ("mitred", "square"):
        turn = called("Turn in the raw edge", a_piece(corner=corner))
        assert ("The corners are folded before the turn" in turn.task) == (corner == "mitred")


def test_an_uncut_corner_says_how_thick_it_is():
    for title in ("Leave the corners whole", "Fold the hem"):
        assert "4 to 9 layers" in called(title, a_piece(corner="uncut")).check


def test_an_untrimmed_corner_says_what_lies_over_the_work():
    step = called("Leave", a_piece(corner="untrimmed"))
    # t√2 = 8.98 mm past the crossing, (t - w)√2 = 6.41 mm of it over the work: 5/16 and 1/4 in.
    assert "reaches ≈ 3/8 in past" in step.task
    assert "lies ≈ 1/4 in over the work itself" in step.task
    narrow = called("Leave", a_piece(corner="untrimmed", turn=2))
    assert "does not lie over the work" in narrow.task


def test_with_no_turn_the_raw_edge_is_overcast_and_no_point_is_trimmed():
    gone, instead = changed_titles(turn=0)
    assert gone == ["Trim the corners", "Turn in the raw edge"]
    assert instead == ["Leave the points of the corners", "Overcast the raw edge"]
    words = " ".join(f"{step.task} {step.check}" for step in finish_steps(a_piece(turn=0)))
    assert "Fold again" not in words
    assert "fold line 2 is the cut line" in words


def test_a_turn_that_some_sides_have_none_of_is_said_side_by_side():
    piece = Piece(Fabric("20/in", "40/in"), (80, 80), hem="1/2 in", clear=4, turn="1/50 in")
    assert (piece.edges.left.turn, piece.edges.top.turn) == (0, 1)
    words = {step.title: step.task for step in finish_steps(piece)}
    assert "On the left and right nothing is turned in" in words["Turn in the raw edge"]
    assert "along fold line 2, on the top and bottom" in words["Turn in the raw edge"]
    assert "left and right" not in words["Turn in the raw edge"].split("On the left")[0]
    assert "two lines are enough" in words["Baste the lines"]
    assert "fold again along fold line 1" in words["Fold the hem"]


def test_one_drawn_thread_has_no_line_to_be_darned_into():
    gone, instead = changed_titles(drawn=1)
    assert gone == [
        "Draw the first thread of each side",
        "Withdraw the other threads to the corners",
        "Darn the tails back",
    ]
    assert instead == ["Draw one thread on each side", "Run the ends in"]


def test_more_than_two_drawn_threads_leave_tails_to_run_in():
    words = {step.title: step.task for step in finish_steps(a_piece(drawn=4))}
    assert "as far as thread 10 on every side" in words["Withdraw the other threads to the corners"]
    assert "until the hem is folded" in words["Withdraw the other threads to the corners"]
    titles = list(words)
    assert (
        titles.index("Fold the hem") + 1 == titles.index("Run the ends in") < titles.index("Sew the mitres")
    )
    assert "Run the ends in" not in {step.title for step in finish_steps(BREAD)}


# D = 26, c = 5, h = 9, t = 5: a tail of 18 threads less 1.6 for its turn against 1 + 9 + 9 + 5 = 24.
def test_tails_that_are_too_short_say_by_how_much_and_where():
    step = called("Darn the tails back", SMALL)
    # The plan allows 1 cm of the tail, 8.66 pitches of 22 to the inch, for the needle's eye.
    assert "it crosses 24 threads on every side" in step.task
    assert "each crosses only 7 threads, and a gap begins at thread 14 of the side" in step.task
    assert (
        "The left and right tails of the top and bottom and the top and bottom tails of the left" in step.task
    )
    bare = SMALL.with_changes(eye="0 mm")
    step = called("Darn the tails back", bare)
    assert "crosses only 16 threads, and a gap begins at thread 23 of the side that it runs into" in step.task
    assert "where it does not show" in step.task
    assert "Close each gap" in step.task
    assert CAUTIONS["blade"] in step.caution
    assert "too short" not in "".join(step.task for step in finish_steps(BREAD))


def test_a_tail_that_shows_or_cannot_turn_is_told_too():
    tiny = SMALL.with_changes(design=(10, 10), clear=0)
    step = called("Darn the tails back", tiny)
    assert ", where it shows" in step.task
    none = SMALL.with_changes(design=(3, 3), clear=0)
    step = called("Darn the tails back", none)
    assert "is used up in its turn" in step.task


@given(pieces())
@settings(max_examples=15, deadline=None)
def test_what_the_darning_says_is_what_the_cloth_shows(piece):
    piece = piece.with_changes(design=(20, 24))
    weave = open_line(piece, allowances=Allowances(eye=piece.eye))
    titles = [step.title for step in finish_steps(piece)]
    words = " ".join(f"{step.task} {step.check}" for step in finish_steps(piece))
    assert ("Darn the tails back" in titles) == any(tail.reach for tail in weave.tails)
    assert bool(re.search("(?:is|are) too short: ", words)) == bool(weave.short)
    assert "one small square is open at each corner" in words
    for corner in ("top left", "top right", "bottom left", "bottom right"):
        # A tail that is used up in its turn leaves a gap beside the square, and the words have it closed.
        assert len(weave.open_square(corner)) == 1 or "is used up in its turn" in words


def test_unequal_hems_say_how_far_the_lines_miss_each_other():
    # hx : hy = 6 : 4: 22.62 degrees, off by 2.50 threads at the open line, fold 2 by 5.00 there.
    piece = Piece(Fabric("20/in", "30/in"), (80, 80), hem=12, same="threads", clear=4)
    assert piece.corners.top_left.hems[0] * 4 == piece.corners.top_left.hems[1] * 6
    step = called("Fold the corners", piece)
    assert "stand at about 23 degrees" in step.check
    # 2.50 of 6 parts of 12 threads are 5 of 20 to the inch, 7.5 of 30; 1.67 of 4 are 5 of 30, 3.33 of 20.
    assert "fold line 1 by 7 1/2 threads on the left and right and 3 1/2 threads on the top" in step.check
    assert "differ in width" in step.check
    equal = called("Fold the corners", EVEN)
    assert "Fold line 1 lies on fold line 1 of the next side" in equal.check
    assert "just touches the open square" in equal.check


def test_a_cut_at_an_allowance_does_not_touch_the_open_square():
    near, far = (a_piece(allowance=allowance) for allowance in ("1/4 in", "3/4 in"))
    assert "1/4 in beyond the corner's fold" in called("Trim the corners", near).task
    # s = 1/4 in against h√2 = 0.707 in: 0.457 in short.
    assert "stops ≈ 7/16 in short of the open square" in called("Fold the corners", near).check
    assert "past the open square" in called("Fold the corners", far).check


def test_a_larger_cloth_is_told_what_to_trim_away():
    words = {
        step.title: f"{step.task} {step.check}" for step in finish_steps(BREAD, beginning="blank, larger")
    }
    assert "Cut the cloth to size" not in words
    assert "Leave the cloth as large as it is" in words["See that the cloth has room"]
    assert "only to just beyond the cut line" in words["Draw the first thread of each side"]
    assert (
        "after thread 37 on the left and right, 34 on the top and bottom"
        in words["Draw the first thread of each side"]
    )
    cut = words["Cut along the cut line"]
    assert "out of its hoop or frame" in cut
    assert "All the cloth beyond it comes off" in cut
    assert "37 threads (≈ 1 1/4 in) on the left and right, 34 threads (≈ 1 1/4 in) on the top" in cut
    assert "304 threads across and 256 threads down" in cut
    assert "choose where the middle of the design is to lie" in words["Find the middle"]
    to_size = {step.title: step.task for step in finish_steps(BREAD)}
    assert "fold the cloth in half one way, raw edge upon raw edge" in to_size["Find the middle"]
    assert "choose where" not in to_size["Find the middle"]
    assert "hoop" not in " ".join(to_size.values())
    stitched = [step.title for step in finish_steps(BREAD, beginning="stitched")]
    assert stitched == [
        title
        for title in words
        if title not in ("Find the middle", "Count out the design", "Stitch the design")
    ]
    assert "raw edge" not in words["Draw the first thread of each side"]


def test_cloth_that_is_still_to_be_washed_is_told_of_its_wash():
    cloth = Fabric("28/in", shrink_warp="8 %", shrink_weft="3 %")
    steps = {step.title: step for step in finish_steps(a_piece(fabric=cloth))}
    assert "3 % off its width and 8 % off its length" in steps["Prepare the cloth"].task
    assert "give it its first wash" in steps["Finish"].task
    # 224 + 2 (6 + 2 + 14) = 268 threads across, of 28 to the inch, less 3 %; with the warp to lose 8 %, a hem
    # of 1/2 in after the wash is 15 threads down, and 270 less 8 %.
    assert "≈ 9 5/16 in across and ≈ 8 7/8 in down after the wash" in steps["Finish"].check
    washed = {step.title: f"{step.task} {step.check}" for step in finish_steps(BREAD)}
    assert "give it its first wash" not in washed["Finish"]
    assert "Wash and dry unwashed linen before you measure or cut it" in washed["Prepare the cloth"]
    # Linen that was washed, or that no wash will shrink, measures what it measures.
    for cloth in (Fabric("28/in", shrink_warp="8 %", washed=True), Fabric("28/in", shrink_warp="0 %")):
        last = called("Finish", a_piece(fabric=cloth))
        assert "wash" not in f"{last.task} {last.check}"


# Hands


@given(pieces(), asked)
@settings(max_examples=20, deadline=None)
def test_the_left_hand_is_told_the_mirror_of_the_right(piece, words):
    right, left = (finish_steps(piece, **{**words, "hand": hand}) for hand in ("right", "left"))
    swap = {"right": "left", "left": "right"}
    directed = re.compile(
        r"from (right|left) to (?:right|left)|(?<=your )(right|left)(?= hand)|"
        r"(?<=at the )(right|left)(?= end of)"
    )

    def mirrored(text):
        return directed.sub(lambda m: re.sub("right|left", lambda w: swap[w.group()], m.group()), text)

    for a, b in zip(right, left, strict=True):
        assert mirrored(a.task) == b.task
        assert (a.title, a.check, a.caution, a.movements) == (b.title, b.check, b.caution, b.movements)
    (stitch,) = [step for step in right if step.title == "Hem stitch the sides"]
    assert (
        "needle in your right hand. Begin at the left end of a side and work from left to right"
        in stitch.task
    )
    assert "behind the group, from right to left, its point away from the hand that holds it" in stitch.task


@given(pieces(), asked)
@settings(max_examples=15, deadline=None)
def test_the_way_of_working_is_a_choice_of_its_own(piece, words):
    natural = {"right": WORKED[0], "left": WORKED[1]}[words["hand"]]
    by_hand = finish_steps(piece, **words)
    assert finish_steps(piece, **words, worked=natural) == by_hand
    other = finish_steps(piece, **words, worked=WORKED[1 - WORKED.index(natural)])
    changed = [a.title for a, b in zip(by_hand, other, strict=True) if a != b]
    assert changed == ["Hem stitch the sides"]
    (task,) = [step.task for step in other if step.title == "Hem stitch the sides"]
    assert f"the needle in your {words['hand']} hand" in task
    assert "toward the hand that holds it" in task


# Cautions

USES = {
    "blade": r"\b(?:cut|cuts|snip|snipped|trim|trimmed|blade|scissors)\b",
    "iron": r"\b(?:press|iron)\b",
    "needle": (
        r"\b(?:needles?|pins?|baste|basting into|overcast|oversew|whip|ladder|darn|weave|tack|sew|fasten"
        r"|stitch(?:es)?)\b"
    ),
    "eyes": r"\b(?:counts?|counted|light|lamp|window|magnifier|lens|glass)\b",
}
#: What is only named, and not done there; and what only stands in the name of a thing.
ONLY_NAMED = re.compile(
    r"cut lines?|cut nothing|once cut|before the snip|measure or cut it|basted"
    r"|beyond the cut|between the cut|the hem is stitched|overcast edge|trimmed edge"
    r"|plain weave",
    re.IGNORECASE,
)
#: Fine work that no word gives away; what else is to be minded, a word of the step tells.
FINE_WORK = (
    "Withdraw the other threads to the corners",
    "Stitch the design",
    "Draw the first thread of each side",
    "Draw one thread on each side",
    "Baste the lines",
    "Run the ends in",
    "Sew the mitres",
    "Oversew the square corners",
    "Hem stitch the sides",
    "Turn the corners",
)


@given(pieces(), asked)
@settings(max_examples=25, deadline=None)
def test_a_step_bears_the_caution_for_what_is_in_the_hand_and_no_other(piece, words):
    for step in finish_steps(piece, **words):
        said = ONLY_NAMED.sub("", f"{step.title}. {step.task} {step.check}")
        used = {tool for tool, pattern in USES.items() if re.search(pattern, said, re.IGNORECASE)}
        if step.title in FINE_WORK:
            used.add("eyes")
        assert set(step.mind) == used, step
        assert step.caution == caution_for(*step.mind)
        assert all(CAUTIONS[tool] in step.caution for tool in used)


# The words


@given(pieces(), asked)
@settings(max_examples=25, deadline=None)
def test_each_step_is_whole_sentences_with_a_check(piece, words):
    for step in finish_steps(piece, **words):
        for text in (step.task, step.check):
            assert re.fullmatch(r"[A-Z0-9].*[.]\)?", text), text
            assert "  " not in text
            assert not re.search(r"\.\.|,\.|: \.|\bon the [,.]|None|nan|  |\s[,.;]", text), text
        assert len(step.title) <= 45
        assert str(step).startswith(f"{step.number}. {step.title}. ")


def test_a_step_can_be_printed():
    assert str(Step(1, "Fold", "Fold it.", "It lies flat.")) == "1. Fold. Fold it. Check: It lies flat."


# Refusals


@for_each(
    ("words", "about"),
    [
        ({"hand": "both"}, "hand"),
        ({"unit": "ell"}, "unit"),
        ({"beginning": "round"}, "beginning"),
        ({"beginning": None}, "beginning"),
        ({"worked": "upward"}, "worked"),
        ({"counting": 10}, "counting"),
        ({"counting": counting_plan(EVEN)}, "counting"),
        ({"group": 7}, "group"),
        ({"group": 4.0}, "group"),
    ],
)
def test_what_cannot_be_told_is_refused_in_a_sentence(words, about):
    with pytest.raises(HemError) as caught:
        finish_steps(BREAD, **words)
    assert caught.value.about == about


def test_what_is_no_piece_and_what_cannot_be_spaced_is_refused():
    with pytest.raises(HemError, match="piece is 'bread'"):
        finish_steps("bread")
    with pytest.raises(HemError, match="can't be made of groups of 4, 5 or 6"):
        finish_steps(a_piece(design=(7, 40), clear=0), group=5)


def test_cloth_before_its_first_wash_is_kept_dry():
    raw = Piece(Fabric("28/in", shrink_warp="8 %"), (24, 24), hem=4, same="threads", clear=8)
    first, *_, last = finish_steps(raw)
    assert "do not wash it until the hem is stitched" in first.task
    assert "keep it dry" in first.task
    assert "give it its first wash" in last.task
    assert "Soften it" in finish_steps(BREAD)[0].task
    for piece in (raw, BREAD):
        assert ("Do not wash the work." in called("Stitch the design", piece).task) == (piece is raw)


def test_the_first_group_of_a_side_is_said_and_not_the_second():
    # 9 threads by 4 are a group of 4 and one of 5.
    step = called("Turn the corners", a_piece(design=(9, 9), clear=0))
    assert "the first group is of 4 threads" in step.task
    assert "5 threads" not in step.task


def test_a_side_of_just_one_line_of_ten_is_counted_in_it():
    step = called("Check before the snip", a_piece(design=(10, 9), clear=0))
    assert "10 threads (1 line of 10; " in step.task + step.check
    assert "9 threads (≈ " in step.task + step.check


def test_of_one_thread_drawn_none_is_called_the_first():
    for drawn, named in ((1, "The thread to draw"), (2, "The first thread to draw")):
        step = called("Check before the snip", a_piece(drawn=drawn))
        assert named in step.task


def test_what_comes_off_along_the_cut_line_may_be_nothing():
    # A hem of 6, a turn of 3: 4 × 6 = 24 are cut, and 7 + 2 + 6 + 6 + 3 = 24 kept; with 6 clear one is over.
    for clear, off in (
        (7, "That takes off nothing"),
        (Sides(6, 6, 7, 7), "That takes off 1 thread (≈ 1/16 in) on the left and right"),
    ):
        piece = Piece(Fabric("28/in"), (40, 40), hem=6, same="threads", clear=clear)
        step = called("Cut along the cut line", piece)
        assert off in step.task
        assert "0 threads" not in step.task


@pytest.mark.parametrize(("name", "differ"), [("bread cloth", True), ("bookmark", False)])
def test_counts_may_be_the_other_way_round_if_they_differ_and_a_margin_is_counted_twice(name, differ):
    step = called("Count the cloth", EXAMPLES[name])
    assert ("the other way round, turn the cloth" in step.task) == differ
    for beginning in BEGINNINGS:
        (step,) = [s for s in finish_steps(EXAMPLES[name], beginning=beginning) if s.title == step.title]
        assert ("laid where the design is to be" in step.check) == (beginning != "stitched")
        assert ("laid on the design" in step.check) == (beginning == "stitched")
    # Larger cloth has its raw edge nowhere yet.
    for beginning in ("blank, to size", "blank, larger"):
        check = called("Count out the design", EXAMPLES[name], beginning=beginning).check
        assert ("If the two counts disagree" in check) == ("there are at least " not in check)
        assert ("there are at least " in check) == (beginning == "blank, larger")


@for_each("name", EXAMPLES)
def test_hems_that_differ_by_less_than_can_be_seen_are_said_to(name):
    edges = EXAMPLES[name].edges_in_hand
    (step,) = [step for step in finish_steps(EXAMPLES[name]) if step.title == "Fold the corners"]
    unequal = edges.left.hem_width.mm != edges.top.hem_width.mm
    assert ("differ a little in width" in step.check) == (unequal and "they are apart" not in step.check)


def test_tails_of_one_length_are_said_once():
    # 224 + 6 + 6 = 236, and half of it.
    step = called("Withdraw", EVEN)
    assert "each half as long as its side: 118 threads on every side." in step.task


def test_a_cut_by_a_count_that_is_not_sure_enough_is_made_by_the_thread_and_not_by_the_ruler():
    unsure, given_one = (
        Piece(Fabric(warp, "27/in", washed=True), (224, 224), hem="3/8 in", clear=8)
        for warp in (Count.measured([28], over="1 in"), "28/in")
    )
    # Who counts cuts no thread too many.
    assert "more than the plan" not in finish_steps(unsure).text()
    assert "or up to" not in finish_steps(unsure).text()
    assert "or up to" in finish_steps(given_one).text()
    unsure, given_one = (called("Cut the cloth to size", piece) for piece in (unsure, given_one))
    assert "cut by the thread and not by the ruler, 312 threads across and " in unsure.task
    assert unsure.check.startswith("The cloth counts 312 threads across and ")
    assert "by the ruler" not in given_one.task
    assert given_one.check.startswith("The cloth is 11 1/4 in across and ")


# What a step must tell


#: Steps in which nothing is sewn, cut or folded, or whose side is not yet chosen or doesn't matter.
EITHER_SIDE = (
    "Prepare the cloth",
    "Cut the cloth to size",
    "See that the cloth has room",
    "Hold the raw edge",
)


@given(pieces(), asked)
@settings(max_examples=20, deadline=None)
def test_each_step_says_which_side_is_up_and_its_movements_have_pictures(piece, words):
    for step in finish_steps(piece, **words):
        assert set(step.movements) <= set(MOVEMENTS)
        if step.title not in (
            *EITHER_SIDE,
            "Leave the corners whole",
            "Leave the points of the corners",
            "Finish",
        ):
            assert re.search("(?:[Rr]ight|[Ww]rong) side up", step.task), step.title
        # Nobody can draw again a thread that is gone.
        assert "again" not in step.task or "drawn again" not in step.task


def test_every_movement_belongs_to_a_step():
    told = [
        finish_steps(piece, beginning=b) for b in BEGINNINGS for piece in (EVEN, a_piece(corner="square"))
    ]
    assert {name for steps in told for step in steps for name in step.movements} == set(MOVEMENTS)
    movements = {step.title: step.movements for step in told[2]}
    assert movements["Hem stitch the sides"] == ("fasten on", "stitch 1", "stitch 2", "stitch 3")
    assert movements["Withdraw the other threads to the corners"] == ("snip", "withdraw to the corner")
    assert movements["Count the cloth"] == ()


def test_no_thread_is_cut_before_its_place_was_checked():
    for beginning in BEGINNINGS:
        titles = [step.title for step in finish_steps(BREAD, beginning=beginning)]
        assert titles.index("Check before the snip") + 1 == titles.index("Draw the first thread of each side")


def test_the_raw_edge_is_not_sewn_where_a_thread_is_drawn_out_through_it():
    piece = EXAMPLES["sampler"]
    step = called("Hold the raw edge", piece)
    to_raw_edge = {one.side: one.thread for one in open_line(piece).withdrawn if one.to_raw_edge}
    for side, thread in to_raw_edge.items():
        inward = getattr(piece.edges, side).rule.margin - thread + 1
        assert f"thread {inward} on the {side}" in step.task
    assert "Leave 10 threads unsewn" in step.task
    one = called("Hold the raw edge", a_piece(drawn=1))
    assert "unsewn" not in one.task


def test_a_design_off_the_middle_of_its_cloth_is_counted_from_its_own_centre_line():
    piece = a_piece(clear=Sides(30, 50, 40, 40), hem="1/4 in")
    margins = piece.edges.map(lambda edge: edge.rule.margin)
    assert margins.right - margins.left == 20
    step = called("Find the middle", piece)
    assert "baste the upright centre line 10 threads from the fold, toward the left" in step.task
    assert "level centre line" not in step.task
    even = called("Find the middle", EVEN)
    assert "off the middle" not in even.task


@given(pieces())
@settings(max_examples=20, deadline=None)
def test_with_the_longest_eye_every_tail_still_reaches_and_with_a_longer_one_not(piece):
    piece = piece.with_changes(drawn=2)
    most = longest_eye(piece)

    def short(eye):
        return open_line(piece, allowances=Allowances(eye=eye)).short

    if most is None:
        assert short("0 mm")
    else:
        assert not short(most)
        assert short(most + Length(Fraction(1, 100)))
    step = called("Darn the tails back", piece, unit="in")
    assert "The plan allows ≈ 3/8 in of each tail for the eye of the needle (from memory); " in step.task
    assert ("some would be too short" in step.task) == (most is None)


@for_each(
    ("piece", "why"),
    [
        (EXAMPLES["bookmark"], "the hem is only 4 threads deep and the turn is only 2 threads (≈ 1/16 in)"),
        (Piece(Fabric("60/in", washed=True), (40, 40), hem="1/2 in", clear=4), "the cloth is very fine"),
        (a_piece(turn=2), "the turn is only 2 threads (≈ 1/16 in)"),
        # Just 2 mm.
        (
            Piece(Fabric("10/cm", washed=True), (40, 40), hem="1 cm", clear=4, turn=2),
            "the turn is only 2 threads (0.2 cm)",
        ),
        (BREAD, None),
    ],
)
def test_a_piece_for_practised_hands_says_so_first_of_all(piece, why):
    task = finish_steps(piece)[0].task
    assert task.startswith("This is a piece for practised hands: ") == bool(why)
    assert why is None or f"practised hands: {why} (limits from memory)." in task


def test_the_stitch_catches_what_the_piece_says():
    def stitch(**changes):
        return called("Hem stitch the sides", a_piece(**changes)).task

    assert "catching the back and the turn only, not the face" in stitch()
    assert "catching all the layers of the hem" in stitch(through="all layers")
    assert "catching the back only, not the face" in stitch(turn=0)
    with pytest.raises(HemError, match="through"):
        a_piece(through="the face")


def test_the_edges_of_a_large_open_square_are_strengthened():
    for drawn in (4, 5):
        step = called("Turn the corners", a_piece(drawn=drawn))
        assert ("oversew the edges of the open square" in step.task) == (drawn > 4)
        assert ("oversew" in step.movements) == (drawn > 4)


def test_a_plan_of_counting_lines_is_followed():
    plan = counting_plan(BREAD, every=20, motif=(40, 50), place="bottom right", inset=12, repeat=22)
    step = called("Count out the design", BREAD, counting=plan)
    assert "baste a line every 20 threads" in step.task
    assert "115 threads (5 lines of 20 and 15 more) on the left and right" in step.task
    assert plan.motif.text() in step.task
    assert "230 threads hold 10 repeats of 22" in step.task


#: Words of the workshop's floor and of programs, not of the needle; and what is not so.
NEVER = (
    r"\bpl(?:y|ies)\b|off-size|ledger|reckons?|drawn again|come away|as far as where|whole half"
    r"|no multiple of|Beyond the design stay|\b1 threads|\b0 threads|parameter|input|overlap"
)


def test_every_sentence_is_one_that_a_stitcher_would_say():
    told = list(READER.sentences())
    assert len(told) > 200
    for where, sentence in told:
        assert not re.search(NEVER, sentence), (where, sentence)
        assert re.match("[A-Z(]", sentence), (where, sentence)
        assert len(sentence) < 420, (where, sentence)


def test_basting_is_called_tacking_once_where_it_first_stands():
    for piece in (*EXAMPLES.values(), *READER.UNLIKE.values()):
        for beginning in BEGINNINGS:
            text = finish_steps(piece, beginning=beginning).text()
            first = next(m for m in re.finditer(r"\b[Bb]ast\w*", text))
            assert first.end() + 1 == text.index("(tack)")
            assert len(re.findall(r"\btack", text)) == 1
