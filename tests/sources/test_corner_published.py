"""The mitred corner of the handbooks, held against hemcalc's.

Each figure is copied from its book, with the book, its author, year and the place in it;
'not seen' and 'from memory' stand where the reference has them. Tolerance is half the last
digit that is printed, or that the derived figure is given with.
"""

import math
from dataclasses import dataclass

import pytest

from hemcalc.corner import plan_corner
from hemcalc.edge import plan_edge
from hemcalc.lengths import Length

INCH = 25.4


@dataclass(frozen=True)
class Exercise:
    """A corner whose hem, turning and allowance beyond the crease are printed, inches."""

    hem: str
    turning: str
    allowance: str
    title: str
    author: str
    year: str
    place: str


HAPGOOD = Exercise(
    hem="1 in",
    turning="1/4 in",
    allowance="1/4 in",
    title="School Needlework",
    author="Olive C. Hapgood",
    year="1893",
    place="To Mitre the Corners of a Hem, steps 2 to 6",
)

# The hem and the turning are printed in the first only; any will do for an allowance.
ALLOWANCES = [
    pytest.param(HAPGOOD, id="H049"),
    pytest.param(
        Exercise(
            hem="1/2 in",
            turning="1/4 in",
            allowance="1/8 in",
            title="School Sewing Based on Home Problems",
            author="I. R. and M. G. Burton",
            year="c.1916 (not seen)",
            place="Par. 146",
        ),
        id="H053",
    ),
    pytest.param(
        Exercise(
            hem="1/2 in",
            turning="1/8 in",
            allowance="1/8 in",
            title="A Sewing Course for Teachers",
            author="Mary Schenck Woolman",
            year="not seen",
            place="No. 5 Mitering",
        ),
        id="H055",
    ),
    pytest.param(
        Exercise(
            hem="1 in",
            turning="1/4 in",
            allowance="1/4 in",
            title="Hand Sewing Lessons",
            author="Sarah E. Krolik (author from memory, not seen on page)",
            year="c.1901 (not seen)",
            place="Model 7",
        ),
        id="H056",
    ),
]


def corner_of(exercise):
    # At 32 threads to the inch every printed eighth is a whole number of threads.
    edge = plan_edge("32/in", exercise.hem, clear=8, turn=exercise.turning)
    assert edge.rounding == "Nothing was rounded."
    return plan_corner(edge, edge, allowance=exercise.allowance)


# Hem 1 in, turning 1/4 in, allowance 1/4 in: cut legs of 2.146 in along each raw edge (derived
# from the printed figures), H047, H048, H049, H051.
# Source: School Needlework, Olive C. Hapgood, 1893, "To Mitre the Corners of a Hem", step 5.
def test_cut_legs_of_the_published_mitre_exercise():
    assert [leg / INCH for leg in corner_of(HAPGOOD).legs_mm] == pytest.approx([2.146] * 2, abs=0.0005)


# The creases meet 1 1/4 in from each raw edge (derived), which is the finished outer corner, H050.
# Source: School Needlework, Olive C. Hapgood, 1893, "To Mitre the Corners of a Hem", step 4.
def test_creases_of_the_published_mitre_exercise_meet_an_inch_and_a_quarter_from_the_raw_edges():
    corner = corner_of(HAPGOOD)
    fold_1 = corner.landings[0]
    assert fold_1.line == "fold 1"
    assert fold_1.meets == corner.hems
    off = [float(raw - at) / INCH for raw, at in zip(corner.raw_corner, fold_1.meets, strict=True)]
    assert off == pytest.approx([1.25] * 2, abs=0.005)


@pytest.mark.parametrize("exercise", ALLOWANCES)
def test_the_published_allowance_is_left_beyond_the_crease_measured_square_to_it(exercise):
    corner = corner_of(exercise)
    # The distance from the creases' crossing, on the corner fold, to the line of the cut.
    (x0, y0), (x1, y1) = [tuple(map(float, point)) for point in corner.trim]
    x, y = map(float, corner.hems)
    away = abs((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / math.dist((x0, y0), (x1, y1))
    printed = float(Length.parse(exercise.allowance).inches)
    # Half of the eighth that the books print in.
    assert away / INCH == pytest.approx(printed, abs=1 / 16)
    assert corner.allowance_mm == pytest.approx(away)
    assert away == pytest.approx(printed * INCH)


@pytest.mark.parametrize("exercise", ALLOWANCES)
def test_corners_of_the_published_exercises_keep_their_layers_within_two_and_four(exercise):
    # A closer cut than through the crossing of the second folds saves bulk.
    corner = corner_of(exercise)
    assert set(corner.layer_areas) <= {2, 3, 4}
    assert corner.trim_lands_mm > 0


# The mitre of equal hems is printed as 45 degrees, H054, whatever the hem.
# Source: School Sewing Based on Home Problems, I. R. and M. G. Burton, c.1916 (not seen), Par. 146.
@pytest.mark.parametrize("hem", ["1/4 in", "1/2 in", "1 in"])
@pytest.mark.parametrize("count", ["28/in", "32/in", "11/cm"])
def test_the_mitre_of_equal_hems_runs_at_the_published_angle(hem, count):
    edge = plan_edge(count, hem, clear=8)
    corner = plan_corner(edge, edge)
    assert corner.angle == pytest.approx(45, abs=0.5)
    (x0, y0), (x1, y1) = corner.corner_fold
    assert math.degrees(math.atan2(float(y0 - y1), float(x1 - x0))) == pytest.approx(45, abs=0.5)
