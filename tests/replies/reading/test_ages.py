"""How old dogs are, as far as a message says so."""

import pytest

from tests.replies.reading.readings import known, reading

DOG = "10 tall 12 long 5 wide, throat 7, 11 lb"


def ages(text: str, **context: object) -> list[float | None]:
    return [None if dog.age_months is None else round(dog.age_months, 1) for dog in reading(text, **context).dogs]


@pytest.mark.parametrize(
    ("text", "months"),
    [
        (f"{DOG}, 4 months old", 4),
        (f"14-week-old spaniel, {DOG}", 3.2),
        (f"Nine week old Yorkie, Crumb. {DOG}", 2.1),
        (f"Pup is 5 months, {DOG}", 5),
        (f"puppy, 16 wks, {DOG}", 3.7),
        (f"He have now 5 month, {DOG}", 5),
        (f"Welpe, 4 Monate alt, {DOG}", 4),
        (f"il cucciolo ha 5 mesi, {DOG}", 5),
        (f"{DOG}. Age: 6 months", 6),
        (f"{DOG}, she is 2 years old", 24),
        (f"two 8 week dachshund puppies. {DOG}", 1.8),
    ],
)
def test_an_age_is_the_dogs(text: str, months: float) -> None:
    assert ages(text) == [months]


@pytest.mark.parametrize(
    "text",
    [
        f"{DOG}. how long does it take, 6 weeks?",
        f"{DOG}, need it in 3 weeks",
        f"{DOG}. we got the puppy 2 months ago",
        f"{DOG}. My last bag broke after 5 months",
        f"{DOG}. Three weeks of smaller dinners",
        f"{DOG}, he gets carried 20 minutes",
        f"{DOG}. I am 62",
    ],
)
def test_any_other_span_of_time_is_no_age(text: str) -> None:
    assert ages(text) == [None]


def test_each_dog_has_its_own_age() -> None:
    text = "Biscuit 14 wks old 4.4kg 21cm tall, Gravy 3 yrs old 8.8kg 29cm tall"

    assert ages(text) == [3.2, 36]


def test_the_age_of_a_dog_that_is_known_can_be_told_later() -> None:
    assert ages("she's 5 months old by the way", dogs=[known("Pip", height=9)], first=False) == [5]


def test_an_age_alone_makes_no_dog() -> None:
    assert ages("my puppy is 4 months old, which size?") == []
