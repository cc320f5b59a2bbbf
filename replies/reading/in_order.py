"""Gives bare numbers to what was asked in the order of the questions, where only one way is possible."""

from collections.abc import Sequence
from itertools import combinations

from replies.reading.context import Asked
from replies.reading.facts import SetAside
from replies.reading.giving import give
from replies.reading.marks import NUMBER, PHRASE
from replies.reading.page import Candidate, Page
from replies.reading.proportions import misfit
from replies.reading.said_by import lies_within, may_be
from replies.reading.units import in_units

_MANY, _NEAR = 3, 1.45


def _other_put_off(page: Page, candidate: Candidate) -> bool:
    """Is the other thing that was asked put off: "19 cm, the other I must do when my son is here"."""
    place = page.distance.place(candidate.number)
    behind = page.marks[place + 1 : place + 10]
    if any(mark.kind == NUMBER for mark in behind):
        return False
    return any(mark.kind == PHRASE and (mark.name("order") == "other" or mark.has("other")) for mark in behind[:4])


def fill_in_order(page: Page, bare: Sequence[Candidate], asked: Sequence[Asked]) -> None:
    """Give numbers in the order in which they were asked for; where they are fewer, only if one way is possible."""
    if len(bare) > len(asked):
        newer = [candidate for candidate in bare if not candidate.older]
        bare = newer if len(newer) == len(asked) else bare
        bare = _once_each(page, bare) if len(bare) > len(asked) else bare
    if len(bare) == 1 and len(asked) == 2 and _other_put_off(page, bare[0]):
        asked = asked[:1]
    if len(asked) == 1 and _are_tries_of_one(page, bare, asked[0]):
        for candidate in bare:
            give(page, candidate, asked[0])
        return
    ways = _ways(page, bare, asked)
    if len(ways) > 1:
        ways = _possible(page, bare, ways)
    if len(bare) >= _MANY and ways and ways[0] == tuple(asked[: len(bare)]):
        ways = ways[:1]  # who answers so many things in a row leaves out the last ones
    if len(ways) == 1:
        for candidate, one in zip(bare, ways[0], strict=True):
            give(page, candidate, one)
    else:
        for candidate in bare:
            candidate.leave(SetAside.UNCLEAR, "it may be one of several things that were asked")


def _are_tries_of_one(page: Page, bare: Sequence[Candidate], asked: Asked) -> bool:
    """Read "I have 33 cm and my husband has 38": several values, near one another, for the one thing that was asked."""
    if not 1 < len(bare) <= _MANY or not all(may_be(page, candidate, str(asked.measure)) for candidate in bare):
        return False
    return all(lies_within(page, bare[0], candidate, _NEAR) for candidate in bare)


def _once_each(page: Page, bare: Sequence[Candidate]) -> list[Candidate]:
    """Leave out what only says a number again: "I measured 15 cm, so 15"."""
    said: dict[tuple[float, float], Candidate] = {}
    for candidate in bare:
        quantity = page.quantities.found[candidate.number]
        said.setdefault((quantity.low, quantity.high), candidate)
    return list(said.values())


def _ways(page: Page, bare: Sequence[Candidate], asked: Sequence[Asked]) -> list[tuple[Asked, ...]]:
    """Give every way to answer in order, no length being a weight or the other way about."""
    if len(bare) > len(asked):
        return []
    named = _named_without_number(page)
    if len(bare) < len(asked):
        left = [one for one in asked if str(one.measure) not in named]
        if len(left) == len(bare):
            asked = left
    if len(bare) <= 5 and len(asked) <= 10:
        return [way for way in combinations(asked, len(bare)) if _is_allowed(page, bare, way)]
    return [tuple(asked)] if len(bare) == len(asked) and _is_allowed(page, bare, tuple(asked)) else []


def _is_allowed(page: Page, bare: Sequence[Candidate], way: Sequence[Asked]) -> bool:
    return all(may_be(page, candidate, str(one.measure)) for candidate, one in zip(bare, way, strict=True))


def _named_without_number(page: Page) -> set[str]:
    """Give the measures that the message names without a number: "the throat I'll do tomorrow"."""
    used = {index for candidate in page.candidates for index in candidate.labels}
    return {
        label.rule.gives
        for index, label in enumerate(page.labels)
        if (index not in used or label.undone) and label.rule and not label.letter
    }


def _possible(page: Page, bare: Sequence[Candidate], ways: Sequence[tuple[Asked, ...]]) -> list[tuple[Asked, ...]]:
    """Keep the ways in which the numbers can be a dog's, together with what is known of it."""
    return [way for way in ways if _is_possible(page, bare, way)]


def _is_possible(page: Page, bare: Sequence[Candidate], way: Sequence[Asked]) -> bool:
    dog = way[0].dog
    if dog >= len(page.dogs):
        return True
    before = [candidate.measure for candidate in bare]
    for candidate, one in zip(bare, way, strict=True):
        candidate.measure = str(one.measure)
    mine = {candidate.number for candidate in bare}
    told = [
        one
        for one in page.candidates
        if one.aside is None and one.measure and (not one.dogs or dog in one.dogs or one.number in mine)
    ]
    numbers = in_units(page, dog, told)
    for candidate, measure in zip(bare, before, strict=True):
        candidate.measure = measure
    values = (
        {str(measure): amount.middle for measure, amount in page.context.dogs[dog].measures.items()}
        if dog < len(page.context.dogs)
        else {}
    )
    values |= {one.measure or "": sum(numbers[one.number].amount) / 2 for one in told if one.measure}
    values |= {
        str(one.measure): sum(numbers[candidate.number].amount) / 2 for candidate, one in zip(bare, way, strict=True)
    }
    return all(misfit(str(one.measure), values[str(one.measure)], values) == 0 for one in way)
