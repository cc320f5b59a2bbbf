"""Tells whom the carrier is for, where it is said: "only for Bean", "Bean only", "the bag is for the yorkie"."""

from replies.reading.marks import NUMBER, SENTENCE_ENDS, STOP, Mark
from replies.reading.page import Named, Page
from replies.reading.small_words import Small
from replies.reading.uncarried import leave_dog
from sizing.breeds import spoken_breeds

_ONLY_WITHIN = 6
"""So many marks before the name "only" may stand: "only need a carrier for Bean"."""


def leave_others(page: Page) -> None:
    """Read "the bag is only for Bean": other dogs of the message are not to be carried."""
    only = {named.name.casefold() for named in page.names if _is_the_only_one(page, named)}
    if not only or not any((slot.name or "").casefold() in only for slot in page.dogs):
        return
    for number, slot in enumerate(page.dogs):
        if slot.known is None and (slot.name or "").casefold() not in only:
            leave_dog(page, number)


def _is_the_only_one(page: Page, named: Named) -> bool:
    before = page.marks[named.first - 1] if named.first else None
    after = page.marks[named.last + 1] if named.last + 1 < len(page.marks) else None
    if before is not None and before.among(Small.TELLS_OF_ONE) and named.first > 1:
        return page.marks[named.first - 2].among(Small.PASSENGERS)
    if before is not None and before.text == "for":
        return (after is not None and after.among(Small.ONLY)) or _only_before(page, named.first - 1)
    if before is None or not before.among(Small.ONLY):
        return False
    second = page.marks[named.first - 2] if named.first > 1 else None
    if second is not None and second.text == "for":
        return True
    rides = after is not None and (after.among(Small.RIDES) or after.text == "please")
    return rides or _stands_alone(page, second, after)


def _only_before(page: Page, at: int) -> bool:
    """Does "only" stand before a place, in its part of the sentence."""
    for mark in reversed(page.marks[max(0, at - _ONLY_WITHIN) : at]):
        if mark.kind in (STOP, NUMBER):
            return False
        if mark.among(Small.ONLY):
            return True
    return False


def _stands_alone(page: Page, before: Mark | None, after: Mark | None) -> bool:
    """Does a sentence consist of "just Bean", or begin with "its only Bean"."""
    if before is not None and before.text in (",", ".", "its"):
        return True
    ends = after is None or (after.kind == STOP and after.text in SENTENCE_ENDS)
    return ends and (before is None or before.kind == STOP)


def leave_other_breeds(page: Page) -> None:
    """Read "we have a lab (65 lb) and a yorkie (6 lb), the bag is for the yorkie": the lab needs none."""
    meant: set[str] = set()
    for at in page.index.places("breed"):
        before = page.marks[max(0, at - 3) : at]
        for_it = len(before) == 3 and before[2].among(Small.THE_OR_OUR) and before[1].text == "for"
        if for_it and before[0].among(Small.IS_FOR):
            meant.update(spoken_breeds().get(page.marks[at].name("breed") or "", ()))
    if not meant or not any(slot.known is None and meant & set(slot.breeds) for slot in page.dogs):
        return
    for number, slot in enumerate(page.dogs):
        if slot.known is None and slot.breeds and not meant & set(slot.breeds):
            leave_dog(page, number)


def leave_served(page: Page) -> None:
    """Read "what I had for Mabel": a dog that has a carrier, and of which nothing else is told, needs none."""
    for named in page.names:
        before = page.marks[named.first - 1] if named.first else None
        if before is None or not before.has("needs_none") or not before.text.endswith(" for"):
            continue
        for number, slot in enumerate(page.dogs):
            told = any(one.aside is None and number in one.dogs for one in page.candidates)
            if slot.known is None and (slot.name or "").casefold() == named.name.casefold() and not told:
                slot.carried = False
