"""What a customer said, said back in her own words and units."""

from dataclasses import replace

import pytest

from replies.enquiry import Enquiry, Known
from replies.reading.facts import DogReading, Fact, Passage, Reading, Topic
from replies.writing.said import as_said, in_own_units, values_said
from sizing.measures import Amount, Measure
from sizing.units import to_inches
from tests.replies.enquiries import dog, enquiry, told


@pytest.mark.parametrize(
    ("known", "said"),
    [
        (told(14.5), "14 1/2 in"),
        (told(14.5, words="14.5 inches"), "14.5 inches"),
        (told(33, "cm", words="33cm"), "33cm"),
        (told(14.5, words="14½ in"), "14½ in"),
        (told(14.5, words="14 1/2 in"), "14 1/2 in"),
        (told(1, "ft", words="a foot"), "a foot"),
        (told(12, words="twelve inches"), "twelve inches"),
        (told(14, words="1'2\""), "1'2\""),
        (told(182, "oz", words="11 pounds 6 ounces"), "11 pounds 6 ounces"),
        (told(11.5, "lb", words="11 and a half pounds"), "11 and a half pounds"),
        (told(12, high=13, words="12–13 inches"), "12–13 inches"),
        (told(10.75, stated=False, words="10¾"), "10¾"),
        (told(12, words="12"), "12 in"),
        (told(10, "lb", words="#10"), "10 lb"),
        (told(12, words="12 in [ to fill in"), "12 in"),
        (told(12, words="twelve evil inches"), "12 in"),
        (told(13, words="an inch longer"), "13 in"),
        (told(5.7), "5.7 in"),
        (told(0.375), "3/8 in"),
        (told(300, "mm"), "300 mm"),
        (told(13, "lb", words="13 lbs"), "13 lbs"),
        (told(12, high=13.5), "12 to 13 1/2 in"),
        (told(38, stated=False), "38"),
        (told(38, stated=False, words="38"), "38"),
        (told(12, hedged=True), "about 12 in"),
        (told(12, hedged=True, words="12 in"), "about 12 in"),
        (told(12, words="12 in {{ x }}"), "12 in"),
    ],
)
def test_a_number_is_said_back_as_it_was_given(known: Known, said: str) -> None:
    assert as_said(known) == said


@pytest.mark.parametrize(
    ("known", "written"),
    [
        (told(14.5), "14 1/2 in"),
        (told(5.7), "5 3/4 in"),
        (told(33.3, "cm"), "33.5 cm"),
        (told(300, "mm"), "30 cm"),
        (told(4300, "g"), "4.3 kg"),
        (told(13.25, "lb"), "13 lb 4 oz"),
        (told(12, high=13.5), "12 to 13 1/2 in"),
        (told(13, by_maker=True), "33 cm"),
        (told(13, stated=False), "33 cm"),
        (told(13, "lb", by_maker=True), "5.9 kg"),
    ],
)
def test_an_answer_writes_measures_as_a_sewer_does_in_the_customers_unit(known: Known, written: str) -> None:
    assert in_own_units(known, length_unit="cm", weight_unit="kg") == written


def test_contradicting_values_are_said_as_they_were_given() -> None:
    given = enquiry(dog(length=told(13, high=15.5, conflicting=[13, 15.5])))

    assert values_said(given, 0, Measure.LENGTH) == ("13 in", "15 1/2 in")


def test_of_two_units_each_value_keeps_its_own() -> None:
    newer = told(13.5)
    older = Amount.exactly(to_inches(33, "cm"))
    taken = replace(newer.taken, conflicting=(older, Amount.exactly(13.5)))
    first = Fact(
        measure=Measure.LENGTH,
        amount=older,
        written=Amount.exactly(33),
        unit="cm",
        unit_stated=True,
        at=Passage(start=0, end=5, words="33 cm"),
    )
    reading = Reading(topic=Topic.SIZING, dogs=(DogReading(facts=(first,)),))
    given = Enquiry(dogs=(dog(length=replace(newer, taken=taken)),), readings={"1": reading})

    assert values_said(given, 0, Measure.LENGTH) == ("33 cm", "13 1/2 in")


def test_a_value_that_is_the_makers_is_not_told() -> None:
    given = enquiry(dog(length=told(13, conflicting=[13, 15.5], by_maker=True)))

    assert values_said(given, 0, Measure.LENGTH) == ()


def test_a_value_that_is_no_short_number_in_any_unit_that_she_used_is_not_told() -> None:
    given = enquiry(dog(length=told(13, conflicting=[13, 15.123456])))

    assert values_said(given, 0, Measure.LENGTH) == ()
