"""Shops on Discord that wait less between attempts than a real one."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import retry
from bot.channels.discord import client
from tests.bot.channels.discord.running import DiscordShop, discord_shop


@pytest.fixture(autouse=True)
def short_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(retry, "FIRST_S", 0.05)
    monkeypatch.setattr(client, "PAUSE_S", 0.05)
    monkeypatch.setattr(client, "SESSIONS_APART_S", 0.05)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[DiscordShop]:
    """A running shop with one maker that drafts at once."""
    with discord_shop(tmp_path) as opened:
        opened.start()
        yield opened
