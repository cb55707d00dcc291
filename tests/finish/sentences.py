"""Print every sentence of the steps and the sheets' numbers, for examples and unlike pieces, to be read.

    python tests/finish/sentences.py [WORD]

A sentence that several pieces share is printed once; with WORD only those that have it.
"""

import re
import sys
from collections.abc import Iterator
from itertools import chain

from hemcalc import EXAMPLES, Fabric, Kit, Piece, Sides, finish_steps
from hemcalc.finish import counting_plan
from hemcalc.paper.numbers import edge_rows, groups_said, kit_rows, made_rows, notes_of
from hemcalc.piece.sizes import BEGINNINGS

_EVEN = Piece(Fabric("28/in", thickness="0.4 mm", washed=True), (224, 224), hem="1/2 in", clear=6)
#: Pieces unlike the examples and each other: the ways of saying that no example needs.
UNLIKE = {
    "a square corner": _EVEN.with_changes(corner="square", allowance="1 mm"),
    "whole mitres": _EVEN.with_changes(corner="untrimmed"),
    "whole square corners": _EVEN.with_changes(corner="uncut"),
    "no turn": _EVEN.with_changes(turn=0),
    "one thread drawn": _EVEN.with_changes(drawn=1),
    "six threads drawn": _EVEN.with_changes(drawn=6, through="all layers"),
    "nothing clear": _EVEN.with_changes(clear=0, allowance="1/4 in"),
    "tiny": Piece(Fabric("22/in"), (10, 26), hem=9, same="threads", clear=Sides(0, 1, 5, 6)),
    "no turn across": Piece(Fabric("20/in", "40/in"), (80, 80), hem="1/2 in", clear=4, turn="1/50 in"),
    "fine and large": Piece(Fabric("60/in", washed=True), (1201, 900), hem=4, same="threads", clear=8),
}


def sentences() -> Iterator[tuple[str, str]]:
    """Each sentence with the step that it stands in, as it is said first of all."""
    seen = set()
    for name, piece in {**EXAMPLES, **UNLIKE}.items():
        for beginning in BEGINNINGS:
            for hand, worked, unit in (
                ("right", None, "in"),
                ("left", None, "cm"),
                ("right", "right to left", "mm"),
            ):
                asked = {"hand": hand, "worked": worked, "unit": unit, "beginning": beginning}
                plan = counting_plan(piece, motif=(6, 8), place="bottom right", inset=2, repeat=4, corner=3)
                for step in finish_steps(piece, counting=plan if unit == "mm" else None, **asked):
                    for text in (step.title + ".", step.task, step.check):
                        for sentence in re.split(r"(?<=[.)]) (?=[A-Z(])", text):
                            like = re.sub(r"(?:≈ )?\d+(?: \d+/\d+|[./]\d+)?", "#", sentence)
                            if like not in seen:
                                seen.add(like)
                                yield f"{name}, {beginning}: {step.number} {step.title}", sentence


def numbers() -> Iterator[tuple[str, str]]:
    """Each line of the numbers on a sheet and a key, with the piece that it is of."""
    for name, piece in {**EXAMPLES, **UNLIKE}.items():
        for unit, beginning in zip(("in", "cm", "mm"), BEGINNINGS, strict=True):
            kit = Kit("Ada", piece, name, beginning=beginning)
            for row in (*made_rows(kit, unit), *kit_rows(kit), *edge_rows(piece, unit)):
                yield f"{name}, on paper, in {unit}", " | ".join(row)
            for said in (*notes_of(piece), *groups_said(kit)):
                yield f"{name}, on paper, in {unit}", said


if __name__ == "__main__":
    place = ""
    for where, sentence in chain(sentences(), numbers()):
        if all(word.lower() in sentence.lower() for word in sys.argv[1:]):
            if where != place:
                print(f"\n{where}")
            place = where
            print(f"    {sentence}")
