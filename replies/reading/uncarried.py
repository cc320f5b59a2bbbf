"""Sets aside the numbers of dogs, and of other animals, that are not to be carried."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from replies.reading.facts import SetAside
from replies.reading.mark_index import LONGEST_SENTENCE
from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.page import Candidate, Named, Page
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension

_SUBJECT = 6
"""So many marks may name another dog behind a pause."""


def is_of_other_animals(page: Page) -> bool:
    """Does the message speak of another animal, and of no dog."""
    if page.context.dogs or not page.index.holds("animal"):
        return False
    named = {named.first for named in page.names if page.raw(page.marks[named.first])[:1].isupper()}
    named |= {at + step for at in range(len(page.marks) - 2) if _is_pair_of_names(page, at) for step in (0, 2)}
    names = {page.marks[at].text for at in named}
    words = [
        mark for at, mark in enumerate(page.marks) if mark.kind == PHRASE and mark.senses and mark.text not in names
    ]
    if any(mark.has("dog", "breed") for mark in words):
        return False
    animals = [mark for mark in words if mark.has("animal")]
    compared = {mark.text for mark in animals if _is_compared_to(page, mark)}
    animal = next((mark for mark in animals if mark.text not in compared), None)
    return animal is not None and not _is_one_more(page, animal) and not _is_set_against(page, animal)


def _is_set_against(page: Page, animal: Mark) -> bool:
    """Is its weight told beside the dog's: "the cat weighs more than her at 13 lb. She's 9 lb"."""
    start, end = page.index.sentence(page.marks.index(animal))
    inside = {mark.quantity for mark in page.marks[start:end] if mark.kind == NUMBER}
    weights = [one for one in page.candidates if page.quantities.found[one.number].dimension == Dimension.WEIGHT]
    its = any(one.beside == "companion" or one.number in inside for one in weights)
    return its and any(one.aside is None and one.number not in inside for one in weights)


def needs_no_carrier(page: Page, animal: Mark) -> bool:
    """Is it said in the sentence of an animal that it is not to be carried."""
    start, end = page.index.sentence(page.marks.index(animal))
    return any(mark.has("needs_none", "surely_none") for mark in page.marks[start:end])


def _is_one_more(page: Page, animal: Mark) -> bool:
    """Is the animal only spoken of beside a dog, of which at least two measures are told in other sentences."""
    start, end = page.index.sentence(page.marks.index(animal))
    inside = page.marks[start:end]
    elsewhere = [mark for at, mark in enumerate(page.marks) if mark.kind == NUMBER and not start <= at < end]
    told = [page.candidates[mark.quantity] for mark in elsewhere]
    if sum(one.aside is None and one.measure is not None for one in told) <= 1:
        return False
    its_own = {mark.text for mark in inside}
    other_name = any(not start <= named.first < end and named.name.casefold() not in its_own for named in page.names)
    before = end <= page.distance.place(told[0].number)
    return other_name or (not before and any(one.kind == NUMBER or one.among(Small.FURTHER) for one in inside))


def _is_pair_of_names(page: Page, at: int) -> bool:
    """Do two words with capital letters stand side by side, the other one unknown: "Hen and Wren"."""
    first, joint, second = page.marks[at : at + 3]
    if not (joint.text == "&" or joint.among(Small.JOINS_NAMES)) or first.kind != PHRASE or second.kind != PHRASE:
        return False
    unknown = next((mark for mark in (first, second) if not mark.senses), None)
    if unknown is None or unknown.text in page.words.not_names:
        return False
    return page.raw(first)[:1].isupper() and page.raw(second)[:1].isupper()


def _is_compared_to(page: Page, mark: Mark) -> bool:
    """Is the animal only there to compare: "the size of a cat"."""
    before = page.tidied.folded[max(0, mark.start - 12) : mark.start].split()
    return any(word in page.words.small.lists[Small.LIKENS] for word in before)


def turns_to_own(marks: Sequence[Mark]) -> bool:
    """Does a later sentence turn to the customer's own dog: "mine is", "our pug is"."""
    return any(
        mark.among(Small.OWN_DOG) or (mark.among(Small.MY_OR_OUR) and following.has("dog", "breed"))
        for mark, following in pairwise(marks)
    )


def leave_uncarried(page: Page) -> None:
    """Set aside the numbers of a dog that is said to need no carrier, where there is another one."""
    for at in page.index.places("needs_none"):
        if at in page.in_tries:
            continue
        mark = page.marks[at]
        start, end = scope_of(page, at)
        inside = [page.candidates[one.quantity] for one in page.marks[start:end] if one.kind == NUMBER]
        inside = [candidate for candidate in inside if candidate.aside is None]
        none = mark.has("surely_none") or bool(_dogs_called(page, at - 1, at)) or _speaks_of_another(page, start, end)
        if none or told_elsewhere(page, inside):
            for candidate in inside:
                candidate.leave(SetAside.NOT_THIS_DOG, page.words.notes["not_carried"])
            _leave_named(page, start, at)


def _leave_named(page: Page, start: int, at: int) -> None:
    """Leave out the dog by whose name the part of the sentence begins, where more is told of another one."""
    for number in _dogs_called(page, start, at):
        if any(one.aside is None and one.dogs and number not in one.dogs for one in page.candidates):
            leave_dog(page, number)


def _dogs_called(page: Page, start: int, end: int) -> list[int]:
    """Give the new dogs whose names stand in a part of the text, also where little tells that it is a name."""
    words = {page.raw(mark).casefold().removesuffix("'s") for mark in page.marks[max(0, start) : end]}
    return [n for n, slot in enumerate(page.dogs) if slot.known is None and slot.name and slot.name.casefold() in words]


