"""Reads a message: whose back each amount is, or why it is nobody's. Its steps stand in `read`, in order."""

from collections.abc import Sequence
from dataclasses import replace

from replies.reading.ages import see_ages
from replies.reading.alternating import read_alternating
from replies.reading.ambiguous import settle_ambiguous
from replies.reading.answers import read_answers
from replies.reading.asked_back import read_asked_back
from replies.reading.assign import assign
from replies.reading.carry import carry_measures
from replies.reading.confirmations import read_confirmations
from replies.reading.context import Context
from replies.reading.contrasts import settle_contrasts
from replies.reading.corrections import see_corrections
from replies.reading.cues import SingleWords
from replies.reading.distance import Distance
from replies.reading.distractors import mark_older, set_distractors_aside
from replies.reading.dogs import find_dogs, meet_known_dogs
from replies.reading.facts import Aside, Passage, Reading, SetAside, Topic
from replies.reading.findings import dog_readings, set_aside
from replies.reading.labels import find_labels
from replies.reading.letter import Letter, open_letter
from replies.reading.likeness import likened_names, see_likenesses
from replies.reading.lists import read_lists, read_triples
from replies.reading.mark_index import MarkIndex
from replies.reading.marks import cut, find_marks
from replies.reading.names import find_names
from replies.reading.page import Candidate, Page
from replies.reading.quantities import read_quantities
from replies.reading.records import plain_records
from replies.reading.repairs import mending_numbers
from replies.reading.repeated import part_repeated
from replies.reading.riding import see_riding
from replies.reading.rivals import settle_rivals
from replies.reading.sayings import set_sayings_aside
from replies.reading.scopes import see_scopes
from replies.reading.stacked import read_stacked
from replies.reading.sums import see_sums
from replies.reading.tables import read_tables
from replies.reading.taken_back import see_taken_back
from replies.reading.tidy import Tidied, fold, tidy
from replies.reading.topic import topic_of, weigh_clauses
from replies.reading.tries import names_in_tries, see_tries, take_averages
from replies.reading.units import mend_units, see_late_units, take_asked_units
from replies.reading.words import Words
from sizing.reasons import Why

_FAR = 3.0
"""A name that stands so far away that the number may as well be bare: what was asked then decides."""
_LONGEST_TEXT, _LONGEST_OWN = 250_000, 60_000
"""No person writes more characters in one message, with and without what she quotes: what lies behind is not read."""
_BEGINNING = 60
"""So many characters of it are shown to the maker."""
_NEARLY = 0.75
"""Another measure that costs no more than this above the best is nearly as good: neither is taken."""


def read(text: str, context: Context, words: Words) -> Reading:
    """Read a message.

    text      as it came; of an e-mail the body as plain text
    context   what was known and asked before it
    Returns   what is said of each dog, what it is about, and every number that was left, with the reason
    Raises    nothing, whatever the text is; in linear time
    """
    tidied = tidy(text[:_LONGEST_TEXT])
    letter = open_letter(tidied.text, context, words)
    page = _lay_out(tidied, letter, context, words)
    meet_known_dogs(page)
    page.names = find_names(page)
    see_tries(page)
    see_scopes(page)
    set_distractors_aside(page)
    set_sayings_aside(page)
    mark_older(page, letter.older)
    _name_measures(page)
    take_averages(page)
    find_dogs(page)
    part_repeated(page)
    carry_measures(page)
    see_corrections(page)
    settle_contrasts(page)
    settle_rivals(page)
    see_sums(page)
    settle_ambiguous(page)
    read_triples(page)
    mend_units(page)
    see_late_units(page)
    take_asked_units(page, letter.units)
    see_taken_back(page)
    read_answers(page, letter)
    read_asked_back(page, letter)
    read_confirmations(page)
    see_likenesses(page)
    clauses = weigh_clauses(page, open_from=letter.open_from)
    see_riding(page, [(clause, evidence.asks) for clause, evidence in clauses])
    see_ages(page)
    dogs = dog_readings(page)
    topic, other = topic_of(page, dogs, clauses)
    if topic is Topic.NONE and letter.asks_fit:
        topic = Topic.SIZING
    if not context.dogs and (topic is Topic.OTHER or (topic is Topic.NONE and any(dog.facts for dog in dogs))):
        dogs = ()
    return Reading(
        topic=topic,
        also_other=topic is Topic.SIZING and bool(other),
        other=other,
        dogs=dogs,
        length_unit=page.length_unit,
        weight_unit=page.weight_unit,
        aside=(*set_aside(page), *_unread(text, page, letter)),
        together=page.together,
    )


