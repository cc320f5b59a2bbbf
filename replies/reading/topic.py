"""Tells what a message is: about fit, something else that the maker must answer, or nothing to answer.

One idea: each clause is weighed by itself. Whatever is asked and is not about fit goes to the maker; a message is
nothing to answer only if no clause of it asks, wishes or complains.
"""

import itertools
from collections.abc import Sequence
from dataclasses import replace

from replies.reading.clauses import Clause, cut_into_clauses
from replies.reading.context import Channel
from replies.reading.evidence import ENOUGH, Evidence, Known, weigh
from replies.reading.facts import DogReading, Passage, Topic
from replies.reading.marks import NUMBER, PHRASE, Mark, find_words
from replies.reading.page import Page
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.told_size import (
    gives_row,
    leaves_open,
    may_tell_size,
    says_yes_or_no_to_doubt,
    speaks_of_measures,
    unplaced,
)
from replies.reading.uncarried import is_of_other_animals, needs_no_carrier
from replies.reading.unit_words import Dimension
from sizing.measures import Measure

_HEADING = 6
"""Words of a question that may be a heading."""
_ROW = 2
"""So many of them must be answered by the customer herself."""
_LARGEST_SIZE = 9
_NEARLY = 0.75
_CALL = 2
"""Words of a message that only calls: "Hello?"."""

WeighedClause = tuple[Clause, Evidence]


def topic_of(
    page: Page, dogs: Sequence[DogReading], clauses: Sequence[WeighedClause]
) -> tuple[Topic, tuple[Passage, ...]]:
    """Give the topic, and the passages that ask something that the maker must answer herself."""
    if any("automatic" in hit.names for clause, _ in clauses for hit in clause.hits):
        return Topic.NONE, ()
    if _means_nothing(clauses, dogs):
        return Topic.NONE, ()
    told = any(_tells(page, dog) for dog in dogs) or bool(page.length_unit or page.weight_unit)
    told = told or (page.together is not None and bool(page.context.dogs))
    clauses = _with_subject_of_before(clauses)
    sizes = any(evidence.about_fit for _, evidence in clauses)
    fit = told or sizes or leaves_open(page) or gives_row(page) or speaks_of_measures(page)
    fit = fit or _gives_length(page, clauses) or says_yes_or_no_to_doubt(page)
    other = _about_other(clauses, told=told)
    fit = fit or (not other and may_tell_size(page))
    if not fit and not other:
        other = [one for one in clauses if _wants_answer(one[1])]
        if other and page.context.dogs and all(evidence.refers_back for _, evidence in other):
            return Topic.SIZING, ()
        other = other or _calls(clauses)
    passages = tuple(page.passage(clause.start, clause.end) for clause, _ in other)
    if is_of_other_animals(page) or (not sizes and other and _is_only_said_in_passing(page, clauses, other, dogs)):
        return Topic.OTHER, passages or _whole(page, clauses)
    if fit:
        return Topic.SIZING, passages
    return (Topic.OTHER if other else Topic.NONE), passages


def _means_nothing(clauses: Sequence[WeighedClause], dogs: Sequence[DogReading]) -> bool:
    """Is it a riddle, or a slip of the keys, that neither tells a dog's measures nor asks for anything known."""
    names = {name for clause, _ in clauses for hit in clause.hits for name in hit.names}
    facts = max((len(dog.facts) for dog in dogs), default=0)
    asked = [evidence for _, evidence in clauses if _wants_answer(evidence)]
    if "slip" in names and not asked and not facts:
        return True
    return "jest" in names and facts <= 1 and all(evidence.known < ENOUGH for evidence in asked)


def _tells(page: Page, dog: DogReading) -> bool:
    """Is something told of a dog: a measure, the name of one that is known, or how that one likes to ride."""
    named = dog.name and dog.known is not None and page.context.dogs[dog.known].name is None
    rides = dog.posture and dog.known is not None
    return bool(dog.facts or dog.confirmed or dog.withdrawn or named or rides)


