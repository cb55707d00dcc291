"""Errors: one kind, one sentence, short, and nothing else ever comes out of a public call."""

import inspect
import math
import operator
import pickle
import re
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, partial
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.edge.ledger import plan_edge
from hemcalc.edge.margin import MarginRule
from hemcalc.measure.counts import Count, MeasuredCount, as_count
from hemcalc.measure.errors import HemError, one_of, parts_of, shown
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length, as_length


class Hostile:
    """Fails whatever is asked of it."""

    def _fail(self, *_: object) -> None:
        raise RuntimeError("asked of a hostile object")

    __repr__ = __str__ = __format__ = __bool__ = __len__ = __iter__ = _fail
    __int__ = __float__ = __index__ = _fail


class LyingWhole(int):
    """A whole number that won't be printed."""

    def __repr__(self) -> str:
        raise RuntimeError("asked of a hostile object")

    __str__ = __repr__


NAMELESS = type("", (), {})()
LONG_NAME = type("Long" * 200, (), {})()


# The error itself


def test_an_error_is_a_value_error_that_knows_its_input():
    error = HemError("The hem must be 1 thread or more; for example 16.", about="hem")
    assert isinstance(error, ValueError)
    assert (str(error), error.about) == ("The hem must be 1 thread or more; for example 16.", "hem")
    assert HemError("It is wrong.").about == ""


def test_an_error_survives_pickling_with_the_name_of_its_input():
    error = pickle.loads(pickle.dumps(HemError("The hem is wrong.", about="hem")))
    assert (str(error), error.about) == ("The hem is wrong.", "hem")


@pytest.mark.parametrize(
    ("value", "words"),
    [
        pytest.param("3/8", "'3/8'", id="text"),
        pytest.param('3/8"', "'3/8\"'", id="text with an inch sign"),
        pytest.param("5'", '"5\'"', id="text with a foot sign"),
        pytest.param("5' 3\"", "'5' 3\"'", id="text with both signs"),
        pytest.param("a\nb\tc", "'a b c'", id="text of several lines"),
        pytest.param("a\x00b\u202ec", "'a\N{REPLACEMENT CHARACTER}b\N{REPLACEMENT CHARACTER}c'", id="unseen"),
        pytest.param("\ud800", "'\N{REPLACEMENT CHARACTER}'", id="half a surrogate"),
        pytest.param("x" * 40, "'" + "x" * 40 + "'", id="text that just fits"),
        pytest.param("x" * 41, "'" + "x" * 39 + "…'", id="text that does not"),
        pytest.param("\x00" * 500, "'" + "\N{REPLACEMENT CHARACTER}" * 39 + "…'", id="long unseen text"),
        pytest.param(None, "None", id="None"),
        pytest.param(True, "True", id="True"),
        pytest.param(8.5, "8.5", id="float"),
        pytest.param(math.nan, "nan", id="nan"),
        pytest.param(-math.inf, "-inf", id="minus infinity"),
        pytest.param(8, "8", id="int"),
        pytest.param(LyingWhole(8), "8", id="int that won't print"),
        pytest.param(10**15 - 1, "999999999999999", id="15 digits"),
        pytest.param(10**15, "a number of about 16 digits", id="16 digits"),
        pytest.param(-(10**5000), "a negative number of about 5001 digits", id="huge negative int"),
        pytest.param(Fraction(3, 8), "3/8", id="fraction"),
        pytest.param(Fraction(8), "8", id="whole fraction"),
        pytest.param(Fraction(1, 10**5000), "a fraction of about 5001 digits", id="fine fraction"),
        pytest.param(
            Fraction(-(10**5000), 3), "a negative fraction of about 5001 digits", id="huge fraction"
        ),
        pytest.param(Decimal("9.5"), "9.5", id="decimal"),
        pytest.param(Decimal("1." + "3" * 99), "1." + "3" * 37 + "…", id="long decimal"),
        pytest.param([1, 2], "a list", id="list"),
        pytest.param({}, "a dict", id="dict"),
        pytest.param(object(), "an object", id="object"),
        pytest.param(b"3/8", "a bytes object", id="bytes"),
        pytest.param(Hostile(), "a Hostile", id="hostile"),
        pytest.param(NAMELESS, "a nameless object", id="nameless"),
        pytest.param(LONG_NAME, "a " + "Long" * 10, id="long name"),
    ],
)
def test_a_value_is_quoted_so_that_a_sentence_stays_short_and_on_one_line(value, words):
    assert shown(value) == words


