"""Messages as they came over the wire: a mail's text is made from it, and the maker may want to see what it was."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the table of originals."""
    op.create_table(
        "original",
        sa.Column("message_id", sa.Integer(), nullable=False),
        sa.Column("packed", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["message_id"], ["message.id"], name="fk_original_message_id"),
        sa.PrimaryKeyConstraint("message_id", name="pk_original"),
    )
