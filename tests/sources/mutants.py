"""Each formula of the ledger changed by one thread or one step, and the figures that catch it.

    python tests/sources/mutants.py

A changed module is compiled from a copy of its source in memory, its functions are given the changed
code, and every row of data/published.csv is computed with them. Nothing on disk changes.
A formula that can be changed without a row failing is not held by any figure: that is the
question this asks. Exits with 1 if there is one.
"""

from __future__ import annotations

import gc
import re
import sys
from ast import literal_eval
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from functools import _lru_cache_wrapper
from inspect import CO_OPTIMIZED
from pathlib import Path
from types import CodeType, FunctionType

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[2]))

from hemcalc.books.comparing import compare, read_rows
from hemcalc.books.rows import Row

PACKAGE = Path(__file__).resolve().parents[2] / "hemcalc"

#: By module: the formula, its code there, and the code changed, in which … is what it was; ¶ ends a line.
_TABLE = """
edge.ledger
    first drawn: c + 1 | return self.clear + 1 | return self.clear + 2
    first drawn: c + 1, taken as c | return self.clear + 1 | return self.clear
    open line: c + w | return self.clear + self.drawn | … + 1
    drawn band: w | ("drawn", self.drawn) | ("drawn", self.drawn + 1)
    fold 1: c + w + h | return self.open_line + self.hem | … + 1
    fold 2: c + w + 2h | return self.open_line + 2 * self.hem | … + 1
    hem counted once | return self.open_line + 2 * self.hem | return self.open_line + self.hem
    cut: fold 2 + t | return self.fold_2 + self.turn | … + 1
    turn forgotten | return self.fold_2 + self.turn | return self.fold_2
    total: as far as the cut | return self.cut¶ | return self.cut + 1¶
    rule: 4h | 4 * self.hem, self.total | 4 * self.hem + 1, self.total
    rule: 4h, taken as 3h | 4 * self.hem, self.total | 3 * self.hem, self.total
    need: total + handling | self.total + self.handling) | self.total + self.handling + 1)
    handling left out of need | self.total + self.handling) | self.total)
    draw line: 2h + t | self.width(2 * self.hem + self.turn) | self.width(2 * self.hem + self.turn + 1)
    draw line in the middle of the open line | self.width(2 * self.hem + self.turn) | \
        self.width(2 * self.hem + self.turn - 1)
    half the hem: a thread more | half_hem = (hem_threads + 1) // 2 | half_hem = hem_threads // 2 + 1
    half the hem rounded down | half_hem = (hem_threads + 1) // 2 | half_hem = hem_threads // 2
    books draw 2 to 10 | BOOKS_DRAW = (2, 10) | BOOKS_DRAW = (3, 10)
    books draw 2 to 10, most | BOOKS_DRAW = (2, 10) | BOOKS_DRAW = (2, 9)
edge.asked
    hem rounded: a thread more | threads = half_up(exact) | … + 1
    hem rounded down | threads = half_up(exact) | threads = int(exact)
    hem rounded up | threads = half_up(exact) | threads = int(round_up(exact))
    hem rounded half to even | threads = half_up(exact) | threads = round(exact)
    handling up: a thread more | threads = int(round_up(exact)) | … + 1
    handling to the nearest | threads = int(round_up(exact)) | threads = half_up(exact)
measure.exact
    half up: one more | // (2 * number.denominator) | … + 1
    half up: half down | 2 * number.numerator + number.denominator) | \
        2 * number.numerator + number.denominator - 1)
edge.margin
    margin: the larger of rule and need | return max(self.rule, self.need) | \
        return min(self.rule, self.need)
    margin: a thread more | return max(self.rule, self.need) | … + 1
    slack: rule less need | return self.rule - self.need | … + 1
    enough: slack of 0 or more | return self.slack >= 0 | return self.slack > 0
stitch.groups
    books group 2 to 5 | BOOKS_GROUP = (2, 5) | BOOKS_GROUP = (3, 5)
    books group 2 to 5, most | BOOKS_GROUP = (2, 5) | BOOKS_GROUP = (2, 4)
measure.counts
    pitch: 1 / count | return Length(1 / self.per_mm, self.state) | \
        return Length(1 / (self.per_mm + 1), self.state)
    threads to a length | size=False) / self.pitch) | size=False) / self.pitch + 1)
measure.fabric
    before the wash: size / (1 - s), warp and weft exchanged | \
        Length(width.mm / (1 - self.shrink_across), before) | \
        Length(width.mm / (1 - self.shrink_down), before)
    before the wash: size × (1 + s) | Length(width.mm / (1 - self.shrink_across), before) | \
        Length(width.mm * (1 + self.shrink_across), before)
edge.bend
    bend: angle × (radius + share × thickness) | return turned * (inside + share * sheet) | \
        return turned * (inside + share * sheet + sheet)
edge.section
    section: where fold 2 lands | (self.arc_mm / 2 - self.neutral * self.thickness_mm) if | \
        (self.arc_mm / 2 - self.neutral * self.thickness_mm + float(self.edge.count.pitch.mm)) if
    section: half the arc forgotten | (self.arc_mm / 2 - self.neutral * self.thickness_mm) if | \
        (self.arc_mm - self.neutral * self.thickness_mm) if
    section: how far fold 2 reaches past | (self.thickness_mm - self.arc_mm / 2) if | \
        (self.thickness_mm - self.arc_mm / 2 + float(self.edge.count.pitch.mm)) if
    section: the finished edge | radius = self.fold_1_inside_mm + self.thickness_mm | \
        … + float(self.edge.count.pitch.mm)
corner.flat
    corner fold: x/hx + y/hy = 2 | Line(1 / hx, 1 / hy, Fraction(2)) | \
        Line(1 / hx, 1 / hy, Fraction(2) + self.across.count.pitch.mm / hx)
    trim: through the fold 2 crossing, = 4 | return Line(fold.a, fold.b, Fraction(4)) | \
        return Line(fold.a, fold.b, Fraction(4) + self.across.count.pitch.mm / self.hems[0])
    trim: allowance square to the fold | fold.c + self.allowance.mm * Fraction(self.steepness) | \
        fold.c + self.allowance.mm * (1 / self.hems[0])
    legs: from the raw corner | return float(x - self.trim[0][0]) | \
        return float(x - self.trim[0][0] + self.across.count.pitch.mm)
    raw corner: where the cut lines cross | return self.across.draw_line.mm, self.down.draw_line.mm | \
        return self.across.draw_line.mm + self.across.count.pitch.mm, self.down.draw_line.mm
corner.mitre
    landing of fold 1 | {"fold 1": hy, | {"fold 1": hy + other.count.pitch.mm,
piece.piece
    piece: margin on both sides | across = self.design[0] + margins.left + margins.right | \
        across = self.design[0] + margins.left
    piece: a thread more across | across = self.design[0] + margins.left + margins.right | … + 1
    cloth to cut: rule or need | return self._size("to cut", lambda edge: edge.rule.margin) | \
        return self._size("to cut", lambda edge: edge.rule.margin + 1)
    cloth by need | return self._size("to cut", lambda edge: edge.rule.need) | \
        return self._size("to cut", lambda edge: edge.rule.need + 1)
    finished size: as far as fold 1 | return self._size("finished", lambda edge: edge.fold_1) | \
        return self._size("finished", lambda edge: edge.fold_1 + 1)
    trimmed size: as far as the cut | return self._size("trimmed", lambda edge: edge.total) | \
        return self._size("trimmed", lambda edge: edge.total + 1)
weave.reach
    tail: threads to cross | covers = edge.cut - first + 1 | covers = edge.cut - first
    tail: threads on the face | shows = edge.fold_1 - first + 1 | shows = edge.fold_1 - first
    tail: its span | return length * self.factor - self.u_turn - eye | … + 1
    tucked end: threads | return min(half_up(exact), edge.hem) | return min(half_up(exact) + 1, edge.hem)
"""


