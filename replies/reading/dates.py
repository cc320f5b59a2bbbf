"""Reads dates and times of day, so that no measure is made of them."""

import re

from replies.reading.line import Line, ShapeFound, text_before
from replies.reading.numbers import text_at
from replies.reading.shape_words import Shape
from replies.reading.tokens import GLUED

_DATE = re.compile(
    r"\d{4}-\d\d?-\d\d?(?:t[\d:.]+z?)?(?![\d-])"
    r"|(?P<day>\d\d?)(?P<sign>[./-])(?P<month>\d\d?)(?P=sign)(?P<year>\d{4}|\d\d)(?![\d/])"
    r"|\d\d?\. \d\d?\. (?:19|20)\d\d\b"
)
_DATED_WORD = re.compile(r"\d\d?\.? (?:de )?[^\W\d_]{3,12}\.?,?(?: de)? (?:19|20)\d\d\b")
_TIME = re.compile(
    r"(?:[01]?\d|2[0-4])[:.h][0-5]\d(?::[0-5]\d)?\s?(?:[ap]\.?m\b\.?|uhr\b|uur\b)"
    r"|(?:[01]?\d|2[0-4])(?::[0-5]\d){1,2}(?!\d|:\d)"
    r"|(?:[01]?\d|2[0-4])\s?(?:[ap]\.?m\b\.?|o'?clock\b)"
)
_HOUR = re.compile(r"(?:[01]?\d|2[0-4])h(?:[0-5]\d)?\b")
_HOUR_POINT = re.compile(r"(?:[01]?\d|2[0-4])\.[0-5]\d\b")
_DAY_POINT = re.compile(r"(?:[0-2]?\d|3[01])\.(?:0?\d|1[0-2])\.(?!\d)")
_YEAR = re.compile(r"(?:19|20)\d\d")
_LARGEST_MONTH = 12
_TAPE_PARTS, _WIDEST_SLASHED = (16, 32, 64), 1.35
"""What a fraction on a tape, or a range with a slash, goes to; beyond it is a day."""


def date_or_time_at(line: Line, at: int) -> ShapeFound | None:
    """Read a date or a time in figures that begins at a token: "12/03/2026", "2:15pm", "klo 9.45", "am 14.04."."""
    start = line.tokens[at].start
    match = _DATE.match(line.folded, start)
    if match and _is_date(line, at, match):
        return Shape.DATE, match.end()
    match = _TIME.match(line.folded, start)
    if match:
        return Shape.TIME, match.end()
    word = text_before(line.tokens, at)
    if word in line.words.time_before:
        match = _HOUR.match(line.folded, start)
        if match is None and word in line.words.time_before_points:
            match = _HOUR_POINT.match(line.folded, start)
        if match:
            return Shape.TIME, match.end()
    if word in line.words.date_before_points:
        match = _DAY_POINT.match(line.folded, start)
        if match:
            return Shape.DATE, match.end()
    return None


def _is_date(line: Line, at: int, match: re.Match[str]) -> bool:
    """Can day and month of a date in figures be ones, in either order; "14/5/11" may be length, width and height."""
    if match.group("day") is None:
        return True
    one, other = sorted((int(match.group("day")), int(match.group("month"))))
    if not (1 <= one <= 12 and other <= 31):
        return False
    year = match.group("year")
    if len(year) == 4 or year[0] == "0" or text_before(line.tokens, at) in line.words.date_before:
        return True
    return int(year) > _LARGEST_MONTH and line.folded[match.end() :].lstrip()[:2] not in line.units.by_word


def day_at(line: Line, at: int) -> ShapeFound | None:
    """Read "20 Dec", "Dec 20", "3rd of May", "by 12/18", "4. maalisk. 2026", "2026"."""
    tokens, words = line.tokens, line.words
    token = tokens[at]
    if _YEAR.fullmatch(token.text):
        return None if text_at(tokens, at + 1) in line.units.by_word else (Shape.DATE, token.end)
    if not token.text.isdigit() or len(token.text) > 2 or not 1 <= int(token.text) <= 31:
        return None
    match = _DATED_WORD.match(line.folded, token.start)
    if match and text_at(tokens, at + 1) not in line.numbers.glued_words:
        return Shape.DATE, match.end()
    before = text_before(tokens, at)
    month = _month_behind(line, at)
    if month is not None:
        plain = month == at + 1 and tokens[month].text in words.doubtful_months
        if not plain or line.text[tokens[month].start].isupper() or before in words.date_before:
            return Shape.DATE, tokens[month].end
    if before in words.months and _is_month_day(line, at, before):
        return Shape.DATE, token.end
    return _slashed_day(line, at, told=before in words.date_before)


def _slashed_day(line: Line, at: int, *, told: bool) -> ShapeFound | None:
    """Read "12/18": a day and a month where a word says so, or where they can be neither a fraction nor a range."""
    tokens = line.tokens
    if text_at(tokens, at + 1) != "/" or at + 2 >= len(tokens) or tokens[at + 1].gap != GLUED:
        return None
    if at > 1 and tokens[at - 1].text == "/" and tokens[at].gap == GLUED:
        return None
    other = tokens[at + 2]
    if other.gap != GLUED or not other.text.isdigit() or not 1 <= int(other.text) <= 31:
        return None
    following = text_at(tokens, at + 3)
    if following in line.units.by_word or following in ("/", "-"):
        return None
    month, day = int(tokens[at].text), int(other.text)
    far = month <= _LARGEST_MONTH < day and day > month * _WIDEST_SLASHED and day not in _TAPE_PARTS
    return (Shape.DATE, other.end) if told or far else None


def _month_behind(line: Line, at: int) -> int | None:
    """Give the index of the month in "20 Dec", "3rd of May", "14. Mar"."""
    following = at + 1
    if (text_at(line.tokens, following) in line.words.ordinals and line.tokens[following].gap == GLUED) or (
        text_at(line.tokens, following) == "." and line.tokens[following].gap == GLUED
    ):
        following += 1
    if text_at(line.tokens, following) in line.numbers.of:
        following += 1
    return following if text_at(line.tokens, following) in line.words.months else None


def _is_month_day(line: Line, at: int, month: str) -> bool:
    """Is the number behind a month its day: nothing that could be measured stands behind it."""
    following = text_at(line.tokens, at + 1)
    if following in line.units.by_word or following in line.numbers.times or following in line.numbers.glued_words:
        return False
    if month not in line.words.doubtful_months:
        return True
    if following in line.words.ordinals and line.tokens[at + 1].gap == GLUED:
        return True
    place = at - 1 if line.tokens[at - 1].text == month else at - 2
    told = place > 0 and line.tokens[place - 1].text in line.words.date_before
    return told and not following.isalpha()
