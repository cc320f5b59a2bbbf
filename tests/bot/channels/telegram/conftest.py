"""Shops on Telegram that wait less between attempts than a real one."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot import retry
from bot.channels.telegram import files, sending
from tests.bot.channels.telegram.running import TelegramShop, telegram_shop


@pytest.fixture(autouse=True)
def short_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(retry, "FIRST_S", 0.05)
    monkeypatch.setattr(sending, "PAUSE_S", 0.05)
    monkeypatch.setattr(files, "PAUSE_S", 0.05)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[TelegramShop]:
    """A running shop with one maker that drafts at once."""
    with telegram_shop(tmp_path) as opened:
        opened.start()
        yield opened
