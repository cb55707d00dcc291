"""The weave under the lens, held crossing by crossing against the cloth that it shows."""

import math
from functools import lru_cache
from itertools import cycle

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc import EXAMPLES, Fabric, HemError, Piece, example
from hemcalc.draw import draw_ways, draw_weave
from hemcalc.draw.look import BANDS, TYPE
from hemcalc.draw.sheet import Sheet
from hemcalc.draw.weave.corner_threads import CornerThreads
from hemcalc.draw.weave.lens import LENS_SHEET, LensShown, WeaveLens, lens_alt, loose_words
from hemcalc.draw.weave.strands import hold, loose_end, turns
from hemcalc.draw.weave.ways import way_words
from hemcalc.measure.cautions import mind
from hemcalc.weave import open_line, steps_at, ways_at
from hemcalc.weave.crossings import COLUMN, ROW
from hemcalc.weave.open_lines import CORNERS, TURN_AT

FEW = settings(max_examples=15)

SHEET = Sheet(*LENS_SHEET)
LENS = WeaveLens(SHEET)


@lru_cache(maxsize=256)
def weave_of(design, clear, hem, drawn, turn_at, wrong):
    piece = Piece(Fabric("28/in", "26/in"), design, hem=hem, same="threads", clear=clear, drawn=drawn)
    return open_line(piece, turn_at=turn_at, wrong_start=[f"top {clear + 2} left"] if wrong else [])


@st.composite
def lenses(draw, kinds=None):
    """Any step at a corner of small pieces, oblong and odd ones, wrong starts among them."""
    design = draw(st.tuples(st.integers(9, 40), st.integers(9, 40)))
    drawn = draw(st.integers(1, 4))
    wrong = drawn > 1 and draw(st.booleans())
    clear, hem = draw(st.integers(3, 6)), draw(st.integers(2, 7))
    weave = weave_of(design, clear, hem, drawn, draw(st.sampled_from(TURN_AT)), wrong)
    corner = draw(st.sampled_from(CORNERS))
    steps = steps_at(weave, corner)
    numbers = [n for n, step in enumerate(steps, 1) if kinds is None or step.kind in kinds]
    number = draw(st.sampled_from(numbers or [len(steps)]))
    return LensShown(weave, corner, steps, number, draw(st.sampled_from((None, 4))), "in")


def shown(lens):
    """The view, which has shown other steps before, so that nothing of them may stay."""
    LENS.update(lens)
    return LENS


def pieces(line):
    """The parts of a broken line, as lists of (column, row)."""
    parts = [[]]
    for x, y in zip(*line.get_data(), strict=True):
        if math.isnan(x):
            parts.append([])
        else:
            parts[-1].append((float(x), -float(y)))
    return [part for part in parts if part]


def straight(threads, direction):
    """Straight parts of woven threads and tails that run this way: their line, and from where to where."""
    along, aside = (0, 1) if direction == ROW else (1, 0)
    found = []
    for look in (direction, "tail"):
        for part in pieces(threads.threads[look].lines[0]):
            if len(part) == 2 and part[0][aside] == part[1][aside]:
                found.append((part[0][aside], *sorted(point[along] for point in part)))
    return found


def covered(parts, line, start, end):
    """Whether one of these parts covers this stretch of a line."""
    return any(at == line and low <= start and end <= high for at, low, high in parts)


def touched(parts, line, start, end):
    """Whether one of these parts lies anywhere in this stretch."""
    return any(at == line and low < end and start < high for at, low, high in parts)


@settings(max_examples=25)
@given(lens=lenses())
def test_each_crossing_is_drawn_as_it_is_in_the_cloth(lens):
    view = shown(lens)
    parts = {direction: straight(view.threads, direction) for direction in (ROW, COLUMN)}
    rows, columns = lens.window
    for row in rows:
        for column in columns:
            crossing = lens.step.cloth.crossing(row, column)
            for direction, line, place in ((ROW, row, column), (COLUMN, column, row)):
                centre = covered(parts[direction], line, place, place)
                if direction in crossing.missing:
                    assert not touched(parts[direction], line, place - 0.5, place + 0.5)
                elif crossing.over in (None, direction):
                    assert centre
                else:
                    assert not touched(parts[direction], line, place - 0.3, place + 0.3)


