"""Tells which of the dogs known is meant, or that none is, by what is known of each: sizes, gaps, breeds."""

from collections.abc import Collection, Mapping, Sequence

from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.page import Candidate, Named, Page
from replies.reading.proportions import fits
from replies.reading.small_words import Small
from replies.reading.told_before import unit_before
from replies.reading.unit_words import Dimension
from sizing.breeds import spoken_breeds
from sizing.units import to_inches, to_pounds

_FAR_AHEAD = 40
"""So many marks behind the words for a dog what is told may still be of it."""
_APPOSITION = 5
_OTHER_FROM = 0.12
"""A value that differs by more than this share from the one known is no second measuring of the same dog."""
_SAME_TO = 0.04
_SIZES_DIFFER = 1.03
_OTHER_UNIT = (to_inches(1.0, "cm"), 1 / to_inches(1.0, "cm"))
_CORRECTED_WITHIN = 0.2
_TOLD_BY = {
    Small.OF_SIZE: ("weight", "height", "length"),
    Small.OF_WEIGHT: ("weight",),
    Small.OF_HEIGHT: ("height",),
    Small.OF_LENGTH: ("length",),
}
"""What tells the big one from the small one: the first that is known of each."""

Values = Sequence[Mapping[str, float]]
"""What is known of each dog: measure -> inches or pounds."""


def amount_of(page: Page, candidate: Candidate, dog: int | None = None) -> float:
    """Give a number in inches or pounds; without a unit, in the one that the customer last used of the dog."""
    quantity = page.quantities.found[candidate.number]
    index = page.dogs[dog].known if dog is not None else None
    known = page.context.dogs[index] if index is not None else None
    weighs = quantity.dimension == Dimension.WEIGHT or (quantity.dimension is None and candidate.measure == "weight")
    unit = quantity.unit or unit_before(page, known, weighs=weighs)
    return (to_pounds if weighs else to_inches)((quantity.low + quantity.high) / 2, unit)


def values_known(page: Page, dog: int) -> dict[str, float]:
    """Give what was known of a dog before the message, in inches and pounds."""
    index = page.dogs[dog].known
    known = page.context.dogs[index].measures if index is not None else {}
    return {str(measure): amount.middle for measure, amount in known.items()}


def numbers_ahead(page: Page, at: int, names: Mapping[int, Named]) -> list[Candidate]:
    """Give the measures told behind a mark, up to the next name of a dog."""
    found: list[Candidate] = []
    for place in range(at + 1, min(at + _FAR_AHEAD, len(page.marks))):
        mark = page.marks[place]
        if place in names or (mark.kind == PHRASE and mark.has("other", "owner")):
            break
        if mark.kind == NUMBER:
            candidate = page.candidates[mark.quantity]
            if candidate.aside is None and candidate.measure is not None:
                found.append(candidate)
    return found


def is_of_another(page: Page, dog: int, told: Sequence[Candidate], *, least: int = 2) -> bool:
    """Do values differ so much from what is known of a dog that they are another one's.

    least   so many of its measures must be told anew with other values, and fewer with the same
    """
    known = values_known(page, dog)
    anew = {one.measure: amount_of(page, one, dog) for one in told if one.measure in known}
    pairs = [(new, known[measure]) for measure, new in anew.items() if measure is not None]
    if all(any(_lies_near(new * factor, old, _OTHER_FROM) for factor in _OTHER_UNIT) for new, old in pairs):
        return False  # the same values in the other unit, or none
    other = sum(not _lies_near(new, old, _OTHER_FROM) for new, old in pairs)
    same = sum(_lies_near(new, old, _SAME_TO) for new, old in pairs)
    return other >= least and other > same


def _lies_near(new: float, old: float, share: float) -> bool:
    return abs(new - old) <= share * old


def breeds_of(mark: Mark) -> tuple[str, ...]:
    """Give the breeds that a phrase names."""
    return spoken_breeds().get(mark.name("breed") or "", ()) if mark.kind == PHRASE else ()


def breeds_behind(page: Page, at: int) -> tuple[str, ...]:
    """Give the breed told right behind a name: "Gunther the boxer cross", "Otto (a pug)"."""
    for mark in page.marks[at + 1 : at + _APPOSITION]:
        if mark.kind == NUMBER or (mark.kind == STOP and mark.text not in (",", "(", "-")):
            break
        if found := breeds_of(mark):
            return found
    return ()


def differs_in_breed(page: Page, dog: int, breeds: Sequence[str]) -> bool:
    """Are a dog's breeds known, and these others."""
    return bool(breeds and page.dogs[dog].breeds) and not set(breeds) & set(page.dogs[dog].breeds)


def dog_of_breed(page: Page, breeds: Collection[str]) -> int | None:
    """Give the only dog of a breed; None: none is, or several are."""
    found = [dog for dog, slot in enumerate(page.dogs) if set(slot.breeds) & set(breeds)]
    return found[0] if len(found) == 1 else None


def dog_of_size(page: Page, text: str, values: Values) -> int | None:
    """Give the dog that is "the big one", "the lighter one"; None: it can't be told."""
    small = page.words.small
    for by, keys in _TOLD_BY.items():
        if small.holds_one_of(text, by):
            return _extreme(values, keys, most=not small.holds_one_of(text, Small.LESSER))
    return None


def _extreme(values: Values, keys: Sequence[str], *, most: bool) -> int | None:
    key = next((key for key in keys if all(key in one for one in values)), None)
    if key is None or len(values) < 2:
        return None
    order = sorted(range(len(values)), key=lambda dog: values[dog][key], reverse=most)
    first, second = values[order[0]][key], values[order[1]][key]
    return order[0] if max(first, second) > _SIZES_DIFFER * min(first, second) else None


def dog_with_gap(page: Page, candidate: Candidate, values: Values) -> int | None:
    """Give the only known dog of which this measure is missing, or was asked, and whose it can be.

    Where it is missing of none, the only one whose value it may correct.
    """
    measure = candidate.measure or ""
    dogs = [dog for dog, slot in enumerate(page.dogs) if slot.known is not None]
    asked = {one.dog for one in page.context.asked if str(one.measure) == measure}
    pool = [dog for dog in dogs if dog in asked] or [dog for dog in dogs if measure not in values[dog]]
    if not pool:
        pool = [
            dog for dog in dogs if _lies_near(amount_of(page, candidate, dog), values[dog][measure], _CORRECTED_WITHIN)
        ]
    elif len(pool) > 1:
        pool = [dog for dog in pool if _may_be_of(page, candidate, dog, values[dog])]
    return pool[0] if len(pool) == 1 else None


def _may_be_of(page: Page, candidate: Candidate, dog: int, known: Mapping[str, float]) -> bool:
    """Is a value possible beside what is known of a dog."""
    measure = candidate.measure or ""
    return fits(measure, amount_of(page, candidate, dog), known)
