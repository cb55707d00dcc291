"""What buying allows for beside the pieces: the shop's ends, every cut, the wash, and a spare.

Each is the leader's to choose, and each is said. The usual ones are common practice of the trade,
with no published source: how far a shop's cut strays from the thread differs from bolt to bolt.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import share
from hemcalc.measure.words import percent

_MAX_LOST = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class BoltAllowances:
    """What is bought beside the pieces.

    Parameters
    ----------
    ends : str or Length
        What squaring takes off *each* of the two ends that the shop cut.
    each_cut : str or Length
        What each cut costs: a drawn thread, or what the edge frays.
    spare : str or Length
        Length to have in hand for what goes wrong.
    off_length, off_width : str, Fraction, Decimal, int or float
        Share that the wash takes off the length and off the usable width, where the linen is
        washed *before* it is cut.

    Examples
    --------
    >>> allow = BoltAllowances(ends="2 cm", each_cut="1 mm", off_length="8 %", off_width="3 %")
    >>> allow.to_have(Length("142 cm")).text("cm"), allow.width(Length("150 cm")).text("cm")
    ('≈ 158.7 cm', '145.5 cm')
    """

    ends: Length
    each_cut: Length
    spare: Length
    off_length: Fraction
    off_width: Fraction

    def __init__(
        self,
        ends: object = "0 cm",
        each_cut: object = "0 mm",
        spare: object = "0 cm",
        off_length: object = 0,
        off_width: object = 0,
    ) -> None:
        for name, length in (("ends", ends), ("each_cut", each_cut), ("spare", spare)):
            object.__setattr__(self, name, as_length(length, name, size=False))
        for name, lost in (("off_length", off_length), ("off_width", off_width)):
            object.__setattr__(self, name, share(lost, name, most=_MAX_LOST))

    def __repr__(self) -> str:
        return f"BoltAllowances({self.text('cm').removeprefix('Allowed: ').rstrip('.')})"[:100]

    def to_have(self, used: Length) -> Length:
        """The length to have from the shop so that so much is left to cut from, exact."""
        return Length((as_length(used, "used") + self.spare + 2 * self.ends).mm / (1 - self.off_length))

    def left_of(self, bought: Length) -> Length:
        """The length to cut from, washed and squared, of so much from the shop."""
        return as_length(bought, "bought") * (1 - self.off_length) - 2 * self.ends

    def width(self, bought: Length) -> Length:
        """The usable width when it is cut, of so much in the shop."""
        return as_length(bought, "bought") * (1 - self.off_width)

    @property
    def washed_first(self) -> bool:
        """Whether the linen is washed before it is cut."""
        return bool(self.off_length or self.off_width)

    def text(self, unit: str = "in") -> str:
        """What is allowed, and for what, in a sentence.

        Examples
        --------
        >>> BoltAllowances(ends="2 cm", each_cut="1 mm").text("cm")
        'Allowed: 2 cm to square each of the two ends, 0.1 cm for each cut.'
        >>> NOTHING.text()
        'Nothing is allowed for squaring the ends, for cuts or for a wash.'
        """
        said = []
        if self.washed_first:
            lost = f"{percent(self.off_length)} off the length and {percent(self.off_width)} off the width"
            said.append(f"{lost} for the wash before cutting")
        if self.ends:
            said.append(f"{self.ends.text(unit)} to square each of the two ends")
        if self.each_cut:
            said.append(f"{self.each_cut.text(unit)} for each cut")
        if self.spare:
            said.append(f"{self.spare.text(unit)} to spare")
        if not said:
            return "Nothing is allowed for squaring the ends, for cuts or for a wash."
        return f"Allowed: {', '.join(said)}."


#: For bare rectangles, and where everything is allowed for already.
NOTHING = BoltAllowances()


def usual_allowances(unit: str) -> BoltAllowances:
    """What is allowed unless the leader says otherwise: 1 in at each end and 1/16 in a cut, or 2 cm and 1 mm.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> usual_allowances("cm").ends.text("cm"), usual_allowances("in").ends.text("in")
    ('2 cm', '1 in')
    """
    return BoltAllowances("1 in", "1/16 in") if unit == "in" else BoltAllowances("2 cm", "1 mm")
