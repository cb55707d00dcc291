"""Every callable that a reader can import, called with each wrong thing for each of its arguments.

    python tests/walk.py [PACKAGE ...] [CALLABLE ...] [--memory]

walks what is named, or all. What is walked is found by looking: the fronts of
all packages, the constructors and methods of their classes, and the methods of what they hand out. A
new one needs nothing here if `GOOD` knows an input of each name that it needs; else it is named, and
the walk fails. Only one argument is wrong at a time. Either a `HemError` of one sentence comes out,
soon and in little memory, with nothing written and no figure left, or a whole result.
"""

from __future__ import annotations

import importlib
import inspect
import numbers
import operator
import os
import pkgutil
import re
import signal
import sys
import tempfile
import time
import tracemalloc
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache, cached_property, partial
from pathlib import Path
from typing import Any

import matplotlib.pyplot as plt
import nbformat
import numpy as np
import pandas as pd
from hostile import NOWHERE, WRONG

import hemcalc
from hemcalc import HemError
from hemcalc.measure.errors import shown
from hemcalc.piece import Sides

#: What a refusal may take: characters, seconds of the processor, and bytes at its peak.
LONGEST, SECONDS, BYTES = 400, 0.1, 20_000_000
#: What can be told only of a panel that is made may take longer.
LONGER = {"side_by_side": 1.0}
#: Seconds after which a call is given up, and bytes that a whole result may take.
GIVEN_UP, MOST = 3, 200_000_000
#: How many times as long a call may take while its memory is counted.
SLOWED = 10


def _class_of_one() -> Any:
    shop = hemcalc.example_workshop()
    return replace(shop, kits=shop.kits[:1], spares=())


def _kept_piece() -> str:
    hemcalc.save_piece(PIECE(), "read.json", replace=True)
    return "read.json"


def _notebooks() -> Path:
    folder = Path("notebooks_of_mine")
    folder.mkdir(exist_ok=True)
    nbformat.write(nbformat.v4.new_notebook(), folder / "00_empty.ipynb")
    return folder


def _from(module: str, name: str, *given: object, **named: object) -> Callable[[], Any]:
    """What a call of hemcalc gives, when it is asked for."""
    return lambda: operator.attrgetter(name)(importlib.import_module(f"hemcalc.{module}"))(
        *(value() if callable(value) else value for value in given),
        **{key: value() if callable(value) else value for key, value in named.items()},
    )


