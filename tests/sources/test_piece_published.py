"""Worked distances of the handbooks that bear on a whole piece.

Few print all that a size follows from: this one prints a cloth and a line on it, and what
follows is held against the piece. Tolerance is half the last digit printed.
"""

import pytest

from hemcalc import Fabric, Length, Piece


# A handkerchief of 12 by 12 in, the first thread drawn 1/2 in from the raw edge, H023; hem and
# turning are not printed, so ours are any that make half an inch together.
# Source: The One-Eyed Fairies (children's sewing book), Hanley, not seen, chapter XXI.
@pytest.mark.parametrize(("hem", "turn"), [(6, 3), (5, 5), (7, 1)])
def test_the_published_handkerchief_keeps_its_size_and_its_line(hem, turn):
    cloth, count, clear, drawn = 12 * 30, 30, 0, 2
    margin = clear + drawn + 2 * hem + turn
    piece = Piece(
        Fabric(f"{count}/in", washed=True),
        (cloth - 2 * margin, cloth - 2 * margin),
        hem=hem,
        turn=turn,
        clear=clear,
        drawn=drawn,
        same="threads",
    )
    assert piece.trimmed_size.in_hand == (Length("12 in"),) * 2
    for edge in piece.edges:
        assert float(edge.draw_line.inches) == pytest.approx(0.5, abs=0.05)
    # Hemmed, it is smaller by hem and turning on each side.
    smaller = Length("12 in") - 2 * piece.edges.left.width(hem + turn)
    assert piece.finished_size.after == (smaller, smaller)
