"""What an update from Telegram means to the workshop. Pure: objects in, objects out, no network.

A message is known by its chat and its number in it. A business account numbers its chats on its own, so the account
goes with it: "" for the bot's own chats, else the number of the account's owner (a connection's own id changes each
time the owner connects the bot anew). The address of a customer who wrote to a business account names that account,
too, so that the same person's two chats never become one enquiry.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from telegram import BusinessConnection, CallbackQuery, Message, Update

from bot.message import Author, ChannelName, Edit, Incoming

KINDS = (
    "message",
    "edited_message",
    "callback_query",
    "business_connection",
    "business_message",
    "edited_business_message",
    "deleted_business_messages",
)
"""The kinds of update that are asked for."""
ONLY_SHOWN = ("venue", "location", "contact", "poll", "story", "checklist")
"""What a customer may send that is neither words nor a file. A venue holds a location."""
SHOWN_TYPE = "application/x-telegram"


@dataclass(frozen=True, slots=True, kw_only=True)
class File:
    """A file that came with a message and is still on the server.

    file_id   None: it is no file but something that only Telegram can show, such as a location; `name` says what
    """

    file_id: str | None
    name: str
    type: str
    size: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CustomerWrote:
    """A message of a customer, or one that the maker wrote to her by hand, before its files were fetched."""

    message: Incoming
    files: tuple[File, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CustomerChanged:
    """Messages that were edited or deleted."""

    edits: tuple[Edit, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MakerPressed:
    """A press of a button in a private chat with the bot. Whether the presser may decide is not looked at here."""

    user: int
    press: str
    code: str
    message: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MakerWrote:
    """A message of a maker in her own chat with the bot.

    origin       the name of whom she forwarded it from; None: her own words, or nobody is named
    origin_key   the same person has the same; of somebody unknown each message has its own
    """

    user: int
    message: int
    text: str = field(repr=False)
    sent_at: datetime
    forwarded: bool = False
    origin: str | None = field(default=None, repr=False)
    origin_key: str = field(default="", repr=False)
    reply_to: int | None = None
    files: tuple[File, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Business:
    """A business account's connection to the bot."""

    id: str
    owner: int
    enabled: bool
    can_reply: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Nothing:
    """Nothing to keep. why: for the log."""

    why: str


Meaning = CustomerWrote | CustomerChanged | MakerPressed | MakerWrote | Business | Nothing


def meaning(update: Update, *, me: int, makers: Collection[int], owners: Mapping[str, int]) -> Meaning:
    """Say what an update means.

    me       the bot's own number
    makers   the numbers of the accounts that may decide
    owners   the owner of each business connection that is served, by the connection's id
    """
    if update.callback_query:
        return _press(update.callback_query)
    if update.business_connection:
        return business(update.business_connection)
    if update.message:
        return _private(update.message, makers)
    if update.edited_message:
        edited = update.edited_message
        mine = edited.chat.id in makers or edited.chat.type != "private"
        return Nothing(why="not a customer's") if mine else CustomerChanged(edits=(_edit(edited, ""),))
    if update.business_message:
        return _business_message(update.business_message, me, owners)
    if update.edited_business_message:
        owner = owners.get(update.edited_business_message.business_connection_id or "")
        if owner is None or _is_by_bot(update.edited_business_message, me):
            return Nothing(why="not a customer's")
        return CustomerChanged(edits=(_edit(update.edited_business_message, str(owner)),))
    if update.deleted_business_messages:
        gone = update.deleted_business_messages
        owner = owners.get(gone.business_connection_id)
        if owner is None:
            return Nothing(why="a business account that is not served")
        ids = (_external(gone.chat.id, number) for number in gone.message_ids)
        account = str(owner)
        return CustomerChanged(edits=tuple(_deleted(external, account) for external in ids))
    return Nothing(why="another kind of update")


def business(connection: BusinessConnection) -> Business:
    """Say who connected an account, and what the bot may do there."""
    rights = connection.rights
    return Business(
        id=connection.id,
        owner=connection.user.id,
        enabled=connection.is_enabled,
        can_reply=bool(rights and rights.can_reply),
    )


def split_address(address: str) -> tuple[int, int | None]:
    """Give the chat of an address, and the owner of the business account it belongs to; None: the bot's own chat.

    >>> split_address("5001@42")
    (5001, 42)
    """
    chat, _, owner = address.partition("@")
    return int(chat), int(owner) if owner else None


def message_number(external_id: str) -> int:
    """Give the number that a message has in its chat."""
    return int(external_id.rpartition(":")[2])


def external_id(chat: int, number: int) -> str:
    """Give the id under which a message is kept."""
    return _external(chat, number)


