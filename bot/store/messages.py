"""Messages with their revisions and attachments, and the maker's corrections: what an enquiry is computed from."""

import zlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum

from sqlalchemy import ColumnElement, Connection, and_, delete, func, insert, select, update

from bot.message import Attachment, Author, ChannelName, Incoming
from bot.store.schema import attachment, correction, enquiry, message, message_revision, original
from sizing.measures import Amount, Measure


class ReadingState(StrEnum):
    """Whether a message has been read."""

    KEPT = "kept"
    """Kept, not read yet."""
    READ = "read"
    FAILED = "failed"
    """Reading or drafting broke off; the maker has it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MessageRow:
    """A message at its latest revision.

    n            how often it was written: 1 for a message that was never edited
    revised_at   when it was written last
    files        names of its attachments
    """

    id: int
    enquiry_id: int
    channel: ChannelName
    account: str
    external_id: str
    seq: int
    author: Author
    sent_at: datetime | None
    received_at: datetime
    revised_at: datetime
    reading_state: ReadingState
    n: int
    deleted: bool
    text: str = field(repr=False)
    subject: str = field(repr=False)
    files: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectionRow:
    """A measure that the maker set; inches or pounds."""

    seq: int
    dog: int
    measure: Measure
    amount: Amount
    maker: str
    at: datetime


def find_message(connection: Connection, channel: ChannelName, account: str, *, external_id: str) -> MessageRow | None:
    """Find a message by the channel's own id."""
    wanted = and_(message.c.channel == channel, message.c.account == account, message.c.external_id == external_id)
    found = _messages(connection, wanted)
    return found[0] if found else None


def messages_of(connection: Connection, enquiry_id: int) -> list[MessageRow]:
    """Give all messages of an enquiry, oldest first."""
    return _messages(connection, message.c.enquiry_id == enquiry_id)


def _messages(connection: Connection, wanted: ColumnElement[bool]) -> list[MessageRow]:
    latest = (
        select(message_revision.c.message_id, func.max(message_revision.c.n).label("n"))
        .group_by(message_revision.c.message_id)
        .subquery()
    )
    query = (
        select(
            message,
            message_revision.c.n,
            message_revision.c.text,
            message_revision.c.deleted,
            message_revision.c.at.label("revised_at"),
        )
        .join_from(message, latest, latest.c.message_id == message.c.id)
        .join(
            message_revision,
            and_(message_revision.c.message_id == message.c.id, message_revision.c.n == latest.c.n),
        )
        .where(wanted)
        .order_by(message.c.seq, message.c.id)
    )
    rows = connection.execute(query).mappings().all()
    files = _file_names(connection, [row["id"] for row in rows])
    return [
        MessageRow(
            **dict(row)
            | {
                "channel": ChannelName(row["channel"]),
                "author": Author(row["author"]),
                "reading_state": ReadingState(row["reading_state"]),
                "files": files.get(row["id"], ()),
            }
        )
        for row in rows
    ]


