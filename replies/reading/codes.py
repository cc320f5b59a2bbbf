"""Reads references, telephone numbers, addresses, and letters and figures mixed, so that no measure is made of them."""

import re
from collections.abc import Sequence

from replies.reading.line import Line, ShapeFound, text_before
from replies.reading.numbers import text_at
from replies.reading.shape_words import Shape
from replies.reading.tidy import fold
from replies.reading.tokens import FIGURES, GLUED, WORD, Token, figures

_PHONE = re.compile(r"\d[\d ()/.-]{4,20}\d")
_GROUPED_PHONE = re.compile(r"\d{3}[-. ]\d{3}[-. ]\d{4}")
_POSTCODE = re.compile(r"[A-Z]{1,2}\d[A-Z\d]? ?\d[A-Z]{2}\b|[A-Z]\d[\dW] [A-Z][A-Z\d]{3}\b")
_STREET = re.compile(r"[ \t]+(?:[A-Z][\w']{0,20}[ \t]+){1,3}(\w+)\b")
_HYPHENED = re.compile(r"[\d-]*")
_CLOSING = frozenset("?!.,;)")
_LONG_CODE, _LONG_REFERENCE, _LARGEST_SIZE = 5, 3, 60


def led_code_at(line: Line, at: int) -> ShapeFound | None:
    """Read a whole number that the word or mark before it makes a reference, a count, or a part of an address."""
    tokens, words = line.tokens, line.words
    token = tokens[at]
    before, word = tokens[at - 1].text, text_before(tokens, at)
    if before == "x" and _counts_pieces(line, at):
        return Shape.COUNT, token.end
    if before == "-" and _is_labelled_code(line, at):
        return Shape.CODE, token.end
    if _is_reference(line, at, word, before):
        match = _HYPHENED.match(line.folded, token.start)
        return Shape.CODE, _end_of_choice(line, at) or (match.end() if match else token.end)
    if word in words.postcodes and len(token.text) >= _LONG_REFERENCE:
        return Shape.ADDRESS, token.end
    capital = line.text[tokens[at - 1].start].isupper()
    street = tokens[at - 1].kind == WORD and capital and len(word) > 5 and word.endswith(words.street_endings)
    if street or before in words.house_before or (word == "str" and before == "."):
        return Shape.ADDRESS, token.end
    return None


def _counts_pieces(line: Line, at: int) -> bool:
    """Is it the "x2" of "carrier x2": no number stands shortly before it."""
    before = line.tokens[max(at - 6, 0) : at - 1]
    return not any(token.kind == FIGURES or token.text in line.numbers.glued_letters for token in before) and bool(
        before
    )


def _is_labelled_code(line: Line, at: int) -> bool:
    """Is it "ABC-1234": letters, a hyphen and three figures and more, without blanks or a unit."""
    tokens = line.tokens
    if at < 2 or len(tokens[at].text) < _LONG_REFERENCE or tokens[at].gap != GLUED or tokens[at - 1].gap != GLUED:
        return False
    word = tokens[at - 2]
    label = word.text in line.numbers.glued_words
    return word.kind == WORD and len(word.text) > 1 and not label and text_at(tokens, at + 1) not in line.units.by_word


def _is_reference(line: Line, at: int, word: str, before: str) -> bool:
    """Is it "order 20418", "No. 3", "#30417", "size 4"."""
    digits = line.tokens[at].text
    long = len(digits) >= _LONG_REFERENCE
    if before == "#" and long:
        return True
    following = text_at(line.tokens, at + 1)
    if following in line.units.by_word or following in line.numbers.times:
        return False
    if word == "no":
        named = before in ".#" or line.text[line.tokens[at - 1].start] == "N"
        return named and (len(digits) == 1 or (long and before != "no"))
    if word in line.words.numbered or (word in line.words.counted_off and len(digits) > 1):
        return True
    if word in line.words.sizes:
        return int(digits) <= _LARGEST_SIZE and following not in (",", "/", "-")
    return word in line.words.references and long


def _end_of_choice(line: Line, at: int) -> int | None:
    """Give the end of the "3 or 4" of "No. 3 or 4": one more size, as short, with nothing measured behind it."""
    tokens = line.tokens
    if text_at(tokens, at + 1) not in line.numbers.or_ or not text_at(tokens, at + 2).isdigit():
        return None
    other = tokens[at + 2]
    closed = not text_at(tokens, at + 3) or (tokens[at + 3].text in _CLOSING and tokens[at + 3].gap == GLUED)
    whole = text_at(tokens, at + 4) == "" or not (tokens[at + 3].text == "." and tokens[at + 4].gap == GLUED)
    return other.end if closed and whole and len(other.text) <= len(tokens[at].text) else None


