"""An e-mail as the reader sees it: which line is what, and which quoted question stands above which answer."""

from bisect import bisect_right
from dataclasses import dataclass, field
from enum import StrEnum


class Part(StrEnum):
    """What a line of an e-mail is."""

    OWN = "own"
    QUOTED = "quoted"
    ATTRIBUTION = "attribution"
    """Says who wrote what is quoted below it."""
    HEADER = "header"
    """Of a copied mail: sender, date, subject."""
    SIGNATURE = "signature"
    FOOTER = "footer"


class Author(StrEnum):
    """Who wrote a line, as far as the text shows it."""

    CUSTOMER = "customer"
    SHOP = "shop"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class MailLine:
    """One line: its place without the line break, where its words begin behind ">" marks, and what it is.

    depth   how many ">" stand before it
    """

    start: int
    end: int
    words_start: int
    part: Part = Part.OWN
    depth: int = 0
    author: Author = Author.CUSTOMER

    @property
    def is_blank(self) -> bool:
        """Is there nothing on the line but marks."""
        return self.words_start >= self.end


@dataclass(frozen=True, slots=True, kw_only=True)
class QuotedQuestion:
    """What the customer quotes, one question each: its words joined over wrapped lines, and where they stand.

    places   a (start, end) for each line
    number   its number in the list it stands in; None: it has none
    """

    text: str
    places: tuple[tuple[int, int], ...]
    number: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trimmed:
    """An e-mail with a part for each of its lines; every offset is that of the text as it was given.

    signed      the name under the letter; None: none was found
    questions   everything that is quoted, as questions
    """

    text: str
    lines: tuple[MailLine, ...]
    signed: str | None = None
    questions: tuple[QuotedQuestion, ...] = field(default=())

    def read(self, *, first: bool = False) -> tuple[MailLine, ...]:
        """Give the lines to be read as the customer's: her own, and those that she quotes of herself if `first`."""
        return tuple(line for line in self.lines if _is_read(line, first=first))

    def set_aside(self, *, first: bool = False) -> tuple[tuple[int, int], ...]:
        """Give the places of all lines that are not read, as (start, end)."""
        return tuple(
            (line.start, line.end) for line in self.lines if line.end > line.start and not _is_read(line, first=first)
        )

    def masked(self, *, first: bool = False) -> str:
        """Give the text with a blank for each character that is not read, so that every offset stays."""
        pieces: list[str] = []
        done = 0
        for start, end in self.set_aside(first=first):
            pieces += [self.text[done:start], " " * (end - start)]
            done = end
        return "".join([*pieces, self.text[done:]])

    def question_above(self, offset: int) -> QuotedQuestion | None:
        """Give the quoted question directly above the customer's own line at an offset; None: none stands there."""
        place = bisect_right(self.lines, offset, key=_start) - 2
        while place >= 0 and self.lines[place].is_blank:
            place -= 1
        if place < 0 or self.lines[place].part != Part.QUOTED:
            return None
        at = bisect_right(self.questions, self.lines[place].words_start, key=_first_place) - 1
        return self.questions[at] if at >= 0 else None

    def numbered(self) -> dict[int, QuotedQuestion]:
        """Give the quoted questions that have a number, by it; a number used for two questions is left out."""
        found: dict[int, QuotedQuestion] = {}
        twice: set[int] = set()
        for question in self.questions:
            if question.number is not None:
                if question.number in found and found[question.number].text != question.text:
                    twice.add(question.number)
                found[question.number] = question
        return {number: question for number, question in found.items() if number not in twice}


def _is_read(line: MailLine, *, first: bool) -> bool:
    return line.part == Part.OWN or (first and line.part == Part.QUOTED and line.author == Author.CUSTOMER)


def _start(line: MailLine) -> int:
    return line.start


def _first_place(question: QuotedQuestion) -> int:
    return question.places[0][0]
