"""Reads rows of numbers beside rows of names: "L x B x H = 30 x 14 x 25", "back, shoulder and width are 13, 11 and 5".

Also a bare row of three joined by x: length x width x height, or with the width where the smallest number stands.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from itertools import pairwise

from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.page import Page
from replies.reading.run_together import words_beside
from replies.reading.shapes import Shape
from replies.reading.unit_words import Dimension

_ROW_SIGNS = frozenset((",", "/", "&", "+", "*", "-"))
_ITEM_SIGNS = frozenset((")", ".", ":", "(", ",", ";", "/"))
_PAIR, _FEW = 2, 3
_EITHER = {"largo": "length", "large": "width", "chest": "width"}
_LINE_SIGNS = frozenset((":", "-", "=", "(", ")"))
_NAMED_WITHIN = 4
"""So many marks hold the end of a line, a dog's name and a sign."""
_MOST_BETWEEN = 2.6
_WIDTH_AT_MOST = 0.62
"""A dog's width is at most this share of its height and length (common practice, no source)."""
_TRIPLE = ("length", "width", "height")
_MEASURES = frozenset(("length", "height", "width", "throat_height", "weight", "girth", "neck"))


def read_lists(page: Page, *, without: set[int]) -> tuple[set[int], set[int]]:
    """Give the numbers of a row the measures of a row of names beside it.

    without   numbers that are dealt with already
    Returns   the numbers and the names that are dealt with
    """
    numbers: set[int] = set()
    names: set[int] = set()
    found_rows: list[Sequence[int]] = []
    for whole in number_rows(page):
        if without & set(whole):
            continue
        row, found = _with_names(page, whole, names)
        if found is None and (words := words_beside(page, row)):
            numbers.update(row)
            names.update(_give_words(page, row, words))
            continue
        if found is None:
            short = _names_too_few_or_many(page, row)
            if short:
                for number in row:
                    page.candidates[number].leave(SetAside.UNCLEAR, "as many numbers as names would be clear")
                numbers.update(row)
                names.update(short)
            continue
        for number, label, measure in zip(row, found, _measures(page, found), strict=True):
            candidate = page.candidates[number]
            candidate.measure, candidate.labels, candidate.listed = measure, (label,), True
        numbers.update(row)
        names.update(found)
        found_rows.append(row)
    for like in found_rows[:_FEW]:
        _give_like(page, like, numbers)
    return numbers, names


def _give_like(page: Page, row: Sequence[int], numbers: set[int]) -> None:
    """Give rows of as many numbers the same order: "Bibi 27 / 31 / 5 and Coco 24 / 28 / 4 (height / back / weight)"."""
    units = [page.quantities.found[number].dimension for number in row]
    for other in number_rows(page):
        alike = len(other) == len(row) > _PAIR and numbers.isdisjoint(other)
        if not alike or [page.quantities.found[number].dimension for number in other] != units:
            continue
        place, end = page.distance.place(other[0]), page.distance.place(other[-1])
        if _touches(page, place, -1, PHRASE) or _touches(page, end, 1, PHRASE):
            continue
        for number, like in zip(other, row, strict=True):
            candidate, given = page.candidates[number], page.candidates[like]
            candidate.measure, candidate.labels, candidate.listed = given.measure, given.labels, True
        numbers.update(other)


def _give_words(page: Page, row: Sequence[int], words: Sequence[tuple[int, str]]) -> set[int]:
    """Give each number of a row the measure of its word; return the names that hold these words."""
    used: set[int] = set()
    for number, (at, measure) in zip(row, words, strict=True):
        labels = tuple(index for index, label in enumerate(page.labels) if label.first <= at <= label.last)
        candidate = page.candidates[number]
        candidate.measure, candidate.labels, candidate.listed = measure, labels, True
        used.update(labels)
    return used


def _with_names(page: Page, row: tuple[int, ...], taken: set[int]) -> tuple[tuple[int, ...], tuple[int, ...] | None]:
    """Give a row and its names; where it ends in a weight that has a unit, also the row without it."""
    found = _names_beside(page, row, taken)
    if found is not None or len(row) < 3 or page.quantities.found[row[-1]].dimension != Dimension.WEIGHT:
        return row, found
    return row[:-1], _names_beside(page, row[:-1], taken)


