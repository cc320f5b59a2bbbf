"""The places in which customers write: direct messages, configured channels, and a thread for each enquiry there. Pure.

Each place is a folder of its own in the store, with the last message that was read in it; everything that has to be
known of a place to read on in it stands in the folder's name.
"""

import re
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

_EPOCH_MS = 1420070400000  # API reference, snowflakes: the first second of 2015
_FOLDER = re.compile(
    r"dm (?P<dm>\d+)|channel (?P<channel>\d+)|thread (?P<thread>\d+) in (?P<parent>\d+) of (?P<of>\d+)"
)


class Kind(StrEnum):
    """What a place is."""

    DM = "dm"
    CHANNEL = "channel"
    THREAD = "thread"


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place.

    id                 the channel's own number
    parent, customer   of a thread: the channel that it is in, and whose it is
    """

    kind: Kind
    id: int
    parent: int = 0
    customer: int = 0

    @property
    def folder(self) -> str:
        """Give the name under which the store remembers how far it was read."""
        if self.kind is Kind.THREAD:
            return f"thread {self.id} in {self.parent} of {self.customer}"
        return f"{self.kind} {self.id}"


def place_of(folder: str) -> Place | None:
    """Read the name of a folder; None: it is of something else.

    >>> place_of("thread 9 in 3 of 7")
    Place(kind=<Kind.THREAD: 'thread'>, id=9, parent=3, customer=7)
    """
    found = _FOLDER.fullmatch(folder)
    if found is None:
        return None
    if found["dm"]:
        return Place(kind=Kind.DM, id=int(found["dm"]))
    if found["channel"]:
        return Place(kind=Kind.CHANNEL, id=int(found["channel"]))
    return Place(kind=Kind.THREAD, id=int(found["thread"]), parent=int(found["parent"]), customer=int(found["of"]))


def address(customer: int, channel: int = 0) -> str:
    """Give where a customer is reached: by direct message, or in a channel in threads.

    The channel goes with it, so that what she writes there and what she writes in private never become one enquiry.
    """
    return f"{customer}@{channel}" if channel else str(customer)


def split_address(written: str) -> tuple[int, int]:
    """Give customer and channel of an address; 0: by direct message.

    >>> split_address("5001@42"), split_address("5001")
    ((5001, 42), (5001, 0))
    """
    customer, _, channel = written.partition("@")
    return int(customer), int(channel or 0)


def external_id(channel: int, message: int) -> str:
    """Give the id under which a message is kept."""
    return f"{channel}:{message}"


def form_id(channel: int, interaction: int) -> str:
    """Give the id under which a filled-in form is kept."""
    return f"{channel}:form {interaction}"


def split_id(written: str | None) -> tuple[int, int]:
    """Give channel and message of an id; message 0: it is a form's; both 0: there is none."""
    channel, _, message = (written or "").partition(":")
    return (int(channel) if channel.isdigit() else 0), (int(message) if message.isdigit() else 0)


def number_at(moment: datetime) -> int:
    """Give the smallest number that a message of this moment can have."""
    return max(0, int(moment.timestamp() * 1000) - _EPOCH_MS) << 22
