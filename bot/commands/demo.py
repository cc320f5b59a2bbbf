"""An invented workshop's morning: eight enquiries through the real store, reading, questions, sizing and approval."""

import asyncio
import shutil
import sys
import tempfile
import time
import tomllib
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime
from pathlib import Path

import click
from pydantic import BaseModel, ConfigDict
from rich.console import Console
from rich.text import Text

from bot import maker_side
from bot.approval.decision import Number
from bot.build import open_desk
from bot.commands.at_desk import at_terminal, maker
from bot.commands.deciding import End, decide
from bot.departures import Sender
from bot.desk import Desk
from bot.message import ChannelName, Incoming, Outgoing
from bot.screens.demo import closing_screen, gone_screen, heading_screen, message_screen
from bot.screens.terminal import console
from bot.shop_file import Answers, write_shop_file
from replies.writing.places import places_in

_LINE_S = 0.012
"""Pause after each line where somebody watches, so that the eye can follow."""

_ENDS = {
    End.APPROVED: "approved and gone",
    End.SET_ASIDE: "set aside",
    End.LATER: "left for later",
    End.NOTHING: "nothing to send",
}


class _Part(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Message(_Part):
    """A message of the morning.

    at             time of day
    maker_writes   what the maker puts into a marked place of the draft
    """

    at: str
    text: str
    maker_writes: str = ""


class Scene(_Part):
    """One enquiry of the morning; `about` says what it shows."""

    about: str
    customer: str
    channel: ChannelName
    subject: str = ""
    messages: tuple[Message, ...]


class Workshop(_Part):
    """Whose morning it is."""

    maker: str
    workshop: str
    day: date


class Morning(_Part):
    """What demo.toml holds."""

    shop: Workshop
    enquiries: tuple[Scene, ...]


def morning() -> Morning:
    """Give the invented morning."""
    return Morning.model_validate(tomllib.loads(Path(__file__).with_suffix(".toml").read_text(encoding="utf-8")))


class _Postbox:
    """Where the demo's approved texts go: a channel that keeps them, and reaches nobody."""

    def __init__(self, name: ChannelName) -> None:
        self.name = name

    async def receive(self) -> None:
        await asyncio.Event().wait()

    async def deliver(self, text: Outgoing) -> str:
        return f"demo {text.key}"

    async def find(self, text: Outgoing) -> str | None:
        return None

    async def check(self) -> str:
        return "a postbox that reaches nobody"


class _Clock:
    """The morning's own time."""

    def __init__(self, day: date) -> None:
        self._day = day
        self.now = datetime(day.year, day.month, day.day, 8, tzinfo=UTC)

    def set(self, at: str) -> None:
        self.now = datetime.combine(self._day, datetime.strptime(at, "%H:%M").time(), tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now


class _Stage:
    """One run of the morning.

    by_hand   the maker's keys decide; otherwise every draft is approved, its marked places filled with her words
    """

    def __init__(self, desk: Desk, clock: _Clock, screen: Console, *, by_hand: bool) -> None:
        self.desk = desk
        self.clock = clock
        self.screen = screen
        self.by_hand = by_hand
        self.ends: Counter[str] = Counter()
        self._cautioned = False
        self._sender = Sender(desk.database, {name: _Postbox(name) for name in ChannelName}, clock=clock)

    def play(self, number: int, count: int, scene: Scene) -> End:
        """Play one enquiry; how its last message ended."""
        self._print(heading_screen(number, count, scene.about, self.screen))
        end = End.NOTHING
        for place, message in enumerate(scene.messages):
            self.clock.set(message.at)
            if place:
                self.screen.print()
            kept = self.desk.keep(self._incoming(scene, number, place))
            assert kept is not None  # noqa: S101 - only a message of the maker's may be left
            self.desk.draft(kept.enquiry)
            end = self._decide(kept.enquiry, message)
            self.ends[_ENDS[end]] += 1
            if end is not End.APPROVED:
                break
        return end

    def _incoming(self, scene: Scene, number: int, place: int) -> Incoming:
        return Incoming(
            channel=scene.channel,
            external_id=f"demo {number}.{place}",
            address=scene.customer,
            display_name=scene.customer,
            text=scene.messages[place].text,
            subject=scene.subject,
            sent_at=self.clock(),
        )

    def _decide(self, enquiry: int, message: Message) -> End:
        def show(enquiry: int) -> None:
            standing = self.desk.standing(enquiry)
            self._print(message_screen(standing, self.desk.workshop.shop, self.screen, whole=not self._cautioned))
            self._cautioned |= bool(standing.drafted.draft.cautions)

        if self.by_hand:
            self._fill_in(enquiry, message)
            return decide(self.desk, enquiry, show=show, hand_over=lambda *_: self._send())
        show(enquiry)
        self._fill_in(enquiry, message)
        waiting = self.desk.standing(enquiry).history.waiting
        if waiting is None:
            return End.NOTHING
        number = Number(enquiry=enquiry, version=waiting.version)
        if not maker_side.approve(self.desk, number, maker(self.desk)).done:
            return End.LATER
        self._send()
        return End.APPROVED

    def _fill_in(self, enquiry: int, message: Message) -> None:
        """Put the maker's words into the marked places of a draft."""
        waiting = self.desk.standing(enquiry).history.waiting
        if waiting is None or not message.maker_writes:
            return
        text = waiting.text
        for place in places_in(text):
            text = text.replace(place, message.maker_writes)
        number = Number(enquiry=enquiry, version=waiting.version)
        changed = maker_side.change(self.desk, number, text, maker(self.desk))
        if changed.draft is not None and not self.by_hand:
            self._print(gone_screen(f"{self._name} fills the place in: “{message.maker_writes}”", self.screen))

    def _send(self) -> None:
        sent = asyncio.run(self._sender.send_due())
        if sent:
            self._print(gone_screen(f"approved by {self._name}, and gone", self.screen))

    @property
    def _name(self) -> str:
        return self.desk.settings.own.maker.name

    def _print(self, lines: Iterator[Text]) -> None:
        for line in lines:
            self.screen.print(line)
            if self.screen.is_terminal:
                time.sleep(_LINE_S)


@click.command("demo")
@click.option("--yes", is_flag=True, help="Approve by itself, also at a terminal.")
def command(yes: bool) -> None:
    """Watch an invented workshop's morning, from message to approved answer.

    Eight enquiries run through the real store, reading, questions, sizing and approval, in a folder that is gone
    afterwards. At a terminal your keys decide. Nothing leaves this machine.
    """
    day, by_hand = morning(), at_terminal() and not yes
    clock, screen = _Clock(day.shop.day), console()
    with _temporary_folder() as folder:
        write_shop_file(folder, Answers(maker_name=day.shop.maker, workshop=day.shop.workshop))
        with open_desk(folder, clock=clock) as desk:
            stage = _Stage(desk, clock, screen, by_hand=by_hand)
            _play(stage, day.enquiries)
    for line in closing_screen(stage.ends, screen):
        screen.print(line)


def _play(stage: _Stage, scenes: Sequence[Scene]) -> None:
    for number, scene in enumerate(scenes, start=1):
        end = stage.play(number, len(scenes), scene)
        if end is End.LATER and stage.by_hand and not click.confirm("Go on with the next one?", default=True):
            return


@contextmanager
def _temporary_folder() -> Iterator[Path]:
    folder = Path(tempfile.mkdtemp(prefix="tapeline-demo-"))
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=sys.platform == "win32")
