"""A shop with its desk, a clock, and a channel, to test with. The store is a real one in a temporary folder."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

from bot.approval.decision import Decider, Number
from bot.build import open_desk
from bot.desk import Desk
from bot.message import Author, ChannelName, Incoming, Outgoing
from bot.store.drafts import DraftRow

MORNING = datetime(2026, 3, 2, 10, 0, tzinfo=UTC)
ANN = Decider(maker="Ann")
BEA = Decider(maker="Bea")

FOUR = "Hi! Pickle is 14 lb, length 13 in, height 11.5 in, throat height 8.25 in"
FIVE = "Hi! Pickle is 14 lb, length 13 in, height 11.5 in, throat height 8.25 in, width 5.25 in"
"""A dog for which there is an answer; FOUR lacks the width."""
THANKS = "thanks!"

_ids = count(1)


class Clock:
    """A clock that stands still until it is told to go on."""

    def __init__(self, now: datetime = MORNING) -> None:
        self.now = now

    def __call__(self) -> datetime:
        return self.now

    def pass_(self, **span: float) -> None:
        self.now += timedelta(**span)


@contextmanager
def shop_desk(folder: Path, settings: str = "", *, clock: Callable[[], datetime] | None = None) -> Iterator[Desk]:
    """Open the desk of a shop in `folder`, made with these settings where there is none."""
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / "shop.toml"
    if settings or not file.exists():
        file.write_text(settings, encoding="utf-8")
    with open_desk(folder, clock=clock or Clock()) as desk:
        yield desk


def message(
    text: str = FIVE,
    *,
    channel: ChannelName = ChannelName.TELEGRAM,
    address: str = "5001",
    external_id: str | None = None,
    reply_to: str | None = None,
    thread_key: str | None = None,
    author: Author = Author.CUSTOMER,
) -> Incoming:
    """A message as a channel receives it."""
    return Incoming(
        channel=channel,
        external_id=external_id or f"{address}:{next(_ids)}",
        address=address,
        display_name="Mira",
        text=text,
        reply_to=reply_to,
        thread_key=thread_key,
        author=author,
    )


def say(desk: Desk, text: str, **more: object) -> int:
    """Keep a customer's message and give its enquiry."""
    kept = desk.keep(message(text, **more))  # type: ignore[arg-type]
    assert kept is not None
    return kept.enquiry


def drafted(desk: Desk, text: str, **more: object) -> DraftRow:
    """Keep a customer's message and give the draft that it leads to."""
    row = desk.draft(say(desk, text, **more))
    assert row is not None
    return row


def number(row: DraftRow) -> Number:
    """Give the number of a draft."""
    return Number(enquiry=row.enquiry_id, version=row.version)


@dataclass
class FakeChannel:
    """A channel that takes texts down, or does what `then` says with the next ones, in order.

    then   what happens to each text: None: it arrives; an exception: it is raised
    """

    name: ChannelName = ChannelName.TELEGRAM
    then: list[BaseException | None] = field(default_factory=list)
    arrived: list[Outgoing] = field(default_factory=list)
    tried: list[Outgoing] = field(default_factory=list)

    async def receive(self) -> None:
        return

    async def deliver(self, text: Outgoing) -> str:
        self.tried.append(text)
        error = self.then.pop(0) if self.then else None
        if error is not None:
            raise error
        self.arrived.append(text)
        return f"{text.address}:sent{len(self.arrived)}"

    async def find(self, text: Outgoing) -> str | None:
        return None

    async def check(self) -> str:
        return "here"

    def texts(self) -> Sequence[str]:
        """The texts that arrived, in order."""
        return [one.text for one in self.arrived]
