"""A whole shop on Discord for tests: real settings, store, desk and channel, and the double of Discord before them."""

import asyncio
import sqlite3
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from bot.build import open_desk
from bot.channels.base import OpenChannel
from bot.channels.discord.channel import Discord
from bot.channels.discord.client import Account
from bot.message import Author
from bot.run import run
from bot.states import DepartureState
from bot.store.database import open_database
from bot.store.enquiries import open_enquiries
from bot.store.messages import MessageRow, messages_of
from bot.store.parts import Part, parts_in
from tests.bot.channels.telegram.running import Clock
from tests.doubles.discord_api import DiscordApi, discord_api
from tests.doubles.discord_people import Person, button, codes
from tests.doubles.discord_world import Json

T = TypeVar("T")
PATIENCE_S = 20.0


def write_shop(
    folder: Path,
    api: DiscordApi,
    makers: Sequence[Person],
    *,
    settle_s: float = 0,
    channels: bool = True,
    roles: Sequence[int] = (),
    more: str = "",
) -> None:
    """Write the settings and the token of a shop. channels: customers may write on the shop floor, too."""
    ids = ", ".join(str(maker.id) for maker in makers)
    (folder / "shop.toml").write_text(
        f'[maker]\nname = "Wil"\n[messages]\nsettle_s = {settle_s}\nquiet_hours = ""\n{more}\n'
        f"[discord]\nmakers = [{ids}]\nmaker_roles = {list(roles)}\nmaker_channel = {api.back_room}\n"
        f"channels = [{api.shop_floor if channels else ''}]\n"
        f'server = "{api.base}"\ngateway = "{api.gateway}"\n',
        encoding="utf-8",
    )
    (folder / "secrets").mkdir(exist_ok=True)
    token = folder / "secrets" / "discord_token"
    token.write_text(api.token, encoding="utf-8")
    token.chmod(0o600)


