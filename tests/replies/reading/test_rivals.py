"""Which of several values of one measure counts, and what stays where nothing settles it."""

import pytest

from tests.replies.reading.readings import dogs

SETTLED = [
    ("the first was taken badly", "height 12.5 sitting, 11 standing. back 13", "11"),
    ("the second was taken badly", "height 11 standing and 12.5 when he was sitting. back 13", "11"),
    ("the coat", "height 12 with his coat, 11 without. back 13", "11"),
    ("pointed to by its order", "height came out 12 and then 11, please use the second. back 13", "11"),
    ("pointed to by its size", "two heights: 12 and 11. the smaller one is correct. back 13", "11"),
    ("pointed to by its place", "height 12 on the sofa and 11 on the floor, trust the floor. back 13", "11"),
    ("pointed away from", "height came out 12 and then 11, ignore the first. back 13", "11"),
    ("called wrong", "height 12 on the grass, that is wrong, 11 on the floor. back 13", "11"),
    ("an average", "height three times: 10.5, 11.5, 11, average 11. back 13", "11"),
]


@pytest.mark.parametrize(("text", "height"), [row[1:] for row in SETTLED], ids=[row[0] for row in SETTLED])
def test_the_value_that_was_taken_well_or_pointed_to_counts(text: str, height: str) -> None:
    (dog,) = dogs(text)

    assert dog["length"] == "13"
    assert dog["height"].removesuffix(" correction") == height


OPEN = [
    ("nothing said", "height 11 on the sofa and 12.5 on the floor. back 13"),
    ("asked which", "height 11 on the first go, 12.5 on the second, which one should i use? back 13"),
    ("not known which", "height first go 11, second go 12.5, no idea which is right. back 13"),
    ("not known who", "height 11. my partner measured the height as 12.5, no idea which of us is right. back 13"),
    ("a habit, not a try", "height first go 11, second go 12.5, he keeps wriggling. back 13"),
    ("both were taken well", "height 11 standing square, second go 12.5 standing square. back 13"),
    (
        "pointed to, but both are meant",
        "height 11 by the kitchen wall and 12.5 by the hall wall, trust the wall. back 13",
    ),
]


@pytest.mark.parametrize("text", [row[1] for row in OPEN], ids=[row[0] for row in OPEN])
def test_values_that_nothing_settles_contradict_one_another(text: str) -> None:
    (dog,) = dogs(text)

    assert dog["length"] == "13"
    assert dog["height"] == "12.5 conflict"
