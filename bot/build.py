"""Puts settings, store and desk of a shop together; the only place that names them all."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from bot.desk import Desk, utc_now
from bot.settings import find_folder, load_settings
from bot.store.database import open_database
from bot.workshop import open_workshop


@contextmanager
def open_desk(folder: Path | None = None, *, clock: Callable[[], datetime] = utc_now) -> Iterator[Desk]:
    """Open the desk of the shop that is found (see `find_folder`), and close its store afterwards.

    Raises   NoShopError, SettingsError, StoreError and what the maker's own words and wording raise: all hers to mend
    """
    settings = load_settings(find_folder(folder))
    workshop = open_workshop(settings)
    with open_database(settings.folder) as database:
        yield Desk(settings, workshop, database, clock=clock)
