"""The looks: told apart by lightness or pattern, by every eye and in grey."""

from itertools import combinations, pairwise

import numpy as np
import pytest
from cases import for_each
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_rgb
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from hemcalc.draw.bare import QuickCanvas
from hemcalc.draw.look import (
    BANDS,
    CLOTH_SIDES,
    INK,
    LAYERS,
    LINES,
    OFFCUT,
    PAPER,
    PIECES,
    TYPE,
    BandLook,
    type_size,
)
from hemcalc.measure.errors import HemError

LEDGER = ("design", "clear", "drawn", "face", "back", "turn", "handling")
#: Bands that a ledger may leave out, so that their neighbours meet.
MAY_BE_NONE = {"clear", "turn", "handling"}


# Relative luminance and contrast ratio as defined by the Web Content Accessibility Guidelines
# 2.2, W3C, 2023, "relative luminance" and "contrast ratio".
def luminance(colour: str) -> float:
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in to_rgb(colour)]
    return sum(share * c for share, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


# "contrast on white DERIVED": blue 5.19, vermilion 3.87, green 3.42, orange 2.25, of the palette of
# Okabe and Ito. Computed by the same definitions, 2026; it holds our two functions.
@for_each(
    ("colour", "ratio"),
    [("#0072b2", 5.19), ("#d55e00", 3.87), ("#009e73", 3.42), ("#e69f00", 2.25), ("#000000", 21.0)],
)
def test_contrast_is_computed_as_defined(colour, ratio):
    assert contrast(colour, "#ffffff") == pytest.approx(ratio, abs=0.005)


# 4.5 : 1 for text. Source: Web Content Accessibility Guidelines 2.2, W3C, 2023, SC 1.4.3.
def test_text_has_the_contrast_that_normal_text_needs():
    assert contrast(INK, PAPER) >= 4.5


# 3 : 1 for what must be seen to understand a figure. Source: Web Content Accessibility Guidelines
# 2.2, W3C, 2023, SC 1.4.11. Outlines, hatches and basted lines are drawn in ink on these fills.
@for_each("look", [*BANDS.values(), *CLOTH_SIDES.values(), *LAYERS.values(), *PIECES, OFFCUT])
def test_lines_and_patterns_in_ink_are_seen_on_every_fill(look):
    assert contrast(INK, look.fill) >= 3


#: Every two bands that can lie side by side.
NEIGHBOURS = [
    (first, LEDGER[j])
    for i, first in enumerate(LEDGER)
    for j in range(i + 1, len(LEDGER))
    if set(LEDGER[i + 1 : j]) <= MAY_BE_NONE
]


def differ(one: BandLook, other: BandLook) -> bool:
    return one.hatch != other.hatch or contrast(one.fill, other.fill) >= 1.25


def test_every_band_of_the_ledger_has_a_look():
    assert set(BANDS) == set(LEDGER)


@for_each(("first", "second"), NEIGHBOURS)
def test_bands_side_by_side_differ_in_lightness_or_pattern(first, second):
    assert differ(BANDS[first], BANDS[second])


def test_the_two_sides_of_the_cloth_differ_by_pattern():
    assert CLOTH_SIDES["right"].hatch != CLOTH_SIDES["wrong"].hatch


@for_each(("one", "other"), list(combinations((*PIECES, OFFCUT), 2)))
def test_any_two_sizes_of_piece_and_what_is_left_over_are_told_apart(one, other):
    assert differ(one, other)


@for_each(("one", "other"), list(combinations(LAYERS, 2)))
def test_any_two_numbers_of_layers_differ_in_lightness_or_pattern(one, other):
    assert differ(LAYERS[one], LAYERS[other])


def test_more_layers_are_never_lighter():
    assert all(luminance(LAYERS[n].fill) >= luminance(LAYERS[m].fill) for n, m in pairwise(LAYERS))


def grey(look: BandLook, kind: type = QuickCanvas) -> np.ndarray:
    """A patch of it as a grey printer gives it, without its outline."""
    figure = Figure(figsize=(1, 1), dpi=100)
    canvas = kind(figure)
    figure.add_artist(Rectangle((0, 0), 1, 1, **(look.patch | {"linewidth": 0})))
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())[5:-5, 5:-5, :3] @ np.array([0.299, 0.587, 0.114])


def test_dots_that_are_drawn_quickly_are_as_round_to_the_eye():
    quick, usual = (grey(BANDS["turn"], kind) for kind in (QuickCanvas, FigureCanvasAgg))
    assert 0 < abs(quick - usual).max() < 12, "of 255"


@for_each(("first", "second"), [*NEIGHBOURS, ("right", "wrong")])
def test_neighbours_are_told_apart_in_grey(first, second):
    looks = BANDS | CLOTH_SIDES
    one, other = grey(looks[first]), grey(looks[second])
    plainly = abs(np.median(one) - np.median(other)) > 12
    by_pattern = abs(one.std() - other.std()) > 8
    assert plainly or by_pattern


def test_each_kind_of_line_is_of_its_own():
    kinds = [(look.width, look.dashes) for look in LINES.values()]
    assert len(set(kinds)) == len(kinds)


# Wide to narrow 2 : 1, as style for technical drawings has it; common practice here.
def test_wide_lines_are_twice_as_wide_as_narrow_ones():
    assert LINES["edge"].width == 2 * LINES["dimension"].width
    assert LINES["basted"].width == 2 * LINES["hidden"].width
    assert LINES["cut"].width == 2 * LINES["cut within"].width


def test_type_for_a_hall_is_larger():
    page, hall = TYPE["page"], TYPE["projector"]
    assert hall.text > 1.3 * page.text
    assert hall.small > 1.3 * page.small


def test_a_size_of_type_that_is_none_is_refused_with_those_that_are():
    with pytest.raises(HemError, match="'page', 'projector'"):
        type_size("huge")
