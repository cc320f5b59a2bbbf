"""Reads one amount: a number with its unit, over words of doubt and hyphens between, or "a foot", "half an inch"."""

from collections.abc import Sequence

from replies.reading.amount import IMPERIAL, PARTS_THOUSANDS, Amount, UnitFound
from replies.reading.compound import with_half, with_rest
from replies.reading.hedges import hedges_after
from replies.reading.line import Line
from replies.reading.numbers import Number, number_at, part_at, text_at
from replies.reading.tokens import BLANK, FIGURES, GLUED, LINE, MARK, WORD, Token
from replies.reading.unit_words import Unit, unit_at

_GROUP = 3
_NO_FEET = 9
"""No dog and no person has so many feet."""


def amount_at(line: Line, at: int) -> Amount | None:
    """Read the amount that begins at a token; None: none begins there."""
    number = _local_form(line, at) or number_at(line.tokens, at, line.numbers)
    if number is None:
        return _unit_or_part(line, at)
    found = _unit_behind(line, number, at)
    if found is None:
        if number.weak:
            return _unit_or_part(line, at)
        return Amount(
            number.value,
            number.after,
            number.end,
            spelled=number.spelled,
            thousands=number.thousands,
            alone=number.alone,
            whole=number.whole,
        )
    if number.weak and not found.unit.alone:
        return None
    amount = _with_unit(number.value, found, number)
    return with_rest(line, amount)


def _with_unit(value: float, found: UnitFound, number: Number) -> Amount:
    return Amount(
        value,
        found.after,
        found.end,
        found.unit,
        found.start,
        found.end,
        number.spelled,
        number.thousands,
        number.alone,
        number.whole,
        hedged=found.hedged,
    )


def _local_form(line: Line, at: int) -> Number | None:
    """Read what only some countries write: "1 200 g", "4'5 kg"."""
    tokens = line.tokens
    if tokens[at].kind != FIGURES or len(tokens[at].text) > 2 or not tokens[at].text.isdigit():
        return None
    return _spaced_thousands(line, at) or _apostrophe_decimal(line, at)


def _apostrophe_decimal(line: Line, at: int) -> Number | None:
    """Read "4'5 kg", "33'5": an apostrophe before metric decimals, or where it would make feet that no dog has."""
    tokens = line.tokens
    behind = tokens[at + 1 : at + 3]
    if len(behind) < 2 or behind[0].text != "'" or behind[0].gap != GLUED or behind[1].gap != GLUED:
        return None
    if not behind[1].text.isdigit() or len(behind[1].text) > 2:
        return None
    following = text_at(tokens, at + 3)
    unit = line.units.by_word.get(following)
    metric = unit is not None and unit.name not in IMPERIAL
    if not metric and (unit is not None or int(tokens[at].text) < _NO_FEET):
        return None
    return Number(float(f"{tokens[at].text}.{behind[1].text}"), at + 3, behind[1].end)


def _spaced_thousands(line: Line, at: int) -> Number | None:
    """Read "1 200 g": only before a unit of which a dog has thousands."""
    tokens = line.tokens
    following = text_at(tokens, at + 1)
    if len(following) != _GROUP or not following.isdigit() or tokens[at + 1].gap != BLANK:
        return None
    unit = line.units.by_word.get(text_at(tokens, at + 2))
    if unit is None or unit.name not in PARTS_THOUSANDS:
        return None
    return Number(float(tokens[at].text + following), at + 2, tokens[at + 1].end, whole=True)


def _unit_behind(line: Line, number: Number, at: int) -> UnitFound | None:
    """Read the unit behind a number, over words of doubt, a hyphen and "of an"."""
    tokens = line.tokens
    after = number.after
    if after >= len(tokens):
        return None
    if tokens[after].kind == WORD or tokens[after].text in "'\"#([":
        found = unit_at(tokens, after, number, at - 1, line.units)
        if found:
            return UnitFound(*found, tokens[after].start)
    doubt = hedges_after(tokens, after, line.hedges)[0]
    after = _past_fillers(line, number, after + doubt)
    found = unit_at(tokens, after, number, at - 1, line.units) or _unit_and_times(line, after)
    return UnitFound(*found, tokens[after].start, hedged=doubt > 0) if found else None


def _past_fillers(line: Line, number: Number, after: int) -> int:
    """Step over a hyphen, and over "of an" or "an" behind a fraction."""
    tokens = line.tokens
    if text_at(tokens, after) == "-" and tokens[after].gap == GLUED and _is_glued(tokens, after + 1, WORD):
        after += 1
    if not number.whole:
        if text_at(tokens, after) in line.numbers.of:
            after += 1
        if text_at(tokens, after) in line.numbers.article and (after > number.after or number.value < 1):
            after += 1
    return after


def _is_glued(tokens: Sequence[Token], at: int, kind: int) -> bool:
    return at < len(tokens) and tokens[at].gap == GLUED and tokens[at].kind == kind


def _unit_and_times(line: Line, at: int) -> tuple[Unit, int, int] | None:
    """Read the unit of "14inx5in", where unit and times sign are one word."""
    tokens = line.tokens
    if at + 1 >= len(tokens) or tokens[at].gap != GLUED or tokens[at + 1].gap != GLUED:
        return None
    word = tokens[at].text
    if word[-1:] != "x" or word[:-1] not in line.units.by_word or tokens[at + 1].kind != FIGURES:
        return None
    return line.units.by_word[word[:-1]], at + 1, tokens[at].end - 1


def _unit_or_part(line: Line, at: int) -> Amount | None:
    """Read "a foot", "half an inch", "three quarters of an inch", "a half pound"."""
    tokens, words = line.tokens, line.numbers
    token = tokens[at]
    text = token.text
    following = text_at(tokens, at + 1)
    if text in line.units.by_word and (text in line.units.bare or following in words.and_):
        return _bare_unit(line, at)
    if text in words.article:
        unit = line.units.meant(following) if following else None
        if unit and unit.alone:
            one = tokens[at + 1]
            amount = Amount(1, at + 2, one.end, unit, one.start, one.end, spelled=True, whole=True)
            return with_rest(line, amount)
    if text not in words.parts and following not in words.parts:
        return None
    part = part_at(tokens, at, words)
    if part is None:
        return None
    number = Number(part[0], part[1], part[2], spelled=True)
    found = _unit_behind(line, number, at)
    return _with_unit(part[0], found, number) if found and found.unit.alone else None


def _bare_unit(line: Line, at: int) -> Amount | None:
    """Read "foot long", "kilo and a half", in which a unit stands for one of it."""
    tokens = line.tokens
    token, unit = tokens[at], line.units.by_word[tokens[at].text]
    if not unit.alone or not _opens(line, at):
        return None
    amount = Amount(1, at + 1, token.end, unit, token.start, token.end, spelled=True, whole=True)
    halved = with_half(line, amount)
    described = token.text in line.units.bare and text_at(tokens, at + 1) in line.units.bare_before
    return halved if halved is not amount or described else None


def _opens(line: Line, at: int) -> bool:
    """Does a phrase begin at a token: at the beginning of a line, behind a mark, or behind "is" and the like."""
    tokens = line.tokens
    if not at or tokens[at].gap == LINE:
        return True
    return tokens[at - 1].kind == MARK or tokens[at - 1].text in line.units.bare_behind
