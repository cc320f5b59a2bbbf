"""What is known of the lines of an e-mail while each is given its part."""

import re
from dataclasses import replace

from replies.reading.email_words import EmailWords
from replies.reading.mail import Author, MailLine, Part
from replies.reading.quantities import find_quantities
from replies.reading.quantity import Quantity
from replies.reading.tidy import Tidied, fold

_MARKS = re.compile(r"[ \t]*(?:>[ \t]?){1,50}|[ \t]*\|[ \t](?!.*\|)")
_CLOCK = re.compile(r"\d{1,2}[:.h]\d\d|\d{4}")
_LONGEST_LINE = 400
_NEAR = 4
_DATE_FIGURES = 5
_MOST_LINES = 50_000
"""No mail has more lines; what comes behind counts as one."""


class Marking:
    """The lines of a mail, and the part that each has so far.

    starts, ends, words_starts, depths   as in MailLine
    folded       the words of each line, its first few hundred characters
    attributed   last line of an attribution -> its words
    senders      first line below a copied header -> what the header says of the sender
    recipients   the same first line -> what the header says of those it went to
    answers      quoted line -> where the customer's own answer begins on it
    signed       the name under the letter; None: not found so far
    """

    def __init__(self, text: str, words: EmailWords) -> None:
        self.text = text
        self.words = words
        self.starts: list[int] = []
        self.ends: list[int] = []
        self.depths: list[int] = []
        self.words_starts: list[int] = []
        self.signed: str | None = None
        self.attributed: dict[int, str] = {}
        self.senders: dict[int, str] = {}
        self.recipients: dict[int, str] = {}
        self.answers: dict[int, int] = {}
        self._cut()
        self.count = len(self.starts)
        self.parts = [Part.OWN] * self.count
        self.authors = [Author.CUSTOMER] * self.count
        self.folded = [
            fold(text[start : min(end, start + _LONGEST_LINE)])
            for start, end in zip(self.words_starts, self.ends, strict=True)
        ]
        self.blank = [not words.strip() for words in self.folded]

    def _cut(self) -> None:
        start = 0
        for line in self.text.split("\n", _MOST_LINES):
            marks = _MARKS.match(line, 0, _LONGEST_LINE) if line[:12].lstrip()[:1] in (">", "|") else None
            self.starts.append(start)
            self.ends.append(start + len(line))
            self.depths.append((marks.group().count(">") or 1) if marks else 0)
            self.words_starts.append(start + marks.end() if marks else start)
            start += len(line) + 1

    def lines(self) -> tuple[MailLine, ...]:
        """Give the lines as they are marked; one with an answer behind a quoted question is given as two."""
        return tuple(line for at in range(self.count) for line in self._pieces(at))

    def _pieces(self, at: int) -> tuple[MailLine, ...]:
        line = MailLine(
            start=self.starts[at],
            end=self.ends[at],
            words_start=self.words_starts[at],
            part=self.parts[at],
            depth=self.depths[at],
            author=self.authors[at],
        )
        answer = self.answers.get(at)
        if answer is None:
            return (line,)
        return replace(line, end=answer), MailLine(start=answer, end=line.end, words_start=answer)

    def words_from(self, at: int) -> int | None:
        """Give the next line with words on it, looking no further than a few lines."""
        for place in range(at, min(at + _NEAR, self.count)):
            if not self.blank[place]:
                return place
        return None

    def is_own(self, at: int | None) -> bool:
        """Is a line, if there is one, the customer's own so far."""
        return at is not None and self.parts[at] == Part.OWN

    def quote(self, start: int, end: int) -> None:
        """Mark the own lines from `start` to before `end` as quoted."""
        for place in range(start, end):
            if self.parts[place] == Part.OWN:
                self.parts[place], self.authors[place] = Part.QUOTED, Author.UNKNOWN

    def quantities(self, at: int) -> tuple[Quantity, ...]:
        """Find the quantities on one line."""
        words = self.text[self.words_starts[at] : self.ends[at]]
        if not any(map(str.isdigit, words)):
            return ()
        return find_quantities(Tidied(text=words, folded=fold(words), original=words))

    def author_of(self, words: str) -> Author:
        """Tell whom the words of an attribution or a sender name."""
        if self.signed and fold(self.signed.split()[0]) in words:
            return Author.CUSTOMER
        if self.words.myself.search(words):
            return Author.CUSTOMER
        return Author.SHOP if self.words.shop.search(words) else Author.UNKNOWN


def is_dated(words: str) -> bool:
    """Does a line hold a mail address, or a date with a time or a year."""
    return "@" in words or has_date(words)


def has_date(words: str) -> bool:
    """Does a line hold figures enough for a date, and a time or a year."""
    return _CLOCK.search(words) is not None and sum(map(str.isdigit, words)) >= _DATE_FIGURES