@FEW
@given(lens=lenses(["done"]))
def test_the_finished_corner_is_drawn_as_the_weave_says(lens):
    view = shown(lens)
    parts = {direction: straight(view.threads, direction) for direction in (ROW, COLUMN)}
    rows, columns = lens.window
    for row in rows:
        for column in columns:
            crossing = lens.weave.crossing(row, column)
            # The other corners are as woven still, so only what both have is compared.
            if crossing == lens.step.cloth.crossing(row, column) and crossing.over is not None:
                over = {ROW: (row, column), COLUMN: (column, row)}[crossing.over]
                assert covered(parts[crossing.over], over[0], over[1], over[1])


@FEW
@given(lens=lenses(["darn", "done", "short"]))
def test_only_what_was_darned_looks_like_a_tail_and_only_tucked_ends_like_hidden_ones(lens):
    view, cloth = shown(lens), lens.step.cloth
    rows, columns = lens.window
    for look, kind in (("tail", "darned"), ("behind", "tucked")):
        wanted, drawn = set(), set()
        for direction, lines, places in ((ROW, rows, columns), (COLUMN, columns, rows)):
            for line in lines:
                for stretch in cloth.stretches(direction, line):
                    here = range(max(stretch.first, places[0]), min(stretch.last, places[-1]) + 1)
                    wanted |= {(direction, line, place) for place in here if stretch.kind == kind}
        for part in pieces(view.threads.threads[look].lines[0]):
            if len(part) > 2:
                continue  # a U-turn
            (x0, y0), (x1, y1) = part
            direction, line = (ROW, y0) if y0 == y1 else (COLUMN, x0)
            low, high = sorted((x0, x1) if direction == ROW else (y0, y1))
            drawn |= {
                (direction, line, place)
                for place in range(math.floor(low), math.ceil(high) + 1)
                if min(high, place + 0.5) - max(low, place - 0.5) > 1e-9
            }
        assert drawn <= wanted
        if look == "behind":
            assert drawn == wanted


@FEW
@given(lens=lenses(["turn", "darn", "done"]))
def test_each_tail_that_has_turned_bends_inward_from_its_own_line_to_the_empty_one(lens):
    cloth, turned = lens.step.cloth, lens.turned
    view = shown(lens)
    arcs = [part for part in pieces(view.threads.threads["tail"].lines[0]) if len(part) > 2]
    assert bool(arcs) == bool(turned)
    for tail in turned:
        side, other = tail.end.side, tail.end.other
        points = [point for strand in turns(cloth, [tail]) for point in strand.points]
        assert all(any(point in arc for arc in arcs) for point in points)
        along, aside = (0, 1) if side.direction == ROW else (1, 0)
        lines = side.line(tail.thread), side.line(tail.thread - 1)
        base = other.line(tail.end.beyond_turn(tail.turn_at))
        inward = -1 if other.far else 1
        assert all(min(lines) <= point[aside] <= max(lines) for point in points)
        assert all(-1e-9 <= inward * (point[along] - base) <= 0.6 + 1e-9 for point in points)
        assert max(inward * (point[along] - base) for point in points) > 0.4


@given(corner=st.sampled_from(CORNERS), wrong=st.booleans())
@settings(max_examples=8)
def test_of_two_u_turns_that_hold_each_other_the_under_one_is_broken_where_they_cross(corner, wrong):
    weave = weave_of((20, 25), 4, 5, 2, "line", wrong)
    steps = steps_at(weave, corner)
    cloth, tails = steps[-1].cloth, weave.tails_at(corner)
    (clasp,) = cloth.clasps
    nearest = {}
    for tail in tails:
        points = [point for strand in turns(cloth, [tail]) for point in strand.points]
        nearest[tail.end.side.direction] = min(math.dist(hold(clasp, tail), point) for point in points)
    under = COLUMN if clasp.over == ROW else ROW
    assert nearest[clasp.over] < 0.06
    assert nearest[under] > 0.25


@FEW
@given(lens=lenses(["woven", "draw", "cut", "out"]))
def test_before_any_tail_turns_none_looks_darned(lens):
    view = shown(lens)
    assert lens.turned == ()
    assert pieces(view.threads.threads["tail"].lines[0]) == []


