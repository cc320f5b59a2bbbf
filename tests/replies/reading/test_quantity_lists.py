"""What joins quantities: products, shared units, item numbers, the same said twice."""

import pytest

from replies.reading.quantities import read_quantities
from replies.reading.tidy import tidy
from tests.replies.reading.found import amounts, found

PRODUCTS = [
    ("x glued", "12x5x10 and 10lb", [(0, 1, 2)]),
    ("x and blanks", "13 x 11 x 5", [(0, 1, 2)]),
    ("letters glued", "14L x 5W x 11H", [(0, 1, 2)]),
    ("letters and signs glued", "14Lx5Wx11H", [(0, 1, 2)]),
    ("letters before", "L14 x W5 x H11", [(0, 1, 2)]),
    ("letters in brackets", '14" (L) x 5" (W) x 11" (H)', [(0, 1, 2)]),
    ("words between", "14 long x 5 wide x 11 tall", [(0, 1, 2)]),
    ("units between", "14inx5inx11in", [(0, 1, 2)]),
    ("by", "14 by 5 by 11", [(0, 1, 2)]),
    ("a star", "30*14*25cm", [(0, 1, 2)]),
    ("two of them", "S 12 x 5 in, M 14 x 6 in", [(0, 1), (2, 3)]),
    ("commas are no product", "14, 5, 11", []),
    ("x in a word", "14 extra 5", []),
    ("a count", "2 x medium 14", []),
    ("two lines", "14 x\n5", []),
]


@pytest.mark.parametrize(("text", "lists"), [row[1:] for row in PRODUCTS], ids=[row[0] for row in PRODUCTS])
def test_numbers_joined_by_times_signs_are_a_list(text: str, lists: list[tuple[int, ...]]) -> None:
    assert list(read_quantities(tidy(text)).lists) == lists


SHARED = [
    ("a product", "300 x 140 x 250mm", ["300 mm shared", "140 mm shared", "250 mm"]),
    ("a product with the unit first", "14cm x 5 x 11", ["14 cm", "5 cm shared", "11 cm shared"]),
    ("and", "23 and 27 cm", ["23 cm shared", "27 cm"]),
    ("commas and and", "14, 11 and 5.5 inches", ["14 in shared", "11 in shared", "5.5 in"]),
    ("commas", "23, 22, 10, 16 cm", ["23 cm shared", "22 cm shared", "10 cm shared", "16 cm"]),
    ("blanks", "35 28 14 cm", ["35 cm shared", "28 cm shared", "14 cm"]),
    ("label letters", "L 37 H 30 B 14 cm", ["37 cm shared", "30 cm shared", "14 cm"]),
    ("before the list", "in cm: 35, 28", ["35 cm shared", "28 cm shared"]),
    ("before a product", "inches: 14 x 5", ["14 in shared", "5 in shared"]),
    ("before the number", "cm 34, kg 5,2", ["34 cm shared", "5.2 kg shared"]),
    ("before the number with a point", "altezza cm. 30", ["30 cm shared"]),
    ("in the label", "Length (cm): 35", ["35 cm shared"]),
    ("in the label without signs", "height cm 28, weight kg 6", ["28 cm shared", "6 kg shared"]),
    ("in brackets at the end", "35, 28, 14 (cm)", ["35 cm shared", "28 cm shared", "14 cm"]),
]


@pytest.mark.parametrize(("text", "values"), [row[1:] for row in SHARED], ids=[row[0] for row in SHARED])
def test_a_unit_said_once_counts_for_the_list(text: str, values: list[str]) -> None:
    assert amounts(text) == values


NOT_SHARED = [
    ("a weight behind lengths", "12, 10, 4.75 and 9.5 lbs", ["12", "10", "4.75", "9.5 lb"]),
    ("a weight behind 'and'", "14 and 12 lb", ["14", "12 lb"]),
    ("two with a comma", "he's 12, 10 in tall", ["12", "10 in"]),
    ("words between", "34 and the other 30 cm", ["34", "30 cm"]),
    ("labels between", "10 tall, 12 in", ["10", "12 in"]),
    ("a person's feet and inches", "71 and 5'2\"", ["71", "62 in"]),
    ("another line", "35\n28 cm", ["35", "28 cm"]),
    ("pounds for the last of a list", "back / lbs = 12 / 10", ["12", "10"]),
    ("a sentence between", "all in cm. 35 long", ["35"]),
    ("a length before a weight's letter", "L 37 H 30 W 5 kg", ["37", "30", "5 kg"]),
]


