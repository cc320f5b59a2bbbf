"""What goes out: headers that no customer writes, two bodies of one wording, ids that keep a thread together."""

import ssl
from dataclasses import replace
from datetime import UTC, datetime
from email import message_from_bytes
from email.policy import default
from email.utils import getaddresses

import pytest
from hypothesis import given
from hypothesis import strategies as st
from inscriptis import get_text
from pydantic import SecretStr

from bot.channels.email.account import Account, Server
from bot.channels.email.compose import customer_mail, html_of, maker_mail, subject_of_answer, text_key
from bot.channels.email.headers import ids
from bot.message import Attachment, ChannelName, Outgoing
from tests.bot.channels.email.running import html, plain

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
SERVER = Server(
    host="localhost", port=1, starttls=False, user="x", password=SecretStr("x"), context=ssl.create_default_context()
)
ACCOUNT = Account(address="size@workshop.example", name="Wil & Daughters", imap=SERVER, smtp=SERVER)
TEXT = Outgoing(
    channel=ChannelName.EMAIL,
    account="",
    address="ada@customers.example",
    text="Hello Ada,\n\nNo. 3 it is.\n",
    key="0123456789abcdef01234567",
    subject="Which size?",
)
OURS = {
    "from", "to", "subject", "date", "message-id", "in-reply-to", "references", "x-tapeline-text", "mime-version",
    "content-type", "auto-submitted", "reply-to",
}  # fmt: skip
LONG = f"{'AM9PR04MB8342F0A1B2C3D4E5F6A7B8C9D0E1F2A3B4' * 3}@am9pr04mb8342.provider.example"
"""Some programs write ids that are longer than a line may be broken at."""


@given(
    text=st.text(),
    subject=st.text(),
    answered=st.text(),
    thread=st.text(),
    name=st.text(max_size=100),
)
def test_no_text_whatever_becomes_a_header_or_markup(
    text: str, subject: str, answered: str, thread: str, name: str
) -> None:
    whole = replace(TEXT, text=text, subject=subject, reply_to=answered, thread_key=thread)
    mail = customer_mail(replace(ACCOUNT, name=name), whole, at=NOON)
    message = message_from_bytes(mail.raw, policy=default)

    assert {header.lower() for header in message.keys()} <= OURS  # noqa: SIM118 - a header may be there twice
    assert len(message.keys()) == len({header.lower() for header in message.keys()})  # noqa: SIM118
    assert [address for _, address in getaddresses([str(message["To"])])] == ["ada@customers.example"]
    assert message["From"].addresses[0].addr_spec == "size@workshop.example"
    assert "<script" not in html(message)


@pytest.mark.parametrize(
    "hostile",
    [
        "Which size?\r\nBcc: everybody@example.org",
        "Which size?\nBcc: everybody@example.org\n\n<b>body</b>",
        "Which size?\u2028Bcc: everybody@example.org",
        "Which size?\x0b\x0c\x85Bcc: everybody@example.org",
        "=?utf-8?q?Which=0D=0ABcc:_everybody@example.org?=",
        "x" * 5000,
    ],
)
def test_a_subject_stays_one_line(hostile: str) -> None:
    mail = customer_mail(ACCOUNT, replace(TEXT, subject=hostile), at=NOON)
    message = message_from_bytes(mail.raw, policy=default)

    assert message["Bcc"] is None
    assert len(str(message["Subject"]).splitlines()) == 1
    assert max(map(len, mail.raw.split(b"\r\n"))) <= 998


def test_an_address_that_would_be_a_header_is_refused() -> None:
    with pytest.raises(ValueError):
        customer_mail(ACCOUNT, replace(TEXT, address="ada@customers.example\r\nBcc: x@example.org"), at=NOON)