@given(st.one_of(st.text(), st.integers(), st.floats(), st.decimals(), st.fractions(), st.binary()))
def test_a_quoted_value_is_never_longer_than_a_line(value):
    assert len(shown(value)) <= 42 + len("negative")
    assert shown(value).isprintable()


def test_one_of_gives_the_word_back():
    assert one_of("cm", ("in", "cm", "mm"), "unit") == "cm"


@pytest.mark.parametrize("value", ["CM", "", None, 3, ["cm"], Hostile()], ids=lambda v: type(v).__name__)
def test_one_of_names_the_words_that_it_takes(value):
    with pytest.raises(HemError) as caught:
        one_of(value, ("in", "cm", "mm"), "unit")
    assert str(caught.value) == (
        f"unit is {shown(value)}, but must be one of 'in', 'cm', 'mm'; for example 'in'."
    )
    assert caught.value.about == "unit"


@pytest.mark.parametrize("value", [224, "22", (1,), (1, 2, 3), {1, 2}, None])
def test_a_pair_that_is_none_is_refused_by_its_name(value):
    with pytest.raises(HemError, match="but must be two whole numbers, across and down; for example") as no:
        parts_of(value, "design", 2, "two whole numbers, across and down", (224, 168))
    assert no.value.about == "design"


# Every public entry

LENGTH = Length.parse("3/8 in")
CLOTH = Count.parse("28/in")
MEASURED = Count.measured([28, 29], over="1 in")
FABRIC = Fabric("28/in", shrink_warp="8 %")
EDGE = plan_edge("28/in", 11, clear=8)

ENTRIES = {
    "Length(x)": Length,
    "Length.parse(x)": Length.parse,
    "length + x": lambda x: LENGTH + x,
    "x + length": lambda x: x + LENGTH,
    "length - x": lambda x: LENGTH - x,
    "x - length": lambda x: x - LENGTH,
    "length * x": lambda x: LENGTH * x,
    "x * length": lambda x: x * LENGTH,
    "length / x": lambda x: LENGTH / x,
    "x / length": lambda x: x / LENGTH,
    "length < x": partial(operator.lt, LENGTH),
    "length <= x": partial(operator.le, LENGTH),
    "length > x": partial(operator.gt, LENGTH),
    "length >= x": partial(operator.ge, LENGTH),
    "length.text(x)": LENGTH.text,
    "length.rounded_up(x)": LENGTH.rounded_up,
    "as_length(x)": lambda x: as_length(x, "hem"),
    "Count(x, over)": lambda x: Count(x, LENGTH),
    "Count(28, x)": lambda x: Count(28, x),
    "Count.parse(x)": Count.parse,
    "Count.measured(x, over)": lambda x: Count.measured(x, over="1 in"),
    "Count.measured([28, x], over)": lambda x: Count.measured([28, x], over="1 in"),
    "Count.measured([28], x)": lambda x: Count.measured([28], over=x),
    "MeasuredCount(28, over, x)": lambda x: MeasuredCount(28, LENGTH, x),
    "as_count(x)": as_count,
    "count.width(x)": CLOTH.width,
    "count.threads_in(x)": CLOTH.threads_in,
    "count.text(x)": CLOTH.text,
    "measured.worst(x)": MEASURED.worst,
    "measured.plus_minus_mm(x)": MEASURED.plus_minus_mm,
    "Fabric(x)": Fabric,
    "Fabric(weft=x)": lambda x: Fabric("28/in", x),
    "Fabric(thickness=x)": lambda x: Fabric("28/in", thickness=x),
    "Fabric(shrink_warp=x)": lambda x: Fabric("28/in", shrink_warp=x),
    "Fabric(shrink_weft=x)": lambda x: Fabric("28/in", shrink_weft=x),
    "Fabric(washed=x)": lambda x: Fabric("28/in", washed=x),
    "fabric.unwashed_size(x, down)": lambda x: FABRIC.unwashed_size(x, LENGTH),
    "fabric.unwashed_size(across, x)": lambda x: FABRIC.unwashed_size(LENGTH, x),
    "plan_edge(x)": lambda x: plan_edge(x, 16, clear=8),
    "plan_edge(hem=x)": lambda x: plan_edge("28/in", x, clear=8),
    "plan_edge(clear=x)": lambda x: plan_edge("28/in", 16, clear=x),
    "plan_edge(drawn=x)": lambda x: plan_edge("28/in", 16, clear=8, drawn=x),
    "plan_edge(turn=x)": lambda x: plan_edge("28/in", 16, clear=8, turn=x),
    "plan_edge(handling=x)": lambda x: plan_edge("28/in", 16, clear=8, handling=x),
    "edge.width(x)": EDGE.width,
}

