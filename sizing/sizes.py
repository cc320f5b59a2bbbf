"""What a size chart is made of: sizes, ease, and what can be sewn. Inches and pounds."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

Positive = Annotated[float, Field(gt=0)]
NotNegative = Annotated[float, Field(ge=0)]


class Setting(BaseModel):
    """What all settings share: they cannot be changed, know no other keys, and take numbers that are finite."""

    # Built on first use, once for the whole chart, not piece by piece on every start.
    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False, defer_build=True)


class Inside(Setting):
    """Finished inside dimensions, inches; the height is above the board."""

    length: Positive
    width: Positive
    height: Positive

    @property
    def volume(self) -> float:
        """Inside volume in cubic inches, by which sizes are smaller or larger."""
        return self.length * self.width * self.height


class Size(Setting):
    """One standard size.

    opening       the lower edge of the opening above the board, inches
    empty_weight  the carrier alone, pounds
    rated_load    heaviest dog that this very construction was proof-tested for, pounds; None: no test, no claim
    price         as the maker writes it; None: not told
    """

    name: Annotated[str, Field(min_length=1, max_length=60, pattern=r"^[^\x00-\x1f\x7f]*\S[^\x00-\x1f\x7f]*$")]
    inside: Inside
    opening: Positive
    empty_weight: Positive
    rated_load: Positive | None = None
    price: str | None = None

    def holds(self, weight: float) -> bool:
        """Tell whether its rated load, if it has one, holds a dog of `weight` pounds."""
        return self.rated_load is None or weight <= self.rated_load


class Part(Setting):
    """An amount of ease: `add` inches plus a share of the measure."""

    add: NotNegative
    share: Annotated[float, Field(ge=0, lt=1)]

    def at(self, measure: float) -> float:
        """Give the ease in inches for a measure of `measure` inches."""
        return self.add + self.share * measure


class Ease(Setting):
    """Room beyond the dog's body in one direction."""

    least: Part
    aim: Part
    most: Part


class Eases(Setting):
    """Ease of all directions; that of the drop counts its shares of the shoulder height."""

    length: Ease
    width: Ease
    height: Ease
    drop: Ease


class Sewable(Setting):
    """Finished inside dimensions and opening at an end of what can be sewn, inches."""

    length: Positive
    width: Positive
    height: Positive
    opening: Positive


class Sewn(Setting):
    """What can be sewn at least and at most."""

    least: Sewable
    most: Sewable


class CautionLimits(Setting):
    """Heaviest total loads of the first two levels of caution, pounds; None: the published figures.

    They can be lower than the published figures, never higher.
    """

    carry_most: Positive | None = None
    short_carry_most: Positive | None = None
