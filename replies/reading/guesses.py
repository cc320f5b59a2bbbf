"""Tells which numbers are guesses instead of measurements."""

from bisect import bisect_left
from itertools import takewhile

from replies.reading.marks import NUMBER, PHRASE, STOP
from replies.reading.page import Page
from replies.reading.small_words import Small
from replies.reading.things import is_size_number


def guessed_numbers(page: Page) -> set[int]:
    """Give the indices of the numbers that are guesses."""
    guessed = {candidate.number for candidate in page.candidates if _is_guessed(page, candidate.number)}
    stems = page.words.small.lists
    for at in page.index.places("thinks"):
        if not _is_idle(page, at):
            guessed |= _thought(page, at)
    names = {named.name.casefold() for named in page.names}
    for at in page.index.places("guess"):
        mark = page.marks[at]
        if page.raw(mark).casefold() in names and page.raw(mark)[0].isupper():
            continue
        if at and page.marks[at - 1].kind == NUMBER and is_size_number(page, at - 1):
            continue  # "so no 3 i guess"
        start, end = page.index.sentence(at)
        clueless = any(stem in mark.text for stem in stems[Small.CLUELESS_STEMS])
        if clueless and (_is_of_something(page, at) or _is_of_named(page, at)):
            continue
        if any(stem in mark.text for stem in stems[Small.MEASURING_STEMS]):
            if _is_of_the_rest(page, at) or _is_of_named(page, at):
                continue
            guessed |= {candidate.number for candidate in page.candidates if not _is_sound(page, candidate.number)}
        elif _is_idle(page, at):
            continue
        elif not any(one.kind == NUMBER for one in page.marks[start:end]):
            if _is_of_something(page, at):
                continue
            guessed |= {candidate.number for candidate in page.candidates if not _is_sound(page, candidate.number)}
        else:
            guessed |= {
                one.quantity
                for one in page.marks[start:end]
                if one.kind == NUMBER and not _is_sound(page, one.quantity)
            }
    return guessed


def _is_guessed(page: Page, number: int) -> bool:
    """Does a word of guessing stand right beside the number: "I guess 12", "12 I think"; a "maybe" only hedges."""
    if not page.quantities.found[number].guessed:
        return False
    place = page.distance.place(number)
    return any(
        mark.kind == PHRASE and mark.has("thinks", "guess") and not _is_idle(page, at)
        for at, mark in enumerate(page.marks[max(0, place - 4) : place + 4], start=max(0, place - 4))
    )


def _is_idle(page: Page, at: int) -> bool:
    """Is it a thought about something else than the numbers: "I guess that's it", "I think you have all you need"."""
    if not page.marks[at].has("thinks"):
        return False
    clause = list(takewhile(lambda mark: mark.kind != STOP, page.marks[at + 1 : at + 1 + _LONGEST_CLAUSE]))
    said = " ".join(mark.text for mark in clause[:_LONGEST_IDLE]).split()
    idle = any(" ".join(said[:size]) in page.words.idle for size in range(1, _LONGEST_IDLE + 1))
    return idle and not any(mark.kind == NUMBER for mark in clause)


_LONGEST_CLAUSE = 20
_LONGEST_IDLE = 4


def _thought(page: Page, at: int) -> set[int]:
    """Give the number of the clause that "I think" opens: "I think the height is 11"."""
    for place in range(at + 1, min(at + 7, len(page.marks))):
        mark = page.marks[place]
        if mark.kind == NUMBER:
            return set() if _is_sound(page, mark.quantity) else {mark.quantity}
        if mark.kind == STOP or mark.has("list", "correction", "negation"):
            return set()
    return set()


def _is_of_something(page: Page, at: int) -> bool:
    """Is it something in particular that is not known: "no idea on breed", "dunno about the throat"."""
    following = page.marks[at + 1] if at + 1 < len(page.marks) else None
    return following is not None and following.among(Small.OF_SOMETHING)


def _is_of_named(page: Page, at: int) -> bool:
    """Does a name without a number stand right before it: "width no clue"."""
    index = bisect_left(page.labels, at, key=lambda label: label.first) - 1
    if index < 0 or page.labels[index].last < at - 2:
        return False
    return not any(index in candidate.labels for candidate in page.candidates)


def _is_of_the_rest(page: Page, at: int) -> bool:
    """Is only something else not measured: "havent measured the throat yet", "no tape for the rest"."""
    for mark in page.marks[at + 1 : at + 6]:
        if mark.kind == NUMBER:
            return False
        if mark.kind == PHRASE and (mark.has("atom") or mark.among(Small.THE_REST)):
            return True
        if mark.kind != PHRASE and mark.text in (".", "!", "?", "\n", ","):
            return False
    return False


def _is_sound(page: Page, number: int) -> bool:
    """Is the number said to come from a scale or a vet."""
    place = page.distance.place(number)
    for step in (1, -1):
        at = place + step
        while 0 <= at < len(page.marks) and abs(at - place) <= 6 and page.marks[at].kind != NUMBER:
            mark = page.marks[at]
            if mark.kind == PHRASE and mark.has("sound"):
                return True
            if mark.kind != PHRASE and mark.text in (".", "!", "?", "\n", ",") and not _goes_on(page, at, step):
                break
            at += step
    return False


def _goes_on(page: Page, at: int, step: int) -> bool:
    """Is more said of a number behind a comma: "25 lb, that one's from the vet"."""
    following = page.marks[at + 1] if at + 1 < len(page.marks) else None
    comma = step > 0 and page.marks[at].text == ","
    return comma and following is not None and following.among(Small.SAYS_MORE)
