"""What an amount and its shape are told from: the text, its tokens, and the words that are known."""

from collections.abc import Sequence
from dataclasses import dataclass

from replies.reading.hedges import HedgeWords
from replies.reading.number_words import NumberWords
from replies.reading.shape_words import Shape, ShapeWords
from replies.reading.tokens import LINE, Token
from replies.reading.unit_words import UnitWords

ShapeFound = tuple[Shape, int]
"""A shape, and where the number that has it ends in the text."""


@dataclass(frozen=True, slots=True)
class Line:
    """A text while its amounts are sought."""

    text: str
    folded: str
    tokens: Sequence[Token]
    words: ShapeWords
    numbers: NumberWords
    units: UnitWords
    hedges: HedgeWords


def text_before(tokens: Sequence[Token], at: int) -> str:
    """Give the word before a token, over one point, colon, hash or bracket; "" at the beginning of a line."""
    if not at or tokens[at].gap == LINE:
        return ""
    if tokens[at - 1].text in ".:#(" and at >= 2 and tokens[at - 1].gap != LINE:
        return tokens[at - 2].text
    return tokens[at - 1].text
