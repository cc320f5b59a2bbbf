"""What a maker's next message is taken for: the new text of a draft, or a correction of a measure. Kept in the store.

It outlives a restart, and holds for one message.
"""

import json
from dataclasses import dataclass

from bot.approval.buttons import Action
from bot.approval.decision import Number
from bot.message import ChannelName
from bot.store.cursors import read_cursor, write_cursor
from bot.store.database import Database

FOLDER = "next message"


@dataclass(frozen=True, slots=True, kw_only=True)
class Awaited:
    """What was pressed before: change or correct, of which draft."""

    action: Action
    number: Number


def awaited(database: Database, maker: int) -> Awaited | None:
    """Give what a maker's next message is taken for; None: it is a message like any other."""
    with database.read() as connection:
        kept = read_cursor(connection, ChannelName.TELEGRAM, str(maker), folder=FOLDER)
    if not kept:
        return None
    action, enquiry, version = json.loads(kept)
    return Awaited(action=Action(action), number=Number(enquiry=enquiry, version=version))


def await_next(database: Database, maker: int, what: Awaited | None) -> None:
    """Take a maker's next message for something; None: for nothing any more."""
    told = "" if what is None else json.dumps([what.action, what.number.enquiry, what.number.version])
    with database.write() as connection:
        write_cursor(connection, ChannelName.TELEGRAM, str(maker), told, folder=FOLDER)
