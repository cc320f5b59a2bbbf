"""Names of dogs, told apart from names of people and from common words."""

import pytest

from tests.replies.reading.readings import dogs


def names(text: str) -> list[str]:
    return [dog["name"] for dog in dogs(text) if "name" in dog]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Our Olive is 13 in long", ["Olive"]),
        ("this is for Biscuit, 12 lb", ["Biscuit"]),
        ("my dog Rex weighs 12 lb", ["Rex"]),
        ("Rex: back 13 in", ["Rex"]),
        ("her name is Lady, 12 lb", ["Lady"]),
        ("he's called Bear and is 12 lb", ["Bear"]),
        ("Mr. Pickles is 12 lb", ["Mr Pickles"]),
        ("dog's name: Honey\nweight: 12 lb", ["Honey"]),
        ("Nacho's back is 13 in", ["Nacho"]),
        ("olive is 13 in long, my dog", []),
        ("Hi Maren, my dachshund is 12 lb. Thanks, Ann", []),
        ("In March he was 12 lb", []),
        ("Length 13 in, Height 11 in", []),
        ("THANK YOU! WEIGHT 12 LB", []),
        ("Unser Hund Fips wiegt 5 kg", ["Fips"]),
        ("Notre chienne Plume pèse 5 kg", ["Plume"]),
        ("Rex and Bella are both 12 lb", ["Rex", "Bella"]),
        ("Toffee, Nutmeg and Clove: 12, 9 and 15 lb", ["Toffee", "Nutmeg", "Clove"]),
    ],
)
def test_names(text: str, expected: list[str]) -> None:
    assert names(text) == expected


@pytest.mark.parametrize(
    "text", ["Ann here, my dog is 12 lb", "My husband Tom says 12 lb", "Greetings from Boston, he is 12 lb"]
)
def test_people_and_places_are_no_dogs(text: str) -> None:
    assert names(text) == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Rex and Bella, both 12 lb", ["Rex", "Bella"]),
        ("Toffee, Nutmeg and Clove weigh 12, 9 and 15 lb", ["Toffee", "Nutmeg", "Clove"]),
        ("Olive and Pepper are 12 and 9 lb", ["Olive", "Pepper"]),
    ],
)
def test_names_in_a_row_are_all_names(text: str, expected: list[str]) -> None:
    assert names(text) == expected
