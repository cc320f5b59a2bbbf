"""Collects the words for measures and for places of the body that stand together."""

from collections.abc import Sequence
from itertools import pairwise

from replies.reading.marks import NUMBER, PHRASE, STOP, Mark
from replies.reading.quantity import Quantity
from replies.reading.shapes import Shape
from replies.reading.small_words import Small

MOST_BETWEEN = 6
_GAP = 2
"""So many blanks and more part two cells of a table."""


def is_atom(marks: Sequence[Mark], at: int) -> bool:
    """Does a mark name a measure or a place, rather than being a word of doubt before a number: "around 12"."""
    mark = marks[at]
    if mark.kind != PHRASE or not mark.has("atom"):
        return False
    if mark.text == "cross":
        return _is_cross(marks, at)
    if mark.text == "breed":
        return (at > 0 and marks[at - 1].kind == NUMBER) or _leads_number(marks, at)
    if mark.among(Small.AROUND) and at + 1 < len(marks) and marks[at + 1].kind == NUMBER:
        before = marks[at - 1].name("atom") if at else None
        return before in ("CHEST", "NECK")
    return True


def _is_cross(marks: Sequence[Mark], at: int) -> bool:
    """Is "cross" the withers, as the Spanish call them, rather than a dog: "cross 33 cm", not "spaniel cross 33 cm"."""
    begins = not at or marks[at - 1].kind == STOP
    return begins and _leads_number(marks, at)


def _leads_number(marks: Sequence[Mark], at: int) -> bool:
    """Does a number stand right behind a mark: "breed 13 cm", as the Dutch say, rather than "breed: beagle"."""
    behind = [mark for mark in marks[at + 1 : at + 3] if mark.text not in (":", "=", "-")]
    return bool(behind) and behind[0].kind == NUMBER


def is_ago(marks: Sequence[Mark], at: int, quantities: Sequence[Quantity]) -> bool:
    """Is it the "back" of "three years back"."""
    if marks[at].text != "back" or not at or marks[at - 1].kind != NUMBER or not quantities:
        return False
    return quantities[marks[at - 1].quantity].shape != Shape.AMOUNT


Atom = tuple[int, str, str]
"""Index of the mark, group of words, part of speech."""


def run_at(marks: Sequence[Mark], at: int) -> list[Atom]:
    """Collect the words for measures and places that stand together, with nothing but connecting words between."""
    run: list[Atom] = []
    between = 0
    joined = opened = False
    while at < len(marks):
        mark = marks[at]
        if mark.kind == NUMBER or (run and _begins_column(marks, at)):
            break
        if mark.kind == STOP:
            if mark.text == "/" and run and mark.glued and _same_group(marks, at, run[-1][1]):
                at += 1
                continue
            if mark.text not in ("-", "(", ")", ">", "'", '"', "*", "~", ":") or (
                mark.text == ":" and not _more_follows(marks, at)
            ):
                break
            if mark.text == ")" and not opened:
                break
            opened = opened or mark.text == "("
            between += 1
        elif is_atom(marks, at):
            run += _atoms(marks, at, opens=not run)
            between = 0
        elif mark.has("list") and joined:
            joined = False
        elif mark.has("connector") and not mark.has("list"):
            between += 1
            joined = joined or mark.among(Small.OPENS_SPAN)
        else:
            break
        if between > MOST_BETWEEN:
            break
        at += 1
    return run


def _begins_column(marks: Sequence[Mark], at: int) -> bool:
    """Does a mark stand at the head of a column: behind a gap of several blanks, not the only one of its line."""
    if marks[at].start - marks[at - 1].end < _GAP:
        return False
    near = marks[max(0, at - MOST_BETWEEN) : at + MOST_BETWEEN]
    return sum(later.start - earlier.end >= _GAP for earlier, later in pairwise(near)) > 1


def _atoms(marks: Sequence[Mark], at: int, *, opens: bool) -> list[Atom]:
    """Give the groups of a mark: one, two for a compound word, and "up to" with the head, or a first tail, behind."""
    mark = marks[at]
    atoms = [(at, sense.name, sense.form) for sense in mark.senses.all if sense.kind == "atom"]
    if not mark.compound:
        atoms = atoms[:1]
    if atoms[0][1] == "NECK" and _begins_there(marks, at):
        atoms = [(at, "NECKBASE", "place")]
    if atoms[0][1] in ("HEAD", "CHIN", "BACK") or (opens and atoms[0][1] == "TAILBASE"):
        before = at - 1
        while before >= 0 and marks[before].among(Small.DETERMINERS, Small.TOPS):
            before -= 1
        if (
            before >= 0
            and marks[before].has("upto")
            and (atoms[0][1] != "BACK" or not marks[before].among(Small.MERELY_TO))
        ):
            atoms.insert(0, (at, "UPTO", "place"))
    return atoms


def _begins_there(marks: Sequence[Mark], at: int) -> bool:
    """Is the neck or the collar only where the tape begins or ends: "30 cm from the collar"."""
    before = at - 1
    while before >= 0 and marks[before].among(Small.DETERMINERS):
        before -= 1
    return before >= 0 and marks[before].among(Small.TAPE_ENDS)


def _same_group(marks: Sequence[Mark], at: int, group: str) -> bool:
    """Does a slash join two words for one place: "shoulder/withers"."""
    following = marks[at + 1] if at + 1 < len(marks) else None
    return following is not None and following.glued and following.name("atom") == group


def _more_follows(marks: Sequence[Mark], at: int) -> bool:
    """Does the name of the measure go on behind a colon: "height: floor to shoulder 12"."""
    return at + 1 < len(marks) and marks[at + 1].kind == PHRASE
