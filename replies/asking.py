"""What to ask a customer: the missing and the doubtful measures of one tape trip, in the order that bare answers keep.

One trip with the tape beats three messages, and a tired customer answers two numbers better than seven. So all that is
missing is asked at once where nothing is doubted; at most two doubts are asked at once; where both come together, three
in all. A guess counts as missing while no measure was taken in earnest; beside one that was, guesses fill up to three.
A doubt about the unit costs no tape and comes beside them, and so does the girth where it helps to judge a doubted
width.
"""

from collections.abc import Collection, Mapping, Sequence

from replies.reading.context import Asked
from sizing.assessment import Assessment
from sizing.doubt import Doubt
from sizing.measures import FIVE, Measure
from sizing.reasons import Why

MOST_DOUBTS = 2
MOST_WHEN_MIXED = 3

_TAPED = frozenset(FIVE) - {Measure.WEIGHT}
_PLACES = {measure: place for place, measure in enumerate((*FIVE, Measure.GIRTH, Measure.NECK))}


def what_to_ask(
    assessments: Sequence[Assessment], asked_again: Collection[tuple[int, Measure]] = ()
) -> tuple[Asked, ...]:
    """Choose what the next question asks for, dog by dog.

    assessments   one a dog, in the order of the enquiry's dogs; () where no dog is known yet
    asked_again   measures, by dog, that were asked for once more because the fit was not sure: this is done once
    Returns       for each dog the numbers in the order length, height, width, throat_height, weight, girth, then the
                  measures whose unit is asked for; () when there is nothing to ask
    """
    if not assessments:
        return tuple(Asked(measure=measure) for measure in FIVE)
    had_one_again = {dog for dog, _ in asked_again}
    return tuple(
        asked
        for number, one in enumerate(assessments)
        for asked in _for_dog(number, one, may_ask_again=number not in had_one_again)
    )


def _for_dog(number: int, assessment: Assessment, *, may_ask_again: bool) -> tuple[Asked, ...]:
    reasons = _first_reasons(assessment.doubts)
    units = [measure for measure, why in reasons.items() if why is Why.UNIT]
    guesses = [measure for measure, why in reasons.items() if why is Why.VAGUE]
    doubted = [measure for measure, why in reasons.items() if why not in (Why.UNIT, Why.VAGUE)][:MOST_DOUBTS]
    needed = _needed(assessment.missing, guesses)
    if doubted:
        needed = needed[: max(1, MOST_WHEN_MIXED - len(doubted))]
    numbers = [*needed, *doubted]
    if not (numbers or units):
        again = assessment.ask_again if may_ask_again else None
        return (Asked(measure=again, dog=number),) if again is not None else ()
    if _girth_helps(reasons, units, assessment):
        numbers.append(Measure.GIRTH)
    ordered = [*sorted(numbers, key=_PLACES.__getitem__), *sorted(units, key=_PLACES.__getitem__)]
    return tuple(Asked(measure=measure, dog=number, why=reasons.get(measure)) for measure in ordered)


def _needed(missing: Collection[Measure], guesses: Collection[Measure]) -> list[Measure]:
    """All that is missing, and of the guesses as many as one trip bears; all of them where the tape is still unused."""
    is_unused = {*missing, *guesses} >= _TAPED
    places = sorted(guesses, key=_PLACES.__getitem__)
    with_them = places if is_unused else places[: max(0, MOST_WHEN_MIXED - len(missing))]
    return sorted((*missing, *with_them), key=_PLACES.__getitem__)


def _first_reasons(doubts: Sequence[Doubt]) -> dict[Measure, Why]:
    """The likeliest reason for each doubted measure; they come most likely first."""
    first: dict[Measure, Why] = {}
    for doubt in doubts:
        first.setdefault(doubt.measure, doubt.why)
    return first


def _girth_helps(reasons: Mapping[Measure, Why], units: Sequence[Measure], assessment: Assessment) -> bool:
    """The girth tells apart a width that is the way around, half of it, or alone in another unit."""
    why = reasons.get(Measure.WIDTH)
    told_apart = why in (Why.GIRTH, Why.SIZE) or (why is Why.UNIT and len(units) == 1)
    return told_apart and Measure.GIRTH not in assessment.dog.measures
