"""The shapes of the reader's word lists, and the senses of the phrases in them."""

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from replies.reading.lexicon import Sense
from replies.words import OneList, WordList

Phrases = list[str]


class _Forms(WordList):
    """What names a measure, by part of speech."""

    nouns: Phrases = Field(default_factory=list)
    adjectives: Phrases = Field(default_factory=list)
    verbs: Phrases = Field(default_factory=list)
    places: Phrases = Field(default_factory=list)

    def forms(self) -> Iterator[tuple[str, str]]:
        """Give each phrase with its part of speech."""
        for form, phrases in (
            ("noun", self.nouns),
            ("adjective", self.adjectives),
            ("verb", self.verbs),
            ("place", self.places),
        ):
            for phrase in phrases:
                yield phrase, form


class Rule(WordList):
    """Which words together name which measure."""

    all: frozenset[str] = frozenset()
    any: frozenset[str] = frozenset()
    also: frozenset[str] = frozenset()
    gives: Literal[
        "length", "height", "width", "throat_height", "weight", "girth", "neck", "chest", "largo", "large", "none"
    ]
    hint: Literal["girth", "head", "tail", "throat"] | None = None
    far: float = Field(default=0.0, ge=0, le=5)


class _ListWords(OneList):
    respectively: Phrases


class _Typos(OneList):
    never: Phrases


class _Compounds(WordList):
    joints: Phrases


class _Undone(WordList):
    before: Phrases
    after: Phrases


class _Abbreviations(OneList):
    before_number: Phrases


class LabelWords(WordList):
    """labels.toml."""

    words: dict[str, _Forms]
    connectors: OneList
    upto: OneList
    idioms: OneList
    undone: _Undone
    fillers: OneList
    list_words: _ListWords
    typos: _Typos
    abbreviations: _Abbreviations
    compounds: _Compounds
    letters: dict[str, str]
    rules: list[Rule]

    def senses(self) -> Iterator[tuple[str, Sense]]:
        """Give each phrase with a sense it has."""
        for name, forms in self.words.items():
            for phrase, form in forms.forms():
                yield phrase, Sense("atom", name, form)
        for kind, phrases in (
            ("connector", self.connectors.words),
            ("connector", self.upto.words),
            ("upto", self.upto.words),
            ("idiom", self.idioms.words),
            ("undone_before", self.undone.before),
            ("undone_after", self.undone.after),
            ("filler", self.fillers.words),
            ("list", self.list_words.words),
            ("respectively", self.list_words.respectively),
        ):
            for phrase in phrases:
                yield phrase, Sense(kind, kind)


class _Pronouns(WordList):
    he: Phrases
    she: Phrases
    they: Phrases
    it: Phrases


class _Other(OneList):
    first: Phrases
    wishes: Phrases
    kin: Phrases
    marks: Phrases


class _Different(WordList):
    length: Phrases
    height: Phrases
    width: Phrases
    weight: Phrases
    unclear: Phrases
    less: Phrases
    more: Phrases


class _Naming(WordList):
    before: Phrases
    after: Phrases


class DogWords(WordList):
    """dogs.toml."""

    pronouns: _Pronouns
    dog: OneList
    both: OneList
    other: _Other
    same: OneList
    different: _Different
    naming: _Naming
    closings: OneList
    titles: OneList
    before_name: OneList
    soft_names: OneList
    not_names: OneList
    people: OneList

    def senses(self) -> Iterator[tuple[str, Sense]]:
        """Give each phrase with a sense it has."""
        for name in ("he", "she", "they", "it"):
            for phrase in getattr(self.pronouns, name):
                yield phrase, Sense("pronoun", name)
        for measure in ("length", "height", "width", "weight", "unclear"):
            for phrase in getattr(self.different, measure):
                yield phrase, Sense("different", measure)
                yield phrase, Sense("compared", "compared")
        for kind, phrases in (
            ("dog", self.dog.words),
            ("both", self.both.words),
            ("other", self.other.words),
            ("first", self.other.first),
            ("wish", self.other.wishes),
            ("before_name", self.other.wishes),
            ("kin", self.other.kin),
            ("mark", self.other.marks),
            ("same", self.same.words),
            ("less", self.different.less),
            ("more", self.different.more),
            ("naming", self.naming.before),
            ("after_name", self.naming.after),
            ("closing", self.closings.words),
            ("title", self.titles.words),
            ("before_name", self.before_name.words),
            ("person", self.people.words),
        ):
            for phrase in phrases:
                yield phrase, Sense(kind, kind)


class _Order(WordList):
    first: Phrases
    second: Phrases
    third: Phrases
    fourth: Phrases
    last: Phrases
    other: Phrases


class _Stands(OneList):
    not_words: Phrases
    agrees: Phrases
    no: Phrases


class _Swapped(OneList):
    yes: Phrases


class _Pick(WordList):
    first: Phrases
    last: Phrases
    small: Phrases
    large: Phrases
    right: Phrases


class AnswerWords(WordList):
    """answers.toml."""

    order: _Order
    stands: _Stands
    heavy: OneList
    swapped: _Swapped
    pick: _Pick
    promise: OneList

    def senses(self) -> Iterator[tuple[str, Sense]]:
        """Give each phrase with a sense it has."""
        for name in ("first", "second", "third", "fourth", "last", "other"):
            for phrase in getattr(self.order, name):
                yield phrase, Sense("order", name)
        for name in ("first", "last", "small", "large", "right"):
            for phrase in getattr(self.pick, name):
                yield phrase, Sense("pick", name)
        for kind, phrases in (
            ("stands", self.stands.words),
            ("stands_not", self.stands.not_words),
            ("agrees", self.stands.agrees),
            ("heavy", self.heavy.words),
            ("no", self.stands.no),
            ("swapped", self.swapped.words),
            ("yes", self.swapped.yes),
            ("promise", self.promise.words),
        ):
            for phrase in phrases:
                yield phrase, Sense(kind, kind)
