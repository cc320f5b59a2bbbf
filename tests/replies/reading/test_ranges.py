"""Ranges, tolerances, and two numbers that are none."""

import pytest

from tests.replies.reading.found import amounts, found

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
    ("two bounds", "more than 12 but less than 13 lb", "12-13 lb hedged"),
    ("two bounds in signs", "> 5 kg but < 6 kg", "5-6 kg hedged"),
    ("two bounds in German", "mehr als 6 aber weniger als 7 kg", "6-7 kg hedged"),
    ("least and most", "min 12 max 12.5", "12-12.5 hedged"),
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
    ("an upper bound without a lower one", "12, under 13", ["12", "13 hedged"]),
    ("a name between two bounds", "over 12 long, under 13 lb", ["12 hedged", "13 lb hedged"]),
]


@pytest.mark.parametrize(("text", "apart"), [row[1:] for row in NO_RANGES], ids=[row[0] for row in NO_RANGES])
def test_what_is_no_range_stays_apart(text: str, apart: list[str]) -> None:
    assert amounts(text) == apart
