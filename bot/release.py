"""Whether a draft goes by itself, waits for the maker, or is nothing to send. Pure.

An answer never goes by itself. A question does where the maker said so for that channel: at most two in a row, never in
quiet hours, and never with something in it that only she can say.
"""

from dataclasses import dataclass
from datetime import datetime, time
from enum import StrEnum

from replies.draft import Draft, DraftKind

MOST_IN_A_ROW = 2


class Release(StrEnum):
    """What becomes of a draft."""

    NOW = "now"
    WAIT = "wait"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Policy:
    """What the maker lets go by itself.

    questions     questions of this channel may go
    in_a_row      how many have gone by themselves since she last decided or wrote herself
    quiet_hours   from and until, on the clock of `now`; None: none
    """

    questions: bool = False
    in_a_row: int = 0
    quiet_hours: tuple[time, time] | None = None


def release(draft: Draft, policy: Policy, now: datetime) -> Release:
    """Say what becomes of a draft.

    now   in the shop's time zone
    """
    if draft.kind is DraftKind.NONE:
        return Release.NOTHING
    may_go = (
        policy.questions
        and draft.kind is DraftKind.QUESTION
        and bool(draft.asks)
        and not draft.places
        and policy.in_a_row < MOST_IN_A_ROW
        and not _is_within(policy.quiet_hours, now.time())
    )
    return Release.NOW if may_go else Release.WAIT


def _is_within(hours: tuple[time, time] | None, now: time) -> bool:
    """Hours may run over midnight; the first minute is in them, the last is not."""
    if hours is None:
        return False
    start, end = hours
    return start <= now < end if start < end else now >= start or now < end
