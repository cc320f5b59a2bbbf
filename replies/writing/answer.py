"""The body of an answer: what is recommended for each dog and why, the caution, and what happens next."""

from collections.abc import Sequence
from dataclasses import dataclass

from replies.enquiry import Enquiry, EnquiryDog
from replies.writing.caution_text import Load, caution_text
from replies.writing.naming import callings
from replies.writing.note_texts import note_texts
from replies.writing.one_dog import SERVED, OneDog
from replies.writing.outcome_text import outcome_text
from replies.writing.said import in_own_units
from replies.writing.wording import Wording, render
from sizing.assessment import Assessment
from sizing.chart import Shop
from sizing.measures import FIVE
from sizing.outcome import Kind
from sizing.together import Together, together


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerBody:
    """An answer without greeting and signature; `cautions` are the caution's paragraphs as they stand in it."""

    text: str
    cautions: tuple[str, ...]


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
    dogs = [
        OneDog(
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
    pair = _pair(enquiry, assessments, shop)
    caution = caution_text(_loads(dogs, pair), enquiry, wording)
    values = {
        "several": len(dogs) > 1,
        "dogs": [_dog_values(one) for one in dogs],
        "pair": _pair_text(dogs[0], pair) if pair else "",
        "caution": caution,
        "place": place,
        "next": _next(dogs, wording),
    }
    return AnswerBody(text=render(wording, "answer.jinja", values), cautions=_paragraphs(caution))


def measures_in_own_units(enquiry: Enquiry, dog: EnquiryDog, wording: Wording) -> list[str]:
    """Give each of the five measures that are known, in the customer's own units.

    Raises   WordingError
    """
    units = {"length_unit": enquiry.length_unit, "weight_unit": enquiry.weight_unit}
    return [
        render(wording, "measured.jinja", {"measure": measure.value, "number": in_own_units(known, **units)})
        for measure in FIVE
        if (known := dog.measures.get(measure)) is not None
    ]


def _dog_values(one: OneDog) -> dict[str, object]:
    return {
        "dog": one.calling,
        "measures": measures_in_own_units(one.enquiry, one.dog, one.wording),
        "outcome": outcome_text(one),
        "notes": note_texts(one),
    }


def _pair(enquiry: Enquiry, assessments: Sequence[Assessment], shop: Shop) -> Together | None:
    """What one carrier for both would be, where that is what the customer wants."""
    if not enquiry.together or len(assessments) != 2:
        return None
    first, second = assessments
    return together(first.dog, second.dog, shop)


def _offers_one_for_both(pair: Together | None) -> bool:
    return pair is not None and pair.outcome.kind in SERVED and pair.shared_opening


def _pair_text(one: OneDog, pair: Together) -> str:
    return one.text(
        "notes/together.jinja",
        served=pair.outcome.kind in SERVED,
        shared=pair.shared_opening,
        inside=one.inside(pair.outcome.inside, pair.opening),
    )


def _loads(dogs: Sequence[OneDog], pair: Together | None) -> list[Load]:
    loads = [
        Load(calling=one.calling, caution=one.assessment.caution)
        for one in dogs
        if one.is_served and one.assessment.caution is not None
    ]
    both = [Load(calling="both dogs", caution=pair.caution)] if pair and _offers_one_for_both(pair) else []
    return loads + both


def _next(dogs: Sequence[OneDog], wording: Wording) -> str:
    kinds = {one.outcome.kind for one in dogs}
    cut = bool(kinds & {Kind.ALTERED_OPENING, Kind.MADE_TO_MEASURE})
    return render(wording, "next.jinja", {"served": bool(kinds & SERVED), "cut": cut})


def _paragraphs(text: str) -> tuple[str, ...]:
    return tuple(text.split("\n\n")) if text else ()
