"""Tells numbers that are no amounts by their shape: dates, times, prices, telephone numbers, references, addresses."""

import re
from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path

from replies.reading.numbers import (
    FIGURES,
    GLUED,
    GLUED_LETTERS,
    GLUED_WORDS,
    LINE,
    TIMES,
    WORD,
    Token,
    figures,
)
from replies.reading.tidy import fold
from replies.reading.unit_words import UNITS
from replies.words import WordList, read_word_list


class Shape(StrEnum):
    """What a number is by its look."""

    AMOUNT = "amount"
    """A plain number, with or without a unit of length or weight."""
    HASH = "hash"
    """"#11": eleven pounds, or a reference."""
    DATE = "date"
    TIME = "time"
    DURATION = "duration"
    """So many years, weeks, minutes."""
    MONEY = "money"
    PHONE = "phone"
    PERCENT = "percent"
    ORDINAL = "ordinal"
    CODE = "code"
    """A reference, a size number, letters and figures mixed."""
    ADDRESS = "address"
    """A house number or a postcode."""
    TEMPERATURE = "temperature"
    LINK = "link"
    """In a web or e-mail address."""
    MARKUP = "markup"
    """In markup, a template or a mention."""
    ENUMERATOR = "enumerator"
    """The number of an item in a list: "2. 19 cm"."""
    OTHER = "other"
    """So many miles, litres, stars."""


class _Words(WordList):
    months: list[str]
    doubtful_months: list[str]
    date_before: list[str]
    time_before: list[str]
    time_after: list[str]
    money_before: list[str]
    money_after: list[str]
    percent_after: list[str]
    degree_after: list[str]
    ordinal_after: list[str]
    duration_after: list[str]
    other_after: list[str]
    reference_before: list[str]
    phone_before: list[str]
    postcode_before: list[str]
    street_after: list[str]
    street_before: list[str]


class _ShapeWords(WordList):
    """shapes.toml."""

    words: _Words


_LIST = read_word_list(Path(__file__).with_name("shapes.toml"), _ShapeWords).words


def _set(words: Sequence[str]) -> frozenset[str]:
    return frozenset(map(fold, words))


_MONTHS = _set(_LIST.months)
_DOUBTFUL_MONTHS = _set(_LIST.doubtful_months)
_DATE_BEFORE = _set(_LIST.date_before)
_TIME_BEFORE = _set(_LIST.time_before)
_MONEY_BEFORE = _set(_LIST.money_before)
_ORDINAL_AFTER = _set(_LIST.ordinal_after)
_REFERENCE_BEFORE = _set(_LIST.reference_before)
_PHONE_BEFORE = _set(_LIST.phone_before)
_POSTCODE_BEFORE = _set(_LIST.postcode_before)
_STREET_AFTER = _set(_LIST.street_after)
_STREET_BEFORE = _set(_LIST.street_before)
_BEHIND = {
    **dict.fromkeys(_set(_LIST.other_after), Shape.OTHER),
    **dict.fromkeys(_set(_LIST.duration_after), Shape.DURATION),
    **dict.fromkeys(_set(_LIST.degree_after), Shape.TEMPERATURE),
    **dict.fromkeys(_set(_LIST.percent_after), Shape.PERCENT),
    **dict.fromkeys(_set(_LIST.money_after), Shape.MONEY),
    **dict.fromkeys(_set(_LIST.time_after), Shape.TIME),
}

