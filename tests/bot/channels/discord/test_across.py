"""Any customer channel goes with any maker channel: a whole process as people run it, with both chats."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.states import DepartureState
from tests.bot.channels.discord.running import DiscordShop, discord_shop
from tests.doubles.telegram_api import TelegramApi


@pytest.fixture
def telegram() -> Iterator[TelegramApi]:
    with TelegramApi() as api:
        yield api
        assert api.faults == []


@pytest.fixture
def shop(tmp_path: Path, telegram: TelegramApi) -> Iterator[DiscordShop]:
    """A shop with an account on either, whose makers are on Discord alone; `tapeline run`, in a process of its own."""
    more = f'[telegram]\nserver = "{telegram.base}"'
    with discord_shop(tmp_path, more=more) as opened:
        token = tmp_path / "secrets" / "telegram_token"
        token.write_text(telegram.token, encoding="utf-8")
        token.chmod(0o600)
        command = [sys.executable, "-m", "bot", "run", "--shop", str(tmp_path)]
        log = (tmp_path / "log").open("w", encoding="utf-8")
        process = subprocess.Popen(command, stderr=log, env={**os.environ, "PYTHONWARNINGS": "ignore"})
        try:
            opened.api.wait_until(lambda: opened.api.sessions.connected == 1, timeout_s=60)
            yield opened
        finally:
            process.send_signal(signal.SIGTERM)
            assert process.wait(30) == 0
            log.close()


def test_a_customer_on_telegram_is_answered_by_a_maker_on_discord(shop: DiscordShop, telegram: TelegramApi) -> None:
    ada = telegram.person("Ada")
    telegram.write(ada, "Hi! Pickle is 13 inches long and 12 inches at the shoulder. Which size?")
    shop.press("Approve", shop.draft("1.1"))
    telegram.wait_until(lambda: len(telegram.sent(ada)) == 1, timeout_s=20)
    assert "Width" in telegram.sent(ada)[0]

    telegram.write(ada, "width is 4.5 inches, throat 8.75 inches and she weighs 15 lb")
    shop.fill_in("Correct", shop.draft("1.2"), "width 4.75")
    shop.press("Approve", shop.draft("1.3"))
    telegram.wait_until(lambda: len(telegram.sent(ada)) == 2, timeout_s=20)
    shop.wait_for_state(DepartureState.GONE)

    assert "No." in telegram.sent(ada)[1]
    assert any("from Ada (telegram)" in one["content"].replace("\\", "") for one in shop.api.chat(shop.api.back_room))
    log = (shop.folder / "log").read_text(encoding="utf-8")
    for hidden in (shop.api.token, telegram.token, "Pickle", "Ada"):
        assert hidden not in log
