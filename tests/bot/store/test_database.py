"""The connection and the transaction: kept or not at all, private, and never a database's own words to the maker."""

import os
import sqlite3
import subprocess
import sys
import threading
from contextlib import closing
from pathlib import Path

import pytest

from bot.errors import StoreError
from bot.message import ChannelName
from bot.store.cursors import read_cursor, write_cursor
from bot.store.database import Database, open_database

PASTE = ChannelName.PASTE


def value(database: Database) -> str | None:
    with database.read() as connection:
        return read_cursor(connection, PASTE, "")


def put(database: Database, text: str) -> None:
    with database.write() as connection:
        write_cursor(connection, PASTE, "", text)


def test_what_was_written_is_there_after_opening_again(tmp_path: Path) -> None:
    with open_database(tmp_path) as database:
        put(database, "kept")

    with open_database(tmp_path) as database:
        assert value(database) == "kept"


def test_a_transaction_that_breaks_off_leaves_nothing(tmp_path: Path) -> None:
    with open_database(tmp_path) as database:
        put(database, "before")
        with pytest.raises(RuntimeError), database.write() as connection:
            write_cursor(connection, PASTE, "", "after")
            raise RuntimeError

        assert value(database) == "before"


def test_a_reader_sees_one_state_while_another_writes(tmp_path: Path) -> None:
    with open_database(tmp_path) as database:
        put(database, "before")
        with database.read() as reading:
            assert read_cursor(reading, PASTE, "") == "before"
            put(database, "after")
            assert read_cursor(reading, PASTE, "") == "before"

        assert value(database) == "after"


def test_two_writers_take_turns_and_lose_no_count(tmp_path: Path) -> None:
    def add() -> None:
        with open_database(tmp_path) as mine:
            for _ in range(50):
                with mine.write() as connection:
                    write_cursor(connection, PASTE, "", str(int(read_cursor(connection, PASTE, "") or "0") + 1))

    open_database(tmp_path).close()
    threads = [threading.Thread(target=add) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    with open_database(tmp_path) as database:
        assert value(database) == "200"


def test_two_programs_may_make_the_store_at_once(tmp_path: Path) -> None:
    faults: list[BaseException] = []

    def begin() -> None:
        try:
            open_database(tmp_path).close()
        except BaseException as error:
            faults.append(error)

    threads = [threading.Thread(target=begin) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert faults == []


def test_a_commit_waits_for_the_disk(tmp_path: Path) -> None:
    with open_database(tmp_path) as database, database.read() as connection:
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1


def test_nobody_else_can_read_the_store(tmp_path: Path) -> None:
    others = 0o077 if os.name == "posix" else 0  # elsewhere the folder's own rights keep other users out
    with open_database(tmp_path) as database:
        put(database, "x")
        open_to_others = [path.name for path in tmp_path.iterdir() if path.stat().st_mode & others]

    assert open_to_others == []


def test_a_locked_store_is_told_in_words_and_nothing_is_lost(tmp_path: Path) -> None:
    with open_database(tmp_path, wait_for_lock_s=0.05) as database, closing(sqlite3.connect(database.path)) as other:
        put(database, "before")
        other.execute("BEGIN IMMEDIATE")

        with pytest.raises(StoreError, match="locked by another program"):
            put(database, "after")

        other.rollback()
        assert value(database) == "before"


@pytest.mark.parametrize(
    "content", [b"this is no database, whatever it says" * 100, b"SQLite format 3\0" + b"\xff" * 5000]
)
def test_a_damaged_store_is_told_in_words_and_left_as_it_is(tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "tapeline.db"
    file.write_bytes(content)

    with pytest.raises(StoreError, match=r"damaged and was left as it is.*backup"):
        open_database(tmp_path)

    assert file.read_bytes() == content


def test_a_store_that_was_cut_short_is_told_in_words(tmp_path: Path) -> None:
    with open_database(tmp_path) as database:
        put(database, "x")
    file = tmp_path / "tapeline.db"
    file.write_bytes(file.read_bytes()[:8192])

    with pytest.raises(StoreError, match="damaged"), open_database(tmp_path) as database:
        put(database, "y")


def test_a_folder_that_is_not_there_is_told_in_words(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="cannot be written"):
        open_database(tmp_path / "nowhere")


READ_ONLY = """
import os, sys
from pathlib import Path
from bot.errors import StoreError
from bot.store.database import open_database
open_database(Path(sys.argv[2])).close()  # imports all it needs while it may
if os.name == "posix" and os.getuid() == 0:
    os.setgid(65534); os.setuid(65534)  # root may write whatever it likes
try:
    open_database(Path(sys.argv[1]))
except StoreError as error:
    print("told:", error)
"""


def test_a_store_that_may_not_be_written_is_told_in_words(tmp_path: Path) -> None:
    shop, other = tmp_path / "shop", tmp_path / "other"
    shop.mkdir()
    other.mkdir()
    open_database(shop).close()
    (shop / "tapeline.db").chmod(0o444)
    for folder in (shop, *shop.parents[:-2]):
        folder.chmod(0o755)

    run = [sys.executable, "-c", READ_ONLY, str(shop), str(other)]
    done = subprocess.run(run, capture_output=True, text=True, check=True)

    assert done.stdout.startswith("told:")
    assert "cannot be written" in done.stdout
