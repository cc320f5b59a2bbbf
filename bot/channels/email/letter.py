"""A mail as the workshop sees it: who wrote it, what it answers, what it says. Pure: bytes in, facts out."""

import hashlib
from dataclasses import dataclass, field
from datetime import datetime
from email.message import Message

from bot.channels.attached import without_bytes
from bot.channels.email import headers
from bot.channels.email.bodies import not_kept, read_body
from bot.channels.email.parsing import Parsed, parse, parse_head
from bot.message import Attachment

RECIPIENTS = ("To", "Cc", "Delivered-To", "X-Original-To", "Envelope-To", "X-Envelope-To")
OURS = "X-Tapeline-Text"
"""A header that our own mails bear, since some servers change a Message-ID."""
_TELLING = ("auto-submitted", "precedence", "return-path", OURS.lower())
_MOST_HEADERS = 5_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """What the headers of a mail say.

    senders      (name, address) of everybody in From; () where nobody can be reached there
    answer_to    whom an answer goes to: Reply-To, else From; "": nobody
    recipients   addresses of all whom it was sent or delivered to
    message_id   None: it has none that could be quoted
    answers      ids of the mails that it answers, the nearest first: In-Reply-To, then References from the last on
    root         id of the mail that began the thread; None: it begins one
    sent_at      as its writer's machine says; None: it does not
    arrived      as the last server that passed it on says; None: none did
    telling      headers by which machines are known, by name in small letters
    """

    senders: tuple[tuple[str, str], ...] = field(repr=False)
    answer_to: str = field(repr=False)
    recipients: tuple[str, ...] = field(repr=False)
    message_id: str | None
    answers: tuple[str, ...]
    root: str | None
    subject: str = field(repr=False)
    sent_at: datetime | None
    arrived: datetime | None
    telling: dict[str, str] = field(repr=False)

    @property
    def sender(self) -> str:
        """Give the address of whoever wrote it; "" where that cannot be told."""
        return self.senders[0][1] if self.senders else ""

    @property
    def sender_name(self) -> str:
        """Give the name that the writer goes by; "": none."""
        return self.senders[0][0] if self.senders else ""

    def id_or_mark(self, text: str = "") -> str:
        """Give the id under which the mail is kept: its own, else one made from what it says.

        text   its words, for a mail without an id
        """
        if self.message_id is not None:
            return self.message_id
        told = "\n".join([self.sender, str(self.sent_at), self.subject, text])
        return f"mail {hashlib.sha256(told.encode('utf-8', 'replace')).hexdigest()[:32]}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """A mail.

    parsed   its parts, for those who look for a returned mail in it
    """

    head: Head
    text: str = field(repr=False)
    files: tuple[Attachment, ...]
    raw: bytes = field(repr=False)
    parsed: Parsed = field(repr=False)


def read_head(raw: bytes) -> Head:
    """Read the headers of a mail. Never raises."""
    return _head(parse_head(raw))


def read_letter(raw: bytes, *, size: int | None = None) -> Letter:
    """Read a mail. Never raises.

    size   bytes of the whole mail where `raw` is only its beginning; None: it is whole
    """
    parsed = parse(raw)
    body = read_body(parsed.message)
    files = list(body.files)
    if size is not None and size > len(raw):
        files[-1:] = [without_bytes(file.name, file.type, "not fetched whole") for file in files[-1:]]
        files.append(not_kept(f"it has {size / 1e6:,.0f} MB; only its beginning was fetched, look in your mailbox"))
    elif parsed.cut:
        files.append(not_kept("it is built so that only its beginning was read; the rest is in the original"))
    return Letter(head=_head(parsed.message), text=body.text, files=tuple(files), raw=raw, parsed=parsed)


def _head(message: Message) -> Head:
    found: dict[str, list[str]] = {}
    for name, value in message.items()[:_MOST_HEADERS]:
        found.setdefault(name.lower(), []).append(str(value))

    def first(name: str) -> str:
        return found.get(name.lower(), [""])[0]

    senders = tuple(headers.addresses(first("From")))
    answer_to = headers.addresses(first("Reply-To")) or list(senders)
    answered, older = headers.ids(first("In-Reply-To")), headers.ids(first("References"))
    own = headers.ids(first("Message-ID"))
    recipients = [one for name in RECIPIENTS for value in found.get(name.lower(), ())[:20] for one in _to(value)]
    telling = {name: values[0] for name, values in found.items() if name in _TELLING or name.startswith("list-")}
    return Head(
        senders=senders,
        answer_to=answer_to[0][1] if answer_to else "",
        recipients=tuple(dict.fromkeys(recipients)),
        message_id=own[0] if own and headers.is_id(own[0]) else None,
        answers=tuple(dict.fromkeys([*answered, *reversed(older)])),
        root=next(iter([*older, *answered]), None),
        subject=headers.words(first("Subject"))[:500],
        sent_at=headers.date(first("Date")),
        arrived=headers.received(first("Received")),
        telling=telling,
    )


def _to(value: str) -> list[str]:
    return [address for _, address in headers.addresses(value)]
