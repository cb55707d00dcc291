"""A learner's kit: her piece and hand, the cloth to cut for it, its thread, needles and basting.

Every number follows from the piece; the kit adds who works it and with what.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from hemcalc.bolt.cut_sizes import CutSize
from hemcalc.finish.steps import finish_steps
from hemcalc.measure.errors import of_type, one_of, true_or_false
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import UNITS
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides
from hemcalc.piece.sizes import BEGINNINGS
from hemcalc.stitch.groups import Spacing, as_group, way_of
from hemcalc.stitch.plan import ThreadPlan
from hemcalc.stitch.spacing import piece_spacings
from hemcalc.stitch.thread import thread_needed
from hemcalc.workshop.bag import Counted, Use, uses_of
from hemcalc.workshop.goods import as_name, long_text


def turned(piece: Piece) -> Piece:
    """The piece laid with its across along the warp; turned twice, it is as it was.

    Its threads are fixed, so its lengths are not exchanged: what its fabric then calls warp is the cloth's
    weft, and the other way round, and it is planned anew.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc.measure.fabric import Fabric
    >>> piece = Piece(Fabric("36/in", "34/in"), (320, 240), hem="3/8 in", clear=8)
    >>> piece.edges.left.hem, turned(piece).edges.left.hem
    (14, 13)
    >>> turned(turned(piece)) == piece
    True
    """
    cloth = piece.fabric
    return piece.with_changes(
        fabric=replace(
            cloth,
            warp=cloth.weft,
            weft=cloth.warp,
            shrink_warp=cloth.shrink_weft,
            shrink_weft=cloth.shrink_warp,
        )
    )


def cut_size_of(name: object, piece: Piece, quantity: object = None, unit: str = "in") -> CutSize:
    """The size of a piece as it is cut, up to the ruler's mark, and its size when it is turned.

    Examples
    --------
    On 36 and 34 threads to the inch: turned, what was counted at 36 is counted at 34.

    >>> from hemcalc.measure.fabric import Fabric
    >>> piece = Piece(Fabric("36/in", "34/in"), (300, 220), hem=10, same="threads", clear=9)
    >>> cloth = cut_size_of("cloth", piece, 6)
    >>> cloth.text(), [side.text("in") for side in cloth.turned]
    ('6 of cloth, 10 5/8 in across × 8 7/8 in down', ['8 3/8 in', '11 1/4 in'])
    """
    of_type(piece, Piece, "piece", "example('coaster')")
    down, across = turned(piece).cut_size.to_cut(unit)
    return CutSize(name, *piece.cut_size.to_cut(unit), quantity, turned=(across, down))


_MAX_NEEDLES, _MAX_PINS = 20, 200


@dataclass(frozen=True)
class Kit:
    """What one learner is handed.

    Refused if a side can't be made of such groups.

    Parameters
    ----------
    kind : str
        What the piece is called.
    hand, group, worked
        As for `space_stitches`.
    thread, basting, needle : str
        Names of the working thread, the basting thread and the needle, as on the shopping list.
    needles : int
        How many needles she is handed, 1 or more.
    plan : ThreadPlan, optional
        The thread that the piece takes, as from `thread_needed`; worked out if left out.
    linen : str
        Name of the linen that it is cut from, as on the shopping list; needed where several of
        the workshop's linens are of the piece's fabric.
    turned : bool
        Whether the piece is cut with its across along the warp; `piece` is then the one that is
        planned so, as `turn` makes it.
    sharp : str
        Name of the needle for basting and mitres, as on the shopping list, if it is to be bought.
    sharps, pins : int
        How many sharp needles and pins she is handed, 0 or more.
    beginning : str
        One of `BEGINNINGS`: what the cloth is when she begins.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> kit = Kit("Ada", example("coaster"), kind="coaster")
    >>> kit.cloth_text("in")
    'cut 6 in across × 6 in down (148 × 156 threads, rounded up to 1/8 in)'
    >>> kit.thread_text(), kit.thread_to_have.text("cm")
    ('2.5 m to 3 m', '300 cm')
    """

    learner: str
    piece: Piece
    kind: str = "piece"
    hand: str = "right"
    group: int = 4
    thread: str = "working thread"
    basting: str = "basting thread"
    needle: str = "tapestry needle"
    needles: int = 1
    plan: ThreadPlan | None = None
    linen: str = ""
    turned: bool = False
    worked: str | None = None
    beginning: str = "blank, to size"
    sharp: str = "sharp needle"
    sharps: int = 1
    pins: int = 12

    def __post_init__(self) -> None:
        of_type(self.piece, Piece, "piece", "example('coaster')")
        if self.plan is not None:
            of_type(self.plan, ThreadPlan, "plan", "thread_needed(piece)")
        for name, like in (
            ("learner", "Ada"),
            ("kind", "coaster"),
            ("thread", "white thread"),
            ("basting", "basting thread"),
            ("needle", "tapestry needle 24"),
            ("sharp", "sharp needle 9"),
        ):
            object.__setattr__(self, name, as_name(getattr(self, name), name, like))
        object.__setattr__(self, "linen", as_name(self.linen, "linen", "white linen", empty=True))
        true_or_false(self.turned, "turned")
        way_of(self.hand, self.worked)
        one_of(self.beginning, BEGINNINGS, "beginning")
        object.__setattr__(self, "group", as_group(self.group))
        needles = whole_threads(self.needles, "needles", least=1, most=_MAX_NEEDLES, example=1, of="needles")
        object.__setattr__(self, "needles", needles)
        for name, most in (("sharps", _MAX_NEEDLES), ("pins", _MAX_PINS)):
            number = whole_threads(getattr(self, name), name, most=most, example=1, of=name)
            object.__setattr__(self, name, number)
        # Whatever can't be made is refused here, not when it is first looked at.
        _ = self.spacings

    def __repr__(self) -> str:
        return f"Kit({self.learner}: {self.kind}, {self.hand} hand{', turned' if self.turned else ''})"

    @property
    def upright(self) -> Piece:
        """The piece as it is laid with its down along the warp."""
        return turned(self.piece) if self.turned else self.piece

    def turn(self) -> Kit:
        """The kit with its piece laid the other way, and planned anew for it."""
        return replace(self, piece=turned(self.piece), turned=not self.turned)

    @property
    def way_text(self) -> str:
        """What to mind of a piece that is cut turned; empty of any other.

        Examples
        --------
        >>> from hemcalc.piece.examples import example
        >>> Kit("Ada", example("coaster")).turn().way_text[:48]
        'Cut turned: its across runs along the warp, and '
        """
        if not self.turned:
            return ""
        return (
            "Cut turned: its across runs along the warp, and what is called its warp is the linen's weft. "
            "All its numbers allow for that."
        )

    @cached_property
    def spacings(self) -> Sides[Spacing]:
        """How the stitches of each open line are spaced, worked this way."""
        return piece_spacings(self.piece, self.group, self.hand, self.worked)

    @cached_property
    def thread_plan(self) -> ThreadPlan:
        """The thread that the piece takes: as given, or by the path of its stitches."""
        if self.plan is not None:
            return self.plan
        return thread_needed(self.piece, self.group)

    @property
    def thread_range(self) -> tuple[Length, Length]:
        """Working thread cut from the ball, least and most, in whole needlefuls."""
        return self.thread_plan.to_cut

    @property
    def thread_to_have(self) -> Length:
        """Working thread in the kit: the most, rounded up to 50 cm."""
        return self.thread_plan.buy()

    @property
    def basting_to_have(self) -> Length:
        """Basting thread in the kit, for every line that is basted and the raw edge, up to 50 cm."""
        return Length(sum(use.to_have.mm for use in self.uses[1:])).rounded_up("50 cm")

    @cached_property
    def uses(self) -> tuple[Use, ...]:
        """The thread for each job, the working thread's first."""
        steps = finish_steps(self.piece, group=self.group, hand=self.hand, beginning=self.beginning)
        return uses_of(self.piece, self.thread_plan, steps, self.thread, self.basting)

    @property
    def counted(self) -> tuple[Counted, ...]:
        """Needles and pins, by job, that are counted out and in."""
        found = (
            Counted(self.needle, self.needles, "darning and hem stitch"),
            Counted(self.sharp, self.sharps, "basting, overcasting and mitres"),
            Counted("pins", self.pins, "holding hems till they are basted"),
        )
        return tuple(each for each in found if each.quantity)

    def to_cut(self, unit: str | None = None) -> tuple[Length, Length]:
        """Cloth to cut, as it is in hand, across and down, rounded up to the ruler's mark."""
        return self.piece.cut_size.to_cut(unit)

    def cloth_text(self, unit: str | None = None) -> str:
        """Cloth to cut, in words."""
        return self.piece.cut_size.text(unit)

    def thread_text(self, unit: str = "cm") -> str:
        """The range of working thread, in yards for inches and else in metres."""
        one_of(unit, UNITS, "unit")
        least, most = (long_text(end, unit) for end in self.thread_range)
        return least if least == most else f"{least} to {most}"


@dataclass(frozen=True, slots=True)
class CountedOut:
    """Needles or pins of one name, counted for a whole class."""

    name: str
    in_bags: int
    in_spare_bags: int
    loose: int

    @property
    def in_all(self) -> int:
        """All of them, which the shopping list has and the key counts in again."""
        return self.in_bags + self.in_spare_bags + self.loose

    def text(self) -> str:
        """Their name and how many there are."""
        return f"{self.name}: {self.in_all}"


def counted_out(kits: Sequence[Kit], spares: Sequence[Kit], loose: int) -> tuple[CountedOut, ...]:
    """Needles and pins of each name, in these kits' bags and among the spares; needles may lie loose too."""
    bags, spare_bags = Counter[str](), Counter[str]()
    pointed = {name for kit in (*kits, *spares) for name in (kit.needle, kit.sharp)}
    for some, into in ((kits, bags), (spares, spare_bags)):
        for each in (each for kit in some for each in kit.counted):
            into[each.name] += each.quantity
    return tuple(
        CountedOut(name, bags[name], spare_bags[name], loose if name in pointed else 0)
        for name in dict.fromkeys([*bags, *spare_bags])
    )
