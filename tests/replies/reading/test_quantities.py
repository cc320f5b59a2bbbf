"""Amounts with their units, ranges and words of doubt, and the properties of all of them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.errors import WordListError
from replies.reading.quantities import AmountWords, find_quantities, read_quantities
from replies.reading.tidy import tidy
from tests.replies.reading.found import amounts, found, words_of

COMPOUND = [
    ("feet and inches", "1'2\"", "14 in"),
    ("feet and inches in primes", "1′ 2″", "14 in"),
    ("feet, inches in fractions", "1' 8 1/2\"", "20.5 in"),
    ("ft without in", "1 ft 2", "14 in"),
    ("ft and in, glued", "1ft2in", "14 in"),
    ("ft and in, abbreviated", "5 ft. 4 in.", "64 in"),
    ("no second mark", "5'4", "64 in"),
    ("spelled", "five foot two", "62 in"),
    ("pounds and ounces", "5lb 6oz", "86 oz"),
    ("pounds and ounces, abbreviated", "5 lbs. 4 oz.", "84 oz"),
    ("pounds and ounces with a comma", "5 pounds, 6 ounces", "86 oz"),
    ("pounds and ounces in words", "fifteen pounds four ounces", "244 oz"),
    ("pounds and no ounces", "12 lb 0 oz", "192 oz"),
    ("ounces not named, at the end", "12 lb 8", "200 oz"),
    ("ounces not named, glued", "10lb12", "172 oz"),
    ("stones and pounds", "1st 4lb", "18 lb"),
    ("stones, pounds not named", "11 stone 4", "158 lb"),
    ("stones, pounds, ounces", "11 stone 4 pounds 6 oz", "2534 oz"),
    ("kilograms and grams", "4 kilos and 300 grams", "4300 g"),
    ("kilograms and grams, Italian", "3 kg e 800", "3800 g"),
    ("kilograms and grams, glued", "5kg200", "5200 g"),
    ("kilograms and grams, a blank", "4 kilos 700", "4700 g"),
    ("kilograms and a tenth, glued", "5kg2", "5200 g"),
    ("metres and centimetres", "1m20", "120 cm"),
    ("centimetres and a tenth", "12 cm 5", "125 mm"),
    ("kilos and a tenth", "il pèse 4 kilos 2", "4200 g"),
    ("kilos and a tenth, Italian", "5 chili e 9", "5900 g"),
    ("a kilo and a half without 'a'", "kilo and a half", "1.5 kg"),
    ("a kilo and hundreds in words", "one kilo eight hundred", "1800 g"),
    ("a fraction behind the mark", '13"1/2', "13.5 in"),
    ("a fraction behind the unit", "13 inches and 3/4", "13.75 in"),
    ("feet with a point", "3 ft. 2", "38 in"),
    ("a foot and a half", "a foot and a half", "1.5 ft"),
    ("a foot and a half without 'a'", "foot and a half long", "1.5 ft"),
    ("kilos and a half, Spanish", "13 kilos y medio", "13.5 kg"),
    ("kilo and a half, French", "un kilo et demi", "1.5 kg"),
    ("a stone and a half", "a stone and a half", "1.5 st"),
]


@pytest.mark.parametrize(("text", "amount"), [row[1:] for row in COMPOUND], ids=[row[0] for row in COMPOUND])
def test_two_units_make_one_amount(text: str, amount: str) -> None:
    assert found(text) == [amount]


NOT_COMPOUND = [
    ("a fraction of the next measure", "13 in 3/4 lb", ["13 in", "0.75 lb"]),
    ("feet and another measure", "3 ft. 2 wide", ["3 ft", "2"]),
    ("what follows is tall", "4lb 6 tall", ["4 lb", "6"]),
    ("what follows is the next dog's", "12 lb\n8 long", ["12 lb", "8"]),
    ("no pound has 16 ounces", "5 lb 16", ["5 lb", "16"]),
    ("what follows has its own unit", "6 lb 8 in", ["6 lb", "8 in"]),
    ("a decimal has no ounces behind it", "5.5 lb 6.", ["5.5 lb", "6"]),
    ("a comma parts feet from the next measure", "1 ft, 5 in wide", ["1 ft", "5 in"]),
    ("two figures are no grams", "4 kg 30", ["4 kg", "30"]),
    ("a length follows centimetres", "12 cm 5 kg", ["12 cm", "5 kg"]),
    ("item numbers behind centimetres", "1) 29 cm 2) 25 cm", ["29 cm", "25 cm"]),
    ("item numbers behind pounds", "1. 12 lb 2. 14 in", ["12 lb", "14 in"]),
    ("a product follows", "10 lb 13 x 5", ["10 lb", "13", "5"]),
]


@pytest.mark.parametrize(("text", "apart"), [row[1:] for row in NOT_COMPOUND], ids=[row[0] for row in NOT_COMPOUND])
def test_two_amounts_stay_apart(text: str, apart: list[str]) -> None:
    assert amounts(text) == apart


RANGES = [
    ("a hyphen", "10-11 lbs", "10-11 lb"),
    ("an en dash", "12–13 inches", "12-13 in"),
    ("a dash and blanks", "7 – 7.5", "7-7.5"),
    ("fractions", "10–10½", "10-10.5"),
    ("the unit twice", '12" - 13"', "12-13 in"),
    ("the unit at the first", "23kg-25", "23-25 kg"),
    ("a tilde", "13~14", "13-14"),
    ("to", "11 1/2 to 12 long", "11.5-12"),
    ("or", "6 or 7 kg", "6-7 kg"),
    ("or maybe", "12 or maybe 13", "12-13"),
    ("between", "between 13 and 13.5", "13-13.5"),
    ("a slash", "12/13", "12-13"),
    ("a slash and a fraction of a whole", "11/11.5", "11-11.5"),
    ("words", "twelve to thirteen", "12-13"),
    ("German", "zwischen 24 und 25 cm", "24-25 cm"),
    ("German bis", "24 bis 25 cm", "24-25 cm"),
    ("French", "12 à 13 cm", "12-13 cm"),
    ("Dutch", "24 tot 25 cm", "24-25 cm"),
    ("Spanish", "entre 24 y 25 cm", "24-25 cm"),
    ("points", "12...13 in", "12-13 in"),
    ("an arrow", "12 → 13", "12-13"),
    ("ish between", "12ish to 13", "12-13 hedged"),
    ("could be", "7 and a half, could be 8 if he looks up", "7.5-8 hedged"),
    ("maybe", "13, maybe 14.", "13-14 hedged"),
    ("up to", "from 31 up to 33 cm", "31-33 cm"),
    ("mixed with a quarter", "8 or 8 and a quarter", "8-8.25"),
    ("plus or minus", "13 +/- 1/2", "12.5-13.5 hedged"),
    ("plus or minus in words", "13 plus or minus half an inch", "12.5-13.5 in hedged"),
    ("give or take", "12, give or take an inch", "11-13 in"),
]


@pytest.mark.parametrize(("text", "amount"), [row[1:] for row in RANGES], ids=[row[0] for row in RANGES])
def test_a_range_is_one_amount(text: str, amount: str) -> None:
    assert found(text) == [amount]


NO_RANGES = [
    ("a hyphen as a minus", "length -12\nheight -10", ["12", "10"]),
    ("a hyphen before the word", "Zephyr - 13 back", ["13"]),
    ("a hyphen behind the number", "12- 13", ["12", "13"]),
    ("a chain", "14-5-11", ["14", "5", "11"]),
    ("a chain of slashes", "14/5/11", ["14", "5", "11"]),
    ("falling", "14-11", ["14", "11"]),
    ("maybe another measure", "height 11, maybe 13 long", ["11", "13 hedged guessed"]),
    ("far apart", "from 2 to 20", ["2", "20"]),
    ("and without between", "5 and 7", ["5", "7"]),
    ("a length and a weight", "12 in or 13 lb", ["12 in", "13 lb"]),
    ("the length in two units", "12 in to 33 cm", ["12 in", "33 cm"]),
    ("'of' before a unit word", "1 of 2 pounds", ["1-2 lb"]),
    ("an article behind a number", "10 a foot long", ["10", "1 ft"]),
]


@pytest.mark.parametrize(("text", "apart"), [row[1:] for row in NO_RANGES], ids=[row[0] for row in NO_RANGES])
def test_what_is_no_range_stays_apart(text: str, apart: list[str]) -> None:
    assert amounts(text) == apart


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
    assert find_quantities(tidy("x" * 300_000 + " 12 in")) == ()
    assert amounts("x" * 100_000 + " 12 in") == ["12 in"]


def test_a_maker_adds_a_unit_word() -> None:
    own = AmountWords.load({"unit_words": {"units": {"in": {"words": ["thumbs"]}}}})
    (quantity,) = find_quantities(tidy("14 thumbs"), own)

    assert (quantity.low, quantity.unit) == (14, "in")


@pytest.mark.parametrize(
    ("own", "key"),
    [
        ({"colours": {}}, "colours"),
        ({"unit_words": {"units": {"in": {"words": "thumbs"}}}}, "units.in.words"),
        ({"unit_words": {"units": {"in": {"wrods": ["thumbs"]}}}}, "units.in.wrods"),
        ({"hedges": ["about"]}, ""),
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
