"""Pasted conversations: whose words are whose."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.reading.speakers import find_turns, mask_turns
from replies.reading.tidy import tidy
from tests.replies.reading.found import found

CONVERSATIONS = [
    ("times in brackets", "[10:42] buyer: hi\n[10:43] shop: how tall?\n[10:51] buyer: 23 cm", ["hi", "23 cm"]),
    ("seconds and dates", "[02.03.26, 10:42:11] Ada: hi\n[02.03.26, 10:43:00] Workshop: how tall?", ["hi"]),
    (
        "a dated export",
        "12.03.26, 19:41 - Ilaria: ciao\n12.03.26, 19:44 - Bottega: 29 cm\n12.03.26, 19:45 - Ilaria: 30 cm",
        ["ciao", "30 cm"],
    ),
    ("name and time", "Ada, 10:42: 23 cm\nShop, 10:43: how long?\nAda, 10:44: 30 cm", ["23 cm", "30 cm"]),
    ("name and time in brackets", "Gast (20:13): 23 cm\nLaden (20:14): Danke", ["23 cm"]),
    (
        "a line for name and time",
        "Ada, [02.03.2026 10:42]\n23 cm\n\nWorkshop, [02.03.2026 10:43]\nhow tall?",
        ["23 cm"],
    ),
    (
        "a line for name and time without brackets",
        "Marit  09:02\nhei\n\nVerksted  09:05\nfire away\n\nMarit  09:11\n36 cm",
        ["hei", "36 cm"],
    ),
    ("me and them", "Me: how tall?\nThem: 12 in\nand 14 long\nMe: thanks", ["12 in\nand 14 long"]),
    ("customer and shop", "Customer: 12 in\nShop: 14 in inside", ["12 in"]),
    ("me beside the shop", "Me: 12 in tall\nShop: and how long?\nMe: 14", ["12 in tall", "14"]),
    ("who answers with measures", "Q: back?\nA: 12 in\nQ: weight?\nA: 9 lb", ["12 in", "9 lb"]),
    (
        "who answers a question of measures",
        "Q: is 12 in ok?\nA: 14 in inside\nQ: and the board?\nA: 13 in",
        ["is 12 in ok?", "and the board?"],
    ),
    ("half-day times", "[10:42 pm] Ada: 12 in\n[10:43 pm] shop: ok", ["12 in"]),
    (
        "two names: who gives measures is the customer",
        "[10:42] Jo: hello\n[10:43] Ada: hi! how tall?\n[10:44] Jo: 12 in",
        ["hello", "12 in"],
    ),
    ("two names: who begins, else", "[10:42] Jo: do you ship?\n[10:43] Ada: yes", ["do you ship?"]),
    ("Polish", "Kupujący, 14:02: 25 cm\nSklep, 14:05: a waga?", ["25 cm"]),
]


@pytest.mark.parametrize(("text", "said"), [row[1:] for row in CONVERSATIONS], ids=[row[0] for row in CONVERSATIONS])
def test_the_customers_words_are_told_from_the_shops(text: str, said: list[str]) -> None:
    plain = tidy(text).text
    turns = find_turns(plain)

    assert [plain[turn.words_start : turn.end].strip() for turn in turns if turn.author == "customer"] == said


NONE = [
    ("a form", "Back: 34\nShoulder: 11\nWidth: 5\nName: Tinker"),
    ("a correction", "sorry, 6.25"),
    ("a name and a time of day", "Ada, 10:42: 12 in"),
    ("a single role", "Customer: Ada\nBack: 12"),
    ("labels with letters", "L: 12\nH: 10\nW: 5"),
    ("a sentence with a colon", "so here goes: 12 long"),
    ("a time in a sentence", "at 10:42 she was 12 lb\nand at 11:42 too"),
    ("dogs with colons", "Fig: 7.5 long\nBruno: 13 long"),
    ("words before", "what they say\nMe: 12\nThem: 13"),
]


@pytest.mark.parametrize("text", [row[1] for row in NONE], ids=[row[0] for row in NONE])
def test_a_text_that_is_no_conversation_has_no_turns(text: str) -> None:
    assert find_turns(tidy(text).text) == ()


def test_masked_text_keeps_the_customers_numbers_alone() -> None:
    text = "[10:42] buyer: 23 cm\n[10:43] shop: ours is 29 cm\n[10:51] buyer: 27 cm"
    masked = mask_turns(text, find_turns(text))

    assert found(masked) == ["23 cm", "27 cm"]
    assert len(masked) == len(text)


pieces = ["[10:42] Ada: ", "Me: ", "Them: ", "12 in", "Ada, 10:42: ", "10:42 - ", "\n"]


@given(st.text() | st.lists(st.sampled_from(pieces)).map("".join))
def test_any_text_is_split_and_turns_lie_in_it_in_order(text: str) -> None:
    plain = tidy(text).text
    last = 0
    for turn in find_turns(plain):
        assert last <= turn.start <= turn.words_start <= turn.end <= len(plain)
        last = turn.end
    assert len(mask_turns(plain, find_turns(plain))) == len(plain)
