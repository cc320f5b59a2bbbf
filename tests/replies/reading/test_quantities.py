"""Where quantities stand, units that stand alone, the maker's own words, and the properties of all quantities."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.errors import WordListError
from replies.reading.quantities import AmountWords, find_quantities, read_quantities
from replies.reading.tidy import tidy
from tests.replies.reading.found import found, words_of

PLACES = [
    ("label letters stay outside", "14L x 5W x H11", ["14", "5", "11"]),
    ("a letter behind the unit stays outside", '13"L', ['13"']),
    ("words of doubt stay outside", "about 12ish inches", ["12ish inches"]),
    ("the full stop of 'in.' stays outside", "17in., 9in.", ["17in", "9in"]),
    ("'between' stays outside", "between 13 and 13.5 in", ["13 and 13.5 in"]),
    ("the hash stays outside", "#11 chi", ["11"]),
    ("as it came", "13½″ and ٣٥ cm", ["13½″", "٣٥ cm"]),
    ("what is left out is inside", "1\u200b3.5 in", ["1\u200b3.5 in"]),
]


@pytest.mark.parametrize(("text", "words"), [row[1:] for row in PLACES], ids=[row[0] for row in PLACES])
def test_a_quantity_has_number_and_unit_alone(text: str, words: list[str]) -> None:
    assert words_of(text) == words


def test_the_place_of_the_unit_is_known() -> None:
    (quantity,) = find_quantities(tidy("weighs 6 lb 8 oz"))

    assert (quantity.unit_start, quantity.unit_end) == (14, 16)


def test_the_place_where_doubt_begins_is_known() -> None:
    (quantity,) = find_quantities(tidy("she is just about 12"))

    assert quantity.hedge_start == 7


LONE = [
    ("a unit for all", "36 and 31, all in cm", ["cm"]),
    ("a unit told late", "cm of course, sorry!", ["cm"]),
    ("kilos told late", "kilos!", ["kg"]),
    ("in inches", "in inches that is", ["in"]),
    ("the preposition is none", "in the bag", []),
    ("a dog called Pound is none", "Pound is shy", []),
    ("an abbreviation of size is none", "Gr.: 4", []),
    ("a unit with a number is none", "12 cm", []),
]


@pytest.mark.parametrize(("text", "units"), [row[1:] for row in LONE], ids=[row[0] for row in LONE])
def test_units_that_stand_alone_are_found(text: str, units: list[str]) -> None:
    assert [lone.unit for lone in read_quantities(tidy(text)).lone] == units


def test_what_no_person_writes_is_read_up_to_a_bound() -> None:
    assert len(find_quantities(tidy("12 in " * 5000))) == 2000


def test_a_maker_adds_a_unit_word() -> None:
    own = AmountWords.load({"unit_words": {"units": {"in": {"words": ["thumbs"]}}}})
    (quantity,) = find_quantities(tidy("14 thumbs"), own)

    assert (quantity.low, quantity.unit) == (14, "in")


@pytest.mark.parametrize(
    ("own", "key"),
    [
        ({"colours": {}}, "colours"),
        ({"unit_words": {"units": {"in": {"words": "thumbs"}}}}, "unit_words.units.in.words"),
        ({"unit_words": {"units": {"in": {"wrods": ["thumbs"]}}}}, "unit_words.units.in.wrods"),
        ({"hedges": ["about"]}, "hedges"),
    ],
    ids=["an unknown list", "a word instead of a list", "a slip in a key", "a list instead of a table"],
)
def test_a_slip_in_the_makers_own_words_names_the_key(own: dict[str, object], key: str) -> None:
    with pytest.raises(WordListError) as raised:
        AmountWords.load(own)

    assert raised.value.key == key


PIECES = [
    "12", "13.5", "4,5", "1/2", "½", "-", "–", "to", "and", "a half", "a", "in", "cm", "lb", "oz", "kg", "'", '"',
    "ft", "x", "by", "about", "ish", "(", ")", ":", "#", "1.", "2)", "twelve", "half an inch", "/", ".", ",", "L", "H",
    "long",
    "2:15pm", "£", "<b>", "</b>", "{{", "}}", "~~", "@", "+/-", "between", "or so", "1st", "Dec", "5lb", "é", "\n",
]  # fmt: skip
messages = (
    st.text()
    | st.lists(st.sampled_from(PIECES)).map(" ".join)
    | st.text(alphabet="0123456789.,/-' \"xlbinftcmkgozs\n()#:", max_size=80)
)


@given(messages)
def test_any_text_is_read_and_quantities_lie_in_it_in_order(text: str) -> None:
    tidied = tidy(text)
    last = 0
    for quantity in read_quantities(tidied).found:
        assert last <= quantity.start < quantity.end <= len(tidied.text)
        assert 0 <= quantity.low <= quantity.high < float("inf") or quantity.shape != "amount"
        assert (quantity.unit is None) == (quantity.dimension is None) == (quantity.unit_start is None)
        last = quantity.end


@given(messages)
def test_lists_hold_amounts_in_order(text: str) -> None:
    read = read_quantities(tidy(text))
    for group in read.lists:
        assert len(group) > 1
        assert list(group) == list(range(group[0], group[0] + len(group)))
        assert all(read.found[at].shape == "amount" for at in group)


WHOLES, FRACTIONS = (4, 9, 13, 28), ("", ".5", ".25", " 1/2", " 3/8", "½")
lengths = st.sampled_from([f"{whole}{part}" for whole in WHOLES for part in FRACTIONS])
ORDINARY = "{} {unit} long, {} {unit} tall and {} {unit} across"


@given(st.tuples(lengths, lengths, lengths), st.sampled_from(["in", "cm", "inches", "mm"]))
def test_case_and_kind_of_blank_change_nothing(numbers: tuple[str, str, str], unit: str) -> None:
    text = ORDINARY.format(*numbers, unit=unit)
    plain = found(text)

    assert len(plain) == 3
    assert found(text.upper()) == plain
    assert found(text.replace(" ", "\xa0")) == plain
    assert found(text.replace(" ", "  ")) == plain


@given(st.integers(1, 400), st.sampled_from([0, 2, 4, 8]), st.integers(1, 7), st.sampled_from(["in", "cm", "lb", "kg"]))
def test_a_written_amount_reads_back_to_its_value(whole: int, parts: int, part: int, unit: str) -> None:
    if parts and part >= parts:
        part = 1
    text = f"{whole} {part}/{parts} {unit}" if parts else f"{whole} {unit}"
    (quantity,) = find_quantities(tidy(f"it is {text}."))

    assert (quantity.low, quantity.unit) == (whole + (part / parts if parts else 0), unit)


@given(st.text(alphabet=st.characters(blacklist_categories=("Nd", "No", "Nl", "Cs")), max_size=40))
def test_text_without_figures_holds_only_spelled_numbers(text: str) -> None:
    assert all(quantity.spelled for quantity in read_quantities(tidy(text)).found if quantity.shape == "amount")
