"""Tells whether a message speaks of several dogs, and by what words it tells them apart where they have no names."""

from collections.abc import Sequence

from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.page import Page
from replies.reading.small_words import Small


def mark_of_one(marks: Sequence[Mark], at: int) -> str | None:
    """Give what tells a dog apart that has no name: "the big one", "my boy", "the brown one"; None: nothing does."""
    mark = marks[at]
    if mark.kind != PHRASE:
        return None
    if mark.has("mark"):
        return mark.text
    around = [one.text for one in marks[max(0, at - 1) : at + 2]]
    if (
        len(around) == 3
        and around[0] == "the"
        and around[2] == "one"
        and not mark.has("atom", "other", "first", "order", "pick", "product", "compared")
    ):
        return mark.text
    return None


def told_by_sex(page: Page) -> bool:
    """Do "he" and "she" each have numbers of the same measure: two dogs, not one of whom both words are used."""
    told: dict[str, set[str]] = {"he": set(), "she": set()}
    sex = ""
    for mark in page.marks:
        if mark.kind == PHRASE and mark.among(Small.HE_OR_SHE):
            sex = mark.name("pronoun") or ""
        elif mark.kind == NUMBER and sex:
            measure = page.candidates[mark.quantity].measure
            if measure is not None and sex in told and page.candidates[mark.quantity].aside is None:
                told[sex].add(measure)
    return bool(told["he"] & told["she"])


def speaks_of_several(page: Page) -> bool:
    """Does the message say that there are several dogs."""
    told_apart: set[str] = set()
    for at, mark in enumerate(page.marks):
        if mark.kind == PHRASE and (
            (mark.has("both") and not mark.text.startswith(("each", "all")))
            or (mark.has("other") and "dog" in mark.text)
        ):
            return True
        told_as = mark_of_one(page.marks, at) if at not in page.in_tries else None
        if told_as:
            told_apart.add(told_as)
            if len(told_apart) > 1:
                return True
        if mark.kind == NUMBER:
            quantity = page.quantities.found[mark.quantity]
            note = page.candidates[mark.quantity].note
            counts = note == "a count" or (quantity.spelled and note != "so many of them")
            if counts and quantity.unit is None and 2 <= quantity.low <= 6 and at + 1 < len(page.marks):
                following = page.marks[at + 1]
                if (following.kind != STOP or following.text in (":", ".")) and not _is_told_twice(page, at + 1):
                    return True
        if mark.kind == PHRASE and mark.among(Small.SEVERAL_DOGS):
            return True
    return False


def _is_told_twice(page: Page, at: int) -> bool:
    """Does a count go before a measure or people: "two heights: 29 and 31", "two different people measured"."""
    following = page.marks[at]
    takers = any(mark.text in page.words.rivals.takers for mark in page.marks[at : at + 2])
    return takers or (following.has("atom") and following.text.endswith("s"))