PIECE = _from("piece", "example", "coaster")
#: An input that serves, by the name of the argument, or by its function and name; made when asked for.
GOOD: dict[str, Callable[[], Any]] = {
    key: cache(value if callable(value) else partial(lambda kept: kept, value))
    for key, value in {
        "accident": "cut too far",
        "across": "10 in",
        "angle": 90.0,
        "answer": 31,
        "answers": {"hem": 10, "total": 31},
        "asked": None,
        "at": None,
        "bought": _from("measure", "Length", "2 m"),
        "clear": 8,
        "clears": (4, 8),
        "cloth": "14 in",
        "cloths": lambda: dict.fromkeys(("upright", "turned"), GOOD["cut_up"]()),
        "cloth_yarn": "0.4 mm",
        "column": 1,
        "compared": _from("books", "comparisons", "group"),
        "corner": "top left",
        "count": "28/in",
        "counted": _from(
            "draw", "Counted", _from("measure", "Count.measured", [28, 29], "1 in"), "10 in", "in"
        ),
        "crossings": 40,
        "cut_up": _from("bolt", "cut_from_bolt", [("mat", "18 in", "12 in", 6)], "55 in"),
        "depth": "2 mm",
        "design": (104, 90),
        "diameter": "0.3 mm",
        "do": lambda: print,
        "down": "9 in",
        "each": "10 cm",
        "edge": lambda: PIECE().edges.left,
        "ends": "10 cm",
        "exercises": lambda: [_from("sums", "from_example", "coaster")()],
        "fabric": _from("measure", "Fabric", "28/in", "27/in", "0.5 mm", shrink_warp="8 %"),
        "first": "cut",
        "folder": "pages",
        "goods": _from("workshop", "Goods", "linen", "10 cm"),
        "grain": "fixed",
        "grams": 10,
        "grams_per_m2": 190,
        "group": 4,
        "hem": "3/8 in",
        "hems": (4, 6),
        "id": lambda: _from("books", "read_rows")()[0].id,
        "inner_radius": 0.5,
        "kit": lambda: hemcalc.Kit("Ada", PIECE()),
        "kits": lambda: GOOD["workshop"]().kits,
        "label": "a label",
        "layout": lambda: GOOD["cut_up"](),
        "layouts": _from("workshop", "cut_for_class", _class_of_one),
        "leaflets": lambda: [GOOD["leaflet"]()],
        "leaflet": _from("paper", "gauge_card", lambda: GOOD["kit"]()),
        "learner": "Ada",
        "length": "40 cm",
        "lengths": lambda: GOOD["layouts"](),
        "linen": "white",
        "linens": lambda: GOOD["workshop"]().linens,
        "many": 3,
        "mark": "1/8 in",
        "measured": 1.0,
        "mm": 5,
        "name": "coaster",
        "need": 5,
        "notebooks": _notebooks,
        "number": 8,
        "of": lambda: str,
        "other": _from("measure", "Length", 5),
        "x * length other": 3,
        "length * x other": 3,
        "over": "1 in",
        "pages": lambda: [],
        "panel": lambda: importlib.import_module("hemcalc.panels").margin_panel,
        "strip_html panel": lambda: GOOD["a panel"](),
        "a panel": _from("panels", "margin_panel"),
        "path": "kept.json",
        "piece": PIECE,
        "pieces": lambda: [("mat", "12 cm", "9 cm", 2)],
        "places": 4,
        "plan": _from("finish", "counting_plan", PIECE),
        "progress": 0.5,
        "ranges": _from("books", "book_ranges", "threads drawn"),
        "readings": lambda: [28, 29],
        "report": _from("sums", "check", PIECE, lambda: {"hem": 9}),
        "right": 37,
        "row": lambda: _from("books", "read_rows")()[0],
        "rows": lambda: _from("workshop", "kit_rows", _class_of_one)()[:1],
        "sample": _from("stitch", "Sample", 20, "27 cm"),
        "section": lambda: hemcalc.plan_section(PIECE().edges.left, "0.4 mm"),
        "seed": 7,
        "sentence": "It is wrong; for example right.",
        "shop": "the other shop",
        "CheckForm.show_sum sums": lambda: GOOD["exercises"]()[0],
        "CheckForm.choose title": lambda: ONE_OF["CheckForm"]().menu.value,
        "side": "left",
        "size": "10 in",
        "sizes": lambda: [("mat", "12 cm", "9 cm", 2)],
        "source": lambda: _from("workshop", "class_template")(),
        "spacing": lambda: hemcalc.space_stitches(26),
        "state": lambda: GOOD["fabric"]().state(washed=True),
        "step": 1,
        "stitched": _from("draw", "Stitched", _from("stitch", "hem_stitch", "4 mm", "2 mm", "0.5 mm"), 4, 2),
        "stitches": 20,
        "subject": "threads drawn",
        "sums": _from("sums", "sums_of", PIECE),
        "system": "den",
        "table": lambda: hemcalc.rule_table("28/in", range(4, 9), (4, 8)),
        "tex": 20,
        "thickness": "0.5 mm",
        "thing": 3,
        "things": lambda: [1, 2],
        "thread": 5,
        "thread_mm": 3000.0,
        "threads": 28,
        "threads_left": 9,
        "title": "A class",
        "took": _from("finish", "hours", PIECE),
        "unit": "in",
        "used": "27 cm",
        "warp": "28/in",
        "wash": "never",
        "washed": True,
        "weave": lambda: hemcalc.open_line(PIECE()),
        "width": "55 in",
        "working": "50 cm",
        "workshop": _class_of_one,
        "yarn": "20 tex",
        # Where a word means something else, or where what may be left out must be given after all.
        "bend_length thickness": 0.5,
        "neutral_share thickness": 1.0,
        "neutral_share inner_radius": 1.0,
        "neutral_share measured": 2.1,
        "MeasuredCount readings": lambda: (28, 28),
        "timetable length": 5,
        "RuleTable.at hem": 4,
        "quantity": 3,
        "GuessBox.beside truth": 37,
        "Leaflet.save path": "leaflet.pdf",
        "worksheet exercises": lambda: [_from("sums", "exercise", 7)()],
        "Comparisons.graded grade": "computed",
        "Workshop goods": lambda: GOOD["workshop"]().goods,
        "Goods.buy need": _from("measure", "Length", "1 m"),
        "Rest.to_cut linen": lambda: ONE_OF["Linen"](),
        "Rest.washed_first linen": lambda: ONE_OF["Linen"](),
        "Workshop.pieces_of linen": lambda: ONE_OF["Linen"](),
        "BookRanges.said number": 4,
        "BoltAllowances.to_have used": _from("measure", "Length", "2 m"),
        "StitchPath.between_mm first": lambda: ONE_OF["StitchPath"]().points[0].name,
        "StitchPath.between_mm last": lambda: ONE_OF["StitchPath"]().points[-1].name,
        "Piece.from_stitches stitches": (56, 56),
        "Piece.from_stitches hem": "3/8 in",
        "Piece.from_stitches clear": 8,
        "Sides.of name": "left",
        "Allowances.span length": 40,
        "Weave.crossing row": 1,
        "send_folder folder": lambda: Path("pages_to_send"),
        "cloth_yarn across": "28/in",
        "cloth_yarn down": "27/in",
        "plan_corner across": lambda: PIECE().edges.left,
        "plan_corner down": lambda: PIECE().edges.top,
        "basted_lines corner": lambda: PIECE().corners.top_left,
        "draw_corner corner": lambda: PIECE().corners.top_left,
        "draw_layers corner": lambda: PIECE().corners.top_left,
        "draw_counting_plan plan": _from("finish", "counting_plan", PIECE),
        "draw_movement name": "snip",
        "agreement of": "whole cloth",
        "check_of name": "the uneven groups",
        "check_box name": "the uneven groups",
        "draw_gap ratios": _from("yarn", "gap_ratio", "0.3 mm", "28/in", "0.4 mm"),
        "comparisons topics": "group",
        "compare row": lambda: _from("books", "comparisons", "group")()[0].row,
        "needlefuls ends": "10 cm",
        "next_of progress": lambda: importlib.import_module("hemcalc.sums.progress").Progress(),
        "Corner.layers x": 1,
        "Corner.layers y": "1/8 in",
        "Corner.step progress": 0.5,
        "Count threads": "28/in",
        "hem_stitch group": "4 mm",
        "load_piece path": lambda: _kept_piece(),
        "task topic": "spacing",
        "judge of": "threads",
        "possible_slips name": "total",
        "MeasuredCount.error_with places": 4,
        "tapestry_needle size": 24,
        "Counted size": "10 in",
        "Stitched depth": 2,
        "save_csv path": "kept.csv",
        "Stitched path": lambda: GOOD["stitched"]().path,
        "Counted count": _from("measure", "Count.measured", [28, 29], "1 in"),
        "draw_counting counted": lambda: GOOD["counted"](),
    }.items()
}

