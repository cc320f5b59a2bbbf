"""Finds the names of dogs: where one is given outright, and where a word stands as only a name does."""

import re

from replies.reading.facts import SetAside
from replies.reading.marks import NUMBER, PHRASE, Mark
from replies.reading.name_places import begins_clause, is_named_outright, stands_as_name, stands_as_subject
from replies.reading.name_tellings import joinable_name, joins_names, plain_name, previous
from replies.reading.page import Named, Page
from replies.reading.paired_names import paired_names, told_again

_HEADER = re.compile(r"(?m)^[A-Z][A-Za-z]{0,20}(?:-[A-Z][A-Za-z]{0,20}){1,3}: ")


def find_names(page: Page) -> list[Named]:
    """Find the names of dogs in a message, in order; they are no numbers and no names of measures. In linear time."""
    known = {dog.name.casefold() for dog in page.context.dogs if dog.name}
    shouting = _is_shouting(page)
    paired = paired_names(page)
    found: list[Named] = []
    at = 0
    while at < len(page.marks):
        named = Named(at, at, paired[at], outright=True) if at in paired else None
        named = named or _name_at(page, at, known, shouting=shouting)
        if named is None and found and found[-1].last == at - 2 and not shouting:
            named = _joined_name(page, at)
        if named is None:
            at += 1
            continue
        found.append(named)
        at = named.last + 1
    found = _without_units(page, found)
    found = _with_told_again(page, found)
    return _leave_names(page, _kept(_with_first_of_pairs(page, found, shouting=shouting), known))


def _with_told_again(page: Page, found: list[Named]) -> list[Named]:
    """Find the names again where nothing but a measure stands before them: "Rex 12 lb Bo 13 lb Rex 10 tall"."""
    if len({named.name.casefold() for named in found}) < 2:
        return found
    places = {named.first: named.name for named in found if named.sure}
    again = [
        Named(at, at, name) for at, name in told_again(page, places).items() if page.raw(page.marks[at])[0].isupper()
    ]
    return sorted([*found, *again], key=lambda named: named.first)


def _without_units(page: Page, found: list[Named]) -> list[Named]:
    """Leave out units in small letters: "this is centimeter" names no dog, "this is Inch" does."""
    units = {unit.start for unit in page.quantities.lone}
    marks = page.marks
    return [one for one in found if page.raw(marks[one.first])[0].isupper() or marks[one.first].start not in units]


def _leave_names(page: Page, names: list[Named]) -> list[Named]:
    """Take no number and no name of a measure for what is the name of a dog: "Two is 9 long", "Large weighs 7 lb"."""
    places = {named.first for named in names}
    for at in places:
        mark = page.marks[at]
        if mark.kind == NUMBER:
            page.candidates[mark.quantity].leave(SetAside.NOT_A_MEASURE, "the name of a dog")
    page.labels = [label for label in page.labels if places.isdisjoint(range(label.first, label.last + 1))]
    return names


def _joined_name(page: Page, at: int) -> Named | None:
    """Read the second name of "Pip and Squeak"."""
    return plain_name(page, at) if joins_names(page.marks[at - 1]) else None


def _with_first_of_pairs(page: Page, found: list[Named], *, shouting: bool) -> list[Named]:
    """Read the names before one that is plain, "Pip and Squeak: heights 11 and 12", "Toffee, Nutmeg and Clove"."""
    if shouting:
        return found
    taken = {named.first for named in found}
    before: list[Named] = []
    for named in found:
        chain: list[Named] = []
        first, joined = named.first, False
        while first >= 2 and first - 2 not in taken:
            sign = page.marks[first - 1]
            joined = joined or joins_names(sign)
            other = joinable_name(page, first - 2) if joined and (joins_names(sign) or sign.text == ",") else None
            if other is None:
                break
            chain.append(other)
            first -= 2
        if chain and _opens_names(page, first):
            before += chain
            taken.update(one.first for one in chain)
    return sorted([*found, *before], key=lambda named: named.first)


def _opens_names(page: Page, at: int) -> bool:
    before = previous(page, at)
    return begins_clause(page, at) or (before is not None and before.has("dog", "naming", "before_name"))


def _is_shouting(page: Page) -> bool:
    """In a message in capitals, capitals say nothing."""
    letters = list(filter(str.isalpha, page.tidied.text[:2000]))
    return len(letters) > 12 and sum(map(str.isupper, letters)) > 0.7 * len(letters)