def test_long_ids_are_neither_broken_nor_encoded() -> None:
    mail = customer_mail(ACCOUNT, replace(TEXT, reply_to=LONG, thread_key="root@customers.example"), at=NOON)

    assert f"In-Reply-To: <{LONG}>\r\n".encode() in mail.raw
    assert f"References: <root@customers.example>\r\n <{LONG}>\r\n".encode() in mail.raw


def test_an_id_of_our_own_making_is_quoted_nowhere() -> None:
    mail = customer_mail(ACCOUNT, replace(TEXT, reply_to="mail 0123456789abcdef", thread_key="a b"), at=NOON)
    message = message_from_bytes(mail.raw, policy=default)

    assert message["In-Reply-To"] is None
    assert message["References"] is None


def test_both_bodies_say_the_same() -> None:
    text = "Hello Ada,\n\n5 < 6 & \"7\" > 'x'\n  indented\n\nhttps://workshop.example/?a=1&b=2\n\n\nWarm wishes,\nWil"
    message = message_from_bytes(customer_mail(ACCOUNT, replace(TEXT, text=text), at=NOON).raw, policy=default)

    assert plain(message).replace("\r\n", "\n").strip() == text
    assert get_text(html(message)).split() == text.split()  # inscriptis, a renderer of its own


@given(st.text(alphabet=st.characters(exclude_categories=["Cs", "Cc"])))
def test_html_shows_just_the_text(text: str) -> None:
    assert "".join(get_text(f"<html><body>{html_of(text)}</body></html>").split()) == "".join(text.split())


@pytest.mark.parametrize(
    ("subject", "answer"),
    [
        ("Which size?", "Re: Which size?"),
        ("Re: Which size?", "Re: Which size?"),
        ("RE: AW: Re[2]: Which size?", "Re: Which size?"),
        ("Reference 12", "Re: Reference 12"),
        ("", "Re: Your question"),
        ("Re:", "Re: Your question"),
    ],
)
def test_an_answer_has_the_subject_of_what_it_answers(subject: str, answer: str) -> None:
    assert subject_of_answer(subject) == answer


def test_what_goes_by_itself_says_so_to_other_machines() -> None:
    by_itself, approved = (customer_mail(ACCOUNT, TEXT, at=NOON, automatic=one) for one in (True, False))

    assert b"Auto-Submitted: auto-replied\r\n" in by_itself.raw
    assert b"Auto-Submitted" not in approved.raw


def test_an_address_in_other_letters_is_written_as_servers_take_it() -> None:
    mail = customer_mail(ACCOUNT, replace(TEXT, address="ada@bücher.example"), at=NOON)

    assert (mail.recipient, mail.wide) == ("ada@xn--bcher-kva.example", False)
    assert customer_mail(ACCOUNT, replace(TEXT, address="jürgen@customers.example"), at=NOON).wide


def test_a_file_in_a_makers_mail_keeps_its_name_and_bytes() -> None:
    picture = Attachment(name="Pickle\r\nBcc: x.jpg", type="image/jpeg", bytes=b"\xff\xd8\r\n.\r\n")
    mail = maker_mail(
        ACCOUNT,
        "wil@workshop.example",
        subject="7.3",
        text="x",
        html="<p>x</p>",
        own_id="tl.7.3@workshop.example",
        answers=[],
        answer_to="",
        at=NOON,
        files=[picture],
    )
    message = message_from_bytes(mail.raw, policy=default)
    (file,) = message.iter_attachments()

    assert file.get_content() == picture.bytes
    assert file.get_filename() == "Pickle Bcc: x.jpg"
    assert message["Bcc"] is None


def test_only_ids_of_our_own_are_taken_for_texts_of_ours() -> None:
    (own,) = ids(f"<{TEXT.key}@Workshop.example>")

    assert text_key(own, "workshop.example") == TEXT.key
    for other in (f"{TEXT.key}@other.example", "short@workshop.example", f"x{TEXT.key}@workshop.example", "", "@"):
        assert text_key(other, "workshop.example") is None
