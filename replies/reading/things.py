"""Tells whether a number is the size of a thing: of a crate, a seat, a carrier, a handle."""

from replies.reading.marks import NUMBER, PHRASE, SENTENCE_ENDS, STOP
from replies.reading.page import Candidate, Page
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension

_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_LOOKED_AT = 10
"""So many marks before a number are looked at."""


_LARGEST_SIZE = 20
_TOLD_WITHIN = 4
"""So many marks behind a name its first number stands."""
_END_OF = 4
"""So many marks may say which part of a thing it is: "the other end of"."""
_LIMITS = frozenset(("limit", "limit_beside", "limit_for"))


def thing_before(page: Page, place: int) -> bool:
    """Do a thing and words that give it a size stand before the number, and no dog between."""
    listed = any(page.marks[place].quantity in group for group in page.quantities.lists)
    if listed and _thing_in_sentence(page, place):
        return True
    product = comma = False
    linked = 0
    for at in range(place - 1, max(place - 1 - _LOOKED_AT, -1), -1):
        mark = page.marks[at]
        if mark.kind == NUMBER and is_size_number(page, at):
            return not comma
        if mark.kind == NUMBER:
            earlier = page.candidates[mark.quantity]
            same = earlier.note == page.words.notes["object"] or (listed and earlier.beside in _LIMITS)
            dogs = any(one.has("pronoun", "dog", "breed") for one in page.marks[at + 1 : place])
            dogs = dogs or _is_worked_out(page, at, place)
            return same and not product and not dogs and place - at <= 5
        if mark.kind == STOP:
            if mark.text not in (":", "=", "(", "-", '"', "'", ",", "/") and not (listed and mark.text in ("&", "+")):
                return False
            comma = comma or (mark.text == "," and not page.marks[at + 1].among(Small.GOES_ON_ABOUT))
            linked += mark.text in (":", "=", "(")
            continue
        if mark.has("limit") and listed:
            return True
        if mark.has("dog", "breed", "pronoun") and not mark.has("link", "loose"):
            return False
        if mark.has("thing") and at in page.worn:
            return False
        if mark.has("thing"):
            if (comma and not listed) or _is_picture(page, at):
                return False
            return _is_in_its_bracket(page, at, place) or not _is_place(page, at)
        if mark.has("part"):
            return not comma and linked > 0
        if len(mark.text) == 1 and page.marks[at + 1].text == "=":
            return False
        if mark.has("product") and (_is_picture(page, at) or (not listed and _is_purpose(page, at))):
            return False
        if mark.has("product"):
            product = True
            linked += mark.text.endswith("itself")
            if not mark.has("link"):
                return not comma and (linked > 0 or (listed and place - at == 1))
        elif mark.has("atom") and not mark.has("link", "loose", "filler", "connector"):
            continue
        elif not mark.has("link", "loose", "filler", "connector"):
            return product and linked > 0 and not comma
        linked += mark.has("link") and not mark.among(Small.LOOSE_LINKS)
        if mark.among(Small.FOR_WHOM) and not mark.has("thing"):
            comma = comma or not listed
    return False


def speaks_of_things(page: Page) -> bool:
    """Does the message hold anything that may have a size: a thing, a row of numbers, the number of a size."""
    return (
        bool(page.quantities.lists)
        or page.index.holds("thing", "part", "product", "limit")
        or any(mark.kind == NUMBER and is_size_number(page, at) for at, mark in enumerate(page.marks))
    )


def _is_picture(page: Page, at: int) -> bool:
    """Is a thing only what the dog is like: "square as a table: 15 tall", "long as a train (15)"."""
    return at > 1 and page.marks[at - 1].among(Small.ARTICLES) and page.marks[at - 2].among(Small.PICTURES)


def _is_purpose(page: Page, at: int) -> bool:
    """Is a carrier only what the measuring was for: "I measured her for a carrier: length 12"."""
    return at > 1 and page.marks[at - 1].among(Small.ARTICLES) and page.marks[at - 2].among(Small.MEANT_FOR)


def _is_in_its_bracket(page: Page, at: int, place: int) -> bool:
    """Does a length stand in a bracket right behind a thing: "goes in a wheelbarrow (36 long, 22 wide)"."""
    weighs = page.quantities.found[page.marks[place].quantity].dimension == Dimension.WEIGHT
    return page.marks[at + 1].text == "(" and not weighs


def _is_worked_out(page: Page, at: int, place: int) -> bool:
    """Is a weight what is left without the thing's: "the blanket is 1 lb so 12 lb"."""
    weighs = page.quantities.found[page.marks[place].quantity].dimension == Dimension.WEIGHT
    return weighs and any(one.has("result") for one in page.marks[at + 1 : place])


