"""Reads one amount: a number with its unit, and what follows of a smaller unit ("1 ft 2", "5lb 6oz", "5kg200")."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from replies.reading.hedges import hedges_after
from replies.reading.line import Line
from replies.reading.numbers import Number, fraction_at, number_at, part_at, text_at
from replies.reading.tokens import BLANK, FIGURES, GLUED, LINE, MARK, WORD, Token
from replies.reading.unit_words import Unit, unit_at

_SMALLER = {"ft": ("in", 12), "lb": ("oz", 16), "st": ("lb", 14), "kg": ("g", 1000), "m": ("cm", 100), "cm": ("mm", 10)}
"""The unit that may follow a larger one, and how many of it make one of the larger."""
_PARTS_THOUSANDS = frozenset(("mm", "g"))
"""Units in which a sign before three figures parts thousands: 1.200 g, but 1.200 kg."""
_GOES_ON = frozenset(("and", "but", "so", "which", "she", "he", "now", "und", "et", "y", "e", "en"))
"""Words that begin something new behind a bare "5 lb 2"."""

_GROUP, _HUNDRED = 3, 100
_BEFORE_BARE = frozenset(("is", "hes", "shes", "its", "s", "about", "and", "n", "like", "maybe", "almost"))
"""Words before a bare "foot long"."""
_IMPERIAL = frozenset(("in", "ft", "lb", "oz", "st"))
"""Units of countries in which a comma parts thousands: 1,900 ft."""
_NO_FEET = 9
"""No dog and no person has so many feet."""
_ITEM_WITHIN = 20
"""The item number before stands at most so many tokens back."""


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount that begins at some token.

    value       in `unit`, as written
    after, end  index of the token behind it, and where it ends in the text
    unit_start  where its (last) unit begins; None: it has none
    thousands, alone   as in Number
    whole       written without fraction or decimals
    compound    of two units; in the smaller one
    hedged      a word of doubt stands between number and unit: "12ish inches"
    """

    value: float
    after: int
    end: int
    unit: Unit | None = None
    unit_start: int | None = None
    unit_end: int | None = None
    spelled: bool = False
    thousands: float | None = None
    alone: float | None = None
    whole: bool = False
    compound: bool = False
    hedged: bool = False

    def value_in(self, unit: Unit | None) -> float:
        """Give the value if `unit` is its unit."""
        if unit is None or unit.name in _IMPERIAL:
            return (self.value if self.alone is None else self.alone) * (unit.times if unit else 1)
        grouped = self.thousands is not None and unit.name in _PARTS_THOUSANDS
        return (self.thousands if grouped and self.thousands else self.value) * unit.times


class UnitFound(NamedTuple):
    """A unit behind a number: with the index of the token behind it, and its place in the text."""

    unit: Unit
    after: int
    end: int
    start: int
    hedged: bool = False


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
    return _with_half(line, _with_smaller(line, amount))


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
    metric = unit is not None and unit.name not in _IMPERIAL
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
    if unit is None or unit.name not in _PARTS_THOUSANDS:
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
            return _with_half(line, _with_smaller(line, amount))
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
    if not unit.alone or not _opens(tokens, at):
        return None
    amount = Amount(1, at + 1, token.end, unit, token.start, token.end, spelled=True, whole=True)
    with_half = _with_half(line, amount)
    described = token.text in line.units.bare and text_at(tokens, at + 1) in line.units.bare_before
    return with_half if with_half is not amount or described else None


def _with_half(line: Line, amount: Amount) -> Amount:
    """Read a part behind the unit: "a foot and a half", "13 kilos y medio", "13in 3/4"."""
    tokens = line.tokens
    if not amount.whole or amount.compound:
        return amount
    if text_at(tokens, amount.after) in line.numbers.and_ and text_at(tokens, amount.after + 1):
        part = part_at(tokens, amount.after + 1, line.numbers) or fraction_at(tokens, amount.after + 1)
    else:
        part = fraction_at(tokens, amount.after) if text_at(tokens, amount.after) else None
    if part is None:
        return amount
    following = text_at(tokens, part[1])
    if following in line.numbers.of or following in line.numbers.article or following in line.units.by_word:
        return amount
    return replace(amount, value=amount.value + part[0], after=part[1], end=part[2], whole=False)


