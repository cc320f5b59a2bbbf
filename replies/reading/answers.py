"""Reads answers to what was just asked: bare numbers in order, numbered ones, yes and no."""

from replies.reading.context import Asked
from replies.reading.facts import Manner
from replies.reading.letter import Letter
from replies.reading.page import Candidate, Page
from replies.reading.shapes import Shape
from replies.reading.unit_words import Dimension
from sizing.measures import Measure


def read_answers(page: Page, letter: Letter) -> None:
    """Give bare numbers the measures that had been asked for."""
    _read_numbered(page, letter)
    for questions in letter.questions:
        asked = tuple(Asked(measure=measure, dog=_dog_asked(page)) for measure in questions.measures)
        _fill(page, asked, questions.start, questions.end)
    if page.context.asked:
        _fill(page, page.context.asked, 0, len(page.original) + 1)


def _dog_asked(page: Page) -> int:
    return page.context.asked[0].dog if page.context.asked else max(0, len(page.context.dogs) - 1)


def _read_numbered(page: Page, letter: Letter) -> None:
    """Read "2. 19 cm": the number of the item says which question it answers."""
    order = {at + 1: (asked.measure,) for at, asked in enumerate(page.context.asked)}
    order.update({number: measures for number, measures in letter.numbered.items() if measures})
    for candidate, following in zip(page.candidates, page.candidates[1:], strict=False):
        quantity = page.quantities.found[candidate.number]
        if quantity.shape != Shape.ENUMERATOR or following.aside is not None or following.measure not in (None, "weight"):
            continue
        measures = order.get(int(quantity.low))
        if measures and len(measures) == 1 and following.measure is None and not _on_other_line(page, candidate, following):
            following.measure, following.bare = str(measures[0]), True


def _on_other_line(page: Page, one: Candidate, other: Candidate) -> bool:
    between = page.tidied.text[page.quantities.found[one.number].end : page.quantities.found[other.number].start]
    return "\n" in between


def _fill(page: Page, asked: tuple[Asked, ...], start: int, end: int) -> None:
    """Give the bare numbers of a stretch, in order, what is asked and not yet answered."""
    bare = [
        candidate
        for candidate in page.candidates
        if candidate.aside is None
        and candidate.measure is None
        and start <= page.passage(page.quantities.found[candidate.number].start, page.quantities.found[candidate.number].end).start < end
    ]
    if not bare:
        return
    told = {candidate.measure for candidate in page.candidates if candidate.aside is None and candidate.measure}
    open_now = [one for one in asked if str(one.measure) not in told]
    fitting = [one for one in open_now if one.measure is not Measure.WEIGHT or _may_weigh(page, bare)]
    if len(bare) == len(fitting):
        for candidate, one in zip(bare, fitting, strict=True):
            _give(page, candidate, one)


def _may_weigh(page: Page, bare: list[Candidate]) -> bool:
    return any(page.quantities.found[candidate.number].dimension != Dimension.LENGTH for candidate in bare)


def _give(page: Page, candidate: Candidate, asked: Asked) -> None:
    candidate.measure, candidate.bare = str(asked.measure), True
    candidate.manner = Manner.ANSWER
    if not candidate.dogs and asked.dog < len(page.dogs):
        candidate.dogs = (asked.dog,)


