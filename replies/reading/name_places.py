"""Tells where a word stands as only the name of a dog does: "Rex is 13", ": 13", "my terrier, Rex,"."""

from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.name_tellings import heads_lines, is_told_of, label_behind, number_near, previous
from replies.reading.page import Page
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension

_BEGINS = frozenset(("+", ".", "!", "?", "\n", "\n\n", ";", "(", "-", "|", "/", ",", ":", ">", "*", "&"))


def is_named_outright(page: Page, at: int) -> bool:
    """Does "called", "name is", "name:", "dog =" stand before the word."""
    place = at - 1
    sign = False
    while place >= 0 and page.marks[place].kind == STOP and page.marks[place].text in (":", "=", "-", '"', "'", "*"):
        sign = True
        place -= 1
    if place < 0 or page.marks[place].kind != PHRASE:
        return False
    mark = page.marks[place]
    if mark.has("dog") and sign and page.marks[at - 1].text in (":", "="):
        return not page.marks[at].has("atom")  # "unser Hund: Schulterhöhe 33 cm"
    if not mark.has("naming"):
        return False
    of_somebody = mark.text.startswith("name")
    return not (of_somebody and place and page.marks[place - 1].among(Small.OF_CUSTOMER))


def begins_clause(page: Page, at: int) -> bool:
    """Does a clause, or something said of another dog, begin with a mark."""
    before = previous(page, at)
    if before is not None and before.text == ")" and at > 1:
        before = page.marks[at - 2] if page.marks[at - 2].kind == NUMBER else before  # the item number of "1) Rex 13"
    if before is None or (before.kind == STOP and (before.text in _BEGINS or not before.text.isascii())):
        return True
    if before.kind == NUMBER and page.quantities.found[before.quantity].shape in (Shape.ENUMERATOR, Shape.CODE):
        return True
    return (before.kind == PHRASE and before.has("list", "naming", "title")) or before.among(Small.OPENS_CLAUSE)


def _is_signed(page: Page, at: int) -> bool:
    """Does the name stand under the letter: "Cheers, Deirdre from Sligo"."""
    place = at - 1
    while (
        place >= 0 and page.marks[place].kind == STOP and page.marks[place].text in (",", "\n", "\n\n", "-", "!", ".")
    ):
        place -= 1
    closing = place >= 0 and page.marks[place].has("closing") and place != at - 1
    following = page.marks[at + 1] if at + 1 < len(page.marks) else None
    from_somewhere = following is not None and following.among(Small.BEHIND_WRITER)
    if _closes_letter(page, at):
        return True
    goes_on = following is not None and (following.text == ":" or following.among(Small.TELLS_OF_ONE))
    return (closing and not goes_on) or from_somewhere


def _closes_letter(page: Page, at: int) -> bool:
    """Does a dash open the last line, and nothing is told behind the name: "- Marguerite (dog is Toffee)"."""
    before = [mark.text for mark in page.marks[max(0, at - 2) : at]]
    dashed = len(before) == 2 and before[1] == "-" and before[0] in ("\n", "\n\n")
    return dashed and not any(mark.kind == NUMBER for mark in page.marks[at + 1 :])


def stands_as_name(page: Page, at: int, *, soft: bool) -> bool:
    """Does a word with a capital letter stand where a dog's name does."""
    if _is_signed(page, at):
        return False
    before = previous(page, at)
    following = page.marks[at + 1] if at + 1 < len(page.marks) else None
    begins = begins_clause(page, at)
    if page.raw(page.marks[at]).endswith("'s") and following is not None:
        return (
            begins
            and (
                following.kind == NUMBER
                or following.has("atom", "connector", "filler", "other")
                or following.among(Small.TOLD_OF_DOG)
            )
            and (
                not soft
                or following.has("atom")
                or (following.kind == NUMBER and page.quantities.found[following.quantity].shape == Shape.AMOUNT)
            )
        )
    if (
        begins
        and before is not None
        and before.text == ","
        and not soft
        and _breed_before(page, at)
        and _ends_there(page, at)
    ):
        return True
    if (
        before is not None
        and before.text == "("
        and not soft
        and _breed_before(page, at)
        and following is not None
        and following.text in (",", ")")
    ):
        return True
    if before is not None and before.kind == PHRASE:
        if before.among(Small.OF_WHOM) and at > 1 and page.marks[at - 2].among(Small.TOLD_OF_DOG):
            return True
        if before.has("kin") or (before.has("breed", "dog") and (not soft or number_near(page, at, most=3))):
            return True
        if before.has("before_name") and not before.has("list"):
            return before.text != "with" or not soft
    if following is not None and following.kind == PHRASE and following.has("after_name"):
        return not soft or begins
    if not begins:
        return not soft and _parts_measures(page, at)
    return is_told_of(page, at) and (not soft or number_near(page, at))


def _parts_measures(page: Page, at: int) -> bool:
    """Does a strange word stand right between two measures, told before of another: "Bo 12 long Zed 13 long"."""
    before, word = page.marks[at - 1], page.marks[at]
    if word.senses or not (before.kind == NUMBER or before.has("atom")):
        return False
    if at + 1 >= len(page.marks) or page.marks[at + 1].kind != NUMBER:
        return False
    told = {label.atoms for label in page.labels if label.last < at}
    if any(label.atoms in told for label in page.labels if at + 2 <= label.first <= at + 3):
        return True
    number = page.marks[at + 1].quantity
    weights = {at for at, one in enumerate(page.quantities.found) if one.dimension is Dimension.WEIGHT}
    return number in weights and min(weights) < number


def _breed_before(page: Page, at: int) -> bool:
    """Does a breed stand before the comma: "our jack russell, Pippa."."""
    return at >= 2 and page.marks[at - 2].kind == PHRASE and page.marks[at - 2].has("breed", "dog")


def _ends_there(page: Page, at: int) -> bool:
    return at + 1 >= len(page.marks) or page.marks[at + 1].kind == STOP


def stands_as_subject(page: Page, at: int) -> bool:
    """Does a word without a capital letter stand as the subject of a measure: "peanut is 11 long"."""
    following = page.marks[at + 1] if at + 1 < len(page.marks) else None
    if following is None or not begins_clause(page, at):
        return False
    if following.kind == NUMBER:
        return page.quantities.found[following.quantity].unit is not None or label_behind(page, at + 1)
    if following.kind == STOP:
        return (following.text == ":" and number_near(page, at, most=3)) or (
            following.text in ("\n",) and heads_lines(page, at)
        )
    behind = page.marks[at + 2] if at + 2 < len(page.marks) else None
    return (
        following.among(Small.TELLS_OF_ONE)
        and not following.among(Small.TELLS_OF_MUCH)
        and behind is not None
        and (behind.kind == NUMBER)
    )
