"""What the maker should know beside the fit."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from sizing.assess import assess
from sizing.assessment import Note, Remark
from sizing.chart import Shop
from sizing.fit import body_of, fit
from sizing.measures import Dog, Posture, SpaceLimit
from sizing.notes import notes_on_dog
from tests.sizing.dogs import dog, snug
from tests.sizing.shops import shop

ON = date(2026, 3, 1)
LONG = dog(length=14.5, height=11, width=5.75, throat=8, weight=13)


def said(told: Dog, chart: Shop | None = None) -> dict[Remark, str]:
    return {note.remark: note.text for note in assess(told, chart or shop(), ON).notes}


def rated(load: float = 50.0, **settings: Any) -> Shop:
    sizes = [one.model_dump() | {"rated_load": load} for one in shop().sizes]
    return shop(sizes=sizes, made_to_measure_rated_load=load, **settings)


@pytest.mark.parametrize("told", [snug(), snug(throat=9), LONG], ids=["standard", "altered", "made to measure"])
def test_a_carrier_without_a_rated_load_is_noted(told: Dog) -> None:
    assert "nothing is claimed about its strength" in said(told)[Remark.NO_RATED_LOAD]
    assert Remark.NO_RATED_LOAD not in said(told, rated())


def test_an_empty_weight_that_is_an_estimate_is_noted() -> None:
    assert "weigh the finished carrier" in said(LONG)[Remark.EMPTY_ESTIMATED]
    assert Remark.EMPTY_ESTIMATED not in said(snug())


def test_an_opening_that_cannot_be_cut_is_noted() -> None:
    assert "no room between throat hollow and elbow" in said(snug(throat=5.6, length=12.4))[Remark.NO_OPENING]


def test_a_fallback_whose_edge_lies_below_the_elbow_is_noted() -> None:
    chart = shop(sizes=[shop().size("No. 6").model_dump() | {"opening": 6.0}])

    assert fit(body_of(LONG), chart).fallback == "No. 6"
    assert "The edge of No. 6 lies below the dog's elbow" in said(LONG, chart)[Remark.FALLBACK_EDGE]
    assert Remark.FALLBACK_EDGE not in said(LONG)


@pytest.mark.parametrize(
    ("months", "setting", "words"),
    [
        (
            4,
            "wait",
            "4 months old: no height or length is final yet; final from about 12 months. Your setting advises to wait.",
        ),
        (
            8,
            "leave_room",
            "height and length are nearly final; final from about 12 months. Your setting advises to leave room.",
        ),
        (13, "wait", "13 months old: height and length are final, the weight may still rise."),
    ],
)
def test_a_puppy_is_noted_with_what_the_shop_advises(months: float, setting: str, words: str) -> None:
    assert words in said(replace(snug(), age_months=months), shop(puppy=setting))[Remark.PUPPY]


@pytest.mark.parametrize(
    ("posture", "words"),
    [(Posture.SITS, "Sitting takes less length"), (Posture.CURLS, "less length and height, but more")],
)
def test_a_posture_says_what_it_means_for_the_length(posture: Posture, words: str) -> None:
    assert words in said(replace(snug(), posture=posture))[Remark.POSTURE]


def test_a_dog_that_stands_needs_no_note() -> None:
    assert list(notes_on_dog(replace(snug(), posture=Posture.STANDS), None)) == []


@pytest.mark.parametrize(
    ("sides", "words"),
    [
        ((18.0, 14.0, 8.0), "Outside 15 x 7 x 13"),
        (
            (18.0, 14.0, 8.0),
            "within, if 14 in stands up, the 18 in x 14 in x 8 in that was named. The operator decides.",
        ),
        ((20.0, 20.0, 20.0), "within the 20 in x 20 in x 20 in"),
        ((10.0, 8.0, 6.0), "more than the 10 in x 8 in x 6 in that was named. The operator decides."),
    ],
)
def test_a_named_size_limit_is_answered_and_left_to_the_operator(sides: tuple[float, float, float], words: str) -> None:
    assert (
        words.replace("15 x 7 x 13", "15 in x 7 in x 13 in")
        in said(replace(snug(), space=SpaceLimit(sides=sides)))[Remark.SPACE]
    )


def test_notes_use_the_units_that_the_maker_works_in() -> None:
    limited = replace(snug(), space=SpaceLimit(sides=(18.0, 14.0, 8.0)))

    assert "Outside 38 cm x 18 cm x 33 cm" in said(limited, shop(length_unit="cm"))[Remark.SPACE]


def test_what_hangs_on_the_dog_alone_is_noted_before_anything_is_known() -> None:
    notes = assess(Dog(age_months=3), shop(), ON).notes

    assert [note.remark for note in notes] == [Remark.PUPPY]
    assert all(isinstance(note, Note) for note in notes)