def _name_at(page: Page, at: int, known: set[str], *, shouting: bool) -> Named | None:
    mark = page.marks[at]
    if mark.kind != PHRASE:
        return None
    word = page.raw(mark)
    bare = word.removesuffix("'s").removesuffix("'S")
    if bare.casefold() in known:
        return Named(at, at, bare, outright=True)
    if not bare[:1].isalpha() or " " in bare or len(bare) < 2 or len(bare) > 20 or _is_in_header(page, at):
        return None
    capital = bare[0].isupper() and not shouting
    soft = bare.lower() in page.words.soft_names
    if not (capital or soft) and _never(page, mark, bare, outright=False, capital=False):
        return None
    if bare.isupper() and len(bare) <= 3 and not is_named_outright(page, at):
        return None
    outright = is_named_outright(page, at)
    if _never(page, mark, bare, outright=outright, capital=capital):
        return _titled(page, at, capital=capital)
    if outright:
        return _long(page, at, bare, outright=True)
    if capital and stands_as_name(page, at, soft=soft):
        return _long(page, at, bare)
    strange = not mark.senses or mark.senses.kinds <= {"title"}
    if not capital and strange and _is_plain(bare) and stands_as_subject(page, at):
        return Named(at, at, bare[0].upper() + bare[1:], sure=False)
    return None


def _is_in_header(page: Page, at: int) -> bool:
    """Is it part of the head of a mail in the text, "Content-Length: 902", or a command for a machine: "/start"."""
    marks = page.marks
    if at == 1 and marks[0].text == "/" and marks[1].glued:
        return True
    joined = marks[at].glued and at > 0 and marks[at - 1].kind == PHRASE
    following = marks[at + 1 : at + 3]
    joins = len(following) == 2 and following[0].kind == PHRASE and following[0].glued and following[1].text == ":"
    return (joined or joins) and len(_HEADER.findall(page.tidied.text)) > 1


def _is_plain(word: str) -> bool:
    """Is it in letters without accents: other small words are of other languages, not names typed in haste."""
    return word.isascii()


def _never(page: Page, mark: Mark, bare: str, *, outright: bool, capital: bool) -> bool:
    """Can the word be no name here: an everyday word, or one of the other lists."""
    word = bare.lower()
    if word in page.words.soft_names and (outright or capital):
        return False
    if word in page.words.not_names or mark.text in page.words.not_names:
        return True
    if not mark.senses:
        return False
    kinds = mark.senses.kinds
    return bool(kinds - {"before_name", "title"}) and not (
        outright and capital and not kinds & {"pronoun", "connector", "filler", "breed", "dog"}
    )


def _titled(page: Page, at: int, *, capital: bool) -> Named | None:
    """Read "Sir Barksalot": a title and a capital letter behind it."""
    mark = page.marks[at]
    if not capital or not mark.has("title") or at + 1 >= len(page.marks):
        return None
    following = page.marks[at + 1]
    word = page.raw(following)
    if following.kind != PHRASE or following.senses or not word[:1].isupper() or word.lower() in page.words.not_names:
        return None
    return Named(at, at + 1, f"{page.raw(mark)} {word.removesuffix(chr(39) + 's')}")


def _long(page: Page, at: int, bare: str, *, outright: bool = False) -> Named:
    """Take the title before a name with it, and a second word with a capital letter."""
    first, last, name = at, at, bare[0].upper() + bare[1:]
    before = page.marks[at - 1] if at else None
    if before is not None and before.kind == PHRASE and before.has("title") and page.raw(before)[:1].isupper():
        first, name = at - 1, f"{page.raw(before)} {name}"
    following = page.marks[at + 1] if at + 1 < len(page.marks) else None
    if following is not None and following.kind == PHRASE and not following.senses and page.raw(page.marks[at]) == bare:
        word = page.raw(following)
        if word[:1].isupper() and word.lower() not in page.words.not_names and word[1:].islower():
            last, name = at + 1, f"{name} {word}"
    return Named(first, last, name, outright=outright)


def _kept(found: list[Named], known: set[str]) -> list[Named]:
    """Keep unsure names where they are no exception: several dogs are told apart so, or nothing else is one."""
    sure = {named.name.casefold() for named in found if named.sure}
    unsure = {named.name.casefold() for named in found if not named.sure}
    if not unsure:
        return found
    if sure and not known and len(unsure) == 1:
        return [named for named in found if named.sure]
    return found
