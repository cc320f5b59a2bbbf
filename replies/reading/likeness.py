"""Reads dogs that are told by another one: "her brother is the same but an inch longer and a pound heavier"."""

from replies.reading.marks import PHRASE
from replies.reading.page import Candidate, Likened, Page
from replies.reading.unit_words import Dimension
from sizing.measures import Measure
from sizing.units import to_inches, to_pounds

_TOLD = {
    "length": (Measure.LENGTH,),
    "height": (Measure.HEIGHT,),
    "width": (Measure.WIDTH,),
    "weight": (Measure.WEIGHT,),
    "unclear": (Measure.LENGTH, Measure.HEIGHT),
}


def likened_names(page: Page) -> set[int]:
    """Give the names of measures that only say that something is the same: "Wren is the same height"."""
    return {
        index
        for index, label in enumerate(page.labels)
        if label.first and page.marks[label.first - 1].has("same") and label.rule and label.rule.gives in _TOLD
    }


def see_likenesses(page: Page) -> None:
    """Note which dog is told by which other one, and what differs."""
    for at, dog in page.likenings.items():
        mark = page.marks[at]
        other = _other(page, at, dog)
        if other is not None and not any(one.dog == dog for one in page.likened):
            takes = _takes(page, at)
            page.likened.append(Likened(dog, other, not takes, mark.start, mark.end, takes=takes))
    for candidate in page.candidates:
        if candidate.note == "a difference" and candidate.dogs:
            _note_difference(page, candidate)


def _takes(page: Page, at: int) -> frozenset[Measure]:
    """Give the measures that are named as the same; empty: all of them are."""
    found: set[Measure] = set()
    for label in page.labels:
        if at < label.first <= at + 4 and label.rule and label.rule.gives in _TOLD:
            found.update(_TOLD[label.rule.gives])
    return frozenset(found)


def _other(page: Page, at: int, dog: int) -> int | None:
    """Give the dog to which another one is likened: the one named right behind, else the one told of last."""
    for mark in page.marks[at + 1 : at + 4]:
        if mark.kind != PHRASE:
            break
        word = page.raw(mark).removesuffix("'s").casefold()
        for number, slot in enumerate(page.dogs):
            if number != dog and slot.name and slot.name.casefold() == word:
                return number
    told = [
        number
        for candidate in page.candidates
        for number in candidate.dogs
        if number != dog and page.distance.place(candidate.number) < at
    ]
    others = [number for number in range(len(page.dogs)) if number != dog]
    return told[-1] if told else (others[-1] if others else None)


def _note_difference(page: Page, candidate: Candidate) -> None:
    dog = candidate.dogs[0]
    place = page.distance.place(candidate.number)
    compared = next((mark for mark in page.marks[place + 1 : place + 3] if mark.has("compared")), None)
    told = compared.name("different") if compared else None
    other = _other(page, place, dog)
    if compared is None or told is None or other is None:
        return
    likened = next((one for one in page.likened if one.dog == dog), None)
    if likened is None:
        likened = Likened(dog, other, False, compared.start, compared.end)
        page.likened.append(likened)
    quantity = page.quantities.found[candidate.number]
    weighs = quantity.dimension == Dimension.WEIGHT
    amount = (to_pounds if weighs else to_inches)((quantity.low + quantity.high) / 2, quantity.unit or "in")
    if told == "unclear":
        for measure in _TOLD[told]:
            likened.changes[measure] = (float("-inf"), quantity.start, compared.end)
        return
    for measure in _TOLD[told]:
        if weighs == (measure is Measure.WEIGHT):
            likened.changes[measure] = (-amount if compared.has("less") else amount, quantity.start, compared.end)
