"""Tells numbers that are no amounts by their shape: dates, times, prices, telephone numbers, references, addresses."""

from collections.abc import Sequence

from replies.reading.codes import address_at, led_code_at, mixed_at, phone_at
from replies.reading.dates import date_or_time_at, day_at
from replies.reading.line import Line, ShapeFound
from replies.reading.numbers import text_at
from replies.reading.shape_words import Shape as Shape
from replies.reading.tokens import BLANK, FIGURES, GLUED, LINE, Token


def shape_at(line: Line, at: int) -> ShapeFound | None:
    """Tell the number at a token by its shape and by what stands before it; None: it may be an amount."""
    dated = date_or_time_at(line, at)
    if dated:
        return dated
    token = line.tokens[at]
    if at and token.gap != LINE:
        if line.tokens[at - 1].text in line.words.money_before:
            return Shape.MONEY, _ranged_end(line.tokens, at)
        led = led_code_at(line, at) if token.text.isdigit() else None
        if led:
            return led
    return phone_at(line, at) or day_at(line, at) or address_at(line, at) or mixed_at(line, at)


def _ranged_end(tokens: Sequence[Token], at: int) -> int:
    """Give the end of "20" or "20-30"."""
    if text_at(tokens, at + 1) == "-" and at + 2 < len(tokens) and tokens[at + 2].kind == FIGURES:
        return tokens[at + 2].end
    return tokens[at].end


def shape_behind(line: Line, at: int) -> tuple[Shape, int] | None:
    """Tell a number by the word behind it, whose index is `at`: the shape, and the index after that word."""
    tokens, words = line.tokens, line.words
    following = text_at(tokens, at)
    if following == "-" and tokens[at].gap == GLUED and at + 1 < len(tokens) and tokens[at + 1].gap == GLUED:
        at += 1
        following = text_at(tokens, at)
    if not following:
        return None
    if following == "y" and tokens[at].gap == GLUED and text_at(tokens, at + 1) not in (".", "/"):
        return Shape.DURATION, at + 1
    shape = words.behind.get(following)
    next_text = text_at(tokens, at + 1)
    if shape:
        return None if next_text in words.not_before.get(following, ()) else (shape, at + 1)
    if following == "y" and next_text in ("/", ".") and text_at(tokens, at + 2) == "o":
        return Shape.DURATION, at + 3
    if following in line.numbers.times and following != "*" and not next_text[:1].isdigit():
        labelled = next_text in line.numbers.glued_letters or next_text in line.numbers.glued_words
        counted = following == "x" and not labelled and next_text not in line.numbers.whole and next_text != "."
        return (Shape.COUNT if counted else Shape.OTHER, at + 1) if counted or following == "mal" else None
    if following == "/" and next_text.isdigit() and tokens[at].gap == tokens[at + 1].gap == GLUED:
        return _scored(tokens, at)
    return None


def _scored(tokens: Sequence[Token], at: int) -> tuple[Shape, int] | None:
    """Read the "/10" of "10/10" and the "/7" of "24/7"."""
    before, behind = tokens[at - 1].text, tokens[at + 1].text
    if text_at(tokens, at + 2) == "/":
        return None  # "12/10/4/7": a row of measures
    if (behind == "10" and before.isdigit() and int(before) >= 10) or (before, behind) == ("24", "7"):
        return Shape.OTHER, at + 2
    return None


def ordinal_behind(line: Line, at: int, figures_before: str) -> int | None:
    """Read "nd" glued behind a number; "st" only where English has it ("1st"), or it is a stone. None: none there."""
    tokens = line.tokens
    if at >= len(tokens) or tokens[at].gap != GLUED or tokens[at].text not in line.words.ordinals:
        return None
    if not figures_before.isdigit():
        return None
    if tokens[at].text == "st":
        english = figures_before[-1] == "1" and figures_before[-2:] != "11"
        if not english or _pounds_follow(line, at + 1) or text_at(tokens, at - 2) in line.words.weighing:
            return None
    return at + 1


def _pounds_follow(line: Line, at: int) -> bool:
    """Does "4lb", or a number with nothing measured behind it, follow on "1st"."""
    if at >= len(line.tokens) or line.tokens[at].gap != BLANK or line.tokens[at].kind != FIGURES:
        return False
    following = text_at(line.tokens, at + 1)
    unit = line.units.by_word.get(following)
    return not following.isalpha() or (unit is not None and unit.name == "lb")
