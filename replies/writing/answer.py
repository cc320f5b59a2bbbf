"""The body of an answer: what is recommended for each dog and why, the caution, and what happens next."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from replies.enquiry import Enquiry, EnquiryDog
from replies.errors import WordingError, WordingFault
from replies.writing.naming import callings
from replies.writing.said import in_own_units
from replies.writing.wording import Wording, render
from sizing.assessment import Assessment, Neighbour, Remark
from sizing.caution import Level
from sizing.chart import Shop
from sizing.fit import body_of, drop_slack, made_to_measure_inside
from sizing.measures import FIVE, Measure
from sizing.opening import clears_elbow
from sizing.outcome import Dimensions, Direction, Kind, Outcome, Room
from sizing.sizes import Size
from sizing.units import from_inches, from_pounds, to_inches
from sizing.written import length_with_unit

SERVED = frozenset({Kind.STANDARD, Kind.ALTERED_OPENING, Kind.MADE_TO_MEASURE})
_CUT = frozenset({Kind.ALTERED_OPENING, Kind.MADE_TO_MEASURE})


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerBody:
    """An answer without greeting and signature; `cautions` are the caution's paragraphs as they stand in it."""

    text: str
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """What an answer says of one dog."""

    enquiry: Enquiry
    shop: Shop
    wording: Wording
    calling: str
    dog: EnquiryDog
    assessment: Assessment
    outcome: Outcome
    opening_place: str

    def text(self, name: str, **values: object) -> str:
        return render(self.wording, name, {"dog": self.calling, **values})

    def length(self, inches: float) -> str:
        """In the customer's own unit; in the shop's beside it where that is another."""
        own = length_with_unit(inches, self.enquiry.length_unit)
        shops = length_with_unit(inches, self.shop.length_unit)
        return own if own.split()[-1] == shops.split()[-1] else f"{own} ({shops})"

    def brief(self, inches: float) -> str:
        return length_with_unit(inches, self.enquiry.length_unit)


def answer_body(
    enquiry: Enquiry,
    assessments: Sequence[Assessment],
    shop: Shop,
    wording: Wording,
    *,
    place: str,
    opening_place: str,
) -> AnswerBody:
    """Write what is recommended.

    assessments     one a dog, each with an outcome
    place           a marked place for what else was asked; "" for none
    opening_place   the marked place of a dog for which no height of the opening serves
    Raises          WordingError
    """
    parts = [
        _Part(
            enquiry=enquiry,
            shop=shop,
            wording=wording,
            calling=calling,
            dog=dog,
            assessment=assessment,
            outcome=assessment.outcome,
            opening_place=opening_place,
        )
        for calling, dog, assessment in zip(callings(enquiry.dogs), enquiry.dogs, assessments, strict=True)
        if assessment.outcome is not None
    ]
    caution = _caution(parts, wording)
    kinds = {part.outcome.kind for part in parts}
    served = any(part.outcome.kind in SERVED for part in parts)
    after = render(wording, "next.jinja", {"served": served, "cut": bool(kinds & _CUT)})
    values = {
        "several": len(parts) > 1,
        "dogs": [_dog_values(part) for part in parts],
        "caution": caution,
        "place": place,
        "next": after,
    }
    cautions = tuple(caution.split("\n\n")) if caution else ()
    return AnswerBody(text=render(wording, "answer.jinja", values), cautions=cautions)


def measures_in_own_units(enquiry: Enquiry, dog: EnquiryDog, wording: Wording) -> list[str]:
    """Give label and number of each of the five measures that are known, in the customer's own units."""
    return [
        f"{render(wording, 'label.jinja', {'measure': measure.value})} "
        + in_own_units(dog.measures[measure], length_unit=enquiry.length_unit, weight_unit=enquiry.weight_unit)
        for measure in FIVE
        if measure in dog.measures
    ]


def _dog_values(part: _Part) -> dict[str, Any]:
    return {
        "dog": part.calling,
        "measures": measures_in_own_units(part.enquiry, part.dog, part.wording),
        "outcome": _outcome_text(part),
        "notes": _notes(part),
    }


def _outcome_text(part: _Part) -> str:
    outcome = part.outcome
    if outcome.concern is not None:
        return part.text("outcomes/opening_open.jinja", place=part.opening_place)
    match outcome.kind:
        case Kind.STANDARD:
            return part.text("outcomes/standard.jinja", **_fit_values(part))
        case Kind.ALTERED_OPENING:
            return part.text("outcomes/altered_opening.jinja", **_fit_values(part), **_recut_values(part))
        case Kind.MADE_TO_MEASURE:
            return part.text("outcomes/made_to_measure.jinja", **_fit_values(part), **_made_values(part))
        case Kind.NOT_SAFE:
            return part.text("outcomes/not_safe.jinja", weight=_own(part, Measure.WEIGHT))
        case Kind.OUTSIDE_RANGE:
            return part.text("outcomes/outside_range.jinja", too=_too(part))


def _fit_values(part: _Part) -> dict[str, Any]:
    outcome = part.outcome
    slacks = {slack.direction: slack.slack for slack in outcome.slacks}
    return {
        "size": outcome.size or "",
        "inside": _inside_text(part, outcome.inside, outcome.opening),
        "room_length": part.brief(slacks[Direction.LENGTH]),
        "room_width": part.brief(slacks[Direction.WIDTH]),
        "below": part.brief(slacks[Direction.DROP]),
        "price": _price(part.shop, outcome.size or outcome.fallback),
    }


