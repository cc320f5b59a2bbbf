"""The level of the weight-safety caution, and the figure that decided it.

The total load (dog, empty carrier, pockets) is held against the published figures of guideline.toml: the women's,
being the stricter, for everybody. Zones that the hands pass on the way from the floor to the shoulder can only lower a
level's load, and so can the shop. The figures are for a two-handed lift of a stable load: a reference, no limit that
anybody set for this bag.
"""

from dataclasses import dataclass
from enum import StrEnum
from itertools import takewhile

from sizing.chart import Shop
from sizing.guideline import Zone, guideline
from sizing.lift_reference import LiftReference, lift_reference
from sizing.outcome import Dimensions
from sizing.units import from_pounds, to_pounds

_NOISE_LB = 1e-9


class Level(StrEnum):
    """How a carrier with the dog in it may be handled."""

    CARRY = "carry"
    """It may be carried."""
    SHORT_CARRY = "short_carry"
    """Both hands to lift, close to the body, with a rest within about 10 m."""
    DO_NOT_LIFT = "do_not_lift"
    """Not with the dog inside: the dog walks in and out, the carrier is for sitting in and is carried empty."""


class DecidedBy(StrEnum):
    """Where a level's heaviest load comes from."""

    GUIDELINE = "guideline"
    """The published figure of the level."""
    ZONE = "zone"
    """A zone that the hands pass, which allows less."""
    SHOP = "shop"
    """The shop's own, stricter setting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """The heaviest total load of a level, pounds, and where it comes from.

    zone   the zone whose published figure it is; None for the shop's own setting
    """

    load_lb: float
    by: DecidedBy
    zone: Zone | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """How heavy it gets, and what follows.

    total_lb, total_kg   dog (upper end of its weight), empty carrier and pockets
    dog_lb, empty_lb, pockets_lb   what they are
    empty_estimated      the carrier is made to measure and its empty weight an estimate
    decided              the bound that decided the level: of the level itself, or for the heaviest the one exceeded
    carry, short_carry   the bounds of the first two levels
    hands_from_in        height of the hands above the floor when they take the handles
    zones                those that the hands pass from there to the shoulder
    rest_within_m        how far it may be carried before a rest, metres; None where nothing is said of it
    reference            for the maker alone: the lifting equation for a two-handed lift; None outside its limits
    """

    level: Level
    total_lb: float
    total_kg: float
    dog_lb: float
    empty_lb: float
    empty_estimated: bool
    pockets_lb: float
    decided: Bound
    carry: Bound
    short_carry: Bound
    hands_from_in: float
    zones: tuple[Zone, ...]
    rest_within_m: float | None
    reference: LiftReference | None

    @property
    def heaviest(self) -> bool:
        """Whether this is the heaviest level: the dog is not lifted in the carrier."""
        return self.level is Level.DO_NOT_LIFT


def caution_for(
    dog_lb: float, empty_lb: float, *, inside: Dimensions, shop: Shop, empty_estimated: bool = False
) -> Caution:
    """Give the caution for a dog in a carrier.

    dog_lb, empty_lb   upper end of the dog's weight; the empty carrier; pounds
    inside             of the carrier, inches
    """
    total = dog_lb + empty_lb + shop.pockets
    hands_from = shop.wall + inside.height + shop.handle_drop
    zones = zones_passed(hands_from)
    carry = _bound(guideline().carry_kg, shop.caution.carry_most, zones)
    short = _bound(guideline().short_carry_kg, shop.caution.short_carry_most, zones)
    level = _level(total, carry, short)
    return Caution(
        level=level,
        total_lb=total,
        total_kg=from_pounds(total, "kg"),
        dog_lb=dog_lb,
        empty_lb=empty_lb,
        empty_estimated=empty_estimated,
        pockets_lb=shop.pockets,
        decided=carry if level is Level.CARRY else short,
        carry=carry,
        short_carry=short,
        hands_from_in=hands_from,
        zones=zones,
        rest_within_m=guideline().rest_within_m if level is Level.SHORT_CARRY else None,
        reference=lift_reference(total, depth_in=inside.width + 2 * shop.wall, hands_from_in=hands_from),
    )


def zones_passed(hands_from_in: float) -> tuple[Zone, ...]:
    """Give the zones that hands pass from `hands_from_in` inches above the floor up to the shoulder, lowest first.

    Hands that begin above the shoulder pass that zone too.
    """
    start = guideline().zone_at(hands_from_in)
    if start is Zone.ABOVE_SHOULDER:
        return (Zone.ELBOW_TO_SHOULDER, Zone.ABOVE_SHOULDER)
    below = tuple(takewhile(lambda zone: zone is not Zone.ABOVE_SHOULDER, Zone))
    return below[below.index(start) :]


def _bound(published_kg: float, shop_lb: float | None, zones: tuple[Zone, ...]) -> Bound:
    figures = guideline().women
    lowest = min(zones, key=lambda zone: figures[zone].close_kg)
    lowest_kg = figures[lowest].close_kg
    by = DecidedBy.ZONE if lowest_kg < published_kg else DecidedBy.GUIDELINE
    load_lb = to_pounds(min(lowest_kg, published_kg), "kg")
    if shop_lb is not None and shop_lb < load_lb - _NOISE_LB:
        return Bound(load_lb=shop_lb, by=DecidedBy.SHOP, zone=None)
    return Bound(load_lb=load_lb, by=by, zone=lowest if lowest_kg <= published_kg else None)


def _level(total_lb: float, carry: Bound, short: Bound) -> Level:
    if total_lb <= carry.load_lb + _NOISE_LB:
        return Level.CARRY
    return Level.SHORT_CARRY if total_lb <= short.load_lb + _NOISE_LB else Level.DO_NOT_LIFT