def _names_too_few_or_many(page: Page, row: Sequence[int]) -> set[int]:
    """Give the row of names that ends right before a row of numbers, "length, height, width: 13, 11"."""
    first = page.distance.place(row[0])
    last = bisect_left(page.labels, first, key=lambda label: label.last) - 1
    if last < 1 or page.distance.before(page.labels[last].last, row[0]) > _MOST_BETWEEN:
        return set()
    if any(
        mark.kind != STOP and not mark.has("list", "connector", "link")
        for mark in page.marks[page.labels[last].last + 1 : first]
    ):
        return set()
    names = [last]
    while names[-1] and _are_joined(page, names[-1] - 1):
        names.append(names[-1] - 1)
    gives = {rule.gives for index in names if (rule := page.labels[index].rule) is not None}
    if len(names) < 2 or len(gives) < len(names) or not gives <= _MEASURES or "weight" in gives:
        return set()
    weighed = any(page.quantities.found[number].dimension == Dimension.WEIGHT for number in row)
    return set() if weighed or _touches(page, page.labels[names[-1]].first, -1, NUMBER) else set(names)


def _goes_on(page: Page, names: Sequence[int]) -> bool:
    """Is another measure named in the same row, without a number of its own, so that these are not all of it."""
    own = {rule.gives for index in names if (rule := page.labels[index].rule) is not None}
    first, last = names[0] - 1, names[-1] + 1
    if first >= 0 and _is_other(page, first, own) and _are_joined(page, first):
        return not _touches(page, page.labels[first].first, -1, NUMBER)
    if last < len(page.labels) and _is_other(page, last, own) and _are_joined(page, last - 1):
        return not _touches(page, page.labels[last].last, 1, NUMBER)
    return False


def _is_other(page: Page, index: int, own: AbstractSet[str]) -> bool:
    rule = page.labels[index].rule
    return rule is not None and rule.gives in _MEASURES - own


def _are_joined(page: Page, index: int) -> bool:
    between = page.marks[page.labels[index].last + 1 : page.labels[index + 1].first]
    return 0 < len(between) <= 3 and all(_joins(mark) for mark in between)


def number_rows(page: Page) -> list[tuple[int, ...]]:
    """Give the runs of numbers with nothing between but x, commas, slashes and "and"."""
    rows = [tuple(row) for row in page.quantities.lists]
    listed = {number for row in rows for number in row}
    row: list[int] = []
    for candidate in page.candidates:
        if page.quantities.found[candidate.number].shape == Shape.ENUMERATOR:
            continue
        if candidate.aside is not None or candidate.number in listed:
            row = _end(rows, row)
            continue
        if row and not _only_signs(page, page.distance.place(row[-1]) + 1, page.distance.place(candidate.number)):
            row = _end(rows, row)
        row.append(candidate.number)
    _end(rows, row)
    return [row for row in rows if all(page.candidates[number].aside is None for number in row)]


def _end(rows: list[tuple[int, ...]], row: list[int]) -> list[int]:
    if len(row) > 1:
        rows.append(tuple(row))
    return []


def _only_signs(page: Page, start: int, end: int) -> bool:
    """Stand nothing but signs of a row between two numbers, or the number of the next item, "2)"."""
    between = page.marks[start:end]
    items = [at for at, mark in enumerate(between) if mark.kind == NUMBER]
    if items:
        signs = [mark for mark in between if mark.kind != NUMBER]
        return len(items) == 1 and all(mark.kind == STOP and mark.text in _ITEM_SIGNS for mark in signs)
    return len(between) <= 2 and all(
        mark.text in _ROW_SIGNS if mark.kind == STOP else mark.has("list") for mark in between
    )


def _names_beside(page: Page, row: Sequence[int], taken: set[int]) -> tuple[int, ...] | None:
    """Give the row of as many names right before or behind a row of numbers."""
    first, last = page.distance.place(row[0]), page.distance.place(row[-1])
    behind = bisect_left(page.labels, first, key=lambda label: label.last)
    after = bisect_right(page.labels, last, key=lambda label: label.first)
    for span in (range(max(0, behind - len(row)), behind), range(after, after + len(row))):
        names = tuple(index for index in span if index < len(page.labels))
        if len(names) == len(row) and _goes_on(page, names):
            continue
        if len(names) == len(row) and not taken & set(names) and _is_row(page, names, row):
            return names
    return None


