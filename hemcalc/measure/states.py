"""The state of the cloth that a length was reckoned for: before or after its first wash.

A length with a state is added to, and compared with, one of the same state only, just as
inches are not added to hours; and where it is not what a ruler reads on the cloth in hand,
its words say so.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from hemcalc.measure.errors import HemError


@dataclass(frozen=True, slots=True)
class State:
    """Whether cloth has had its first wash, and whether that is how it is in hand.

    Two states are equal if both are washed, or neither is, whoever has such cloth in hand.

    Examples
    --------
    >>> State(washed=True, in_hand=False).text(), State(washed=True).text()
    ('after the wash', '')
    >>> State(washed=True, in_hand=False) == State(washed=True)
    True
    """

    washed: bool
    #: Whether a ruler reads such lengths on the cloth in hand, so that nothing need be said.
    in_hand: bool = field(default=True, compare=False)

    @property
    def when(self) -> str:
        """When cloth is in this state."""
        return "after the wash" if self.washed else "before the wash"

    def text(self) -> str:
        """What must be said beside a length; empty if it is one of the cloth in hand."""
        return "" if self.in_hand else self.when


def go_together(one: State | None, other: State | None) -> bool:
    """Whether lengths of these states may be added or compared; one without a state goes with either."""
    return one is None or other is None or one == other


def joint_state(one: State | None, other: State | None) -> State | None:
    """The state of what two lengths make together; a length without a state goes with either.

    Examples
    --------
    >>> joint_state(None, State(washed=True))
    State(washed=True, in_hand=True)
    >>> joint_state(State(washed=False), State(washed=True))
    Traceback (most recent call last):
    hemcalc.HemError: A length before the wash and one after the wash don't go together, ...
    """
    if one is None or other is None:
        return other if one is None else one
    if not go_together(one, other):
        raise HemError(
            f"A length {one.when} and one {other.when} don't go together, so take both from the same state "
            "of the cloth; for example both from Piece.edges_in_hand."
        )
    return State(one.washed, one.in_hand and other.in_hand)


def said_of(state: State | None) -> str:
    """What stands behind a number of this state, a space before it; empty where nothing need be said."""
    return f" {state.text()}" if state and state.text() else ""