_MARKUP = re.compile(
    r"\{\{[^{}]{0,300}\}\}|\{%[^{}]{0,300}%\}|\$\{[^{}]{0,300}\}|<%[^<>]{0,300}%>"
    r"|</?[a-z!@#:][^<>]{0,500}>|&#?\w{1,8};"
)
_LINK = re.compile(r"(?:https?://|www\.)[^\s<>]+|(?<![^\s<(\[])[\w.+-]{1,64}@[\w.-]{1,100}|@[\w.]{2,40}")
_DATE = re.compile(r"\d{4}-\d\d?-\d\d?(?:t[\d:.]+z?)?(?![\d-])|\d\d?([./-])\d\d?\1(?:\d{4}|\d\d)(?![\d/])")
_TIME = re.compile(
    r"(?:[01]?\d|2[0-4])[:.h][0-5]\d(?::[0-5]\d)?\s?(?:[ap]\.?m\b\.?|uhr\b|uur\b)"
    r"|(?:[01]?\d|2[0-4])(?::[0-5]\d){1,2}(?![\d:])"
    r"|(?:[01]?\d|2[0-4])\s?(?:[ap]\.?m\b\.?|o'?clock\b)"
)
_HOUR = re.compile(r"(?:[01]?\d|2[0-4])(?:h(?:[0-5]\d)?\b)")
_PHONE = re.compile(r"\+?\d[\d ()/.-]{4,20}\d")
_MIXED = re.compile(r"[a-z]*(?:\d+[a-z]+)*\d*")
_POSTCODE = re.compile(r"[a-z]{1,2}\d[a-z\d]? ?\d[a-z]{2}\b|[a-z]\d\d [a-z\d]{4}\b")
_STREET = re.compile(r"[ \t]+(?:[A-Z][\w']{0,20}[ \t]+){1,3}(\w+)\b")
_YEAR = re.compile(r"(?:19|20)\d\d\b")


def regions(folded: str) -> list[tuple[int, int, Shape]]:
    """Find stretches in which no number is an amount: markup, templates, mentions, web and e-mail addresses."""
    found: list[tuple[int, int, Shape]] = []
    if any(mark in folded for mark in "<{&"):
        found += [(*match.span(), Shape.MARKUP) for match in _MARKUP.finditer(folded)]
        found += _scripts(folded)
    if "@" in folded or "www." in folded or "://" in folded:
        found += [(*match.span(), Shape.LINK) for match in _LINK.finditer(folded)]
    return sorted(found)


def _scripts(folded: str) -> list[tuple[int, int, Shape]]:
    """Find what stands between <script> or <style> and their ends."""
    found: list[tuple[int, int, Shape]] = []
    for name in ("script", "style"):
        start = folded.find(f"<{name}")
        while start >= 0:
            end = folded.find(f"</{name}", start)
            if end < 0:
                break
            found.append((start, end, Shape.MARKUP))
            start = folded.find(f"<{name}", end)
    return found


def shape_at(text: str, folded: str, tokens: Sequence[Token], at: int) -> tuple[Shape, int] | None:
    """Tell the number at a token by its shape alone: the shape, and where it ends; None: it may be an amount."""
    token = tokens[at]
    before = tokens[at - 1] if at and token.gap != LINE else None
    match = _DATE.match(folded, token.start)
    if match:
        return Shape.DATE, match.end()
    match = _TIME.match(folded, token.start)
    if match:
        return Shape.TIME, match.end()
    if before is not None:
        word = before.text if before.text not in ".:#" or at < 2 else tokens[at - 2].text
        if before.text in _TIME_BEFORE:
            match = _HOUR.match(folded, token.start)
            if match:
                return Shape.TIME, match.end()
        if before.text in _MONEY_BEFORE:
            return Shape.MONEY, token.end
        if _is_reference(tokens, at, word, before):
            return Shape.CODE, token.end
        if word in _POSTCODE_BEFORE and len(token.text) >= 3:
            return Shape.ADDRESS, token.end
        if word in _STREET_BEFORE and token.text.isdigit() and before.kind == WORD:
            return Shape.ADDRESS, token.end
    phone = _phone_at(folded, tokens, at)
    if phone:
        return Shape.PHONE, phone
    return _day_at(text, folded, tokens, at) or _address_at(text, tokens, at) or _mixed_at(folded, tokens, at)


