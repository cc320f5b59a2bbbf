"""Tells whether what stands behind a word tells something of a dog: "is 12", ": 13 back", ", border terrier"."""

from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.page import Named, Page
from replies.reading.shapes import Shape
from replies.reading.small_words import Small


def joinable_name(page: Page, at: int) -> Named | None:
    """Take a word with a capital letter as a name beside other names, also "Olive" and "Toffee"."""
    word = page.raw(page.marks[at])
    if page.marks[at].kind == PHRASE and word[:1].isupper() and word.lower() in page.words.soft_names:
        return Named(at, at, word)
    return plain_name(page, at)


def joins_names(mark: Mark) -> bool:
    """Does a sign or a word join two names."""
    return mark.text in ("&", "+") or mark.among(Small.JOINS_NAMES)


def plain_name(page: Page, at: int) -> Named | None:
    """Take a single word with a capital letter that is in no list as a name."""
    mark = page.marks[at]
    word = page.raw(mark).removesuffix("'s")
    if mark.kind != PHRASE or mark.senses or not word[:1].isupper() or word.lower() in page.words.not_names:
        return None
    return Named(at, at, word)


def previous(page: Page, at: int) -> Mark | None:
    """Give the mark before."""
    return page.marks[at - 1] if at else None


def is_told_of(page: Page, at: int) -> bool:
    """Does what stands behind the word tell something of a dog: "is 12", ": 13 back", ", border terrier", " 6kg"."""
    marks = page.marks
    following = marks[at + 1] if at + 1 < len(marks) else None
    if following is None:
        return _stands_alone_last(page, at)
    if following.kind == NUMBER:
        return (
            page.quantities.found[following.quantity].unit is not None
            or label_behind(page, at + 1)
            or _is_aged(page, at)
            or (page.quantities.found[following.quantity].shape == Shape.AMOUNT and not _is_listed(page, at + 1))
        )
    if following.kind == PHRASE:
        named = following.has("atom", "letter") and number_near(page, at)
        return (
            named
            or (following.among(Small.TELLS_OF_SEVERAL) and number_near(page, at) and _is_joined_to_name(page, at))
            or (following.has("same") and number_near(page, at))
            or (following.among(Small.TELLS_OF_ONE) and number_near(page, at))
            or (following.among(Small.THE_OR_OUR) and (_breed_near(page, at) or number_near(page, at, most=4)))
        )
    if following.text in (":", "="):
        return _amount_first(page, at)
    if following.text in ("-", "("):
        return number_near(page, at) or _breed_near(page, at)
    if following.text in (",",):
        return (
            _breed_next(page, at)
            or _likened_next(page, at)
            or (_is_joined_to_name(page, at) and marks[min(at + 2, len(marks) - 1)].has("both"))
            or (number_near(page, at, most=2) and (at == 0 or marks[at - 1].text in (".", "-", ":", "\n", "\n\n")))
        )
    if following.text in ("\n", "\n\n"):
        return heads_lines(page, at)
    return _stands_alone_last(page, at)


def _is_joined_to_name(page: Page, at: int) -> bool:
    return at >= 2 and joins_names(page.marks[at - 1]) and joinable_name(page, at - 2) is not None


def _is_aged(page: Page, at: int) -> bool:
    """Does an age follow, and a measure right behind: "Duke 6 yrs 15.5 tall"."""
    behind = [
        mark for mark in page.marks[at + 1 : at + 4] if mark.text not in (",", "-") and not mark.among(Small.AGED)
    ]
    if len(behind) < 2 or behind[0].kind != NUMBER or behind[1].kind != NUMBER:
        return False
    found = page.quantities.found
    return found[behind[0].quantity].shape == Shape.DURATION and found[behind[1].quantity].shape == Shape.AMOUNT


def _is_listed(page: Page, at: int) -> bool:
    """Does another bare number follow behind a comma, as in an address: "Storgata 12, 0123 Oslo"."""
    following = page.marks[at + 1 : at + 3]
    return (
        len(following) == 2
        and following[0].text == ","
        and following[1].kind == NUMBER
        and page.quantities.found[following[1].quantity].shape != Shape.AMOUNT
    )


def _amount_first(page: Page, at: int) -> bool:
    """Is the first number behind the sign an amount, not an age: "Rex: 12 tall", but "Eta: 6 anni", "Lining: none"."""
    for place, mark in enumerate(page.marks[at + 2 : at + 9]):
        if mark.text == "\n" and place:
            return False
        if mark.kind == NUMBER:
            return page.quantities.found[mark.quantity].shape == Shape.AMOUNT
        if mark.kind == STOP and mark.text in (".", "!", "?", "\n\n"):
            return False
    return False


def heads_lines(page: Page, at: int) -> bool:
    """Does the word stand alone on a line above a line with a measure."""
    before = previous(page, at)
    if before is not None and before.text not in ("\n", "\n\n"):
        return False
    ahead = page.marks[at + 2 : at + 6]
    return any(mark.kind == NUMBER for mark in ahead) and any(
        mark.kind == PHRASE and mark.has("atom", "letter") for mark in ahead
    )


def _stands_alone_last(page: Page, at: int) -> bool:
    """Is it the last word, parted by the same sign as the measures before it: "7lbs 3oz // Gizmo"."""
    rest = [mark for mark in page.marks[at + 1 :] if mark.kind != STOP]
    before = previous(page, at)
    return not rest and before is not None and before.text in ("/", "|", "-", ",") and at > 3


def number_near(page: Page, at: int, *, most: int = 6) -> bool:
    """Does a number follow in the same sentence, with at most so many marks between."""
    for mark in page.marks[at + 1 : at + 2 + most]:
        if mark.kind == NUMBER:
            return True
        if mark.kind == STOP and mark.text in (".", "!", "?", "\n\n"):
            return False
    return False


def _breed_near(page: Page, at: int) -> bool:
    return any(mark.kind == PHRASE and mark.has("breed", "dog") for mark in page.marks[at + 1 : at + 5])


def _likened_next(page: Page, at: int) -> bool:
    """Is a dog likened to another behind the comma: "Rufus, same as Ivy"."""
    following = page.marks[at + 2] if at + 2 < len(page.marks) else None
    return following is not None and following.has("same")


def _breed_next(page: Page, at: int) -> bool:
    """Does a breed follow behind the comma: "Nettle, border terrier", "Tuck, our terrier"."""
    for mark in page.marks[at + 2 : at + 6]:
        if mark.kind != PHRASE:
            return False
        if mark.has("breed"):
            return True
        if mark.has("dog"):
            return page.marks[at + 2] is not mark
    return False


def label_behind(page: Page, at: int) -> bool:
    """Does the name of a measure stand right behind a mark."""
    following = page.marks[at + 1] if at + 1 < len(page.marks) else None
    return following is not None and following.kind == PHRASE and following.has("atom", "letter")
