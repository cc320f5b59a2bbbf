"""What the engine says of a dog, in words for the maker: short, in her own units, the same on every surface.

Nothing in here is for a customer: likelier values and neighbouring sizes are told to the maker alone.
"""

from collections.abc import Mapping

from sizing.assessment import Neighbour, WouldBe
from sizing.caution import Caution, DecidedBy, Level
from sizing.doubt import Doubt
from sizing.measures import Measure
from sizing.outcome import Dimensions, Direction, Kind, Outcome, Room, Slack
from sizing.reasons import Why
from sizing.units import is_weight
from sizing.written import length_with_unit, length_written, weight_with_unit

MEASURES: Mapping[Measure, str] = {
    Measure.LENGTH: "back length",
    Measure.HEIGHT: "shoulder height",
    Measure.WIDTH: "width",
    Measure.THROAT_HEIGHT: "throat height",
    Measure.WEIGHT: "weight",
    Measure.GIRTH: "girth",
    Measure.NECK: "neck",
}
DIRECTIONS: Mapping[Direction, str] = {
    Direction.LENGTH: "length",
    Direction.WIDTH: "width",
    Direction.HEIGHT: "height",
    Direction.DROP: "front edge",
}
_REASONS: Mapping[Why, str] = {
    Why.UNIT: "the unit is in doubt",
    Why.SWAP: "may have changed places with another measure",
    Why.GIRTH: "may have been measured around instead of across",
    Why.TAIL: "may take in the tail, the head or the nose",
    Why.HEAD: "may go to the top of the head",
    Why.THROAT: "lies at the shoulder or above it",
    Why.SIZE: "no dog of this build has it: a slipped decimal, digits exchanged, or half of it",
    Why.WEIGHT: "does not go with the size of the dog",
    Why.CONFLICT: "two different values were given",
    Why.VAGUE: "a guess, not a measurement",
}
_LEVELS: Mapping[Level, str] = {
    Level.CARRY: "may be carried",
    Level.SHORT_CARRY: "short carry: both hands, close to the body, a rest within about 10 m",
    Level.DO_NOT_LIFT: "not to be lifted with the dog inside: it walks in and out",
}
_SURE, _FAIRLY, _HARDLY = 0.95, 0.8, 0.5


def headline(outcome: Outcome, unit: str) -> str:
    """Give what she decides by in one line: the size, or finished dimensions, and the opening where it is cut anew.

    unit   "in" or "cm"
    """
    match outcome.kind:
        case Kind.STANDARD:
            return f"{outcome.size}"
        case Kind.ALTERED_OPENING:
            return f"{outcome.size}, {_opening(outcome, unit)}"
        case Kind.MADE_TO_MEASURE:
            return f"{inside_words(outcome.inside, unit)}, {_opening(outcome, unit)}"
        case Kind.NOT_SAFE:
            return "not safe"
        case Kind.OUTSIDE_RANGE:
            return "outside what can be sewn"


def kind_words(kind: Kind) -> str:
    """Say what kind of outcome it is."""
    return {
        Kind.STANDARD: "a standard size",
        Kind.ALTERED_OPENING: "a standard size with its opening recut",
        Kind.MADE_TO_MEASURE: "made to measure",
        Kind.NOT_SAFE: "the dog weighs more than the rated load of what would fit it",
        Kind.OUTSIDE_RANGE: "smaller or larger than your settings say you can sew",
    }[kind]


def inside_words(inside: Dimensions | None, unit: str) -> str:
    """Write finished inside dimensions; "" where there are none."""
    if inside is None:
        return ""
    return " x ".join(length_written(side, unit) for side in (inside.length, inside.width, inside.height)) + f" {unit}"


def _opening(outcome: Outcome, unit: str) -> str:
    return f"opening {length_with_unit(outcome.opening, unit)}" if outcome.opening is not None else "opening open"


def sure_words(outcome: Outcome) -> str:
    """Say how sure it is that the carrier serves the dog, and which measure could tip it; "" where nothing serves."""
    if outcome.sure is None:
        return ""
    tips = f"the {MEASURES[outcome.sure_measure]}" if outcome.sure_measure else "a measure"
    if outcome.sure >= _SURE:
        return "sure"
    if outcome.sure >= _FAIRLY:
        return f"fairly sure; {tips} could tip it"
    if outcome.sure >= _HARDLY:
        return f"not quite sure; {tips} decides"
    return f"more likely not; {tips} decides"


