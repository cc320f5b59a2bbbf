"""Decides between values of one measure by what is said around them: of now, of the customer's own dog, in a question.

No word needs to say that the other value is of another time or dog: "the litter makes 15 lb. Ours is at 9 lb".
"""

from bisect import bisect_left
from collections.abc import Callable, Sequence

from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, SENTENCE_ENDS, STOP
from replies.reading.page import Candidate, Page
from replies.reading.rivals import values_told
from replies.reading.small_words import Small
from replies.reading.tell_apart import amount_of

_NOW_WITHIN = 6
"""So many marks before a number "now" may stand."""
_NO_CARRIED, _TIMES = {"weight": 45.0}, 3.5
"""From so many pounds or inches, and so many times another value, a value is nobody's who is carried."""
_NO_LENGTH = 48.0


def settle_contrasts(page: Page) -> None:
    """Set aside the values of a measure beside which another one plainly is the dog's, and now."""
    for group in values_told(page):
        _settle(page, [one for one in group if one.end_of is None])


def _settle(page: Page, group: list[Candidate]) -> None:
    tests: tuple[tuple[Callable[[Page, Candidate], bool], str], ...] = (
        (_is_of_now, "another value is of now"),
        (_is_of_own, "another value is of the customer's own dog"),
        (_is_of_no_thing, "the size of a thing, not of the dog"),
        (_is_told, "in a question; another value is told"),
    )
    if len(group) < 2:
        return
    _leave_giants(page, group)
    for test, note in tests:
        left = [one for one in group if one.aside is None]
        kept = [one for one in left if test(page, one)]
        disputed = test is not _is_of_own and any(_is_anothers(page, one) for one in left)
        if kept and len(kept) < len(left) and not disputed:
            for one in left:
                if one not in kept:
                    one.leave(SetAside.NOT_A_MEASURE, note)
                    one.beside = "overruled"


def _leave_giants(page: Page, group: Sequence[Candidate]) -> None:
    """Read "my lad's 13 stone and carries her. she is 12 lb": no dog that is carried has so many times as much."""
    amounts = [(amount_of(page, one), one) for one in group]
    least = min(amount for amount, _ in amounts)
    for amount, one in amounts:
        if amount >= _NO_CARRIED.get(one.measure or "", _NO_LENGTH) and amount >= _TIMES * least:
            one.leave(SetAside.NOT_A_MEASURE, "far more than the other value")


def _is_of_now(page: Page, one: Candidate) -> bool:
    """Does "today", "at the moment" stand before the number in its clause, or right behind it."""
    place = page.distance.place(one.number)
    following = bisect_left(page.turns, (place, 0, ""))
    for first, last, which in page.turns[max(0, following - 2) : following + 1]:
        if which != "now":
            continue
        before = last < place <= last + _NOW_WITHIN
        between = page.marks[last + 1 : place] if before else page.marks[place + 1 : first]
        if before and not any(mark.kind == NUMBER or mark.text in SENTENCE_ENDS for mark in between):
            return True
        if place < first <= place + 3 and all(mark.has("filler", "connector", "atom") for mark in between):
            return True
    return False


def _is_of_own(page: Page, one: Candidate) -> bool:
    """Is it told behind "mine", "ours", "our boy" in its sentence."""
    place = page.distance.place(one.number)
    following = bisect_left(page.turns, (place, 0, ""))
    for first, last, which in reversed(page.turns[max(0, following - 3) : following]):
        between = page.marks[last + 1 : place]
        if any(mark.kind == STOP and mark.text in SENTENCE_ENDS for mark in between):
            return False
        if which == "own" and page.marks[last + 1].kind == NUMBER and page.marks[first].has("person"):
            continue  # "I have 45 cm" is no "I have a pug"
        if which == "own":
            return not any(mark.has("other", "kin", "owner") for mark in page.marks[first:place] if mark.kind == PHRASE)
    return False


def _is_of_no_thing(page: Page, one: Candidate) -> bool:
    """Is it not what a sentence says of something strange: "The kayak hatch is 17 in across"."""
    place = page.distance.place(one.number)
    start, _ = page.index.sentence(place)
    if _is_in_bracket_of_thing(page, start, place):
        return False
    subject = page.marks[start:place]
    verb = next((at for at, mark in enumerate(subject) if mark.among(Small.MEASURES_SO)), 0)
    if verb < 2 or not subject[0].among(Small.ARTICLES):
        return True
    known = any(mark.kind != PHRASE or mark.has("dog", "breed", "pronoun", "atom") for mark in subject[:verb])
    named = any(start <= name.first < start + verb for name in page.names)
    return known or named or bool(subject[verb - 1].senses)


def _is_in_bracket_of_thing(page: Page, start: int, place: int) -> bool:
    """Does it stand in a bracket behind something strange: "a wheelbarrow (36 long, 22 wide)"."""
    signs = [at for at in range(start, place) if page.marks[at].text in ("(", ")")]
    if not signs or page.marks[signs[-1]].text == ")" or signs[-1] < 2:
        return False
    thing, article = page.marks[signs[-1] - 1], page.marks[signs[-1] - 2]
    return thing.kind == PHRASE and not thing.senses and article.among(Small.ARTICLES)


def _is_told(page: Page, one: Candidate) -> bool:
    """Is it told, rather than named in a question that begins with its verb: "will he still fit at 15 lb?"."""
    start, end = page.index.sentence(page.distance.place(one.number))
    asks = end < len(page.marks) and page.marks[end].text == "?"
    return not (asks and start < end and page.marks[start].among(Small.OPENS_SUPPOSING))


def _is_anothers(page: Page, one: Candidate) -> bool:
    """Does another person give the value: "my husband says 13": which of the two is right she has to tell."""
    start, _ = page.index.sentence(page.distance.place(one.number))
    before = page.marks[start : page.distance.place(one.number)]
    return any(mark.kind == PHRASE and mark.has("person") and not mark.among(Small.WHO_KNOW) for mark in before)
