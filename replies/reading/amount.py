"""One amount while it is read: its value and unit, and the tokens behind it."""

from typing import NamedTuple

from replies.reading.unit_words import Unit

PARTS_THOUSANDS = frozenset(("mm", "g"))
"""Units in which a sign before three figures parts thousands: 1.200 g, but 1.200 kg."""
IMPERIAL = frozenset(("in", "ft", "lb", "oz", "st"))
"""Units of countries in which a comma parts thousands: 1,900 ft."""


class Amount(NamedTuple):
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
        if unit is None or unit.name in IMPERIAL:
            return (self.value if self.alone is None else self.alone) * (unit.times if unit else 1)
        grouped = self.thousands is not None and unit.name in PARTS_THOUSANDS
        return (self.thousands if grouped and self.thousands else self.value) * unit.times


class UnitFound(NamedTuple):
    """A unit behind a number: with the index of the token behind it, and its place in the text."""

    unit: Unit
    after: int
    end: int
    start: int
    hedged: bool = False
