"""The size chart and what else a shop sets for its sizing: all of it checked, in inches and pounds.

The built-in settings stand in chart.toml. A maker's own settings may be in centimetres and kilograms; they are
converted once, when they are read.
"""

from collections.abc import Mapping
from functools import cache
from typing import Annotated, Literal

from pydantic import Field, ValidationError, model_validator

from sizing.errors import DataError, Fault, ShopError
from sizing.impossible import InOwnUnits, caution_faults, ease_faults, name_faults, sewn_faults, size_faults
from sizing.own_units import in_inches_and_pounds
from sizing.setting_faults import readable_names, sound_part, worded
from sizing.sizes import (
    CautionLimits,
    Ease,
    Eases,
    Inside,
    NotNegative,
    Part,
    Positive,
    Setting,
    Sewable,
    Sewn,
    Size,
)
from sizing.tables import table


class Shop(Setting):
    """All that a shop sets for its sizing, in inches and pounds.

    sizes        from small to large by inside volume; () where everything is made to measure
    pad          thickness of the pad under the dog's weight
    wall         thickness of a wall
    step         what is cut is a multiple of it
    elbow        height of the elbow as a share of the shoulder height
    handle_drop  from the top of the handles down to the carrier's upper edge
    pockets      weight of what is carried in the pockets
    made_to_measure_rated_load   heaviest dog that the made-to-measure construction was proof-tested for; None: no claim
    ask_again_below   a fit less sure than this has one measure taken again, 0 to 1
    puppy        what the people of a puppy are advised
    length_unit, weight_unit     what the maker works in; nothing in here is in them
    Raises       pydantic.ValidationError, in it a ShopError that names all settings that cannot be
    """

    sizes: Annotated[tuple[Size, ...], Field(strict=False)]
    ease: Eases
    pad: NotNegative
    wall: NotNegative
    step: Positive
    elbow: Annotated[float, Field(gt=0, lt=1)]
    sewn: Sewn
    handle_drop: NotNegative
    pockets: NotNegative
    made_to_measure_rated_load: Positive | None = None
    ask_again_below: Annotated[float, Field(ge=0, le=1)]
    puppy: Literal["wait", "leave_room"]
    caution: CautionLimits = CautionLimits()
    length_unit: Literal["in", "cm"]
    weight_unit: Literal["lb", "kg"]

    @model_validator(mode="after")
    def _is_possible(self) -> "Shop":
        write = InOwnUnits(length_unit=self.length_unit, weight_unit=self.weight_unit)
        faults = [
            *size_faults(self.sizes, self.pad, write=write),
            *ease_faults(self.ease, self.sewn, step=self.step, write=write),
            *sewn_faults(self.sewn, self.pad, write=write),
            *caution_faults(self.caution, self.pockets, write=write),
        ]
        if faults:
            raise ShopError(faults)
        return self

    def size(self, name: str) -> Size:
        """Give the standard size of that name.

        Raises   KeyError when there is none
        """
        try:
            return next(size for size in self.sizes if size.name == name)
        except StopIteration:
            raise KeyError(f"the chart has no size {name!r}") from None


_NAMES = {
    name
    for model in (Shop, Size, Inside, Part, Ease, Eases, Sewable, Sewn, CautionLimits)
    for name in model.model_fields
}


@cache
def builtin_shop() -> Shop:
    """Give the settings of chart.toml, which hold where a shop says nothing.

    Raises   DataError when the file is not as it should be
    """
    try:
        return Shop.model_validate(table("chart.toml"))
    except ValidationError as error:
        raise DataError(f"sizing/chart.toml: {error}") from error


def read_shop(settings: Mapping[str, object] | None = None) -> Shop:
    """Read a shop's own settings over the built-in ones.

    settings   what the maker wrote, in her own units: "length_unit" and "weight_unit" in it say which. What is absent
               holds as built in. Sizes replace the built-in sizes altogether.
    Raises     ShopError with every fault at once: key, what stands there, what would be right

    >>> read_shop({"length_unit": "cm", "pad": 1.27}).pad
    0.5
    """
    own = settings or {}
    whole = _merged(table("chart.toml"), in_inches_and_pounds(own))
    try:
        return Shop.model_validate(whole)
    except ValidationError as error:
        raise ShopError(_all_faults(error, whole, own)) from error


def _all_faults(error: ValidationError, whole: Mapping[str, object], own: Mapping[str, object]) -> list[Fault]:
    """Word the faults; where some setting could not even be read, find also those that the others have."""
    faults = worded(error, own, names=_NAMES)
    try:
        Shop.model_validate(sound_part(error, whole, instead=table("chart.toml")))
    except ValidationError as rest:
        told = {fault.key for fault in faults}
        faults += [fault for fault in worded(rest, own, names=_NAMES) if fault.key not in told]
    return list(dict.fromkeys([*faults, *name_faults(readable_names(own))]))


def _merged(under: Mapping[str, object], over: Mapping[str, object]) -> dict[str, object]:
    merged = dict(under)
    for key, value in over.items():
        below = merged.get(key)
        if isinstance(value, Mapping) and isinstance(below, Mapping):
            merged[key] = _merged(below, value)
        else:
            merged[key] = value
    return merged
