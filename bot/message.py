"""What comes in from a channel and what goes out through one, before anybody has read it."""

from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum

from replies.reading.context import Channel as TextKind


class ChannelName(StrEnum):
    """A way in which customers write."""

    TELEGRAM = "telegram"
    DISCORD = "discord"
    EMAIL = "email"
    PASTE = "paste"

    @property
    def text_kind(self) -> TextKind:
        """Give the kind of text for reading: what is quoted history, how lines break."""
        return _TEXT_KINDS[self]


_TEXT_KINDS = {
    ChannelName.TELEGRAM: TextKind.CHAT,
    ChannelName.DISCORD: TextKind.CHAT,
    ChannelName.EMAIL: TextKind.EMAIL,
    ChannelName.PASTE: TextKind.PASTE,
}


class Author(StrEnum):
    """Who wrote a message."""

    CUSTOMER = "customer"
    MAKER = "maker"
    """Sent by hand in the same chat."""
    TAPELINE = "tapeline"
    """An approved text that went out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Attachment:
    """A file that came with a message. It is kept and shown to the maker, never opened."""

    name: str
    type: str
    bytes: bytes = field(repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Incoming:
    """A message as a channel received it.

    account       which of the maker's accounts received it; "" where the channel has one only
    external_id   the channel's own id, unique within channel and account for as long as the channel lives
    address       where the customer is reached in that channel; with `author` maker: the customer written to
    sent_at       with time zone; None: the channel does not say
    thread_key    the channel's own thread; None: it has none
    reply_to      external_id of the message that it answers; None: none
    original      the message as it came over the wire, where `text` is made from it; None: `text` is all
    """

    channel: ChannelName
    external_id: str
    address: str = field(repr=False)
    text: str = field(repr=False)
    account: str = ""
    display_name: str = field(default="", repr=False)
    sent_at: datetime | None = None
    thread_key: str | None = None
    reply_to: str | None = None
    author: Author = Author.CUSTOMER
    subject: str = field(default="", repr=False)
    attachments: tuple[Attachment, ...] = ()
    original: bytes | None = field(default=None, repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """A message that its writer changed or deleted.

    text   the new text; None: deleted
    """

    channel: ChannelName
    external_id: str
    text: str | None = field(repr=False)
    account: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outgoing:
    """One part of an approved text on its way to a customer.

    key        unique for all time: the channel's own guard against sending twice is made from it
    reply_to   external_id of the message that it answers; None: none
    asks       it is a question for measures: a channel may put a form under it
    """

    channel: ChannelName
    account: str
    address: str = field(repr=False)
    text: str = field(repr=False)
    key: str
    reply_to: str | None = None
    thread_key: str | None = None
    subject: str = field(default="", repr=False)
    asks: bool = False
