"""Brings a store up to date, step by step, with a backup made first."""

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import Connection, inspect, text

from bot.errors import StoreError

NEWEST = "0002"
KNOWN = ("0001", "0002")
MIGRATIONS = Path(__file__).with_name("migrations")


def revision_of(connection: Connection) -> str | None:
    """Give the revision of a store; None: there are no tables yet."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    return connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one_or_none()


def refuse_newer(found: str | None, path: Path) -> None:
    """Raise StoreError where a store was made by a newer tapeline, whose tables this one does not know."""
    if found is not None and found not in KNOWN:
        raise StoreError(
            f"{path} was made by a newer tapeline (its tables are {found}, this one knows up to {NEWEST}). "
            "Install the newer tapeline; nothing was changed."
        )


def back_up(path: Path, found: str) -> Path:
    """Copy a store, whole and consistent, beside itself before it is changed.

    Returns   the copy; an older one of the same revision stays and the new one gets a number
    Raises    StoreError where there is no room or no right to write
    """
    target = _free_name(path, found)
    try:
        target.touch(mode=0o600, exist_ok=False)
        with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(target)) as copy:
            source.backup(copy)
    except (OSError, sqlite3.Error) as error:
        raise StoreError(f"{target} could not be written ({error}), so {path.name} was not upgraded.") from error
    return target


def _free_name(path: Path, found: str) -> Path:
    endings = ("", *(f"-{number}" for number in range(2, 1000)))
    names = (path.with_name(f"{path.stem}-before-{found}{ending}.db") for ending in endings)
    return next(name for name in names if not name.exists())


def run_migrations(connection: Connection, *, upto: str = "head") -> None:
    """Take all steps from where the store stands to the newest, within the transaction of `connection`."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.set_main_option("version_locations", str(MIGRATIONS / "versions").replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    command.upgrade(config, upto)
