"""`tapeline run` as a process, and `tapeline check --connect` against a server, without a word of the token."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.bot.channels.telegram.running import WHOLE, TelegramShop, telegram_shop
from tests.bot.commands.terminal import ROOT, Terminal


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[TelegramShop]:
    with telegram_shop(tmp_path, makers=2) as opened:
        yield opened


@pytest.fixture
def at_shop(shop: TelegramShop, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Terminal:
    return Terminal(shop.folder, capsys, monkeypatch)


def test_an_account_is_tried_without_sending_anything(shop: TelegramShop, at_shop: Terminal) -> None:
    done = at_shop("check", "--connect")

    assert done.code == 0
    assert "telegram: @carriers_to_measure_bot answers; 2 may decide" in done.err
    assert {call.method for call in shop.api.calls} <= {"getMe", "getChat", "getWebhookInfo"}


def test_a_maker_who_never_opened_the_chat_is_named(shop: TelegramShop, at_shop: Terminal) -> None:
    del shop.api.world.people[shop.others[0].id]

    done = at_shop("check", "--connect")

    assert f"not yet reachable: {shop.others[0].id} (open @carriers_to_measure_bot in Telegram" in done.err


def test_a_token_that_is_not_accepted_is_named_and_not_shown(shop: TelegramShop, at_shop: Terminal) -> None:
    (shop.folder / "secrets" / "telegram_token").write_text("123:not-this-one", encoding="utf-8")

    done = at_shop("check", "--connect")

    assert done.code == 1
    assert "Telegram does not accept the bot's token" in done.err
    assert "not-this-one" not in done.out + done.err


def test_a_server_that_is_away_is_told(shop: TelegramShop, at_shop: Terminal) -> None:
    shop.api.stop_listening()

    done = at_shop("check", "--connect")
    shop.api.start_listening()

    assert done.code == 1
    assert "telegram: Telegram cannot be reached" in done.err


def test_a_token_that_others_can_read_is_refused(shop: TelegramShop, at_shop: Terminal) -> None:
    (shop.folder / "secrets" / "telegram_token").chmod(0o644)

    done = at_shop("check", "--connect")

    assert done.code == 1
    assert "chmod 600" in done.err
    assert shop.api.token not in done.err


@pytest.mark.parametrize("words", [["run"], ["check", "--connect"]])
def test_a_shop_without_a_token_says_what_is_missing(tapeline: Terminal, words: list[str]) -> None:
    done = tapeline(*words)

    assert done.code == 1
    assert "no channel has an account yet" in done.err


def test_a_running_shop_ends_cleanly_and_logs_no_words(shop: TelegramShop) -> None:
    ada = shop.api.person("Adelheid")
    environment = {**os.environ, "TAPELINE_TELEGRAM_TOKEN": shop.api.token}
    (shop.folder / "secrets" / "telegram_token").unlink()
    running = subprocess.Popen(
        [sys.executable, "-m", "bot", "run", "--shop", str(shop.folder)],
        cwd=ROOT,
        env=environment,
        stderr=subprocess.PIPE,
        text=True,
    )
    shop.api.write(ada, WHOLE)
    shop.draft("1.1")
    running.send_signal(signal.SIGTERM)
    _, log = running.communicate(timeout=30)

    assert running.returncode == 0
    assert "the shop runs" in log
    assert "the shop has stopped" in log
    for private in ("Adelheid", "Pickle", str(ada.id), shop.api.token):
        assert private not in log
