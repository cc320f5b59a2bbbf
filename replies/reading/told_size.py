"""Tells that a message speaks of a dog's measures, though nothing says which they are: they are then asked for."""

import itertools

from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.page import Page
from replies.reading.quantity import Quantity
from replies.reading.shapes import Shape
from sizing.measures import Measure

_SHORT = 14
"""Marks of a message so short that a measure named in it is what it is about."""
_BARE = 4
"""Words of a bare yes or no."""
_MANY = 4
"""So many bare numbers are measures."""
_MEASURES = frozenset(map(str, Measure))


def leaves_open(page: Page) -> bool:
    """Is a number a measure, though not which dog's it is, which of two it is, or of what."""
    return any(
        (one.aside is SetAside.UNCLEAR or (one.aside is None and one.measure not in (None, "none")))
        and (one.labels or page.quantities.found[one.number].low < page.quantities.found[one.number].high)
        for one in page.candidates
    )


def unplaced(page: Page) -> dict[int, Quantity]:
    """Give the numbers of which nothing says what they are."""
    open_ones = [one for one in page.candidates if one.aside in (None, SetAside.UNCLEAR)]
    return {one.number: page.quantities.found[one.number] for one in open_ones if not (one.measure or one.note)}


def gives_row(page: Page) -> bool:
    """Do so many bare numbers stand side by side that they can be nothing but measures: "33/29/12/20/6.2"."""
    bare_ones = unplaced(page)
    bare = {at for at, quantity in bare_ones.items() if quantity.dimension is None and quantity.shape is Shape.AMOUNT}
    signs = (mark for mark in page.marks if mark.kind != STOP)
    rows = itertools.groupby(signs, key=lambda mark: mark.kind == NUMBER and mark.quantity in bare)
    return any(is_row and len(list(row)) >= _MANY for is_row, row in rows)


def may_tell_size(page: Page) -> bool:
    """Are bare numbers joined by x, or is one told beside the name of a measure: "you need across. 5.5"."""
    bare_ones = unplaced(page)
    if any(bare_ones.keys() >= set(row) for row in page.quantities.lists):
        return True
    named = any(label.rule and label.rule.gives in _MEASURES and not label.letter for label in page.labels)
    return named and any(one.dimension is None and one.shape is Shape.AMOUNT for one in bare_ones.values())


def speaks_of_measures(page: Page) -> bool:
    """Does a short answer name a measure, or take a number back: "on the width i mean"."""
    if not (page.context.dogs or page.context.asked):
        return False
    unclear = any(candidate.aside is SetAside.UNCLEAR for candidate in page.candidates)
    words = [mark for mark in page.marks if mark.kind == PHRASE]
    if len(words) > _SHORT or any(mark.has("promise") for mark in words):
        return False
    meant = any(mark.has("correction", "swapped", "pick", "stands", "agrees") for mark in words)
    named = any(label.rule and label.rule.gives != "none" and not label.letter for label in page.labels)
    return (meant and named) or (unclear and bool(page.context.asked))


def says_yes_or_no_to_doubt(page: Page) -> bool:
    """Is it a bare yes or no to a question about a doubt. It settles nothing, so the question has to be put again."""
    if all(asked.why is None for asked in page.context.asked):
        return False
    words = [mark for mark in page.marks if mark.kind == PHRASE]
    if len(words) > _BARE or any(mark.has("promise", "stands_not") for mark in words):
        return False
    return any(mark.has("yes", "agrees", "no") for mark in words)
