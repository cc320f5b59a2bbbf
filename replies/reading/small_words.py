"""The small words beside names and numbers, from small_words.toml, ready to be looked up."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Self

from pydantic import field_validator

from replies.reading.lexicon import Lexicon, Sense, expand
from replies.words import WordList


class Small(StrEnum):
    """The lists of small_words.toml, where each says what its words do."""

    ARTICLES = "articles"
    DETERMINERS = "determiners"
    TOPS = "tops"
    ORDERS = "orders"
    LONE_WITH = "lone_with"
    BEHIND_LONE_WITH = "behind_lone_with"
    AROUND = "around"
    OPENS_SPAN = "opens_span"
    MERELY_TO = "merely_to"
    TAPE_ENDS = "tape_ends"
    DRAWN_IN = "drawn_in"
    SAID_OF_MUCH = "said_of_much"
    NOW = "now"
    AT_AGE = "at_age"
    CHANGES_FROM = "changes_from"
    CHANGES = "changes"
    EARLIER = "earlier"
    WAS_BEFORE = "was_before"
    TELLS_OF_BEFORE = "tells_of_before"
    POLITE = "polite"
    MEASURED_ANEW = "measured_anew"
    PASSES_INTO = "passes_into"
    BETWEEN_VALUES = "between_values"
    WHO_KNOW = "who_know"
    AFTERTHOUGHTS = "afterthoughts"
    CALLS_NOTHING_WRONG = "calls_nothing_wrong"
    OPENS_NO_VALUE = "opens_no_value"
    RATHER = "rather"
    SHOULD_BE = "should_be"
    DENIED_OVER = "denied_over"
    ASSERTS = "asserts"
    MEANT_FOR = "meant_for"
    ON_A_SIDE = "on_a_side"
    MEASURING_STEMS = "measuring_stems"
    CLUELESS_STEMS = "clueless_stems"
    OF_SOMETHING = "of_something"
    SAYS_MORE = "says_more"
    THE_REST = "the_rest"
    LEFT_OVER = "left_over"
    LINKING = "linking"
    BETWEEN_ENDS = "between_ends"
    SPEAKERS = "speakers"
    SAYS = "says"
    ONLY_SPEAKS = "only_speaks"
    TRUSTS = "trusts"
    PARTS_VALUES = "parts_values"
    HEDGES_VALUE = "hedges_value"
    WHOSE = "whose"
    HE_OR_SHE = "he_or_she"
    SEVERAL_DOGS = "several_dogs"
    IS_A_DOG = "is_a_dog"
    IS_FURTHER = "is_further"
    IS_SECOND = "is_second"
    SECOND = "second"
    OF_SIZE = "of_size"
    OF_WEIGHT = "of_weight"
    OF_HEIGHT = "of_height"
    OF_LENGTH = "of_length"
    LESSER = "lesser"
    NAMES_PAIR = "names_pair"
    FURTHER = "further"
    COMPARES = "compares"
    LIKENS = "likens"
    OWN_DOG = "own_dog"
    MY_OR_OUR = "my_or_our"
    THE_OR_OUR = "the_or_our"
    BEFORE_OWN_DOG = "before_own_dog"
    ONLY = "only"
    IS_FOR = "is_for"
    TURNS_CLAUSE = "turns_clause"
    OF_WHOM = "of_whom"
    PICTURES = "pictures"
    YOUNG = "young"
    LEADS_ON_OTHER = "leads_on_other"
    FRONT_END = "front_end"
    BACK_END = "back_end"
    PASSENGERS = "passengers"
    GOES_ON_ABOUT = "goes_on_about"
    RIDES = "rides"
    TELLS_OF_ONE = "tells_of_one"
    TELLS_OF_MUCH = "tells_of_much"
    TELLS_OF_SEVERAL = "tells_of_several"
    JOINS_NAMES = "joins_names"
    OF_CUSTOMER = "of_customer"
    OPENS_CLAUSE = "opens_clause"
    BEHIND_WRITER = "behind_writer"
    TOLD_OF_DOG = "told_of_dog"
    AGED = "aged"
    OPENS_SUPPOSING = "opens_supposing"
    SEATED = "seated"
    I_AM = "i_am"
    OVER_TO_PERSON = "over_to_person"
    LOOSE_LINKS = "loose_links"
    FOR_WHOM = "for_whom"
    MEASURES_SO = "measures_so"
    WHEREABOUTS = "whereabouts"
    OPENS_OTHER = "opens_other"
    SHAPE_OF_THING = "shape_of_thing"
    NUMBERED = "numbered"
    NUMBER_ENDINGS = "number_endings"
    SIZE_HEADS = "size_heads"
    SIZE_LETTERS = "size_letters"
    UNIT_IN_PASSING = "unit_in_passing"
    TOOLS = "tools"
    BEHIND_MM = "behind_mm"

    __hash__ = str.__hash__
    """Without it each look-up would call the slower one of enumerations."""


class SmallList(WordList):
    """small_words.toml."""

    words: dict[Small, list[str]]

    @field_validator("words")
    @classmethod
    def _has_every_list(cls, words: dict[Small, list[str]]) -> dict[Small, list[str]]:
        missing = [one for one in Small if one not in words]
        if missing:
            raise ValueError(f"the list {missing[0]} is missing")
        return words


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallWords:
    """The words of small_words.toml.

    lists   list -> its words and phrases
    among   word or phrase -> the lists in which it stands
    """

    lists: Mapping[Small, frozenset[str]]
    among: Mapping[str, frozenset[Small]]

    @classmethod
    def of(cls, words: SmallList) -> Self:
        """Make the vocabulary of a checked word list."""
        lists = {one: frozenset(map(" ".join, _rows(phrases))) for one, phrases in words.words.items()}
        among: dict[str, set[Small]] = {}
        for one, phrases in lists.items():
            for phrase in phrases:
                among.setdefault(phrase, set()).add(one)
        return cls(lists=lists, among={phrase: frozenset(found) for phrase, found in among.items()})

    def join_in(self, lexicon: Lexicon) -> None:
        """Add the phrases of several words that no other list holds, so that they are found as one."""
        for phrase in self.among:
            row = phrase.split()
            found = lexicon.find([*row, "\0"], 0) if len(row) > 1 else None
            if len(row) > 1 and (found is None or found[0] < len(row)):
                lexicon.add(phrase, Sense("small", "small"))

    def holds_one_of(self, text: str, which: Small) -> bool:
        """Does a phrase hold, as whole words, one of the words of a list."""
        return any(f" {words} " in f" {text} " for words in self.lists[which])

    def ends_with_one_of(self, text: str, which: Small) -> bool:
        """Is the last word of a phrase in a list."""
        return text.rpartition(" ")[2] in self.lists[which]


def _rows(phrases: list[str]) -> Iterator[tuple[str, ...]]:
    return (row for phrase in phrases for row in expand(phrase))
