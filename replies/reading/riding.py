"""Tells how dogs are to ride: in which posture, two in one carrier or each in its own, and within which outer size."""

from collections.abc import Iterator, Sequence

from replies.reading.clauses import Clause
from replies.reading.facts import SetAside
from replies.reading.lexicon import Lexicon
from replies.reading.marks import NUMBER, PHRASE, SENTENCE_ENDS, STOP, Mark
from replies.reading.page import Page
from replies.reading.unit_words import Dimension
from sizing.measures import Posture, SpaceLimit
from sizing.units import to_inches

_COUNTS = dict(enumerate(["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"], start=1))
_FEW = 5
"""Words of a part that does no more than answer."""
_LOOKED_AT = 14
"""So many marks on either side of three numbers are looked at."""
_LARGEST_IN = 26.0
"""A side of a limit without a unit that is larger is in centimetres: no operator lets so much in."""
_LEAST_IN, _MOST_IN = 4.0, 48.0


def see_riding(page: Page, clauses: Sequence[tuple[Clause, bool]]) -> None:
    """Note for each dog how it is to ride, as far as the message says so.

    clauses   each with whether it asks
    """
    riding = page.words.riding
    for clause, asks in clauses:
        texts = _texts(page, clause.marks)
        together = _together(page, texts)
        if together is not None:
            page.together = together
        if not asks and any(text in riding.ways or text in riding.alone for text in texts):
            for part in _parts(clause, riding.joints):
                _see_posture(page, part)
    space = next(_limits(page), None)
    if space is not None:
        for slot in page.dogs:
            slot.space = space


def _texts(page: Page, marks: Sequence[Mark]) -> list[str]:
    """Give the words of a clause, small numbers as words."""
    texts = [mark.text if mark.kind == PHRASE else _number(page, mark) for mark in marks]
    return [*texts, "\0"]


def _number(page: Page, mark: Mark) -> str:
    if mark.kind != NUMBER:
        return "\0"
    quantity = page.quantities.found[mark.quantity]
    return _COUNTS.get(int(quantity.low), "\0") if quantity.unit is None and quantity.low == quantity.high else "\0"


def _found(lexicon: Lexicon, texts: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Give the kind and the name of each phrase in a row of words."""
    for _, _, senses in lexicon.find_all(texts):
        yield from ((sense.kind, sense.name) for sense in senses.all)


def _together(page: Page, texts: Sequence[str]) -> bool | None:
    """Tell whether several dogs share a carrier."""
    kinds = [kind for kind, _ in _found(page.words.riding.others, texts) if kind in ("one", "each")]
    return kinds[-1] == "one" if kinds else None


def _parts(clause: Clause, joints: frozenset[str]) -> Iterator[Sequence[Mark]]:
    """Cut a clause at its commas and at "and": "12 long, Pip sits and Dot curls up"."""
    first = 0
    for at, mark in enumerate(clause.marks):
        if mark.kind == STOP or mark.text in joints:
            yield clause.marks[first:at]
            first = at + 1
    yield clause.marks[first:]


def _see_posture(page: Page, marks: Sequence[Mark]) -> None:
    """Note how a dog rides, where a part of a clause says so and gives no number."""
    riding, texts = page.words.riding, _texts(page, marks)
    if any(mark.kind == NUMBER for mark in marks) or any(
        kind == "not_told" for kind, _ in _found(riding.others, texts)
    ):
        return
    told = {name for _, name in _found(riding.ways, texts)}
    if not told and len(marks) <= _FEW and page.context.dogs:
        told = {name for _, name in _found(riding.alone, texts)}
    if len(told) == 1:
        posture = Posture(told.pop())
        for dog in _dogs(page, marks, texts):
            page.dogs[dog].posture = posture


def _dogs(page: Page, marks: Sequence[Mark], texts: Sequence[str]) -> Sequence[int]:
    """Give the dogs of which words speak: the only one, those they name, or all where they say "they"."""
    if len(page.dogs) < 2:
        return range(len(page.dogs))
    start, end = marks[0].start, marks[-1].end
    named = {name.name.casefold() for name in page.names if start <= page.marks[name.first].start < end}
    if named:
        return [at for at, slot in enumerate(page.dogs) if slot.name and slot.name.casefold() in named]
    return range(len(page.dogs)) if page.words.riding.all_dogs & set(texts) else ()


def _limits(page: Page) -> Iterator[SpaceLimit]:
    """Give the outer sizes that somebody else sets: "55 x 30 x 24 cm" on a train, "18 x 11 x 11 under the seat"."""
    for group in page.quantities.lists:
        candidates = [page.candidates[number] for number in group]
        if len(group) != 3 or any(one.aside is not SetAside.NOT_A_MEASURE for one in candidates):
            continue
        if _is_limit(page, group):
            limit = _limit(page, group)
            if limit is not None:
                yield limit


def _is_limit(page: Page, group: Sequence[int]) -> bool:
    first, last = page.distance.place(group[0]), page.distance.place(group[-1])
    start = max(0, first - _LOOKED_AT)
    start += max((at + 1 for at, mark in enumerate(page.marks[start:first]) if mark.text in SENTENCE_ENDS), default=0)
    end = min(len(page.marks), last + 1 + _LOOKED_AT)
    end = next((at for at in range(last + 1, end) if page.marks[at].text in SENTENCE_ENDS), end)
    words = [word for text in _texts(page, page.marks[start:end]) for word in text.split(" ")]
    kinds = {kind for kind, _ in _found(page.words.riding.others, words)}
    return "limit" in kinds and "own" not in kinds


def _limit(page: Page, group: Sequence[int]) -> SpaceLimit | None:
    """Put the three numbers into inches. None: they are no size that a carrier could be held against."""
    found = [page.quantities.found[number] for number in group]
    if any(one.dimension not in (None, Dimension.LENGTH) for one in found):
        return None
    told = next((one.unit for one in reversed(found) if one.unit is not None), None) or page.length_unit
    unit = told or ("cm" if max(one.high for one in found) > _LARGEST_IN else page.context.length_unit)
    sides = [to_inches(one.high, one.unit or unit) for one in found]
    if not _LEAST_IN <= min(sides) <= max(sides) <= _MOST_IN:
        return None
    return SpaceLimit(sides=(sides[0], sides[1], sides[2]))
