"""The words of distractors.toml, checked: what makes a number something else than a measure of the dog."""

from collections.abc import Iterator

from pydantic import Field

from replies.reading.lexicon import Sense
from replies.words import OneList, WordList

Phrases = list[str]


class Near(WordList):
    """What makes a number beside it none of the dog's measures now."""

    note: str
    far: float = Field(ge=0, le=5)
    weak: bool = False
    of_lengths: bool = False
    before: Phrases = Field(default_factory=list)
    after: Phrases = Field(default_factory=list)


class _Objects(WordList):
    note: str
    things: Phrases
    products: Phrases
    parts: Phrases
    links: Phrases
    limits: Phrases
    loose: Phrases


class _NotCarried(WordList):
    note: str
    other_animals: Phrases
    large_animals: Phrases
    surely_none: Phrases
    needs_none: Phrases
    owners: Phrases
    wants_one: Phrases


class _Correction(WordList):
    cues: Phrases
    negations: Phrases
    again: Phrases


class _Sums(WordList):
    results: Phrases
    totals: Phrases
    adding: Phrases


class _Vague(WordList):
    thinks: Phrases
    cues: Phrases
    strong: Phrases
    idle: Phrases
    sound: Phrases


class DistractorWords(WordList):
    """distractors.toml."""

    near: dict[str, Near]
    counted: OneList
    compared: OneList
    objects: _Objects
    not_carried: _NotCarried
    correction: _Correction
    sums: _Sums
    vague: _Vague

    def senses(self) -> Iterator[tuple[str, Sense]]:
        """Give each phrase with a sense it has."""
        for name, near in self.near.items():
            for phrase in near.before:
                yield phrase, Sense("before", name)
            for phrase in near.after:
                yield phrase, Sense("after", name)
        for kind, phrases in (
            ("counted", self.counted.words),
            ("compared", self.compared.words),
            ("thing", self.objects.things),
            ("product", self.objects.products),
            ("part", self.objects.parts),
            ("link", self.objects.links),
            ("limit", self.objects.limits),
            ("loose", self.objects.loose),
            ("animal", self.not_carried.other_animals),
            ("large_animal", self.not_carried.large_animals),
            ("surely_none", self.not_carried.surely_none),
            ("needs_none", self.not_carried.surely_none),
            ("needs_none", self.not_carried.needs_none),
            ("owner", self.not_carried.owners),
            ("wants_one", self.not_carried.wants_one),
            ("correction", self.correction.cues),
            ("negation", self.correction.negations),
            ("again", self.correction.again),
            ("result", self.sums.results),
            ("total", self.sums.totals),
            ("adding", self.sums.adding),
            ("thinks", self.vague.thinks),
            ("vague", self.vague.cues),
            ("guess", self.vague.strong),
            ("sound", self.vague.sound),
        ):
            for phrase in phrases:
                yield phrase, Sense(kind, kind)

    def notes(self) -> dict[str, str]:
        """Give why a number was left, by reason, in the maker's words."""
        return {
            **{name: near.note for name, near in self.near.items()},
            "object": self.objects.note,
            "not_carried": self.not_carried.note,
        }
