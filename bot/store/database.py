"""The connection, the transaction, and the one place where a database's own errors become words for the maker.

One writer at a time: `write` begins at once with the write lock, so that what a transaction read still holds when it
writes. `read` sees one state of the store from its first to its last row.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic, sleep

from sqlalchemy import Connection as Connection
from sqlalchemy import Engine, create_engine, event
from sqlalchemy.engine import URL
from sqlalchemy.exc import DBAPIError, OperationalError
from sqlalchemy.pool import ConnectionPoolEntry

from bot.errors import StoreError
from bot.store import upgrade

FILE_NAME = "tapeline.db"
WAIT_FOR_LOCK_S = 15.0
_PAUSE_S = 0.02


class Database:
    """The store of one shop. Close it, or use it in a `with`."""

    def __init__(self, engine: Engine, path: Path) -> None:
        self._engine = engine
        self.path = path

    def __enter__(self) -> "Database":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Give the file back."""
        self._engine.dispose()

    @contextmanager
    def write(self) -> Iterator[Connection]:
        """Begin a transaction that writes: all of it is kept on leaving, nothing of it after an exception.

        Raises   StoreError when the store cannot be written
        """
        with self._connected(begin="BEGIN IMMEDIATE") as connection, connection.begin():
            yield connection

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """Begin a transaction that only reads, of one state of the store.

        Raises   StoreError when the store cannot be read
        """
        with self._connected(begin="BEGIN") as connection, connection.begin():
            yield connection

    @contextmanager
    def _connected(self, *, begin: str) -> Iterator[Connection]:
        try:
            with self._engine.connect().execution_options(tapeline_begin=begin) as connection:
                yield connection
        except DBAPIError as error:
            raise _in_words(error, self.path) from error


def open_database(folder: Path, *, wait_for_lock_s: float = WAIT_FOR_LOCK_S) -> Database:
    """Open the store of the shop in `folder`; make it where there is none, and bring an older one up to date.

    Raises   StoreError when it is damaged, locked, not writable, or made by a newer tapeline
    """
    path = folder / FILE_NAME
    _make_private(path)
    database = Database(_engine(path, wait_for_lock_s), path)
    try:
        _bring_up_to_date(database, path)
    except BaseException:
        database.close()
        raise
    return database


def _bring_up_to_date(database: Database, path: Path) -> None:
    with database.read() as connection:
        found = upgrade.revision_of(connection)
    if found == upgrade.NEWEST:
        return
    upgrade.refuse_newer(found, path)
    if found is not None:
        upgrade.back_up(path, found)
    with database.write() as connection:
        # Looked at again under the lock: another tapeline may have been quicker.
        if upgrade.revision_of(connection) != upgrade.NEWEST:
            upgrade.run_migrations(connection)


def _make_private(path: Path) -> None:
    """Customers' words are in it: nobody but the maker's own account reads it."""
    try:
        path.touch(mode=0o600, exist_ok=True)
    except OSError as error:
        words = f"cannot be written ({error.strerror}). Give your account the right to write there."
        raise StoreError(f"{path} {words}") from error


def _engine(path: Path, wait_for_lock_s: float) -> Engine:
    engine = create_engine(
        URL.create("sqlite", database=str(path)),
        connect_args={"timeout": wait_for_lock_s, "isolation_level": None},
        max_overflow=-1,  # a thread that needs a connection gets one, instead of waiting for another's
        hide_parameters=True,  # they hold customers' words, and errors are written down
    )

    def prepare(connection: sqlite3.Connection, _: ConnectionPoolEntry) -> None:
        _use_write_ahead_log(connection, wait_s=wait_for_lock_s)
        # synchronous FULL: a message is acknowledged to its channel only when it would survive a power cut.
        for pragma in ("synchronous = FULL", "foreign_keys = ON"):
            connection.execute(f"PRAGMA {pragma}")

    event.listen(engine, "connect", prepare)
    event.listen(engine, "begin", _begin)
    return engine


def _use_write_ahead_log(connection: sqlite3.Connection, *, wait_s: float) -> None:
    """Wait here while another program makes the same store: SQLite's own waiting leaves this one change out."""
    give_up = monotonic() + wait_s
    while True:
        try:
            connection.execute("PRAGMA journal_mode = WAL")
            return
        except sqlite3.OperationalError as error:
            if (
                error.sqlite_errorcode & 0xFF not in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
                or monotonic() > give_up
            ):
                raise
            sleep(_PAUSE_S)


def _begin(connection: Connection) -> None:
    connection.exec_driver_sql(connection.get_execution_options().get("tapeline_begin", "BEGIN"))


_IN_WORDS = (
    (("locked", "busy"), "is locked by another program. Close what works on it (a backup, an editor) and try again."),
    (
        ("readonly", "read-only", "unable to open"),
        "cannot be written. Give your account the right to write to the file and its folder.",
    ),
    (("full",), "has no room left on the disk. Nothing was changed; make room and try again."),
    (
        ("malformed", "not a database", "disk i/o"),
        "is damaged and was left as it is. Put the newest backup in its place "
        "(a file named tapeline-before-*.db is made before each upgrade).",
    ),
)


def _in_words(error: DBAPIError, path: Path) -> Exception:
    told = str(error.orig).lower()
    for signs, words in _IN_WORDS:
        if any(sign in told for sign in signs):
            return StoreError(f"{path} {words}")
    return StoreError(f"{path} cannot be used: {error.orig}") if isinstance(error, OperationalError) else error
