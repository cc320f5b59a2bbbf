"""What to ask a customer: the missing and the doubtful measures of one tape trip, in the order that bare answers keep.

One trip with the tape beats three messages, and a tired customer answers two numbers better than seven. So all that is
missing is asked at once where nothing is doubted; at most two doubts are asked at once; where both come together, three
in all. A doubt about the unit costs no tape and comes beside them.
"""

from collections.abc import Sequence

from replies.reading.context import Asked
from sizing.assessment import Assessment
from sizing.doubt import Doubt
from sizing.measures import FIVE
from sizing.reasons import Why

MOST_DOUBTS = 2
MOST_WHEN_MIXED = 3


def what_to_ask(assessments: Sequence[Assessment]) -> tuple[Asked, ...]:
    """Choose what the next question asks for, dog by dog in the order length, height, width, throat_height, weight.

    assessments   one a dog, in the order of the enquiry's dogs
    Returns       (): nothing is missing or doubted, and no measure has to be taken again
    """
    return tuple(asked for number, one in enumerate(assessments) for asked in _for_dog(number, one))


def _for_dog(number: int, assessment: Assessment) -> tuple[Asked, ...]:
    missing = [Asked(measure=measure, dog=number) for measure in FIVE if measure in assessment.missing]
    first_reasons = _first_reasons(assessment.doubts)
    units = [asked for asked in _asked_for(first_reasons, number) if asked.why is Why.UNIT]
    doubts = [asked for asked in _asked_for(first_reasons, number) if asked.why is not Why.UNIT][:MOST_DOUBTS]
    if doubts and missing:
        missing = missing[: max(1, MOST_WHEN_MIXED - len(doubts))]
    if not (missing or doubts or units) and assessment.ask_again is not None:
        return (Asked(measure=assessment.ask_again, dog=number),)
    order = {measure: place for place, measure in enumerate(FIVE)}
    return tuple(sorted((*missing, *doubts, *units), key=lambda asked: order.get(asked.measure, len(FIVE))))


def _first_reasons(doubts: Sequence[Doubt]) -> list[Doubt]:
    """The likeliest reason for each doubted measure; they come most likely first."""
    seen: dict[object, Doubt] = {}
    for doubt in doubts:
        seen.setdefault(doubt.measure, doubt)
    return list(seen.values())


def _asked_for(doubts: Sequence[Doubt], number: int) -> list[Asked]:
    return [Asked(measure=doubt.measure, dog=number, why=doubt.why) for doubt in doubts]
