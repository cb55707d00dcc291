"""What is meant where nothing is said: the same in every function, and what the trade takes as usual."""

import importlib
import inspect
import pkgutil

ROOMS = [
    "measure",
    "edge",
    "yarn",
    "bolt",
    "corner",
    "piece",
    "weave",
    "stitch",
    "sums",
    "finish",
    "books",
    "workshop",
    "course",
]
#: By the name of an input. Two threads drawn, groups of four, the right hand: common practice of the trade.
USUAL = {
    **{"drawn": 2, "group": 4, "over": 1, "hand": "right", "worked": None, "handling": 0, "turn": None},
    **{"depth": None, "seam_over": 2, "within": 3, "every": 10, "inset": 0, "repeat": None, "motif": None},
    **{"side": "left", "level": 1, "grain": "fixed", "effort": 1, "loss": 0, "neutral": 0.5, "progress": 1.0},
    **{"needles": 1, "sharps": 1, "pins": 12, "learners": 20, "eye": 0, "crimp": 0, "face": True},
    **{"turned": False, "replace": False, "size": True, "sewing": False, "washed": False, "thread": 0.0},
    **{
        "shrink_warp": 0,
        "shrink_weft": 0,
        "off_length": 0,
        "off_width": 0,
        "spare_needles": 0,
        "same": "width",
    },
}
#: Where the same word means another thing.
OTHERWISE = {
    **{"Sample.within": "5 %", "Pace.within": "20 %", "Piece.eye": "1 cm", "Kit.thread": "working thread"},
    **{"StripCutter.strips.every": 1, "Piece.from_stitches.over": 2},
    **{"Asked.side": "", "_cloth_yarn.crimp": "0 %"},
}


def inputs():
    """Every input of the core that may be left out: its function and its name, and what is meant then."""
    for room in ROOMS:
        package = importlib.import_module(f"hemcalc.{room}")
        for _, name, _ in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            for thing in vars(importlib.import_module(name)).values():
                if getattr(thing, "__module__", None) == name and callable(thing):
                    methods = vars(thing).values() if inspect.isclass(thing) else ()
                    for each in (thing, *filter(inspect.isfunction, methods)):
                        if not inspect.isclass(each) or "__init__" in vars(each):
                            for input_ in inspect.signature(each).parameters.values():
                                if input_.default is not input_.empty:
                                    where = each.__qualname__.removesuffix(".__init__")
                                    yield f"{where}.{input_.name}", input_.name, input_.default


def test_what_is_not_said_means_the_same_everywhere():
    found = set()
    for where, name, meant in inputs():
        if name in USUAL and (
            meant is not None or USUAL[name] is None
        ):  # None is for "worked out from the rest"
            assert meant == OTHERWISE.get(where, USUAL[name]), where
            found.add(name)
    assert found == set(USUAL)
