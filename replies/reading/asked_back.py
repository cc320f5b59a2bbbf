"""Reads what became of a doubt that the shop put into words in a pasted chat: "Is that all the way around?" "Yes"."""

from replies.reading.giving import GROUPS
from replies.reading.letter import AskedBack, Letter
from replies.reading.marks import PHRASE
from replies.reading.page import Candidate, Page
from sizing.measures import Measure
from sizing.reasons import Why

_WITH_TAIL = {"TAIL": "TAIL_IN"}
"""To take the tail along is a mistake of the back, however it is put."""
_BEGINNING = 3
"""Whoever agrees says so within so many marks."""


def read_asked_back(page: Page, letter: Letter) -> None:
    """Note on the number before a doubt the mistake to which the customer owns up."""
    for doubt in letter.asked_back:
        told = [
            one
            for one in page.candidates
            if one.aside is None
            and one.measure in GROUPS
            and doubt.since <= page.quantities.found[one.number].start < doubt.at
        ]
        if told and _agrees(page, doubt):
            _own_up(page, told[-1], doubt.atoms)


def _agrees(page: Page, doubt: AskedBack) -> bool:
    """Does the answer begin with a yes, or say the same words again; without a no, and without a number of its own."""
    marks = [mark for mark in page.marks if doubt.start <= mark.start < doubt.end]
    if any(doubt.start <= one.start < doubt.end for one in page.quantities.found):
        return False
    words = [mark for mark in marks if mark.kind == PHRASE]
    if any(mark.has("no", "negation", "stands_not") for mark in words):
        return False
    labels = [label for label in page.labels if doubt.start <= page.marks[label.first].start < doubt.end]
    said = frozenset[str]().union(*(label.atoms for label in labels))
    if said - doubt.atoms - {"WIDTH", "LENGTH", "HEIGHT"}:
        return False
    return bool(said) or any(mark.has("yes", "agrees") for mark in words[:_BEGINNING])


def _own_up(page: Page, candidate: Candidate, atoms: frozenset[str]) -> None:
    """Give a number the measure or the mistake that the words of the doubt name."""
    measure = candidate.measure or ""
    if measure == Measure.LENGTH:
        atoms = frozenset(_WITH_TAIL.get(atom, atom) for atom in atoms)
    rule = page.words.composer.compose(atoms | {GROUPS[measure]})
    if rule is None or rule.gives != measure or rule.hint is None:
        return
    if Why(rule.hint) is Why.GIRTH:
        candidate.measure, candidate.labels, candidate.hints = str(Measure.GIRTH), (), frozenset()
    else:
        candidate.hints |= {Why(rule.hint)}