def _with_smaller(line: Line, amount: Amount) -> Amount:
    """Read the smaller unit behind a larger one, with or without its name."""
    unit, tokens = amount.unit, line.tokens
    if unit is None or unit.name not in _SMALLER or unit.times != 1:
        return amount
    smaller, times = _SMALLER[unit.name]
    at = _past_joint(line, amount, unit)
    joined = at > amount.after and tokens[at - 1].text != "."
    pointed = at > amount.after and not joined
    if not text_at(tokens, at):
        return amount
    number = number_at(tokens, at, line.numbers)
    if number is None or number.weak or not 0 <= number.value < times:
        return amount
    found = unit_at(tokens, number.after, number, at - 1, line.units)
    if found is not None:
        if found[0].name != smaller or not amount.whole:
            return amount
        last = Amount(
            amount.value * times + number.value,
            found[1],
            found[2],
            found[0],
            tokens[number.after].start,
            found[2],
            amount.spelled,
            whole=number.whole,
            compound=True,
        )
        return _with_smaller(line, last) if smaller == "lb" else last
    rest = _unnamed(line, amount, number, at, joined=joined)
    if rest is None or (pointed and not (unit.name == "ft" and _closes(tokens, number.after))):
        return amount
    return Amount(
        amount.value * times + rest,
        number.after,
        number.end,
        line.units.by_word[smaller],
        amount.unit_start,
        amount.unit_end,
        amount.spelled,
        compound=True,
    )


def _past_joint(line: Line, amount: Amount, unit: Unit) -> int:
    """Step over what may stand between pounds and ounces: "and", a comma, the point of "lbs."."""
    tokens, at = line.tokens, amount.after
    following = text_at(tokens, at)
    if following == "." and tokens[at].gap == GLUED and tokens[at - 1].kind == WORD:
        at += 1
        following = text_at(tokens, at)
    if following in line.numbers.and_ or (following == "," and unit.name in ("lb", "st")):
        at += 1
    return at


def _unnamed(line: Line, amount: Amount, number: Number, at: int, *, joined: bool) -> float | None:
    """Give what a bare number behind a unit means in the smaller one: 5'4, 1 ft 2, 5 lb 2, 5kg200, 1m20, 12 cm 5."""
    tokens = line.tokens
    name = amount.unit.name if amount.unit else ""
    token = tokens[at]
    digits = len(token.text) if token.text.isdigit() else 0
    if joined and not (name == "kg" and text_at(tokens, at - 1) in line.numbers.ten_and):
        return None
    if not amount.whole or text_at(tokens, number.after) in line.numbers.times:
        return None
    if not number.value or (digits and _counts_on(tokens, at)):
        return None
    if name == "kg":
        if number.spelled and not number.value % _HUNDRED:
            return number.value or None
        tenths = digits == 1 and (token.gap == GLUED or _closes(tokens, number.after))
        return number.value if digits == 3 else number.value * 100 if tenths else None
    if name == "m":
        return number.value if digits == 2 and (token.gap == GLUED or _closes(tokens, number.after)) else None
    if name == "cm":
        return number.value if digits == 1 and _closes(tokens, number.after) else None
    if name == "ft":
        mark = tokens[amount.after - 1].text == "'"
        return (
            number.value
            if (mark and token.gap == GLUED) or not amount.spelled or _closes(tokens, number.after)
            else None
        )
    return number.value if number.whole and _closes(tokens, number.after) else None


def _opens(tokens: Sequence[Token], at: int) -> bool:
    """Does a phrase begin at a token: at the beginning of a line, behind a mark, or behind "is" and the like."""
    if not at or tokens[at].gap == LINE:
        return True
    return tokens[at - 1].kind == MARK or tokens[at - 1].text in _BEFORE_BARE


def _counts_on(tokens: Sequence[Token], at: int) -> bool:
    """Is a number the next item number of a list: the "2)" of "1) 29 cm 2) 25 cm"."""
    sign = text_at(tokens, at + 1)
    if sign not in (".", ")", ":"):
        return False
    before = str(int(tokens[at].text) - 1)
    return any(
        tokens[place].text == before and tokens[place + 1].text == sign
        for place in range(max(at - _ITEM_WITHIN, 0), at - 1)
    )


def _closes(tokens: Sequence[Token], at: int) -> bool:
    """Does a phrase end at a token, so that the number before it is not the beginning of something else."""
    following = text_at(tokens, at)
    if not following or following in _GOES_ON:
        return True
    if following not in ",.;)!?":
        return False
    return at + 1 >= len(tokens) or tokens[at + 1].gap != GLUED
