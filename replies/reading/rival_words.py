"""The words of rivals.toml, checked and ready to be looked up."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from replies.reading.lexicon import Lexicon, Sense, key
from replies.words import OneList, WordList

Phrases = list[str]


class _Take(WordList):
    first: Phrases
    second: Phrases
    third: Phrases
    again: Phrases
    bare: Phrases
    pointed: Phrases


class _Repeats(OneList):
    takers: Phrases
    average: Phrases


class _Points(WordList):
    to: Phrases
    off: Phrases
    right: Phrases
    wrong: Phrases
    unsettled: Phrases
    open: Phrases


class _Meant(WordList):
    first: Phrases
    second: Phrases
    last: Phrases
    small: Phrases
    large: Phrases
    empty: Phrases


class RivalWords(WordList):
    """rivals.toml."""

    take: _Take
    repeats: _Repeats
    where: OneList
    place: OneList
    badly: OneList
    well: OneList
    not_so: OneList
    points: _Points
    meant: _Meant
    restores: OneList
    takes_back: OneList


@dataclass(frozen=True, slots=True, kw_only=True)
class RivalVocabulary:
    """The words of rivals.toml, ready to be looked up.

    takes, hows, points   phrases of [take]; of [where], [place], [badly], [well], [not_so]; of [points]
    meant                 phrases of [meant]
    repeats, takers       words of [repeats]
    before                phrases of [restores] and [takes_back]
    empty                 words that say nothing of which value is meant
    """

    takes: Lexicon
    hows: Lexicon
    points: Lexicon
    meant: Lexicon
    before: Lexicon
    repeats: frozenset[str]
    takers: frozenset[str]
    empty: frozenset[str]

    @classmethod
    def of(cls, words: RivalWords) -> Self:
        """Make the vocabulary of a checked word list."""
        return cls(
            takes=_lexicon("take", words.take.model_dump()),
            hows=_lexicon(
                "how",
                {
                    "where": words.where.words,
                    "place": words.place.words,
                    "badly": words.badly.words,
                    "well": words.well.words,
                    "average": words.repeats.average,
                    "not": words.not_so.words,
                    "unsettled": words.points.unsettled,
                    "open": [*words.points.open, *words.points.unsettled],
                },
            ),
            points=_lexicon(
                "points", {**words.points.model_dump(), "open": [*words.points.open, *words.points.unsettled]}
            ),
            meant=_lexicon("meant", words.meant.model_dump(exclude={"empty"})),
            before=_lexicon("before", {"restores": words.restores.words, "takes_back": words.takes_back.words}),
            repeats=frozenset(map(key, words.repeats.words)),
            takers=frozenset(map(key, words.repeats.takers)),
            empty=frozenset(map(key, words.meant.empty)),
        )


def _lexicon(kind: str, lists: Mapping[str, Phrases]) -> Lexicon:
    lexicon = Lexicon()
    for name, phrases in lists.items():
        for phrase in phrases:
            lexicon.add(phrase, Sense(kind, name))
    return lexicon
