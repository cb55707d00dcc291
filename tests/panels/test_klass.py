"""My class: tables that are filled in, what is wrong in them, a layout that can be stopped, a folder."""

import threading
import time
from pathlib import Path

import pytest

from hemcalc import HemError
from hemcalc.panels import my_class
from hemcalc.panels.klass import MY_FILE, MyClass
from hemcalc.panels.search import Search
from hemcalc.workshop import cut_for_class, example_workshop, read_class
from hemcalc.workshop.class_table import Line, Tables


@pytest.fixture(autouse=True)
def a_folder_of_its_own(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    MyClass.typed = None
    yield
    MyClass.typed = None


@pytest.fixture
def form():
    return my_class()


def put(form, table, row, **cells):
    for name, text in cells.items():
        form.tables[table].rows[row - 1][name.replace("_", " ")].value = text


def hers(form):
    """A leader begins her own: six learners, three linens, one raw and one in cm, her prices in groats."""
    form.begin()
    put(form, "class", 1, **{"class": "Six at the Mill", "currency": "groats", "ruler": "cm"})
    linens = form.tables["linen"]
    put(form, "linen", 1, linen="white", count_across="28/in", width="140 cm", sold_by="metre", price="31,00")
    linens.add()
    put(form, "linen", 2, linen="raw", count_across="27/in", counted="raw", wash="before cutting", price="")
    put(form, "linen", 2, length_loses="8 %", width_loses="3 %", sold_by="10 cm")
    put(form, "linen", 2, price="29.00 per metre")
    linens.add()
    put(form, "linen", 3, linen="metric", count_across="11/cm", counted="washed", wash="", length_loses="")
    put(form, "linen", 3, width_loses="", price="2.90")
    put(form, "piece", 1, piece="mat", design_across="120", design_down="100", hem="1 cm", clear="6")
    learners = form.tables["learner"]
    put(form, "learner", 1, learner="Ada", piece="mat", linen="white")  # whose goods are given
    for n, (name, linen) in enumerate(
        [("Bea", "white"), ("Cora", "raw"), ("Dora", "raw"), ("Edda", "metric"), ("Flora", "metric")]
    ):
        learners.add()
        put(form, "learner", n + 2, learner=name, linen=linen, hand="left" if n < 2 else "right")


def wait(form):
    form.search.wait(600)
    assert not form.search.is_on


def test_it_begins_with_the_invented_class(form):
    assert form.workshop == example_workshop()
    assert form.problems == []
    assert "invented" in form.said.text


def test_a_leader_enters_a_class_of_her_own(form):
    hers(form)
    assert form.problems == []
    shop = form.workshop
    assert shop.learners == ("Ada", "Bea", "Cora", "Dora", "Edda", "Flora")
    assert [kit.hand for kit in shop.kits].count("left") == 2
    assert [str(linen.goods.price) for linen in shop.linens] == ["31.00", "2.90", "2.90"]
    assert shop.linens[1].wash == "before cutting"
    form.lay_out()
    wait(form)
    expected = shop.with_lengths(cut_for_class(shop))
    assert expected.cost_text in form.told.text
    assert "groats" in form.told.text
    for linen in shop.linens:
        assert f"<h4>{linen.name}</h4>" in form.result.value
    assert form.result.value.count('<img alt="') == 3
    assert not form.start.disabled
    assert form.stop_button.disabled
    put(form, "learner", 1, piece="rug")
    assert form.problems == ["row 1, column piece: 'rug' is none of the pieces; for example one of 'mat'."]
    assert form.workshop is None
    form.lay_out()
    assert form.told.wrong
    form.begin()
    assert (form.cutting, form.result.value) == (None, ""), (
        "what was bought for another class is not for this"
    )


def test_what_is_wrong_is_said_below_its_table_and_marked_in_its_cell(form):
    put(form, "linen", 2, width="wide", price="cheap")
    put(form, "learner", 3, group="nine")
    assert [line.split(":")[0] for line in form.problems] == [
        "row 2, column width",
        "row 2, column price",
        "row 3, column group",
    ]
    marked = [
        (t, n)
        for t, table in form.tables.items()
        for row in table.rows
        for n, box in row.items()
        if "hemcalc-bad-cell" in box._dom_classes
    ]
    assert marked == [("linen", "width"), ("linen", "price"), ("learner", "group")]
    assert "3 cells" in form.status.text
    put(form, "linen", 2, width="140 cm", price="3.60")
    put(form, "learner", 3, group="4")
    assert form.problems == []
    assert form.workshop == example_workshop()


def test_rows_are_added_like_the_last_and_taken_out(form):
    learners = form.tables["learner"]
    learners.add()
    assert form.problems[0].startswith("row 15, column learner: is empty")
    put(form, "learner", 15, learner="Spare 3")
    assert len(form.workshop.spares) == 3
    learners.take_out(15)
    assert form.workshop == example_workshop()


def test_what_is_kept_opens_as_it_was_and_nothing_is_written_over_unasked(form, tmp_path):
    hers(form)
    shop = form.workshop
    form.keep()
    path = tmp_path / MY_FILE
    assert form.said.text == f"Kept in {path}."
    assert read_class(path) == shop
    form.write_template()
    assert form.said.wrong
    assert "tick “write over it”" in form.said.text
    assert read_class(path) == shop
    form.separator.value = "semicolon (4,20)"
    form.replace.value = True
    form.keep()
    assert ";31,00" in path.read_text("utf-8-sig")
    MyClass.typed = None  # as in another kernel
    again = my_class()
    assert again.workshop == shop, "it is opened where it lies"
    form.file.value = "template.csv"
    form.write_template()
    form.open()
    assert form.workshop == example_workshop()
    assert my_class().workshop == example_workshop(), "running the cell again loses nothing"


def test_a_file_with_mistakes_opens_with_them_said(form):
    text = Tables({t: f.lines for t, f in form.tables.items()}).text()
    Path("bad.csv").write_text(
        text.replace("140 cm", "wide", 1).replace("linen,count", "linen,colour,count"), "utf-8"
    )
    form.file.value = "bad.csv"
    form.open()
    assert "In the file, row 4, column 2: 'colour'" in form.said.text
    assert form.problems
    Path("bad.csv").write_text(text[text.index("linen,count") :], "utf-8")
    form.open()
    put(form, "class", 1, **{"class": "Six at the Mill"})  # it has a row to be filled in
    assert form.problems == []
    for name in ("nowhere.csv", "", "empty.csv"):
        Path("empty.csv").write_text("\n", "utf-8")
        form.file.value = name
        form.open()
        assert form.said.wrong


def test_the_folder_has_a_file_for_the_class_and_one_for_each_learner(form, tmp_path):
    hers(form)
    form.tables["learner"].rows = form.tables["learner"].rows[:2]
    form.tables["learner"].take_out(2)
    form.folder.value = "the mill"
    form.print()
    assert str(tmp_path / "the mill") in form.printed.text
    assert {path.name for path in (tmp_path / "the mill").iterdir()} == {"whole_class.pdf", "kit_01_Ada.pdf"}
    form.print()
    assert form.printed.wrong
    assert "tick “write over it”" in form.printed.text


def test_a_long_search_tells_how_far_it_is_and_stops_at_once_with_the_best_so_far(form):
    put(form, "class", 1, ruler="mm")
    learners = form.tables["learner"]
    learners.fill([Line(n, line.cells) for n, line in enumerate(learners.lines * 3, 1)])
    for row in range(1, len(learners.rows) + 1):  # six sizes of one linen
        put(form, "learner", row, linen="linen for bread cloths")
    put(form, "linen", 1, width="97.3 cm")
    assert form.problems == []
    form.effort.value = "50 times as long"
    form.turn.value = True
    form.lay_out()
    deadline = time.monotonic() + 30
    while "So far" not in form.told.text and form.search.is_on and time.monotonic() < deadline:
        time.sleep(0.01)
    began = time.process_time()  # of this process: what else the machine does is no matter
    form.stop()
    wait(form)
    assert "stopped by hand" in form.told.text
    assert form.cutting["linen for bread cloths"].counts["bread cloth"] == 3 * 4
    assert time.process_time() - began < 20, "the stages that were left would have taken a minute"


def test_a_search_that_hears_nothing_is_stopped_in_the_middle_of_a_stage():
    came, at_work = [], threading.Event()
    tries = []

    def work(tell):
        tries.append(1)
        try:
            if len(tries) == 1:
                at_work.set()
                while True:
                    pass
            tell("again")
        except KeyboardInterrupt:
            if len(tries) == 1:
                raise  # as where there is no layout yet
        return "the best so far"

    search = Search(work, lambda sentence: None, came.append)
    at_work.wait(10)
    search.stop()
    search.stop()
    search.wait(10)
    assert (search.is_on, came, len(tries)) == (False, ["the best so far"], 2)


def test_what_is_refused_is_handed_over_as_it_is():
    came = []

    def work(tell):
        raise HemError("no linen.")

    Search(work, lambda sentence: None, came.append).wait(10)
    assert str(came[0]) == "no linen."