def _thing_in_sentence(page: Page, place: int) -> bool:
    """Does a thing, or a limit, stand before a row of numbers in its sentence, or right behind, and no dog between."""
    for at in range(place - 1, max(place - 1 - 2 * _LOOKED_AT, -1), -1):
        mark = page.marks[at]
        if mark.kind == STOP and mark.text in SENTENCE_ENDS and mark.text != "\n":
            break
        if mark.kind == PHRASE and mark.has("dog", "breed") and not mark.has("link", "connector"):
            return False
        if mark.kind == PHRASE and mark.has("pronoun") and mark.among(Small.HE_OR_SHE):
            return False
        if mark.kind == NUMBER and is_size_number(page, at):
            return True
        if mark.kind == PHRASE and (mark.has("thing", "limit") or (mark.has("product") and place - at <= 6)):
            return not _is_place(page, at)
    for mark in page.marks[place + 1 : place + 10]:
        if mark.kind == STOP and mark.text in SENTENCE_ENDS:
            return False
        if mark.kind == PHRASE and mark.has("dog", "breed"):
            return False
        if mark.kind == PHRASE and mark.has("thing", "limit"):
            return True
    return False


def thing_is_subject(page: Page, place: int) -> bool:
    """Does its sentence say of a thing what it measures, "the bed he likes is 22 in wide"."""
    verb = place - 1
    while verb >= 0 and page.marks[verb].has("filler") and not page.marks[verb].among(Small.MEASURES_SO):
        verb -= 1
    if verb < 2 or not page.marks[verb].among(Small.MEASURES_SO) or page.marks[verb - 1].has("pronoun", "dog", "breed"):
        return False
    names = {at for named in page.names for at in range(named.first, named.last + 1)}
    first = verb
    while first > 0 and verb - first <= _LOOKED_AT and page.marks[first - 1].kind == PHRASE:
        first -= 1
    if first and (page.marks[first - 1].kind == NUMBER or page.marks[first - 1].text not in SENTENCE_ENDS):
        return False
    determined = page.marks[first].among(Small.DETERMINERS)
    if determined:
        first += 1
    if page.marks[first].has("thing"):
        return verb - 1 not in names
    strange = determined and not any(mark.senses for mark in page.marks[verb - 1 : verb]) and verb - 1 not in names
    return strange and _is_told_of_another(page, place)


def _is_told_of_another(page: Page, place: int) -> bool:
    """Is a dog named in another sentence, with numbers of its own: what is told of something strange is not its."""
    start, end = page.index.sentence(place)
    return any(
        not start <= named.first < end
        and any(mark.kind == NUMBER for mark in page.marks[named.last + 1 : named.last + 1 + _TOLD_WITHIN])
        for named in page.names
    )


def is_size_number(page: Page, at: int) -> bool:
    """Is it "No. 3", a size of the shop."""
    quantity = page.quantities.found[page.marks[at].quantity]
    if quantity.shape not in (Shape.CODE, Shape.AMOUNT) or quantity.unit is not None or quantity.low > _LARGEST_SIZE:
        return False
    before = page.tidied.folded[max(0, quantity.start - 8) : quantity.start].rstrip(" .")
    word = before[len(before.rstrip(_LETTERS)) :]
    small = page.words.small.lists
    return word in small[Small.NUMBERED] or word.endswith(tuple(small[Small.NUMBER_ENDINGS]))


def _is_place(page: Page, at: int) -> bool:
    """Is a thing only where the measuring was done: "from the sofa", "against the fridge"."""
    back = at - 1
    while back >= 0 and (page.marks[back].among(Small.DETERMINERS) or page.marks[back].has("thing")):
        back -= 1
    if back > 0 and page.marks[back].among(Small.OF_WHOM):  # "from the other end of the sofa"
        ahead = page.marks[max(0, back - _END_OF) : back]
        back = max(0, back - _END_OF) + next((at for at, mark in enumerate(ahead) if mark.among(Small.WHEREABOUTS)), 0)
    return back >= 0 and page.marks[back].among(Small.WHEREABOUTS)


def thing_after(page: Page, candidate: Candidate, place: int) -> bool:
    """Does a thing stand right behind its size: "a 22 in crate"."""
    quantity = page.quantities.found[candidate.number]
    if quantity.dimension == Dimension.WEIGHT:
        return False
    if place and page.marks[place - 1].kind == PHRASE and page.marks[place - 1].has("atom", "letter"):
        return False
    for step, mark in enumerate(page.marks[place + 1 : place + 4]):
        if mark.kind != PHRASE or mark.has("dog", "breed", "pronoun") or mark.among(Small.OPENS_OTHER):
            return False
        if mark.has("thing", "part", "product") and len(mark.text) > 2 and not mark.has("atom"):
            return quantity.unit is not None or step == 0
        if mark.senses and not mark.has("filler", "connector", "loose", "atom") and mark.text != "round":
            return False
        if mark.has("atom") and not mark.among(Small.SHAPE_OF_THING):
            return False
        if mark.has("list", "link"):
            return False
    return False