def _gives_length(page: Page, clauses: Sequence[WeighedClause]) -> bool:
    """Is a length told, with its unit, and nothing says of what: "31 cm. And that's with a wriggler!"."""
    lengths = {at for at, quantity in unplaced(page).items() if quantity.dimension is Dimension.LENGTH}
    telling = [clause for clause, evidence in clauses if not (_wants_answer(evidence) or evidence.known)]
    return any(mark.kind == NUMBER and mark.quantity in lengths for clause in telling for mark in clause.marks)


def weigh_clauses(page: Page, *, open_from: int) -> list[WeighedClause]:
    """Cut a message into clauses, and weigh each.

    open_from   what was asked before this place of the text has been answered
    """
    marks = find_words(page.pieces, page.tidied)
    wrapped = page.tidied.text if page.context.channel is Channel.EMAIL else ""
    known = _known(page)
    return _meant(
        [
            (clause, weigh(clause, page.words.topics, known))
            for clause in cut_into_clauses(marks, page.words.topics, wrapped=wrapped)
            if clause.end > open_from
        ]
    )


def _without_headings(clauses: Sequence[WeighedClause]) -> list[WeighedClause]:
    """Take short questions for headings where the customer answers them herself: "How tall? 11. How long? 12"."""
    pairs = itertools.pairwise(clauses)
    answered = sum(_is_short_question(first) and second[1].measured for first, second in pairs)
    if answered < _ROW:
        return list(clauses)
    return [
        (one[0], replace(one[1], asks=False)) if _is_short_question(one) and at + 1 < len(clauses) else one
        for at, one in enumerate(clauses)
    ]


def _is_short_question(one: WeighedClause) -> bool:
    return one[0].marked and one[0].words <= _HEADING


def _meant(clauses: Sequence[WeighedClause]) -> list[WeighedClause]:
    """Leave out what was said in jest: a clause with "just kidding" right behind it, and orders to a machine."""
    clauses = _without_headings(clauses)
    jests = {at for at, (clause, _) in enumerate(clauses) if _holds(clause, "joke")}
    meant = [one for at, one in enumerate(clauses) if at + 1 not in jests]
    if any(_holds(clause, "command") for clause, _ in meant):
        return [one for one in meant if not _holds(one[0], "orders")]
    return meant


def _holds(clause: Clause, name: str) -> bool:
    return any(name in hit.names for hit in clause.hits)


def _known(page: Page) -> Known:
    """Give what the other steps have found."""
    found = page.quantities.found
    told = page.words.scopes.of_dog
    names = {page.marks[at].start for name in page.names for at in range(name.first, name.last + 1)}
    used = {index for one in page.candidates if one.aside is None for index in one.labels}
    labels = [(page.labels[index].first, page.labels[index].last + 1) for index in used]
    return Known(
        names={start for start in names if page.tidied.text[start].isupper()},
        expected=names | {mark.start for mark in _of_kinds(page, "breed", "atom", "pronoun", "other")},
        body={mark.start for mark in _of_kinds(page, "atom") if _is_of_body(mark)},
        labels={page.marks[at].start for first, last in labels for at in range(first, last)},
        breeds={mark.start for mark in _of_kinds(page, "breed")},
        animals={
            mark.start
            for mark in _of_kinds(page, "animal")
            if not mark.has("breed") and not needs_no_carrier(page, mark)
        },
        objects={one.number for one in page.candidates if one.note == page.words.notes["object"]},
        things={mark.start for mark in _of_kinds(page, "thing")},
        measured={one.number for one in page.candidates if (one.aside is None and one.measure) or one.beside in told},
        money={number for number, quantity in enumerate(found) if quantity.shape == Shape.MONEY},
        durations={number for number, quantity in enumerate(found) if quantity.shape == Shape.DURATION},
        sizes={mark.quantity for at, mark in enumerate(page.marks) if mark.kind == NUMBER and _is_size(page, at)},
    )


def _of_kinds(page: Page, *kinds: str) -> list[Mark]:
    return [page.marks[at] for at in page.index.places(*kinds)]


