"""What holds for any message: nothing raises, every value stands in the text, and manners of writing change nothing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.reading.context import Channel
from replies.reading.facts import Reading
from replies.reading.quantities import read_quantities
from replies.reading.tidy import tidy
from tests.replies.reading.readings import dogs, measures, reading

LENGTHS = {"length": "long", "height": "high at the shoulder", "width": "wide across the ribs"}
WORDS = [
    "length", "height", "width", "throat", "weight", "long", "high", "wide", "Rex", "Bella", "my dog", "our cat",
    "the other", "both", "same", "but", "and", "not", "sorry", "about", "maybe", "13", "11.5", "5 1/2", "12 lb",
    "33 cm", "5'4\"", "12-13", "1.", "2)", "x", "/", ",", ".", ":", "?", "\n", "\n\n", "\t", "|", "> ", "years",
    "crate", "is", "was", "yes", "no", "respectively", "head", "tail", "girth", "in cm", "Schulterhöhe", "largo", "🐕",
    "[10:42] shop:", "On Monday Ann wrote:",
]  # fmt: skip
MESSY = st.lists(st.sampled_from(WORDS), max_size=40).map(" ".join)
ASKED = st.lists(st.sampled_from(["length", "width", "weight", "height/unit", "width/girth"]), max_size=3, unique=True)
VALUES = st.fixed_dictionaries(
    {"length": st.integers(40, 120), "height": st.integers(40, 120), "width": st.integers(16, 36)}
).map(lambda quarters: {measure: number / 4 for measure, number in quarters.items()})


def passages(told: Reading) -> list[tuple[int, int, str]]:
    facts = [fact for dog in told.dogs for fact in dog.facts]
    found = [*(fact.at for fact in facts), *(aside.at for aside in told.aside), *told.other]
    return [(at.start, at.end, at.words) for at in [*found, *(fact.label for fact in facts if fact.label)]]


@given(st.one_of(st.text(max_size=200), MESSY), st.sampled_from(Channel))
def test_any_text_is_read_and_what_is_found_stands_in_it(text: str, channel: Channel) -> None:
    told = reading(text, channel=channel)

    assert [words for _, _, words in passages(told)] == [text[start:end] for start, end, _ in passages(told)]


@given(
    MESSY,
    st.lists(st.sampled_from(["length", "width", "weight", "height/unit", "width/girth"]), max_size=3, unique=True),
)
def test_any_answer_is_read(text: str, asked: list[str]) -> None:
    reading(text, asked=asked, first=False)


@given(MESSY)
def test_no_number_is_both_a_measure_and_set_aside(text: str) -> None:
    told = reading(text)

    taken = {(fact.at.start, fact.at.end) for dog in told.dogs for fact in dog.facts}
    assert taken.isdisjoint((one.at.start, one.at.end) for one in told.aside)


@given(VALUES)
def test_values_read_back_from_the_words_they_stand_in(values: dict[str, float]) -> None:
    told = reading(", ".join(f"{value:g} in {LENGTHS[measure]}" for measure, value in values.items()))

    for fact in told.dogs[0].facts:
        assert [one.low for one in read_quantities(tidy(fact.at.words)).found] == [fact.written.low]
        assert fact.written.low == values[fact.measure]


@given(VALUES, st.permutations(list(LENGTHS)), st.sampled_from([", ", "; ", " and ", "\n", ". "]))
def test_order_and_signs_between_change_nothing(values: dict[str, float], order: list[str], sign: str) -> None:
    text = sign.join(f"{values[measure]:g} in {LENGTHS[measure]}" for measure in order)

    assert measures(text) == {measure: f"{values[measure]:g} in" for measure in order}


MESSAGES = [
    "Our dog Olive: 13 in long, 11 in high, 5 in wide, 12 lb",
    "length 33 cm, height 28 cm; weight 5 kg. She is 4 years old.",
    "Rex is 13 in long, Bella 15 in. Both are 11 in high.",
    "He is 13 in long, sorry, 14 in, and about 12 lb.",
    "Rückenlänge 33 cm, Schulterhöhe 28 cm, 5 kg",
]


@pytest.mark.parametrize("text", [text for text in MESSAGES if "Bella" not in text])
def test_capitals_change_no_value(text: str) -> None:
    def values(written: str) -> list[list[str]]:
        return [[value for key, value in dog.items() if key != "name"] for dog in dogs(written)]

    assert values(text.upper()) == values(text)


@pytest.mark.parametrize("text", MESSAGES)
@pytest.mark.parametrize("blank", ["\u00a0", "\u2009", "  ", "\u202f"])
def test_the_kind_of_blank_changes_nothing(text: str, blank: str) -> None:
    assert dogs(text.replace(" ", blank)) == dogs(text)


@given(VALUES)
def test_the_unit_changes_nothing_where_it_is_told(values: dict[str, float]) -> None:
    inches = reading(", ".join(f"{value:g} in {LENGTHS[measure]}" for measure, value in values.items()))
    metric = reading(", ".join(f"{value * 2.54:.4f} cm {LENGTHS[measure]}" for measure, value in values.items()))

    def amounts(told: Reading) -> dict[str, float]:
        return {fact.measure.value: round(fact.amount.low, 3) for fact in told.dogs[0].facts}

    assert amounts(inches) == amounts(metric) == {measure: round(value, 3) for measure, value in values.items()}


def test_an_empty_message_is_nothing() -> None:
    assert reading("") == Reading(topic=reading("").topic)
