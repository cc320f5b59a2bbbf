"""Finds names that are given two at once, whatever words they are: "our twins Uno and Dos", "called Tiny and Large"."""

from collections.abc import Mapping

from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.name_places import begins_clause
from replies.reading.name_tellings import joins_names
from replies.reading.page import Page
from replies.reading.small_words import Small

_JOINTS = ("&", "+")
_PARTS = frozenset((".", "!", ":", "-", "\n", "\n\n", ";"))


def paired_names(page: Page) -> dict[int, str]:
    """Give the places of names that are given in pairs, and where they are told of again: mark -> name."""
    if not page.index.holds_among(Small.JOINS_NAMES) and not any(sign in page.tidied.text for sign in _JOINTS):
        return {}
    given: dict[int, str] = {}
    told: set[str] | None = None
    for at in range(len(page.marks) - 3):
        if _opens_pair(page, at):
            first = at + 2 if _leads_on(page, at + 1) else at + 1
            given.update(_pair_at(page, first))
        elif _stands_by_itself(page, at):
            pair = _pair_at(page, at)
            told = _told_of(page) if told is None and pair else told
            if pair and told and told.issuperset(name.casefold() for name in pair.values()):
                given.update(pair)
    return given | told_again(page, given) if given else {}


def _stands_by_itself(page: Page, at: int) -> bool:
    """Does a pair make up a sentence or a heading: "Salt and Pepper. Salt is 12 long"."""
    opens = not at or (page.marks[at - 1].kind == STOP and page.marks[at - 1].text in _PARTS)
    behind = page.marks[at + 3]
    return opens and behind.kind == STOP and behind.text in _PARTS


def _told_of(page: Page) -> set[str]:
    """Give the words of which something is told, as of a dog."""
    places = range(len(page.marks))
    return {page.raw(page.marks[at]).casefold() for at in places if _is_reached(page, at) and _is_told_of(page, at)}


def told_again(page: Page, given: Mapping[int, str]) -> dict[int, str]:
    """Give the places at which something is told of the dogs of these names."""
    names = {name.casefold(): name for name in given.values()}
    found = {}
    for at, mark in enumerate(page.marks):
        name = names.get(page.raw(mark).casefold()) if mark.kind != STOP else None
        if name is not None and at not in given and _is_reached(page, at) and _is_told_of(page, at):
            found[at] = name
    return found


def _is_reached(page: Page, at: int) -> bool:
    """Does a clause begin here, or has a measure just ended: "Salt 12 long Pepper 13 long"."""
    before = page.marks[at - 1] if at else None
    return begins_clause(page, at) or (before is not None and (before.kind == NUMBER or before.has("atom")))


def _opens_pair(page: Page, at: int) -> bool:
    mark = page.marks[at]
    if mark.kind == STOP:
        return False
    return mark.has("naming") or page.raw(mark).casefold() in page.words.small.lists[Small.NAMES_PAIR]


def _leads_on(page: Page, at: int) -> bool:
    mark = page.marks[at]
    return mark.text in (":", ",", "-") or mark.among(Small.TELLS_OF_SEVERAL)


def _pair_at(page: Page, at: int) -> dict[int, str]:
    if at + 2 >= len(page.marks) or not joins_names(page.marks[at + 1]):
        return {}
    places = (at, at + 2)
    if not all(_may_be_name(page, place) for place in places) or all(page.marks[at].has("atom") for at in places):
        return {}
    return {place: page.raw(page.marks[place]) for place in places}


def _may_be_name(page: Page, at: int) -> bool:
    """Is it one word with a capital letter: also a number in letters."""
    word = page.raw(page.marks[at])
    return page.marks[at].kind != STOP and word.isalpha() and word[0].isupper() and not word.isupper()


def _is_told_of(page: Page, at: int) -> bool:
    """Does what follows tell of a dog: "dos 7 lb", "Two is 9 long"."""
    following = page.marks[at + 1] if at + 1 < len(page.marks) else None
    if following is None:
        return False
    return (
        following.kind == NUMBER
        or following.text in (":", "=")
        or (following.kind == PHRASE and (following.has("atom") or following.among(Small.TELLS_OF_ONE)))
    )
