"""The states of a draft and of a departure, and every change between them that is allowed.

All that concerns states is in the two tables below; what is absent from them is forbidden, and a final state has an
empty row. The store repeats the guard: a row changes only where the old state still stands.
"""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType


class DraftState(StrEnum):
    """Where a draft stands."""

    WAITING = "waiting"
    """For the maker to decide."""
    APPROVED = "approved"
    """Its text departs."""
    SET_ASIDE = "set_aside"
    """The maker does not want it sent."""
    REPLACED = "replaced"
    """A later version stands in its place."""


class DraftEvent(StrEnum):
    """What happens to a draft."""

    APPROVE = "approve"
    SET_ASIDE = "set_aside"
    REPLACE = "replace"


class DepartureState(StrEnum):
    """Where one part of an approved text stands."""

    QUEUED = "queued"
    """It goes as soon as it is due."""
    GOING = "going"
    """It was claimed and is being handed to the channel."""
    GONE = "gone"
    """The channel took it; a pasted text was copied."""
    FAILED = "failed"
    """The channel will never take it."""
    UNSURE = "unsure"
    """Handed over, and nobody knows whether it went; the maker settles it."""
    HELD = "held"
    """The customer wrote again before it went; the maker is asked."""
    DROPPED = "dropped"
    """It was held and will not be sent."""


class DepartureEvent(StrEnum):
    """What happens to a departure."""

    CLAIM = "claim"
    """A sender takes it; committed before anything is sent."""
    ARRIVE = "arrive"
    """The channel took it."""
    BOUNCE = "bounce"
    """It has surely not gone."""
    REFUSE = "refuse"
    """The channel will never take it."""
    LOSE = "lose"
    """A crash, or a time-out after it was handed over."""
    HOLD = "hold"
    """The customer wrote again."""
    RELEASE = "release"
    """It goes all the same."""
    DROP = "drop"
    """It will not be sent."""
    FOUND_GONE = "found_gone"
    """The maker, or the channel's own key, says that it went."""
    SEND_AGAIN = "send_again"
    """The maker says that it did not go."""
    COME_BACK = "come_back"
    """A mail server said later that it could not be delivered."""


DraftTable = Mapping[DraftState, Mapping[DraftEvent, DraftState]]
DepartureTable = Mapping[DepartureState, Mapping[DepartureEvent, DepartureState]]

DRAFT: DraftTable = MappingProxyType(
    {
        DraftState.WAITING: {
            DraftEvent.APPROVE: DraftState.APPROVED,
            DraftEvent.SET_ASIDE: DraftState.SET_ASIDE,
            DraftEvent.REPLACE: DraftState.REPLACED,
        },
        DraftState.APPROVED: {},
        DraftState.SET_ASIDE: {},
        DraftState.REPLACED: {},
    }
)

DEPARTURE: DepartureTable = MappingProxyType(
    {
        DepartureState.QUEUED: {
            DepartureEvent.CLAIM: DepartureState.GOING,
            DepartureEvent.HOLD: DepartureState.HELD,
        },
        DepartureState.GOING: {
            DepartureEvent.ARRIVE: DepartureState.GONE,
            DepartureEvent.BOUNCE: DepartureState.QUEUED,
            DepartureEvent.REFUSE: DepartureState.FAILED,
            DepartureEvent.LOSE: DepartureState.UNSURE,
        },
        DepartureState.HELD: {
            DepartureEvent.RELEASE: DepartureState.QUEUED,
            DepartureEvent.DROP: DepartureState.DROPPED,
        },
        DepartureState.UNSURE: {
            DepartureEvent.FOUND_GONE: DepartureState.GONE,
            DepartureEvent.SEND_AGAIN: DepartureState.QUEUED,
            DepartureEvent.COME_BACK: DepartureState.FAILED,
        },
        DepartureState.GONE: {
            DepartureEvent.COME_BACK: DepartureState.FAILED,
        },
        DepartureState.FAILED: {},
        DepartureState.DROPPED: {},
    }
)


class NotAllowedError(Exception):
    """A change that the tables do not hold. Somebody called at the wrong time; nothing has moved."""


def next_draft(state: DraftState, event: DraftEvent) -> DraftState:
    """Give the state of a draft after `event`.

    Raises   NotAllowedError where the table has no such change

    >>> next_draft(DraftState.WAITING, DraftEvent.APPROVE)
    <DraftState.APPROVED: 'approved'>
    """
    try:
        return DRAFT[state][event]
    except KeyError:
        raise NotAllowedError(f"a draft that is {state} cannot {event}") from None


def next_departure(state: DepartureState, event: DepartureEvent) -> DepartureState:
    """Give the state of a departure after `event`.

    Raises   NotAllowedError where the table has no such change
    """
    try:
        return DEPARTURE[state][event]
    except KeyError:
        raise NotAllowedError(f"a departure that is {state} cannot {event}") from None
