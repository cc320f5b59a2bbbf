"""What a maker's answer asks for, and the token that makes it count."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.approval.decision import Number
from bot.channels.email.orders import Order, Word, read_order
from bot.channels.email.tokens import DECIDE, SURE, Token, Tokens, settle
from bot.store.database import open_database

QUOTE = "\n\nOn Mon, 2 Mar 2026 at 10:00, Wil & Daughters <size@workshop.example> wrote:\n> Answer this mail\n> approve"
SIGNED = frozenset({"wil", "wil & daughters", "warm wishes,"})
TOKEN = Token(number=Number(enquiry=7, version=3), purpose=DECIDE)

ORDERS = [
    ("one word", "approve", Order(word=Word.APPROVE)),
    ("as people type", "  Approve. \n", Order(word=Word.APPROVE)),
    ("with emphasis", "*APPROVE!*", Order(word=Word.APPROVE)),
    ("above a quote", f"approve{QUOTE}", Order(word=Word.APPROVE)),
    ("below a quote", "> Answer this mail\n> approve\n\nset aside", Order(word=Word.SET_ASIDE)),
    ("with her name", "approve\n\nWarm wishes,\nWil\nWil & Daughters", Order(word=Word.APPROVE)),
    ("with a signature", "approve\n-- \nWil\nworkshop.example, since 1998", Order(word=Word.APPROVE)),
    ("from a telephone", "approve\n\nSent from my phone", Order(word=Word.APPROVE)),
    ("set aside", "Set aside", Order(word=Word.SET_ASIDE)),
    ("a measure", "correct width 5.5", Order(word=Word.CORRECT, text="width 5.5")),
    ("measures", "Correct: width 5.5\nthroat 8\n\nWil", Order(word=Word.CORRECT, text="width 5.5\nthroat 8")),
    ("of a held text", "Let it go out", Order(word=Word.LET_GO)),
    ("of an unsure text", "It arrived.", Order(word=Word.WENT)),
    ("again", "send it again", Order(word=Word.SEND_AGAIN)),
    ("a new text", "Hello,\n\nNo. 3.\n\nYours,\nWil", Order(word=Word.CHANGE, text="Hello,\n\nNo. 3.\n\nYours,\nWil")),
    ("a new text above a quote", f"Dear Ada,\nNo. 3.{QUOTE}", Order(word=Word.CHANGE, text="Dear Ada,\nNo. 3.")),
    ("a text that holds the word", "I approve of No. 3.", Order(word=Word.CHANGE, text="I approve of No. 3.")),
    ("a text that says not", "do not approve", Order(word=Word.CHANGE, text="do not approve")),
    ("a word that goes on", "approve\n\nbut make it No. 4", Order(word=Word.UNCLEAR, text="approve")),
    ("a word twice", "approve\nset aside", Order(word=Word.UNCLEAR, text="approve")),
    ("nothing", "", Order(word=Word.NOTHING)),
    ("nothing but the quote", QUOTE, Order(word=Word.NOTHING)),
    ("correct as an opening", "Correct me if I am wrong.", Order(word=Word.CHANGE, text="Correct me if I am wrong.")),
]  # fmt: skip


@pytest.mark.parametrize(("text", "order"), [row[1:] for row in ORDERS], ids=[row[0] for row in ORDERS])
def test_what_she_answers_is_what_happens(text: str, order: Order) -> None:
    assert read_order(text, signed=SIGNED) == order


@given(st.text())
def test_nothing_but_the_word_alone_approves(text: str) -> None:
    if read_order(text).word is Word.APPROVE:
        assert "approve" in text.casefold()


@pytest.fixture
def tokens(tmp_path: Path) -> Tokens:
    with open_database(tmp_path) as database:
        return Tokens(database)


def test_a_token_is_found_in_an_address_and_in_an_id(tokens: Tokens) -> None:
    written = tokens.make(TOKEN, "wil@workshop.example")

    assert tokens.find([f"size+{written}@workshop.example"], "wil@workshop.example") == TOKEN
    assert tokens.find(["1@x.example", f"{written}@workshop.example"], "WIL@workshop.example") == TOKEN
    assert tokens.find([written.upper()], "wil@workshop.example") == TOKEN


def test_a_token_is_worth_nothing_for_another_draft_purpose_or_maker(tokens: Tokens) -> None:
    written = tokens.make(TOKEN, "wil@workshop.example")

    for forged in (written.replace("tl.7.3", "tl.7.4"), written.replace("decide", "sure"), written[:-1]):
        assert tokens.find([f"{forged}@workshop.example"], "wil@workshop.example") is None
    assert tokens.find([f"{written}@workshop.example"], "kit@workshop.example") is None


def test_the_likeliest_place_counts(tokens: Tokens) -> None:
    older = tokens.make(Token(number=Number(enquiry=7, version=2), purpose=SURE), "wil@workshop.example")
    newer = tokens.make(TOKEN, "wil@workshop.example")

    assert tokens.find([f"{newer}@w.example", f"{older}@w.example"], "wil@workshop.example") == TOKEN


def test_a_shop_keeps_its_key_and_another_shop_has_another(tmp_path: Path) -> None:
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
    with open_database(tmp_path / "one") as database:
        first, again = Tokens(database), Tokens(database)
    with open_database(tmp_path / "two") as database:
        other = Tokens(database)
    written = first.make(TOKEN, "wil@workshop.example")

    assert again.find([written], "wil@workshop.example") == TOKEN
    assert other.find([written], "wil@workshop.example") is None
    assert "withheld" in repr(first)


def test_each_try_of_a_text_is_asked_about_anew(tokens: Tokens) -> None:
    number = TOKEN.number
    written = tokens.make(Token(number=number, purpose=settle(1)), "wil@workshop.example")

    assert tokens.find([written], "wil@workshop.example") == Token(number=number, purpose="settle1")
    assert tokens.find([written.replace("settle1", "settle2")], "wil@workshop.example") is None


@given(st.text())
def test_no_text_is_a_token(text: str) -> None:
    class Forger(Tokens):
        def __init__(self) -> None:
            self._key = bytes(32)

    assert Forger().find([text, f"tl.7.3.decide.{text}"], "wil@workshop.example") is None
