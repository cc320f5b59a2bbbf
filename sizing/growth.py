"""Whether a young dog's measures are final, and what its people are advised."""

from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from sizing.chart import Shop
from sizing.measures import Dog
from sizing.tables import table


class Stage(StrEnum):
    """How far a dog has grown."""

    NOT_FINAL = "not_final"
    """Neither height nor length is final."""
    NEARLY = "nearly"
    """Height and length of a small dog are nearly final; it still fills out."""
    HEIGHT_FINAL = "height_final"
    """Height and length are final; the weight may still rise."""


class Advice(StrEnum):
    """What the shop advises the people of a dog that still grows."""

    WAIT = "wait"
    LEAVE_ROOM = "leave_room"


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """How far a young dog has grown.

    advice       None where height and length are final
    wait_until_months   age from which height and length are final
    """

    stage: Stage
    advice: Advice | None
    age_months: float
    wait_until_months: float


def growth(dog: Dog, shop: Shop) -> Growth | None:
    """Give how far a dog has grown; None for a grown dog, or where its age was not told."""
    ages, age = _ages(), dog.age_months
    if age is None or age >= ages["weight_final_from"]:
        return None
    if age >= ages["height_final_from"]:
        stage, advice = Stage.HEIGHT_FINAL, None
    else:
        stage = Stage.NOT_FINAL if age < ages["nothing_final_under"] else Stage.NEARLY
        advice = Advice(shop.puppy)
    return Growth(stage=stage, advice=advice, age_months=age, wait_until_months=ages["height_final_from"])


@cache
def _ages() -> dict[str, float]:
    return {key: float(value) for key, value in table("growth.toml")["ages"].items()}
