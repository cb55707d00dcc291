"""A picture for each movement: drawn from the piece, in grey, and for the other hand its mirror."""

import io
from dataclasses import replace
from itertools import cycle, pairwise, product

import numpy as np
import pytest
from cases import for_each
from PIL import Image

from hemcalc.draw.finish.counting import counting_scene, draw_counting_plan
from hemcalc.draw.finish.movements import MOVEMENTS, draw_movement, movement_alt, movement_scene
from hemcalc.draw.finish.scene import HIGH, WIDE, Area, Stroke, Words, show_scene
from hemcalc.draw.sheet import Sheet
from hemcalc.finish.counting import counting_plan
from hemcalc.finish.steps import finish_steps
from hemcalc.finish.words import MOVEMENTS as NAMED
from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides

UNLIKE = {
    "bread cloth": EXAMPLES["bread cloth"],
    "sampler": EXAMPLES["sampler"],
    "tray cloth": EXAMPLES["tray cloth"],
    "square, one drawn": EXAMPLES["bread cloth"].with_changes(corner="square", drawn=1),
    "tiny": Piece(Fabric("60/in", washed=True), (24, 30), hem=3, same="threads", clear=0, drawn=4, turn=0),
}
STITCHES = ("fasten on", "stitch 1", "stitch 2", "stitch 3", "corner group")
each_piece = pytest.mark.parametrize("piece", UNLIKE.values(), ids=list(UNLIKE))


def has(piece, name):
    return piece.corner == "mitred" or name not in ("fold the corner", "mitre seam")


def pixels(scene, *, words=True):
    """The picture as it is seen, in colours."""
    if not words:
        scene = replace(scene, things=tuple(each for each in scene.things if not isinstance(each, Words)))
    sheet = Sheet(scene.width / 25.4, scene.height / 25.4, dpi=100)
    show_scene(sheet, scene)
    return sheet.pixels()[..., :3].astype(np.int16)


def test_there_is_a_picture_for_every_movement_that_a_step_may_name():
    assert MOVEMENTS == NAMED


@each_piece
def test_each_movement_is_drawn_in_grey_with_an_alt_text(piece):
    for name in filter(lambda name: has(piece, name), MOVEMENTS):
        seen = pixels(movement_scene(piece, name))
        assert (seen == seen[..., :1]).all(), name
        assert 0.03 < (seen[..., 0] < 128).mean() < 0.6, name
        assert movement_alt(piece, name).endswith(".")


# Each movement on two pieces, which take turns.
@pytest.mark.parametrize(
    ("name", "piece"), list(zip([*MOVEMENTS, *MOVEMENTS], cycle(UNLIKE.values()), strict=False))
)
def test_a_left_handers_picture_is_the_right_handers_in_a_mirror(piece, name):
    if not has(piece, name):
        return
    left, right, top, bottom = piece.clear
    other = piece.with_changes(clear=Sides(right, left, top, bottom))
    seen = pixels(movement_scene(piece, name, hand="left"), words=False)
    mirror = pixels(movement_scene(other, name), words=False)[:, ::-1]
    assert (apart := unlike(seen, mirror)) < 0.03
    if name not in ("finish", "fold the middle", "baste the outline"):  # These are alike on both sides.
        assert unlike(seen, mirror[:, ::-1]) > max(0.005, 1.5 * apart)


def unlike(seen, other):
    """The share of dots that differ: hatching isn't mirrored, and an edge may fall on the next dot."""
    seen, other = seen[..., 0], other[..., 0]  # in grey, as the test above holds
    near = [abs(seen - np.roll(other, dots, axis=(0, 1))) for dots in product((-1, 0, 1), repeat=2)]
    return (np.min(near, axis=0) > 100).mean()


