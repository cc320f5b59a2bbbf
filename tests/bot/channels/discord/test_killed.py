"""SIGKILL at every step between receiving and gone, then a restart: the world as customer and maker see it.

No message is lost, nothing goes twice, and where nobody can know whether a text went, the maker is asked. What a maker
pressed while the shop died is lost, and she sees that: she presses again.
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
from tests.bot.channels.discord.running import DiscordShop, discord_shop
from tests.bot.channels.telegram.killed import Step, run_shop
from tests.bot.channels.telegram.running import WHOLE
from tests.doubles.discord_people import button, codes
from tests.doubles.discord_world import Json
from tests.forked import PROCESSES

T = TypeVar("T")

STEPS = {
    "told and nothing was done": Step(place="bot.channels.discord.inbox:Inbox._take", after=False),
    "a message came and is not kept": Step(place="bot.desk:Desk.keep", after=False),
    "kept and no thread is opened": Step(place="bot.channels.discord.threads:Threads.open", after=False),
    "a thread was opened": Step(place="bot.channels.discord.threads:Threads._from_message", after=True),
    "shown and not noted": Step(place="bot.channels.shown:Shown.note", after=False),
    "a correction came and is not set": Step(place="bot.maker_side:correct", after=False),
    "an approval came and nothing is decided": Step(place="bot.maker_side:approve", after=False),
    "approved and not answered": Step(place="bot.maker_side:approve", after=True),
    "claimed and not handed over": Step(place="bot.departures:Sender._hand_over", after=False),
    "at the channel and not sent": Step(place="bot.channels.discord.channel:Discord.deliver", after=False),
    "sent and not noted": Step(place="bot.channels.discord.channel:Discord.deliver", after=True),
}
UNSURE = {"claimed and not handed over", "at the channel and not sent"}
"""Steps after which nobody can know whether the text went. One that was sent is found."""


class Killed:
    """A shop whose process is started again after it was killed, and a maker who goes on as if nothing had been."""

    def __init__(self, shop: DiscordShop, step: Step) -> None:
        self.shop = shop
        self.deaths = 0
        self._process = self._start(step)

    def _start(self, step: Step | None) -> "multiprocessing.process.BaseProcess":
        process = PROCESSES.Process(target=run_shop, args=(self.shop.folder, step), daemon=True)
        process.start()
        return process

    def __enter__(self) -> "Killed":
        return self

    def __exit__(self, *_: object) -> None:
        self._process.kill()
        self._process.join()

    def until(self, happened: Callable[[], T | None], *, again: Callable[[], object] = lambda: None) -> T:
        """Wait until something can be seen. again: what people do once more when the process was killed."""
        deadline, pause = time.monotonic() + 30, threading.Event()
        while not (seen := happened()):
            if time.monotonic() > deadline:
                recent = [(call.method, call.path, call.refused) for call in self.shop.api.calls[-8:]]
                raise TimeoutError(f"it did not happen within 30 s; deaths {self.deaths}, calls {recent}")
            if not self._process.is_alive():
                assert self._process.exitcode == -signal.SIGKILL
                self.deaths += 1
                self._process = self._start(None)
                self.listens()
                again()
            pause.wait(0.02)
        return seen

    def listens(self) -> None:
        """Wait until the process is in session."""
        self.shop.api.wait_until(lambda: self.shop.api.sessions.connected == 1, timeout_s=30)

    def stop(self) -> None:
        """Stop it as a system does."""
        self._process.terminate()
        self._process.join(20)
        assert self._process.exitcode == 0

    def shown(self, words: str) -> Json | None:
        """Give the last draft that was shown with these words before its buttons."""
        chat = self.shop.api.chat(self.shop.api.back_room)
        heads = [place for place, one in enumerate(chat) if words in one["content"].replace("\\", "")]
        after = chat[heads[-1] :] if heads else []
        return next((one for one in after if any(":approve:" in code for code in codes(one))), None)

    def press(self, message: Json, label: str) -> int:
        return self.shop.api.press(self.shop.maker, message, button(message, label))


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[DiscordShop]:
    with discord_shop(tmp_path) as opened:
        yield opened


@pytest.mark.parametrize("name", STEPS)
def test_a_kill_loses_nothing_and_sends_nothing_twice(shop: DiscordShop, name: str) -> None:
    ada = shop.api.person("Ada")
    with Killed(shop, STEPS[name]) as killed:
        killed.listens()
        shop.api.wait_until(lambda: shop.api.sent(shop.api.shop_floor), timeout_s=30)  # the channel is being read
        thread = shop.api.write(ada, WHOLE, channel=shop.api.shop_floor)
        correct(killed)
        approve(killed)
        unsure = settle(killed, arrived=lambda: bool(shop.api.sent(thread)))
        killed.until(lambda: killed.deaths == 1)
        killed.stop()

    assert len(shop.api.sent(thread)) == 1
    assert "5 in wide" in shop.api.sent(thread)[0]
    assert unsure == (name in UNSURE)
    assert [row.text for row in shop.kept()] == [WHOLE]
    assert shop.api.threads() == [thread]


def correct(killed: Killed) -> None:
    """Let the maker correct a measure, once more if that was lost."""
    draft = killed.until(lambda: killed.shown("answer 1.1"))

    def write() -> None:
        presses: list[int] = []

        def press() -> None:
            presses.append(killed.press(draft, "Correct"))

        press()
        killed.until(lambda: killed.shop.api.form(presses[-1]) or killed.shown("(you set it)"), again=press)
        if killed.shop.api.form(presses[-1]):
            killed.shop.api.fill_in(killed.shop.maker, presses[-1], {"correction": "width 5"})

    write()
    killed.until(lambda: killed.shown("(you set it)"), again=write)


def approve(killed: Killed) -> None:
    """Let the maker approve what came of it, once more if that was lost."""

    def press() -> None:
        if draft := killed.shown("(you set it)"):
            killed.press(draft, "Approve")

    press()
    killed.until(killed.shop.parts, again=press)


def settle(killed: Killed, *, arrived: Callable[[], bool]) -> bool:
    """Wait until the text is gone; where nobody knows, let the maker look and say so. Gives whether that was needed."""
    parts = killed.shop.parts
    killed.until(lambda: [part for part in parts() if part.state in (DepartureState.GONE, DepartureState.UNSURE)])
    time.sleep(0.2)  # a text that was sent is looked for first
    unsure = parts()[0].state is DepartureState.UNSURE
    if unsure:
        told = killed.until(lambda: said(killed, "may have gone, or not"))
        killed.press(told, "It arrived" if arrived() else "It did not")
    killed.until(lambda: [part.state for part in parts()] == [DepartureState.GONE])
    return unsure


def said(killed: Killed, words: str) -> Json | None:
    """Give what the bot said with these words in it."""
    return next((one for one in killed.shop.api.chat(killed.shop.api.back_room) if words in one["content"]), None)
