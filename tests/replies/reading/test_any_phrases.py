"""What holds for any mix of the phrases that the reader knows: it is read, and no unit becomes another measure's."""

import tomllib
from collections.abc import Iterator
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

import replies.reading
from replies.reading.context import Channel
from replies.reading.lexicon import expand
from replies.reading.quantities import read_quantities
from replies.reading.read import read
from replies.reading.tidy import tidy
from replies.reading.unit_words import Dimension
from replies.reading.words import load_words
from tests.replies.reading.readings import context_of, known, reading

_LISTS = sorted(Path(replies.reading.__file__).parent.glob("*.toml"))
_KEPT_OF_PHRASE = 3
LENGTHS = ["13", "33 cm", "5'4\"", "a foot", "12-13 in", "5 1/2"]
WEIGHTS = ["12 lb", "4,5 kg", "7 kilos 200", "half a pound", "850 g", "1 st 2"]
NUMBERS = [*LENGTHS, *WEIGHTS, "1.", "2)", "3:", "four", "half"]
SIGNS = [
    ",",
    ".",
    ":",
    ";",
    "/",
    "-",
    "(",
    ")",
    "\n",
    "\n\n",
    "?",
    "!",
    '"',
    "'",
    "|",
    "x",
    "=",
    "> ",
    "#",
    "[",
    "]",
    "~",
]
ORDERS = ["1.", "2)", "3:", "first", "the second is", "the last one", "the other", "and", "sorry,", "it really is", ""]
ASKED = st.lists(
    st.sampled_from(["length", "height", "width", "throat_height", "weight", "height/unit", "width/girth", "2 weight"]),
    max_size=4,
    unique=True,
)


def _phrases(table: object) -> Iterator[str]:
    if isinstance(table, str):
        yield from (" ".join(words) for words in expand(table)[:_KEPT_OF_PHRASE])
    elif isinstance(table, list):
        for one in table:
            yield from _phrases(one)
    elif isinstance(table, dict):
        for one in table.values():
            yield from _phrases(one)


PHRASES = [sorted(set(_phrases(tomllib.loads(path.read_text(encoding="utf-8"))))) for path in _LISTS]
PHRASE = st.one_of([st.sampled_from(phrases) for phrases in PHRASES])
ANY = st.one_of(PHRASE, PHRASE.map(str.title), st.sampled_from(NUMBERS), st.sampled_from(SIGNS))
MIXED = st.builds(str.join, st.sampled_from([" ", " ", " ", ""]), st.lists(ANY, max_size=25))
ANSWER = st.builds("{} {}".format, st.sampled_from(ORDERS), st.sampled_from([*LENGTHS, *WEIGHTS]))
ANSWERS = st.builds(str.join, st.sampled_from(["\n", ", ", ". ", " "]), st.lists(ANSWER, max_size=5))
DOGS = [known(), known("Otto", length=13), known("Ada", height=11, weight=12)]


@settings(max_examples=400)
@given(MIXED, ASKED, st.sampled_from(Channel), st.sampled_from(range(len(DOGS) + 1)))
def test_any_mix_of_known_phrases_is_read(text: str, asked: list[str], channel: Channel, dogs: int) -> None:
    context = context_of(channel, asked, DOGS[:dogs], first=not dogs)

    told = read(text, context, load_words())

    assert [one.at.words for one in told.aside] == [text[one.at.start : one.at.end] for one in told.aside]


@settings(max_examples=300)
@given(ANSWERS, ASKED)
def test_no_answer_takes_a_length_for_a_weight_or_the_other_way_about(text: str, asked: list[str]) -> None:
    for dog in reading(text, asked=asked, first=False).dogs:
        for fact in dog.facts:
            (said,) = read_quantities(tidy(fact.at.words)).found
            assert said.dimension in (None, Dimension.WEIGHT if fact.measure == "weight" else Dimension.LENGTH)