def shape_behind(tokens: Sequence[Token], at: int) -> tuple[Shape, int] | None:
    """Tell a number by the word behind it, whose index is `at`: the shape, and the index after that word."""
    if at >= len(tokens) or tokens[at].gap == LINE:
        return None
    if tokens[at].text == "-" and at + 1 < len(tokens) and tokens[at].gap == tokens[at + 1].gap == GLUED:
        at += 1
    shape = _BEHIND.get(tokens[at].text)
    return (shape, at + 1) if shape else None


def ordinal_behind(tokens: Sequence[Token], at: int, value: float) -> int | None:
    """Read "nd" glued behind a number; "st" only where English has it ("1st"), or it is a stone. None: none there."""
    if at >= len(tokens) or tokens[at].gap != GLUED or tokens[at].text not in _ORDINAL_AFTER:
        return None
    if tokens[at].text == "st":
        whole = value == int(value) and int(value) % 10 == 1 and int(value) % 100 != 11
        if not whole or _pounds_follow(tokens, at + 1):
            return None
    return at + 1


def _pounds_follow(tokens: Sequence[Token], at: int) -> bool:
    return (
        at < len(tokens)
        and tokens[at].kind == FIGURES
        and (
            at + 1 >= len(tokens)
            or tokens[at + 1].kind != WORD
            or getattr(UNITS.get(tokens[at + 1].text), "name", "") == "lb"
        )
    )


def _is_reference(tokens: Sequence[Token], at: int, word: str, before: Token) -> bool:
    """Is it "order 20418", "No. 3", "#30417"."""
    digits = tokens[at].text
    if not digits.isdigit():
        return False
    if before.text == "#" and len(digits) >= 3:
        return True
    if word not in _REFERENCE_BEFORE:
        return False
    if word == "no":
        return before.text in ".#" and (len(digits) == 1 or len(digits) >= 3)
    if word in ("nr", "№", "num", "numero"):
        return True
    return len(digits) >= 3


def _phone_at(folded: str, tokens: Sequence[Token], at: int) -> int | None:
    token = tokens[at]
    match = _PHONE.match(folded, token.start)
    if not match:
        return None
    number = match.group()
    digits = sum(character.isdigit() for character in number)
    if digits < 6 or digits > 15:
        return None
    before = [tokens[place].text for place in range(max(at - 3, 0), at)]
    told = any(word in _PHONE_BEFORE for word in before) or before[-1:] == ["+"]
    dialled = number[0] == "0" and number[1] not in ".,"
    grouped = re.fullmatch(r"\d{3}[-. ]\d{3}[-. ]\d{4}", number) is not None
    return match.end() if told or (digits >= 6 and dialled) or grouped else None


def _day_at(text: str, folded: str, tokens: Sequence[Token], at: int) -> tuple[Shape, int] | None:
    """Read "20 Dec", "Dec 20", "3rd of May", "by 12/18", "2026"."""
    token = tokens[at]
    before = tokens[at - 1].text if at and token.gap != LINE else ""
    if _YEAR.fullmatch(token.text):
        return (Shape.DATE, token.end) if at + 1 >= len(tokens) or tokens[at + 1].text not in UNITS else None
    if not token.text.isdigit() or len(token.text) > 2 or not 1 <= int(token.text) <= 31:
        return None
    following = at + 1
    if (following < len(tokens) and tokens[following].gap == GLUED and tokens[following].text in _ORDINAL_AFTER) or (
        following < len(tokens) and tokens[following].text == "." and tokens[following].gap == GLUED
    ):
        following += 1
    if following < len(tokens) and tokens[following].text in ("of", "de"):
        following += 1
    if following < len(tokens) and tokens[following].gap != LINE and tokens[following].text in _MONTHS:
        month = tokens[following]
        plain = following == at + 1
        if month.text not in _DOUBTFUL_MONTHS or not plain or text[month.start].isupper() or before in _DATE_BEFORE:
            return Shape.DATE, month.end
    month_before = before
    if before == "." and at >= 2:
        month_before = tokens[at - 2].text
    if month_before in _MONTHS and _is_day(text, tokens, at, month_before):
        return Shape.DATE, token.end
    if before in _DATE_BEFORE and at + 2 < len(tokens) and tokens[at + 1].text == "/":
        month_token = tokens[at + 2]
        slashed = (
            tokens[at + 1].gap == month_token.gap == GLUED
            and month_token.text.isdigit()
            and int(month_token.text) <= 31
        )
        if slashed and not (at + 3 < len(tokens) and tokens[at + 3].text in UNITS):
            return Shape.DATE, month_token.end
    return None


