"""Tells what a message is: about fit, something else that the maker must answer, or nothing to answer."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from replies.reading.distractors import SENTENCE_ENDS
from replies.reading.facts import DogReading, Passage, SetAside, Topic
from replies.reading.marks import PHRASE, STOP, Mark
from replies.reading.page import Page

_BRIEF = 5
"""Marks of a sentence that names a subject and no more: "price please"."""
_SHORT = 14
"""Marks of a message so short that a measure named in it is what it is about."""


def topic_of(page: Page, dogs: Sequence[DogReading], *, open_from: int) -> tuple[Topic, tuple[Passage, ...]]:
    """Give the topic, and the passages that ask something that the maker must answer herself.

    open_from   what was asked before this place of the text has been answered
    """
    sentences = [(start, end) for start, end in _sentences(page.marks) if page.marks[end - 1].end > open_from]
    told = any(dog.facts or dog.confirmed or dog.withdrawn for dog in dogs) or bool(page.length_unit or page.weight_unit)
    other = tuple(
        page.passage(page.marks[start].start, page.marks[end - 1].end)
        for start, end in sentences
        if _asks_other(page.marks[start:end], told=told)
    )
    named = [label.first for label in page.labels if label.rule and label.rule.gives != "none" and not label.letter]
    if told or any(_asks_for_size(page.marks, start, end, named) for start, end in sentences) or _speaks_of_measures(page):
        if _is_of_other_animals(page) and not told:
            return Topic.OTHER, other
        return Topic.SIZING, other
    return (Topic.OTHER if other or _is_of_other_animals(page) else Topic.NONE), other


def _sentences(marks: Sequence[Mark]) -> Iterator[tuple[int, int]]:
    """Part the marks into sentences, each with the sign that ends it."""
    start = 0
    for at, mark in enumerate(marks):
        if mark.kind == STOP and mark.text in SENTENCE_ENDS:
            if at > start:
                yield start, at + 1
            start = at + 1
    if start < len(marks):
        yield start, len(marks)


def _asks_other(sentence: Sequence[Mark], *, told: bool) -> bool:
    """Does a sentence ask or request something that is not about fit, or complain."""
    words = [mark for mark in sentence if mark.kind == PHRASE and mark.senses]
    asking = sentence[-1].text == "?" or any(mark.has("request") for mark in words)
    if any(mark.has("complaint") for mark in words):
        return asking or not told or any(mark.text in ("your", "order", "parcel") for mark in sentence)
    named = [mark for mark in words if mark.has("asks")]
    return bool(named) and (asking or len(sentence) <= _BRIEF)


def _asks_for_size(marks: Sequence[Mark], start: int, end: int, named: Sequence[int]) -> bool:
    sentence = marks[start:end]
    words = [mark for mark in sentence if mark.kind == PHRASE and mark.senses]
    if any(mark.has("sizing") for mark in words):
        return True
    if sentence[-1].text != "?":
        return False
    at = bisect_left(named, start)
    return any(mark.has("measuring") for mark in words) or (at < len(named) and named[at] < end)


def _speaks_of_measures(page: Page) -> bool:
    """Does a short answer name a measure, or take a number back: "on the width i mean"."""
    if not (page.context.dogs or page.context.asked):
        return False
    unplaced = any(candidate.aside is SetAside.UNCLEAR for candidate in page.candidates)
    words = [mark for mark in page.marks if mark.kind == PHRASE]
    if len(words) > _SHORT or any(mark.has("promise") for mark in words):
        return False
    meant = any(mark.has("correction", "swapped", "pick", "stands") for mark in words)
    return (meant and any(label.rule and label.rule.gives != "none" and not label.letter for label in page.labels)) or (unplaced and bool(page.context.asked))


def _is_of_other_animals(page: Page) -> bool:
    words = [mark for mark in page.marks if mark.kind == PHRASE]
    return any(mark.has("animal") and not mark.has("breed") for mark in words) and not any(mark.has("dog", "breed") for mark in words) and not page.context.dogs
