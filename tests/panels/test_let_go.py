"""What an earlier run of a cell showed is let go: three runs keep as much as one."""

import gc
import sys
from functools import partial

import pytest
from ipywidgets.widgets import widget as every_widget
from matplotlib.figure import Figure

from hemcalc import panels, plan_edge
from hemcalc.draw import draw_edge
from hemcalc.draw.lettering import lettering
from hemcalc.panels import margin_panel
from hemcalc.panels.settings import in_force

#: One of each kind that a notebook shows as a widget.
MADE = (
    *(panels.afresh_box, panels.guess_box, panels.her_slip_panel),
    *(panels.margin_panel, panels.my_class, panels.my_piece, panels.practice_panel),
    *(
        partial(panels.check_box, "the uneven groups"),
        partial(panels.do_button, "Add them", sum, [7, 2]),
    ),
    *(partial(panels.guess_box().beside, 14), partial(panels.side_by_side, panels.count_panel)),
)


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


def test_two_runs_keep_as_many_figures_and_widgets_as_one(run):
    out, edge = [], plan_edge("28/in", "1/2 in", clear=6)  # as IPython keeps every result
    counts = []
    for _ in range(2):
        for cell, make in enumerate(MADE):
            out += run(f"cell {cell}", make())
        out += run("stills", draw_edge(edge), draw_edge(edge))
        counts.append(kept())
    assert counts[0] == counts[1]
    in_force().choose("unit", "cm")  # which those that were let go don't follow any more
    in_force().choose("unit", "as the example has it")
    assert all(each._repr_mimebundle_()["text/plain"] for each in out[: len(MADE)])


def test_what_another_cell_shows_too_is_not_let_go(run):
    guess = panels.guess_box()
    run("one", guess)
    run("other", guess)
    run("one", panels.guess_box())
    assert not guess.closed
    beside = guess.beside(14)
    run("other", panels.guess_box())
    assert guess.closed
    assert beside.text() == "No guess was committed; it is 14."


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
    boxes = [panels.guess_box(), panels.guess_box()]
    for box in boxes:
        box._repr_mimebundle_()
    assert not any(box.closed for box in boxes)


def test_pictures_of_words_are_kept_up_to_a_number():
    for number in range(600):
        lettering(f"left to darn with: {number} pitches", 11.5, False, "left", True, 100)
    assert lettering.cache_info().currsize <= 512
    word = lettering("Each 50 cm sews 37 cm: 5 to 6 lengths of this thread.", 13, True, "left", True, 100)
    assert 512 * word.nbytes < 64 * 2**20
