"""What an earlier run of a cell showed is let go: three runs keep as much as one."""

import gc
import sys

import pytest
from ipywidgets.widgets import widget as every_widget
from matplotlib.figure import Figure

from hemcalc import plan_edge
from hemcalc.draw import draw_edge
from hemcalc.draw.lettering import lettering
from hemcalc.panels import corner_panel, margin_panel


@pytest.fixture
def run(monkeypatch):
    """Runs a function as a cell of a notebook does, and shows what it gives, as IPython does."""
    runs = iter(range(1000))
    asked = {}

    class Shell:
        def get_parent(self):
            return asked

    monkeypatch.setattr(sys.modules["IPython"], "get_ipython", Shell, raising=False)

    def run_cell(cell, *made):
        asked.update(metadata={"cellId": cell}, header={"msg_id": str(next(runs))})
        for each in made:
            (each._repr_mimebundle_ if hasattr(each, "_repr_mimebundle_") else each._repr_html_)()
        return made

    return run_cell


def kept():
    gc.collect()
    return sum(isinstance(each, Figure) for each in gc.get_objects()), len(every_widget._instances)


def test_three_runs_keep_as_many_figures_and_widgets_as_one(run):
    out, edge = [], plan_edge("28/in", "1/2 in", clear=6)  # as IPython keeps every result
    counts = set()
    gc.collect()
    gc.freeze()  # what other tests have left need not be looked through
    for _ in range(3):
        out += run("panel", margin_panel())
        out += run("other panel", corner_panel())
        out += run("stills", draw_edge(edge), draw_edge(edge))
        counts.add(kept())
    assert len(counts) == 1, counts


def test_a_cell_that_shows_two_keeps_both_until_it_is_run_again(run):
    one, other = run("two", margin_panel(), margin_panel())
    assert {"clear"} <= set(one.controls) & set(other.controls)
    assert one.result == other.result
    words = one.view.alt(one.result)
    run("two", other)
    assert other.controls["clear"].value == 7
    assert one._repr_mimebundle_() == {"text/plain": words}


def test_a_still_that_was_let_go_can_be_shown_again(run):
    (still,) = run("still", draw_edge(plan_edge("28/in", "1/2 in", clear=6)))
    before = still._repr_html_()
    run("still", draw_edge(plan_edge("28/in", "3/8 in", clear=6)))
    assert not hasattr(still, "sheet")
    assert still._repr_html_() == before


def test_outside_a_notebook_nothing_is_let_go():
    panels = [margin_panel(), margin_panel()]
    for panel in panels:
        panel._repr_mimebundle_()
    assert all(panel.controls for panel in panels)


def test_pictures_of_words_are_kept_up_to_a_number():
    for number in range(600):
        lettering(f"left to darn with: {number} pitches", 11.5, False, "left", True, 100)
    assert lettering.cache_info().currsize <= 512
    word = lettering("Each 50 cm sews 37 cm: 5 to 6 lengths of this thread.", 13, True, "left", True, 100)
    assert 512 * word.nbytes < 64 * 2**20
