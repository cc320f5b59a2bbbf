"""Quoted questions, above the answer or numbered below."""

from replies.reading.trim_email import trim_email


def test_a_bare_answer_knows_the_question_above_it() -> None:
    text = "> How tall at the\n> shoulder?\n\n25 cm\n> - the width\n14\nand 15"
    trimmed = trim_email(text)
    above = [trimmed.question_above(text.index(answer)) for answer in ("25 cm", "14", "and 15")]

    assert [question.text if question else None for question in above] == [
        "How tall at the shoulder?",
        "the width",
        None,
    ]


def test_numbered_questions_below_are_known_by_their_numbers() -> None:
    text = (
        "1. 5.6 kg\n2. 19 cm\n\nOn 14 Mar 2025, Shop <a@b.example> wrote:\n> could you send\n> 1. weight\n> 2. throat\n"
    )

    assert {number: question.text for number, question in trim_email(text).numbered().items()} == {
        1: "weight",
        2: "throat",
    }


def test_a_number_used_for_two_questions_is_left_out() -> None:
    assert trim_email("> 1. weight\n> 1. throat\n> 2. back").numbered().keys() == {2}
