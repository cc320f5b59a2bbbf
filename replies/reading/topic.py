"""Tells what a message is: about fit, something else that the maker must answer, or nothing to answer."""

from collections.abc import Sequence

from replies.reading.corrections import sentence_of
from replies.reading.facts import DogReading, Passage, Topic
from replies.reading.marks import PHRASE, Mark
from replies.reading.page import Page


def topic_of(page: Page, dogs: Sequence[DogReading]) -> tuple[Topic, tuple[Passage, ...]]:
    """Give the topic, and the passages that ask something that the maker must answer herself."""
    other = _other_passages(page)
    told = any(dog.facts or dog.confirmed or dog.withdrawn for dog in dogs) or page.length_unit or page.weight_unit
    if told or _asks_for_size(page.marks):
        return Topic.SIZING, other
    return (Topic.OTHER if other else Topic.NONE), other


def _asks_for_size(marks: Sequence[Mark]) -> bool:
    return any(mark.kind == PHRASE and mark.has("sizing") for mark in marks)


def _other_passages(page: Page) -> tuple[Passage, ...]:
    found: dict[tuple[int, int], None] = {}
    for at, mark in enumerate(page.marks):
        if mark.kind == PHRASE and mark.has("asks"):
            start, end = sentence_of(page.marks, at)
            found[(page.marks[start].start, page.marks[end - 1].end)] = None
    return tuple(page.passage(start, end) for start, end in found)