# None and False are what some inputs take; all else here is right nowhere.
WRONG_EVERYWHERE = {
    "nan": math.nan,
    "infinity": math.inf,
    "decimal nan": Decimal("NaN"),
    "signalling nan": Decimal("sNaN"),
    "huge decimal": Decimal("1e999999"),
    "empty text": "",
    "spaces": "  \t\n",
    "word": "three eighths",
    "negative length": "-3/8 in",
    "negative with a minus sign": "\N{MINUS SIGN}3/8 in",
    "negative with a full-width hyphen": "\N{FULLWIDTH HYPHEN-MINUS}3/8 in",
    "negative count": "-28/in",
    "unknown unit": "3 ells",
    "two units": "3 ft 2 in",
    "arabic digits": "\N{ARABIC-INDIC DIGIT THREE} cm",
    "full-width digits": "\N{FULLWIDTH DIGIT THREE} cm",
    "superscript": "3\N{SUPERSCRIPT TWO} cm",
    "exponent": "3e2 mm",
    "doubtful comma": "1,500 mm",
    "nought below the line": "3/0 in",
    "two fractions": "1/2/4 in",
    "improper fraction": "1 5/4 in",
    "long text": "3/8 in" * 100_000,
    "long digits": "9" * 5000 + " mm",
    "a wall of signs": "\"'" * 5000,
    "unseen signs": "\x00\u202e\ud800" * 300,
    "strokes": "/" * 5000,
    "bytes": b"3/8 in",
    "empty list": [],
    "nested": [[{"hem": ["3/8 in"]}], [None]],
    "set": {3},
    "class": Length,
    "function": len,
    "complex": 3j,
    "hostile": Hostile(),
    "nameless": NAMELESS,
    "long name": LONG_NAME,
}


def assert_one_sentence(error: HemError, *values: object) -> None:
    """At most 400 characters, one sentence, an example; what it quotes of the input aside."""
    sentence = str(error)
    assert len(sentence) <= 400
    assert sentence.isprintable()
    assert "for example" in sentence
    for value in values:
        # A sentence may quote a text from its middle: what stands behind a number.
        starts = range(min(len(value), 100)) if type(value) is str else []
        for part in (value, *(value[start:].strip() for start in starts)):
            sentence = sentence.replace(shown(part), "it")
    assert sentence.endswith(".")
    assert not re.search(r"[.!?]\s", sentence)