@dataclass(frozen=True)
class Mutant:
    """One change to one place of one module."""

    module: str
    formula: str
    was: str
    now: str


def _read(table: str) -> Iterator[Mutant]:
    module = ""
    for line in table.strip().splitlines():
        if line.startswith(" "):
            formula, was, now = re.split(r" \|\s+", line.strip().replace("¶", "\n"))
            yield Mutant(module, formula, was, now.replace("…", was))
        else:
            module = line


MUTANTS = tuple(_read(_TABLE))


def changed_source(mutant: Mutant) -> str:
    """The module with the change; the place must be there, once."""
    source = PACKAGE.joinpath(*mutant.module.split(".")).with_suffix(".py").read_text("utf-8")
    if source.count(mutant.was) != 1:
        raise SystemExit(f"{mutant.formula}: {mutant.was!r} stands {source.count(mutant.was)} times in it")
    return source.replace(mutant.was, mutant.now)


@contextmanager
def changed(mutant: Mutant) -> Iterator[None]:
    """Put the changed code into the functions that are there, or the changed constant wherever it is had."""
    name = f"hemcalc.{mutant.module}"
    anew = _codes(compile(changed_source(mutant), str(sys.modules[name].__file__), "exec"))
    functions = [each for each in gc.get_objects() if isinstance(each, FunctionType)]
    # From Python 3.14 on, what reads a function's annotations is one too, and all have this name.
    own = [each for each in functions if each.__module__ == name and each.__name__ != "__annotate__"]
    put = [(each, "__code__", anew.get(each.__code__.co_qualname, each.__code__)) for each in own]
    if not any(each.__code__ != code for each, _, code in put):
        constant, _, value = mutant.now.partition(" = ")
        house = [module for other, module in sys.modules.items() if other.startswith("hemcalc.")]
        put = [(module, constant, literal_eval(value)) for module in house if hasattr(module, constant)]
    was = [(holder, kind, getattr(holder, kind)) for holder, kind, _ in put]
    try:
        for holder, kind, value in put:
            setattr(holder, kind, value)
        yield
    finally:
        for holder, kind, value in was:
            setattr(holder, kind, value)


