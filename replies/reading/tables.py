"""Reads tables: names of measures along one side, dogs along the other, cells parted by tabs or upright lines."""

import re
from bisect import bisect_left
from dataclasses import dataclass, replace

from replies.reading.facts import SetAside
from replies.reading.labels import Label
from replies.reading.marks import Mark
from replies.reading.page import Page, Slot
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.unit_words import Unit

_RULE = re.compile(r"[\s|:+=-]*")
_MOST_DOGS = 60
_LEAST = (("|", 4), (",", 6), (";", 4), ("  ", 6))
"""A text with fewer of each sign, and no tab, holds no table."""
_ROWS = {
    ",": re.compile(r"[\w .()]+,[\w .()]+(?:,[\w .()]*){2,}"),
    ";": re.compile(r"[^;:?!]+;[^;:?!]+(?:;[^;:?!]*)+"),
}
"""A row of at least four cells parted by commas, or three by semicolons, without the signs of sentences."""
_PARTED = re.compile(r" *[^\s|,;]+(?: [^\s|,;]+){0,2}(?: {2,}[^\s|,;]+(?: [^\s|,;]+)?)+ *")
"""A row of at least two cells parted by wide gaps, without other signs."""
_PART = re.compile(r"\S+(?: \S+)*")
_INDENT = 2
"""A row of cells parted by wide gaps that begins with so many blanks has an empty first cell."""
_MEASURES = frozenset(
    ("length", "height", "width", "throat_height", "weight", "girth", "neck", "chest", "largo", "large")
)


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of a table: its cells as (start, end)."""

    cells: tuple[tuple[int, int], ...]


def read_tables(page: Page) -> tuple[set[int], set[int]]:
    """Give the numbers of tables their measures and dogs.

    Returns   the numbers and the names of measures that are dealt with
    """
    numbers: set[int] = set()
    names: set[int] = set()
    text = page.tidied.text
    if not page.labels and not page.context.asked:
        return numbers, names
    if "\t" not in text and all(text.count(sign) < least for sign, least in _LEAST):
        return numbers, names
    for table in _tables(text):
        _read(page, table, numbers, names)
    return numbers, names


def _tables(text: str) -> list[list[_Row]]:
    """Give the runs of two and more lines that have at least two cells each."""
    tables: list[list[_Row]] = []
    rows: list[_Row] = []
    start = 0
    for line in text.split("\n"):
        end = start + len(line)
        if _RULE.fullmatch(line) and line.strip():
            start = end + 1
            continue
        cells = _cells(line, start)
        if len(cells) > 1:
            rows.append(_Row(cells))
        else:
            tables.append(rows)
            rows = []
        start = end + 1
    tables.append(rows)
    return [table for table in tables if len(table) > 1]


def _with_corner(page: Page, rows: list[_Row]) -> list[_Row]:
    """Give the head of a table its empty first cell, where nobody wrote one: a cell less than in all other rows."""
    head = rows[0].cells
    if len(rows) < 3 or any(len(row.cells) != len(head) + 1 for row in rows[1:]):
        return rows
    labelled = [_label_in(page, cell) is not None for cell in head]
    numbered = any(_number_in(page, row.cells[0]) is not None for row in rows[1:])
    if numbered or (any(labelled) and not all(labelled)):
        return rows
    return [_Row(((head[0][0], head[0][0]), *head)), *rows[1:]]


def _cells(line: str, offset: int) -> tuple[tuple[int, int], ...]:
    if _PARTED.fullmatch(line):
        parted = tuple((offset + part.start(), offset + part.end()) for part in _PART.finditer(line))
        return ((offset, offset), *parted) if line[:_INDENT].isspace() else parted
    sign = next((one for one in ("\t", "|", ";", ",") if one in line), "|")
    if sign not in line or (sign in _ROWS and not _ROWS[sign].fullmatch(line)):
        return ()
    cells: list[tuple[int, int]] = []
    start = 0
    for part in line.split(sign):
        cells.append((offset + start, offset + start + len(part)))
        start += len(part) + 1
    if sign == "|" and not line[: line.find("|")].strip():
        cells = cells[1:]
    if sign == "|" and cells and not line[cells[-1][0] - offset :].strip():
        cells = cells[:-1]
    return tuple(cells)


def _read(page: Page, rows: list[_Row], numbers: set[int], names: set[int]) -> None:
    rows = _with_corner(page, rows)
    if _is_of_sizes(page, rows):
        for row in rows:
            for cell in row.cells:
                number = _number_in(page, cell)
                if number is not None:
                    page.candidates[number].leave(SetAside.NOT_A_MEASURE, page.words.notes["object"])
        return
    head = [_label_in(page, cell) for cell in rows[0].cells]
    side = [_label_in(page, row.cells[0]) for row in rows]
    if sum(label is not None for label in head) >= 2:
        for row in rows[1:]:
            dog = _dog_in(page, row, head)
            for at, cell in enumerate(row.cells[: len(head)]):
                _give(page, cell, head[at], dog, numbers, names)
    elif sum(label is not None for label in side) >= 2 and max(len(row.cells) for row in rows) > 2:
        _read_columns(page, rows, side, numbers, names)


def _read_columns(page: Page, rows: list[_Row], side: list[int | None], numbers: set[int], names: set[int]) -> None:
    """Read a table with the names of measures down its side, a dog or a thing in each column."""
    headed = side[0] is None
    units = [_unit_in(page, cell) for cell in rows[0].cells] if headed else []
    if sum(unit is not None for unit in units) > 1:
        _read_units(page, rows[1:], side[1:], units, numbers, names)
        return
    things = [headed and _is_thing(page, cell) for cell in rows[0].cells]
    dogs = [_named(page, cell) if headed and not things[at] else None for at, cell in enumerate(rows[0].cells)]
    for row, label in zip(rows, side, strict=True):
        for at, cell in enumerate(row.cells[1:], start=1):
            if at < len(dogs) and things[at]:
                _leave(page, cell, page.words.notes["object"], numbers)
            else:
                _give(page, cell, label, dogs[at] if at < len(dogs) else None, numbers, names)


def _read_units(
    page: Page,
    rows: list[_Row],
    side: list[int | None],
    units: list[Unit | None],
    numbers: set[int],
    names: set[int],
) -> None:
    """Read a table that tells each measure in several units, a column each: the first counts."""
    first = next(at for at, unit in enumerate(units) if unit is not None)
    for row, label in zip(rows, side, strict=True):
        for at, cell in enumerate(row.cells[: len(units)]):
            if at == first:
                _set_unit(page, cell, units[at])
                _give(page, cell, label, None, numbers, names)
            elif units[at] is not None:
                _leave(page, cell, "said once more in another unit", numbers)


def _unit_in(page: Page, cell: tuple[int, int]) -> Unit | None:
    """Give the unit that is all that a cell holds."""
    return page.words.amounts.units.by_word.get(page.tidied.folded[slice(*cell)].strip(" *_.()"))


def _set_unit(page: Page, cell: tuple[int, int], unit: Unit | None) -> None:
    number = _number_in(page, cell)
    quantity = page.quantities.found[number] if number is not None else None
    if number is None or quantity is None or unit is None or quantity.unit is not None:
        return
    found = list(page.quantities.found)
    found[number] = replace(quantity, unit=unit.name, dimension=unit.dimension)
    page.quantities = replace(page.quantities, found=tuple(found))


def _is_thing(page: Page, cell: tuple[int, int]) -> bool:
    """Does a thing or a time before head a column: "old bag", "last year"."""
    return any(
        mark.has("thing", "product") or mark.among(Small.EARLIER, Small.WAS_BEFORE) for mark in _marks_in(page, cell)
    )


def _says_only_dog(page: Page, cell: tuple[int, int]) -> bool:
    marks = _marks_in(page, cell)
    return len(marks) == 1 and marks[0].has("dog")


def _marks_in(page: Page, cell: tuple[int, int]) -> list[Mark]:
    first = bisect_left(page.marks, cell[0], key=lambda mark: mark.start)
    last = bisect_left(page.marks, cell[1], key=lambda mark: mark.start)
    return page.marks[first:last]


def _leave(page: Page, cell: tuple[int, int], note: str, numbers: set[int]) -> None:
    number = _number_in(page, cell)
    if number is not None:
        page.candidates[number].leave(SetAside.NOT_A_MEASURE, note)
        numbers.add(number)


def _is_of_sizes(page: Page, rows: list[_Row]) -> bool:
    """Is it the shop's own table: a column of sizes, or of nothing but 1, 2, 3."""
    small = page.words.small.lists
    corner = page.tidied.folded[slice(*rows[0].cells[0])].strip(" *_.")
    if corner in small[Small.SIZE_HEADS]:
        return True
    firsts = [page.tidied.folded[slice(*row.cells[0])].strip(" *_.") for row in rows[1:]]
    return len(firsts) > 1 and all(
        first.removeprefix("no").strip(" .").isdigit() or first in small[Small.SIZE_LETTERS] for first in firsts
    )