def _is_of_body(mark: Mark) -> bool:
    """Is it a place of the body or a measure; "back" and "weight" are said of much else."""
    return not mark.among(Small.SAID_OF_MUCH) and any(
        sense.kind == "atom" and sense.form in ("noun", "place") for sense in mark.senses.all
    )


def _is_size(page: Page, at: int) -> bool:
    """Is a number a size of the shop: "the 3", "No. 4"."""
    quantity = page.quantities.found[page.marks[at].quantity]
    if quantity.unit is not None or quantity.low % 1 or quantity.low > _LARGEST_SIZE:
        return False
    candidate = page.candidates[page.marks[at].quantity]
    if (candidate.aside is None and candidate.measure) or quantity.shape not in (Shape.CODE, Shape.AMOUNT):
        return False
    before = page.tidied.folded[max(0, quantity.start - 8) : quantity.start].rstrip(" .#")
    return before.endswith((" the", " in a", "no", "nr", "size", "number")) or quantity.shape == Shape.CODE


def _with_subject_of_before(clauses: Sequence[WeighedClause]) -> list[WeighedClause]:
    """Let a question go on about fit that a telling has begun: "the M looks small, would she not hang out"."""
    found = list(clauses[:1])
    for before, one in itertools.pairwise(clauses):
        asks = one[1].asks and not one[1].known and (one[1].fit > 0 or one[1].vague or _is_of_it(one[0]))
        begun = not before[1].asks and before[1].fit >= ENOUGH and not before[1].known and not before[1].measured
        begun = begun or (before[1].about_fit and not before[1].sure and not before[1].known and _is_of_it(one[0]))
        found.append((one[0], replace(one[1], fit=one[1].fit + before[1].fit)) if asks and begun else one)
    return found


def _is_of_it(clause: Clause) -> bool:
    """Does a clause ask of what was named before: "does it run over the collar"."""
    return clause.form > ENOUGH and _holds(clause, "it")


def _about_other(clauses: Sequence[WeighedClause], *, told: bool) -> list[WeighedClause]:
    """Give the clauses about something else; also "need it by the 3rd" where "doable?" stands right behind it.

    told   measures are told: then what only may be a complaint is part of the story
    """
    found: list[WeighedClause] = []
    before: WeighedClause | None = None
    for one in clauses:
        if (one[1].about_other and not (told and one[1].vague and not one[1].wrong)) or (
            one[1].uneasy and not told and not one[1].about_fit
        ):
            found.append(one)
        elif one[1].refers_back and before is not None and _may_be_meant(before[1]):
            found += [one] if before in found else [before, one]
        before = one
    return found


def _may_be_meant(evidence: Evidence) -> bool:
    return evidence.known >= _NEARLY and not evidence.measured and not evidence.about_fit


def _wants_answer(evidence: Evidence) -> bool:
    return evidence.asks or evidence.wishes or evidence.uneasy


def _calls(clauses: Sequence[WeighedClause]) -> list[WeighedClause]:
    """Is the message no more than a greeting with a question mark: somebody waits for an answer."""
    words = [mark for clause, _ in clauses for mark in clause.marks if mark.kind in (PHRASE, NUMBER)]
    there = any("presence" in hit.names for clause, _ in clauses for hit in clause.hits)
    return [one for one in clauses if one[0].marked] if len(words) <= _CALL and not there else []


def _whole(page: Page, clauses: Sequence[WeighedClause]) -> tuple[Passage, ...]:
    return (page.passage(clauses[0][0].start, clauses[-1][0].end),) if clauses else ()


def _is_only_said_in_passing(
    page: Page, clauses: Sequence[WeighedClause], other: Sequence[WeighedClause], dogs: Sequence[DogReading]
) -> bool:
    """Is a weight all that a complaint or a question of care tells: "the lining tore, she's only 9 lb".

    Or is it no dog's: "if i had a 200 lb dog, would the strap hold".
    """
    facts = [fact for dog in dogs for fact in dog.facts]
    if not facts or any(fact.measure is not Measure.WEIGHT for fact in facts) or page.context.asked:
        return False
    supposed = any(_holds(clause, "supposed") for clause, _ in clauses)
    return supposed or any(evidence.wrong or evidence.sold for _, evidence in other)