def _external(chat: int, number: int) -> str:
    return f"{chat}:{number}"


def _press(query: CallbackQuery) -> Meaning:
    if query.data is None:
        return Nothing(why="a press without a code")
    number = query.message.message_id if query.message else None
    return MakerPressed(user=query.from_user.id, press=query.id, code=query.data, message=number)


def _private(message: Message, makers: Collection[int]) -> Meaning:
    if message.chat.type != "private":
        return Nothing(why="not a private chat")
    if message.chat.id in makers:
        return _by_maker(message)
    return _customers(message, account="", author=Author.CUSTOMER)


def _by_maker(message: Message) -> MakerWrote:
    origin = message.forward_origin
    sender = getattr(origin, "sender_user", None)
    name = sender.full_name if sender else getattr(origin, "sender_user_name", None)
    return MakerWrote(
        user=message.chat.id,
        message=message.message_id,
        text=_text(message),
        sent_at=origin.date if origin else message.date,
        forwarded=origin is not None,
        origin=name,
        origin_key=str(sender.id) if sender else f"named {name}" if name else f"message {message.message_id}",
        reply_to=message.reply_to_message.message_id if message.reply_to_message else None,
        files=_files(message),
    )


def _business_message(message: Message, me: int, owners: Mapping[str, int]) -> Meaning:
    owner = owners.get(message.business_connection_id or "")
    if owner is None:
        return Nothing(why="a business account that is not served")
    if _is_by_bot(message, me):
        return Nothing(why="the bot's own text")
    if message.is_from_offline:
        # An away or greeting text that the account sends by itself is no answer of the maker's.
        return Nothing(why="sent by the account itself")
    by_owner = message.from_user is not None and message.from_user.id == owner
    author = Author.MAKER if by_owner else Author.CUSTOMER
    return _customers(message, account=str(owner), author=author)


def _customers(message: Message, *, account: str, author: Author) -> CustomerWrote | Nothing:
    """A message with something in it; a chat's own notices (a pinned message, a new background) hold nothing."""
    wrote = CustomerWrote(message=_incoming(message, account=account, author=author), files=_files(message))
    return wrote if wrote.message.text or wrote.files else Nothing(why="a notice of the chat itself")


def _is_by_bot(message: Message, me: int) -> bool:
    return message.sender_business_bot is not None and message.sender_business_bot.id == me


def _incoming(message: Message, *, account: str, author: Author) -> Incoming:
    reply = message.reply_to_message
    return Incoming(
        channel=ChannelName.TELEGRAM,
        account=account,
        external_id=_external(message.chat.id, message.message_id),
        address=f"{message.chat.id}@{account}" if account else str(message.chat.id),
        display_name=message.chat.full_name or "",
        text=_text(message),
        sent_at=message.date,
        reply_to=_external(message.chat.id, reply.message_id) if reply else None,
        author=author,
    )


def _text(message: Message) -> str:
    """The words of a message. A sticker or a dice is its picture character: it says no more than that."""
    small = message.sticker or message.dice
    return message.text or message.caption or (small.emoji if small else None) or ""


def _edit(message: Message, account: str) -> Edit:
    return Edit(
        channel=ChannelName.TELEGRAM,
        account=account,
        external_id=_external(message.chat.id, message.message_id),
        text=_text(message),
    )


def _deleted(external: str, account: str) -> Edit:
    return Edit(channel=ChannelName.TELEGRAM, account=account, external_id=external, text=None)


def _files(message: Message) -> tuple[File, ...]:
    """What came with a message besides words; of a photo, which comes in several sizes, the largest."""
    found: list[File] = []
    if message.photo:
        photo = message.photo[-1]
        found.append(File(file_id=photo.file_id, name="photo.jpg", type="image/jpeg", size=photo.file_size))
    for part, name, kind in (
        (message.document, "file", "application/octet-stream"),
        (message.video, "video.mp4", "video/mp4"),
        (message.animation if not message.document else None, "animation.mp4", "video/mp4"),
        (message.video_note, "video.mp4", "video/mp4"),
        (message.voice, "voice.ogg", "audio/ogg"),
        (message.audio, "audio", "audio/mpeg"),
    ):
        if part is not None:
            found.append(
                File(
                    file_id=part.file_id,
                    name=getattr(part, "file_name", None) or name,
                    type=getattr(part, "mime_type", None) or kind,
                    size=part.file_size,
                )
            )
    shown = [name for name in ONLY_SHOWN if getattr(message, name) is not None]
    found += [File(file_id=None, name=name.replace("_", " "), type=SHOWN_TYPE, size=None) for name in shown[:1]]
    return tuple(found)
