"""Bad input to pieces and their corners: one sentence, never a traceback.

Rubbish of every kind goes in; what comes out is a `HemError` that names its input and gives
an example, or, where the rubbish happens to be possible, a result.
"""

import math
import re
from decimal import Decimal
from fractions import Fraction
from functools import partial

import pytest
from cases import for_each
from hostile import any_text
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import Fabric, HemError, Length, Piece, Sides, plan_corner
from hemcalc.edge import bend_length, plan_edge, plan_section

LINEN = Fabric("28/in", "27/in")
EDGE = plan_edge("28/in", "1/2 in", clear=8)
CORNER = plan_corner(EDGE, EDGE)
PIECE = Piece(LINEN, (224, 168), hem="3/8 in", clear=8)

RUBBISH = st.one_of(
    st.none(),
    st.booleans(),
    st.floats(),
    st.integers(),
    st.sampled_from((10**400, -(10**400), 10**20, 0, -1, 1)),
    st.fractions(),
    st.decimals(),
    any_text(max_size=100),
    st.sampled_from(("", "8", "0 mm", "-1 mm", "1 furlong", "1000000 km", "3/8", "mitred ", "x" * 5000)),
    st.binary(max_size=4),
    st.lists(st.integers(), max_size=3),
    st.tuples(st.booleans(), st.floats()),
    st.builds(Sides, st.booleans(), st.floats(), any_text(max_size=3), st.none()),
    st.just(Length(0)),
    st.just(Length(10**9)),
    st.sampled_from((EDGE, CORNER, LINEN, object, {}, Decimal("sNaN"), 1j)),
)


def refused_or_made(make, *names):
    """Run it, and judge the sentence of a refusal."""
    try:
        return make()
    except HemError as refusal:
        sentence, about = str(refusal), refusal.about
    assert re.fullmatch(r".*for example.*\.", sentence)
    assert about in names
    return None


def looked_at(piece):
    """A piece that was made can be looked at all round."""
    for size in (piece.cut_size, piece.finished_size, piece.cloth_by_rule):
        assert size.text("in")
    assert [corner.legs_mm for corner in piece.corners]
    assert piece.notes


@pytest.mark.parametrize(
    "name", ["fabric", "design", "hem", "clear", "drawn", "turn", "handling", "same", "corner", "allowance"]
)
@given(value=RUBBISH)
def test_a_piece_is_made_or_refused_by_the_name_of_its_input(name, value):
    given_inputs = {"fabric": LINEN, "design": (224, 168), "hem": "1/2 in", "clear": 8, name: value}
    # A hem may turn out narrower than its turn or allowance, and another word of same wants another hem.
    others = {"hem": ("turn",), "same": ("hem",), "corner": ("allowance",)}.get(name, ())
    piece = refused_or_made(lambda: Piece(**given_inputs), name, *others)
    if piece:
        looked_at(piece)


@given(RUBBISH, RUBBISH)
def test_a_chart_is_made_or_refused(stitches, over):
    make = partial(Piece.from_stitches, LINEN, hem="1/2 in", clear=8)
    refused_or_made(lambda: make(stitches=(100, 80), over=over), "over", "design")
    refused_or_made(lambda: make(stitches=stitches, over=2), "stitches", "design")
    refused_or_made(lambda: make(stitches=(stitches, over)), "stitches", "design")


@given(RUBBISH, RUBBISH, RUBBISH, RUBBISH)
def test_clear_bands_of_the_wrong_kind_are_refused(left, right, top, bottom):
    sides = Sides(left, right, top, bottom)
    piece = refused_or_made(lambda: Piece(LINEN, (224, 168), hem="1/2 in", clear=sides), "clear")
    assert piece is None or all(isinstance(side, int) for side in piece.clear)


@given(RUBBISH, RUBBISH)
def test_a_cloth_to_fit_is_taken_or_refused(cloth, washed):
    for ask in (cloth, (cloth, "12 in"), ("12 in", cloth), (cloth, cloth, cloth)):
        fit = refused_or_made(lambda ask=ask: PIECE.fits(ask), "cloth")
        assert fit is None or fit.text("cm")
    refused_or_made(lambda: PIECE.fits("12 in", washed=washed), "washed")


# What each sentence says


