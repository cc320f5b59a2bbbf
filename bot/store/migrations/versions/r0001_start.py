"""The first tables."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make all tables."""
    _customers()
    _messages()
    _drafts()
    op.create_table(
        "cursor",
        sa.Column("channel", sa.String(16), nullable=False),
        sa.Column("account", sa.Text(), nullable=False),
        sa.Column("folder", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("channel", "account", "folder", name="pk_cursor"),
    )


def _customers() -> None:
    op.create_table(
        "customer",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("channel", sa.String(16), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("display_name", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_customer"),
        sa.UniqueConstraint("channel", "address", name="uq_customer_channel_address"),
    )
    op.create_table(
        "enquiry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("customer_id", sa.Integer(), nullable=False),
        sa.Column("thread_key", sa.Text()),
        sa.Column("state", sa.String(8), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("opened_at", sa.DateTime(), nullable=False),
        sa.Column("closed_at", sa.DateTime()),
        sa.PrimaryKeyConstraint("id", name="pk_enquiry"),
        sa.ForeignKeyConstraint(["customer_id"], ["customer.id"], name="fk_enquiry_customer_id"),
        sa.CheckConstraint("state IN ('open', 'closed')", name=op.f("ck_enquiry_state_is_known")),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_enquiry_customer_id", "enquiry", ["customer_id"])


def _messages() -> None:
    op.create_table(
        "message",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("enquiry_id", sa.Integer(), nullable=False),
        sa.Column("channel", sa.String(16), nullable=False),
        sa.Column("account", sa.Text(), nullable=False),
        sa.Column("external_id", sa.Text(), nullable=False),
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("author", sa.String(8), nullable=False),
        sa.Column("subject", sa.Text(), nullable=False),
        sa.Column("sent_at", sa.DateTime()),
        sa.Column("received_at", sa.DateTime(), nullable=False),
        sa.Column("reading_state", sa.String(8), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_message"),
        sa.ForeignKeyConstraint(["enquiry_id"], ["enquiry.id"], name="fk_message_enquiry_id"),
        sa.UniqueConstraint("channel", "account", "external_id", name="uq_message_channel_account_external_id"),
        sa.CheckConstraint("author IN ('customer', 'maker', 'tapeline')", name=op.f("ck_message_author_is_known")),
        sa.CheckConstraint(
            "reading_state IN ('kept', 'read', 'failed')", name=op.f("ck_message_reading_state_is_known")
        ),
    )
    op.create_index("ix_message_enquiry_id_seq", "message", ["enquiry_id", "seq"])
    op.create_index("ix_message_reading_state", "message", ["reading_state"])
    op.create_table(
        "message_revision",
        sa.Column("message_id", sa.Integer(), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("deleted", sa.Boolean(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.PrimaryKeyConstraint("message_id", "n", name="pk_message_revision"),
        sa.ForeignKeyConstraint(["message_id"], ["message.id"], name="fk_message_revision_message_id"),
    )
    op.create_table(
        "attachment",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("message_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("type", sa.Text(), nullable=False),
        sa.Column("bytes", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_attachment"),
        sa.ForeignKeyConstraint(["message_id"], ["message.id"], name="fk_attachment_message_id"),
    )
    op.create_index("ix_attachment_message_id", "attachment", ["message_id"])
    op.create_table(
        "correction",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("enquiry_id", sa.Integer(), nullable=False),
        sa.Column("seq", sa.Integer(), nullable=False),
        sa.Column("dog", sa.Integer(), nullable=False),
        sa.Column("measure", sa.String(16), nullable=False),
        sa.Column("low", sa.Float(), nullable=False),
        sa.Column("high", sa.Float(), nullable=False),
        sa.Column("maker", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_correction"),
        sa.ForeignKeyConstraint(["enquiry_id"], ["enquiry.id"], name="fk_correction_enquiry_id"),
        sa.UniqueConstraint("enquiry_id", "seq", name="uq_correction_enquiry_id_seq"),
    )


def _drafts() -> None:
    op.create_table(
        "draft",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("enquiry_id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("fingerprint", sa.String(64), nullable=False),
        sa.Column("kind", sa.String(16), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("result_json", sa.Text(), nullable=False),
        sa.Column("state", sa.String(16), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_draft"),
        sa.ForeignKeyConstraint(["enquiry_id"], ["enquiry.id"], name="fk_draft_enquiry_id"),
        sa.UniqueConstraint("enquiry_id", "version", name="uq_draft_enquiry_id_version"),
        sa.CheckConstraint(
            "state IN ('waiting', 'approved', 'set_aside', 'replaced')", name=op.f("ck_draft_state_is_known")
        ),
    )
    waiting = sa.text("state = 'waiting'")
    op.create_index(
        "ix_draft_one_waiting", "draft", ["enquiry_id"], unique=True, sqlite_where=waiting, postgresql_where=waiting
    )
    op.create_table(
        "decision",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("draft_id", sa.Integer(), nullable=False),
        sa.Column("maker", sa.Text(), nullable=False),
        sa.Column("surface", sa.String(16), nullable=False),
        sa.Column("action", sa.String(16), nullable=False),
        sa.Column("at", sa.DateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_decision"),
        sa.ForeignKeyConstraint(["draft_id"], ["draft.id"], name="fk_decision_draft_id"),
    )
    op.create_index("ix_decision_draft_id", "decision", ["draft_id"])
    op.create_table(
        "departure",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("draft_id", sa.Integer(), nullable=False),
        sa.Column("part", sa.Integer(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("reply_to", sa.Text()),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("state", sa.String(16), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("not_before", sa.DateTime(), nullable=False),
        sa.Column("key", sa.String(25), nullable=False),
        sa.Column("claimed_at", sa.DateTime()),
        sa.Column("external_id", sa.Text()),
        sa.Column("error", sa.Text()),
        sa.Column("message_id", sa.Integer()),
        sa.PrimaryKeyConstraint("id", name="pk_departure"),
        sa.ForeignKeyConstraint(["draft_id"], ["draft.id"], name="fk_departure_draft_id"),
        sa.ForeignKeyConstraint(["message_id"], ["message.id"], name="fk_departure_message_id"),
        sa.UniqueConstraint("draft_id", "part", name="uq_departure_draft_id_part"),
        sa.UniqueConstraint("key", name="uq_departure_key"),
        sa.CheckConstraint(
            "state IN ('queued', 'going', 'gone', 'failed', 'unsure', 'held', 'dropped')",
            name=op.f("ck_departure_state_is_known"),
        ),
    )
    op.create_index("ix_departure_state_not_before", "departure", ["state", "not_before"])
    op.create_table(
        "shown",
        sa.Column("draft_id", sa.Integer(), nullable=False),
        sa.Column("surface", sa.String(16), nullable=False),
        sa.Column("external_ref", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("draft_id", "surface", "external_ref", name="pk_shown"),
        sa.ForeignKeyConstraint(["draft_id"], ["draft.id"], name="fk_shown_draft_id"),
    )
