"""The trade's scales of needle and thread: which number is how thick, and who says so.

On the scales of tapestry needles and of pearl cotton the larger number is the finer. What a
number measures is the trade's custom, not a standard, so each figure says where it is from,
and most say 'from memory': weigh a ball or measure a needle, and use that instead.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import whole_among, whole_threads
from hemcalc.yarn.density import LinearDensity

T = TypeVar("T")

_MEMORY = "from memory, not read in any source"
_NEEDLE_RANGE = 'numbers 13 to 26 in "Sewing needles", web page, author not named, n.d., table and note 1'
_BALL = f"{_MEMORY}: what is sold under this number varies; weigh yours"


@dataclass(frozen=True, slots=True)
class TapestryNeedle:
    """A blunt needle for counted work: the larger its number, the finer."""

    size: int
    diameter_mm: float
    source: str

    def __repr__(self) -> str:
        return f"TapestryNeedle(size {self.size}, {self.diameter_mm:.2f} mm)"

    def text(self) -> str:
        """The needle in words, with where its diameter is from."""
        return f"tapestry needle {self.size}, {self.diameter_mm:.2f} mm ({self.source})"


@dataclass(frozen=True, slots=True)
class PearlCotton:
    """A twisted cotton thread by its trade number: the larger, the finer."""

    number: int
    #: The finest and the coarsest; None where no figure is known, not even from memory.
    tex: tuple[int, int] | None
    source: str

    @property
    def density(self) -> LinearDensity | None:
        """The middle of the range, for want of yours; None where there is none."""
        return None if self.tex is None else LinearDensity(Fraction(sum(self.tex), 2))

    def __repr__(self) -> str:
        return f"PearlCotton(number {self.number}, {self._size})"

    def text(self) -> str:
        """The thread in words, with where its linear density is from."""
        return f"pearl cotton {self.number}, {self._size} ({self.source})"

    @property
    def _size(self) -> str:
        return "linear density not known" if self.tex is None else "{} to {} tex".format(*self.tex)


@dataclass(frozen=True, slots=True)
class BookPair:
    """What a handbook takes together: sewing cotton and needles (sharps), by number."""

    work: str
    threads: tuple[int, int]
    needles: tuple[int, int]
    source: str


#: Tapestry needles, coarse to fine.
TAPESTRY_NEEDLES = tuple(
    TapestryNeedle(size, diameter, f"diameter {_MEMORY}; " + scale)
    for size, diameter, scale in (
        (18, 1.24, _NEEDLE_RANGE),
        (20, 1.07, _NEEDLE_RANGE),
        (22, 0.91, _NEEDLE_RANGE),
        (24, 0.76, _NEEDLE_RANGE),
        (26, 0.61, _NEEDLE_RANGE),
        (28, 0.53, f"the number too, beyond the {_NEEDLE_RANGE}"),
    )
)

#: Pearl cottons, coarse to fine.
PEARL_COTTONS = (
    PearlCotton(3, (300, 400), _BALL),
    PearlCotton(5, (190, 250), _BALL),
    PearlCotton(8, (110, 150), _BALL),
    PearlCotton(12, (75, 95), _BALL),
    PearlCotton(16, None, "no figure; weigh a ball"),
)

_KROLIK = "Hand Sewing Lessons, Sarah E. Krolik (author from memory, not seen on page), c.1901 (not seen), "
_HAPGOOD = "School Needlework, Olive C. Hapgood, 1893, "
_WOOLMAN = "A Sewing Course for Teachers, Mary Schenck Woolman, not seen, "

#: Printed pairs of sewing cotton and needle; ranges overlap at their ends in print.
BOOK_PAIRS = (
    BookPair("sewing", (30, 40), (7, 7), _KROLIK + "Needles and Thread"),
    BookPair("sewing", (40, 50), (8, 8), _KROLIK + "Needles and Thread"),
    BookPair("sewing", (60, 70), (9, 9), _KROLIK + "Needles and Thread"),
    BookPair("sewing", (80, 90), (10, 10), _KROLIK + "Needles and Thread"),
    BookPair("sewing", (90, 100), (11, 11), _KROLIK + "Needles and Thread"),
    BookPair("hemming cotton cloth", (70, 80), (9, 9), _HAPGOOD + "Knots / table of needles"),
    BookPair("basting cotton cloth", (36, 40), (7, 8), _HAPGOOD + "Knots / table"),
    BookPair("hem stitch on crash", (50, 50), (8, 8), _HAPGOOD + "Hem-Stitch"),
    BookPair("hem stitch on fine sheer linen", (100, 150), (10, 12), _WOOLMAN + "Nos. 46 and 47"),
    BookPair("hem stitch on a pillow case", (70, 70), (9, 9), _KROLIK + "Model 9"),
)


def tapestry_needle(size: int) -> TapestryNeedle:
    """The tapestry needle of a number.

    Examples
    --------
    >>> tapestry_needle(24).diameter_mm
    0.76
    >>> print(tapestry_needle(26).text())
    tapestry needle 26, 0.61 mm (diameter from memory, not read in any source; numbers 13 to 26 in ...
    """
    return _of_number(
        size, {needle.size: needle for needle in TAPESTRY_NEEDLES}, "size", "tapestry needle", 24
    )


def pearl_cotton(number: int) -> PearlCotton:
    """The pearl cotton of a number.

    Examples
    --------
    >>> print(pearl_cotton(8).text())
    pearl cotton 8, 110 to 150 tex (from memory, not read in any source: what is sold ...; weigh yours)
    """
    return _of_number(
        number, {thread.number: thread for thread in PEARL_COTTONS}, "number", "pearl cotton", 8
    )


def _of_number(number: object, scale: Mapping[int, T], about: str, what: str, example: int) -> T:
    if (known := whole_among(number, scale)) is not None:
        return scale[known]
    numbers = ", ".join(str(each) for each in scale)
    said = shown(number)
    raise HemError(f"{about} is {said}, but must be a {what} of {numbers}; for example {example}.", about)


def book_pairs(thread: int) -> tuple[BookPair, ...]:
    """What the handbooks print for a sewing cotton of this number; empty if none prints it.

    Examples
    --------
    >>> [(pair.work, pair.needles) for pair in book_pairs(50)]
    [('sewing', (8, 8)), ('hem stitch on crash', (8, 8))]
    """
    thread = whole_threads(thread, "thread", least=1, example=50, of="")
    return tuple(pair for pair in BOOK_PAIRS if pair.threads[0] <= thread <= pair.threads[1])