def _codes(code: CodeType) -> dict[str, CodeType]:
    """The code of each function that is made as a module is loaded, by its name."""
    inner = [each for each in code.co_consts if isinstance(each, CodeType)]
    found = {each.co_qualname: each for each in inner}
    for each in inner:
        found |= _codes(each) if not each.co_flags & CO_OPTIMIZED else {}  # a class
    return found


def failing(mutant: Mutant | None) -> list[tuple[str, bool, str]]:
    """The rows that don't come out as they should: id, whether published and computed, and title."""
    for kept in gc.get_objects():
        if isinstance(kept, _lru_cache_wrapper) and kept.__module__.startswith("hemcalc."):
            kept.cache_clear()
    with changed(mutant) if mutant else nullcontext():
        return [
            (row.id, row.published and row.grade == "computed", row.source.title)
            for row in read_rows()
            # How a sheet is cut up hangs on no formula of the ledger, and takes long.
            if row.topic != "cutting" and not _holds(row)
        ]


def _holds(row: Row) -> bool:
    try:
        return compare(row).agrees == row.agrees
    except (ArithmeticError, ValueError):  # a change may make an input impossible, and that shows
        return False


def main() -> int:
    """Print the table; 1 if a change goes unseen."""
    if wrong := failing(None):
        print("Unchanged, these rows fail already:", *wrong)
        return 1
    unseen = others = 0
    print(f"{'formula':56} {'rows':>4}  caught by")
    for mutant in MUTANTS:
        rows = failing(mutant)
        printed = [row for row in rows if row[1]]
        unseen += not rows
        others += bool(rows) and not printed
        first = (printed or rows or [("NOTHING", "", "")])[0]
        by = f"{first[0]} ({first[2]})" if first[2] else first[0]
        print(f"{mutant.formula:56} {len(rows):4}  {by}")
    print(
        f"{len(MUTANTS)} changes: {len(MUTANTS) - unseen - others} caught by a computed published figure, "
        f"{others} only by a row of a lower grade or of memory, {unseen} by none."
    )
    if wrong := failing(None):
        print("Something of a change has stayed:", *wrong)
    return 1 if unseen or wrong else 0


if __name__ == "__main__":
    sys.exit(main())
