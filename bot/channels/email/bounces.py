"""Finds in a mail server's report which of our texts came back, and why. Pure.

Sources: RFC 3464 (delivery reports: Action, Status, Diagnostic-Code), RFC 6522 (multipart/report). Servers that report
in their own words are known by the headers of the text, which they send back with it.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from email.message import Message

from bot.channels.email.compose import text_key
from bot.channels.email.headers import LONGEST, one_line
from bot.channels.email.letter import Letter
from bot.channels.email.machines import has_empty_path

LONGEST_WHY = 200
_MOST_PARTS = 200
_SENT_BY_SERVERS = frozenset({"mailer-daemon", "postmaster"})
_DELAY = re.compile(r"\b(delay|warning|still (?:being )?tr|not yet)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Returned:
    """A text of ours came back.

    key    of the departure
    why    in the server's words, one line
    """

    key: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Delayed:
    """A text of ours is late, and the server goes on trying. key: of the departure."""

    key: str


def find_returned(letter: Letter, domain: str) -> Returned | Delayed | None:
    """Give what a report says of a text of ours; None: it is no report, or not about one.

    domain   of our own address, which our message ids end with
    """
    parts = list(_parts(letter.parsed.message))
    report = [part for part in parts if part.get_content_type() == "message/delivery-status"]
    sender = letter.head.sender.partition("@")[0]
    if not report and not (has_empty_path(letter.head) or sender in _SENT_BY_SERVERS):
        return None
    key = _key(letter, parts, domain)
    if key is None:
        return None
    fields = [block for part in report for block in _blocks(part)]
    actions = {str(block.get("Action", "")).strip().lower() for block in fields} - {""}
    if "failed" in actions:
        return Returned(key=key, why=_why(fields))
    if actions or _DELAY.search(letter.head.subject):
        return Delayed(key=key)
    return Returned(key=key, why="a mail server sent it back")


def _parts(message: Message) -> Iterator[Message]:
    """Give the parts of a report, and the mail inside it, without following them for ever."""
    todo = [message]
    for _ in range(_MOST_PARTS):
        if not todo:
            return
        part = todo.pop(0)
        yield part
        below = part.get_payload()
        if isinstance(below, list):
            todo += [one for one in below if isinstance(one, Message)]


def _blocks(report: Message) -> list[Message]:
    below = report.get_payload()
    return [one for one in below[:_MOST_PARTS] if isinstance(one, Message)] if isinstance(below, list) else []


def _key(letter: Letter, parts: list[Message], domain: str) -> str | None:
    """Find the text that came back: by the headers sent back with it, else by what the report says it answers."""
    returned = [str(part["Message-ID"]) for part in parts[1:] if part["Message-ID"]]
    # Headers that are sent back alone are a text of their own kind, or stand in the report's words.
    quoted = re.findall(rb"(?im)^message-id:\s{0,10}(<[^<>\s]{1,250}>)", letter.raw[-LONGEST * 20 :])
    words = re.findall(r"(?im)^[> \t]*message-id:\s{0,10}(<[^<>\s]{1,250}>)", letter.text)
    known = [*returned, *(one.decode("ascii", "replace") for one in quoted), *words]
    named = [text_key(one.strip("<> \r\n\t"), domain) for one in known]
    answered = [text_key(one, domain) for one in letter.head.answers]
    return next((key for key in [*named, *answered] if key is not None), None)


def _why(fields: list[Message]) -> str:
    for name, before in (("Diagnostic-Code", ""), ("Status", "status ")):
        for block in fields:
            told = one_line(str(block.get(name, ""))).removeprefix("smtp;").strip()
            if told:
                return f"{before}{told}"[:LONGEST_WHY]
    return "a mail server sent it back"