#: One of each class whose methods take something or that nobody makes by hand, and of what panels hand out.
ONE_OF: dict[str, Callable[[], Any]] = {
    "Agreement": _from("course", "agreement", "whole cloth"),
    "Band": lambda: GOOD["edge"]().bands[1],
    "Basted": lambda: _from("corner", "basted_lines", ONE_OF["Corner"])()[0],
    "BoltAllowances": _from("bolt", "BoltAllowances", "2 cm", "1 mm", "5 cm", "8 %", "3 %"),
    "BookRanges": GOOD["ranges"],
    "Check": _from("course", "check_of", "the uneven groups"),
    "CheckForm": _from("panels", "check_panel"),
    "Comparisons": GOOD["compared"],
    "Corner": lambda: PIECE().corners.top_left,
    "Still": _from("draw", "draw_edge", lambda: GOOD["edge"]()),
    "Corners": lambda: PIECE().corners,
    "Count": _from("measure", "Count", "28/in"),
    "Counted": GOOD["counted"],
    "CountingPlan": GOOD["plan"],
    "Cutting": GOOD["layouts"],
    "Day": lambda: ONE_OF["Timetable"]().days[0],
    "Edge": GOOD["edge"],
    "Exercise": lambda: GOOD["exercises"]()[0],
    "Extent": lambda: ONE_OF["Size"]().across,
    "Fabric": GOOD["fabric"],
    "Fit": lambda: PIECE().fits("14 in"),
    "FromRest": lambda: ONE_OF["Cutting of rests"]().rests[0],
    "Cutting of rests": _from(
        "workshop", "cut_for_class", hemcalc.example_workshop, rests=_from("workshop", "example_cupboard")
    ),
    "Goods": GOOD["goods"],
    "GuessBox": _from("panels", "guess_box"),
    "HerSlip": _from("panels", "her_slip_panel"),
    "Hours": GOOD["took"],
    "Kit": GOOD["kit"],
    "Layout": GOOD["layout"],
    "Leaflet": GOOD["leaflet"],
    "Length": _from("measure", "Length", 5),
    "LinearDensity": _from("yarn", "LinearDensity", 20),
    "Linen": lambda: GOOD["linens"]()[0],
    "MarginRule": lambda: GOOD["edge"]().rule,
    "Mark": lambda: GOOD["report"]().marks[0],
    "MeasuredCount": _from("measure", "Count.measured", [28, 29], "1 in"),
    "Offer": lambda: ONE_OF["WhereToBuy"]().offers[0],
    "Pace": _from("finish", "Pace", 15, 40),
    "Panel": GOOD["a panel"],
    "Piece": PIECE,
    "Report": GOOD["report"],
    "Rescue": _from("finish", "rescue", PIECE, "cut too far"),
    "Rest": lambda: _from("workshop", "example_cupboard")()[0],
    "Row": GOOD["row"],
    "RuleTable": GOOD["table"],
    "Section": GOOD["section"],
    "Sides": _from("piece", "Sides", 1, 2, 3, 4),
    "Size": lambda: PIECE().cut_size,
    "Spacing": GOOD["spacing"],
    "Spell": lambda: GOOD["took"]().spells[0],
    "Step": lambda: hemcalc.finish_steps(PIECE())[0],
    "StitchPath": lambda: GOOD["stitched"]().path,
    "Stitched": GOOD["stitched"],
    "Suggestion": lambda: hemcalc.suggest_clear(PIECE(), 12)[0],
    "Task": _from("course", "task", "spacing", 7),
    "ThreadPlan": lambda: hemcalc.thread_needed(PIECE()),
    "Timetable": _from("workshop", "timetable", _class_of_one, 5),
    "Verdict": lambda: hemcalc.judge(31, 37),
    "CutSize": _from("bolt", "CutSize", "mat", "12 in", "9 in", 3),
    "Weave": GOOD["weave"],
    "WhereToBuy": _from("workshop", "where_to_buy", _class_of_one),
    "Workshop": GOOD["workshop"],
    "Allowances": _from("weave", "Allowances"),
    "Yield": _from("bolt", "have_from_remnant", "40 cm", "30 cm", lambda: GOOD["sizes"]()),
}
_RESULTS = """
Agreement Band Basted Check Corner Corners CountingPlan Cutting Day Edge Exercise Extent Fit FromRest
HemError Hours Layout Size MarginRule Mark Offer Report Rescue RuleTable Section Sides Spacing Spell Step
Still StitchPath Suggestion Task ThreadPlan Timetable Verdict Weave WhereToBuy Yield
"""
#: Classes that stand in no front, but are handed out by what does.
HANDED_OUT = {
    **dict.fromkeys(("BookRanges", "Comparisons", "Row"), "hemcalc.books"),
    **dict.fromkeys(("CheckForm", "GuessBox", "HerSlip", "Panel"), "hemcalc.panels"),
}
#: Made by hemcalc and never by hand, or holding whatever they are given: nothing is asked of their fields,
#: but of their methods. `hemcalc.launch` offers no name: what its commands are told is tried in tests/launch.
RESULTS = set(_RESULTS.split())
#: For other modules, which give what was checked: some thousands of times, some (of a panel) as it is moved.
PLUMBING = {"CutSize.in_steps", "BookRanges.said", "Row.with_inputs"}
PLUMBING |= {"Panel.draw", "Panel.holding", "Panel.redraw"}
#: What lengths do with anything: their arithmetic and order.
OPERATORS: dict[str, Callable[..., Any]] = {
    name: partial(lambda way, other: way(ONE_OF["Length"](), other), way)
    for name, way in {
        "length + x": operator.add,
        "x + length": lambda length, other: other + length,
        "length - x": operator.sub,
        "x - length": lambda length, other: other - length,
        "length * x": operator.mul,
        "x * length": lambda length, other: other * length,
        "length / x": operator.truediv,
        "x / length": lambda length, other: other / length,
        "length < x": operator.lt,
        "length <= x": operator.le,
        "length > x": operator.gt,
        "length >= x": operator.ge,
    }.items()
}


