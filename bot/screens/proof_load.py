"""What to hang in a proof test, by each yardstick there is, with what each was made for."""

import math
from collections.abc import Iterator
from typing import Literal

from rich.padding import Padding
from rich.text import Text

from sizing.proof_load import LABEL, ProofLoad, proof_load, yardsticks
from sizing.units import from_pounds


def proof_load_screen(rating_lb: float, unit: Literal["lb", "kg"]) -> Iterator[Padding | Text]:
    """Give a line or two for each yardstick, and what none of them is.

    rating_lb   heaviest dog that the carrier is to be rated for, pounds
    unit        the maker's own, in which the loads are shown first
    Raises      SizingError for a rating that is no weight
    """
    loads = [proof_load(rating_lb, yardstick=name) for name in yardsticks()]
    yield Text(f"To try a carrier for a dog of {from_pounds(rating_lb, unit):.4g} {unit}, hang", style="heading")
    for load in loads:
        yield Text(f"  {_both(load, unit)}", style="key").append(
            f"  {load.yardstick.factor:g} times ({load.yardstick.source})", style="quiet"
        )
        yield Padding(Text(load.yardstick.made_for), (0, 0, 0, 4))
    yield Text()
    yield Text(LABEL, style="care")


def _both(load: ProofLoad, unit: str) -> str:
    """Rounded up: a load that falls short of the yardstick proves nothing."""
    written = {"lb": f"{_up(load.load_lb)} lb", "kg": f"{_up(load.load_kg)} kg"}
    other = next(name for name in written if name != unit)
    return f"{written[unit]} ({written[other]})"


def _up(load: float) -> str:
    return f"{math.ceil(round(load * 10, 6)) / 10:g}"
