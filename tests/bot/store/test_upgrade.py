"""Older stores become newer ones step by step, with a backup first; the steps and the tables say the same."""

import re
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine

from bot.errors import StoreError
from bot.store import database, upgrade
from bot.store.database import open_database
from bot.store.schema import metadata

TABLES = {
    "customer": "id channel address display_name",
    "enquiry": "id customer_id thread_key state revision opened_at closed_at",
    "message": "id enquiry_id channel account external_id seq author sent_at received_at reading_state",
    "message_revision": "message_id n text deleted at",
    "attachment": "message_id name type bytes",
    "correction": "enquiry_id seq dog measure low high maker at",
    "draft": "id enquiry_id version revision fingerprint kind text result_json state",
    "decision": "draft_id maker surface action at",
    "departure": "draft_id part address reply_to text state attempts not_before key claimed_at external_id error",
    "shown": "draft_id surface external_ref",
    "cursor": "channel account folder value",
}


AT_HEAD = upgrade.NEWEST


def made_of(path: Path | str) -> dict[str, list[str]]:
    """What a store is made of: each table and index with its lines, sorted, since their order says nothing."""
    query = "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL AND name <> 'alembic_version'"
    with closing(sqlite3.connect(path)) as connection:
        rows = connection.execute(query).fetchall()
    return {name: sorted(line.strip().rstrip(",") for line in re.split(r"\n", sql)) for name, sql in rows}


def test_the_steps_lead_to_the_tables_as_they_are_written(tmp_path: Path) -> None:
    open_database(tmp_path).close()
    at_once = tmp_path / "at_once.db"
    engine = create_engine(f"sqlite:///{at_once}")
    metadata.create_all(engine)
    engine.dispose()

    assert made_of(tmp_path / "tapeline.db") == made_of(at_once)


@pytest.mark.parametrize("table", TABLES)
def test_each_table_holds_what_was_designed(table: str) -> None:
    assert set(TABLES[table].split()) <= set(metadata.tables[table].columns.keys())


def test_the_program_knows_every_step_and_its_newest() -> None:
    config = Config()
    config.set_main_option("script_location", str(upgrade.MIGRATIONS))
    config.set_main_option("version_locations", str(upgrade.MIGRATIONS / "versions"))
    config.set_main_option("path_separator", "os")
    steps = ScriptDirectory.from_config(config)

    assert [step.revision for step in steps.walk_revisions()][::-1] == list(upgrade.KNOWN)
    assert steps.get_current_head() == upgrade.NEWEST


@pytest.mark.parametrize("older", upgrade.KNOWN[:-1])
def test_an_older_store_becomes_a_new_one_and_keeps_what_is_in_it(tmp_path: Path, older: str) -> None:
    store = tmp_path / "tapeline.db"
    engine = create_engine(f"sqlite:///{store}")
    with engine.begin() as connection:
        upgrade.run_migrations(connection, upto=older)
        connection.exec_driver_sql("INSERT INTO cursor VALUES ('paste', '', '', 'kept')")
    engine.dispose()

    open_database(tmp_path).close()

    (tmp_path / "new").mkdir()
    open_database(tmp_path / "new").close()
    assert made_of(store) == made_of(tmp_path / "new" / "tapeline.db")
    with closing(sqlite3.connect(store)) as connection:
        assert connection.execute("SELECT value FROM cursor").fetchone() == ("kept",)
    assert (tmp_path / f"tapeline-before-{older}.db").exists()


def test_a_store_of_a_newer_tapeline_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    open_database(tmp_path).close()
    with closing(sqlite3.connect(tmp_path / "tapeline.db")) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '0999'")
    before = (tmp_path / "tapeline.db").read_bytes()

    with pytest.raises(StoreError, match=r"newer tapeline.*0999.*Install the newer"):
        open_database(tmp_path)

    assert (tmp_path / "tapeline.db").read_bytes() == before


def _older(monkeypatch: pytest.MonkeyPatch) -> None:
    """As if this program had one more step than the store."""
    monkeypatch.setattr(upgrade, "NEWEST", "0900")
    monkeypatch.setattr(upgrade, "KNOWN", (*upgrade.KNOWN, "0900"))


def test_a_backup_is_made_before_a_store_is_changed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with open_database(tmp_path) as store, store.write() as connection:
        connection.exec_driver_sql("INSERT INTO cursor VALUES ('paste', '', '', 'kept')")
    _older(monkeypatch)
    monkeypatch.setattr(database.upgrade, "run_migrations", lambda connection: None)

    open_database(tmp_path).close()
    open_database(tmp_path).close()

    backups = sorted(path.name for path in tmp_path.glob("*-before-*"))
    assert backups == [f"tapeline-before-{AT_HEAD}-2.db", f"tapeline-before-{AT_HEAD}.db"]
    with closing(sqlite3.connect(tmp_path / backups[0])) as connection:
        assert connection.execute("SELECT value FROM cursor").fetchone() == ("kept",)


def test_a_step_that_breaks_off_leaves_the_store_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    open_database(tmp_path).close()
    before = made_of(tmp_path / "tapeline.db")
    _older(monkeypatch)

    def break_off(connection: database.Connection) -> None:
        connection.exec_driver_sql("CREATE TABLE half (id INTEGER)")
        raise RuntimeError

    monkeypatch.setattr(database.upgrade, "run_migrations", break_off)
    with pytest.raises(RuntimeError):
        open_database(tmp_path)

    assert made_of(tmp_path / "tapeline.db") == before


def test_a_folder_with_odd_signs_in_its_name_takes_a_store(tmp_path: Path) -> None:
    folder = tmp_path / "50 % off & ünïcode"
    folder.mkdir()

    open_database(folder).close()

    assert (folder / "tapeline.db").exists()
