"""A whole shop on Telegram for tests: real settings, store, desk and channel, and the Bot API double before them."""

import asyncio
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TypeVar

from bot.build import open_desk
from bot.channels.base import OpenChannel
from bot.channels.telegram.channel import Telegram
from bot.channels.telegram.client import Client
from bot.run import run
from bot.states import DepartureState
from bot.store.database import Database, open_database
from bot.store.parts import Part, parts_in
from tests.doubles.telegram_api import TelegramApi
from tests.doubles.telegram_people import button
from tests.doubles.telegram_world import Json, Person

T = TypeVar("T")

WHOLE = "Hi, which size for Pickle? length 13, height 12, width 4.75, throat 8.75, all inches, she weighs 15 lb"
"""A message with all five measures: the draft is an answer."""


@dataclass(slots=True)
class Clock:
    """The time, which a test can push forward."""

    ahead: timedelta = timedelta()

    def __call__(self) -> datetime:
        return datetime.now(UTC) + self.ahead

    def advance(self, seconds: float) -> None:
        self.ahead += timedelta(seconds=seconds)


def write_shop(folder: Path, api: TelegramApi, makers: list[Person], *, more: str = "", settle_s: float = 0) -> None:
    """Write the settings and the token of a shop."""
    ids = ", ".join(str(maker.id) for maker in makers)
    (folder / "shop.toml").write_text(
        f'[maker]\nname = "Wil"\n[messages]\nsettle_s = {settle_s}\nquiet_hours = ""\n'
        f'[telegram]\nmakers = [{ids}]\nserver = "{api.base}"\n{more}',
        encoding="utf-8",
    )
    (folder / "secrets").mkdir(exist_ok=True)
    token = folder / "secrets" / "telegram_token"
    token.write_text(api.token, encoding="utf-8")
    token.chmod(0o600)


@dataclass(slots=True)
class TelegramShop:
    """A shop and the people around it. `maker` has opened her chat with the bot."""

    api: TelegramApi
    folder: Path
    maker: Person
    others: list[Person]
    clock: Clock = field(default_factory=Clock)
    answer_s: float = 20.0
    _thread: threading.Thread | None = None
    _stop: Callable[[], None] = field(default=lambda: None)
    _failed: list[BaseException] = field(default_factory=list)
    _database: Database | None = None

    # Life

    def start(self) -> None:
        """Run the shop in a thread of its own."""
        ready = threading.Event()
        self._thread = threading.Thread(target=self._run, args=(ready,), name="shop")
        self._thread.start()
        ready.wait(20)

    def stop(self) -> None:
        """Stop it as SIGTERM does, and raise what it raised."""
        if self._thread is not None:
            self._stop()
            self._thread.join(30)
            self._thread = None
        if self._failed:
            raise self._failed.pop()

    def close(self) -> None:
        """Stop it, and close what was opened to look into its store."""
        try:
            self.stop()
        finally:
            if self._database is not None:
                self._database.close()

    def _run(self, ready: threading.Event) -> None:
        async def serve() -> None:
            stop, loop = asyncio.Event(), asyncio.get_running_loop()
            self._stop = lambda: loop.call_soon_threadsafe(stop.set)
            ready.set()
            with open_desk(self.folder, clock=self.clock) as desk:
                client = Client(self.api.token, server=self.api.base, answer_s=self.answer_s)
                channel = Telegram(desk, client)
                opened = OpenChannel(customers=channel, maker=channel.chats, close=channel.close)
                await run(desk, [opened], stop=stop, tick_s=0.04)

        try:
            asyncio.run(serve())
        except BaseException as error:
            self._failed.append(error)
        finally:
            ready.set()

    # What the maker sees and does

    def draft(self, number: str, *, maker: Person | None = None) -> Json:
        """Wait until a draft is shown, and give the message with its buttons."""
        whom = maker or self.maker
        return self.api.wait_until(lambda: next(iter(self.shown(number, maker=whom)), None), timeout_s=20) or {}

    def shown(self, number: str, *, maker: Person | None = None) -> list[Json]:
        """Give the messages that show a draft with buttons to decide by."""
        return [
            message
            for message in self.api.chat(maker or self.maker)
            if any(data == f"tl1:approve:{number}" for data in codes(message))
        ]

    def press(self, label: str, message: Json, *, by: Person | None = None) -> str:
        """Let a maker press a button, wait until it is answered, and give the answer."""
        return self.press_code(button(message, label), message, by=by)

    def press_code(self, code: str, message: Json, *, by: Person | None = None) -> str:
        """Let a maker press a button that she still sees, though it may be gone."""
        press = self.api.press(by or self.maker, message["message_id"], code)
        self.api.wait_until(lambda: self.api.answer_to(press) is not None, timeout_s=20)
        return self.api.answer_to(press) or ""

    def says(self, words: str, *, maker: Person | None = None) -> Json:
        """Wait until the bot has said something to a maker, and give the message."""
        whom = maker or self.maker

        def found() -> Json | None:
            said = [one for one in self.api.chat(whom) if one["from"]["is_bot"] and words in one.get("text", "")]
            return said[-1] if said else None

        return self.api.wait_until(found, timeout_s=20) or {}

    # What the store says

    def parts(self) -> list[Part]:
        """Give everything that was approved."""
        if self._database is None:
            self._database = open_database(self.folder)
        with self._database.read() as connection:
            return parts_in(connection, list(DepartureState))

    def wait(self, happened: Callable[[], T]) -> T:
        """Wait until something can be seen in the store."""
        deadline = datetime.now(UTC) + timedelta(seconds=20)
        pause = threading.Event()
        while not (seen := happened()):
            if datetime.now(UTC) > deadline:
                raise TimeoutError("it did not happen within 20 s")
            pause.wait(0.02)
        return seen

    def wait_for_attempts(self, least: int) -> None:
        """Wait until the one part that was approved has been tried so often, and is queued again."""
        self.wait(
            lambda: [part.state is DepartureState.QUEUED and part.attempts >= least for part in self.parts()] == [True]
        )

    def wait_for_state(self, state: DepartureState) -> None:
        """Wait until everything that was approved is in one state."""
        self.wait(lambda: (parts := self.parts()) and all(part.state is state for part in parts))


def codes(message: Json) -> list[str]:
    """Give the codes of the buttons under a message."""
    rows = message.get("reply_markup", {}).get("inline_keyboard", [])
    return [one["callback_data"] for row in rows for one in row]


@contextmanager
def telegram_shop(folder: Path, *, makers: int = 1, settle_s: float = 0, more: str = "") -> Iterator[TelegramShop]:
    """Open a shop, not yet running; it ends without a fault of ours in what it asked of the server."""
    with TelegramApi() as api:
        people = [api.person(name) for name in ("Wil", "Kit", "Jo")[:makers]]
        for maker in people:
            api.write(maker, "/start")
        write_shop(folder, api, people, more=more, settle_s=settle_s)
        shop = TelegramShop(api=api, folder=folder, maker=people[0], others=people[1:])
        try:
            yield shop
        finally:
            shop.close()
        assert api.faults == []
