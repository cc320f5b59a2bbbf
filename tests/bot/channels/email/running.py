"""A whole shop on mail for tests: real settings, store, desk and channel, and real mail servers before them."""

import asyncio
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from email.message import EmailMessage, Message
from email.policy import SMTP, default
from email.utils import format_datetime, make_msgid
from itertools import count
from pathlib import Path
from smtplib import SMTP_SSL
from typing import TypeVar

from bot.approval.decision import Decided, Decider, parse_number
from bot.build import open_desk
from bot.channels.email import channel as email_channel
from bot.channels.telegram import channel as telegram_channel
from bot.desk import Desk
from bot.maker_side import approve
from bot.run import run
from bot.states import DepartureState
from bot.store.database import open_database
from bot.store.drafts import DraftRow, waiting_drafts
from bot.store.messages import MessageRow, messages_of
from bot.store.parts import Part, parts_in
from tests.doubles.mail_servers import HOME, PASSWORD, MailServers

T = TypeVar("T")

WHOLE = "Hi, which size for Pickle?\n\nlength 13, height 12, width 4.75, throat 8.75, all inches, she weighs 15 lb\n"
"""A mail with all five measures: the draft is an answer."""
FOUR = "Hi, which size for Pickle?\n\nlength 13, height 12, throat 8.75, all inches, she weighs 15 lb\n"
"""The width is missing: the draft is a question."""
ANN = Decider(maker="Ann")
_numbers = count(1)


@dataclass(slots=True)
class Clock:
    """The time, which a test can push forward."""

    ahead: timedelta = timedelta()

    def __call__(self) -> datetime:
        return datetime.now(UTC) + self.ahead


def mail(
    text: str = WHOLE,
    *,
    sender: str = "Ada <ada@customers.example>",
    to: str = "size@workshop.example",
    subject: str = "Which size?",
    message_id: str = "",
    answers: Sequence[str] = (),
    at: datetime | None = None,
    **headers: str,
) -> EmailMessage:
    """Write a mail as people's programs do. headers: with underlines for dashes; "" leaves one out."""
    made = EmailMessage(policy=SMTP.clone(max_line_length=900))
    made["From"], made["To"], made["Subject"] = sender, to, subject
    made["Date"] = format_datetime(at or datetime.now(UTC))
    made["Message-ID"] = message_id or make_msgid(domain="customers.example")
    if answers:
        made["In-Reply-To"], made["References"] = answers[-1], " ".join(answers)
    for name, value in headers.items():
        del made[name.replace("_", "-")]
        if value:
            made[name.replace("_", "-")] = value
    made.set_content(text)
    return made


def answer_to(asked: Message, text: str, *, sender: str, quoted: bool = True, **headers: str) -> EmailMessage:
    """Answer a mail as people's programs do: in its thread, to whom it asks, with its words quoted below."""
    lines = plain(asked).splitlines()
    quote = f"\n\nOn Mon, 2 Mar 2026 at 10:00, {asked['From']} wrote:\n" + "\n".join(f"> {line}" for line in lines)
    older = (asked["References"] or "").split()
    return mail(
        text + quote * quoted,
        sender=sender,
        to=asked["Reply-To"] or asked["From"],
        subject=f"Re: {asked['Subject']}",
        answers=[*older, asked["Message-ID"].strip()],
        **headers,
    )


def plain(message: Message) -> str:
    """Give the plain body of a mail."""
    return _body(message, "plain")


def html(message: Message) -> str:
    """Give the HTML body of a mail."""
    return _body(message, "html")


def _body(message: Message, kind: str) -> str:
    from email import message_from_bytes

    body = message_from_bytes(message.as_bytes(), policy=default).get_body((kind,))
    return body.get_content() if body is not None else ""