def _is_row(page: Page, names: Sequence[int], row: Sequence[int]) -> bool:
    labels = [page.labels[index] for index in names]
    gives = _measures(page, names)
    if len(set(gives)) != len(gives) or not set(gives) <= _MEASURES:
        return False
    for one, other in pairwise(labels):
        between = page.marks[one.last + 1 : other.first]
        if len(between) > 3 or not all(_joins(mark) for mark in between):
            return False
    for number, measure in zip(row, gives, strict=True):
        dimension = page.quantities.found[number].dimension
        if dimension is not None and (dimension == Dimension.WEIGHT) != (measure == "weight"):
            return False
    start, end = page.distance.place(row[0]), page.distance.place(row[-1])
    if labels[-1].last < start:
        near = (
            page.distance.before(labels[-1].last, row[0]) <= _MOST_BETWEEN
            or _in_that_order(page, labels[-1].last, start)
            or _opens_next_line(page.marks[labels[-1].last + 1 : start])
        )
        return near and not _touches(page, labels[0].first, -1, NUMBER) and not _touches(page, end, 1, PHRASE)
    near = (
        page.distance.after(row[-1], labels[0].first) <= _MOST_BETWEEN
        or _in_that_order(page, end, labels[0].first)
        or [mark.text for mark in page.marks[end + 1 : labels[0].first]] == ["="]
    )
    return near and not _touches(page, labels[-1].last, 1, NUMBER) and not _touches(page, start, -1, PHRASE)


def _opens_next_line(between: Sequence[Mark]) -> bool:
    """Does a row stand on the line below its names, alone or behind the name of a dog: "back, width\\nNed: 13, 5"."""
    lines = [at for at, mark in enumerate(between) if mark.kind == STOP and mark.text == "\n"]
    if len(lines) != 1 or len(between) - lines[0] > _NAMED_WITHIN:
        return False
    ahead, behind = between[: lines[0]], between[lines[0] + 1 :]
    return all(mark.text in _LINE_SIGNS for mark in ahead) and all(
        mark.text in _LINE_SIGNS or (mark.kind == PHRASE and not mark.has("atom", "thing", "product"))
        for mark in behind
    )


def _measures(page: Page, names: Sequence[int]) -> list[str | None]:
    """Give what a row of names gives; a word that fits two measures gives the one that the others leave open."""
    gives: list[str | None] = [rule.gives if (rule := page.labels[index].rule) else None for index in names]
    for word, measure in _EITHER.items():
        if word in gives and measure not in gives and "height" in gives:
            gives[gives.index(word)] = measure
    return gives


def _in_that_order(page: Page, start: int, end: int) -> bool:
    """Do words such as "in the order" stand between names and numbers."""
    return end - start <= 12 and any(mark.kind == PHRASE and mark.has("respectively") for mark in page.marks[start:end])


def _touches(page: Page, at: int, step: int, kind: int) -> bool:
    """Does a number, or a name of a measure, stand right beside a mark, with nothing but small words between."""
    place = at + step
    while 0 <= place < len(page.marks) and abs(place - at) <= 4:
        mark = page.marks[place]
        if mark.kind == NUMBER:
            weighs = page.quantities.found[mark.quantity].dimension is Dimension.WEIGHT  # its own unit names it
            return kind == NUMBER and not weighs
        if mark.kind == PHRASE and mark.has("atom", "letter"):
            return kind == PHRASE
        if mark.text != "~" and (mark.kind == STOP or not mark.has("connector", "filler")):
            return False
        place += step
    return False


def _joins(mark: Mark) -> bool:
    if mark.kind == STOP:
        return mark.text in _ROW_SIGNS or mark.text in ("(", ")", "|", ".")
    return mark.kind == PHRASE and (mark.has("list", "connector", "respectively", "order"))


def _order(page: Page, row: Sequence[int]) -> tuple[str, ...]:
    """Give the measures of a bare row of three: a clearly smallest number is the width, then length and height."""
    values = [page.quantities.found[number].high for number in row]
    least = values.index(min(values))
    others = [value for at, value in enumerate(values) if at != least]
    if min(others) * _WIDTH_AT_MOST < values[least]:
        return _TRIPLE
    rest = iter(("length", "height"))
    return tuple("width" if at == least else next(rest) for at in range(len(row)))


def read_triples(page: Page) -> None:
    """Read a bare row of three joined by x; other bare rows say nothing."""
    for row in page.quantities.lists:
        candidates = [page.candidates[number] for number in row]
        if any(candidate.aside is not None or candidate.measure is not None for candidate in candidates):
            continue
        if len(row) == len(_TRIPLE):
            for candidate, measure in zip(candidates, _order(page, row), strict=True):
                candidate.measure, candidate.bare = measure, True
        else:
            for candidate in candidates:
                candidate.leave(SetAside.UNCLEAR, "a row of numbers whose order is not told")
