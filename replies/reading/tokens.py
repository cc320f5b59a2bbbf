"""Cuts a folded text into figures, words and single marks, with their places and what parts them."""

import re
from collections.abc import Collection, Sequence
from typing import NamedTuple

GLUED, BLANK, LINE = 0, 1, 2
"""What stands before a token: nothing, a blank, or the end of a line."""
FIGURES, WORD, MARK = 0, 1, 2
"""What a token is."""


class Token(NamedTuple):
    """A run of figures with its points and commas, a word, or a single mark, with its place in the text."""

    kind: int
    start: int
    end: int
    text: str
    gap: int


_SYLLABLES = r"\u3041-\u30ff\u3400-\u9fff\uac00-\ud7a3"
"""Signs of Japanese, Chinese and Korean, which write no blanks between words: each is a token."""
_SYLLABLE = re.compile(f"[{_SYLLABLES}]")
_TOKEN = re.compile(rf"(\d+(?:[.,]\d+)*|(?<![\w.,])\.\d+)|([{_SYLLABLES}]|[^\W\d_{_SYLLABLES}]+)|([^\w\s]|_)")
_LONGEST_NUMBER = 15
_GROUP = 3
_EIGHTHS = frozenset(("125", "375", "625", "875"))
_SECOND_HALF = frozenset(("5", "25", "75"))
_HABIT_COMMA = 2
_HABIT = 3
"""How often "12 5" must stand in a message, and nothing against it, before its gaps are taken for decimal points."""


def tokenize(folded: str) -> list[Token]:
    """Cut a folded text into tokens. In linear time.

    >>> [token.text for token in tokenize("14,11,5.5 cm (4,5kg)")]
    ['14', ',', '11', ',', '5.5', 'cm', '(', '4,5', 'kg', ')']
    """
    tokens: list[Token] = []
    done = -1
    for match in _TOKEN.finditer(folded):
        start, end = match.span()
        gap = GLUED
        if start != done:
            gap = LINE if done < 0 or "\n" in folded[done:start] else BLANK
        text = match.group()
        kind = (match.lastindex or 1) - 1
        if kind == FIGURES and "," in text and figures(text) is None:
            tokens += _listed(text, start, gap)
        else:
            tokens.append(Token(kind, start, end, text, gap))
        done = end
    return tokens


def join_syllables(tokens: list[Token], written: Collection[str]) -> list[Token]:
    """Join signs of Japanese, Chinese and Korean that make one of these words, and part them from what is beside them.

    They are written without blanks, so that to be glued to a number means nothing.
    """
    longest = max(map(len, written), default=0)
    joined: list[Token] = []
    at = 0
    apart = False
    while at < len(tokens):
        first, size = tokens[at], 1
        signs = first.kind == WORD and _SYLLABLE.match(first.text) is not None
        if signs:
            size = next((size for size in range(longest, 1, -1) if _glued_text(tokens, at, size) in written), 1)
        text = first.text if size == 1 else _glued_text(tokens, at, size)
        gap = BLANK if first.gap == GLUED and (signs or apart) else first.gap
        joined.append(Token(first.kind, first.start, tokens[at + size - 1].end, text, gap))
        apart = signs
        at += size
    return joined


def _glued_text(tokens: Sequence[Token], at: int, size: int) -> str:
    row = tokens[at : at + size]
    whole = len(row) == size and all(token.gap == GLUED for token in row[1:])
    return "".join(token.text for token in row) if whole else ""


def split_syllables(word: str) -> list[str]:
    """Give the words that a written word is cut into: itself, or each sign of Japanese, Chinese and Korean.

    >>> split_syllables("体高"), split_syllables("back")
    (['体', '高'], ['back'])
    """
    if word.isascii() or not _SYLLABLE.search(word):
        return [word]
    return re.findall(f"[{_SYLLABLES}]|[^{_SYLLABLES}]+", word)


def has_syllables(text: str) -> bool:
    """Is there a sign of Japanese, Chinese or Korean in a text."""
    return not text.isascii() and _SYLLABLE.search(text) is not None


def _listed(text: str, start: int, gap: int) -> list[Token]:
    """Cut "14,11,5.5" into its numbers and commas."""
    tokens: list[Token] = []
    for piece in re.split("(,)", text):
        tokens.append(Token(MARK if piece == "," else FIGURES, start, start + len(piece), piece, gap))
        start, gap = start + len(piece), GLUED
    return tokens


class Figures(NamedTuple):
    """A number in figures.

    value      a comma or point before exactly three figures is taken as decimal
    thousands  the value if that sign parts thousands instead; None: there is no such sign
    alone      the value where no unit tells which of the two is meant
    """

    value: float
    thousands: float | None
    alone: float


