"""A sheet is kept and drawn again, and leaves matplotlib's own settings alone."""

import base64
import html
import io
import re
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.lines import Line2D
from PIL import Image

from hemcalc.draw.look import TYPE
from hemcalc.draw.sheet import Sheet, Still, picture_html, png_of


def pixels(png):
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"))


def with_line(x):
    sheet = Sheet(2, 1)
    axes = sheet.axes((0, 0, 1, 1), (0, 10), (0, 10))
    axes.add_artist(Line2D([0, 10], [2, 2]))
    moving = Line2D([x, x], [0, 10], linewidth=3)
    axes.add_artist(moving)
    sheet.moving(axes, moving)
    return sheet, moving


def test_a_picture_is_png_of_the_sheets_size():
    picture = Image.open(io.BytesIO(Sheet(3, 2, dpi=50).png()))
    assert (picture.format, picture.size) == ("PNG", (150, 100))
    assert picture.info["dpi"] == pytest.approx((50, 50), abs=0.1)


@given(st.integers(1, 40), st.integers(1, 40), st.integers(0, 2**32 - 1), st.sampled_from((72, 100, 150)))
def test_a_png_holds_every_pixel_as_it_is(high, wide, seed, dpi):
    drawn = np.random.default_rng(seed).integers(0, 256, (high, wide, 4), np.uint8)
    picture = Image.open(io.BytesIO(png_of(drawn, dpi)))
    picture.load()  # reads every chunk, and refuses one whose sum is wrong
    assert (picture.format, picture.mode) == ("PNG", "RGBA")
    assert (np.asarray(picture) == drawn).all()
    assert picture.info["dpi"] == pytest.approx((dpi, dpi), abs=0.1)


def test_a_picture_follows_what_moved_and_leaves_no_trace_of_where_it_was():
    sheet, moving = with_line(2)
    before = pixels(sheet.png())
    moving.set_xdata([8, 8])
    after = pixels(sheet.png())
    assert (before != after).any()
    assert (after == pixels(with_line(8)[0].png())).all()
    moving.set_visible(False)
    assert (pixels(sheet.png())[:, 20:] == 255).sum() > (after[:, 20:] == 255).sum()


def test_what_never_changes_is_drawn_once():
    sheet, _ = with_line(2)
    sheet.png()
    still = sheet.figure.axes[0].lines[0]
    drawn = []
    still.draw = drawn.append
    sheet.png()
    assert not drawn


def test_another_size_of_type_is_taken_from_the_next_picture_on():
    sheet = Sheet(1, 1)
    sheet.set_type(TYPE["projector"])
    assert sheet.type is TYPE["projector"]


@given(
    st.tuples(*[st.floats(0.05, 0.4)] * 2, *[st.floats(0.2, 0.5)] * 2), st.floats(1, 500), st.floats(1, 500)
)
def test_to_scale_is_one_scale_both_ways_with_the_middle_kept(box, wide, high):
    axes = Sheet(6, 4).axes(box, (-1, wide), (-2, high), to_scale=True)
    (x0, y0), (x1, y1) = axes.transData.transform([(0, 0), (1, 1)])
    assert x1 - x0 == pytest.approx(y1 - y0)
    assert sum(axes.get_xlim()) == pytest.approx(wide - 1)
    assert sum(axes.get_ylim()) == pytest.approx(high - 2)
    assert axes.get_xlim()[0] <= -1 + 1e-9
    assert axes.get_ylim()[1] >= high - 1e-9


def test_a_point_is_a_72nd_of_an_inch():
    sheet = Sheet(6, 4, dpi=144)
    axes = sheet.axes((0.1, 0.2, 0.5, 0.6), (0, 7), (0, 90))
    x, y = sheet.points(axes)
    (left, bottom), (right, top) = axes.transData.transform([(0, 0), (x, y)])
    assert right - left == pytest.approx(2)
    assert top - bottom == pytest.approx(2)


def test_an_image_carries_its_picture_and_its_words():
    sheet = Sheet(3, 2, dpi=50)
    said = sheet.html('a "hem" of <16> threads & more')
    assert html.unescape(re.search(r'alt="([^"]*)"', said)[1]) == 'a "hem" of <16> threads & more'
    assert 'width="300"' in said
    assert base64.b64decode(re.search(r"base64,([^\"]+)", said)[1]) == sheet.png()


def test_a_still_shows_itself_with_its_words():
    sheet = Sheet(1, 1)
    still = Still(sheet, "A hem.")
    assert still._repr_html_() == picture_html(sheet.png(), "A hem.", 100)
    assert still.png() == sheet.png()
    assert repr(still) == "Still('A hem.')"


_DRAW_EVERYTHING = """
import sys
import matplotlib
# The backend is left alone: to read it would bring in pyplot.
names = [name for name in matplotlib.rcParams if name != "backend"]
before = {name: matplotlib.rcParams[name] for name in names}
from hemcalc import Count, Length, example, plan_corner, plan_edge, plan_section, rule_table
from hemcalc import draw
from hemcalc.panels import corner_panel, count_panel, margin_panel
from hemcalc.panels.settings import in_force
edge = plan_edge("28/in", "1/2 in", clear=6)
for size in ("page", "projector"):
    for still in (
        draw.draw_edge(edge, size=size),
        draw.draw_section(plan_section(edge, "0.4 mm"), size=size),
        draw.draw_corner(plan_corner(edge, edge), size=size),
        draw.draw_layers(plan_corner(edge, edge), size=size),
        draw.draw_rule(rule_table("28/in", range(1, 9), range(9)), size=size),
        draw.draw_counting(draw.Counted(Count.measured([28], over="1 in"), Length(100), "in"), size),
    ):
        still.png()
panels = margin_panel(), corner_panel(), count_panel()
in_force().choose("type", "projector")
changed = [name for name in names if matplotlib.rcParams[name] != before[name]]
print(changed, "matplotlib.pyplot" in sys.modules)
"""


def test_drawing_everything_changes_no_setting_and_needs_no_pyplot():
    run = subprocess.run(
        [sys.executable, "-c", _DRAW_EVERYTHING], capture_output=True, text=True, timeout=120, check=True
    )
    assert run.stdout.strip() == "[] False"