def _file_names(connection: Connection, message_ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
    names: dict[int, tuple[str, ...]] = {}
    query = select(attachment.c.message_id, attachment.c.name).where(attachment.c.message_id.in_(message_ids))
    for message_id, name in connection.execute(query.order_by(attachment.c.id)):
        names[message_id] = (*names.get(message_id, ()), name)
    return names


def add_message(
    connection: Connection, incoming: Incoming, *, enquiry_id: int, seq: int, at: datetime, state: ReadingState
) -> int:
    """Keep a message with its first revision and its attachments, and give its number."""
    added: int = connection.execute(
        insert(message)
        .values(
            enquiry_id=enquiry_id,
            channel=incoming.channel,
            account=incoming.account,
            external_id=incoming.external_id,
            seq=seq,
            author=incoming.author,
            subject=incoming.subject,
            sent_at=incoming.sent_at,
            received_at=at,
            reading_state=state,
        )
        .returning(message.c.id)
    ).scalar_one()
    connection.execute(insert(message_revision).values(message_id=added, n=1, text=incoming.text, deleted=False, at=at))
    _add_files(connection, added, incoming.attachments)
    if incoming.original is not None:
        connection.execute(insert(original).values(message_id=added, packed=zlib.compress(incoming.original)))
    return added


def _add_files(connection: Connection, message_id: int, files: Iterable[Attachment]) -> None:
    rows = [{"message_id": message_id, "name": one.name, "type": one.type, "bytes": one.bytes} for one in files]
    if rows:
        connection.execute(insert(attachment), rows)


def revise_message(
    connection: Connection, message_id: int, text: str | None, *, at: datetime, state: ReadingState
) -> None:
    """Add a revision of a message; `text` None: it was deleted."""
    last = connection.execute(
        select(func.max(message_revision.c.n)).where(message_revision.c.message_id == message_id)
    ).scalar_one()
    connection.execute(
        insert(message_revision).values(message_id=message_id, n=last + 1, text=text or "", deleted=text is None, at=at)
    )
    set_reading_state(connection, [message_id], state)


def set_reading_state(connection: Connection, message_ids: Iterable[int], state: ReadingState) -> None:
    """Note how far reading has come."""
    connection.execute(update(message).where(message.c.id.in_(list(message_ids))).values(reading_state=state))


def set_external_id(connection: Connection, message_id: int, external_id: str) -> None:
    """Note the id that a channel gave a text that went out."""
    connection.execute(update(message).where(message.c.id == message_id).values(external_id=external_id))


def unread(connection: Connection) -> list[tuple[int, ChannelName, datetime]]:
    """Give the enquiries in which something is not read yet, with the channel and the time of the last such message."""
    last = func.max(message.c.received_at, type_=message.c.received_at.type)
    query = (
        select(message.c.enquiry_id, func.max(message.c.channel), last)
        .where(message.c.reading_state == ReadingState.KEPT)
        .group_by(message.c.enquiry_id)
        .order_by(last)
    )
    return [(enquiry_id, ChannelName(channel), at) for enquiry_id, channel, at in connection.execute(query)]


def count_sent(connection: Connection, customer_id: int) -> int:
    """Give how many texts were handed over for a customer, in all her enquiries."""
    ours = (enquiry.c.customer_id == customer_id) & (message.c.author == Author.TAPELINE)
    return connection.execute(select(func.count()).select_from(message.join(enquiry)).where(ours)).scalar_one()


def count_from(connection: Connection, customer_id: int, since: datetime) -> int:
    """Give how many messages a customer has written since a moment, in all her enquiries."""
    theirs = (enquiry.c.customer_id == customer_id) & (message.c.author == Author.CUSTOMER)
    query = select(func.count()).select_from(message.join(enquiry)).where(theirs, message.c.received_at >= since)
    return connection.execute(query).scalar_one()


def original_of(connection: Connection, message_id: int) -> bytes | None:
    """Give a message as it came over the wire; None: its channel has nothing of the kind."""
    packed = connection.execute(select(original.c.packed).where(original.c.message_id == message_id)).scalar()
    return None if packed is None else zlib.decompress(packed)


def files_of(connection: Connection, message_id: int) -> list[Attachment]:
    """Give the attachments of a message."""
    query = select(attachment.c.name, attachment.c.type, attachment.c.bytes)
    rows = connection.execute(query.where(attachment.c.message_id == message_id).order_by(attachment.c.id))
    return [Attachment(name=name, type=kind, bytes=content) for name, kind, content in rows]


def move_message(connection: Connection, message_id: int, *, enquiry_id: int, seq: int) -> None:
    """Put a message into another enquiry, at a place in it; it has to be read again there if a customer wrote it."""
    change = update(message).where(message.c.id == message_id)
    connection.execute(change.values(enquiry_id=enquiry_id, seq=seq))
    theirs = change.where(message.c.author == Author.CUSTOMER)
    connection.execute(theirs.values(reading_state=ReadingState.KEPT))


def add_correction(connection: Connection, enquiry_id: int, row: CorrectionRow) -> None:
    """Keep a measure that the maker set."""
    connection.execute(
        insert(correction).values(
            enquiry_id=enquiry_id,
            seq=row.seq,
            dog=row.dog,
            measure=row.measure,
            low=row.amount.low,
            high=row.amount.high,
            maker=row.maker,
            at=row.at,
        )
    )


def corrections_of(connection: Connection, enquiry_id: int) -> list[CorrectionRow]:
    """Give what the maker set in an enquiry, oldest first."""
    query = select(correction).where(correction.c.enquiry_id == enquiry_id).order_by(correction.c.seq)
    return [
        CorrectionRow(
            seq=row["seq"],
            dog=row["dog"],
            measure=Measure(row["measure"]),
            amount=Amount(low=row["low"], high=row["high"]),
            maker=row["maker"],
            at=row["at"],
        )
        for row in connection.execute(query).mappings()
    ]


def remove_corrections(connection: Connection, enquiry_id: int) -> list[CorrectionRow]:
    """Take out what the maker set in an enquiry, and give it."""
    removed = corrections_of(connection, enquiry_id)
    connection.execute(delete(correction).where(correction.c.enquiry_id == enquiry_id))
    return removed