@FEW
@given(lens=lenses())
def test_loose_ends_are_those_that_are_out_or_under_way(lens):
    view, step = shown(lens), lens.step
    drawn = pieces(view.threads.threads["loose"].lines[0])
    out = {
        tail.name: loose_end(tail, None)
        for n, earlier in enumerate(lens.steps[: lens.number])
        if earlier.kind == "out"
        for tail in [earlier.tail]
        if not any(later.tail == tail and later.kind != "out" for later in lens.steps[n + 1 : lens.number])
    }
    wanted = [list(points) for points in out.values()]
    if step.loose:
        wanted.append(list(loose_end(step.tail, step.made, float(step.loose))))
    assert sorted(drawn) == sorted(wanted)


@FEW
@given(lens=lenses())
def test_the_open_places_are_marked_once_they_are_open(lens):
    view = shown(lens)
    centres = {
        tuple(path.vertices[:4].mean(axis=0).round(6)) for path in view.threads.open_places.get_paths()
    }
    square = lens.weave.open_square(lens.corner)
    wanted = {(column, -row) for row, column in square if lens.step.cloth.crossing(row, column).open}
    assert centres == wanted
    if lens.step.kind == "done":
        assert len(centres) == len(square)


@FEW
@given(lens=lenses(["darn"]))
def test_a_ring_marks_the_thread_that_is_passed(lens):
    view = shown(lens)
    if lens.step.kind == "darn":
        (ring,) = view.mark.get_segments()
        passed = lens.step.passed
        assert ring[:-1].mean(axis=0) == pytest.approx((float(passed.column), -float(passed.row)))


@FEW
@given(lens=lenses(["woven", "done"]))
def test_no_ring_is_left_where_no_thread_is_passed(lens):
    assert shown(lens).mark.get_segments() == []


@FEW
@given(lens=lenses())
def test_the_bands_stand_beside_their_threads(lens):
    view = shown(lens)
    rows, columns = lens.window
    row_end, column_end = lens.weave.ends_at(lens.corner)
    for end, lines, axis, sense in ((column_end, columns, 0, 1), (row_end, rows, 1, -1)):
        for band in end.side.edge.bands:
            here = [n for n in map(end.side.line, range(band.first, band.last + 1)) if n in lines]
            spans = set()
            for path in view.bands[band.name].get_paths():
                corners = path.vertices[:, axis] * sense
                spans.add((corners.min(), corners.max()))
            assert not here or (min(here) - 0.5, max(here) + 0.5) in spans
    for name, patch in view.bands.items():
        assert (patch.get_hatch() or "") == BANDS[name].hatch


@FEW
@given(lens=lenses())
def test_the_step_what_to_mind_and_its_place_are_said(lens, words):
    shown(lens)
    texts = [word.get_text().replace("\n", " ") for word in words(SHEET)]
    assert f"Step {lens.number} of {len(lens.steps)}" in texts
    assert lens.step.text() in texts
    assert f"{lens.corner} corner, right side up" in texts
    assert [text for text in texts if text.startswith("Mind")] == [mind(*lens.step.mind)][
        : len(lens.step.mind)
    ]
    if lens.step.loose is not None:
        assert loose_words(lens) in texts


@settings(max_examples=20)
@given(lens=lenses(), size=st.sampled_from(tuple(TYPE)))
def test_words_stand_clear_at_every_step(lens, size, troubles):
    SHEET.set_type(TYPE[size])
    shown(lens)
    found = troubles(SHEET)
    SHEET.set_type(TYPE["page"])
    assert found == []


@pytest.mark.parametrize(("name", "hem"), list(zip(EXAMPLES, cycle((7, None)), strict=False)))
def test_words_stand_clear_at_every_kind_of_step_of_the_workshops_pieces(name, hem, troubles):
    weave = open_line(example(name))
    steps = steps_at(weave, "top left")
    kinds = {step.kind: number for number, step in enumerate(steps, 1)}
    for number in kinds.values():
        still = draw_weave(weave, step=number, hem=hem, size="projector", unit="cm")
        assert troubles(still.sheet) == []