def _inside_text(part: _Part, inside: Dimensions | None, opening: float | None) -> str:
    if inside is None or opening is None:
        return ""
    return part.text(
        "inside.jinja",
        length=part.length(inside.length),
        width=part.length(inside.width),
        height=part.length(inside.height),
        opening=part.length(opening),
    )


def _recut_values(part: _Part) -> dict[str, Any]:
    size = _size(part.shop, part.outcome.size)
    opening = part.outcome.opening
    if size is None or opening is None:
        return {"opening": "", "was": "", "edge": "low"}
    height = body_of(part.assessment.dog).height
    low = "low" if clears_elbow(size.opening, height, part.shop) else "paw"
    return {
        "opening": part.brief(opening),
        "was": part.brief(size.opening),
        "edge": "high" if size.opening > opening else low,
    }


def _made_values(part: _Part) -> dict[str, Any]:
    near = [_near(neighbour) for neighbour in part.assessment.neighbours]
    return {
        "near": [one for one in near if one["tight"] or one["roomy"]],
        "fallback": part.outcome.fallback or "",
        "recut": _edge_lies_low(part, _size(part.shop, part.outcome.fallback)),
    }


def _edge_lies_low(part: _Part, size: Size | None) -> bool:
    if size is None:
        return False
    body = body_of(part.assessment.dog)
    deep = drop_slack(body, size.opening, part.shop).room is Room.ROOMY
    return deep or not clears_elbow(size.opening, body.height, part.shop)


def _near(neighbour: Neighbour) -> dict[str, Any]:
    rooms = {slack.direction: slack.room for slack in neighbour.slacks if slack.direction is not Direction.DROP}
    return {
        "size": neighbour.size,
        "tight": [direction.value for direction, room in rooms.items() if room is Room.TIGHT],
        "roomy": [direction.value for direction, room in rooms.items() if room is Room.ROOMY],
    }


def _too(part: _Part) -> str:
    """Which end of what can be sewn the dog lies beyond; "" where it is both ends or the opening alone."""
    inside = made_to_measure_inside(body_of(part.assessment.dog), part.shop)
    least, most = part.shop.sewn.least, part.shop.sewn.most
    big = inside.length > most.length or inside.width > most.width or inside.height > most.height
    small = inside.length < least.length or inside.width < least.width or inside.height < least.height
    return {(True, False): "big", (False, True): "small"}.get((big, small), "")


def _notes(part: _Part) -> list[str]:
    remarks = {note.remark for note in part.assessment.notes}
    notes = []
    if Remark.PUPPY in remarks:
        notes.append(part.text("notes/puppy.jinja", advice=part.shop.puppy))
    if Remark.POSTURE in remarks and part.dog.posture is not None and part.outcome.kind in SERVED:
        notes.append(part.text("notes/posture.jinja", posture=part.dog.posture.value))
    return notes


def _caution(parts: Sequence[_Part], wording: Wording) -> str:
    heavy = [part for part in parts if part.assessment.caution is not None and part.outcome.kind in SERVED]
    if not heavy:
        return ""
    lifted = any(part.assessment.caution and not part.assessment.caution.heaviest for part in heavy)
    calling = heavy[0].calling if len(heavy) == 1 else "a dog"
    levels = [_level(part) for part in heavy]
    values = {"levels": levels, "dog": calling, "lifted": lifted}
    caution = render(wording, "caution.jinja", values)
    if not all(level in caution for level in levels) or not caution:
        raise WordingError(
            [
                WordingFault(
                    template="caution.jinja",
                    line=None,
                    problem="it leaves out how heavy it gets",
                    remedy='put {{ levels | join(" ") }} back into it or remove the file',
                )
            ]
        )
    return caution


def _level(part: _Part) -> str:
    caution = part.assessment.caution
    if caution is None:
        return ""
    values = {"total": _about(caution.total_lb, part.enquiry.weight_unit)}
    if caution.level is Level.SHORT_CARRY:
        values["rest"] = _rest(caution.rest_within_m or 0.0, part.enquiry.length_unit)
    return part.text(f"levels/{caution.level.value}.jinja", **values)


def _about(pounds: float, unit: str) -> str:
    """A load in whole pounds or half kilograms, upwards: it is never made lighter than it is."""
    if unit in ("kg", "g"):
        return f"{math.ceil(from_pounds(pounds, 'kg') * 2 - 1e-9) / 2:g} kg"
    return f"{math.ceil(pounds - 1e-9)} lb"


def _rest(metres: float, unit: str) -> str:
    """A way in metres, in feet before it for those who use them; to tens of feet, downwards."""
    if unit in ("in", "ft"):
        return f"{math.floor(from_inches(to_inches(metres, 'm'), 'ft') / 10) * 10} ft ({metres:g} m)"
    return f"{metres:g} m"


def _own(part: _Part, measure: Measure) -> str:
    units = {"length_unit": part.enquiry.length_unit, "weight_unit": part.enquiry.weight_unit}
    return in_own_units(part.dog.measures[measure], **units)


def _size(shop: Shop, name: str | None) -> Size | None:
    return next((size for size in shop.sizes if size.name == name), None)


def _price(shop: Shop, name: str | None) -> str:
    size = _size(shop, name)
    return (size.price or "") if size is not None else ""
