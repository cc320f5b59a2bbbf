"""What makers have already been shown on a surface, as the store remembers it: drafts, and files of an enquiry."""

from bot.approval.decision import Number
from bot.history import load_history
from bot.message import Attachment, ChannelName
from bot.store.cursors import read_cursor, write_cursor
from bot.store.database import Database
from bot.store.drafts import add_shown, find_draft, shown_at
from bot.store.messages import files_of


class Shown:
    """What has been shown on one surface. It has the name of the channel that it is on."""

    def __init__(self, database: Database, surface: ChannelName) -> None:
        self._database = database
        self._surface = surface

    def where(self, number: Number) -> list[str]:
        """Give the references of where a draft was shown."""
        with self._database.read() as connection:
            row = find_draft(connection, number.enquiry, number.version)
            places = shown_at(connection, row.id) if row else []
        return [reference for surface, reference in places if surface == self._surface]

    def note(self, number: Number, reference: str) -> None:
        """Remember where a draft was shown."""
        with self._database.write() as connection:
            row = find_draft(connection, number.enquiry, number.version)
            if row is not None:
                add_shown(connection, row.id, self._surface, external_ref=reference)

    def new_files(self, enquiry: int, viewer: int | str) -> tuple[list[Attachment], int]:
        """Give the files of an enquiry that have not been shown, and the number to remember once they have.

        viewer   a maker's own account, or the channel that makers share
        """
        with self._database.read() as connection:
            seen = int(read_cursor(connection, self._surface, str(viewer), folder=_folder(enquiry)) or 0)
            new = [row for row in load_history(connection, enquiry).messages if row.files and row.id > seen]
            files = [file for row in new for file in files_of(connection, row.id) if file.bytes]
        return files, max([seen, *(row.id for row in new)])

    def note_files(self, enquiry: int, viewer: int | str, *, upto: int) -> None:
        """Remember up to which message the files of an enquiry have been shown."""
        with self._database.write() as connection:
            write_cursor(connection, self._surface, str(viewer), str(upto), folder=_folder(enquiry))


def _folder(enquiry: int) -> str:
    return f"files of {enquiry}"
