"""Numbers of other things: nothing that is no dog's measure may slip in among the measures."""

import pytest

from tests.replies.reading.readings import aside, dogs, measures

DOG = "Back 13 in, shoulder 11 in, width 5 in, 12 lb."
READ = {"length": "13 in", "height": "11 in", "width": "5 in", "weight": "12 lb"}

SENTENCES = [
    "He's 4 years old.",
    "She turned 3 in May.",
    "We need it by 14 March.",
    "My budget is about $80.",
    "Order 20417, by the way.",
    "I'm 5'4\" myself.",
    "I am 170 cm tall.",
    "His crate is 24 x 18 x 20 inches.",
    "The airline allows 18 x 11 x 11 in under the seat.",
    "The handles should have a 14 inch drop.",
    "His collar is a size 12.",
    "He wears a 12 inch harness.",
    "His tail is 9 inches long.",
    "His old carrier was 16 inches long.",
    "I saw the size 3 on your page.",
    "We live on the 4th floor.",
    "I've had dogs for 30 years.",
    "Call me at 555-0143.",
    "We ride about 12 miles a day.",
    "He was 9 lb when we got him.",
    "Last year he weighed 15 lb.",
    "The vet wants him down to 10 lb.",
    "He'll be about 20 lb when he's grown.",
    "My friend's poodle is 14 inches long but she doesn't need one.",
    "His bed is 22 inches wide.",
    "Your chart says size 2 is for dogs up to 12 inches.",
    "It was 30 degrees last summer.",
    "He eats 2 cups a day.",
    "He is 1 of 6 puppies.",
    "We sit in 23B.",
    "The horse is 16 hands.",
    "Chapter 7 of my book is about him.",
    "See you at 10:30.",
    "The strap is 48 inches long.",
    "My bike basket is 15 inches wide.",
    "We have a 40 lb lab who walks.",
    "He has 4 legs and 1 tail, like most.",
    "My zip is 04101.",
]


@pytest.mark.parametrize("sentence", SENTENCES)
@pytest.mark.parametrize("order", ["{dog} {sentence}", "{sentence} {dog}", "Hi!\n\n{dog}\n\n{sentence}\n\nThanks, Ann"])
def test_a_sentence_about_something_else_changes_nothing(sentence: str, order: str) -> None:
    assert measures(order.format(dog=DOG, sentence=sentence)) == READ


@pytest.mark.parametrize(
    ("text", "number", "reason"),
    [
        ("He's 4 years old.", "4 years", "not_a_measure"),
        ("I am 170 cm tall.", "170 cm", "not_a_measure"),
        ("Our cat is 9 lb.", "9 lb", "not_this_dog"),
        ("Last year he weighed 15 lb.", "15 lb", "not_a_measure"),
        ("not 13, sorry, 14 in long", "13", "withdrawn"),
    ],
)
def test_every_number_that_is_left_has_its_reason(text: str, number: str, reason: str) -> None:
    assert aside(text)[number] == reason


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("his neck is 10 in, collar size 12", {"neck": "10 in"}),
        ("he was 10 lb in spring, now he's 12 lb", {"weight": "12 lb again"}),
        ("weight 12 lb, should be 10 lb", {"weight": "12 lb"}),
        ("if he were 14 in long I'd take the larger one, but he's 13 in long", {"length": "13 in"}),
    ],
)
def test_the_dogs_own_number_beside_another_one(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


def test_a_cat_beside_a_dog_keeps_its_weight_to_itself() -> None:
    assert measures(f"{DOG} Our cat is 9 lb.") == READ


@pytest.mark.parametrize("text", ["He's 5 now.", "I have 2 dogs", "The 15th would be great", "it costs 90"])
def test_a_message_with_other_numbers_only_has_no_dog_with_measures(text: str) -> None:
    assert all(set(dog) <= {"name"} for dog in dogs(text))


@pytest.mark.parametrize(
    "sentence", ["The bed he likes is 22 inches wide.", "The couch our dog sleeps on is 30 in high."]
)
def test_a_sentence_about_a_thing_says_what_the_thing_measures(sentence: str) -> None:
    assert measures(f"{DOG} {sentence}") == READ
