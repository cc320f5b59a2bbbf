"""Tells the customer's own lines of an e-mail from quoted history, copied headers, signatures and footers.

One idea: each line gets one part, in one pass; nothing is cut, so every offset stays that of the text as it came.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from pathlib import Path

from replies.reading.tidy import fold
from replies.reading.unit_words import UnitWords
from replies.words import WordList, read_word_list


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
    """Who wrote a quoted line, as far as the mail shows it."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class QuotedQuestion:
    """A question that the customer quotes: its words joined over wrapped lines, where they stand, and its number.

    places   a (start, end) for each line
    """

    text: str
    places: tuple[tuple[int, int], ...]
    number: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Trimmed:
    """An e-mail with a part for each of its lines.

    signed   the name under the letter; None: none was found
    """

    text: str
    lines: tuple[MailLine, ...]
    signed: str | None = None
    questions: tuple[QuotedQuestion, ...] = field(default=())

    def read(self, *, first: bool = False) -> tuple[MailLine, ...]:
        """Give the lines to be read as the customer's: her own, and those that she quotes of herself if `first`."""
        return tuple(
            line
            for line in self.lines
            if line.part == Part.OWN or (first and line.part == Part.QUOTED and line.author == Author.CUSTOMER)
        )

    def set_aside(self, *, first: bool = False) -> tuple[tuple[int, int], ...]:
        """Give the places of all lines that are not read, as (start, end)."""
        kept = {line.start for line in self.read(first=first)}
        return tuple((line.start, line.end) for line in self.lines if line.start not in kept and line.end > line.start)

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
        above = None
        for line in self.lines:
            if line.end >= offset:
                break
            if line.words_start < line.end or line.part == Part.QUOTED:
                above = line
        while above is not None and above.words_start >= above.end:
            place = self.lines.index(above)
            above = self.lines[place - 1] if place else None
            if above is not None and above.part != Part.QUOTED:
                return None
        if above is None or above.part != Part.QUOTED:
            return None
        for question in self.questions:
            if any(start == above.words_start for start, _ in question.places):
                return question
        return None

    def numbered(self) -> dict[int, QuotedQuestion]:
        """Give the quoted questions that have a number, by it; a number used twice is left out."""
        found: dict[int, QuotedQuestion] = {}
        twice: set[int] = set()
        for question in self.questions:
            if question.number is not None:
                same = found.get(question.number)
                if same is not None and same.text != question.text:
                    twice.add(question.number)
                found[question.number] = question
        return {number: question for number, question in found.items() if number not in twice}


class _Words(WordList):
    wrote: list[str]
    original: list[str]
    forwarded: list[str]
    myself: list[str]
    shop: list[str]


class _Header(WordList):
    sender: list[str]
    date: list[str]
    subject: list[str]
    other: list[str]


class _Closing(WordList):
    words: list[str]
    after: list[str]


class _Footer(WordList):
    begins: list[str]


class _EmailWords(WordList):
    """trim_email.toml."""

    words: _Words
    header: _Header
    closing: _Closing
    footer: _Footer


_LIST = read_word_list(Path(__file__).with_name("trim_email.toml"), _EmailWords)


def _any_of(words: Sequence[str]) -> str:
    return "|".join(re.escape(fold(word)) for word in sorted(words, key=len, reverse=True))


_MARKS = re.compile(r"[ \t]*(?:>[ \t]?)+|[ \t]*\|[ \t](?!.*\|)")
_WROTE = re.compile(rf"(?<!\w)(?:{_any_of(_LIST.words.wrote)})(?!\w)")
_MYSELF = re.compile(_any_of(_LIST.words.myself))
_SHOP = re.compile(rf"(?<![^\W\d])(?:{_any_of(_LIST.words.shop)})(?![^\W\d])")
_ORIGINAL = re.compile(rf"[\W_]*(?:{_any_of(_LIST.words.original)})[\W_]*$")
_FORWARDED = re.compile(rf"[\W_]*(?:{_any_of(_LIST.words.forwarded)})\b.{{0,80}}$")
_HEADER = re.compile(
    r"[ \t*]*(?:"
    + "|".join(
        f"(?P<{kind}>{_any_of(words)})"
        for kind, words in (
            ("sender", _LIST.header.sender),
            ("date", _LIST.header.date),
            ("subject", _LIST.header.subject),
            ("other", _LIST.header.other),
        )
    )
    + r")[ \t*]*:"
)
_CLOSING = re.compile(rf"[\W_]*(?:{_any_of(_LIST.closing.words)})(?![^\W_])(?P<rest>.{{0,40}})$")
_AFTER = re.compile(rf"[ \t]*(?:{_any_of(_LIST.closing.after)})(?![^\W_])")
_FOOTER = re.compile(rf"[\W_]*(?:{_any_of(_LIST.footer.begins)})(?![^\W_])")
_DASHES = re.compile(r"[ \t]*(?:--+|__+|==+|\*\*+)[ \t]*$")
_NAME = re.compile(r"[ \t*/~-]*([^\W\d_][\w'.-]*(?: [\w'.&-]+){0,4})[ \t.,!*:)xX(]*$")
_UNIT = "|".join(
    re.escape(word)
    for word in sorted(UnitWords.load().by_word, key=len, reverse=True)
    if len(word) > 1 and word.isalpha()
)
MEASURED = re.compile(rf"\d[ \t]*(?:(?:{_UNIT})(?!\w)|\"|'')")
_CLOCK = re.compile(r"\d{1,2}[:.h]\d\d|\d{4}")
_NUMBERED = re.compile(r"(?:[#(]?(\d{1,2})[.):]|([-*•o])[ \t])[ \t]*")
_LONGEST_LINE = 400
_WRAPPED_AT_MOST = 3


