"""Texts as Telegram counts them: UTF-16 units, at most 4096 to a message, and bold stretches told by their place."""

from collections.abc import Sequence
from dataclasses import dataclass

from telegram import MessageEntity

LIMIT = 4096
CAPTION_LIMIT = 1024
_BREAKS = ("\n\n", "\n", ". ", " ")


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A text that fits one message, with its bold stretches."""

    text: str
    entities: tuple[MessageEntity, ...] = ()


def units(text: str) -> int:
    """Give the length of a text in UTF-16 units.

    >>> units("dog \N{DOG}")
    6
    """
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def sound(text: str) -> str:
    """Give a text that can be sent: no half characters, no null."""
    return text.encode("utf-16-le", "replace").decode("utf-16-le").replace("\0", "\N{REPLACEMENT CHARACTER}")


def split(text: str, *, limit: int = LIMIT) -> list[str]:
    """Cut a text into parts that fit, at paragraphs where that is possible, else at lines, sentences, words.

    Returns   the parts in order, none empty; [] for a text without a printed character
    """
    parts: list[str] = []
    rest = text.strip()
    while units(rest) > limit:
        end = _cut(rest, limit)
        parts.append(rest[:end].rstrip())
        rest = rest[end:].lstrip()
    return [part for part in [*parts, rest] if part]


def _cut(text: str, limit: int) -> int:
    """How many characters of a text make its first part."""
    most = len(text.encode("utf-16-le", "surrogatepass")[: 2 * limit].decode("utf-16-le", "ignore"))
    for mark in _BREAKS:
        place = text.rfind(mark, most // 2, most)
        if place > 0:
            return place + len(mark)
    return most


def with_bold(text: str, bold: Sequence[tuple[int, int]]) -> list[Piece]:
    """Cut a text into pieces that fit, each with its share of the bold stretches.

    bold   places of the stretches in the text: code points [start, end)
    """
    pieces: list[Piece] = []
    start = 0
    for part in split(text):
        start = text.index(part, start)
        inside = [(max(a, start), min(b, start + len(part))) for a, b in bold if a < start + len(part) and b > start]
        pieces.append(Piece(text=part, entities=tuple(_entity(text, start, a, b) for a, b in inside)))
        start += len(part)
    return pieces


def _entity(text: str, origin: int, start: int, end: int) -> MessageEntity:
    return MessageEntity(type=MessageEntity.BOLD, offset=units(text[origin:start]), length=units(text[start:end]))
