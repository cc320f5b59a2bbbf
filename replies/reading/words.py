"""The vocabulary of the reader: the word lists beside the modules, with the maker's own additions, looked up as one."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from replies.errors import WordListError
from replies.reading.age_words import AgeVocabulary, AgeWords
from replies.reading.composer import Composer, Compounds
from replies.reading.distractor_words import DistractorWords, Near
from replies.reading.email_words import EmailWords
from replies.reading.lexicon import Lexicon, Sense, Typos, expand, key
from replies.reading.quantities import AmountWords, standard_words
from replies.reading.riding_words import RidingVocabulary, RidingWords
from replies.reading.rival_words import RivalVocabulary, RivalWords
from replies.reading.saying_words import SayingWords
from replies.reading.scope_words import ScopeVocabulary, ScopeWords
from replies.reading.small_words import SmallList, SmallWords
from replies.reading.speaker_words import SpeakerWords
from replies.reading.tidy import fold
from replies.reading.topic_words import TopicVocabulary, TopicWords
from replies.reading.word_lists import AnswerWords, DogWords, LabelWords
from replies.words import OWN_WORDS, WordList, read_word_list
from sizing.breeds import spoken_breeds

_AMOUNTS = ("numbers", "unit_words", "hedges", "shapes")
_HERE = Path(__file__).parent
_LISTS = (
    "labels", "dogs", "distractors", "topic", "answers", "riding", "small_words", "sayings", "ages", "speakers",
    "email_words", "rivals", "scopes",
)  # fmt: skip
Shape = TypeVar("Shape", bound=WordList)


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """The vocabulary, ready to be looked up.

    lexicon     every phrase with its senses, but for those of topic.toml
    topics      the words of topic.toml
    riding      the words of riding.toml
    small       the words of small_words.toml
    rivals      the words of rivals.toml
    scopes      the words of scopes.toml
    ages        the words of ages.toml
    sayings     finds the figures of speech of sayings.toml
    speakers    the words of speakers.toml; None: those without additions, read when they are first needed
    emails      the same of email_words.toml
    typos       finds the long word that a misspelt one was meant to be
    compounds   parts words that are made of two known ones
    composer    tells which measure some words name together
    letters     label letter -> name of its word group
    abbreviations  words with a dot behind them that ends no sentence
    shortened   words with a dot behind them that ends none right before a number, and behind no number
    not_names   words that a capital letter does not make a dog's name
    soft_names  everyday words that are also names, where one is plainly given
    titles      words that belong to a name: "Sir"
    amounts     numbers, units and what tells them from dates and prices
    idle        begin what is thought of something else than the numbers: "I guess that's it"
    notes       why a number was left, in the maker's words
    near        what makes a number beside it none of the dog's measures now
    """

    lexicon: Lexicon
    topics: TopicVocabulary
    riding: RidingVocabulary
    small: SmallWords
    rivals: RivalVocabulary
    scopes: ScopeVocabulary
    ages: AgeVocabulary
    sayings: re.Pattern[str]
    speakers: SpeakerWords | None
    emails: EmailWords | None
    typos: Typos
    composer: Composer
    compounds: Compounds
    letters: Mapping[str, str]
    abbreviations: frozenset[str]
    shortened: frozenset[str]
    not_names: frozenset[str]
    soft_names: frozenset[str]
    titles: frozenset[str]
    idle: frozenset[str]
    notes: Mapping[str, str]
    amounts: AmountWords
    near: Mapping[str, Near]


def load_words(own: Mapping[str, Any] | None = None) -> Words:
    """Read the word lists, with the maker's own words added.

    own       in the shape of the word lists, under the name of the list: {"labels": {"words": {"BACK": {"places":
              ["noggin to tush"]}}}}; lists are added to the ones that stand there
    Returns   the vocabulary; the same object again where nothing is added
    Raises    WordListError, which names the file, the key and what to do
    """
    return _standard() if not own else _build(own)


@cache
def _standard() -> Words:
    return _build({})


def _build(own: Mapping[str, Any]) -> Words:
    for name in own:
        if name not in _LISTS and name not in _AMOUNTS:
            known = ", ".join((*_LISTS, *_AMOUNTS))
            raise WordListError(OWN_WORDS, name, f"there is no such list; use one of {known}")
    labels = _list("labels", LabelWords, own)
    dogs = _list("dogs", DogWords, own)
    distractors = _list("distractors", DistractorWords, own)
    topic = _list("topic", TopicWords, own)
    riding = _list("riding", RidingWords, own)
    answers = _list("answers", AnswerWords, own)
    scopes = ScopeVocabulary.of(_list("scopes", ScopeWords, own))
    small = SmallWords.of(_list("small_words", SmallList, own))
    lexicon = Lexicon()
    for words in (labels, dogs, distractors, answers):
        for phrase, sense in words.senses():
            lexicon.add(phrase, sense)
    for phrase, sense in _breed_senses():
        lexicon.add(phrase, sense)
    small.join_in(lexicon)
    for kind, joining in (
        ("connector", labels.connectors.words),
        ("filler", [*labels.connectors.words, *labels.fillers.words]),
    ):
        lexicon.add_to_all_of(joining, Sense(kind, kind))
    return Words(
        lexicon=lexicon,
        topics=TopicVocabulary.of(topic),
        riding=RidingVocabulary.of(riding),
        small=small,
        rivals=RivalVocabulary.of(_list("rivals", RivalWords, own)),
        scopes=scopes,
        ages=AgeVocabulary(_list("ages", AgeWords, own)),
        sayings=_list("sayings", SayingWords, own).pattern(),
        speakers=SpeakerWords.load(own["speakers"]) if "speakers" in own else None,
        emails=EmailWords.load(own["email_words"]) if "email_words" in own else None,
        typos=Typos(map(fold, labels.typos.words), {*map(fold, labels.typos.never), *lexicon.words()}),
        composer=Composer(labels.rules),
        compounds=Compounds(
            {key(phrase): sense for phrase, sense in labels.senses() if sense.kind == "atom"},
            labels.compounds.joints,
        ),
        letters=labels.letters,
        abbreviations=frozenset(map(key, labels.abbreviations.words)),
        shortened=frozenset(map(key, labels.abbreviations.before_number)),
        not_names=frozenset(map(fold, dogs.not_names.words)) | scopes.single,
        soft_names=frozenset(map(fold, dogs.soft_names.words)),
        titles=frozenset(map(fold, dogs.titles.words)),
        idle=frozenset(" ".join(row) for phrase in distractors.vague.idle for row in expand(phrase)),
        notes=distractors.notes(),
        amounts=AmountWords.load({name: part for name, part in own.items() if name in _AMOUNTS})
        if own
        else standard_words(),
        near=distractors.near,
    )


def _list(name: str, shape: type[Shape], own: Mapping[str, Any]) -> Shape:
    return read_word_list(_HERE / f"{name}.toml", shape, own.get(name))


def _breed_senses() -> Iterator[tuple[str, Sense]]:
    for spoken, breeds in spoken_breeds().items():
        if breeds:
            parted = re.sub(r"[\s'’-]+", " ", spoken)
            for phrase in {parted, re.sub(r"[\s'’-]+", " ", spoken.replace("-", ""))}:  # "cock-a-poo", "cockapoo"
                yield phrase, Sense("breed", spoken)
                yield f"{phrase}s", Sense("breed", spoken)