def planned(fabric=LINEN, design=(224, 168), *, clear=8, **asked):
    return Piece(fabric, design, hem="1 cm", clear=clear, **asked)


@for_each(
    ("make", "about", "words"),
    [
        (
            lambda: planned("linen"),
            "fabric",
            "fabric is 'linen', but must be a Fabric; for example Fabric('28/in').",
        ),
        (
            lambda: planned(design=224),
            "design",
            "design is 224, but must be two whole numbers, across and down; for example (224, 168).",
        ),
        (
            lambda: planned(design=(224, 0)),
            "design",
            "design is 0, but must be a whole number of threads, 1 or more; for example 168.",
        ),
        (
            lambda: Piece.from_stitches(LINEN, (100, 80), 0, hem="1 cm", clear=8),
            "over",
            "over is 0, but must be a whole number of threads, 1 or more; for example 2.",
        ),
        (
            lambda: planned(clear=Sides(8, True, 8, 8)),
            "clear",
            "clear is True, but must be a whole number of threads, 0 or more; for example 8.",
        ),
        (
            lambda: planned(allowance="5 cm"),
            "allowance",
            "allowance is 50 mm, and the cut would miss the cloth, which ends 22.20 mm beyond the fold; "
            "it must be less than that, for example '11.10 mm'.",
        ),
        (
            lambda: plan_corner(EDGE, EDGE, corner="uncut", allowance="1/4 in"),
            "allowance",
            "allowance is ≈ 6.4 mm, but a corner that is uncut has no cut to leave it at; "
            "for example leave it out, or say corner='mitred'.",
        ),
        (
            lambda: plan_corner(EDGE, EDGE, allowance="0 mm"),
            "allowance",
            "allowance is 0 mm, but must be more than nothing; for example '3/8 in'.",
        ),
        (
            lambda: plan_section(EDGE, "10 mm"),
            "thickness",
            "thickness is 10 mm, but so narrow a hem takes a cloth of 5.39 mm at most, or its folds would "
            "use it up; for example '2.695 mm'.",
        ),
        (
            lambda: CORNER.layers("here", 5),
            "x",
            "x: The length 'here' must begin with a number, in the figures 0 to 9, and end in a unit; "
            "for example '3/8 in', '1 cm' or '9.5 mm'.",
        ),
        (
            lambda: bend_length(180, 0, 10**400),
            "thickness",
            "thickness is a number of about 400 digits, but must be a number more than 0 and at most 100000; "
            "for example 0.5.",
        ),
        (
            lambda: PIECE.fits("12 in", washed="yes"),
            "washed",
            "washed is 'yes', but must be True or False; for example True.",
        ),
    ],
)
def test_the_sentence_says_what_was_wrong_what_is_allowed_and_an_example(make, about, words):
    with pytest.raises(HemError) as refused:
        make()
    # How many digits a huge number has is only about right.
    assert str(refused.value).replace("401", "400") == words
    assert refused.value.about == about


@given(*[st.integers(1, 60) | st.integers(10**3, 10**6)] * 2, st.data())
def test_the_example_of_a_refused_allowance_is_accepted(across, down, data):
    edges = [plan_edge("28/in", hem, clear=8, turn=data.draw(st.integers(0, hem))) for hem in (across, down)]
    for corner in ("mitred", "square"):
        with pytest.raises(HemError) as refused:
            plan_corner(*edges, corner=corner, allowance=Length(5 * 10**8))
        example = str(refused.value).rpartition("for example '")[2].removesuffix("'.")
        assert plan_corner(*edges, corner=corner, allowance=example).allowance == Length(example)


# A narrow hem has no quarter inch beyond its fold 1 lines for a square corner to keep.
def test_the_usual_quarter_inch_is_refused_too_where_it_does_not_fit():
    narrow = plan_edge("28/in", "1/8 in", clear=8)
    with pytest.raises(
        HemError, match=r"left out, so that a square corner keeps 1/4 in, and the cut"
    ) as refused:
        plan_corner(narrow, narrow, corner="square")
    assert refused.value.about == "allowance"


def test_numbers_of_other_exact_kinds_are_taken():
    assert bend_length(Fraction(180), Decimal(0), Fraction(1, 2)) == pytest.approx(math.pi / 4)
