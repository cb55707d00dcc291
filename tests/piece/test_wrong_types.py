"""Every name that piece, stitch, finish, sums and books export, called with wrong things."""

import importlib
import inspect
from dataclasses import replace
from functools import cache

import pytest

from hemcalc import (
    Count,
    HemError,
    Kit,
    check,
    cut_from_bolt,
    example,
    open_line,
    plan_section,
    rule_table,
    save_piece,
    space_stitches,
)
from hemcalc.books import book_ranges, comparisons
from hemcalc.draw import Counted, Stitched, draw_ways, draw_weave
from hemcalc.finish import counting_plan, finish_steps
from hemcalc.stitch import hem_stitch, piece_spacings, suggest_clear, thread_needed
from hemcalc.sums import from_example, sums_of
from hemcalc.workshop import cut_for_class, example_workshop

FRONTS = ("piece", "stitch", "finish", "sums", "books", "course", "draw", "panels", "paper")

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
            # What takes nothing, as most panels, can be given nothing wrong.
            if callable(thing) and thing is not comparisons and inspect.signature(thing).parameters:
                yield pytest.param(thing, id=f"{package}.{name}")


def right_for(function):
    """Inputs that serve, by name."""
    right = good()
    if function in (draw_weave, draw_ways):
        right = right | {"corner": "top left"}
    if function is Counted:
        right = right | {"size": "10 in"}
    if function is hem_stitch:
        right = right | {"group": "4 mm"}
    return right


@cache
def good():
    """Inputs that serve, by name, made once: what stands in no front is made as people make it."""
    piece = example("coaster")
    edge, kit = piece.edges.left, Kit("Ada", piece)
    count = Count.measured([28, 29], "1 in")
    alone = replace(example_workshop(), kits=example_workshop().kits[:1], spares=())
    return {
        "edge": edge,
        "section": plan_section(edge, "0.4 mm"),
        "corner": piece.corners.top_left,
        "table": rule_table("28/in", range(1, 30), range(13)),
        "counted": Counted(count, "10 in", "in"),
        "count": count,
        "size": "page",
        "unit": "in",
        "cut_up": cut_from_bolt([("mat", "18 in", "12 in", 6)], "55 in"),
        "report": check(piece, {"hem": 9}),
        "ranges": book_ranges("threads drawn"),
        "spacing": space_stitches(26),
        "stitched": Stitched(hem_stitch("4 mm", "2 mm", "0.5 mm"), 4, 2),
        "weave": open_line(piece),
        "kit": kit,
        "exercises": [from_example("coaster")],
        "workshop": alone,
        "layouts": cut_for_class(alone),
        "folder": "pages",
        "title": "A leaflet",
        "pages": [],
        "leaflets": [],
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
        "group": 4,
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
        "accident": "cut too far",
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
    "function", [each for each in exported() if each.id.startswith(("draw.draw_", "paper."))]
)
def test_what_cannot_be_shown_is_refused(function, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (name, first), *others = inspect.signature(function).parameters.items()
    right = right_for(function)
    needed = {each.name: right[each.name] for _, each in others if each.default is each.empty}
    for wrong in (None, 8, object(), [None], example("coaster")):
        with pytest.raises(HemError, match=r" must | needs "):
            function(wrong) if first.kind == first.VAR_POSITIONAL else function(**needed | {name: wrong})


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
