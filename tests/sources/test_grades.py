"""The grade of each published row, proved: what is called computed could have come out otherwise.

A computed row disagrees as soon as its figure alone is changed, and as soon as any one of its
inputs is (where a range is printed, ours must move); and no input is the figure itself, which would
come out again whatever it was.
"""

import copy
import dataclasses
import functools
import re
from collections import defaultdict
from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each

from hemcalc.books import compare, headline, read_rows
from hemcalc.books.rows import COMMON_PRACTICE, DATA, GRADES, MEDIA
from hemcalc.measure import HemError, Length
from hemcalc.measure.units import MILLIMETRES

ROWS = read_rows()
BY_ID = {row.id: row for row in ROWS}
COMPUTED = [row for row in ROWS if row.grade == "computed"]
READ_BACK = [row for row in ROWS if row.grade == "read back"]
#: Lists of which an optimum needn't use every figure: each is one input.
WHOLE = ("sizes", "pieces")
NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


def inputs_of(value, path=()):
    """Each input of a row, with the way to it: a number, a text, or a list that counts as one."""
    if isinstance(value, dict | list) and not (path and path[-1] in WHOLE):
        for key, part in value.items() if isinstance(value, dict) else enumerate(value):
            yield from inputs_of(part, (*path, key))
    else:
        yield path, value


def others(number):
    """Other numbers, of the kind and about the size of this one; half of it first, the quickest to cut."""
    if not number:
        return [1, 0.1]
    half = number // 2 if isinstance(number, int) and number % 2 == 0 else number / 2
    return [half, number * 2, number + 1, number * 10]


def doubled(value):
    if isinstance(value, list):
        return [doubled(part) for part in value]
    if isinstance(value, str):
        return NUMBER.sub(lambda found: f"{int(found[0]) * 2}", value, count=1)
    return value and value * 2


def changed(row, path, value):
    """The row with this one input changed, in every way tried here."""
    if isinstance(value, list):
        values = [value[: len(value) // 2], doubled(value)]
    elif isinstance(value, str) and not NUMBER.search(value):
        # A word: any other that a row has in its place, or none.
        values = [*sorted(WORDS[row.function, path[0]] - {value}), None]
    elif isinstance(value, str):
        values = [
            value[: found.start()] + f"{other}" + value[found.end() :]
            for found in NUMBER.finditer(value)
            for other in others(int(found[0]) if found[0].isdigit() else Decimal(found[0]))
        ]
    else:
        values = others(value)
    for new in values:
        inputs = copy.deepcopy(dict(row.inputs))
        place = inputs
        for key in path[:-1]:
            place = place[key]
        place[path[-1]] = new
        if new is None:
            del place[path[-1]]
        yield new, dataclasses.replace(row, inputs=inputs)


WORDS = defaultdict(set)
for each in ROWS:
    for way, word in inputs_of(each.inputs):
        if isinstance(word, str) and not NUMBER.search(word):
            WORDS[each.function, way[0]].add(word)


@functools.cache
def unchanged(id):
    return compare(BY_ID[id])


def computed(row):
    """Row and ours together, or None if the inputs are refused."""
    try:
        return compare(row)
    except (HemError, TypeError):
        return None


def moves(before, after):
    """Whether a change makes a row disagree; where a range or the reason for a difference has room, move."""
    row = before.row
    return not after.agrees if row.agrees and row.expected is not None else after.ours != before.ours


def unheeded(row):
    """Inputs of which no change moves the row."""
    before = unchanged(row.id)
    return [
        path
        for path, value in inputs_of(row.inputs)
        if not any(
            moves(before, after) for _, other in changed(row, path, value) if (after := computed(other))
        )
    ]


def echoed(row):
    """Inputs that come out as they went in, before and after a change."""

    def figure(value):
        try:
            length = row.unit in MILLIMETRES and str(value).endswith(f" {row.unit}")
            number = Length(value).mm / MILLIMETRES[row.unit] if length else Fraction(value)
        except (HemError, TypeError, ValueError):
            return None
        return pytest.approx(float(number))

    def comes_out(value, compared):
        return compared is not None and float(compared.ours[0]) == figure(value)

    return [
        path
        for path, value in inputs_of(row.inputs)
        if comes_out(value, unchanged(row.id))
        and any(comes_out(new, computed(other)) for new, other in changed(row, path, value))
    ]


def test_no_computed_figure_can_be_changed_unseen():
    for row in COMPUTED:
        width = row.high - row.low if row.expected is None else 2 * row.tolerance
        step = width + Decimal(1).scaleb(-row.digits)
        before = unchanged(row.id)
        for other in (-step, step):
            figures = {
                name: figure + other
                for name in ("expected", "low", "high")
                if (figure := getattr(row, name)) is not None
            }
            after = dataclasses.replace(before, row=dataclasses.replace(row, **figures))
            assert not after.agrees if row.agrees else after.difference != before.difference, row.id


@pytest.mark.parametrize("row", COMPUTED, ids=lambda row: row.id)
def test_a_computed_row_hangs_on_each_of_its_inputs_and_is_none_of_them(row):
    assert row.inputs
    assert unheeded(row) == []
    assert echoed(row) == []


@for_each("row", READ_BACK)
def test_a_row_that_is_called_read_back_is(row):
    assert echoed(row)


# The proof, proved: rows of each lower grade that are called computed are found out.
@for_each("row", [*READ_BACK, *(row for row in ROWS if not row.inputs)])
def test_the_proof_finds_out_what_only_says_that_it_is_computed(row):
    assert not row.inputs or echoed(row) or unheeded(row)


def test_an_input_on_which_nothing_hangs_is_found():
    line = BY_ID["H005"]
    assert unheeded(dataclasses.replace(line, inputs={**line.inputs, "clear": 7})) == [("clear",)]


def test_custom_is_graded_practice_and_nothing_else_is():
    for row in ROWS:
        custom = row.kind == COMMON_PRACTICE
        assert (row.grade == GRADES[3]) == (row.source.medium == MEDIA[-1]) == custom


# The figures of common practice that belong together, checked in test_rows.py as every row is. They are
# custom, without a published source, and no example of ours.
def test_one_set_of_common_practice_stands_in_three_rows_and_no_more():
    together = [row for row in ROWS if "32/in" in str(row.inputs)]
    assert [row.id for row in together] == ["CP-first", "CP-cut", "CP-margin-rule"]
    assert {row.grade for row in together} == {"practice"}


# One standard in two copies, or one title with two authors, would count a source twice.
def test_each_source_is_counted_once():
    said = {(row.source.title, row.source.author, row.source.medium) for row in ROWS}
    assert len(said) == len({row.source.title for row in ROWS})
    numbered = [re.findall(r"\b[A-Z]{2,} ?[0-9]{2,}[0-9-]*", title) for title, _, _ in said]
    standards = [number for numbers in numbered for number in numbers]
    assert len(standards) == len(set(standards))


def test_the_headline_counts_computed_figures_of_published_sources_alone():
    compared = [unchanged(row.id) for row in ROWS]
    counted = [c for c in compared if c.row.grade == "computed" and c.row.kind.endswith("printed")]
    assert headline(compared).startswith(f"{len(counted)} figures computed from others of ")
    assert headline(counted).endswith("not counted: none.")
    readme = " ".join((DATA.parent / "README.md").read_text("utf-8").split())
    assert headline(compared).splitlines()[0] in readme