def _label_in(page: Page, cell: tuple[int, int]) -> int | None:
    """Give the name of a measure in a cell that holds nothing else; None: it holds none, or a number."""
    first = bisect_left(page.labels, cell[0], key=lambda label: page.marks[label.first].start)
    inside: list[int] = []
    while first < len(page.labels) and page.marks[page.labels[first].last].end <= cell[1]:
        inside.append(first)
        first += 1
    if len(inside) != 1 or _number_in(page, cell) is not None:
        return None
    rule = page.labels[inside[0]].rule
    return inside[0] if rule is not None and rule.gives in _MEASURES else None


def _number_in(page: Page, cell: tuple[int, int]) -> int | None:
    quantities = page.quantities.found
    first = bisect_left(quantities, cell[0], key=lambda quantity: quantity.start)
    found: list[int] = []
    while first < len(quantities) and quantities[first].start < cell[1]:
        if quantities[first].shape in (Shape.AMOUNT, Shape.ENUMERATOR):
            found.append(first)
        first += 1
    return found[0] if len(found) == 1 else None


def _dog_in(page: Page, row: _Row, head: list[int | None]) -> int | None:
    """Give the dog whose name stands in a cell under no measure; None: none does, and it is the only one."""
    for at, cell in enumerate(row.cells[: len(head)]):
        if head[at] is None and _number_in(page, cell) is None:
            return _named(page, cell)
    return None


def _named(page: Page, cell: tuple[int, int]) -> int | None:
    name = page.tidied.text[cell[0] : cell[1]].strip(" *_().")
    if not name or len(name) > 30 or any(letter.isdigit() for letter in name) or _says_only_dog(page, cell):
        return None
    for number, slot in enumerate(page.dogs[:_MOST_DOGS]):
        if slot.name and slot.name.casefold() == name.casefold():
            return number
    if len(page.dogs) >= _MOST_DOGS:
        return None
    page.dogs.append(Slot(name=name))
    return len(page.dogs) - 1


def _give(
    page: Page, cell: tuple[int, int], label: int | None, dog: int | None, numbers: set[int], names: set[int]
) -> None:
    number = _number_in(page, cell)
    if label is None or number is None:
        return
    if dog is None:
        if not page.dogs:
            page.dogs.append(Slot())
        dog = 0
    found: Label = page.labels[label]
    candidate = page.candidates[number]
    candidate.measure = found.rule.gives if found.rule else None
    candidate.labels, candidate.dogs, candidate.listed = (label,), (dog,), True
    candidate.aside = None
    numbers.add(number)
    names.add(label)
