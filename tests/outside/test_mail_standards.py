"""Mails are read as the published standards have it; the examples are theirs, quoted from memory where so marked."""

import pytest

from bot.channels.email.bounces import Returned, find_returned
from bot.channels.email.compose import html_of
from bot.channels.email.flowed import unflow
from bot.channels.email.headers import addresses, date, ids, words
from bot.channels.email.letter import read_head, read_letter

# RFC 2047, section 8: the table of encoded forms and how they are displayed. From memory.
ENCODED_WORDS = [
    ("(=?ISO-8859-1?Q?a?=)", "(a)"),
    ("(=?ISO-8859-1?Q?a?= b)", "(a b)"),
    ("(=?ISO-8859-1?Q?a?= =?ISO-8859-1?Q?b?=)", "(ab)"),
    ("(=?ISO-8859-1?Q?a?=  =?ISO-8859-1?Q?b?=)", "(ab)"),
    ("(=?ISO-8859-1?Q?a?=\r\n    =?ISO-8859-1?Q?b?=)", "(ab)"),
    ("(=?ISO-8859-1?Q?a_b?=)", "(a b)"),
    ("(=?ISO-8859-1?Q?a?= =?ISO-8859-2?Q?_b?=)", "(a b)"),
]


@pytest.mark.parametrize(("written", "shown"), ENCODED_WORDS)
def test_encoded_words_are_shown_as_rfc_2047_has_it(written: str, shown: str) -> None:
    assert words(written) == shown


def test_a_subject_in_two_encodings_is_one_text() -> None:
    # RFC 2047, section 8, the example subject in base64 of two character sets. From memory.
    subject = (
        "=?ISO-8859-1?B?SWYgeW91IGNhbiByZWFkIHRoaXMgeW8=?=\r\n    =?ISO-8859-2?B?dSB1bmRlcnN0YW5kIHRoZSBleGFtcGxlLg==?="
    )

    assert words(subject) == "If you can read this you understand the example."


def test_identification_fields_are_those_of_rfc_5322() -> None:
    # RFC 5322, appendix A.2 (replies): the ids of the three messages. From memory.
    head = read_head(
        b"Message-ID: <abcd.1234@local.machine.test>\r\n"
        b"In-Reply-To: <3456@example.net>\r\nReferences: <1234@local.machine.example> <3456@example.net>\r\n\r\n"
    )

    assert head.message_id == "abcd.1234@local.machine.test"
    assert head.root == "1234@local.machine.example"
    assert head.answers == ("3456@example.net", "1234@local.machine.example")


@pytest.mark.parametrize(
    ("written", "moment"),
    [
        # RFC 5322, appendices A.1.1, A.5 and A.6.2 (white space, comments, an obsolete zone). From memory.
        ("Fri, 21 Nov 1997 09:55:06 -0600", "1997-11-21T15:55:06+00:00"),
        (
            "Thu,\r\n      13\r\n        Feb\r\n          1969\r\n      23:32\r\n               -0330",
            "1969-02-14T03:02:00+00:00",
        ),
        ("21 Nov 97 09:55:06 GMT", "1997-11-21T09:55:06+00:00"),
    ],
)
def test_dates_are_read_as_rfc_5322_has_it(written: str, moment: str) -> None:
    found = date(written)

    assert found is not None
    assert found.isoformat() == moment


@pytest.mark.parametrize(
    ("written", "read"),
    [
        # RFC 5322, section 3.4: name-addr, addr-spec, quoted names, groups; the names here are of our own invention.
        ('"Ada Q. Public" <ada.q@example.com>', [("Ada Q. Public", "ada.q@example.com")]),
        ("ada@example.org, Who? <one@y.test>", [("", "ada@example.org"), ("Who?", "one@y.test")]),
        ("A Group:Ed <joe@where.test>,kit@one.test;", [("Ed", "joe@where.test"), ("", "kit@one.test")]),
        ("Undisclosed recipients:;", []),
    ],
)
def test_addresses_are_read_as_rfc_5322_has_it(written: str, read: list[tuple[str, str]]) -> None:
    assert addresses(written) == read


def test_a_flowed_paragraph_is_joined_as_rfc_3676_has_it() -> None:
    # RFC 3676, section 4.2 and 4.5: soft breaks, a space-stuffed line, quoting by depth. The words are our own.
    text = "`Take some more tape,' \nthe maker said \nto Ada, very earnestly.\n\n>> Two \n>> deep\n> one\n From here"

    assert unflow(text) == (
        "`Take some more tape,' the maker said to Ada, very earnestly.\n\n>> Two deep\n> one\nFrom here"
    )


def test_the_signature_separator_is_never_joined() -> None:
    # RFC 3676, section 4.3.
    assert unflow("The end \n-- \nAda") == "The end \n-- \nAda"


def test_a_name_in_pieces_and_another_language_is_read_as_rfc_2231_has_it() -> None:
    # RFC 2231, section 4.1: the example title in three pieces, here as a file's name. From memory.
    raw = (
        b"MIME-Version: 1.0\r\nContent-Type: application/x-stuff\r\nContent-Disposition: attachment;\r\n"
        b" filename*0*=us-ascii'en'This%20is%20even%20more%20;\r\n"
        b' filename*1*=%2A%2A%2Afun%2A%2A%2A%20;\r\n filename*2="isn\'t it!"\r\n\r\nx'
    )

    assert [file.name for file in read_letter(raw).files] == ["This is even more ***fun*** isn't it!"]


def test_a_delivery_report_is_read_as_rfc_3464_has_it() -> None:
    # RFC 3464, appendix E.1 (a simple report): its fields in its order; the names here are of our own invention.
    raw = (
        b"From: Mail Delivery Subsystem <MAILER-DAEMON@mx.example>\r\nSubject: Returned mail\r\nMIME-Version: 1.0\r\n"
        b'Content-Type: multipart/report; report-type=delivery-status;\r\n      boundary="R/mx"\r\n\r\n'
        b"--R/mx\r\n\r\nThe original message...\r\n"
        b"--R/mx\r\ncontent-type: message/delivery-status\r\n\r\n"
        b"Reporting-MTA: dns; mx.example\r\n\r\n"
        b"Original-Recipient: rfc822;ada@x.test\r\nFinal-Recipient: rfc822;ada@x.test\r\n"
        b"Action: failed\r\nStatus: 4.0.0\r\nDiagnostic-Code: smtp; 426 connection timed out\r\n"
        b"Last-Attempt-Date: Thu, 7 Jul 1994 17:15:49 -0400\r\n\r\n"
        b"--R/mx\r\ncontent-type: message/rfc822\r\n\r\n"
        b"Message-ID: <0123456789abcdef01234567@workshop.example>\r\n\r\nNo. 3\r\n--R/mx--\r\n"
    )

    found = find_returned(read_letter(raw), "workshop.example")

    assert found == Returned(key="0123456789abcdef01234567", why="426 connection timed out")


def test_the_five_signs_of_markup_are_written_as_html_has_it() -> None:
    # HTML, section "Restrictions on content" and character references: what would be read as markup is escaped.
    assert html_of("<&>\"'") == "<p>&lt;&amp;&gt;&quot;&#x27;</p>"


def test_ids_without_brackets_are_common_practice_no_source() -> None:
    assert ids("abc@local.machine.test") == ("abc@local.machine.test",)
