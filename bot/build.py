"""Puts settings, store and desk of a shop together; the only place that names them all."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from importlib import import_module
from pathlib import Path

from bot.channels.base import OpenChannel
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


_CHANNELS = ("bot.channels.telegram.channel", "bot.channels.discord.channel", "bot.channels.email.channel")
"""Each has a function `open_channel`. Imported only when a shop is run: the chat libraries take their time."""


def open_channels(desk: Desk) -> list[OpenChannel]:
    """Open every channel whose account is known.

    Raises   SettingsError for a token or password that cannot be used
    """
    found = [import_module(name).open_channel(desk) for name in _CHANNELS]
    return [channel for channel in found if channel is not None]
