"""Texts as Telegram counts them: UTF-16 units, at most 4096 to a message, and marked stretches told by their place."""

from collections.abc import Iterable
from dataclasses import dataclass

from telegram import MessageEntity

from bot.paragraphs import in_parts, utf16_units

LIMIT = 4096


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A stretch of a text that is set off. start, end: code points [start, end); kind: of a MessageEntity."""

    start: int
    end: int
    kind: str = MessageEntity.BOLD


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A text that fits one message, with its marked stretches."""

    text: str
    entities: tuple[MessageEntity, ...] = ()


def in_pieces(text: str, marks: Iterable[Mark]) -> list[Piece]:
    """Cut a text into pieces that fit, each with its share of the marked stretches."""
    marks = list(marks)
    pieces: list[Piece] = []
    start = 0
    for part in in_parts(text, LIMIT, size=utf16_units):
        start = text.index(part, start)
        end = start + len(part)
        inside = [
            Mark(start=max(mark.start, start), end=min(mark.end, end), kind=mark.kind)
            for mark in marks
            if max(mark.start, start) < min(mark.end, end)
        ]
        pieces.append(Piece(text=part, entities=tuple(_entity(text, start, mark) for mark in inside)))
        start = end
    return pieces


def _entity(text: str, origin: int, mark: Mark) -> MessageEntity:
    offset, length = utf16_units(text[origin : mark.start]), utf16_units(text[mark.start : mark.end])
    return MessageEntity(type=mark.kind, offset=offset, length=length)
