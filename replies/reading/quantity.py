"""What is found of a number: its value, unit, shape and place."""

from dataclasses import dataclass

from replies.reading.shape_words import Shape
from replies.reading.tokens import Token
from replies.reading.unit_words import Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """One quantity, with its place in the tidied text.

    start, end   of number and unit, without label letters and words such as "about"
    low, high    as written, in `unit`; feet and inches, pounds and ounces, kilograms and grams in the smaller unit;
                 without meaning where the shape is neither amount, hash nor enumerator
    unit         "in", "ft", "cm", "mm", "m", "lb", "oz", "st", "kg", "g"; None: none stands beside it
    unit_start, unit_end   the place of the (last) unit; None: no unit. For a shared unit the place where it stands
    unit_shared  the unit was said once for a list, and stands beside another number of it
    hedged       "about", "ish", "just under" stand beside it; hedge_start is where they begin, if before it
    guessed      "maybe", "I guess" stand beside it
    spelled      written in words
    compound     of two units: feet and inches
    restates     says the amount before it once more in another unit: "15 lb (6.8 kg)"
    """

    start: int
    end: int
    low: float
    high: float
    unit: str | None = None
    dimension: Dimension | None = None
    shape: Shape = Shape.AMOUNT
    hedged: bool = False
    guessed: bool = False
    spelled: bool = False
    compound: bool = False
    restates: bool = False
    unit_start: int | None = None
    unit_end: int | None = None
    unit_shared: bool = False
    hedge_start: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LoneUnit:
    """A unit that stands beside no number: "all in cm"."""

    start: int
    end: int
    unit: str
    dimension: Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantities:
    """All quantities of a text, with what joins them.

    lists   indices into `found` of numbers joined by x, by or *: length x width x height
    lone    units that stand beside no number
    tokens  the text cut into figures, words and marks
    """

    found: tuple[Quantity, ...] = ()
    lists: tuple[tuple[int, ...], ...] = ()
    lone: tuple[LoneUnit, ...] = ()
    tokens: tuple[Token, ...] = ()
