"""The mitred corner of the handbooks, held against hemcalc's.

The figures themselves are rows of data/, each with a test in test_rows.py; here stands what
follows from them.
"""

import math

import pytest
from cases import for_each

from hemcalc import plan_corner, plan_edge
from hemcalc.books import read_rows

EXERCISES = [row for row in read_rows() if row.topic == "mitre allowance" and row.published]


@for_each("row", EXERCISES)
def test_corners_of_the_published_exercises_keep_their_layers_within_two_and_four(row):
    # A closer cut than through the crossing of the second folds saves bulk.
    given = dict(row.inputs)
    allowance = given.pop("allowance")
    edge = plan_edge("40/in", clear=5, **given)
    assert edge.rounding == "Nothing was rounded."
    corner = plan_corner(edge, edge, allowance=allowance)
    assert corner.allowance_mm == pytest.approx(float(row.expected) * 25.4)
    assert set(corner.layer_areas) <= {2, 3, 4}
    assert corner.trim_lands_mm > 0


# The mitre of equal hems is printed as 45 degrees, H054, whatever the hem.
# Source: School Sewing Based on Home Problems, I. R. and M. G. Burton, c.1916 (not seen), Par. 146.
@for_each("hem", ["1/4 in", "1/2 in", "1 in"])
@for_each("count", ["28/in", "30/in", "11/cm"])
def test_the_mitre_of_equal_hems_runs_at_the_published_angle(hem, count):
    edge = plan_edge(count, hem, clear=7)
    corner = plan_corner(edge, edge)
    assert corner.angle == pytest.approx(45, abs=0.5)
    (x0, y0), (x1, y1) = corner.corner_fold
    assert math.degrees(math.atan2(float(y0 - y1), float(x1 - x0))) == pytest.approx(45, abs=0.5)