@cache
def one_of(name: str) -> Any:
    return ONE_OF[name]()


def must_be_given(each: inspect.Parameter) -> bool:
    return each.default is each.empty and each.kind != each.VAR_POSITIONAL


@dataclass(frozen=True)
class Walked:
    """A callable that a reader can have, and what it takes."""

    name: str
    call: Callable[..., Any]

    @cached_property
    def inputs(self) -> list[inspect.Parameter]:
        """What it takes; where that is any word, those that a piece knows."""
        inputs = []
        for each in inspect.signature(self.call).parameters.values():
            if each.kind == each.VAR_KEYWORD:
                taken = {other.name for other in inputs} | ({"design"} if inputs else set())
                words = inspect.signature(hemcalc.Piece).parameters
                inputs += [
                    each.replace(name=word, kind=each.KEYWORD_ONLY, default=None)
                    for word in words
                    if word not in taken
                ]
            else:
                inputs.append(each)
        return inputs

    def good(self, name: str) -> Callable[[], Any] | None:
        """What makes an input of this name that serves, None if nothing is known to."""
        if (own := f"{self.name} {name}") in GOOD:
            return GOOD[own]
        return GOOD.get(name)

    def unknown(self) -> list[str]:
        """What must be given, and of which no good input is known."""
        return [each.name for each in self.inputs if must_be_given(each) and not self.good(each.name)]

    def bound(self, wrong: str = "", value: object = None) -> Callable[[], Any]:
        """A call in which one input is this value, and the others serve."""
        positional: list[Any] = []
        named = {}
        for each in self.inputs:
            given = value if each.name == wrong else made() if (made := self.good(each.name)) else None
            if each.kind == each.VAR_POSITIONAL:
                positional = [given] if each.name == wrong or made else []
            elif each.name == wrong or must_be_given(each) or f"{self.name} {each.name}" in GOOD:
                named[each.name] = given
        if positional:  # what stands before them can't be named
            names = [e.name for e in self.inputs if e.kind == e.POSITIONAL_OR_KEYWORD]
            positional = [named.pop(name) for name in names if name in named] + positional
        return lambda: self.call(*positional, **named)


