"""What the maker has already been shown in Telegram, as the store remembers it: drafts, and files of an enquiry."""

from bot.approval.decision import Number
from bot.history import load_history
from bot.message import Attachment, ChannelName
from bot.store.cursors import read_cursor, write_cursor
from bot.store.database import Database
from bot.store.drafts import add_shown, find_draft, shown_at
from bot.store.messages import files_of

SURFACE = "telegram"


def where_shown(database: Database, number: Number) -> list[str]:
    """Give the references of where a draft was shown."""
    with database.read() as connection:
        row = find_draft(connection, number.enquiry, number.version)
        places = shown_at(connection, row.id) if row else []
    return [reference for surface, reference in places if surface == SURFACE]


def note_shown(database: Database, number: Number, reference: str) -> None:
    """Remember where a draft was shown."""
    with database.write() as connection:
        row = find_draft(connection, number.enquiry, number.version)
        if row is not None:
            add_shown(connection, row.id, SURFACE, external_ref=reference)


def files_to_show(database: Database, enquiry: int, maker: int) -> tuple[list[Attachment], int]:
    """Give the files of an enquiry that a maker has not been shown, and the number to remember once she has."""
    with database.read() as connection:
        seen = int(read_cursor(connection, ChannelName.TELEGRAM, str(maker), folder=_folder(enquiry)) or 0)
        new = [row for row in load_history(connection, enquiry).messages if row.files and row.id > seen]
        files = [file for row in new for file in files_of(connection, row.id) if file.bytes]
    return files, max([seen, *(row.id for row in new)])


def note_files_shown(database: Database, enquiry: int, maker: int, *, upto: int) -> None:
    """Remember up to which message a maker has been shown the files of an enquiry."""
    with database.write() as connection:
        write_cursor(connection, ChannelName.TELEGRAM, str(maker), str(upto), folder=_folder(enquiry))


def _folder(enquiry: int) -> str:
    return f"files of {enquiry}"
