"""The corner folded anew with shapely, from the uncut square, and held against hemcalc's.

The steps are the tests' own: cut lines, trim, reflection and piling are worked here from the
hem's and the turn's widths in millimetres. From the library come only the answers: layer
areas, layers at points, legs, and what reaches over the work.
"""

import itertools
import math
import random
from dataclasses import dataclass, field

import pytest
import shapely
from cases import for_each
from shapely.affinity import affine_transform

from hemcalc import Count, Fabric, Piece, Sides, plan_corner, plan_edge

INCH = 25.4
FAR = 400.0  # mm: the square of cloth reaches so far inward, and a half plane so far out
GRID = 1e-7  # mm: edges that lie a rounding apart are one edge
SLIVER = 1e-5  # mm²: what rounding leaves where two cuts meet


@dataclass
class Paper:
    """A square of cloth on the table, cut and folded as one would fold paper."""

    hem_x: float
    hem_y: float
    turn_x: float
    turn_y: float
    plies: list = field(default_factory=list)

    def __post_init__(self):
        self.raw_x, self.raw_y = 2 * self.hem_x + self.turn_x, 2 * self.hem_y + self.turn_y
        self.plies = [shapely.box(-FAR, -FAR, self.raw_x, self.raw_y)]

    def beyond(self, start, end):
        """The half plane on the far side, away from the work, of the line through two points."""
        along = (end[0] - start[0], end[1] - start[1])
        size = math.hypot(*along)
        along = (along[0] / size, along[1] / size)
        out = (-along[1], along[0])
        if out[0] + out[1] < 0:
            out = (-out[0], -out[1])
        return shapely.Polygon(
            [
                (start[0] + u * FAR * 9 * along[0] + v * FAR * 9 * out[0],
                 start[1] + u * FAR * 9 * along[1] + v * FAR * 9 * out[1])
                for u, v in ((-1, 0), (1, 0), (1, 1), (-1, 1))
            ]
        )  # fmt: skip

    def cut(self, shape):
        self.plies = [ply.difference(shape) for ply in self.plies]

    def trim_through_fold_2(self):
        """Cut straight through the crossing of the fold 2 lines, parallel to the corner fold."""
        self.cut(self.beyond((0, 4 * self.hem_y), (4 * self.hem_x, 0)))

    def trim_leaving(self, allowance):
        """Cut so far from the corner fold, measured square to it."""
        diagonal = math.hypot(self.hem_x, self.hem_y)
        away = (allowance * self.hem_y / diagonal, allowance * self.hem_x / diagonal)
        self.cut(self.beyond((away[0], 2 * self.hem_y + away[1]), (2 * self.hem_x + away[0], away[1])))

    def cut_oblong(self, allowance):
        self.cut(shapely.box(self.hem_x + allowance, self.hem_y + allowance, FAR, FAR))

    def fold(self, start, end):
        """Turn everything beyond the line through two points over it, by x → x - 2 (n·(x - p)) n."""
        half = self.beyond(start, end)
        size = math.dist(start, end)
        nx, ny = -(end[1] - start[1]) / size, (end[0] - start[0]) / size
        level = nx * start[0] + ny * start[1]
        matrix = (
            1 - 2 * nx * nx, -2 * nx * ny, -2 * nx * ny, 1 - 2 * ny * ny, 2 * level * nx, 2 * level * ny
        )  # fmt: skip
        stay = [ply.difference(half) for ply in self.plies]
        over = [affine_transform(ply.intersection(half), matrix) for ply in self.plies]
        self.plies = [ply for ply in (*stay, *over) if ply.area > SLIVER]

    def fold_corner(self):
        self.fold((2 * self.hem_x, 0), (0, 2 * self.hem_y))

    def fold_upright(self, x):
        self.fold((x, 0), (x, 1))

    def fold_level(self, y):
        self.fold((0, y), (1, y))

    def fold_all(self, *, mitred, corner_first):
        if mitred and corner_first:
            self.fold_corner()
        self.fold_upright(2 * self.hem_x)
        self.fold_level(2 * self.hem_y)
        if mitred and not corner_first:
            self.fold_corner()
        self.fold_upright(self.hem_x)
        self.fold_level(self.hem_y)

    def layers(self, x, y):
        return shapely.contains_xy(self.plies, x, y).sum()

    def most_layers_round(self, x, y):
        """The most layers on any side of a place on a fold: once between each two edges that meet there."""
        here, headings = shapely.Point(x, y), set()
        for ply in self.plies:
            for start, end in itertools.pairwise(ply.exterior.coords):
                if math.dist(start, end) > 1e-6 and shapely.LineString([start, end]).distance(here) < 1e-6:
                    heading = math.atan2(end[1] - start[1], end[0] - start[0])
                    headings |= {heading % math.tau, (heading + math.pi) % math.tau}
        around = sorted(headings) or [0.0]
        gaps = zip(around, [*around[1:], around[0] + math.tau], strict=True)
        # Edges that should run alike may differ by a rounding: no cloth lies between those.
        ways = [(one + two) / 2 for one, two in gaps if two - one > 1e-6]
        hair = 1e-4
        return max(self.layers(x + hair * math.cos(way), y + hair * math.sin(way)) for way in ways)

    def layer_areas(self):
        """Cut the square along every ply's edge, and count the plies at a place in each part."""
        square = shapely.box(0, 0, self.hem_x, self.hem_y)
        lines = shapely.unary_union([self.edges(), square.boundary], grid_size=GRID)
        areas = {}
        for part in shapely.polygonize([lines]).geoms:
            place = part.representative_point()
            if part.area > SLIVER and square.contains(place):
                layers = self.layers(place.x, place.y)
                areas[layers] = areas.get(layers, 0.0) + part.area
        return areas

    def edges(self):
        return shapely.unary_union([ply.boundary for ply in self.plies])