def modules() -> list[str]:
    """The fronts: hemcalc's own and those of its packages."""
    return ["hemcalc", *(f"hemcalc.{m.name}" for m in pkgutil.iter_modules(hemcalc.__path__) if m.ispkg)]


def exported() -> dict[str, Any]:
    """What the fronts offer, by its name."""
    found = {}
    for front in modules():
        module = importlib.import_module(front)
        for name in getattr(module, "__all__", ()):
            if callable(thing := getattr(module, name)):
                assert found.setdefault(name, thing) is thing, f"two things are called {name}"
    return found


def methods_of(kind: type) -> Iterator[str]:
    """The public methods that hemcalc gives a class, and that take something."""
    for name, member in inspect.getmembers(kind, callable):
        # What tuples, tables and widgets do is Python's, or theirs.
        ours = any(name in vars(each) for each in kind.__mro__ if each.__module__.startswith("hemcalc"))
        if (
            ours
            and not name.startswith("_")
            and [*inspect.signature(member).parameters] not in ([], ["self"])
        ):
            yield name


def public(package: str = "") -> list[Walked]:
    """All that a reader can call, of one package or of all; of each class one must be known."""
    ours = {name: thing for name, thing in exported().items() if of_package(thing.__module__, package)}
    found = [
        Walked(name, thing)
        for name, thing in ours.items()
        if name not in RESULTS and inspect.signature(thing).parameters
    ]
    kinds = {name for name, thing in ours.items() if inspect.isclass(thing) and [*methods_of(thing)]}
    handed_out = {name for name, module in HANDED_OUT.items() if of_package(module, package)}
    for name in sorted(kinds | handed_out):
        if name not in ONE_OF:
            raise LookupError(f"of {name} none is known, to call its methods: add one to ONE_OF")
        kept = one_of(name)
        ways = [way for way in methods_of(type(kept)) if f"{name}.{way}" not in PLUMBING]
        found += [Walked(f"{name}.{way}", getattr(kept, way)) for way in ways]
    operators = OPERATORS if of_package("hemcalc.measure", package) else {}
    return found + [Walked(name, call) for name, call in operators.items()]


