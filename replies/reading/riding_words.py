"""The words of riding.toml, checked and ready to be looked up."""

from dataclasses import dataclass
from typing import Self

from replies.reading.lexicon import Lexicon, Sense, key
from replies.words import OneList, WordList
from sizing.measures import Posture

Phrases = list[str]


class _Ways(WordList):
    ways: Phrases
    alone: Phrases


class _Together(WordList):
    one: Phrases
    each: Phrases


class _Several(WordList):
    joints: Phrases
    all: Phrases


class _Limit(WordList):
    words: Phrases
    own: Phrases


class RidingWords(WordList):
    """riding.toml."""

    posture: dict[Posture, _Ways]
    not_told: OneList
    together: _Together
    limit: _Limit
    several: _Several


@dataclass(frozen=True, slots=True, kw_only=True)
class RidingVocabulary:
    """The words of riding.toml, ready to be looked up.

    ways, alone   phrases -> a sense of kind "posture", its name the posture
    others        phrases -> senses "not_told", "one", "each", "limit", "own"
    joints        words that part what is told of one dog from what is told of another
    all_dogs      words that stand for all of them
    """

    ways: Lexicon
    alone: Lexicon
    others: Lexicon
    joints: frozenset[str]
    all_dogs: frozenset[str]

    @classmethod
    def of(cls, words: RidingWords) -> Self:
        """Make the vocabulary of a checked word list."""
        ways, alone, others = Lexicon(), Lexicon(), Lexicon()
        for posture, told in words.posture.items():
            for lexicon, phrases in ((ways, told.ways), (alone, told.alone)):
                for phrase in phrases:
                    lexicon.add(phrase, Sense("posture", posture.value))
        kinds = (
            ("not_told", words.not_told.words),
            ("one", words.together.one),
            ("each", words.together.each),
            ("limit", words.limit.words),
            ("own", words.limit.own),
        )
        for kind, phrases in kinds:
            for phrase in phrases:
                others.add(phrase, Sense(kind, kind))
        return cls(
            ways=ways,
            alone=alone,
            others=others,
            joints=frozenset(map(key, words.several.joints)),
            all_dogs=frozenset(map(key, words.several.all)),
        )
