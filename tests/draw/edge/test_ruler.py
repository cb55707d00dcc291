"""The edge as a ruler of threads, held against the edge that it shows."""

from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.draw.edge.ruler import EdgeRuler, draw_edge, edge_alt, verdict
from hemcalc.draw.look import BANDS, TYPE
from hemcalc.draw.sheet import Sheet
from hemcalc.edge.ledger import plan_edge

FEW = settings(max_examples=15)


SHEET = Sheet(9, 2.6)
RULER = EdgeRuler(SHEET, (0.01, 0, 0.98, 1), 98)


def shown(edge, unit="in"):
    """A ruler that has shown other edges before, so that nothing of them may stay."""
    RULER.update(edge, unit)
    return RULER


def pieces(line):
    """The parts of a broken line, as pairs of points."""
    points = [(float(x), float(y)) for x, y in zip(*line.get_data(), strict=True)]
    return [tuple(points[i : i + 2]) for i in range(0, len(points), 3)]


def places(line):
    """Where its upright parts stand."""
    assert all(one[0] == other[0] for one, other in pieces(line))
    return [one[0] for one, _ in pieces(line)]


@FEW
@given(data=st.data())
def test_each_band_lies_on_its_threads_in_its_look(edges, data):
    edge = data.draw(edges)
    ruler = shown(edge)
    seen = {
        name: (patch.get_x(), patch.get_x() + patch.get_width())
        for name, patch in ruler.bands.items()
        if patch.get_visible()
    }
    wanted = {band.name: (band.first - 1, band.last) for band in edge.bands} | {"design": (-6, 0)}
    if edge.handling:
        wanted["handling"] = (edge.total, edge.total + edge.handling)
    assert seen == wanted
    assert all(patch.get_hatch() == BANDS[name].hatch for name, patch in ruler.bands.items())


@FEW
@given(data=st.data())
def test_every_thread_but_the_drawn_ones_has_a_line(edges, data):
    edge = data.draw(edges)
    ruler = shown(edge)
    drawn = {band.name: range(band.first, band.last + 1) for band in edge.bands}["drawn"]
    every = range(-5, edge.total + edge.handling + 1)
    assert places(ruler.threads) == [thread - 0.5 for thread in every if thread not in drawn]
    assert ruler.threads.get_visible()


def test_threads_too_fine_to_be_told_apart_are_not_drawn():
    def ruler(most):
        ruler = EdgeRuler(Sheet(9, 2.6), (0.01, 0, 0.98, 1), most)
        ruler.update(plan_edge("28/in", 14, clear=6), "in")
        return ruler

    assert ruler(250).threads.get_visible()
    assert not ruler(400).threads.get_visible()


@FEW
@given(data=st.data())
def test_the_basted_lines_run_after_their_threads(edges, data):
    edge = data.draw(edges)
    ruler = shown(edge)
    assert places(ruler.basted) == [edge.fold_1, edge.fold_2]
    assert list(ruler.cut.get_xdata()) == [edge.cut, edge.cut]


@FEW
@given(data=st.data())
def test_the_brackets_of_rule_and_need_end_where_the_results_say_and_say_so(edges, looks, data, words):
    edge, (unit, _) = data.draw(edges), data.draw(looks)
    ruler = shown(edge, unit)
    tips = [path.vertices[0][0] for path in ruler.dimensions.heads.get_paths()]
    assert tips == [0, edge.rule.rule, 0, edge.rule.need]
    texts = [word.get_text() for word in words(SHEET)]
    rule, need = edge.rule.rule_length.text(unit), edge.rule.need_length.text(unit)
    assert f"rule: 4 hems = {edge.rule.rule} threads, {rule}" in texts
    assert f"needed: {edge.rule.need} threads, {need}" in texts


@FEW
@given(data=st.data())
def test_words_name_each_band_and_line_in_order_with_leaders_from_where_they_are(edges, data, words):
    edge = data.draw(edges)
    ruler = shown(edge)
    texts = {word.get_text(): word.get_position()[0] for word in words(SHEET)}
    for band in edge.bands:
        span = f"{band.first}" if band.first == band.last else f"{band.first}–{band.last}"
        assert f"{band.name}\n{span}" in texts
    lines = {"fold 1": edge.fold_1, "fold 2": edge.fold_2, "cut": edge.cut}
    if not edge.turn:
        lines = {"fold 1": edge.fold_1, "fold 2, cut": edge.cut}
    assert all(f"{name}: after {at}" in texts for name, at in lines.items())
    assert verdict(edge) in texts
    ends = {round(x, 6) for piece in pieces(ruler.leaders) for x, _ in piece}
    wanted = {(band.first - 1 + band.last) / 2 for band in edge.bands} | set(lines.values())
    assert {round(x, 6) for x in wanted} <= ends


@settings(max_examples=15)
@given(data=st.data())
def test_words_stand_clear_whatever_the_sliders_say(edges, looks, data, troubles):
    edge, (unit, size) = data.draw(edges), data.draw(looks)
    SHEET.set_type(TYPE[size])
    shown(edge, unit)
    assert troubles(SHEET) == []


@for_each("size", TYPE)
@for_each(
    "edge",
    [
        plan_edge("50/in", 60, clear=1, drawn=1, turn=1),
        plan_edge("12/in", 2, clear=40, drawn=10, turn=0, handling=30),
        plan_edge("32/in", 200, clear=200, handling=100),
        plan_edge("32/in", 1, clear=0, drawn=1, turn=0),
    ],
)
def test_words_stand_clear_on_edges_beyond_the_sliders(edge, size, troubles):
    assert troubles(draw_edge(edge, "mm", size).sheet) == []


@FEW
@given(data=st.data())
def test_the_limits_stay_so_that_the_picture_does_not_jump(edges, data):
    ruler = shown(data.draw(edges))
    assert ruler.axes.get_xlim() == (-6, 98.5)
    assert ruler.axes.get_ylim() == (0, 10)


# At 28 threads/in a 1/2 in hem is 14, its turn 7: 6 + 2 + 14 + 14 + 7 = 43, and 4 · 14 = 56. By hand.
def test_a_hem_of_half_an_inch_is_said_in_full():
    assert edge_alt(plan_edge("28/in", "1/2 in", clear=6), "in") == (
        "The edge as a ruler of 43 threads: clear 1–6, drawn 7–8, face 9–22, back 23–36, turn 37–43. "
        "Fold 1 after thread 22, fold 2 after 36, cut after 43. Rule: 56 threads, 2 in; "
        "needed: 43 threads, ≈ 1 9/16 in. The rule is enough: 13 threads to spare."
    )


def test_the_verdict_counts_one_thread_as_one():
    assert verdict(plan_edge("32/in", 7, clear=9)) == "The rule is not enough: 1 thread too few."
    assert verdict(plan_edge("32/in", 6, clear=6)) == "The rule is enough: 1 thread to spare."
    assert verdict(plan_edge("32/in", 4, clear=4)) == "The rule is enough: 0 threads to spare."
