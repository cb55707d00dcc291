"""One test for each published figure in data/published.csv, and what they must cover together.

A row that hemcalc contradicts says so and why; a test holds it to that. Nothing is skipped.
"""

import csv
import dataclasses
import functools
import importlib
import inspect
import re
import sys
from collections import Counter
from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each

from hemcalc.books.comparing import compare, headline
from hemcalc.books.rows import COMMON_PRACTICE, DATA, read_rows
from hemcalc.books.sums import SUMS
from hemcalc.measure.errors import HemError

ROWS = read_rows()
BY_ID = {row.id: row for row in ROWS}

#: Public functions of the core, or whole modules, on which no published figure bears, with the reason.
NO_FIGURE = {
    "workshop.linen": "names, widths and allowances of the leader's own",
    "workshop.bag": "lengths of the piece's own lines, and how many stitches fit them, derived in its tests",
    "workshop.kit": "counts and shrinkages exchanged; needles and pins counted, in the tests of kits and key",
    "corner.basting": "geometry of folding, derived in its tests",
    "corner.plies": "geometry of folding, derived in its tests and by shapely",
    "corner.polygon": "plane geometry, held against shapely",
    "weave.crossings": "the weave proves itself: every crossing is in the phase of the cloth",
    "weave.darning": "common practice of counted work, proved on the crossings",
    "weave.open_lines": "common practice of counted work, proved on the crossings",
    "weave.weave": "common practice of counted work, proved on the crossings",
    "weave.steps": "words and steps of the same",
    "weave.ways": "three ways of the books, which give no figures",
    "measure.readings.standard_uncertainty": "statistics of two half-thread ends, derived in its test",
    "measure.html": "words",
    "measure.lengths.in_unit": "words",
    "measure.errors.all_of": "a check of types",
    "measure.words": "words",
    "measure.cautions": "words",
    "stitch.spacing.piece_spacings": "the spacing of each side, from spacing",
    "stitch.spacing.reason_against": "words, from spacing",
    "course": "the sums of the notebooks, each by hand beside ours, in its tests",
    "finish": "words, from what the piece computes",
    "stitch.suggestions": "words, from spacing and suggest",
    "yarn.gap": "a ratio that no source was found for",
    "yarn.needle.pearl_cotton": "from memory only: data/threads.csv, in test_tables.py",
    "yarn.needle.tapestry_needle": "from memory only: data/needles.csv, in test_tables.py",
    "piece.examples": "invented pieces",
    "piece.sizes.size_text": "words",
    "measure.files": "reads and writes files",
    "piece.kept": "keeps a piece, and computes nothing",
    "piece.form": "keeps a piece, and computes nothing",
    "piece.typed": "reads and writes what is typed, and computes nothing",
    "workshop.cutting": "cut_from_bolt for each linen",
    "workshop.example": "an invented class, cupboard and shops",
    "bolt.allowances.usual_allowances": "a choice of ours, said as one",
    "workshop.rests": "have_from_remnant and cut_from_bolt for one linen",
    "workshop.offers": "cut_from_bolt for each offer, at the leader's own prices",
    "workshop.goods": "names and words",
    "workshop.timetable": "minutes from memory, no source was found",
    "bolt.lay": "stages of cut_from_bolt and have_from_remnant, whose results the rows hold",
    "workshop.money": "decimal sums of the leader's own prices",
    "workshop.spreadsheet": "rows of what a kit and a workshop say",
    "workshop.class_file": "keeps a class, and computes nothing but the leader's own prices",
    "workshop.class_read": "keeps a class, and computes nothing but the leader's own prices",
    "workshop.class_table": "keeps a class, and computes nothing",
    "stitch.path.ladder_stitch": "geometry; no source was found",
}


@functools.cache
def compared_with_ours(id):
    return compare(BY_ID[id])


@for_each("row", ROWS)
def test_ours_is_the_printed_figure_or_differs_as_the_row_explains(row):
    compared = compared_with_ours(row.id)
    assert compared.agrees == row.agrees, (
        f"{row.quantity}: printed {row.text()}, ours {compared.text()}, "
        f"difference {compared.difference_text}; "
        f"{row.source}"
    )


@for_each("row", [row for row in ROWS if not row.agrees])
def test_a_row_that_hemcalc_contradicts_explains_itself(row):
    assert len(row.note) > 40
    assert compare(row).difference != 0