def look_at_everything(result: object) -> None:
    """What came out must be whole: each of its properties has a value, and it prints."""
    for name, member in inspect.getmembers_static(type(result)):
        if isinstance(member, property | cached_property) and not name.startswith("_"):
            value = getattr(result, name)
            if isinstance(value, MarginRule):
                look_at_everything(value)
    assert str(result)
    assert repr(result)
    assert result == result
    hash(result)


def assert_answered(entry: Callable[[Any], object], *values: object) -> None:
    """Either a whole result or one sentence comes out, and no other error."""
    try:
        result = entry(*values)
    except HemError as error:
        assert_one_sentence(error, *values)
    else:
        look_at_everything(result)


@pytest.mark.parametrize("entry", ENTRIES)
def test_what_is_wrong_everywhere_gets_one_sentence_anywhere(entry):
    let_through = []
    for name, value in WRONG_EVERYWHERE.items():
        try:
            ENTRIES[entry](value)
        except HemError as error:
            assert_one_sentence(error, value)
        else:
            let_through.append(name)
    assert let_through == []


@pytest.mark.parametrize("value", [True, 8.5, "text", None, -1, 10**5000], ids=shown)
@pytest.mark.parametrize(
    "entry", ["plan_edge(hem=x)", "plan_edge(clear=x)", "plan_edge(drawn=x)", "Length(x)"]
)
def test_what_only_looks_like_a_number_is_refused(entry, value):
    with pytest.raises(HemError) as caught:
        ENTRIES[entry](value)
    assert_one_sentence(caught.value, value)


@pytest.mark.parametrize("other", [5, "3/8 in", None, Fraction(381, 40), Hostile, CLOTH], ids=shown)
def test_a_length_equals_nothing_that_is_no_length(other):
    assert operator.ne(LENGTH, other)
    assert not operator.eq(LENGTH, other)


SIZES = st.text(alphabet="0123456789/.,½⅜⅟⁄ -−–+e%\"'′″inchcmftydperthreads", max_size=30)
UNITS = st.sampled_from(
    ["in", '"', "inches", "cm", "mm", "m", "yd", "/in", "/cm", "/10 cm", " %", "", " per in"]
)
NEARLY = st.tuples(st.from_regex(r"-?[0-9]{0,4}[ ,.½/][0-9]{0,4}", fullmatch=True), UNITS).map("".join)
PLAIN = st.one_of(
    st.none(),
    st.booleans(),
    st.text(max_size=200),
    SIZES,
    NEARLY,
    st.builds(operator.mul, st.text(min_size=1, max_size=3), st.integers(1, 3000)),
    st.integers(),
    st.integers(-1000, 1000),
    st.builds(lambda digits, sign: sign * 10**digits, st.integers(10, 6000), st.sampled_from([-1, 1])),
    st.floats(),
    st.decimals(),
    st.fractions(),
    st.builds(lambda bits: Fraction(1, 2**bits), st.integers(1, 5000)),
    st.complex_numbers(),
    st.binary(),
    st.integers().map(lambda _: Hostile()),
    st.builds(LyingWhole, st.integers()),
    st.sampled_from([NAMELESS, LONG_NAME, Length, len, LENGTH, CLOTH, FABRIC, EDGE]),
)
RUBBISH = st.recursive(
    PLAIN,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=3), inner, max_size=2)
    ),
    max_leaves=4,
)


@pytest.mark.parametrize("entry", ENTRIES)
@settings(max_examples=settings().max_examples // 2)
@given(value=RUBBISH)
def test_nothing_but_an_error_of_one_sentence_comes_out(entry, value):
    assert_answered(ENTRIES[entry], value)


@given(values=st.tuples(RUBBISH, RUBBISH, RUBBISH, RUBBISH, RUBBISH, RUBBISH))
def test_several_wrong_inputs_at_once_still_get_one_sentence(values):
    def plan(count, hem, clear, drawn, turn, handling):
        return plan_edge(count, hem, clear=clear, drawn=drawn, turn=turn, handling=handling)

    assert_answered(plan, *values)