@for_each("hand", ["right", "left"])
@for_each(("worked", "sign"), [("left to right", 1), ("right to left", -1)])
def test_the_needle_behind_a_group_points_against_the_way_of_the_work(hand, worked, sign):
    scene = movement_scene(EXAMPLES["coaster"], "stitch 1", hand=hand, worked=worked)
    (needle,) = [each for each in scene.things if isinstance(each, Area) and each.look == "needle"]
    point, eye = needle.points[0], needle.points[len(needle.points) // 2]
    assert sign * (eye[0] - point[0]) > 10
    # It is laid before the group's threads, which hide it.
    threads = [i for i, each in enumerate(scene.things) if getattr(each, "look", "") == "cloth thread"]
    assert scene.things.index(needle) < threads[0]
    back = worked.split()[0]
    assert f"its point to the {back}. {hand.capitalize()} hand, worked from {worked}." in movement_alt(
        EXAMPLES["coaster"], "stitch 1", hand=hand, worked=worked
    )


@pytest.mark.parametrize("group", [2, 4, 6])
def test_a_stitch_takes_the_groups_own_threads(group):
    scene = movement_scene(EXAMPLES["bread cloth"], "fasten on", group=group)
    bundles = [each for each in scene.things if isinstance(each, Stroke) and each.look == "cloth thread"]
    assert [len(bundle.lines) for bundle in bundles] == [group] * 3


def test_the_drawn_lines_stand_open_in_the_pictures_of_the_weave():
    """Two lines a side lack a thread where the tails hang; darned, only the open square is left."""
    piece = EXAMPLES["bread cloth"]
    out, back = (movement_scene(piece, name) for name in ("withdraw to the corner", "darn back"))

    def tails(scene):
        return sum(len(each.lines) for each in scene.things if getattr(each, "look", "") == "tail")

    assert tails(out) == 2
    assert tails(back) > 3


@each_piece
def test_an_alt_texts_numbers_are_those_of_the_piece(piece):
    low = piece.edges_in_hand.bottom
    assert f"after threads {low.fold_1}, {low.fold_2} and {low.cut} of the bottom side" in movement_alt(
        piece, "baste the lines"
    )
    assert f"thread {piece.edges.top.clear + 1} of the top side" in movement_alt(piece, "draw out").lower()
    assert f"{piece.design[0]} × {piece.design[1]} threads" in movement_alt(piece, "baste the outline")


@each_piece
def test_every_step_of_a_piece_has_its_pictures(piece):
    for beginning in ("stitched", "blank, to size", "blank, larger"):
        for step in finish_steps(piece, group=3, beginning=beginning):
            for name in step.movements:
                assert movement_scene(piece, name, group=3).things


def test_a_notebook_shows_a_movement_at_its_own_size():
    still = draw_movement(EXAMPLES["coaster"], "snip")
    assert Image.open(io.BytesIO(still.png())).size == pytest.approx(
        (WIDE / 25.4 * 220, HIGH / 25.4 * 220), abs=1
    )


@for_each(
    ("name", "how", "words"),
    [
        ("jump", {}, "name is 'jump', but must be one of 'hold the edge'"),
        ("stitch 1", {"hand": "both"}, "hand is 'both'"),
        ("stitch 1", {"worked": "up"}, "worked is 'up'"),
        ("stitch 1", {"group": 9}, "group is 9"),
    ],
)
def test_what_is_no_movement_is_refused_in_a_sentence(name, how, words):
    with pytest.raises(HemError, match=words):
        draw_movement(EXAMPLES["coaster"], name, **how)
    with pytest.raises(HemError, match="a corner that is square has no such movement"):
        movement_scene(UNLIKE["square, one drawn"], "mitre seam")


@pytest.mark.parametrize("name", ["sampler", "tray cloth"])
def test_the_blank_cloth_is_drawn_to_its_proportions_with_every_line_and_count(name):
    # An odd design, and margins that differ on all four sides.
    piece = EXAMPLES[name].with_changes(design=(301, 199), clear=Sides(6, 40, 7, 41))
    plan = counting_plan(piece, motif=(40, 50), place="bottom right", inset=12)
    scene = counting_scene(plan)
    cloth, motif = (each.points for each in scene.things if isinstance(each, Area))
    (x0, y0), _, (x1, y1), _ = cloth
    across, down = (float(side.mm) for side in piece.cut_size.in_hand)
    assert (x1 - x0) / (y1 - y0) == pytest.approx(across / down, rel=1e-3)
    pitch = float(piece.fabric.across.pitch.mm) * (x1 - x0) / across
    assert motif[1][0] - motif[0][0] == pytest.approx(40 * pitch, abs=0.01)
    (thin,) = [each.lines for each in scene.things if isinstance(each, Stroke) and each.look == "thread"]
    upright = sorted(line[0][0] for line in thin if line[0][0] == line[1][0])
    assert len(upright) == len(plan.across.lines)
    margin, half = piece.edges.left.rule.margin, -(-piece.design[0] // 2)
    centre = x0 + (margin + half) * pitch
    assert all(
        (x - centre) / pitch % 10 == pytest.approx(0, abs=0.05)
        or ((x - centre) / pitch % 10 == pytest.approx(10, abs=0.05))
        for x in upright
    )
    edges, said = piece.edges, [each.text for each in scene.things if isinstance(each, Words)]
    ways = (("left", "right", piece.design[0]), ("top", "bottom", piece.design[1]))
    expected = [
        str(number)
        for one, two, threads in ways
        for number in (
            getattr(edges, one).rule.margin,
            -(-threads // 2),
            threads // 2,
            getattr(edges, two).rule.margin,
        )
    ]
    assert said == expected
    assert all(number in draw_counting_plan(plan).alt for number in expected)


@pytest.mark.parametrize("design", [(800, 8), (8, 800), (2, 2)])
def test_the_numbers_beside_a_long_band_stand_in_their_order_and_on_no_other(design):
    piece = Piece(Fabric("18/in"), design, hem="1/4 in", clear=0, turn=0)
    drawn = [each for each in counting_scene(counting_plan(piece)).things if isinstance(each, Words)]
    above, beside = drawn[:4], drawn[4:]
    assert all(right.at[0] - left.at[0] > 2.7 for left, right in pairwise(above))
    assert all(higher.at[1] - lower.at[1] > 2.7 for higher, lower in pairwise(beside))


def test_the_bite_is_that_of_the_narrowest_hem_as_the_step_says():
    piece = Piece(Fabric("8/cm", "18/cm"), (40, 60), hem="1 mm", clear=2, turn=0)
    assert (piece.edges.left.hem, piece.edges.top.hem) == (1, 2)
    drawn = [each.text for each in movement_scene(piece, "stitch 3").things if isinstance(each, Words)]
    assert "1 thread deep" in drawn
    (step,) = [step for step in finish_steps(piece) if step.title == "Hem stitch the sides"]
    assert "1 thread deep" in step.task