@dataclass(slots=True)
class DiscordShop:
    """A shop and the people around it."""

    api: DiscordApi
    folder: Path
    maker: Person
    others: Sequence[Person] = ()
    clock: Clock = field(default_factory=Clock)
    answer_s: float = 20.0
    _thread: threading.Thread | None = None
    _stop: Callable[[], None] = field(default=lambda: None)
    _failed: list[BaseException] = field(default_factory=list)

    # Life

    def start_unheard(self) -> None:
        """Run the shop in a thread of its own."""
        ready = threading.Event()
        self._thread = threading.Thread(target=self._run, args=(ready,), name="shop")
        self._thread.start()
        ready.wait(PATIENCE_S)

    def start(self) -> None:
        """Run the shop in a thread of its own, until it listens."""
        before = self.api.sessions.identified
        self.start_unheard()
        self.api.wait_until(lambda: self._failed or self.api.sessions.identified > before, timeout_s=PATIENCE_S)

    def stop(self) -> None:
        """Stop it as SIGTERM does, and raise what it raised."""
        if self._thread is not None:
            self._stop()
            self._thread.join(30)
            self._thread = None
        if self._failed:
            raise self._failed.pop()

    def _run(self, ready: threading.Event) -> None:
        async def serve() -> None:
            stop, loop = asyncio.Event(), asyncio.get_running_loop()
            self._stop = lambda: loop.call_soon_threadsafe(stop.set)
            ready.set()
            with open_desk(self.folder, clock=self.clock) as desk:
                own = desk.settings.own.discord
                account = Account(
                    self.api.token,
                    server=own.server,
                    gateway=own.gateway,
                    reads_channels=bool(own.channels),
                    answer_s=self.answer_s,
                )
                channel = Discord(desk, account)
                opened = OpenChannel(customers=channel, maker=channel.makers, close=channel.close)
                await run(desk, [opened], stop=stop, tick_s=0.02)

        try:
            asyncio.run(serve())
        except BaseException as error:
            self._failed.append(error)
        finally:
            ready.set()

    # What the maker sees and does

    def shown(self, number: str) -> list[Json]:
        """Give the messages that show a draft with buttons to decide by."""
        return [one for one in self.api.chat(self.api.back_room) if f"tl1:approve:{number}" in codes(one)]

    def draft(self, number: str) -> Json:
        """Wait until a draft is shown, and give the message with its buttons."""
        return self.api.wait_until(lambda: next(iter(self.shown(number)), None), timeout_s=PATIENCE_S) or {}

    def whole(self, number: str) -> str:
        """Wait until a draft is shown, and give all of its messages as one text, without the marks."""
        last = self.draft(number)
        texts = [one["content"] for one in self.api.chat(self.api.back_room) if int(one["id"]) <= int(last["id"])]
        return "\n".join(texts).replace("\\", "")

    def press(self, label: str, message: Json, *, by: Person | None = None) -> int:
        """Let somebody press a button and wait until that is acknowledged; gives the number of the press."""
        press = self.api.press(by or self.maker, message, button(message, label))
        self.api.wait_until(lambda: self.api.acknowledged(press), timeout_s=PATIENCE_S)
        return press

    def answer(self, interaction: int) -> str:
        """Wait until something is said in answer, and give the first of it, without the marks."""
        said = self.api.wait_until(lambda: self.api.answers(interaction), timeout_s=PATIENCE_S)
        return said[0].replace("\\", "")

    def fill_in(self, label: str, message: Json, text: str, *, by: Person | None = None) -> int:
        """Let a maker press a button, write into the form that it opens, and send it."""
        press = self.press(label, message, by=by)
        self.api.wait_until(lambda: self.api.form(press), timeout_s=PATIENCE_S)
        form = self.api.form(press) or {}
        name = form["components"][0]["component"]["custom_id"]
        return self.api.fill_in(by or self.maker, press, {name: text})

    def says(self, words: str) -> Json:
        """Wait until the bot has said something in the makers' channel, and give the message."""

        def found() -> Json | None:
            said = [one for one in self.api.chat(self.api.back_room) if words in one["content"].replace("\\", "")]
            return said[-1] if said else None

        return self.api.wait_until(found, timeout_s=PATIENCE_S) or {}

    def sent(self, where: int | Person, count: int = 1) -> list[str]:
        """Wait until the bot has sent so many texts somewhere, and give them without the marks."""
        found = self.api.wait_until(
            lambda: texts if len(texts := self.api.sent(where)) >= count else None, timeout_s=PATIENCE_S
        )
        return [text.replace("\\", "") for text in found or []]

    # What the store says

    def parts(self) -> list[Part]:
        """Give everything that was approved."""
        with open_database(self.folder) as database, database.read() as connection:
            return parts_in(connection, list(DepartureState))

    def kept(self) -> list[MessageRow]:
        """Give the customers' messages that were kept, oldest first."""
        with open_database(self.folder) as database, database.read() as connection:
            rows = [row for enquiry in range(1, self.enquiries() + 1) for row in messages_of(connection, enquiry)]
        return sorted((row for row in rows if row.author is Author.CUSTOMER), key=lambda row: row.id)

    def count_kept(self) -> int:
        """Give how many messages were kept, quickly."""
        with closing(sqlite3.connect(self.folder / "tapeline.db")) as store:
            return int(store.execute("SELECT count(*) FROM message WHERE author = 'customer'").fetchone()[0])

    def enquiries(self) -> int:
        """Give how many enquiries there are."""
        with open_database(self.folder) as database, database.read() as connection:
            return len(open_enquiries(connection))

    def wait(self, happened: Callable[[], T]) -> T:
        """Wait until something can be seen in the store."""
        pause = threading.Event()
        for _ in range(int(PATIENCE_S / 0.02)):
            if seen := happened():
                return seen
            pause.wait(0.02)
        raise TimeoutError(f"it did not happen within {PATIENCE_S} s")

    def wait_for_state(self, state: DepartureState) -> None:
        """Wait until everything that was approved is in one state."""
        self.wait(lambda: (parts := self.parts()) and all(part.state is state for part in parts))


@contextmanager
def discord_shop(folder: Path, *, makers: int = 1, **settings: object) -> Iterator[DiscordShop]:
    """Open a shop, not yet running; it ends without a fault of ours in what it asked of the server."""
    with discord_api() as api:
        people = [api.wil, *(api.person(name) for name in ("Kit", "Jo"))][:makers]
        for maker in people:
            api.let_in(maker)
        write_shop(folder, api, people, **settings)  # type: ignore[arg-type]
        shop = DiscordShop(api=api, folder=folder, maker=people[0], others=people[1:])
        try:
            yield shop
        finally:
            shop.stop()