def room_words(slack: Slack, unit: str) -> str:
    """Say how much room a direction leaves, or how far the edge lies under the throat."""
    where = "under the throat" if slack.direction is Direction.DROP else "of room"
    return f"{length_with_unit(slack.slack, unit)} {where}"


def verdict(slack: Slack) -> str:
    """Say what is wrong with a direction; "" where it is right."""
    edge = slack.direction is Direction.DROP
    match slack.room:
        case Room.RIGHT:
            return ""
        case Room.TIGHT:
            return "too high" if edge else "tight"
        case Room.ROOMY:
            return "too low" if edge else "roomy"


def tightest(slacks: tuple[Slack, ...]) -> Slack | None:
    """Give the direction that is nearest to its least, as a share of what is between least and most; None: no slack."""
    return min(slacks, key=lambda one: (one.slack - one.least) / max(one.most - one.least, 1e-9), default=None)


def neighbour_words(neighbour: Neighbour, unit: str) -> str:
    """Say why the next size either way is not the one."""
    faults = [_off_by(slack, unit) for slack in neighbour.slacks if slack.room is not Room.RIGHT]
    if not neighbour.clears_elbow:
        faults.append("its edge lies below the elbow")
    if not neighbour.holds:
        faults.append("its rated load is too low")
    way = "larger" if neighbour.larger else "smaller"
    return f"{neighbour.size}, the next {way}: {', '.join(faults) or 'it would do too, but is farther from aim'}"


def _off_by(slack: Slack, unit: str) -> str:
    off = slack.least - slack.slack if slack.room is Room.TIGHT else slack.slack - slack.most
    by = length_with_unit(off, unit)
    amount = "by a hair" if by.startswith("0 ") else f"by {by}"
    return f"{DIRECTIONS[slack.direction]} {verdict(slack)} {amount}"


def load_words(caution: Caution, unit: str) -> str:
    """Give the total load and what it is made of.

    unit   "lb" or "kg"
    """
    carrier = f"carrier {'about ' if caution.empty_estimated else ''}{weight_with_unit(caution.empty_lb, unit)}"
    parts = (
        f"dog {weight_with_unit(caution.dog_lb, unit)}, {carrier}, pockets {weight_with_unit(caution.pockets_lb, unit)}"
    )
    return f"{weight_with_unit(caution.total_lb, unit)} in all ({parts})"


def level_words(caution: Caution) -> str:
    """Say what the load means for whoever carries it."""
    return _LEVELS[caution.level]


def bound_words(caution: Caution, unit: str) -> str:
    """Say which figure decided the level."""
    sources = {
        DecidedBy.GUIDELINE: "the published guideline",
        DecidedBy.ZONE: "a zone that the hands pass on the way up",
        DecidedBy.SHOP: "your own, stricter setting",
    }
    side = "above" if caution.heaviest else "up to"
    return f"{side} {weight_with_unit(caution.decided.load_lb, unit)}, {sources[caution.decided.by]}"


def doubt_words(doubt: Doubt, *, length_unit: str, weight_unit: str) -> str:
    """Name a doubt, its reason, and the likelier value."""
    told = f"{MEASURES[doubt.measure]}: {_REASONS[doubt.why]}"
    if doubt.likely is None:
        return told
    heavy = is_weight(doubt.measure)
    likely = weight_with_unit(doubt.likely, weight_unit) if heavy else length_with_unit(doubt.likely, length_unit)
    return f"{told}; likelier {likely}"


def would_be_words(would_be: WouldBe, unit: str) -> str:
    """Say what it would be once the throat height is known."""
    if would_be.size is not None:
        return f"would be {would_be.size}, once the throat height is known"
    if would_be.kind in (Kind.NOT_SAFE, Kind.OUTSIDE_RANGE):
        return f"would be {kind_words(would_be.kind)}"
    return f"would be made to measure, {inside_words(would_be.inside, unit)}, once the throat height is known"
