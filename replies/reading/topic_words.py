"""The words of topic.toml, checked and ready to be looked up."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Self

from pydantic import Field

from replies.reading.lexicon import Lexicon, Sense, expand, key
from replies.words import WordList

Phrases = list[str]


class Tells(StrEnum):
    """What a word tells where something has gone wrong."""

    HARM = "harm"
    """Broken, wrong, late."""
    LACK = "lack"
    """Not, never, nothing."""
    CAME = "came"
    """Of what was to come: a parcel, a reply."""
    OURS = "ours"
    """A thing of the shop."""
    LONG = "long"
    """A long time, beside a number of days."""
    IT = "it"
    """It, which may be a thing of the shop."""
    ERRAND = "errand"
    """Of an order: its address, its payment."""
    OWN = "own"
    """A thing of the customer's own."""
    COMPLAINT = "complaint"
    """A complaint by itself."""
    PLEA = "plea"
    """An invitation to answer, where nothing else is told."""


class Group(WordList):
    """Words that speak for the same: how much one of them weighs in a clause, and where (see topic.toml)."""

    asks: float = Field(default=0.0, ge=-2, le=2)
    fit: float = Field(default=0.0, ge=0, le=2)
    other: float = Field(default=0.0, ge=0, le=2)
    tells: Tells | None = None
    idle: bool = False
    weak: bool = False
    wish: bool = False
    wished: bool = False
    first: bool = False
    brief: bool = False
    sold: bool = False
    words: Phrases


class Inversion(WordList):
    """Verbs that ask where one of these words stands behind them."""

    verbs: Phrases
    before: Phrases


class Forms(WordList):
    """Words by whose order a clause is seen to ask."""

    inversions: list[Inversion]
    persons: Phrases
    things: Phrases
    sizes: Phrases
    calling: Phrases
    not_calling: Phrases
    bare: Phrases
    question_words: Phrases
    contracted: Phrases
    relative: Phrases
    joined: Phrases
    time_words: Phrases
    joints: Phrases
    reasons: Phrases
    tellers: Phrases
    of_number: Phrases
    own_acts: Phrases
    just_told: Phrases
    openers: Phrases
    addressed: Phrases
    offers: Phrases
    scant: Phrases
    told_of: Phrases
    pointing: Phrases
    ones: Phrases


class Plain(WordList):
    """Words that tell nothing."""

    words: Phrases


class TopicWords(WordList):
    """topic.toml."""

    forms: Forms
    groups: dict[str, Group]
    plain: Plain


@dataclass(frozen=True, slots=True, kw_only=True)
class FormWords:
    """The words of [forms], ready to be looked up.

    inversions   verb -> the words that make a question of it where they stand behind it
    """

    inversions: Mapping[str, frozenset[str]]
    persons: frozenset[str]
    calling: frozenset[str]
    not_calling: frozenset[str]
    bare: frozenset[str]
    question_words: frozenset[str]
    contracted: frozenset[str]
    relative: frozenset[str]
    joined: frozenset[str]
    time_words: frozenset[str]
    joints: frozenset[str]
    reasons: frozenset[str]
    tellers: frozenset[str]
    of_number: frozenset[str]
    own_acts: frozenset[str]
    just_told: frozenset[str]
    openers: frozenset[str]
    addressed: frozenset[str]
    offers: frozenset[str]
    scant: frozenset[str]
    told_of: frozenset[str]
    pointing: frozenset[str]
    ones: frozenset[str]

    @classmethod
    def of(cls, forms: Forms) -> Self:
        """Make them of a checked word list."""
        sets = {
            name: _folded(phrases)
            for name, phrases in forms.model_dump(exclude={"inversions", "things", "sizes"}).items()
        }
        stands_for = {"PERSON": forms.persons, "THING": forms.things, "SIZE": forms.sizes}
        inversions: dict[str, frozenset[str]] = {}
        for row in forms.inversions:
            before = _folded([word for given in row.before for word in stands_for.get(given, [given])])
            for verb in _folded(row.verbs):
                inversions[verb] = inversions.get(verb, frozenset()) | before
        return cls(inversions=inversions, **sets)


@dataclass(frozen=True, slots=True, kw_only=True)
class TopicVocabulary:
    """The words of topic.toml, ready to be looked up.

    lexicon   phrase -> the groups that it stands in, as senses of kind "group"
    groups    name -> weights
    plain     words that say nothing of what a question is about
    """

    forms: FormWords
    lexicon: Lexicon
    groups: Mapping[str, Group]
    plain: frozenset[str]

    @classmethod
    def of(cls, words: TopicWords) -> Self:
        """Make the vocabulary of a checked word list."""
        lexicon = Lexicon()
        plain = set(map(key, words.plain.words))
        for name, group in words.groups.items():
            for phrase in group.words:
                lexicon.add(phrase, Sense("group", name))
            if group.fit or group.idle:
                rows = (row for phrase in group.words for row in expand(phrase))
                plain.update(row[0] for row in rows if len(row) == 1)
        return cls(forms=FormWords.of(words.forms), lexicon=lexicon, groups=words.groups, plain=frozenset(plain))


def _folded(phrases: Sequence[str]) -> frozenset[str]:
    return frozenset(map(key, phrases))
