"""The published figures for lifting by hand, zone by zone, and the two loads at which the caution changes its level."""

from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from sizing.errors import DataError
from sizing.tables import table
from sizing.units import to_pounds


class Zone(StrEnum):
    """Where the hands are, from the floor up."""

    BELOW_MID_LOWER_LEG = "below_mid_lower_leg"
    MID_LOWER_LEG_TO_KNUCKLE = "mid_lower_leg_to_knuckle"
    KNUCKLE_TO_ELBOW = "knuckle_to_elbow"
    ELBOW_TO_SHOULDER = "elbow_to_shoulder"
    ABOVE_SHOULDER = "above_shoulder"


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What one zone allows, kilograms: held close to the body, and at arm's length."""

    close_kg: float
    far_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Guideline:
    """The guideline as published.

    women, men      figures of each zone, from the floor up
    tops_in         where each zone but the highest ends above the floor, inches
    carry_lb, short_carry_lb   heaviest total load of the first and the second level, pounds
    rest_within_m   how far the second level may be carried without a rest, metres
    """

    women: dict[Zone, Figures]
    men: dict[Zone, Figures]
    tops_in: dict[Zone, float]
    carry_kg: float
    short_carry_kg: float
    rest_within_m: float
    source: str

    @property
    def carry_lb(self) -> float:
        """Heaviest total load of the first level, pounds."""
        return to_pounds(self.carry_kg, "kg")

    @property
    def short_carry_lb(self) -> float:
        """Heaviest total load of the second level, pounds."""
        return to_pounds(self.short_carry_kg, "kg")

    def zone_at(self, height_in: float) -> Zone:
        """Give the zone of hands that are `height_in` inches above the floor."""
        return next((zone for zone, top in self.tops_in.items() if height_in < top), Zone.ABOVE_SHOULDER)


@cache
def guideline() -> Guideline:
    """Give the guideline in guideline.toml.

    Raises   DataError when the file is not as it should be
    """
    data = table("guideline.toml")
    try:
        rows = {Zone(row["name"]): row for row in data["zones"]}
        heights = data["heights"]
        return Guideline(
            women={zone: _figures(row["women"]) for zone, row in rows.items()},
            men={zone: _figures(row["men"]) for zone, row in rows.items()},
            tops_in={
                Zone.BELOW_MID_LOWER_LEG: heights["mid_lower_leg"],
                Zone.MID_LOWER_LEG_TO_KNUCKLE: heights["knuckle"],
                Zone.KNUCKLE_TO_ELBOW: heights["elbow"],
                Zone.ELBOW_TO_SHOULDER: heights["shoulder"],
            },
            carry_kg=data["levels"]["carry_kg"],
            short_carry_kg=data["levels"]["short_carry_kg"],
            rest_within_m=data["levels"]["rest_within_m"],
            source=data["source"],
        )
    except (KeyError, TypeError, ValueError) as error:
        raise DataError(f"sizing/guideline.toml lacks {error} or misstates it: mend it") from error


def _figures(row: dict[str, float]) -> Figures:
    return Figures(close_kg=row["close"], far_kg=row["far"])