def phone_at(line: Line, at: int) -> ShapeFound | None:
    """Read a telephone number: told, dialled with 0 or +, or grouped as one."""
    token = line.tokens[at]
    if len(token.text) < 2:
        return None
    match = _PHONE.match(line.folded, token.start)
    if not match:
        return None
    number = match.group()
    digits = sum(character.isdigit() for character in number)
    if not 6 <= digits <= 15:
        return None
    before = [line.tokens[place].text for place in range(max(at - 3, 0), at)]
    told = any(word in line.words.phones for word in before) or before[-1:] == ["+"]
    dialled = number[0] == "0" and number[1] not in ".,"
    return (Shape.PHONE, match.end()) if told or dialled or _GROUPED_PHONE.fullmatch(number) else None


def address_at(line: Line, at: int) -> ShapeFound | None:
    """Read "14 Long Street", "27/9 Banksia Pde", and the postcodes that mix letters and figures."""
    tokens = line.tokens
    token = tokens[at]
    if not token.text.isdigit():
        return None
    if at and token.gap == GLUED and tokens[at - 1].kind == WORD and len(tokens[at - 1].text) <= 2:
        match = _POSTCODE.match(line.text, tokens[at - 1].start)
        if match:
            return Shape.ADDRESS, match.end()
    for last in (at, at + 2) if text_at(tokens, at + 1) == "/" and at + 2 < len(tokens) else (at,):
        match = _STREET.match(line.text, tokens[last].end)
        if match and fold(match.group(1)) in line.words.streets:
            return Shape.ADDRESS, tokens[last].end
    return None


def mixed_at(line: Line, at: int) -> ShapeFound | None:
    """Tell letters and figures that are mixed: "K9", "X2Y7", "1e3", "0187"; units and label letters do not count."""
    tokens = line.tokens
    token = tokens[at]
    if _is_slang(line, at):
        return Shape.CODE, _run_end(tokens, at)
    if token.text.isdigit() and (len(token.text) >= _LONG_CODE or (token.text[0] == "0" and len(token.text) > 1)):
        return None if text_at(tokens, at + 1) in line.units.by_word else (Shape.CODE, token.end)
    if figures(token.text) is None:
        return Shape.CODE, token.end
    if at and token.gap == GLUED and tokens[at - 1].kind == WORD and not _may_lead_glued(line, at - 1):
        return Shape.CODE, _run_end(tokens, at)
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if following is None or following.kind != WORD or following.gap != GLUED:
        return None
    if _links(line, following.text):
        return (Shape.CODE, _run_end(tokens, at)) if _is_parcel_number(tokens, at) else None
    led = at > 0 and token.gap == GLUED and tokens[at - 1].kind == WORD and not line.hedges.after.get(following.text)
    goes_on = at + 2 < len(tokens) and tokens[at + 2].gap == GLUED and tokens[at + 2].kind == FIGURES
    return (Shape.CODE, _run_end(tokens, at)) if led or goes_on else None


def _is_parcel_number(tokens: Sequence[Token], at: int) -> bool:
    """Do so many figures stand glued behind the letter as no measure has: "7H2290"; not "14L12"."""
    last = tokens[at + 2] if at + 2 < len(tokens) else None
    return last is not None and last.gap == GLUED and last.text.isdigit() and len(last.text) > _LONG_REFERENCE


def _is_slang(line: Line, at: int) -> bool:
    """Does a figure stand for a sound: "b4", "2day"."""
    tokens = line.tokens
    before = tokens[at - 1].text if at and tokens[at].gap == GLUED else ""
    behind = tokens[at + 1].text if at + 1 < len(tokens) and tokens[at + 1].gap == GLUED else ""
    return bool(before or behind) and f"{before}{tokens[at].text}{behind}" in line.numbers.slang


def _run_end(tokens: Sequence[Token], at: int) -> int:
    """Give the end of the run of letters and figures that the token `at` stands in."""
    while at + 1 < len(tokens) and tokens[at + 1].gap == GLUED and tokens[at + 1].kind in (FIGURES, WORD):
        at += 1
    return tokens[at].end


def _may_lead_glued(line: Line, at: int) -> bool:
    """May the word at a token stand glued before a number."""
    word = line.tokens[at]
    if word.gap == GLUED and at and line.tokens[at - 1].kind == FIGURES:
        return _links(line, word.text)
    numbers = line.numbers
    return word.text in numbers.glued_letters or word.text in numbers.glued_words or word.text in numbers.times


def _links(line: Line, word: str) -> bool:
    """May a word stand between two numbers without blanks: a unit, a times sign, a label, or one of these and "x"."""
    numbers, units = line.numbers, line.units.by_word
    if word in units or word in numbers.times or word in numbers.glued_letters or word in numbers.glued_words:
        return True
    return word[-1:] == "x" and (word[:-1] in units or word[:-1] in numbers.glued_letters)