def of_package(module: str, package: str) -> bool:
    """Whether a module is in this package, or in any if none is named."""
    return not package or f"{module}.".startswith(f"hemcalc.{package}.")


@dataclass(frozen=True)
class Outcome:
    """What came of a call: a refusal's sentence, or a result; and what was wrong with either."""

    at: str
    sentence: str
    seconds: float
    peak: int
    faults: tuple[str, ...]


_WRITTEN: list[str] = []


def _watch(event: str, given: tuple[Any, ...]) -> None:
    """Note where something may have been written."""
    if (
        event == "open"
        and isinstance(given[1], str)
        and set(given[1]) & set("wax+")
        and given[0] != "/dev/null"
    ):
        _WRITTEN.append(str(given[0]))
    elif event in ("os.rename", "os.symlink"):
        _WRITTEN.append(str(given[1]))
    elif event == "os.mkdir" and not os.path.lexists(given[0]):
        _WRITTEN.append(str(given[0]))


def _give_up(*_: object) -> None:
    raise TimeoutError


def outcome(walked: Walked, about: str, wrong: str, *, memory: bool = False, timed: bool = True) -> Outcome:
    """What comes of one wrong thing for one argument."""
    value, faults = WRONG[wrong](), []
    call = walked.bound(about, value)
    result: Any = None
    sentence, peak = "", 0
    del _WRITTEN[:]
    signal.setitimer(signal.ITIMER_PROF, SLOWED * GIVEN_UP if memory else GIVEN_UP)
    if memory:
        tracemalloc.start()
    began = time.process_time()
    try:
        result = call()
    except HemError as error:
        sentence = str(error)
    except TimeoutError:
        faults.append(f"given up after {time.process_time() - began:.0f} s")
    except Exception as error:
        if not HERS.get(f"{walked.name} {about}", HERS.get(about, _never))(value):
            faults.append(f"{type(error).__name__}: {str(error)[:80]!r}")
    finally:
        seconds = time.process_time() - began
        signal.setitimer(signal.ITIMER_PROF, 0)
        if memory:
            peak = tracemalloc.get_traced_memory()[1]
            tracemalloc.stop()
    if sentence:
        faults += refusal_faults(sentence, value)
        faults += [f"wrote {path}" for path in _WRITTEN if os.path.lexists(path)]
        if seconds > LONGER.get(walked.name, SECONDS) and timed and not memory:
            faults.append(f"took {seconds:.2f} s")
        if peak > BYTES:
            faults.append(f"took {peak / 1e6:.0f} MB")
    elif not faults:
        faults += result_faults(walked.name, about, wrong, result)
        if peak > MOST:
            faults.append(f"took {peak / 1e6:.0f} MB")
    if hasattr(result, "close"):
        result.close()
    if open_figures := plt.get_fignums():
        faults.append(f"left {len(open_figures)} figures")
        plt.close("all")
    return Outcome(f"{walked.name}({about}={wrong})", sentence, seconds, peak, tuple(faults))


