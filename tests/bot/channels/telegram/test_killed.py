"""SIGKILL at every step between receiving and gone, then a restart: the world as customer and maker see it.

No message is lost, nothing goes twice, and where nobody can know whether a text went, the maker is asked.
"""

import multiprocessing
import signal
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TypeVar

import pytest

from bot.states import DepartureState
from bot.store.database import open_database
from bot.store.messages import messages_of
from tests.bot.channels.telegram.killed import Step, run_shop
from tests.bot.channels.telegram.running import WHOLE, TelegramShop, codes, telegram_shop
from tests.doubles.telegram_world import Json
from tests.forked import PROCESSES

T = TypeVar("T")

STEPS = {
    "an update came and nothing was done": Step(place="bot.channels.telegram.client:Client.raw_updates", after=True),
    "a message came and is not kept": Step(place="bot.desk:Desk.keep", after=False),
    "kept and not acknowledged": Step(place="bot.desk:Desk.keep", after=True),
    "settled and not drafted": Step(place="bot.desk:Desk.draft", after=False),
    "drafted and not shown": Step(place="bot.desk:Desk.draft", after=True),
    "shown and not noted": Step(place="bot.channels.shown:Shown.note", after=False),
    "shown and noted": Step(place="bot.channels.shown:Shown.note", after=True),
    "a correction came and is not set": Step(place="bot.maker_side:correct", after=False),
    "corrected and not shown": Step(place="bot.maker_side:correct", after=True),
    "an approval came and nothing is decided": Step(place="bot.maker_side:approve", after=False),
    "approved and not answered": Step(place="bot.maker_side:approve", after=True),
    "due and not claimed": Step(place="bot.departures:claim", after=False),
    "claimed and not handed over": Step(place="bot.departures:Sender._hand_over", after=False),
    "at the channel and not sent": Step(place="bot.channels.telegram.channel:Telegram.deliver", after=False),
    "sent and not noted": Step(place="bot.channels.telegram.channel:Telegram.deliver", after=True),
    "noted as gone": Step(place="bot.departures:Sender._note", after=True),
    "an old draft not taken off": Step(place="bot.channels.telegram.surface:MakerChats.retire", after=False),
}
UNSURE = {"claimed and not handed over", "at the channel and not sent", "sent and not noted"}
"""Steps after which nobody can know whether the text went."""


class Killed:
    """A shop whose process is started again after it was killed, and a maker who goes on as if nothing had been."""

    def __init__(self, shop: TelegramShop, step: Step) -> None:
        self.shop = shop
        self.deaths = 0
        self._process = self._start(step)

    def _start(self, step: Step | None) -> "multiprocessing.process.BaseProcess":
        process = PROCESSES.Process(target=run_shop, args=(self.shop.folder, step), daemon=True)
        process.start()
        return process

    def until(self, happened: Callable[[], T | None]) -> T:
        """Wait until something can be seen, and start the process again where it was killed."""
        deadline, pause = time.monotonic() + 30, threading.Event()
        while not (seen := happened()):
            if time.monotonic() > deadline:
                recent = [(call.method, call.refused) for call in self.shop.api.calls[-8:]]
                raise TimeoutError(f"it did not happen within 30 s; deaths {self.deaths}, calls {recent}")
            if not self._process.is_alive():
                assert self._process.exitcode == -signal.SIGKILL
                self.deaths += 1
                self._process = self._start(None)
            pause.wait(0.02)
        return seen

    def __enter__(self) -> "Killed":
        return self

    def __exit__(self, *_: object) -> None:
        self._process.kill()
        self._process.join()

    def stop(self) -> None:
        """Stop it as a system does, once it has come up again."""
        self.until(lambda: len(self.shop.api.made("getMe")) > self.deaths)
        self._process.terminate()
        self._process.join(20)
        assert self._process.exitcode == 0

    def shown(self, words: str) -> Json | None:
        """Give the last draft that was shown with these words in it."""
        messages = [one for one in self.shop.api.chat(self.shop.maker) if words in one.get("text", "")]
        return next((one for one in reversed(messages) if any(":approve:" in code for code in codes(one))), None)

    def said(self, words: str) -> Json | None:
        """Give what the bot said with these words in it."""
        chat = self.shop.api.chat(self.shop.maker)
        return next((one for one in chat if one["from"]["is_bot"] and words in one.get("text", "")), None)

    def press(self, message: Json, action: str) -> None:
        code = next(code for code in codes(message) if code.startswith(f"tl1:{action}:"))
        self.shop.api.press(self.shop.maker, message["message_id"], code)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[TelegramShop]:
    with telegram_shop(tmp_path) as opened:
        yield opened


@pytest.mark.parametrize("name", STEPS)
def test_a_kill_loses_nothing_and_sends_nothing_twice(shop: TelegramShop, name: str) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    with Killed(shop, STEPS[name]) as killed:
        correct_and_approve(killed)
        unsure = settle(killed, arrived=lambda: bool(shop.api.sent(ada)))
        killed.until(lambda: killed.deaths == 1 and shop.api.unconfirmed() == 0)
        killed.stop()

    assert len(shop.api.sent(ada)) == 1
    assert "5 in wide" in shop.api.sent(ada)[0]
    assert unsure == (name in UNSURE)
    with open_database(shop.folder) as database, database.read() as connection:
        assert [row.text for row in messages_of(connection, 1) if row.author == "customer"] == [WHOLE]


def correct_and_approve(killed: Killed) -> None:
    """Let the maker correct a measure and approve what comes of it."""
    killed.press(killed.until(lambda: killed.shown("answer 1.1")), "correct")
    killed.until(lambda: killed.said("Your next message corrects 1.1"))
    killed.shop.api.write(killed.shop.maker, "width 5")
    killed.press(killed.until(lambda: killed.shown("(you set it)")), "approve")


def settle(killed: Killed, *, arrived: Callable[[], bool]) -> bool:
    """Wait until the text is gone; where nobody knows, let the maker look and say so. Gives whether that was needed."""
    parts = killed.shop.parts
    killed.until(lambda: [part for part in parts() if part.state in (DepartureState.GONE, DepartureState.UNSURE)])
    unsure = parts()[0].state is DepartureState.UNSURE
    if unsure:
        told = killed.until(lambda: killed.said("may have gone, or not"))
        killed.press(told, "went" if arrived() else "again")
    killed.until(lambda: [part.state for part in parts()] == [DepartureState.GONE])
    return unsure