def figures(text: str) -> Figures | None:
    """Read figures with points and commas.

    None: they are no single number (a list without blanks, a version, a date, too long for any amount).

    >>> [figures(text)[:2] for text in ("4,5", "1.200", "1,234.5")], figures("14,11,5")
    ([(4.5, None), (1.2, 1200.0), (1234.5, None)], None)
    """
    if len(text) > _LONGEST_NUMBER:
        return None
    if text.isdigit():
        return Figures(float(text), None, float(text))
    groups = re.split(r"[.,]", text)
    signs = [sign for sign in text if sign in ".,"]
    if len(signs) == 1:
        return _with_one_sign(groups[0], signs[0], groups[1])
    if any(len(group) != _GROUP for group in groups[1:-1]) or not 1 <= len(groups[0]) <= _GROUP:
        return None
    if len(set(signs[:-1])) > 1:
        return None
    if signs[-1] == signs[0] and len(groups[-1]) != _GROUP:
        return None
    whole, decimals = ("".join(groups), "0") if signs[-1] == signs[0] else ("".join(groups[:-1]), groups[-1])
    value = float(f"{whole}.{decimals}")
    return Figures(value, None, value)


def _with_one_sign(before: str, sign: str, behind: str) -> Figures:
    """Read "12.5", "1,200", "8.875": without a unit a comma parts thousands, but not before the eighths of a tape."""
    value = float(f"{before or '0'}.{behind}")
    if len(behind) != _GROUP or not 1 <= len(before) <= _GROUP or before[0] == "0":
        return Figures(value, None, value)
    thousands = float(before + behind)
    return Figures(value, thousands, value if sign == "." or behind in _EIGHTHS else thousands)


def mend_points(tokens: list[Token]) -> list[Token]:
    """Join numbers whose point came apart all over a message: "12. 5" beside "10 .75", "33 ,5" twice, "12 5" always.

    A single "12. 5" stays two numbers: it is as often the end of one and the beginning of another.
    """
    numbers = [at for at, token in enumerate(tokens) if token.kind == FIGURES and at]
    if any(_is_apart(tokens, at) for at in numbers):
        return _joined(tokens, [at for at in numbers if _is_behind_point(tokens, at)])
    commas = [at for at in numbers if _is_behind_comma(tokens, at)]
    if sum(tokens[at].gap == GLUED for at in commas) >= _HABIT_COMMA:
        return _joined(tokens, commas)
    gaps = [at for at in numbers if _is_behind_gap(tokens, at)]
    if len(gaps) >= _HABIT and all(tokens[at].text in _SECOND_HALF for at in gaps):
        whole = all(token.text.isdigit() for token in tokens if token.kind == FIGURES)
        return _joined(tokens, gaps) if whole else tokens
    return tokens


def _is_apart(tokens: Sequence[Token], at: int) -> bool:
    """Is a token the ".75" of "10 .75"."""
    token = tokens[at]
    return token.kind == FIGURES and token.text[0] == "." and token.gap == BLANK and tokens[at - 1].text.isdigit()


def _is_behind_point(tokens: Sequence[Token], at: int) -> bool:
    """Is a token the "5" of "12. 5"."""
    return (
        at >= 2
        and tokens[at].text in _SECOND_HALF
        and tokens[at].gap == BLANK
        and tokens[at - 1].text == "."
        and tokens[at - 1].gap == GLUED
        and tokens[at - 2].text.isdigit()
    )


def _is_behind_comma(tokens: Sequence[Token], at: int) -> bool:
    """Is a token the "5" of "33 ,5 cm" or "28, 5 cm": one figure, a blank on one side of the comma, before a word."""
    if at < 2 or len(tokens[at].text) != 1 or tokens[at].kind != FIGURES or tokens[at - 1].text != ",":
        return False
    one_blank = {tokens[at].gap, tokens[at - 1].gap} == {GLUED, BLANK}
    before_word = at + 1 < len(tokens) and tokens[at + 1].kind == WORD
    return one_blank and before_word and tokens[at - 2].text.isdigit()


def _is_behind_gap(tokens: Sequence[Token], at: int) -> bool:
    """Is a token the second of two whole numbers with a blank between."""
    return tokens[at].gap == BLANK and tokens[at].text.isdigit() and tokens[at - 1].text.isdigit()


def _joined(tokens: list[Token], seconds: Sequence[int]) -> list[Token]:
    """Make one token of each number that came apart before one of `seconds`."""
    joined: list[Token] = []
    at = 0
    ends = {(second - 1 if tokens[second - 1].kind == FIGURES else second - 2): second for second in seconds}
    while at < len(tokens):
        second = ends.get(at)
        if second is None:
            joined.append(tokens[at])
            at += 1
        else:
            first, last = tokens[at], tokens[second]
            joined.append(Token(FIGURES, first.start, last.end, f"{first.text}.{last.text}", first.gap))
            at = second + 1
    return joined
