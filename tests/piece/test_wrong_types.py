"""Every name that piece, stitch, finish, sums and books export, called with wrong things."""

import importlib
import inspect

import pytest

from hemcalc.books import comparisons
from hemcalc.finish import counting_plan, finish_steps
from hemcalc.measure.errors import HemError
from hemcalc.piece import example, save_piece
from hemcalc.stitch import hem_stitch, piece_spacings, suggest_clear, thread_needed
from hemcalc.sums import check, sums_of

FRONTS = ("piece", "stitch", "finish", "sums", "books")

#: What may be typed, or be left in a variable, by mistake.
WRONG = (
    None,
    "coaster",
    8,
    2.5,
    float("nan"),
    True,
    [],
    (1, "two"),
    {"hem": 3},
    object(),
    len,
    10**5000,
)


def exported():
    for package in FRONTS:
        front = importlib.import_module(f"hemcalc.{package}")
        for name in front.__all__:
            thing = getattr(front, name)
            # `comparisons` takes topics only, and is asked about them below.
            if callable(thing) and thing is not comparisons:
                yield pytest.param(thing, id=f"{package}.{name}")


def right_for(function):
    """Inputs that serve, by name: what stands in no front is made as people make it."""
    piece = example("coaster")
    return {
        "name": "coaster",
        "path": "kept.json",
        "piece": piece,
        "before": piece,
        "fabric": piece.fabric,
        "design": (104, 104),
        "hem": "3/8 in",
        "clear": 8,
        "threads": 24,
        "threads_left": 9,
        "thread_mm": 3000.0,
        "working": "50 cm",
        "ends": "10 cm",
        "group": "4 mm" if function is hem_stitch else 4,
        "depth": "2 mm",
        "thickness": "0.5 mm",
        "stitches": 20,
        "used": "27 cm",
        "answers": {"hem": 10, "total": 31},
        "answer": 31,
        "right": 37,
        "seed": 7,
        "sums": sums_of(piece),
        "subject": "threads drawn",
    }


def wrong_calls(function):
    """Each wrong thing for each of the inputs, what must be given beside it being right, or as wrong."""
    inputs = [
        each for each in inspect.signature(function).parameters.values() if each.kind != each.VAR_KEYWORD
    ]
    needed = [each.name for each in inputs if each.default is each.empty and each.kind != each.VAR_POSITIONAL]
    right = right_for(function)
    for wrong in WRONG:
        yield dict.fromkeys(needed, wrong)
        for each in inputs:
            if each.kind != each.VAR_POSITIONAL:
                yield {name: right.get(name, wrong) for name in needed} | {each.name: wrong}


@pytest.mark.parametrize("function", list(exported()))
def test_a_wrong_thing_is_refused_in_a_sentence(function, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)  # what is saved by mistake goes with the test
    for given in wrong_calls(function):
        try:
            function(**given)
        except HemError as error:
            sentence = str(error)
            assert 0 < len(sentence) <= 400
            assert "\n" not in sentence


@pytest.mark.parametrize(
    ("function", "other"),
    [
        (suggest_clear, {}),
        (piece_spacings, {}),
        (finish_steps, {}),
        (counting_plan, {}),
        (thread_needed, {}),
        (sums_of, {}),
        (check, {"answers": {"hem": 10}}),
        (save_piece, {"path": "kept.json"}),
    ],
)
def test_what_is_no_piece_is_refused_with_how_one_is_had(function, other):
    with pytest.raises(HemError, match=r"^piece is 'coaster', but must be a Piece; for example ") as refused:
        function("coaster", **other)
    assert refused.value.about == "piece"


def test_what_is_no_topic_is_refused():
    for wrong in WRONG:
        with pytest.raises(HemError, match="but must be one of"):
            comparisons(wrong)
