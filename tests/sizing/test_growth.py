"""Whether a young dog's measures are final."""

from dataclasses import replace

import pytest

from sizing.growth import Advice, Growth, Stage, growth
from tests.sizing.dogs import snug
from tests.sizing.shops import shop


def grown(months: float | None, **settings: object) -> Growth | None:
    return growth(replace(snug(), age_months=months), shop(**settings))


@pytest.mark.parametrize(
    ("months", "stage"),
    [
        (0, Stage.NOT_FINAL),
        (5.9, Stage.NOT_FINAL),
        (6, Stage.NEARLY),
        (11.9, Stage.NEARLY),
        (12, Stage.HEIGHT_FINAL),
        (13.9, Stage.HEIGHT_FINAL),
    ],
)
def test_a_young_dog_is_at_its_stage(months: float, stage: Stage) -> None:
    found = grown(months)

    assert found is not None
    assert found.stage is stage


@pytest.mark.parametrize("months", [None, 14, 60])
def test_of_a_grown_dog_nothing_is_said(months: float | None) -> None:
    assert grown(months) is None


@pytest.mark.parametrize(("setting", "advice"), [("wait", Advice.WAIT), ("leave_room", Advice.LEAVE_ROOM)])
def test_the_shop_advises_what_it_set(setting: str, advice: Advice) -> None:
    assert grown(4, puppy=setting) == Growth(stage=Stage.NOT_FINAL, advice=advice, age_months=4, wait_until_months=12)


def test_a_dog_with_its_final_height_gets_no_advice() -> None:
    found = grown(13)

    assert found is not None
    assert found.advice is None