@cache
def quotes(text: str) -> tuple[str, ...]:
    """How a sentence may quote it: whole, or from its middle, what stands behind a number."""
    return shown(text), *(shown(text[start : start + 200].strip()) for start in range(min(len(text), 100)))


def refusal_faults(sentence: str, *values: object) -> Iterator[str]:
    """What is wrong with a refusal: it is one sentence with an example; what it quotes is no part of it."""
    if len(sentence) > LONGEST:
        yield f"says {len(sentence)} characters"
    if not sentence.isprintable():
        yield f"can't be printed: {sentence!r}"
    said = sentence
    for value in values:
        for quoted in quotes(value) if type(value) is str else (shown(value),):
            said = said.replace(quoted, "it")
    if not said.endswith(".") or re.search(r"[.!?]\s", said):
        yield f"is not one sentence: {sentence}"
    if not re.search("for example|such as|choose|say ", said):
        yield f"gives no example: {sentence}"


def _number(value: object) -> bool:
    return isinstance(value, numbers.Number)


def _never(_: object) -> bool:
    return False


def _empty(value: object) -> bool:
    return isinstance(value, np.ndarray | pd.Series | pd.DataFrame) and not len(value)


#: What is listed one by one, whatever it holds.
LISTED = (tuple, list, dict, Sides, np.ndarray, pd.Series, pd.DataFrame, pd.Index, pd.Categorical)
#: What a reader gives to be called or printed: what goes wrong in there is hers.
HERS: dict[str, Callable[[object], bool]] = {
    **dict.fromkeys(("of", "do", "progress", "say", "panel"), callable),
    "listed things": lambda value: isinstance(value, LISTED),
    "do_button things": lambda value: True,
}
#: What an input may be that is right nowhere else: by its name, or by its function and name.
TAKEN: dict[str, Callable[[object], bool]] = {
    "x": _number,  # of any size: beyond the corner there are no layers
    "y": _number,
    "basted_lines progress": _number,  # kept within its ends
    "Corner.folded progress": _number,
    "Corner.folding progress": _number,
    "Corner.step progress": _number,
    "Section.profile progress": _number,
    "draw_corner progress": _number,
    "draw_section progress": _number,
    "judge answer": lambda value: True,  # the verdict says what is wanted
    "Task.check answer": lambda value: True,
    "Task.named answer": lambda value: True,
    "GuessBox.beside truth": _number,
    "answers": lambda value: isinstance(value, dict),
    "slips": lambda value: isinstance(value, dict),
    "judge right": _number,
    **HERS,
    "given": lambda value: True,
    "seed": _number,
    # What is empty is an empty list.
    **dict.fromkeys(("compared", "wrong_start", "pages", "leaflets", "learner_sheet steps"), _empty),
    "side_by_side linked": lambda value: isinstance(value, pd.DataFrame) or _empty(value),  # by its columns
    "Stitched amounts": lambda value: isinstance(value, LISTED),
    "Weave.crossing row": lambda value: type(value) is int,  # they are counted both ways from the design
    "Weave.crossing column": lambda value: type(value) is int,
    "length / x other": lambda value: type(value) is int,  # however small a part
    "other": lambda value: isinstance(value, pd.Series | pd.DataFrame),  # goes through what is in it
}


