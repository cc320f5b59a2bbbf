"""The buttons under a draft or a text on its way: their words, and the codes that they carry. Pure.

A code holds an action and a draft's number, nothing more: the truth is in the store, so an old button, a second press
and a stranger's press change nothing. A code is at most 64 bytes, the least that any channel takes.
"""

import re
from dataclasses import dataclass
from enum import StrEnum

from bot.approval.decision import Number

LONGEST_BYTES = 64


class Action(StrEnum):
    """What a button does."""

    APPROVE = "approve"
    APPROVE_SURE = "sure"
    """The second yes, where a text lacks a place or its caution."""
    CHANGE = "change"
    CORRECT = "correct"
    SET_ASIDE = "aside"
    SHOW = "show"
    COPIED = "copied"
    """An approved text of a pasted enquiry was copied."""
    LET_GO = "go"
    """A text that is held goes out."""
    DROP = "drop"
    WENT = "went"
    """A text of which nobody knew has gone."""
    SEND_AGAIN = "again"


LABELS = {
    Action.APPROVE: "Approve",
    Action.APPROVE_SURE: "Send it all the same",
    Action.CHANGE: "Change",
    Action.CORRECT: "Correct a measure",
    Action.SET_ASIDE: "Set aside",
    Action.SHOW: "Show what waits now",
    Action.COPIED: "I have copied it",
    Action.LET_GO: "Let it go out",
    Action.DROP: "Drop it",
    Action.WENT: "It arrived",
    Action.SEND_AGAIN: "It did not: send it again",
}
UNDER_A_DRAFT = (Action.APPROVE, Action.CHANGE, Action.CORRECT, Action.SET_ASIDE)
UNDER_A_COPY = (Action.COPIED,)
UNDER_A_HELD_TEXT = (Action.LET_GO, Action.DROP)
UNDER_AN_UNSURE_TEXT = (Action.WENT, Action.SEND_AGAIN)

_CODE = re.compile(r"tl1:(?P<action>[a-z]+):(?P<enquiry>[0-9]{1,12})\.(?P<version>[0-9]{1,9})")


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """A button that was pressed. Whether the presser may decide is not in it."""

    action: Action
    number: Number


def code(action: Action, number: Number) -> str:
    """Give the code that a button carries.

    >>> code(Action.APPROVE, Number(enquiry=7, version=3))
    'tl1:approve:7.3'
    """
    return f"tl1:{action}:{number}"


def read_code(written: str) -> Press | None:
    """Read the code of a button that was pressed.

    Returns   None for what is no code of ours
    """
    found = _CODE.fullmatch(written)
    if found is None or found["action"] not in set(Action):
        return None
    number = Number(enquiry=int(found["enquiry"]), version=int(found["version"]))
    return Press(action=Action(found["action"]), number=number)
