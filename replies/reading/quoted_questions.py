"""Joins the quoted lines of an e-mail to questions, so that a bare answer can be read by what it answers."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from replies.reading.mail import MailLine, Part, QuotedQuestion

_ITEM = re.compile(r"(?:[#(]?(\d{1,2})(?:[.):]|[ \t]+[-/](?=[ \t]))|[-*•+](?=[ \t]))[ \t]*")
_MOST_LINES = 6


@dataclass(slots=True)
class _Open:
    """The question that is being collected."""

    words: list[str] = field(default_factory=list)
    places: list[tuple[int, int]] = field(default_factory=list)
    number: int | None = None

    def closed(self) -> list[QuotedQuestion]:
        if not self.places:
            return []
        return [QuotedQuestion(text=" ".join(self.words), places=tuple(self.places), number=self.number)]


def find_questions(text: str, lines: Sequence[MailLine]) -> tuple[QuotedQuestion, ...]:
    """Join quoted lines: a new question begins at a number, a bullet, an empty line, and behind a question mark."""
    found: list[QuotedQuestion] = []
    open_ = _Open()
    depth = 0
    for line in lines:
        piece = text[line.words_start : line.end].strip() if line.part == Part.QUOTED else ""
        item = _ITEM.match(piece)
        if not piece or item or line.depth != depth:
            found += open_.closed()
            open_ = _Open()
        if piece:
            if item and item.group(1):
                open_.number = int(item.group(1))
            open_.words.append(piece[item.end() :] if item else piece)
            open_.places.append((line.words_start, line.end))
            if piece[-1] in "?:" or len(open_.places) >= _MOST_LINES:
                found += open_.closed()
                open_ = _Open()
        depth = line.depth
    return (*found, *open_.closed())
