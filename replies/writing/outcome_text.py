"""What is said of an outcome: the size or the dimensions, and in one line why."""

from typing import Any

from replies.writing.one_dog import OneDog
from replies.writing.said import in_own_units
from sizing.assessment import Neighbour
from sizing.fit import body_of, drop_slack, made_to_measure_inside
from sizing.measures import Measure
from sizing.opening import clears_elbow
from sizing.outcome import Direction, Kind, Room
from sizing.sizes import Size


def outcome_text(one: OneDog) -> str:
    """Write what serves a dog, or that nothing does.

    Raises   WordingError
    """
    if one.outcome.concern is not None:
        return one.text("outcomes/opening_open.jinja", place=one.opening_place)
    match one.outcome.kind:
        case Kind.STANDARD:
            return one.text("outcomes/standard.jinja", **_fit_values(one))
        case Kind.ALTERED_OPENING:
            return one.text("outcomes/altered_opening.jinja", **_fit_values(one), **_recut_values(one))
        case Kind.MADE_TO_MEASURE:
            return one.text("outcomes/made_to_measure.jinja", **_fit_values(one), **_made_values(one))
        case Kind.NOT_SAFE:
            return one.text("outcomes/not_safe.jinja", weight=_weight(one))
        case Kind.OUTSIDE_RANGE:
            return one.text("outcomes/outside_range.jinja", too=_too(one))


def _fit_values(one: OneDog) -> dict[str, Any]:
    outcome = one.outcome
    slacks = {slack.direction: slack.slack for slack in outcome.slacks}
    size = one.size(outcome.size or outcome.fallback)
    return {
        "size": outcome.size or "",
        "inside": one.inside(outcome.inside, outcome.opening),
        "room_length": one.brief(slacks[Direction.LENGTH]),
        "room_width": one.brief(slacks[Direction.WIDTH]),
        "below": one.brief(slacks[Direction.DROP]),
        "price": (size.price or "") if size is not None else "",
    }


def _recut_values(one: OneDog) -> dict[str, Any]:
    size, opening = one.size(one.outcome.size), one.outcome.opening
    if size is None or opening is None:
        return {"opening": "", "was": "", "edge": "low"}
    low = "low" if clears_elbow(size.opening, body_of(one.assessment.dog).height, one.shop) else "paw"
    return {
        "opening": one.brief(opening),
        "was": one.brief(size.opening),
        "edge": "high" if size.opening > opening else low,
    }


def _made_values(one: OneDog) -> dict[str, Any]:
    near = [_near(neighbour) for neighbour in one.assessment.neighbours]
    return {
        "near": [size for size in near if size["tight"] or size["roomy"]],
        "fallback": one.outcome.fallback or "",
        "recut": _edge_lies_low(one, one.size(one.outcome.fallback)),
    }


def _near(neighbour: Neighbour) -> dict[str, Any]:
    rooms = {slack.direction: slack.room for slack in neighbour.slacks if slack.direction is not Direction.DROP}
    return {
        "size": neighbour.size,
        "tight": [direction.value for direction, room in rooms.items() if room is Room.TIGHT],
        "roomy": [direction.value for direction, room in rooms.items() if room is Room.ROOMY],
    }


def _edge_lies_low(one: OneDog, size: Size | None) -> bool:
    if size is None:
        return False
    body = body_of(one.assessment.dog)
    deep = drop_slack(body, size.opening, one.shop).room is Room.ROOMY
    return deep or not clears_elbow(size.opening, body.height, one.shop)


def _weight(one: OneDog) -> str:
    units = {"length_unit": one.enquiry.length_unit, "weight_unit": one.enquiry.weight_unit}
    return in_own_units(one.dog.measures[Measure.WEIGHT], **units)


def _too(one: OneDog) -> str:
    """Which end of what can be sewn the dog lies beyond; "" where it is both ends or the opening alone."""
    inside = made_to_measure_inside(body_of(one.assessment.dog), one.shop)
    least, most = one.shop.sewn.least, one.shop.sewn.most
    big = inside.length > most.length or inside.width > most.width or inside.height > most.height
    small = inside.length < least.length or inside.width < least.width or inside.height < least.height
    return {(True, False): "big", (False, True): "small"}.get((big, small), "")
