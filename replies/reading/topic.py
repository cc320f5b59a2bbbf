"""Tells what a message is: about fit, something else that the maker must answer, or nothing to answer."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from replies.reading.distractors import SENTENCE_ENDS
from replies.reading.dogs import is_of_other_animals
from replies.reading.facts import DogReading, Passage, SetAside, Topic
from replies.reading.marks import NUMBER, PHRASE, STOP, Mark, find_topic_marks
from replies.reading.page import Page
from replies.reading.shapes import Shape
from sizing.measures import Measure

_BRIEF = 5
"""Marks of a sentence that names a subject and no more: "price please"."""
_GREETING = 4
_SHORT = 14
"""Marks of a message so short that a measure named in it is what it is about."""


@dataclass(frozen=True, slots=True)
class _Sentence:
    """A sentence with what it asks.

    asking   it is a question or a request
    """

    marks: Sequence[Mark]
    asking: bool

    def has(self, *kinds: str) -> bool:
        return any(mark.has(*kinds) for mark in self.marks if mark.senses)

    @property
    def start(self) -> int:
        return self.marks[0].start

    @property
    def end(self) -> int:
        return self.marks[-1].end


def topic_of(page: Page, dogs: Sequence[DogReading], *, open_from: int) -> tuple[Topic, tuple[Passage, ...]]:
    """Give the topic, and the passages that ask something that the maker must answer herself.

    open_from   what was asked before this place of the text has been answered
    """
    marks = find_topic_marks(page.tidied, page.quantities, page.words)
    sentences = [sentence for sentence in _sentences(marks) if sentence.end > open_from]
    told = _is_told(page, dogs)
    sizes = [sentence for sentence in sentences if _asks_for_size(page, sentence)]
    other = [sentence for sentence in sentences if _asks_other(page, sentence, told=told)]
    passages = tuple(page.passage(sentence.start, sentence.end) for sentence in other)
    if is_of_other_animals(page):
        return Topic.OTHER, passages
    if told and not sizes and _is_only_said_in_passing(sentences, dogs):
        return Topic.OTHER, passages
    if told or sizes or _speaks_of_measures(page):
        return Topic.SIZING, passages
    if other or any(_asks_anything(sentence) for sentence in sentences):
        return Topic.OTHER, passages
    return Topic.NONE, ()


def _is_told(page: Page, dogs: Sequence[DogReading]) -> bool:
    return any(dog.facts or dog.confirmed or dog.withdrawn for dog in dogs) or bool(page.length_unit or page.weight_unit)


def _sentences(marks: Sequence[Mark]) -> Iterator[_Sentence]:
    """Part the marks into sentences, each with the sign that ends it."""
    start = 0
    for at, mark in enumerate(marks):
        if mark.kind == STOP and mark.text in SENTENCE_ENDS:
            if at > start:
                yield _sentence(marks[start : at + 1])
            start = at + 1
    if start < len(marks):
        yield _sentence(marks[start:])


def _sentence(marks: Sequence[Mark]) -> _Sentence:
    asking = marks[-1].text == "?" or any(mark.has("request") or _asks_by_itself(mark) for mark in marks if mark.senses)
    return _Sentence(marks, asking)


_ASKING = ("how ", "what ", "which ", "when ", "where ", "who ", "can ", "could ", "do ", "does ", "is ", "are ", "will ", "would ", "combien", "cuanto", "quanto", "was ", "wie ", "wat ", "hoeveel", "ile ", "need ")


def _asks_by_itself(mark: Mark) -> bool:
    return mark.has("asks", "size", "fit") and mark.text.startswith(_ASKING)


def _asks_other(page: Page, sentence: _Sentence, *, told: bool) -> bool:
    """Does a sentence ask or request something that is not about fit, or complain."""
    if sentence.has("complaint"):
        return sentence.asking or not told or any(mark.text in ("your", "order", "parcel") for mark in sentence.marks)
    if sentence.asking and any(mark.kind == NUMBER and page.quantities.found[mark.quantity].shape == Shape.MONEY for mark in sentence.marks):
        return sentence.marks[-1].text == "?"
    if not sentence.has("asks"):
        return False
    brief = len(sentence.marks) <= _BRIEF and not any(mark.text in (":", "=") for mark in sentence.marks)
    return sentence.asking or brief


def _asks_for_size(page: Page, sentence: _Sentence) -> bool:
    """Does a sentence ask which size, whether one fits, or how to measure."""
    if any(mark.has("size") and not _is_numbered(sentence.marks, at) for at, mark in enumerate(sentence.marks) if mark.senses):
        return sentence.asking or not sentence.has("praise")
    if not sentence.asking:
        return False
    if sentence.has("fit"):
        return sentence.marks[-1].text == "?" or not sentence.has("praise")
    if sentence.marks[-1].text != "?" or sentence.has("asks"):
        return False
    return sentence.has("measuring") or _names_measure(page, sentence)


def _is_numbered(marks: Sequence[Mark], at: int) -> bool:
    """Is it "size 69": of something else."""
    return marks[at].text == "size" and at + 1 < len(marks) and marks[at + 1].kind == NUMBER


def _names_measure(page: Page, sentence: _Sentence) -> bool:
    places = [page.marks[label.first].start for label in page.labels if label.rule and label.rule.gives != "none" and not label.letter]
    at = bisect_left(places, sentence.start)
    return at < len(places) and places[at] < sentence.end


def _asks_anything(sentence: _Sentence) -> bool:
    """Is it a question of whatever kind that is more than a greeting."""
    words = sum(mark.kind == PHRASE for mark in sentence.marks)
    return sentence.marks[-1].text == "?" and words > 2 and not (sentence.has("greeting") and words <= _GREETING)


def _speaks_of_measures(page: Page) -> bool:
    """Does a short answer name a measure, or take a number back: "on the width i mean"."""
    if not (page.context.dogs or page.context.asked):
        return False
    unplaced = any(candidate.aside is SetAside.UNCLEAR for candidate in page.candidates)
    words = [mark for mark in page.marks if mark.kind == PHRASE]
    if len(words) > _SHORT or any(mark.has("promise") for mark in words):
        return False
    meant = any(mark.has("correction", "swapped", "pick", "stands") for mark in words)
    named = any(label.rule and label.rule.gives != "none" and not label.letter for label in page.labels)
    return (meant and named) or (unplaced and bool(page.context.asked))



def _is_only_said_in_passing(sentences: Sequence[_Sentence], dogs: Sequence[DogReading]) -> bool:
    """Is a weight all that a complaint tells: "the lining tore, she's only 9 pounds"."""
    told = {fact.measure for dog in dogs for fact in dog.facts}
    return told <= {Measure.WEIGHT} and any(sentence.has("complaint") for sentence in sentences)
