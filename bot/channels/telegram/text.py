"""Texts as Telegram counts them: UTF-16 units, at most 4096 to a message, and bold stretches told by their place."""

from collections.abc import Sequence
from dataclasses import dataclass

from telegram import MessageEntity

from bot.paragraphs import in_parts, utf16_units

LIMIT = 4096


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A text that fits one message, with its bold stretches."""

    text: str
    entities: tuple[MessageEntity, ...] = ()


def sound(text: str) -> str:
    """Give a text that can be sent: no half characters, no null.

    >>> sound("a\\ud800b\\0")
    'a?b\N{REPLACEMENT CHARACTER}'
    """
    return text.encode("utf-16-le", "replace").decode("utf-16-le").replace("\0", "\N{REPLACEMENT CHARACTER}")


def with_bold(text: str, bold: Sequence[tuple[int, int]]) -> list[Piece]:
    """Cut a text into pieces that fit, each with its share of the bold stretches.

    bold   places of the stretches in the text: code points [start, end)
    """
    pieces: list[Piece] = []
    start = 0
    for part in in_parts(text, LIMIT, size=utf16_units):
        start = text.index(part, start)
        inside = [(max(a, start), min(b, start + len(part))) for a, b in bold if a < start + len(part) and b > start]
        pieces.append(Piece(text=part, entities=tuple(_entity(text, start, a, b) for a, b in inside)))
        start += len(part)
    return pieces


def _entity(text: str, origin: int, start: int, end: int) -> MessageEntity:
    offset, length = utf16_units(text[origin:start]), utf16_units(text[start:end])
    return MessageEntity(type=MessageEntity.BOLD, offset=offset, length=length)