@pytest.mark.parametrize(("text", "values"), [row[1:] for row in NOT_SHARED], ids=[row[0] for row in NOT_SHARED])
def test_a_unit_is_not_given_away_further(text: str, values: list[str]) -> None:
    assert amounts(text) == values


ITEMS = [
    ("points", "1. 5.6 kg\n2. 19 cm", ["enumerator 1", "5.6 kg", "enumerator 2", "19 cm"]),
    ("brackets", "1) 14\n2) 11", ["enumerator 1", "14", "enumerator 2", "11"]),
    ("on one line", "1) 29 cm 2) 25 cm", ["enumerator 1", "29 cm", "enumerator 2", "25 cm"]),
    ("on one line with points", "1. 12 2. 14", ["enumerator 1", "12", "enumerator 2", "14"]),
    ("points and brackets", "1.) L: 12 2.) H: 10", ["enumerator 1", "12", "enumerator 2", "10"]),
    ("in another order", "3. 14\n1. 11", ["enumerator 3", "14", "enumerator 1", "11"]),
    ("with a word before", "zu 1: 31 cm\nzu 2: 28 cm", ["enumerator 1", "31 cm", "enumerator 2", "28 cm"]),
    ("keycaps", "1️⃣ length 13\n2️⃣ height 11", ["enumerator 1", "13", "enumerator 2", "11"]),
    ("over questions", "1. back?\n2. height?", ["enumerator 1", "enumerator 2"]),
    ("in a quote", "> 1. 14\n> 2. 11", ["enumerator 1", "14", "enumerator 2", "11"]),
]


@pytest.mark.parametrize(("text", "values"), [row[1:] for row in ITEMS], ids=[row[0] for row in ITEMS])
def test_item_numbers_are_told_from_amounts(text: str, values: list[str]) -> None:
    assert found(text) == values


NO_ITEMS = [
    ("a measure a line", "11 h\n12.5 l\n5 w", ["11", "12.5", "5"]),
    ("a measure and a full stop", "13.\n11.", ["13", "11"]),
    ("two numbers that do not count", "12 long 5 wide\n11 tall 8 throat", ["12", "5", "11", "8"]),
    ("one line that begins with 1", "1 tail is 2 long", ["1", "2"]),
    ("a full stop inside", "back 1. 2 wide", ["1", "2"]),
]


@pytest.mark.parametrize(("text", "values"), [row[1:] for row in NO_ITEMS], ids=[row[0] for row in NO_ITEMS])
def test_amounts_at_line_starts_are_no_item_numbers(text: str, values: list[str]) -> None:
    assert found(text) == values


TWICE = [
    ("in brackets", "15 lb (6.8 kg)", ["15 lb", "6.8 kg again"]),
    ("with a slash", "33 cm/13 in", ["33 cm", "13 in again"]),
    ("with an equals sign", "6 kg = 13 lb", ["6 kg", "13 lb again"]),
    ("roughly", "13 in (about 33 cm)", ["13 in", "33 cm hedged again"]),
]


@pytest.mark.parametrize(("text", "values"), [row[1:] for row in TWICE], ids=[row[0] for row in TWICE])
def test_the_same_said_in_another_unit_is_marked(text: str, values: list[str]) -> None:
    assert found(text) == values


NOT_TWICE = [
    ("another value", "13 in (40 cm)", ["13 in", "40 cm"]),
    ("the same unit", "13 in (13 in)", ["13 in", "13 in"]),
    ("a length and a weight", "13 in, 13 lb", ["13 in", "13 lb"]),
    ("words between", "13 in tall and 33 cm long", ["13 in", "33 cm"]),
]


@pytest.mark.parametrize(("text", "values"), [row[1:] for row in NOT_TWICE], ids=[row[0] for row in NOT_TWICE])
def test_two_values_are_not_marked_as_one(text: str, values: list[str]) -> None:
    assert found(text) == values
