"""Reads what follows of an amount behind its unit: a half of it, or a smaller unit: "1 ft 2", "5lb 6oz", "5kg200"."""

from collections.abc import Sequence

from replies.reading.amount import Amount
from replies.reading.line import Line
from replies.reading.numbers import Number, fraction_at, number_at, part_at, text_at
from replies.reading.tokens import GLUED, WORD, Token
from replies.reading.unit_words import Unit, unit_at

_SMALLER = {"ft": ("in", 12), "lb": ("oz", 16), "st": ("lb", 14), "kg": ("g", 1000), "m": ("cm", 100), "cm": ("mm", 10)}
"""The unit that may follow a larger one, and how many of it make one of the larger."""
_HUNDRED = 100
_ITEM_WITHIN = 20
"""The item number before stands at most so many tokens back."""


def with_rest(line: Line, amount: Amount) -> Amount:
    """Read the smaller unit and the half that follow behind an amount with a unit."""
    return with_half(line, _with_smaller(line, amount))


def with_half(line: Line, amount: Amount) -> Amount:
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
    of_measure = text_at(tokens, part[1] + 1) in line.numbers.glued_words  # "10 inches and half of tall"
    of_another = following in line.numbers.of and not of_measure
    if of_another or following in line.numbers.article or following in line.units.by_word:
        return amount
    return amount._replace(value=amount.value + part[0], after=part[1], end=part[2], whole=False)


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
    number = number_at(tokens, at, line.numbers) or _one_at(line, at)
    if number is None or not 0 <= number.value < times:
        return amount
    found = unit_at(tokens, number.after, number, at - 1, line.units)
    if found is None and number.weak:
        return amount
    if found is not None:
        if found[0].name != smaller or not amount.whole or number.value * found[0].times >= times:
            return amount
        last = Amount(
            amount.value * times + number.value * found[0].times,
            found[1],
            found[2],
            found[0] if found[0].times == 1 else line.units.by_word[smaller],
            tokens[number.after].start,
            found[2],
            amount.spelled,
            whole=number.whole,
            compound=True,
        )
        return _with_smaller(line, last) if smaller == "lb" else last
    rest = _unnamed(line, amount, number, at, joined=joined)
    if rest is None or (pointed and not (unit.name == "ft" and closes(line, number.after))):
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


def _one_at(line: Line, at: int) -> Number | None:
    """Read the "an" of "a foot and an inch" as one."""
    token = line.tokens[at]
    return Number(1, at + 1, token.end, spelled=True, weak=True) if token.text in line.numbers.article else None


def _past_joint(line: Line, amount: Amount, unit: Unit) -> int:
    """Step over what may stand between pounds and ounces: "and", "with", a comma, the point of "lbs."."""
    tokens, at = line.tokens, amount.after
    following = text_at(tokens, at)
    if following == "." and tokens[at].gap == GLUED and tokens[at - 1].kind == WORD:
        at += 1
        following = text_at(tokens, at)
    if (
        following in line.numbers.and_
        or following in line.units.before_smaller
        or (following == "," and unit.name in ("lb", "st"))
    ):
        at += 1
    return at


def _unnamed(line: Line, amount: Amount, number: Number, at: int, *, joined: bool) -> float | None:
    """Give what a bare number behind a unit means in the smaller one: 5'4, 1 ft 2, 5 lb 2, 5kg200, 1m20, 12 cm 5."""
    tokens = line.tokens
    name = amount.unit.name if amount.unit else ""
    token = tokens[at]
    digits = len(token.text) if token.text.isdigit() else 0
    hundreds = digits == 3 and not number.value % 50
    if joined and not (name == "kg" and (text_at(tokens, at - 1) in line.numbers.ten_and or hundreds)):
        return None
    if not amount.whole or text_at(tokens, number.after) in line.numbers.times:
        return None
    if not number.value or (digits and _counts_on(tokens, at)):
        return None
    if name == "kg":
        if number.spelled and not number.value % _HUNDRED:
            return number.value or None
        tenths = digits == 1 and (token.gap == GLUED or closes(line, number.after))
        return number.value if digits == 3 else number.value * 100 if tenths else None
    if name == "m":
        return number.value if digits == 2 and (token.gap == GLUED or closes(line, number.after)) else None
    if name == "cm":
        return number.value if digits == 1 and closes(line, number.after) else None
    if name == "ft":
        mark = tokens[amount.after - 1].text == "'"
        return (
            number.value if (mark and token.gap == GLUED) or not amount.spelled or closes(line, number.after) else None
        )
    return number.value if number.whole and closes(line, number.after) else None


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


def closes(line: Line, at: int) -> bool:
    """Does a phrase end at a token, so that the number before it is not the beginning of something else."""
    tokens = line.tokens
    following = text_at(tokens, at)
    if not following or following in line.numbers.goes_on:
        return True
    if following not in ",.;)!?":
        return False
    return at + 1 >= len(tokens) or tokens[at + 1].gap != GLUED