def folded(widths, kind, allowance, order):
    paper = Paper(*widths)
    if kind == "mitred" and allowance is None:
        paper.trim_through_fold_2()
    elif kind == "mitred":
        paper.trim_leaving(allowance)
    elif kind == "square":
        paper.cut_oblong(0.25 * INCH if allowance is None else allowance)
    paper.fold_all(mitred=kind in ("mitred", "untrimmed"), corner_first=order == "corner first")
    return paper


def assert_alike(corner, paper):
    areas = {layers: float(spread) for layers, spread in corner.layer_areas.items() if spread > SLIVER}
    assert areas == pytest.approx(paper.layer_areas(), abs=2e-5)
    rng, edges = random.Random(7), paper.edges()
    tried = 0
    for _ in range(12):
        x, y = rng.uniform(-1.5, 1.05) * paper.hem_x, rng.uniform(-1.5, 1.05) * paper.hem_y
        if edges.distance(shapely.Point(x, y)) > 1e-3:
            assert corner.layers(x, y) == paper.layers(x, y), (x, y)
            tried += 1
    assert tried > 6
    for x, y in places_on_folds(paper):
        assert corner.layers(x, y) == paper.most_layers_round(x, y), (x, y)
    assert corner.layers(paper.hem_x + 0.01, paper.hem_y / 2) == 0


def places_on_folds(paper):
    """The corners of the square, and the middles of plies' edges near it."""
    yield from itertools.product((0.0, paper.hem_x), (0.0, paper.hem_y))
    for ply in paper.plies[:5]:
        points = list(ply.exterior.coords)
        for (x0, y0), (x1, y1) in itertools.pairwise(points):
            x, y = (x0 + x1) / 2, (y0 + y1) / 2
            if math.dist((x0, y0), (x1, y1)) > 0.1 and max(abs(x), abs(y)) < 60:
                yield x, y


HEMS = [
    ((16, 28), (16, 28)),
    ((6, 28), (4, 28)),
    ((4, 28), (10, 28)),
    ((11, 28), (10, 27)),  # as wide, to a thread
]
KINDS = [
    ("mitred", None),
    ("mitred", 0.5),
    ("mitred", 1.9),
    ("untrimmed", None),
    ("square", 0.4),
    ("uncut", None),
]
TURNS = (0, 0.5, 1)