def test_tails_differ_from_woven_threads_in_lightness_and_pattern():
    threads = CornerThreads(sheet := Sheet(1, 1), sheet.axes((0, 0, 1, 1), (0, 1), (0, 1)))
    lens = next(
        LensShown(w, "top left", steps_at(w, "top left"), 10, 4, "in")
        for w in [open_line(example("bookmark"))]
    )
    threads.look_at(*lens.window)
    threads.show(lens.step.cloth, lens.window, lens.turned)

    def lightness(look):
        colour = threads.threads[look].lines[1].get_color().lstrip("#")
        red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (0, 2, 4))
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    assert lightness("tail") < 0.35 < 0.75 < min(lightness(ROW), lightness(COLUMN))
    assert len(threads.threads["tail"].lines) == 3
    assert threads.threads["tail"].lines[2].is_dashed()
    assert not threads.threads[ROW].lines[1].is_dashed()


def test_fifty_steps_later_there_are_as_many_artists():
    weave = open_line(example("bread cloth"))
    steps = steps_at(weave, "top left")
    before = len(SHEET.figure.findobj())
    for number in range(1, 51):
        shown(LensShown(weave, "top left", steps, number, 7 if number % 2 else None, "in"))
    assert len(SHEET.figure.findobj()) == before


@FEW
@given(lens=lenses())
def test_the_alt_text_states_the_step_and_counts_what_lacks(lens):
    alt = lens_alt(lens)
    rows, columns = lens.window
    cloth = lens.step.cloth
    missing = [len(cloth.crossing(row, column).missing) for row in rows for column in columns]
    assert f"{lens.corner} corner, seen from the right side, step {lens.number} of {len(lens.steps)}." in alt
    assert lens.step.text() in alt
    lack = f"{sum(m > 0 for m in missing)} lack a thread, {missing.count(2)} lack both"
    assert f"Of {len(rows)} × {len(columns)} places shown {lack};" in alt


def test_a_step_or_corner_that_is_none_is_refused():
    weave = open_line(example("bookmark"))
    with pytest.raises(HemError, match="step is 99"):
        draw_weave(weave, step=99)
    with pytest.raises(HemError, match="corner is 'middle'"):
        draw_weave(weave, "middle")


def test_a_single_figure_shows_the_last_step_if_none_is_named():
    weave = open_line(example("bookmark"))
    last = len(steps_at(weave, "top left"))
    assert draw_weave(weave).alt == draw_weave(weave, step=last).alt


@pytest.mark.parametrize("size", TYPE)
@pytest.mark.parametrize("drawn", [1, 2, 3])
def test_the_three_ways_stand_side_by_side_with_their_counts(drawn, size, words, troubles):
    weave = open_line(example("sampler").with_changes(drawn=drawn))
    still = draw_ways(weave, "bottom right", size=size)
    placed = {}
    for word in words(still.sheet):
        left = word.get_window_extent(still.sheet.canvas.get_renderer()).x0
        placed.setdefault(round(left), []).append(word.get_text())
    for way in ways_at(weave, "bottom right"):
        column = next(texts for texts in placed.values() if way.name in texts)
        assert set(way_words(way)) <= set(column)
        assert f"gaps: {way.gaps}, of them on the face {way.gaps_on_face}" in column
        assert f"ends to hide in the hem: {way.ends}" in column
        assert all(line in still.alt for line in way_words(way))
    assert troubles(still.sheet) == []


def test_each_of_the_three_pictures_is_that_of_its_own_cloth():
    weave = open_line(example("bookmark"))
    still = draw_ways(weave, hem=None)
    rows, columns = weave.window("top left", 3)
    pictures = [axes for axes in still.sheet.figure.axes if len(axes.lines) > 8]
    for axes, way in zip(pictures, ways_at(weave, "top left"), strict=True):
        parts = [p for line in (axes.lines[0], axes.lines[4]) for p in pieces(line) if len(p) == 2]
        level = [(p[0][1], *sorted((p[0][0], p[1][0]))) for p in parts if p[0][1] == p[1][1]]
        for row in rows:
            for column in columns:
                crossing = way.cloth.crossing(row, column)
                if crossing.over == ROW:
                    assert covered(level, row, column, column)
                if ROW in crossing.missing:
                    assert not touched(level, row, column - 0.5, column + 0.5)
