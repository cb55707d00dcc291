"""The box that gives a page afresh."""

from pathlib import Path

from hemcalc.panels.button import AfreshBox, afresh_box

NAME = "03_folds_and_the_mitre.ipynb"


def test_it_offers_every_notebook_and_says_what_to_type_where_it_does_not_run() -> None:
    box = afresh_box()
    assert len(box.menu.options) == 12
    assert box.menu.options[3] == "03 folds and the mitre"
    assert "python3 -m hemcalc afresh 03" in box._repr_mimebundle_()["text/html"]


def test_it_gives_the_page_that_is_chosen_and_says_where_hers_is(tmp_path: Path) -> None:
    for folder, text in (("notebooks", "first"), ("my_pages", "hers")):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / NAME).write_text(text)
    box = AfreshBox(tmp_path)
    box.button.click()
    assert (tmp_path / "my_pages" / NAME).read_text() == "first"
    assert "Page 03 is as the original again; your old page is kept" in box.said
    assert box.said in box.beside.value
    box.button.click()
    assert box.said == "Page 03 is as the original."


def test_without_any_notebook_it_says_so(tmp_path: Path) -> None:
    box = AfreshBox(tmp_path)
    box.button.click()
    assert box.said.startswith("There is no page ''")