def _is_day(text: str, tokens: Sequence[Token], at: int, month: str) -> bool:
    """Is the number behind a month its day: nothing that could be measured stands behind it."""
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if following is not None and following.gap != LINE and following.text in UNITS:
        return False
    if month in _DOUBTFUL_MONTHS:
        place = at - 1 if tokens[at - 1].text == month else at - 2
        told = place and tokens[place - 1].text in _DATE_BEFORE
        return bool(told) and (following is None or following.kind != WORD or following.gap == GLUED)
    return True


def _address_at(text: str, tokens: Sequence[Token], at: int) -> tuple[Shape, int] | None:
    """Read "14 Long Street", "27/9 Banksia Pde"."""
    token = tokens[at]
    if not token.text.isdigit():
        return None
    match = _STREET.match(text, token.end)
    if match and fold(match.group(1)) in _STREET_AFTER:
        return Shape.ADDRESS, token.end
    if at + 2 < len(tokens) and tokens[at + 1].text == "/" and tokens[at + 2].text.isdigit():
        match = _STREET.match(text, tokens[at + 2].end)
        if match and fold(match.group(1)) in _STREET_AFTER:
            return Shape.ADDRESS, tokens[at + 2].end
    return None


def _mixed_at(folded: str, tokens: Sequence[Token], at: int) -> tuple[Shape, int] | None:
    """Tell letters and figures that are mixed: "K9", "X2Y7", "1e3"; units, times signs and labels do not count."""
    token = tokens[at]
    if len(token.text) >= 5 and token.text.isdigit() and not _unit_follows(tokens, at):
        return Shape.CODE, token.end
    if "." in token.text and figures(token.text) is None:
        return Shape.CODE, token.end
    before = tokens[at - 1] if at else None
    if before is not None and before.kind == WORD and token.gap == GLUED and not _may_stand_glued(tokens, at - 1):
        return Shape.CODE, _run_end(tokens, at)
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if following is not None and following.kind == WORD and following.gap == GLUED:
        last = tokens[at + 2] if at + 2 < len(tokens) else None
        if last is not None and last.kind == FIGURES and last.gap == GLUED and not _links(following.text):
            return Shape.CODE, _run_end(tokens, at)
    return None


def _run_end(tokens: Sequence[Token], at: int) -> int:
    """Give the end of the run of letters and figures that the token `at` stands in."""
    while at + 1 < len(tokens) and tokens[at + 1].gap == GLUED and tokens[at + 1].kind in (FIGURES, WORD):
        at += 1
    return tokens[at].end


def _may_stand_glued(tokens: Sequence[Token], at: int) -> bool:
    """May the word at a token stand glued before a number."""
    word = tokens[at]
    if word.gap == GLUED and at and tokens[at - 1].kind == FIGURES:
        return _links(word.text)
    return word.text in GLUED_LETTERS or word.text in GLUED_WORDS or word.text in TIMES


def _links(word: str) -> bool:
    """May a word stand between two numbers without blanks: a unit, a times sign, a label letter and a times sign."""
    if word in UNITS or word in TIMES or word in GLUED_LETTERS or word in GLUED_WORDS or word == "ft":
        return True
    return word[-1:] == "x" and (word[:-1] in UNITS or word[:-1] in GLUED_LETTERS)


def _unit_follows(tokens: Sequence[Token], at: int) -> bool:
    return at + 1 < len(tokens) and tokens[at + 1].gap != LINE and tokens[at + 1].text in UNITS
