"""Words laid down as kept pictures look like words that are set anew."""

import numpy as np
import pytest
from cases import for_each
from matplotlib.backends.backend_agg import FigureCanvasAgg, RendererAgg
from matplotlib.figure import Figure
from matplotlib.text import Text

from hemcalc.draw.lettering import Word, extent, lettering
from hemcalc.draw.look import INK


def drawn(kind, text, **how):
    figure = Figure(figsize=(3, 1), dpi=100)
    canvas = FigureCanvasAgg(figure)
    word = kind(150, 50, text, color=INK, **how)
    figure.add_artist(word)
    word.set_transform(None)
    canvas.draw()
    return 255 - np.asarray(canvas.buffer_rgba())[:, :, 0].astype(int)


def ink_box(picture):
    rows, columns = np.nonzero(picture > 60)
    return np.array([rows.min(), rows.max(), columns.min(), columns.max()])


@for_each("across", ["left", "center", "right"])
@for_each("up", ["bottom", "center", "top"])
@for_each("text", ["fold 1: after 26", "turn\n43–50"])
def test_a_word_stands_where_a_text_of_matplotlib_would(text, across, up):
    how = {"horizontalalignment": across, "verticalalignment": up, "fontsize": 13}
    ours, theirs = drawn(Word, text, **how), drawn(Text, text, **how)
    assert np.abs(ink_box(ours) - ink_box(theirs)).max() <= 4
    # The right way up, and with as much ink: moved by a little, the two all but cover each other.
    shifts = [(down, aside) for down in range(-3, 4) for aside in range(-3, 4)]
    alike = {
        way: max(np.minimum(np.roll(picture, shift, (0, 1)), theirs).sum() for shift in shifts)
        for way, picture in (("upright", ours), ("upside down", ours[::-1]), ("mirrored", ours[:, ::-1]))
    }
    assert alike["upright"] > 0.7 * theirs.sum()
    assert alike["upright"] > 1.3 * max(alike["upside down"], alike["mirrored"])
    assert ours.sum() == pytest.approx(theirs.sum(), rel=0.1)


@for_each("across", ["left", "center", "right"])
@for_each("up", ["bottom", "center", "top"])
def test_its_extent_is_where_its_ink_is(across, up):
    figure = Figure(figsize=(3, 1), dpi=100)
    canvas = FigureCanvasAgg(figure)
    word = Word(150, 50, "fold 1: after 26\njust so", transform=None, fontsize=11)
    word.set(horizontalalignment=across, verticalalignment=up)
    figure.add_artist(word)
    canvas.draw()
    box = word.get_window_extent()
    top, bottom, left, right = ink_box(255 - np.asarray(canvas.buffer_rgba())[:, :, 0].astype(int))
    assert box.x0 - 1 <= left <= box.x0 + 3
    assert box.x1 - 3 <= right <= box.x1 + 1
    assert 100 - box.y1 - 1 <= top <= 100 - box.y1 + 5
    assert 100 - box.y0 - 8 <= bottom <= 100 - box.y0 + 1


def test_a_word_is_set_once():
    assert lettering("needed", 9, False, "left", False, 100) is lettering(
        "needed", 9, False, "left", False, 100
    )


@for_each("dpi", [100, 150])
@for_each("text", ["cut", "layers of cloth\non the corner"])
def test_its_size_is_about_what_matplotlib_measures(text, dpi):
    figure = Figure(dpi=dpi)
    plain = Text(0, 0, text, fontsize=11.5)
    plain.set_figure(figure)
    box = plain.get_window_extent(RendererAgg(10, 10, dpi))
    wide, high = extent(text, 11.5, False, dpi)
    assert wide == pytest.approx(box.width, rel=0.06)
    assert high == pytest.approx(box.height, rel=0.25)
    assert lettering(text, 11.5, False, "left", True, dpi).shape == (high + 4, wide + 4, 4)


def test_on_paper_a_word_covers_what_it_stands_on():
    def middle(on_paper):
        figure = Figure(figsize=(1, 1), dpi=100, facecolor="#3f9f83")
        canvas = FigureCanvasAgg(figure)
        word = Word(0.5, 0.5, "I  I", horizontalalignment="center", verticalalignment="center", fontsize=20)
        word.on_paper = on_paper
        figure.add_artist(word)
        canvas.draw()
        return tuple(np.asarray(canvas.buffer_rgba())[50, 50, :3])

    assert middle(on_paper=True) == (255, 255, 255)
    assert middle(on_paper=False) == (63, 159, 131)
