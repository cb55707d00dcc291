"""The cautions that stand on paper wherever a blade, a needle, an iron or a long sitting comes in.

Common practice, no published source; each defers to the tool's own instructions and the
workshop's rules.
"""

from __future__ import annotations

__all__ = ["BLADE", "CHILDREN", "EYES", "IRON", "NEEDLES", "PAPER_BLADE"]

BLADE = (
    "Blades: cut away from the hand, slide one blade under one thread only, and cover points when "
    "they are laid down. The tool's own instructions and the workshop's rules come first."
)
PAPER_BLADE = (
    "Blades: cut paper out with scissors, away from the hand and on a table, and close them after "
    "each cut. The tool's own instructions and the workshop's rules come first."
)
NEEDLES = (
    "Needles: count them out and in again, keep each in the work or in its case, and never in the mouth. "
    "Cut thread, never bite it."
)
IRON = (
    "Iron: follow its own instructions, try it on a scrap first, keep fingers off the fold and the iron "
    "off pins with plastic heads. Keep it out of children's reach, and never leave it on unwatched."
)
EYES = "Eyes and neck: work in good light, use a magnifier if it helps, bring the work up, and take breaks."
CHILDREN = "Children work only with an adult beside them and under the workshop's own rules."
