"""Tells whether a message speaks of several dogs, and by what words it tells them apart where they have no names."""

from collections.abc import Sequence

from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.small_words import Small

_MOST_COUNTED = 6


def mark_of_one(marks: Sequence[Mark], at: int) -> str | None:
    """Give what tells a dog apart that has no name: "the big one", "my boy", "the brown one"; None: nothing does."""
    mark = marks[at]
    if mark.kind != PHRASE:
        return None
    if mark.has("mark"):
        return mark.text
    pointed = 0 < at < len(marks) - 1 and marks[at - 1].text == "the" and marks[at + 1].text == "one"
    if pointed and not mark.has("atom", "other", "first", "order", "pick", "product", "compared"):
        return mark.text
    return None


def marks_of_ones(page: Page) -> dict[int, str]:
    """Give where words tell a dog apart that has no name, and by what: "the big one", "my boy"."""
    if not page.index.holds("mark") and "one" not in page.single.words:
        return {}
    told = ((at, mark_of_one(page.marks, at)) for at in range(len(page.marks)))
    return {at: told_as for at, told_as in told if told_as is not None}


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
    marks, index = page.marks, page.index
    return (
        index.holds_among(Small.SEVERAL_DOGS)
        or any(not marks[at].text.startswith(("each", "all")) for at in index.places("both"))
        or any("dog" in marks[at].text for at in index.places("other"))
        or any(_counts_dogs(page, candidate) for candidate in page.candidates)
        or _tells_apart(page)
    )


def _tells_apart(page: Page) -> bool:
    """Does the message tell of "the big one" and "the small one"."""
    return len({told_as for at, told_as in marks_of_ones(page).items() if at not in page.in_tries}) > 1


def _counts_dogs(page: Page, candidate: Candidate) -> bool:
    """Is a number a count of dogs: "our two", "the three of them"."""
    quantity = page.quantities.found[candidate.number]
    counts = candidate.note == "a count" or (quantity.spelled and candidate.note != "so many of them")
    if not counts or quantity.unit is not None or not 2 <= quantity.low <= _MOST_COUNTED:
        return False
    behind = page.distance.place(candidate.number) + 1
    if behind >= len(page.marks):
        return False
    following = page.marks[behind]
    return (following.kind != STOP or following.text in (":", ".")) and not _is_told_twice(page, behind)


def _is_told_twice(page: Page, at: int) -> bool:
    """Does a count go before a measure or people: "two heights: 29 and 31", "two different people measured"."""
    following = page.marks[at]
    takers = any(mark.text in page.words.rivals.takers for mark in page.marks[at : at + 2])
    return takers or (following.has("atom") and following.text.endswith("s"))
