"""The reasons for which an experienced maker questions a measure before cutting cloth."""

from enum import StrEnum


class Why(StrEnum):
    """One reason for doubt. Each is one measuring mistake, one question to the customer and one test of that name."""

    UNIT = "unit"
    """Centimetres given as inches, kilograms as pounds, or no way to tell."""
    SWAP = "swap"
    """Two measures were exchanged."""
    GIRTH = "girth"
    """A width was measured around instead of across."""
    TAIL = "tail"
    """A length takes in the tail, the head or the nose."""
    HEAD = "head"
    """A height goes to the top of the head."""
    THROAT = "throat"
    """A throat height lies at or above the shoulder."""
    SIZE = "size"
    """A value that no dog of this build has: a slipped decimal point, digits exchanged, half the width."""
    WEIGHT = "weight"
    """A weight and a size that cannot belong to one dog."""
    CONFLICT = "conflict"
    """Two different values were given for one thing."""
    VAGUE = "vague"
    """A guess instead of a measurement."""
