"""Tells how old dogs are: "14 week old pup", "he's 5 months now". A young dog's measures are not final."""

import re
from collections.abc import Iterable

from replies.reading.age_words import MONTHS
from replies.reading.page import Candidate, Page
from replies.reading.quantity import Quantity
from replies.reading.shapes import Shape

_OLDEST_MONTHS = 360
"""Beyond this it is no dog's age."""
_REACH = 160
"""So many characters on either side are looked at."""
_SENTENCE = re.compile(r"[.!?;|](?=\s|$)|\n")


def see_ages(page: Page) -> None:
    """Note for each dog how old it is, as far as the message says so."""
    for candidate in page.candidates:
        quantity = page.quantities.found[candidate.number]
        if quantity.shape is Shape.DURATION:
            months = _months(page, quantity)
            if months is not None:
                for dog in _dogs(page, candidate):
                    page.dogs[dog].age_months = months


def _months(page: Page, quantity: Quantity) -> float | None:
    """Give an age in months; None: the span of time is no age."""
    words, text = page.words.ages, page.tidied.folded
    unit = re.sub(r"^.*[\d\s/.,-]", "", text[quantity.start : quantity.end])
    before, behind = _sentence(text, quantity)
    months = (quantity.low + quantity.high) / 2 * words.units.get(unit, 0.0)
    if not 0 < months <= _OLDEST_MONTHS:
        return None
    if words.behind.match(behind):
        return months
    if words.other_before.search(before) or words.other_behind.match(behind):
        return None
    young = months < MONTHS["years"] and (words.young.search(before) or words.young.search(behind))
    return months if young or words.before.search(before) else None


def _sentence(text: str, quantity: Quantity) -> tuple[str, str]:
    """Give what stands before and behind in the same sentence."""
    before = text[max(0, quantity.start - _REACH) : quantity.start]
    behind = text[quantity.end : quantity.end + _REACH]
    ends = [match.end() for match in _SENTENCE.finditer(before)]
    end = _SENTENCE.search(behind)
    return before[ends[-1] :] if ends else before, behind[: end.start()] if end else behind


def _dogs(page: Page, candidate: Candidate) -> Iterable[int]:
    """Give the dog whose number stands nearest, behind it sooner than before it; all of them where none has one."""
    carried = [number for number, slot in enumerate(page.dogs) if slot.carried]
    if len(carried) < 2:
        return carried
    place = page.distance.place(candidate.number)
    named = [name for name in page.names if abs(name.last - place) <= 2 and name.last < place]
    if named:
        called = named[-1].name.casefold()
        return [number for number in carried if (page.dogs[number].name or "").casefold() == called]
    told = [one for one in page.candidates if one.aside is None and one.dogs]
    if not told:
        return carried
    nearest = min(told, key=lambda one: abs(page.distance.place(one.number) - place - 0.5))
    return [number for number in nearest.dogs if number in carried]
