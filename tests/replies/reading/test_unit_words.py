"""Units as people write them."""

import pytest

from replies.reading.unit_words import UnitWords
from tests.replies.reading.found import amounts

UNITS = [
    ("glued", "14in", "14 in"),
    ("plural", "14 inches", "14 in"),
    ("with a full stop", "14in.", "14 in"),
    ("ins", "14 ins", "14 in"),
    ("a mark", '14"', "14 in"),
    ("two single marks", "14''", "14 in"),
    ("a blank before the mark", '14 "', "14 in"),
    ("with a hyphen", "14-inch", "14 in"),
    ("capitals", "14 INCHES", "14 in"),
    ("an apostrophe for the decimals, Spanish", "4'5 kg", "4.5 kg"),
    ("an apostrophe where feet cannot be", "33'5", "33.5"),
    ("Japanese", "30センチ", "30 cm"),
    ("Chinese", "4.5公斤", "4.5 kg"),
    ("Russian", "35 сантиметров", "35 cm"),
    ("misspelt", "14 inchs", "14 in"),
    ("a letter too many", "14 inchess", "14 in"),
    ("letters exchanged", "14 inhces", "14 in"),
    ("in brackets", "14 (in)", "14 in"),
    ("behind 'in'", "35 in cm", "35 cm"),
    ("Italian", "10 pollici", "10 in"),
    ("Portuguese", "12 polegadas", "12 in"),
    ("German inches", "12 Zoll", "12 in"),
    ("centimetros", "30 centimetros", "30 cm"),
    ("cms", "30 cms", "30 cm"),
    ("Cyrillic", "30 см", "30 cm"),
    ("a letter missing", "30 centimetrs", "30 cm"),
    ("metres in decimals", "0,31 m", "0.31 m"),
    ("a foot mark", "1' tall", "1 ft"),
    ("an article", "a foot", "1 ft"),
    ("half an inch", "half an inch", "0.5 in"),
    ("half a pound", "a half pound", "0.5 lb"),
    ("quarters of an inch", "three quarters of an inch", "0.75 in"),
    ("lbs with a full stop", "12 lbs.", "12 lb"),
    ("misspelt pounds", "12 pnds", "12 lb"),
    ("exchanged in pounds", "12 puonds", "12 lb"),
    ("pounder", "17 pounder", "17 lb"),
    ("pound sign of America", "11#", "11 lb"),
    ("kilos", "5 kilos", "5 kg"),
    ("kilo's", "5 kilo's", "5 kg"),
    ("grams", "4800 gr", "4800 g"),
    ("grams with a point for thousands", "1.200 g", "1200 g"),
    ("grams with a comma for thousands", "1,200 g", "1200 g"),
    ("grams with a blank for thousands", "1 200 g", "1200 g"),
    ("kilograms with three decimals", "1.200 kg", "1.2 kg"),
    ("kilograms with a comma", "4,500 kg", "4.5 kg"),
    ("eighths with a comma", "8,875 in", "8.875 in"),
    ("eighths without a unit", "8.875", "8.875"),
    ("thousands of feet", "1,900 ft", "1900 ft"),
    ("a bare foot", "foot long", "1 ft"),
    ("inches with three decimals", "9.125 in", "9.125 in"),
    ("the German pound", "10 Pfund", "5000 g"),
    ("the French pound", "10 livres", "5000 g"),
    ("ounces", "19 oz", "19 oz"),
    ("a stone", "11st", "11 st"),
    ("the stone of one", "1st 2lb", "16 lb"),
]


@pytest.mark.parametrize(("text", "amount"), [row[1:] for row in UNITS], ids=[row[0] for row in UNITS])
def test_a_unit_is_read(text: str, amount: str) -> None:
    assert amounts(text) == [amount]


NO_UNITS = [
    ("his foot", "12 on his foot high", "12"),
    ("in the morning", "12 in the morning", "12"),
    ("in a harness", "13 in a harness", "13"),
    ("in height", "11 in height", "11"),
    ("in total", "11 in total", "11"),
    ("size M", "12 M", "12"),
    ("whole metres of no dog", "30 m", "30"),
    ("a letter g", "7 g", "7"),
    ("an apostrophe", "12's", "12"),
    ("quotation marks", "he said '12'", "12"),
    ("double quotation marks", 'he said "12"', "12"),
    ("round is no pound", "22 round", "22"),
    ("found is no pound", "12 found", "12"),
    ("hounds", "15 hounds", "15"),
    ("a unit on the next line", "12\ncm", "12"),
    ("pounce", "12 pounces", "12"),
    ("a hash before the next number", "12 #3", "12"),
]


@pytest.mark.parametrize(("text", "amount"), [row[1:] for row in NO_UNITS], ids=[row[0] for row in NO_UNITS])
def test_what_is_no_unit_is_left(text: str, amount: str) -> None:
    assert amounts(text)[0] == amount


def test_in_is_an_inch_where_the_measure_stands_before_the_number() -> None:
    assert amounts("length 12 in height 10 in width 5 in") == ["12 in", "10 in", "5 in"]


@pytest.mark.parametrize(
    ("word", "name"), [("ponuds", "lb"), ("centimetrres", "cm"), ("killogram", "kg"), ("ounes", "oz")]
)
def test_one_slip_of_a_letter_is_understood(word: str, name: str) -> None:
    unit = UnitWords.load().meant(word)

    assert unit is not None
    assert unit.name == name


@pytest.mark.parametrize("word", ["round", "found", "bounces", "itches", "sound", "poonds ", "centre", "ponuts"])
def test_two_slips_or_another_word_are_not(word: str) -> None:
    assert UnitWords.load().meant(word) is None