def result_faults(name: str, about: str, wrong: str, result: object) -> Iterator[str]:
    """What is wrong with a result: that what is right nowhere gave one, or that it doesn't print."""
    taken = TAKEN.get(f"{name} {about}", TAKEN.get(about))
    if wrong in NOWHERE and not (taken and taken(WRONG[wrong]())):
        yield "is taken"
    try:
        if len(repr(result)) > 10_000_000:
            yield "prints without an end"
    except Exception as error:
        yield f"gives what doesn't print: {type(error).__name__}: {str(error)[:80]}"


def walk(walked: Walked, wrong: Iterator[tuple[str, str]] | None = None, **how: bool) -> Iterator[Outcome]:
    """Each wrong thing for each argument of one callable, or those that are named."""
    pairs = wrong or ((each.name, value) for each in walked.inputs for value in WRONG)
    for about, value in pairs:
        yield outcome(walked, about, value, **how)


def prepared() -> None:
    """Have every call watched, and given up if it takes too long."""
    sys.addaudithook(_watch)
    signal.signal(signal.SIGPROF, _give_up)
    os.environ["HEMCALC_SETTINGS"] = ""


def main(words: list[str]) -> int:
    """Walk it all, or what is named, and say what was found."""
    memory = "--memory" in words
    names = [word for word in words if not word.startswith("--")]
    prepared()
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "a", "b").mkdir(parents=True)
        os.chdir(Path(folder, "a", "b"))  # so deep that ../../Ada is still in the folder
        packages = [name for name in names if f"hemcalc.{name}" in modules()] or [""]
        everything = [walked for package in packages for walked in public(package)]
        if single := {name for name in names if name not in packages}:
            everything = [walked for walked in everything if walked.name in single]
        slow: list[Outcome] = []
        longest = largest = Outcome("", "", 0, 0, ())
        many = faulty = refused = 0
        for walked in everything:
            if unknown := walked.unknown():
                print(f"{walked.name}: no good {' or '.join(unknown)} is known; add one to GOOD")
                faulty += 1
                continue
            signal.setitimer(signal.ITIMER_PROF, 10 * GIVEN_UP)  # a right call may be long at work
            try:
                walked.bound()()
            except Exception as error:
                print(
                    f"{walked.name}: its good call fails: {type(error).__name__}: {str(error)[:200]}",
                    flush=True,
                )
                faulty += 1
                continue
            finally:
                plt.close("all")
            for each in walk(walked, memory=memory):
                many += 1
                if each.faults:
                    faulty += 1
                    print(f"{each.at}: {'; '.join(each.faults)}", flush=True)
                if each.sentence:
                    refused += 1
                    longest = max(longest, each, key=lambda e: len(e.sentence))
                    slow = sorted([*slow, each], key=lambda e: -e.seconds)[:5]
                    largest = max(largest, each, key=lambda e: e.peak)
        arguments = sum(len(each.inputs) for each in everything)
        print(
            f"{len(everything)} callables, {arguments} arguments, {len(WRONG)} wrong things: {many:,} calls,"
        )
        print(f"{refused:,} refused, {faulty:,} with a fault. The longest sentence, {len(longest.sentence)}:")
        print(f"    {longest.at}: {longest.sentence}")
        print(
            "The slowest refusals:",
            *(f"    {each.seconds * 1000:.0f} ms {each.at}" for each in slow),
            sep="\n",
        )
        if memory:
            print(f"The largest: {largest.peak / 1e6:.1f} MB {largest.at}")
        os.chdir("/")
    return 1 if faulty else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
