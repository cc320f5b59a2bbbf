"""Sees where one more carrier, or one for another dog, is spoken of: "we also need one for Gunther the boxer"."""

from collections.abc import Collection, Mapping

from replies.reading.marks import NUMBER, SENTENCE_ENDS, STOP
from replies.reading.page import Named, Page

_WITHIN = 8


def is_for_further_dog(page: Page, at: int, names: Mapping[int, Named], met: Collection[str]) -> bool:
    """Does a wish for one more carrier go on with a dog that was not spoken of before.

    at    the place of the words for one more
    met   the names of the dogs met so far, folded
    """
    for place in range(at + 1, min(at + _WITHIN, len(page.marks))):
        mark = page.marks[place]
        if place in names:
            return names[place].name.casefold() not in met
        if mark.kind == NUMBER or mark.text in SENTENCE_ENDS or mark.has("same"):
            return False
        if mark.kind != STOP and mark.has("breed", "dog", "owner", "kin"):
            return True
    return False