def test_a_summary_says_how_many_computed_rows_of_how_many_sources_agree(capsys):
    with capsys.disabled():
        print(f"\n{headline(compared_with_ours(row.id) for row in ROWS)}")


# The aims of the collection.
def test_sixty_figures_are_computed_and_published_in_fifteen_sources():
    published = [row for row in ROWS if row.published and row.grade == "computed"]
    assert len(published) >= 60
    assert len({row.source.title for row in published}) >= 15


def test_no_more_than_a_fifth_are_unit_and_yarn_factors():
    factors = [row for row in ROWS if row.topic in ("units", "yarn number")]
    assert len(factors) <= len(ROWS) / 5


def test_no_row_skips_and_none_says_the_same_as_another():
    said = Counter((r.source, r.function, str(r.inputs), r.text()) for r in ROWS)
    assert [key for key, times in said.items() if times > 1] == []


def test_each_tolerance_is_half_the_last_digit_or_the_note_says_why_not():
    for row in ROWS:
        if row.expected is None:
            assert row.tolerance is None, row.id
            assert row.low is not None
            assert row.high is not None
            assert row.low <= row.high, row.id
            continue
        half = Decimal(5).scaleb(row.expected.as_tuple().exponent - 1)
        assert row.low is None
        assert row.high is None
        assert row.tolerance in (0, half) or (
            half < row.tolerance <= 10 * half and "half" in row.note and "digit" in row.note
        ), row.id


def test_each_row_says_where_it_is_from_and_gives_no_web_address():
    for row in ROWS:
        every = [value for value in dataclasses.astuple(row.source) if value.strip()]
        assert len(every) == 5, row.id
        text = " ".join([*every, row.note, row.quantity])
        assert not re.search(r"https?:|www\.|\.(com|org|net)\b", text), row.id
        assert (row.kind == COMMON_PRACTICE) == (row.source.author == "no published source"), row.id


def test_rows_from_memory_are_never_the_only_support():
    by_function = Counter(row.function for row in ROWS if row.kind != "from memory")
    alone = {row.function for row in ROWS if row.kind == "from memory" and not by_function[row.function]}
    # No source was found for how hard to pull: the function says so in its docstring.
    assert alone == {"straightening_tension_cn"}
    from hemcalc.yarn.cloth import straightening_tension_cn

    assert "from memory" in straightening_tension_cn.__doc__


#: Packages that compute nothing on which a figure could bear: they show, print, start, ask or judge.
OTHER_PACKAGES = {"draw", "paper", "panels", "launch", "environment", "books", "send", "sums"}


def public_things():
    """Every public name of the core's modules, by module and name."""
    folder = DATA.parent / "hemcalc"
    for path in sorted(folder.rglob("*.py")):
        within = ".".join(path.relative_to(folder).with_suffix("").parts)
        if within.split(".")[0] in OTHER_PACKAGES or path.stem.startswith("__"):
            continue
        module = importlib.import_module(f"hemcalc.{within}")
        for name, thing in vars(module).items():
            made = inspect.isclass(thing) or inspect.isfunction(thing)
            if not name.startswith("_") and (not made or thing.__module__ == module.__name__):
                yield within, name, thing


def test_every_function_that_computes_ours_is_named_by_a_public_thing():
    names = {name: thing for _, name, thing in public_things()}
    for key in SUMS:
        first, _, attribute = key.split()[0].partition(".")
        assert first in names, key
        if attribute:
            assert attribute in dir(names[first]) or attribute in {
                f.name for f in dataclasses.fields(names[first])
            }, key


def test_every_sum_is_used_by_a_row():
    assert {row.function for row in ROWS} == set(SUMS)


def called_by_the_rows() -> set[tuple[str, str]]:
    """Module and name of every function of hemcalc that runs when the rows are computed."""
    seen = set()

    def watch(frame, event, _):
        if event == "call" and (name := frame.f_globals.get("__name__", "")).startswith("hemcalc."):
            seen.add((name.removeprefix("hemcalc."), frame.f_code.co_qualname))

    for name, module in [*sys.modules.items()]:
        if name.startswith("hemcalc.") and name.split(".")[1] not in OTHER_PACKAGES:
            for thing in vars(module).values():
                if hasattr(thing, "cache_clear"):  # what is kept is not run again
                    thing.cache_clear()
    before = sys.getprofile()
    sys.setprofile(watch)
    try:
        for row in ROWS:
            if row.id != "CS-15" and not row.id.endswith("-limits"):  # They cut as CS-02 does, for long.
                compare(row)
    finally:
        sys.setprofile(before)
    return seen


