"""What stands in the headers of a mail, as far as it is used: words, addresses, ids, dates. Pure.

Strangers write them: each function takes any text at all, in bounded time, and never raises.
"""

import re
from datetime import UTC, datetime
from email.errors import HeaderParseError
from email.header import decode_header
from email.utils import getaddresses, parsedate_to_datetime

from bot.channels.email.charsets import decode
from bot.keeping import sound_text

LONGEST = 10_000
"""Characters of a header that are looked at."""
_LONGEST_ADDRESSES = 2_000
_MOST_IDS = 200
_ADDRESS = re.compile(r"[^\s@<>()\[\],;:\\\"\x00-\x1f\x7f]{1,64}@[^\s@<>()\[\],;:\\\"\x00-\x1f\x7f]{1,255}")
_ID = re.compile(r"<\s*([^<>\s\x00-\x1f\x7f-\uffff]{1,250})\s*>")
_BARE_ID = re.compile(r"(?<!\S)([^<>\s\x00-\x1f\x7f-\uffff]{1,200}@[^<>\s\x00-\x1f\x7f-\uffff]{1,200})(?!\S)")
_BLANKS = re.compile(r"[\s\x00-\x1f\x7f\u2028\u2029]+")


def one_line(text: str) -> str:
    """Give a text without line breaks and other signs that could end a header."""
    return _BLANKS.sub(" ", sound_text(text)).strip()


def words(value: str) -> str:
    """Give the words of a header in plain characters, on one line.

    >>> words("=?utf-8?q?Gr=C3=B6=C3=9Fe?= for my dog")
    'Größe for my dog'
    """
    value = value[:LONGEST]
    try:
        pieces = decode_header(_BLANKS.sub(" ", value))
    except (HeaderParseError, ValueError):
        return one_line(value)
    return one_line("".join(_piece(piece, charset) for piece, charset in pieces))


def _piece(piece: str | bytes, charset: str | None) -> str:
    if isinstance(piece, str):
        return piece
    # What stands between encoded words comes as bytes, too, with each character beyond Latin-1 written as an escape.
    return decode(piece, charset) if charset else piece.decode("raw-unicode-escape", "replace")


def addresses(value: str) -> list[tuple[str, str]]:
    """Give the (name, address) pairs of a header, in order; what is no address is left out.

    >>> addresses('"Ada, of Quay Lane" <Ada@Example.org>, nobody')
    [('Ada, of Quay Lane', 'ada@example.org')]
    """
    try:
        pairs = getaddresses([_BLANKS.sub(" ", value[:_LONGEST_ADDRESSES])])
    except (RecursionError, ValueError, IndexError, TypeError):
        return []
    return [(words(name), address.lower()) for name, address in pairs if _ADDRESS.fullmatch(address)]


def ids(value: str) -> tuple[str, ...]:
    """Give the message ids of a header, without their angle brackets, in order.

    >>> ids("<1.a@b.example>\\n <2.a@b.example>"), ids("bare@b.example")
    (('1.a@b.example', '2.a@b.example'), ('bare@b.example',))
    """
    value = value[:LONGEST]
    found = _ID.findall(value) or _BARE_ID.findall(value)
    return tuple(found[:_MOST_IDS])


def is_id(text: str) -> bool:
    """Tell whether a text may stand between angle brackets in a header of ours."""
    return bool(_BARE_ID.fullmatch(text))


def date(value: str) -> datetime | None:
    """Give a moment in UTC; None: there is none, or none that any calendar has.

    >>> date("Mon, 2 Mar 2026 10:00:00 +0100").isoformat()
    '2026-03-02T09:00:00+00:00'
    """
    try:
        found = parsedate_to_datetime(one_line(value[:200]))
        return (found if found.tzinfo else found.replace(tzinfo=UTC)).astimezone(UTC)
    except (ValueError, TypeError, OverflowError, IndexError):
        return None


def received(value: str) -> datetime | None:
    """Give the moment at the end of a Received header."""
    return date(value[-200:].rpartition(";")[2])
