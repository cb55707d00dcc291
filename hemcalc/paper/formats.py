"""The sheets of paper that come out of the printer, and how much of each is printed on."""

from __future__ import annotations

from dataclasses import dataclass

from hemcalc.measure.errors import one_of


@dataclass(frozen=True, slots=True)
class PaperSize:
    """A sheet of paper, mm."""

    name: str
    width: float
    height: float

    #: Left free all round: what printers can't reach, with room to spare.
    margin = 10.0
    #: Kept at the bottom for the bar to hold a ruler against.
    foot = 15.0

    @property
    def room(self) -> tuple[float, float]:
        """Width and height that a page's matter may take, mm."""
        return self.width - 2 * self.margin, self.height - 2 * self.margin - self.foot


#: ISO 216 for A4 (as in a summary, "ISO 216", 2007, table), which allows the sheet itself 2 mm more
#: or less: so nothing is measured from its edges. Letter is 8 1/2 by 11 in, from memory.
PAPERS = {"A4": PaperSize("A4", 210.0, 297.0), "Letter": PaperSize("Letter", 8.5 * 25.4, 11 * 25.4)}


def paper_size(name: str) -> PaperSize:
    """The sheet of this name.

    Examples
    --------
    >>> paper_size("A4").room
    (190.0, 262.0)
    """
    return PAPERS[one_of(name, tuple(PAPERS), "paper")]
