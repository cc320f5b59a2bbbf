"""Measures in tables: a column or a line for each measure."""

import pytest

from tests.replies.reading.readings import dogs, measures

ONE = {"length": "33 cm", "height": "28 cm", "width": "13 cm"}
TWO = [{"name": "Toffee", "length": "33", "height": "28"}, {"name": "Biscuit", "length": "30", "height": "26"}]


@pytest.mark.parametrize(
    "text",
    [
        "length\t33 cm\nheight\t28 cm\nwidth\t13 cm",
        "| length | 33 cm |\n| height | 28 cm |\n| width | 13 cm |",
        "length | height | width\n33 cm | 28 cm | 13 cm",
        "length;height;width\n33 cm;28 cm;13 cm",
        "| | |\n|---|---|\n| length | 33 cm |\n| height | 28 cm |\n| width | 13 cm |",
    ],
)
def test_a_dog_in_a_table(text: str) -> None:
    assert measures(text) == ONE


@pytest.mark.parametrize(
    "text",
    [
        "name | length | height\nToffee | 33 | 28\nBiscuit | 30 | 26",
        "| | Toffee | Biscuit |\n|---|---|---|\n| length | 33 | 30 |\n| height | 28 | 26 |",
        "name;length;height\nToffee;33;28\nBiscuit;30;26",
        "\tToffee\tBiscuit\nlength\t33\t30\nheight\t28\t26",
        "          Toffee   Biscuit\nlength    33       30\nheight    28       26",
        "Dog       length   height\nToffee    33       28\nBiscuit   30       26",
    ],
)
def test_several_dogs_in_a_table(text: str) -> None:
    assert dogs(text) == TWO


def test_the_shops_own_table_is_no_dog() -> None:
    assert dogs("size | length | height\n1 | 10 | 8\n2 | 12 | 10\n3 | 14 | 12\nwhich one for us?") == []


def test_a_column_of_a_thing_is_no_dog() -> None:
    text = "            Dog     Old bag\nlength      33 cm   40 cm\nheight      28 cm   31 cm\nwidth       13 cm"

    assert dogs(text) == [ONE]


def test_columns_that_nothing_heads_contradict_one_another() -> None:
    (dog,) = dogs("length   31   33\nheight   26   28\nwidth   12   14")

    assert {key: "conflict" in value for key, value in dog.items()} == dict.fromkeys(ONE, True)