def parents(name: str) -> list[str]:
    """The module and packages that a name stands in, innermost first."""
    parts = name.split(".")
    return [".".join(parts[:end]) for end in range(len(parts) - 1, 0, -1)]


def test_every_public_function_of_the_core_is_touched_or_named_with_its_reason():
    touched = called_by_the_rows()
    functions = {f"{module}.{name}" for module, name, thing in public_things() if inspect.isfunction(thing)}
    missed = {name for name in functions if tuple(name.rsplit(".", 1)) not in touched}
    given = {name: next((key for key in (name, *parents(name)) if key in NO_FIGURE), None) for name in missed}
    bare = sorted(name for name, reason in given.items() if reason is None)
    assert bare == [], "give these a row, or a reason in NO_FIGURE"
    assert set(NO_FIGURE) == set(given.values()), "what is touched now comes off the list"


# The reading and comparing itself.
def test_without_the_checkout_one_sentence_says_what_to_do(tmp_path):
    with pytest.raises(HemError, match="install hemcalc from its checkout"):
        read_rows(tmp_path)


@pytest.mark.parametrize(
    ("column", "now"),
    [("expected", "two"), ("kind", "overheard"), ("inputs", "{"), ("tolerance", "1/2")],
)
def test_a_row_that_cannot_be_read_is_named(tmp_path, column, now):
    with (DATA / "published.csv").open(encoding="utf-8", newline="") as lines:
        first = next(csv.DictReader(lines))
    with (tmp_path / "published.csv").open("w", encoding="utf-8", newline="") as lines:
        broken = csv.DictWriter(lines, list(first))
        broken.writeheader()
        broken.writerow(first | {column: now})
    with pytest.raises(HemError, match=f"row {first['id']} "):
        read_rows(tmp_path)


def test_a_row_that_names_nothing_known_is_refused():
    row = dataclasses.replace(BY_ID["H051"], function="Corner.weight")
    with pytest.raises(HemError, match=r"H051 names 'Corner\.weight'"):
        compare(row)


def test_a_length_is_refused_in_a_unit_that_is_none():
    with pytest.raises(HemError, match="H051 is in threads, but ours is a length"):
        compare(dataclasses.replace(BY_ID["H051"], unit="threads"))


def at(ours, expected=None, low=None, high=None, tolerance="0"):
    row = dataclasses.replace(
        BY_ID["H051"],
        function="ours",
        inputs={},
        unit="threads",
        expected=expected and Decimal(expected),
        low=low and Decimal(low),
        high=high and Decimal(high),
        tolerance=Decimal(tolerance),
    )
    return compare(row, {"ours": lambda: ours})


@for_each(
    ("compared", "difference", "agrees"),
    [
        (at(41, "40"), 1, False),
        (at(40, "40"), 0, True),
        (at(39.95, "40.0", tolerance="0.05"), Fraction(-1, 20), True),
        (at(39.9499, "40.0", tolerance="0.05"), None, False),
        (at(5, low="3", high="4"), 1, False),
        (at(3, low="3", high="4"), 0, True),
        (at(2, low="3", high="4"), -1, False),
        (at((2, 10), low="3", high="4"), 0, True),
        (at((2, 10), "11"), -1, False),
        (at((2, 10), low="1", high="4"), 1, False),
        (at((2, 10), low="5", high="12"), -2, False),
    ],
)
def test_figures_and_ranges_are_compared_as_they_say(compared, difference, agrees):
    assert compared.agrees is agrees
    if difference is not None:
        assert float(compared.difference) == pytest.approx(float(difference))


def test_ours_is_shown_with_a_digit_more_and_a_sign_where_that_rounds_it():
    assert compare(BY_ID["H051"]).text() == "≈ 2.1464 in"
    assert compare(BY_ID["H003"]).text() == "1.25 in"
    assert compare(BY_ID["H003"]).difference_text == "none"
    assert compare(BY_ID["YD-10"]).difference_text == "+0.137"
    assert compare(BY_ID["CP-slack"]).text() == "-5 threads"
