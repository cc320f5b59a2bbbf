"""How many messages a second go from keeping to a stored draft, beside bare commits of the same size on the same disk.

Run by hand: python -m tests.bench.desk
"""

import sqlite3
import tempfile
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from tests.fakes import FIVE, message, shop_desk

COUNT = 200


def rate(step: Callable[[int], object]) -> float:
    """How many steps a second."""
    begun = time.perf_counter()
    for number in range(COUNT):
        step(number)
    return COUNT / (time.perf_counter() - begun)


def bare_commits(folder: Path) -> float:
    """Commits of one row with the text of one message, each waiting for the disk as the store's do."""
    with closing(sqlite3.connect(folder / "bare.db", isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("CREATE TABLE kept (id INTEGER PRIMARY KEY, text TEXT)")

        def commit(_: int) -> None:
            connection.execute("BEGIN IMMEDIATE")
            connection.execute("INSERT INTO kept (text) VALUES (?)", (FIVE,))
            connection.execute("COMMIT")

        return rate(commit)


def main() -> None:
    """Print the rates and what a message costs in bare commits."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        bare = bare_commits(folder)
        with shop_desk(folder / "shop") as desk:
            kept = rate(lambda number: desk.keep(message(FIVE, address=str(number), external_id=f"{number}:1")))
            worked_out = rate(lambda number: desk.worked_out(number + 1))
            drafted = rate(lambda number: desk.draft(number + 1))
    whole = 1 / (1 / kept + 1 / drafted)
    print(f"bare commits                 {bare:8.0f} a second")
    print(f"kept                         {kept:8.0f} a second, {bare / kept:5.1f} bare commits each")
    print(f"read, sized, worded          {worked_out:8.0f} a second")
    print(f"read, sized, worded, stored  {drafted:8.0f} a second, {bare / drafted:5.1f} bare commits each")
    print(f"from keeping to the draft    {whole:8.0f} a second, {bare / whole:5.1f} bare commits each")


if __name__ == "__main__":
    main()