def leave_dog(page: Page, number: int) -> None:
    """Leave out a dog that is not to be carried, and all that is told of it alone."""
    page.dogs[number].carried = False
    for candidate in page.candidates:
        if candidate.dogs == (number,) and candidate.aside is None:
            candidate.leave(SetAside.NOT_THIS_DOG, page.words.notes["not_carried"])


def _may_end_there(page: Page, at: int) -> bool:
    """Is it a point behind a unit that may as well end a sentence: "8 lb. bought one for our last dog"."""
    if page.marks[at].kind != STOP or page.raw(page.marks[at]) != "." or at + 1 >= len(page.marks):
        return False
    following = page.marks[at + 1]
    return following.kind == PHRASE and not following.has("atom", "connector", "letter")


def scope_of(page: Page, at: int) -> tuple[int, int]:
    """Give the part of the sentence of a mark that is about one dog: from its name, to the name of the next."""
    start, end = page.index.sentence(at)
    start = max((place + 1 for place in range(start, at) if _may_end_there(page, place)), default=start)
    for place in range(at - 1, start, -1):
        mark = page.marks[place]
        if mark.kind == PHRASE and mark.has("dog", "breed") and page.marks[place - 1].among(Small.BEFORE_OWN_DOG):
            start = place
            break
    behind = page.marks[at].text.endswith(" for")
    for named in page.names:
        if start < named.first <= at:
            start = named.first
        elif at < named.first < end and behind and named.first == at + 1:
            continue
        elif at < named.first < end:
            end = named.first
            break
    for place in range(at + 1, end):
        if page.marks[place].among(Small.OWN_DOG) or _turns_to_another(page, place):
            return start, place
    return start, end


def _turns_to_another(page: Page, at: int) -> bool:
    """Does another dog come behind a pause: "we lost our collie (50 lb) in May, the little rescue is 12 lb"."""
    if page.marks[at].kind != STOP or page.marks[at].text not in (",", ".", ";", "-"):
        return False
    ahead = page.marks[at + 1 : at + 1 + _SUBJECT]
    told = next((place for place, mark in enumerate(ahead) if mark.kind != PHRASE or mark.among(Small.TELLS_OF_ONE)), 0)
    subject = ahead[:told]
    return (
        bool(subject) and subject[0].among(Small.BEFORE_OWN_DOG) and any(mark.has("dog", "breed") for mark in subject)
    )


def _speaks_of_another(page: Page, start: int, end: int) -> bool:
    return any(
        one.has("other", "kin", "owner", "animal", "first") for one in page.marks[start:end] if one.kind == PHRASE
    )


def told_elsewhere(page: Page, inside: list[Candidate]) -> bool:
    """Is a measure of these numbers told of another dog as well."""
    measures = {candidate.measure for candidate in inside}
    return any(one.aside is None and one not in inside and one.measure in measures for one in page.candidates)


def leave_animal(page: Page, at: int, until: int, names: Mapping[int, Named]) -> None:
    """Set aside the numbers of a cat's sentence: they are the cat's."""
    for place in range(at + 1, until):
        mark = page.marks[place]
        if (mark.kind == PHRASE and mark.has("dog", "breed")) or place in names:
            return
        if mark.kind == NUMBER:
            page.candidates[mark.quantity].leave(SetAside.NOT_THIS_DOG, page.words.notes["not_carried"])


def leave_owners(page: Page, at: int) -> int:
    """Set aside the numbers of a friend's dog, or of an earlier one, where the customer's own is told as well.

    Returns   the place where what is told of that dog ends; that of its owner where nothing is set aside
    """
    start, end = scope_of(page, at)
    sentence = page.marks[start:end]
    mine = turns_to_own(page.marks[end : end + LONGEST_SENTENCE]) or _was_earlier(page, at, sentence)
    if not mine and not any(mark.has("needs_none") for mark in sentence):
        return at
    for mark in sentence:
        if mark.kind == NUMBER:
            page.candidates[mark.quantity].leave(SetAside.NOT_THIS_DOG, page.words.notes["not_carried"])
    return end


def _was_earlier(page: Page, at: int, sentence: Sequence[Mark]) -> bool:
    """Is it a dog before this one, whose measures are told of another one too: "our last dog was 16 long"."""
    if not page.words.small.holds_one_of(page.marks[at].text, Small.EARLIER):
        return False
    inside = [page.candidates[mark.quantity] for mark in sentence if mark.kind == NUMBER]
    return bool(inside) and told_elsewhere(page, inside)


def leave_in_brackets(page: Page, at: int) -> None:
    """Set aside what is told in passing of another's dog, or of an earlier one: "for my old dog (12 lb)"."""
    if at + 1 >= len(page.marks) or page.marks[at + 1].text != "(":
        return
    for mark in page.marks[at + 2 : at + 10]:
        if mark.text == ")":
            return
        if mark.kind == NUMBER:
            page.candidates[mark.quantity].leave(SetAside.NOT_THIS_DOG, page.words.notes["not_carried"])


def only_speaks(page: Page, at: int) -> bool:
    """Does a person only give a number: "my mum measured too and got 32"."""
    following = [mark for mark in page.marks[at + 1 : at + 3] if mark.kind == PHRASE and not mark.among(Small.FURTHER)]
    return bool(following) and following[0].text.split()[0] in page.words.small.lists[Small.ONLY_SPEAKS]
