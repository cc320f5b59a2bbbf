"""Sees what a customer works out before our eyes: "11 to the collar, plus 1.5 = 12.5", "42 less the table 29, so 13".

One idea: where a number is the sum or the difference of numbers told right before it, and the words say that it comes
of them, it is the measure, and they are only its parts. The arithmetic must hold, so nothing is guessed.
"""

from collections.abc import Sequence
from itertools import combinations

from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.page import Candidate, Page
from replies.reading.shapes import Shape

_MOST_BACK = 24
"""The parts stand at most so many marks before the result."""
_MOST_PARTS = 4
_CLOSE = 0.004
"""A result may be off by this share: people round halves, not more."""
_NOTE = "a part of what the customer works out"


def see_sums(page: Page) -> None:
    """Set the parts of sums and differences aside, and give the result what they measure."""
    if not page.index.holds("result", "total") and "=" not in page.tidied.folded:
        return
    for candidate in page.candidates:
        if candidate.aside is not None or not _is_result(page, candidate):
            continue
        parts = _parts(page, candidate) or _grown(page, candidate)
        if parts:
            _settle(page, candidate, parts)


def _is_result(page: Page, candidate: Candidate) -> bool:
    """Does "=", "makes", "so" stand before the number in its clause, or "in total" right behind it."""
    place = page.distance.place(candidate.number)
    for mark in reversed(page.marks[max(0, place - 6) : place]):
        if mark.kind == NUMBER:
            break
        if mark.text == "=" or (mark.kind == PHRASE and mark.has("result")):
            return True
    return any(mark.kind == PHRASE and mark.has("total") for mark in page.marks[place + 1 : place + 3])


def _parts(page: Page, result: Candidate) -> tuple[Candidate, ...]:
    """Give the two or three amounts right before the result that add up to it, or whose difference it is."""
    near: list[Candidate] = []
    place = page.distance.place(result.number)
    for earlier in reversed(page.candidates[: result.number]):
        if place - page.distance.place(earlier.number) > _MOST_BACK or len(near) == _MOST_PARTS:
            break
        if _may_be_part(page, earlier, result):
            near.append(earlier)
    for size in (2, 3):
        for parts in combinations(near, size):
            if _adds_up(page, parts, result) and _is_of_them(parts, result):
                return parts
    return ()


def _grown(page: Page, result: Candidate) -> tuple[Candidate, ...]:
    """Give the amount to which something is added that is no number: "11 plus another inch and a half = 12.5"."""
    if not result.number:
        return ()
    part = page.candidates[result.number - 1]
    between = page.marks[page.distance.place(part.number) + 1 : page.distance.place(result.number)]
    adds = any(mark.text == "+" or (mark.kind == PHRASE and mark.has("adding")) for mark in between)
    if not adds or not any(mark.text == "=" for mark in between) or not _may_be_part(page, part, result):
        return ()
    grows = page.quantities.found[part.number].low < page.quantities.found[result.number].low
    return (part,) if grows and _is_of_them((part,), result) else ()


def _may_be_part(page: Page, part: Candidate, result: Candidate) -> bool:
    one, whole = page.quantities.found[part.number], page.quantities.found[result.number]
    same = one.dimension is None or whole.dimension is None or one.dimension == whole.dimension
    apart = one.unit is not None and whole.unit is not None and one.unit != whole.unit
    return one.shape == Shape.AMOUNT and not one.restates and one.low == one.high and same and not apart


def _adds_up(page: Page, parts: Sequence[Candidate], result: Candidate) -> bool:
    values = [page.quantities.found[part.number].low for part in parts]
    whole = page.quantities.found[result.number].low
    sums = [sum(values)] + ([abs(values[0] - values[1])] if len(values) == 2 else [])
    return whole > 0 and any(abs(one - whole) <= _CLOSE * whole for one in sums)


def _is_of_them(parts: Sequence[Candidate], result: Candidate) -> bool:
    """Is the result of what one of its parts is of, or of nothing yet."""
    measures = {part.measure for part in parts if part.aside is None}
    return result.measure is None or result.measure in measures or not measures - {None}


def _settle(page: Page, result: Candidate, parts: Sequence[Candidate]) -> None:
    measures = {part.measure for part in parts if part.aside is None and part.measure is not None}
    if result.measure is None:
        result.measure = measures.pop() if len(measures) == 1 else _named_between(page, parts, result)
    result.older = False
    for part in parts:
        part.leave(SetAside.NOT_A_MEASURE, _NOTE)
        part.beside = "part"


def _named_between(page: Page, parts: Sequence[Candidate], result: Candidate) -> str | None:
    """Give the measure that the names beside the parts make together: "there to the tail 13, add 1.5 to the collar"."""
    last = page.distance.place(result.number)
    first = min(page.distance.place(part.number) for part in parts)
    while first and page.marks[first - 1].kind == PHRASE and not page.marks[first - 1].has("list"):
        first -= 1
    atoms = frozenset().union(*(label.atoms for label in page.labels if first <= label.first < last))
    if any(mark.kind == STOP and mark.text == "\n\n" for mark in page.marks[first:last]):
        return None
    rule = page.words.composer.compose(atoms)
    return rule.gives if rule is not None and rule.gives not in ("none", "chest", "largo", "large") else None