def trim_email(text: str) -> Trimmed:
    """Give each line of an e-mail its part. Never raises; in linear time.

    >>> [line.part.value for line in trim_email("13 in\\n\\nOn 2 May 2025, Ada wrote:\\n> How tall?").lines]
    ['own', 'own', 'attribution', 'quoted']
    """
    lines = _lines(text)
    folded = [fold(text[line.words_start : min(line.end, line.words_start + _LONGEST_LINE)]) for line in lines]
    parts = _Parts(text, lines, folded)
    parts.mark()
    return Trimmed(
        text=text,
        lines=tuple(parts.lines),
        signed=parts.signed,
        questions=_questions(text, parts.lines),
    )


def _lines(text: str) -> list[MailLine]:
    lines: list[MailLine] = []
    start = 0
    for words in text.split("\n"):
        end = start + len(words)
        marks = (
            _MARKS.match(text, start, min(end, start + _LONGEST_LINE))
            if words[:12].lstrip()[:1] in (">", "|")
            else None
        )
        depth = words[: marks.end() - start].count(">") or 1 if marks else 0
        lines.append(MailLine(start=start, end=end, words_start=marks.end() if marks else start, depth=depth))
        start = end + 1
    return lines


class _Parts:
    """The pass over the lines, with what it remembers on the way."""

    def __init__(self, text: str, lines: list[MailLine], folded: list[str]) -> None:
        self.text = text
        self.lines = lines
        self.folded = folded
        self.signed: str | None = None
        self.attributed: list[tuple[int, str]] = []

    def mark(self) -> None:
        """Mark quotes, then headers with what stands below them, then closings and signatures, then authors."""
        self._quotes()
        self._attributions()
        self._copied_mails()
        self._closings()
        self._authors()

    def _set(self, at: int, part: Part, author: Author | None = None) -> None:
        line = self.lines[at]
        self.lines[at] = replace(
            line, part=part, author=author or (Author.UNKNOWN if part == Part.QUOTED else line.author)
        )

    def _is_blank(self, at: int) -> bool:
        return not self.folded[at].strip()

    def _next_words(self, at: int) -> int | None:
        """Give the next line with words on it, looking no further than a few lines."""
        for place in range(at, min(at + 4, len(self.lines))):
            if not self._is_blank(place):
                return place
        return None

    def _quotes(self) -> None:
        for at, line in enumerate(self.lines):
            if line.depth and not self._is_comparison(at):
                self._set(at, Part.QUOTED)

    def _is_comparison(self, at: int) -> bool:
        """Is a ">" the customer's own "more than": alone, before a number, on a line between lines without marks."""
        line = self.lines[at]
        if line.depth != 1 or not self.folded[at][:1].isdigit():
            return False
        around = [place for place in (at - 1, at + 1) if 0 <= place < len(self.lines)]
        if any(self.lines[place].depth for place in around):
            return False
        above = [place for place in range(max(at - 2, 0), at) if not self._is_blank(place)]
        return not (above and self.folded[above[-1]].rstrip().endswith(":"))

    def _attributions(self) -> None:
        """Mark "On Monday, Anna wrote:", also wrapped over three lines, and history without marks below it."""
        at = 0
        while at < len(self.lines):
            last = self._attribution_end(at)
            if last is None:
                at += 1
                continue
            words = " ".join(self.folded[at : last + 1])
            for place in range(at, last + 1):
                self._set(place, Part.ATTRIBUTION)
            following = self._next_words(last + 1)
            self.attributed.append((last, words))
            if following is not None and self.lines[following].depth <= self.lines[at].depth and self._is_dated(words):
                for place in range(last + 1, len(self.lines)):
                    if self.lines[place].part == Part.OWN:
                        self._set(place, Part.QUOTED)
                return
            at = last + 1

    def _attribution_end(self, at: int) -> int | None:
        if self._is_blank(at):
            return None
        for last in range(at, min(at + _WRAPPED_AT_MOST, len(self.lines))):
            if self._is_blank(last) or self.lines[last].depth != self.lines[at].depth:
                return None
            if not self.folded[last].rstrip().endswith(":"):
                continue
            words = " ".join(self.folded[at : last + 1])
            if len(words) > _LONGEST_LINE or not _WROTE.search(words):
                return None
            following = self._next_words(last + 1)
            quoted = following is not None and self.lines[following].depth > self.lines[at].depth
            return last if quoted or self._is_dated(words) else None
        return None

    def _is_dated(self, words: str) -> bool:
        return "@" in words or (_CLOCK.search(words) is not None and sum(map(str.isdigit, words)) >= 5)

    def _copied_mails(self) -> None:
        """Mark copied headers; below one of an older mail all is quoted, below a forwarded one it is the customer's."""
        at = 0
        while at < len(self.lines):
            forwarded = bool(_FORWARDED.match(self.folded[at])) if not self._is_blank(at) else False
            original = bool(_ORIGINAL.match(self.folded[at])) if not self._is_blank(at) else False
            header = self._next_words(at + 1) if forwarded or original else at
            end = self._header_end(header) if header is not None else None
            if forwarded or original:
                self._set(at, Part.HEADER)
            if header is not None and end is not None:
                self._copied(at, header, end, forwarded=forwarded, marked=forwarded or original)
                at = end
            elif original and self.lines[at].depth == 0:
                following = self._next_words(at + 1)
                if following is not None and self.lines[following].part == Part.OWN:
                    self._quote_rest(at + 1, Author.UNKNOWN)
                at += 1
            else:
                at += 1

    def _copied(self, at: int, header: int, end: int, *, forwarded: bool, marked: bool) -> None:
        for place in range(header, end):
            self._set(place, Part.HEADER)
        keys = self._keys(header, end)
        senders = " ".join(self.folded[place] for place in range(header, end) if keys.get(place) == "sender")
        is_shop = bool(_SHOP.search(senders.partition(":")[2]))
        mail = {"sender", "date", "subject"} <= set(keys.values()) or marked
        if not mail or self.lines[header].depth:
            return
        alone = all(self._is_blank(place) for place in range(at))
        if forwarded and not is_shop:
            return
        if alone and not marked:
            return
        self._quote_rest(end, Author.SHOP if is_shop else self._author_of(senders))

    def _quote_rest(self, at: int, author: Author) -> None:
        for place in range(at, len(self.lines)):
            if self.lines[place].part == Part.OWN:
                self._set(place, Part.QUOTED, author)

    def _keys(self, header: int, end: int) -> dict[int, str]:
        found = {place: _HEADER.match(self.folded[place]) for place in range(header, end)}
        return {place: match.lastgroup or "" for place, match in found.items() if match}

    def _header_end(self, at: int) -> int | None:
        """Give the end of a copied header at a line: three and more keys, with an address or a date in figures."""
        end = at
        while end < len(self.lines) and not self._is_blank(end) and end - at < 20:
            if not _HEADER.match(self.folded[end]) and not (end > at and self.folded[end][:1] in " \t"):
                break
            end += 1
        if end - at < 2:
            return None
        kinds = list(self._keys(at, end).values())
        words = " ".join(self.folded[at:end])
        sent = {"sender", "date"} <= set(kinds) and "subject" in kinds
        typed = kinds.count("other") >= 2 and "subject" in kinds
        return end if (sent and self._is_dated(words)) or (typed and "@" in words) else None

    def _closings(self) -> None:
        """Mark the closing words with the name below, what stands under dashes, and footers."""
        signature = False
        own = [at for at, line in enumerate(self.lines) if line.part == Part.OWN and not self._is_blank(at)]
        last = own[-1] if own else None
        for at, line in enumerate(self.lines):
            if line.part != Part.OWN:
                signature = False
                continue
            if self._is_blank(at):
                continue
            words = self.folded[at]
            if _FOOTER.match(words):
                self._set(at, Part.FOOTER)
            elif signature and not _AFTER.match(words) and not MEASURED.search(words):
                self._set(at, Part.SIGNATURE)
            elif _DASHES.match(words) and self._signs(at):
                self._set(at, Part.SIGNATURE)
                signature = True
            elif _CLOSING.match(words):
                signature = False
                self._close(at)
            elif signature and _AFTER.match(words):
                signature = False
            elif self.signed is None and at == last and at and self._is_blank(at - 1):
                self._sign_off(at)

    def _signs(self, at: int) -> bool:
        """Do dashes open a signature: a few lines without measures follow, not the rest of a long letter."""
        below = [place for place in range(at + 1, min(at + 14, len(self.lines))) if not self._is_blank(place)]
        own = [place for place in below if self.lines[place].part == Part.OWN]
        if len(own) > 10:
            return False
        return not own or not MEASURED.search(self.folded[own[0]])

    def _close(self, at: int) -> None:
        """Mark closing words and the lines of name and address directly below them."""
        rest = _CLOSING.match(self.folded[at])
        tail = rest.group("rest").strip(" ,.!*-") if rest else ""
        if any(map(str.isdigit, tail)) or len(tail.split()) > 3 or "?" in tail:
            return
        following = self._next_words(at + 1)
        near = following is not None and following <= at + 2 and self.lines[following].part == Part.OWN
        name = (
            _NAME.match(self.text[self.lines[following].start : self.lines[following].end])
            if near and following is not None
            else None
        )
        if not tail and name is None and following is not None and self.lines[following].part == Part.OWN:
            return
        if (
            following is not None
            and near
            and name is not None
            and not tail
            and not MEASURED.search(self.folded[following])
        ):
            self._set(at, Part.SIGNATURE)
            self.signed = self.signed or name.group(1)
            self._sign_block(following)
        elif tail and (following is None or self.lines[following].part != Part.OWN or not near):
            self._set(at, Part.SIGNATURE)
            line = self.text[self.lines[at].words_start : self.lines[at].end].rstrip(" .!,")
            self.signed = self.signed or " ".join(line.split()[-len(tail.split()) :])
        elif not tail:
            self._set(at, Part.SIGNATURE)

    def _sign_block(self, at: int) -> None:
        for place in range(at, min(at + 6, len(self.lines))):
            if self._is_blank(place) or self.lines[place].part != Part.OWN:
                return
            if place > at and (_AFTER.match(self.folded[place]) or MEASURED.search(self.folded[place])):
                return
            self._set(place, Part.SIGNATURE)

    def _sign_off(self, at: int) -> None:
        """Mark a name that stands alone under the letter, without closing words."""
        line = self.lines[at]
        name = _NAME.match(self.text[line.start : line.end])
        if (
            name
            and name.group(1)[:1].isupper()
            and len(name.group(1).split()) <= 2
            and self.text[line.end - 1] not in ":!"
        ):
            self._set(at, Part.SIGNATURE)
            self.signed = name.group(1)

    def _author_of(self, words: str) -> Author:
        if self.signed and fold(self.signed.split()[0]) in words:
            return Author.CUSTOMER
        return Author.CUSTOMER if _MYSELF.search(words) else Author.SHOP if _SHOP.search(words) else Author.UNKNOWN

    def _authors(self) -> None:
        """Say who wrote each quoted line: by the line that introduces it, else unknown."""
        by_depth: dict[int, Author] = {}
        attributed = dict(self.attributed)
        for at, line in enumerate(self.lines):
            if at in attributed:
                by_depth = {depth: author for depth, author in by_depth.items() if depth <= line.depth}
                by_depth[line.depth + 1] = self._author_of(attributed[at])
            elif line.part == Part.QUOTED and line.author == Author.UNKNOWN:
                known = by_depth.get(line.depth or 1, Author.UNKNOWN)
                self._set(at, Part.QUOTED, known)
            elif line.part == Part.OWN and not self._is_blank(at):
                by_depth = {}


def _questions(text: str, lines: Sequence[MailLine]) -> tuple[QuotedQuestion, ...]:
    """Join the quoted lines to questions: a new one at a number, a bullet, an empty line, or after a question mark."""
    found: list[QuotedQuestion] = []
    words: list[str] = []
    places: list[tuple[int, int]] = []
    number: int | None = None

    def close() -> None:
        nonlocal number
        if places:
            found.append(QuotedQuestion(text=" ".join(words), places=tuple(places), number=number))
        words.clear()
        places.clear()
        number = None

    depth = 0
    for line in lines:
        piece = text[line.words_start : line.end].strip()
        item = _NUMBERED.match(piece)
        if line.part != Part.QUOTED or not piece or item or line.depth != depth:
            close()
        if line.part == Part.QUOTED and piece:
            if item and item.group(1):
                number = int(item.group(1))
            words.append(piece[item.end() :] if item else piece)
            places.append((line.words_start, line.end))
            if piece[-1] in "?:" or len(places) >= 6:
                close()
        depth = line.depth
    close()
    return tuple(found)
