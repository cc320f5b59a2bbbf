"""Cuts a folded text into figures, words and single marks, with their places and what parts them."""

import re
from collections.abc import Sequence
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


_TOKEN = re.compile(r"(\d+(?:[.,]\d+)*|(?<![\w.,])\.\d+)|([^\W\d_]+)|([^\w\s]|_)")
_LONGEST_NUMBER = 15
_SECOND_HALF = frozenset(("5", "25", "75"))
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


def _listed(text: str, start: int, gap: int) -> list[Token]:
    """Cut "14,11,5.5" into its numbers and commas."""
    tokens: list[Token] = []
    for piece in re.split("(,)", text):
        tokens.append(Token(MARK if piece == "," else FIGURES, start, start + len(piece), piece, gap))
        start, gap = start + len(piece), GLUED
    return tokens


def figures(text: str) -> tuple[float, float | None] | None:
    """Read figures with points and commas: the value, and the value if its one sign parts thousands.

    None: they are no single number (a list without blanks, a version, a date, too long for any amount).

    >>> figures("4,5"), figures("1.200"), figures("1,234.5"), figures("14,11,5")
    ((4.5, None), (1.2, 1200.0), (1234.5, None), None)
    """
    if len(text) > _LONGEST_NUMBER:
        return None
    if text.isdigit():
        return float(text), None
    groups = re.split(r"[.,]", text)
    signs = [sign for sign in text if sign in ".,"]
    if len(signs) == 1:
        value = float(f"{groups[0] or '0'}.{groups[1]}")
        parts_thousands = len(groups[1]) == 3 and 1 <= len(groups[0]) <= 3 and groups[0][0] != "0"
        return value, float(groups[0] + groups[1]) if parts_thousands else None
    if any(len(group) != 3 for group in groups[1:-1]) or not 1 <= len(groups[0]) <= 3 or len(set(signs[:-1])) > 1:
        return None
    if signs[-1] != signs[0]:
        return float("".join(groups[:-1]) + "." + groups[-1]), None
    return (float("".join(groups)), None) if len(groups[-1]) == 3 else None


def mend_points(tokens: list[Token]) -> list[Token]:
    """Join numbers whose decimal point came apart all over a message: "12. 5" beside "10 .75", or "12 5" each time.

    A single "12. 5" stays two numbers: it is as often the end of one and the beginning of another.
    """
    apart = [at for at in range(1, len(tokens)) if _is_apart(tokens, at)]
    if apart:
        return _joined(tokens, [at for at in range(len(tokens)) if _is_behind_point(tokens, at)])
    gaps = [at for at in range(1, len(tokens)) if _is_behind_gap(tokens, at)]
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