@dataclass(slots=True)
class MailShop:
    """A shop and the people around it, each with a mailbox of their own on the servers."""

    servers: MailServers
    folder: Path
    name: str
    settings: str = ""
    clock: Clock = field(default_factory=Clock)
    _thread: threading.Thread | None = None
    _stop: Callable[[], None] = field(default=lambda: None)
    _failed: list[BaseException] = field(default_factory=list)

    @property
    def address(self) -> str:
        """What customers write to."""
        return f"{self.name}@{HOME}"

    @property
    def maker(self) -> str:
        """Who may decide by mail."""
        return f"wil-{self.name}@{HOME}"

    # Life

    def write_settings(self, more: str = "", **changed: object) -> None:
        """Write the settings and the password."""
        ports = self.servers.ports
        email: dict[str, object] = {
            "address": self.address,
            "imap": f"localhost:{ports['imap']}",
            "smtp": f"localhost:{ports['submissions']}",
            "ca_file": "ca.pem",
            "look_s": 5,
            "makers": [self.maker],
            **changed,
        }
        lines = [f"{key} = {_toml(value)}" for key, value in email.items()]
        (self.folder / "shop.toml").write_text(
            '[maker]\nname = "Wil"\nworkshop = "Wil & Daughters"\n[messages]\nsettle_s = 0\nquiet_hours = ""\n[email]\n'
            + "\n".join(lines)
            + f"\n{more}",
            encoding="utf-8",
        )
        (self.folder / "ca.pem").write_bytes(self.servers.authority.file.read_bytes())
        (self.folder / "secrets").mkdir(exist_ok=True)
        self.write_password(PASSWORD)

    def write_password(self, password: str) -> None:
        """Put a password where the shop looks for it."""
        file = self.folder / "secrets" / "email_password"
        file.write_text(password, encoding="utf-8")
        file.chmod(0o600)

    def start(self) -> None:
        """Run the shop in a thread of its own."""
        ready = threading.Event()
        self._thread = threading.Thread(target=self._run, args=(ready,), name="shop")
        self._thread.start()
        ready.wait(20)

    def stop(self) -> None:
        """Stop it as SIGTERM does, and raise what it raised."""
        if self._thread is not None:
            with suppress(RuntimeError):  # it has stopped by itself
                self._stop()
            self._thread.join(40)
            self._thread = None
        if self._failed:
            raise self._failed.pop()

    def _run(self, ready: threading.Event) -> None:
        async def serve() -> None:
            stop, loop = asyncio.Event(), asyncio.get_running_loop()
            self._stop = lambda: loop.call_soon_threadsafe(stop.set)
            with open_desk(self.folder, clock=self.clock) as desk:
                opened = [one.open_channel(desk) for one in (telegram_channel, email_channel)]
                channels = [one for one in opened if one is not None]
                ready.set()
                await run(desk, channels, stop=stop, tick_s=0.02)

        try:
            asyncio.run(serve())
        except BaseException as error:
            self._failed.append(error)
        finally:
            ready.set()

    # Mail

    def receive(self, message: Message, *, sender: str = "ada@customers.example") -> str:
        """Have a mail delivered to the shop, and give its Message-ID."""
        self.servers.put(self.name, message.as_bytes(), sender=sender)
        return (message["Message-ID"] or "").strip()

    def mails_of(self, person: str) -> list[Message]:
        """Give what is in somebody's mailbox."""
        return self.servers.mails(person.partition("@")[0])

    def mailed(self, words: str, *, to: str = "") -> Message:
        """Wait until somebody (the maker) has a mail with these words in its subject or text, and give the last."""

        def look() -> Message | None:
            mails = self.mails_of(to or self.maker)
            found = [one for one in mails if words in one["Subject"] or words in plain(one)]
            return found[-1] if found else None

        found = self.wait(look)
        assert found is not None
        return found

    def decide(self, asked: Message, text: str, *, sender: str = "", quoted: bool = True, **headers: str) -> None:
        """Let the maker answer a mail."""
        message = answer_to(asked, text, sender=sender or self.maker, quoted=quoted, **headers)
        self.receive(message, sender=self.maker)

    def send(self, message: Message, *, sender: str) -> None:
        """Send a mail through the SMTP server, as a person's own program does."""
        port, context = self.servers.ports["submissions"], self.servers.authority.trusting()
        with SMTP_SSL("localhost", port, context=context) as client:
            client.login(sender, PASSWORD)
            client.send_message(message, sender, [message["To"]])

    # What the store says

    @contextmanager
    def desk(self) -> Iterator[Desk]:
        """Open the desk beside the running shop, as the terminal does."""
        with open_desk(self.folder, clock=self.clock) as desk:
            yield desk

    def approve(self, number: str) -> Decided:
        """Approve in the terminal."""
        with self.desk() as desk:
            return approve(desk, parse_number(number), ANN)

    def parts(self) -> list[Part]:
        """Give everything that was approved."""
        with open_database(self.folder) as database, database.read() as connection:
            return parts_in(connection, list(DepartureState))

    def messages(self, enquiry: int = 1) -> list[MessageRow]:
        """Give the messages of an enquiry."""
        with open_database(self.folder) as database, database.read() as connection:
            return messages_of(connection, enquiry)

    def waiting(self) -> list[DraftRow]:
        """Give the drafts that wait."""
        with open_database(self.folder) as database, database.read() as connection:
            return waiting_drafts(connection)

    def draft(self, number: str) -> DraftRow:
        """Wait until a draft waits, and give it."""
        found = self.wait(lambda: next((row for row in self.waiting() if row.number == number), None))
        assert found is not None
        return found

    def wait(self, happened: Callable[[], T], *, seconds: float = 20) -> T:
        """Wait until something can be seen."""
        deadline = datetime.now(UTC) + timedelta(seconds=seconds)
        pause = threading.Event()
        while not (seen := happened()):
            if self._failed:
                raise self._failed.pop()
            if datetime.now(UTC) > deadline:
                raise TimeoutError(f"it did not happen within {seconds} s")
            pause.wait(0.03)
        return seen

    def wait_for_state(self, state: DepartureState, *, count: int = 1) -> list[Part]:
        """Wait until so many parts are in a state, and give them."""
        return self.wait(
            lambda: found if len(found := [part for part in self.parts() if part.state is state]) >= count else []
        )


def _toml(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, Sequence):
        return "[" + ", ".join(_toml(one) for one in value) + "]"
    return str(value)


@contextmanager
def mail_shop(servers: MailServers, folder: Path, more: str = "", **changed: object) -> Iterator[MailShop]:
    """Make a shop, not yet running, with mailboxes that no other test uses."""
    shop = MailShop(servers=servers, folder=folder, name=f"size{next(_numbers)}")
    shop.write_settings(more, **changed)
    try:
        yield shop
    finally:
        shop.stop()
