"""The smaller tables of data/: cloths, threads, needles and colours, held against hemcalc's."""

import colorsys
import csv
from decimal import Decimal

import pytest
from cases import for_each

from hemcalc.books.rows import DATA
from hemcalc.draw.look import BANDS, CLOTH_SIDES, INK
from hemcalc.measure.counts import Count
from hemcalc.yarn.needle import PEARL_COTTONS, TAPESTRY_NEEDLES, pearl_cotton, tapestry_needle


def table(name):
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def half_digit(figure):
    return float(Decimal(5).scaleb(Decimal(figure).as_tuple().exponent - 1))


@for_each("way", ["warp", "weft"])
@for_each("cloth", table("cloths"))
def test_the_two_counts_of_a_trade_cloth_are_the_same_count(cloth, way):
    to_the_inch, to_the_cm = cloth[f"{way}_per_inch"], cloth[f"{way}_per_cm"]
    # One of the two is the cloth's own; the other is given to half its last digit.
    if cloth["kind"] == "common practice":
        assert float(Count(f"{to_the_inch}/in").per_cm) == pytest.approx(
            float(to_the_cm), abs=half_digit(to_the_cm)
        )
    else:
        assert float(Count(f"{to_the_cm}/cm").per_inch) == pytest.approx(
            float(to_the_inch), abs=half_digit(to_the_inch)
        )


@for_each("row", table("threads"))
def test_a_pearl_cotton_is_the_range_of_its_row(row):
    assert pearl_cotton(int(row["number"])).tex == (int(row["tex_low"]), int(row["tex_high"]))


def test_every_pearl_cotton_with_a_figure_is_in_the_table():
    known = {thread.number for thread in PEARL_COTTONS if thread.tex}
    assert known == {int(row["number"]) for row in table("threads")}


@for_each("row", table("needles"))
def test_a_tapestry_needle_is_as_thick_as_its_row_says(row):
    assert tapestry_needle(int(row["size"])).diameter_mm == float(row["diameter_mm"])


def test_every_tapestry_needle_is_in_the_table():
    assert {needle.size for needle in TAPESTRY_NEEDLES} == {int(row["size"]) for row in table("needles")}


# Source of the formula: WCAG 2.2 relative luminance, W3C, 2023, definition.
def luminance(red, green, blue):
    def linear(part):
        return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4

    return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)


def contrast(one, other):
    lighter, darker = sorted((luminance(*one), luminance(*other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def rgb(code):
    return tuple(int(code[i : i + 2], 16) / 255 for i in (1, 3, 5))


@pytest.mark.parametrize("row", table("palette"), ids=lambda row: row["id"])
def test_the_contrast_of_a_colour_is_the_one_given(row):
    colour = tuple(int(row[part]) / 255 for part in ("red", "green", "blue"))
    assert contrast(colour, (1, 1, 1)) == pytest.approx(
        float(row["contrast_on_white"]), abs=half_digit(row["contrast_on_white"])
    )


LOOKS = {name: look.fill for name, look in (BANDS | CLOTH_SIDES).items()}


@for_each("fill", LOOKS.values())
def test_a_band_has_a_hue_of_the_palette_or_next_to_none(fill):
    hue = colorsys.rgb_to_hls(*rgb(fill))[0]
    hues = [
        colorsys.rgb_to_hls(*(int(row[part]) / 255 for part in ("red", "green", "blue")))[0]
        for row in table("palette")
    ]
    brightest, dullest = max(rgb(fill)), min(rgb(fill))
    assert brightest - dullest < 0.1 or min(abs(hue - other) for other in hues) < 8 / 360


# Source: 1.4.3 Contrast (Minimum), W3C via glossary, n.d., entry: 4.5 to 1 for text.
@for_each("fill", LOOKS.values())
def test_ink_can_be_read_on_every_band(fill):
    assert contrast(rgb(INK), rgb(fill)) >= 4.5
