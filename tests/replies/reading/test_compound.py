"""Amounts of two units, halves behind a unit, and what only looks like them."""

import pytest

from tests.replies.reading.found import amounts, found

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
