"""The tables of a shop. Times are UTC; a change here needs a migration beside it.

What an enquiry is, is computed from these rows and never stored: after an edit, a changed chart or an upgrade it is
computed again.
"""

from datetime import UTC, datetime

from sqlalchemy import (
    Boolean,
    CheckConstraint,
    Column,
    DateTime,
    Dialect,
    Float,
    ForeignKey,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
    TypeDecorator,
    UniqueConstraint,
    text,
)

from bot.message import Author, ChannelName
from bot.states import DepartureState, DraftState

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)


class UtcTime(TypeDecorator[datetime]):
    """A moment: aware in Python, UTC without a zone in the store."""

    impl = DateTime
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Store a moment; one without a zone is refused, since nobody could tell when it was."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a time needs its zone")
        return value.astimezone(UTC).replace(tzinfo=None)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Give a stored moment its zone back."""
        return None if value is None else value.replace(tzinfo=UTC)


def _words(kind: type[Author | ChannelName | DraftState | DepartureState], name: str) -> CheckConstraint:
    """A column that holds one of a fixed set of words."""
    listed = ", ".join(f"'{word.value}'" for word in kind)
    return CheckConstraint(f"{name} IN ({listed})", name=f"{name}_is_known")


customer = Table(
    "customer",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("channel", String(16), nullable=False),
    Column("address", Text, nullable=False),
    Column("display_name", Text, nullable=False),
    UniqueConstraint("channel", "address"),
)

enquiry = Table(
    "enquiry",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("customer_id", ForeignKey("customer.id"), nullable=False),
    Column("thread_key", Text),
    Column("state", String(8), nullable=False),
    Column("revision", Integer, nullable=False),
    Column("opened_at", UtcTime, nullable=False),
    Column("closed_at", UtcTime),
    Index(None, "customer_id"),
    CheckConstraint("state IN ('open', 'closed')", name="state_is_known"),
    sqlite_autoincrement=True,
)

message = Table(
    "message",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("enquiry_id", ForeignKey("enquiry.id"), nullable=False),
    Column("channel", String(16), nullable=False),
    Column("account", Text, nullable=False),
    Column("external_id", Text, nullable=False),
    Column("seq", Integer, nullable=False),
    Column("author", String(8), nullable=False),
    Column("subject", Text, nullable=False),
    Column("sent_at", UtcTime),
    Column("received_at", UtcTime, nullable=False),
    Column("reading_state", String(8), nullable=False),
    UniqueConstraint("channel", "account", "external_id"),
    Index(None, "enquiry_id", "seq"),
    Index(None, "reading_state"),
    _words(Author, "author"),
    CheckConstraint("reading_state IN ('kept', 'read', 'failed')", name="reading_state_is_known"),
)

message_revision = Table(
    "message_revision",
    metadata,
    Column("message_id", ForeignKey("message.id"), primary_key=True),
    Column("n", Integer, primary_key=True),
    Column("text", Text, nullable=False),
    Column("deleted", Boolean, nullable=False),
    Column("at", UtcTime, nullable=False),
)

attachment = Table(
    "attachment",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("message_id", ForeignKey("message.id"), nullable=False),
    Column("name", Text, nullable=False),
    Column("type", Text, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
    Index(None, "message_id"),
)

original = Table(
    "original",
    metadata,
    Column("message_id", ForeignKey("message.id"), primary_key=True),
    Column("packed", LargeBinary, nullable=False),
)

correction = Table(
    "correction",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("enquiry_id", ForeignKey("enquiry.id"), nullable=False),
    Column("seq", Integer, nullable=False),
    Column("dog", Integer, nullable=False),
    Column("measure", String(16), nullable=False),
    Column("low", Float, nullable=False),
    Column("high", Float, nullable=False),
    Column("maker", Text, nullable=False),
    Column("at", UtcTime, nullable=False),
    UniqueConstraint("enquiry_id", "seq"),
)

draft = Table(
    "draft",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("enquiry_id", ForeignKey("enquiry.id"), nullable=False),
    Column("version", Integer, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("fingerprint", String(64), nullable=False),
    Column("kind", String(16), nullable=False),
    Column("text", Text, nullable=False),
    Column("result_json", Text, nullable=False),
    Column("state", String(16), nullable=False),
    UniqueConstraint("enquiry_id", "version"),
    Index(
        "ix_draft_one_waiting",
        "enquiry_id",
        unique=True,
        sqlite_where=text("state = 'waiting'"),
        postgresql_where=text("state = 'waiting'"),
    ),
    _words(DraftState, "state"),
)

decision = Table(
    "decision",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("draft_id", ForeignKey("draft.id"), nullable=False),
    Column("maker", Text, nullable=False),
    Column("surface", String(16), nullable=False),
    Column("action", String(16), nullable=False),
    Column("at", UtcTime, nullable=False),
    Index(None, "draft_id"),
)

departure = Table(
    "departure",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("draft_id", ForeignKey("draft.id"), nullable=False),
    Column("part", Integer, nullable=False),
    Column("address", Text, nullable=False),
    Column("reply_to", Text),
    Column("text", Text, nullable=False),
    Column("state", String(16), nullable=False),
    Column("attempts", Integer, nullable=False),
    Column("not_before", UtcTime, nullable=False),
    Column("key", String(25), nullable=False, unique=True),
    Column("claimed_at", UtcTime),
    Column("external_id", Text),
    Column("error", Text),
    Column("message_id", ForeignKey("message.id")),
    UniqueConstraint("draft_id", "part"),
    Index(None, "state", "not_before"),
    _words(DepartureState, "state"),
)

shown = Table(
    "shown",
    metadata,
    Column("draft_id", ForeignKey("draft.id"), primary_key=True),
    Column("surface", String(16), primary_key=True),
    Column("external_ref", Text, primary_key=True),
)

cursor = Table(
    "cursor",
    metadata,
    Column("channel", String(16), primary_key=True),
    Column("account", Text, primary_key=True),
    Column("folder", Text, primary_key=True),
    Column("value", Text, nullable=False),
)
