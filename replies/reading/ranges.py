"""Reads the upper end of a range: "12-13", "12 to 13", "12 or 13", "12/13", "between 12 and 13", "13 +/- 1/2".

Also the upper of two bounds: "more than 12 but less than 13".
"""

from collections.abc import Sequence

from replies.reading.amount import Amount
from replies.reading.amounts import amount_at
from replies.reading.compound import closes
from replies.reading.hedges import ceiling_behind, hedges_after
from replies.reading.line import Line
from replies.reading.number_words import Phrases
from replies.reading.numbers import text_at
from replies.reading.tokens import BLANK, FIGURES, GLUED, LINE, Token

_WIDEST = 2.5
"""The upper end is at most so many times the lower; else they are two numbers."""
_WIDEST_SLASHED = 1.35
_WIDEST_TOLERANCE = 0.25


def range_end(line: Line, at: int, low: Amount) -> Amount | None:
    """Read the upper end of the range whose lower end begins at a token; None: there is no range."""
    tokens, words = line.tokens, line.numbers
    bound = ceiling_behind(tokens, at, low.after, line.hedges)
    if bound is not None:
        high = _behind(line, low, bound - 1, "to")
        return high._replace(hedged=True) if high else None
    if not text_at(tokens, low.after):
        return None
    start = low.after + hedges_after(tokens, low.after, line.hedges)[0]
    link = start + max(_phrase_length(tokens, start, words.up_to), _points(tokens, start)) - 1
    if link >= start:
        return _behind(line, low, link, "to")
    link = start + _phrase_length(tokens, start, words.or_maybe) - 1
    if link >= start:
        high = _behind(line, low, link, "or")
        alike = at > 0 and link > at and tokens[at - 1].text == tokens[link].text
        return high._replace(hedged=True) if high and (alike or closes(line, high.after)) else None
    link = start
    sign = text_at(tokens, link)
    if not sign or not text_at(tokens, link + 1):
        return None
    if sign in ("-", "/", "~"):
        if not _signs(tokens, at, link):
            return None
    elif not (sign in words.to or sign in words.or_ or (sign in words.and_ and _between(line, at))):
        return None
    return _behind(line, low, link, sign)


def _behind(line: Line, low: Amount, link: int, sign: str) -> Amount | None:
    """Read the upper end behind the sign or the last word of the range."""
    tokens = line.tokens
    next_at = link + 2 if text_at(tokens, link + 1) in line.numbers.even else link + 1
    high = amount_at(line, next_at) if next_at < len(tokens) else None
    if high is None or not _is_range(low, high, sign):
        return None
    if sign in ("-", "/") and high.unit is None and _goes_on(tokens, high.after, sign):
        return None
    if len(sign) <= 2 and sign.isalpha() and sign not in ("to", "or") and tokens[next_at].kind != FIGURES:
        return None
    return high


def _phrase_length(tokens: Sequence[Token], at: int, phrases: Phrases) -> int:
    """Give the number of tokens of the phrase that stands at a token; 0: none of them does."""
    for phrase in phrases.get(text_at(tokens, at), ()):
        if all(text_at(tokens, at + place) == word for place, word in enumerate(phrase) if place):
            return len(phrase)
    return 0


def _points(tokens: Sequence[Token], at: int) -> int:
    """Count the points of "12..13"; 0: there are not two or three between numbers."""
    after = at
    while text_at(tokens, after) == "." and tokens[after].gap == GLUED:
        after += 1
    return after - at if after - at in (2, 3) and after < len(tokens) and tokens[after].kind == FIGURES else 0


def _between(line: Line, at: int) -> bool:
    return at > 0 and line.tokens[at].gap != LINE and line.tokens[at - 1].text in line.numbers.between


def _signs(tokens: Sequence[Token], at: int, link: int) -> bool:
    """May a mark between two numbers be that of a range: not "12- 13", "14-5-11", "3 / 4"."""
    gap, next_gap = tokens[link].gap, tokens[link + 1].gap
    if tokens[link].text == "/":
        return gap == next_gap == GLUED and not (at and tokens[at - 1].text == "/")
    if gap == GLUED and next_gap == BLANK:
        return False
    chained = at >= 2 and tokens[at - 1].text == tokens[link].text and tokens[at - 2].kind == FIGURES
    return not (chained and tokens[at].gap != LINE and tokens[at - 1].gap != LINE)


def _goes_on(tokens: Sequence[Token], at: int, sign: str) -> bool:
    """Does a third number follow on the same sign: then they are a list."""
    return text_at(tokens, at) == sign and at + 1 < len(tokens) and tokens[at + 1].kind == FIGURES


def _is_range(low: Amount, high: Amount, sign: str) -> bool:
    if low.unit and high.unit:
        if low.unit.name != high.unit.name:
            return False
    elif low.unit and sign == "/":
        return False
    unit = high.unit or low.unit
    first, last = low.value_in(unit), high.value_in(unit)
    return 0 < first < last <= first * (_WIDEST_SLASHED if sign == "/" else _WIDEST)


def tolerance_behind(line: Line, amount: Amount) -> tuple[Amount, Amount] | None:
    """Read "plus or minus half an inch" behind an amount: the amounts at both ends of the range that it makes."""
    tokens = line.tokens
    start = amount.after + 1 if text_at(tokens, amount.after) == "," else amount.after
    after = start + _phrase_length(tokens, start, line.numbers.tolerance)
    spread = amount_at(line, after) if after > start and text_at(tokens, after) else None
    return _spread(amount, spread) if spread else None


def _spread(amount: Amount, spread: Amount) -> tuple[Amount, Amount] | None:
    if amount.unit and spread.unit and amount.unit.name != spread.unit.name:
        return None
    unit = amount.unit or spread.unit
    value, room = amount.value_in(unit), spread.value_in(unit)
    if not 0 < room <= value * _WIDEST_TOLERANCE:
        return None
    times = unit.times if unit else 1
    ends = [amount._replace(value=end / times, thousands=None, alone=None) for end in (value - room, value + room)]
    of_unit = spread if spread.unit else amount
    high = ends[1]._replace(
        after=spread.after, end=spread.end, unit=unit, unit_start=of_unit.unit_start, unit_end=of_unit.unit_end
    )
    return ends[0], high