def hemmed(across, down, turn):
    """The two edges, and the widths of hems and turns in mm: hem and turn across, then down."""
    edges, widths = [], []
    for hem, count in (across, down):
        turned = math.ceil(hem * turn)
        edges.append(plan_edge(f"{count}/in", hem, clear=8, turn=turned))
        widths += [hem * INCH / count, turned * INCH / count]
    hem_x, turn_x, hem_y, turn_y = widths
    return edges, (hem_x, hem_y, turn_x, turn_y)


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize(("kind", "share"), KINDS)
@pytest.mark.parametrize(("across", "down"), HEMS)
def test_layers_and_areas_are_those_of_the_square_folded_with_shapely(across, down, kind, share, turn):
    # By turns, so that each kind and turn meets both orders, on other hems.
    order = ("corner first", "turns first")[((across[0] + down[0]) // 2 + len(kind) + int(2 * turn)) % 2]
    edges, widths = hemmed(across, down, turn)
    allowance = None
    if share is not None:
        # A share of the narrower hem, that the cut does not miss the cloth without turns.
        allowance = round(share * min(widths[:2]) * (0.7 if kind == "mitred" else 1), 3)
    text = None if allowance is None else f"{allowance:.3f} mm"
    corner = plan_corner(*edges, corner=kind, allowance=text, order=order)
    assert_alike(corner, folded(widths, kind, allowance, order))


@for_each(("across", "down"), HEMS)
@for_each("turn", [0.5, 1])
def test_what_reaches_over_the_work_is_what_shapely_finds_there(across, down, turn):
    edges, widths = hemmed(across, down, turn)
    opened = [2 * INCH / count for _, count in (across, down)]  # two threads are drawn
    paper = folded(widths, "untrimmed", None, "corner first")
    corner = plan_corner(*edges, corner="untrimmed")
    for (x, y), reach, spread in (
        ((0, 0), corner.overhang.reach_mm, corner.overhang.area_mm2),
        ((-opened[0], -opened[1]), corner.overhang.work_reach_mm, corner.overhang.work_area_mm2),
    ):
        beyond = shapely.box(-FAR / 2, -FAR / 2, x, y)
        # The cloth itself lies there too, once: all but the first ply has been folded over.
        parts = [ply.intersection(beyond) for ply in paper.plies[1:]]
        parts = [part for part in parts if part.area > SLIVER]
        assert spread == pytest.approx(sum(part.area for part in parts), abs=1e-6)
        tips = [math.dist((x, y), point) for part in parts for point in part.exterior.coords]
        assert reach == pytest.approx(max(tips, default=0), abs=1e-6)


@for_each(("across", "down"), HEMS)
@for_each("allowance", [None, 3.0])
def test_legs_are_what_the_cut_takes_off_the_raw_edges(across, down, allowance):
    edges, widths = hemmed(across, down, 0.5)
    paper = Paper(*widths)
    if allowance is None:
        paper.trim_through_fold_2()
    else:
        paper.trim_leaving(allowance)
    cloth = paper.plies[0].exterior.coords
    along_x = paper.raw_x - max(x for x, y in cloth if abs(y - paper.raw_y) < 1e-9)
    along_y = paper.raw_y - max(y for x, y in cloth if abs(x - paper.raw_x) < 1e-9)
    corner = plan_corner(*edges, allowance=None if allowance is None else f"{allowance} mm")
    assert corner.legs_mm == pytest.approx((along_x, along_y), abs=1e-6)


@pytest.mark.parametrize(
    ("kind", "allowance"), [("mitred", None), ("mitred", 3.0), ("untrimmed", None), ("square", None)]
)
@pytest.mark.parametrize("same", ["width", "threads"])
def test_all_four_corners_of_a_piece_with_unequal_clear_bands(kind, allowance, same):
    piece = Piece(
        Fabric("28/in", "26/in"),
        (224, 168),
        hem="1/2 in" if same == "width" else 15,
        clear=Sides(8, 9, 7, 10),
        turn=6,
        same=same,
        corner=kind,
        allowance=None if allowance is None else f"{allowance} mm",
    )
    hem_x, hem_y = (14 / 28, 13 / 26) if same == "width" else (15 / 28, 15 / 26)
    widths = tuple(INCH * part for part in (hem_x, hem_y, 6 / 28, 6 / 26))
    paper = folded(widths, kind, allowance, "corner first")
    assert [corner.across.clear for corner in piece.corners] == [8, 9, 8, 9]
    assert [corner.down.clear for corner in piece.corners] == [7, 7, 10, 10]
    for corner in piece.corners:
        assert corner.across.count == Count("28/in")
        assert_alike(corner, paper)