def _lay_out(whole: Tidied, letter: Letter, context: Context, words: Words) -> Page:
    """Find the numbers, the known phrases and the names of measures in the customer's own words."""
    own = plain_records(letter.own[: _end_of_reading(letter)], words)
    tidied = whole if own == whole.text else replace(whole, text=own, folded=fold(own))
    quantities = read_quantities(tidied, words.amounts)
    pieces = cut(tidied, quantities, words)
    marks = find_marks(pieces, tidied, words)
    return Page(
        tidied=tidied,
        context=context,
        words=words,
        quantities=quantities,
        pieces=pieces,
        marks=marks,
        index=MarkIndex(marks),
        single=SingleWords.of(marks, tidied.folded),
        labels=find_labels(marks, words, quantities.found),
        distance=Distance(marks, quantities.found),
        quoted=frozenset(str(measure) for questions in letter.questions for measure in questions.measures),
        candidates=[Candidate(number=number) for number in range(len(quantities.found))],
    )


def _end_of_reading(letter: Letter) -> int:
    """Give where the longest text ends that is read: counted from the first of the customer's own words."""
    return len(letter.own) - len(letter.own.lstrip()) + _LONGEST_OWN


def _unread(text: str, page: Page, letter: Letter) -> tuple[Aside, ...]:
    """Tell the maker where a message became longer than anybody writes."""
    if len(text) <= _LONGEST_TEXT and not letter.own[_end_of_reading(letter) :].strip():
        return ()
    start = page.tidied.origin(len(page.tidied.text), end=True)
    beginning = Passage(start=start, end=min(start + _BEGINNING, len(text)), words=text[start : start + _BEGINNING])
    return (Aside(at=beginning, why=SetAside.UNCLEAR, note="longer than anybody writes: not read from here on"),)


def _name_measures(page: Page) -> None:
    """Give numbers the measures whose names stand beside them."""
    numbers, names = read_tables(page)
    stacked, below = read_stacked(page, without=numbers)
    numbers, names = numbers | stacked, names | below
    listed, named = read_lists(page, without=numbers)
    turns, turned = read_alternating(page, without=numbers | listed)
    listed, named = listed | turns, named | turned
    numbers, names = (
        numbers | listed | {one.number for one in page.candidates if one.measure == "weight"},
        names | named,
    )
    numbers = numbers | mending_numbers(page)
    free = [
        candidate.number
        for candidate in page.candidates
        if _may_have_name(candidate) and candidate.number not in numbers
    ]
    names |= likened_names(page) | names_in_tries(page)
    names |= {index for index, label in enumerate(page.labels) if label.undone}
    labels = [label for index, label in enumerate(page.labels) if index not in names]
    places = [index for index in range(len(page.labels)) if index not in names]
    asked = frozenset(str(one.measure) for one in page.context.asked) | page.quoted
    for given in assign(free, page.quantities.found, labels, distance=page.distance, words=page.words, asked=asked):
        candidate = page.candidates[given.number]
        if candidate.aside is not None:
            candidate.measure, candidate.labels = given.measure, tuple(places[index] for index in given.labels)
        elif given.margin < _NEARLY and given.cost > _FAR:
            continue
        elif given.margin < _NEARLY:
            candidate.leave(SetAside.UNCLEAR, "two readings are nearly as good")
            candidate.labels = tuple(places[index] for index in given.labels if not labels[index].letter)
        elif given.measure == "none" and _answers_length(page, given.labels, places, asked):
            continue
        elif given.measure == "none":
            candidate.leave(SetAside.NOT_A_MEASURE, "of a part of the body that no carrier needs")
            candidate.beside = "body"
        else:
            candidate.measure = given.measure
            candidate.labels = tuple(places[index] for index in given.labels)
            candidate.hints = frozenset((Why(given.hint),)) if given.hint else frozenset()


def _answers_length(page: Page, labels: Sequence[int], places: Sequence[int], asked: frozenset[str]) -> bool:
    """Is "29 cm until the tail" said to the question for the back: it tells where the tape ended."""
    atoms = frozenset().union(*(page.labels[places[index]].atoms for index in labels))
    return "length" in asked and atoms <= {"TAILBASE", "TAIL", "UPTO"}


def _may_have_name(candidate: Candidate) -> bool:
    """May the name of a measure beside the number be its own: also where it is an earlier or a wrong value."""
    return candidate.aside is None or candidate.beside is not None or candidate.aside is SetAside.WITHDRAWN
