"""The words of scopes.toml, checked and ready to be looked up."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Self

from pydantic import Field

from replies.reading.lexicon import Lexicon, Sense
from replies.reading.tidy import fold
from replies.words import WordList

Phrases = list[str]


class _Kind(WordList):
    note: str
    other: bool
    weak: bool = False
    of_dog: bool = False
    opens: Phrases
    behind: Phrases
    beside: Phrases
    never: Phrases
    pointing: Phrases = Field(default_factory=list)
    pointed: Phrases = Field(default_factory=list)
    close_by: Phrases = Field(default_factory=list)
    if_young: Phrases = Field(default_factory=list)
    outdone: Phrases = Field(default_factory=list)
    around: Phrases = Field(default_factory=list)
    than_dog: Phrases = Field(default_factory=list)
    others_dog: Phrases = Field(default_factory=list)
    before_dog: Phrases = Field(default_factory=list)
    whole: Phrases = Field(default_factory=list)
    bars: Phrases = Field(default_factory=list)
    contrasted: Phrases = Field(default_factory=list)


class _Turns(WordList):
    now: Phrases
    truly: Phrases
    scale: Phrases
    off: Phrases
    subject: Phrases
    meant: Phrases
    own: Phrases


class ScopeWords(WordList):
    """scopes.toml."""

    kinds: dict[str, _Kind]
    turns: _Turns


@dataclass(frozen=True, slots=True, kw_only=True)
class ScopeVocabulary:
    """The words of scopes.toml, ready to be looked up.

    cues    phrases -> senses whose kind says how they reach ("opens", "behind", ..., "turn"), and whose name is the
            kind of scope, or which words of [turns] they are
    single  those of one word: none of them is a dog's name
    notes   kind of scope -> what the maker reads
    others  kinds that are of another dog, animal or person
    of_dog  kinds by which a message still speaks of the dog's measures
    weak    kinds whose numbers only give way to others
    """

    cues: Lexicon
    single: frozenset[str]
    notes: Mapping[str, str]
    others: frozenset[str]
    weak: frozenset[str]
    of_dog: frozenset[str]

    @classmethod
    def of(cls, words: ScopeWords) -> Self:
        """Make the vocabulary of a checked word list."""
        cues, single = Lexicon(), set()
        for how, kind, phrase in _phrases(words):
            cues.add(phrase, Sense(how, kind))
            if phrase.isalpha():
                single.add(fold(phrase))
        return cls(
            cues=cues,
            single=frozenset(single),
            notes={name: kind.note for name, kind in words.kinds.items()},
            others=frozenset(name for name, kind in words.kinds.items() if kind.other),
            of_dog=frozenset(name for name, kind in words.kinds.items() if kind.of_dog),
            weak=frozenset(name for name, kind in words.kinds.items() if kind.weak),
        )


def _phrases(words: ScopeWords) -> Iterator[tuple[str, str, str]]:
    for name, kind in words.kinds.items():
        for how, phrases in kind.model_dump(exclude={"note", "other", "weak", "of_dog"}).items():
            for phrase in phrases:
                yield how, name, phrase
    for name, phrases in words.turns.model_dump().items():
        for phrase in phrases:
            yield "turn", name, phrase
