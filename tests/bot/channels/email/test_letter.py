"""A mail becomes text, files and facts, whatever program wrote it; none of it ever raises."""

from datetime import UTC, datetime
from email.message import EmailMessage
from email.policy import SMTP

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.email import headers
from bot.channels.email.charsets import decode
from bot.channels.email.flowed import unflow
from bot.channels.email.letter import read_head, read_letter

HEAD = "From: Ada <ada@customers.example>\r\nSubject: Which size?\r\nMIME-Version: 1.0\r\n"


def text_of(body: str, *, kind: str = "text/plain", encoding: str = "8bit", charset: str = "utf-8") -> str:
    """Read a mail of one part."""
    head = f"{HEAD}Content-Type: {kind}; charset={charset}\r\nContent-Transfer-Encoding: {encoding}\r\n\r\n"
    return read_letter(head.encode() + body.encode(charset if charset != "none" else "utf-8")).text


def raw_text(body: bytes, *, content: str = "text/plain") -> str:
    return read_letter(f"{HEAD}Content-Type: {content}\r\n\r\n".encode() + body).text


# Characters

CHARACTERS = [
    ("UTF-8", "utf-8", "13½″ für Größe"),
    ("Latin-1", "iso-8859-1", "13½ für Größe"),
    ("Windows western, called Latin-1", "windows-1252", "13½” – €"),
    ("Windows Cyrillic", "windows-1251", "Рост 30 см"),
    ("KOI8", "koi8-r", "Рост 30 см"),
    ("Windows Greek", "windows-1253", "Ύψος 30"),
    ("Latin-2", "iso-8859-2", "délka 34 cm, šířka"),
    ("Latin-9", "iso-8859-15", "13 € für Größe"),
    ("Japanese, mail's own", "iso-2022-jp", "体高30センチ"),
    ("Japanese, Windows", "shift_jis", "体高30センチ"),
    ("Chinese, simplified", "gb2312", "体高30厘米"),
    ("Chinese, traditional", "big5", "體高30公分"),
    ("Korean", "euc-kr", "키 30센티"),
    ("Hebrew", "windows-1255", "גובה 30"),
    ("Thai", "tis-620", "สูง 30"),
    ("UTF-16", "utf-16", "13½ long"),
    ("UTF-7", "utf-7", "13½ long"),
]


@pytest.mark.parametrize(("charset", "text"), [row[1:] for row in CHARACTERS], ids=[row[0] for row in CHARACTERS])
def test_a_text_is_read_in_the_characters_that_it_says(charset: str, text: str) -> None:
    assert decode(text.encode(charset), charset) == text.encode(charset).decode(charset)


@pytest.mark.parametrize(
    ("raw", "charset", "text"),
    [
        pytest.param("13½".encode(), None, "13½", id="UTF-8 that says nothing"),
        pytest.param("13½".encode(), "us-ascii", "13½", id="UTF-8 that says ASCII"),
        pytest.param(b"13\xbd", None, "13½", id="western that says nothing"),
        pytest.param(b"13\xbd \x94", "us-ascii", "13½ ”", id="western that says ASCII"),
        pytest.param(b"13\x94 \x80", "iso-8859-1", "13” €", id="Windows that says Latin-1"),
        pytest.param(b"13\xbd", "utf-8", "13\ufffd", id="western that says UTF-8"),
        pytest.param("13½".encode(), "x-unknown", "13½", id="a set that nobody knows"),
        pytest.param("13½".encode(), "punycode", "13½", id="a codec that is no set"),
        pytest.param("13½".encode(), "unicode_escape", "13½", id="another codec that is no set"),
        pytest.param(b"13\\xbd", "unicode_escape", "13\\xbd", id="escapes are no characters"),
        pytest.param("13½".encode(), "zlib", "13½", id="a codec of bytes"),
        pytest.param("13½".encode(), "UTF-8\0", "13½", id="a null in the name"),
        pytest.param("13½".encode(), "utf-8" * 100, "13½", id="an endless name"),
        pytest.param("13½".encode("shift_jis", "replace"), "shift_jis", "13?", id="what a set does not hold"),
    ],
)
def test_what_says_nothing_or_something_wrong_is_read_as_it_most_likely_is(
    raw: bytes, charset: str | None, text: str
) -> None:
    assert decode(raw, charset) == text


@given(st.binary(max_size=400), st.text(max_size=30))
def test_any_bytes_under_any_name_are_read(raw: bytes, charset: str) -> None:
    assert isinstance(decode(raw, charset), str)


@pytest.mark.parametrize("encoding", ["quoted-printable", "base64", "7bit", "8bit", "binary", "x-uuencode", "odd"])
def test_each_transfer_encoding_is_undone(encoding: str) -> None:
    message = EmailMessage(policy=SMTP)
    if encoding in ("quoted-printable", "base64", "8bit"):
        message.set_content("back length 13½ in\n", cte=encoding)
        assert read_letter(message.as_bytes()).text == "back length 13½ in"
    elif encoding == "x-uuencode":
        body = "begin 644 a.txt\r\n2=VED=&@@:7,@-2XR-2!I;@H \r\n \r\nend\r\n"
        assert "5.25" in text_of(body, encoding=encoding) or "begin 644" in text_of(body, encoding=encoding)
    else:
        assert text_of("width 5 in\r\n", encoding=encoding) == "width 5 in"


def test_broken_encodings_keep_what_can_be_read() -> None:
    assert "13 in" in text_of("13 in =ZZ =\r\nlong=", encoding="quoted-printable")
    assert text_of("!!! no base64 at all !!!", encoding="base64") != ""


# Which part is the text


def alternative(plain: str, html: str) -> bytes:
    message = EmailMessage(policy=SMTP)
    message["From"] = "ada@customers.example"
    message.set_content(plain)
    message.add_alternative(html, subtype="html")
    return message.as_bytes()


def test_of_two_versions_the_plain_one_is_read() -> None:
    assert read_letter(alternative("width 5 in", "<p>width <b>5 in</b></p>")).text == "width 5 in"


@pytest.mark.parametrize("plain", ["", " \n", "This mail is in HTML. Please open it in a program that shows it."])
def test_where_the_plain_version_says_nothing_the_other_is_read(plain: str) -> None:
    read = read_letter(alternative(plain, "<table><tr><td>Width</td><td>5 in</td></tr></table>")).text

    assert read == "Width\t5 in"


def test_html_alone_becomes_text_with_its_quotes_marked() -> None:
    html = "<div>25 cm</div><blockquote><p>How tall?</p></blockquote><div>31 cm</div><style>p{}</style>"

    assert text_of(html, kind="text/html") == "25 cm\n\n> How tall?\n\n31 cm"


def test_a_picture_written_into_the_html_does_not_push_out_the_text() -> None:
    html = f'<img src="data:image/png;base64,{"A" * 2_000_000}"><p>width 5 in</p>'

    assert text_of(html, kind="text/html") == "width 5 in"


def test_texts_before_and_behind_a_picture_are_all_read() -> None:
    body = (
        '--b\r\nContent-Type: text/plain\r\n\r\nlength 13\r\n--b\r\nContent-Type: image/jpeg; name="a.jpg"\r\n'
        "Content-Transfer-Encoding: base64\r\n\r\n/9g=\r\n--b\r\nContent-Type: text/plain\r\n\r\nwidth 5\r\n--b--\r\n"
    )
    letter = read_letter(f"{HEAD}Content-Type: multipart/mixed; boundary=b\r\n\r\n{body}".encode())

    assert letter.text == "length 13\n\nwidth 5"
    assert [(file.name, file.type, file.bytes) for file in letter.files] == [("a.jpg", "image/jpeg", b"\xff\xd8")]


def test_parts_that_are_not_there_leave_what_is() -> None:
    assert raw_text(b"width 5 in", content="multipart/mixed; boundary=never") == "width 5 in"
    assert raw_text(b"width 5 in", content="multipart/mixed") == "width 5 in"
    assert raw_text(b"width 5 in", content=";;;/") == "width 5 in"


def test_soft_line_breaks_are_joined_and_quotes_stay() -> None:
    body = b"The back is 13 \r\ninches long.\r\n> How \r\n> tall?\r\n-- \r\nAda"

    assert raw_text(body, content="text/plain; format=flowed") == "The back is 13 inches long.\n> How tall?\n-- \nAda"


@given(st.text(alphabet=st.sampled_from("> a1\n")), st.booleans())
def test_joining_lines_loses_no_word(text: str, delsp: bool) -> None:
    kept = {character: text.count(character) for character in "a1"}

    assert {character: unflow(text, delsp=delsp).count(character) for character in "a1"} == kept


# Files


def with_file(**how: str) -> list[tuple[str, str]]:
    lines = "".join(f"{name.replace('_', '-')}: {value}\r\n" for name, value in how.items())
    body = f"--b\r\n\r\nwidth 5\r\n--b\r\n{lines}\r\nabc\r\n--b--\r\n"
    raw = f"{HEAD}Content-Type: multipart/mixed; boundary=b\r\n\r\n{body}"
    return [(file.name, file.type) for file in read_letter(raw.encode()).files]


@pytest.mark.parametrize(
    ("disposition", "name"),
    [
        ('attachment; filename="dog.jpg"', "dog.jpg"),
        ("attachment; filename*=utf-8''Gr%C3%B6%C3%9Fe.jpg", "Größe.jpg"),
        ('attachment; filename*0="a very long"; filename*1=" name.jpg"', "a very long name.jpg"),
        ('attachment; filename="=?utf-8?q?Gr=C3=B6=C3=9Fe.jpg?="', "Größe.jpg"),
        ('attachment; filename="../../etc/passwd"', "passwd"),
        ('attachment; filename="C:\\\\Windows\\\\x.exe"', "x.exe"),
        ('attachment; filename="a\tb\x01.jpg"', "a b .jpg"),
        ("attachment", "image.jpeg"),
        ('attachment; filename="' + "x" * 500 + '"', "x" * 100),
        ("attachment; filename*=utf-8''%ZZ%00", None),
    ],
)
def test_a_file_is_shown_by_the_last_part_of_its_name(disposition: str, name: str | None) -> None:
    ((shown, kind),) = with_file(Content_Type="image/jpeg", Content_Disposition=disposition)

    assert kind == "image/jpeg"
    assert "/" not in shown and "\x00" not in shown
    assert name is None or shown == name


@pytest.mark.parametrize(
    ("kind", "more", "kept"),
    [
        ("text/plain", {"Content_Disposition": "attachment"}, True),
        ("text/csv", {}, True),
        ("text/calendar", {}, True),
        ("application/pdf", {}, True),
        ("application/pkcs7-signature", {}, False),
        ("application/pgp-signature", {}, False),
        ("image/png", {"Content_ID": "<logo@x>"}, False),
        ("image/png", {"Content_ID": "<logo@x>", "Content_Disposition": "attachment"}, True),
        ("image/png", {}, True),
    ],
)
def test_what_is_something_to_look_at_is_kept(kind: str, more: dict[str, str], kept: bool) -> None:
    assert bool(with_file(Content_Type=kind, **more)) is kept


def test_a_mail_that_was_sent_along_is_a_file_of_its_subject() -> None:
    inner = "From: x@y.example\r\nSubject: Measures of Pickle\r\n\r\nwidth 5"
    body = f"--b\r\nContent-Type: message/rfc822\r\n\r\n{inner}\r\n--b--"
    letter = read_letter(f"{HEAD}Content-Type: multipart/mixed; boundary=b\r\n\r\n{body}".encode())

    assert [file.name for file in letter.files] == ["Measures of Pickle.eml"]
    assert b"width 5" in letter.files[0].bytes


# Headers

SUBJECTS = [
    ("=?utf-8?q?Gr=C3=B6=C3=9Fe?=", "Größe"),
    ("=?UTF-8?B?R3LDtsOfZQ==?= bitte", "Größe bitte"),
    ("=?iso-8859-1?q?Gr=F6=DFe?= =?iso-8859-1?q?_13=BD?=", "Größe 13½"),
    ("=?utf-8?b?R3LDtg==?=\r\n =?utf-8?b?w59l?=", "Größe"),
    ("=?utf-8?b?!!!?= x", None),
    ("=?nonsense?q?abc?=", "abc"),
    ("plain", "plain"),
    ("two\r\n lines", "two lines"),
]


@pytest.mark.parametrize(("written", "read"), SUBJECTS)
def test_words_of_a_header_are_read(written: str, read: str | None) -> None:
    found = read_head(f"Subject: {written}\r\n\r\n".encode()).subject

    assert "\n" not in found
    assert read is None or found == read


def test_a_header_in_plain_utf8_or_western_bytes_is_read() -> None:
    assert read_head("Subject: Größe\r\n\r\n".encode()).subject == "Größe"
    assert read_head(b"Subject: Gr\xf6\xdfe\r\n\r\n").subject == "Größe"


@pytest.mark.parametrize(
    ("line", "sender"),
    [
        ("Ada <ada@b.example>", ("Ada", "ada@b.example")),
        ("ada@b.example (Ada)", ("Ada", "ada@b.example")),
        ('"Example, Ada" <ADA@B.example>', ("Example, Ada", "ada@b.example")),
        ("=?utf-8?q?Ad=C3=A4?= <ada@b.example>", ("Adä", "ada@b.example")),
        ('"wil@workshop.example" <eve@b.example>', ("wil@workshop.example", "eve@b.example")),
    ],
)
def test_who_wrote_is_who_stands_in_the_angle_brackets(line: str, sender: tuple[str, str]) -> None:
    assert read_head(f"From: {line}\r\n\r\n".encode()).senders == (sender,)


@pytest.mark.parametrize("line", ["", "nobody", "<>", "@", "a@", "<a b@c>", "undisclosed-recipients:;", "a@b@c"])
def test_who_cannot_be_reached_is_nobody(line: str) -> None:
    assert read_head(f"From: {line}\r\n\r\n".encode()).answer_to == ""


def test_an_answer_goes_where_its_writer_wants_it() -> None:
    head = read_head(b"From: ada@work.example\r\nReply-To: Ada <ada@home.example>\r\n\r\n")

    assert (head.sender, head.answer_to) == ("ada@work.example", "ada@home.example")


def test_a_thread_is_known_by_its_first_mail_and_an_answer_by_the_nearest() -> None:
    head = read_head(b"Message-ID: <4@a>\r\nIn-Reply-To: <3@a>\r\nReferences: <1@a>\r\n <2@a> <3@a>\r\n\r\n")

    assert (head.message_id, head.root, head.answers) == ("4@a", "1@a", ("3@a", "2@a", "1@a"))


@pytest.mark.parametrize("written", ["", "no brackets", "<>", "< >", "<two words@a>", "<\u00fc@a>", "x" * 3000])
def test_an_id_that_cannot_be_quoted_is_none_and_the_mail_is_known_by_what_it_says(written: str) -> None:
    head = read_head(f"From: a@b.example\r\nMessage-ID: {written}\r\nSubject: x\r\n\r\n".encode())
    other = read_head(f"From: a@b.example\r\nMessage-ID: {written}\r\nSubject: y\r\n\r\n".encode())

    assert head.message_id is None
    assert head.id_or_mark("5 in") == head.id_or_mark("5 in")
    assert len({head.id_or_mark("5 in"), head.id_or_mark("6 in"), other.id_or_mark("5 in")}) == 3


@pytest.mark.parametrize(
    "written",
    ["", "yesterday", "Mon, 99 Foo 2026", "1 Jan 10000 00:00:00 +0000", "31 Dec 9999 23:59:59 -2359", "0" * 500],
)
def test_a_date_that_no_calendar_has_is_none(written: str) -> None:
    assert headers.date(written) is None


def test_when_a_mail_arrived_is_told_by_the_last_server() -> None:
    raw = (
        b"Received: from b by c; Tue, 3 Mar 2026 10:00:00 +0100\r\n"
        b"Received: from a by b; Mon, 2 Mar 2026 10:00:00 +0000\r\nDate: Sun, 1 Mar 2026 10:00:00 +0000\r\n\r\n"
    )

    assert read_head(raw).arrived == datetime(2026, 3, 3, 9, tzinfo=UTC)


@given(st.binary(max_size=2000))
def test_any_bytes_are_a_mail(raw: bytes) -> None:
    letter = read_letter(raw)

    letter.text.encode("utf-8")
    letter.head.subject.encode("utf-8")


@given(
    st.lists(
        st.sampled_from(
            [
                "Content-Type: multipart/mixed; boundary=b", "Content-Type: text/html", "--b", "--b--", "", "12 in",
                "Content-Type: message/rfc822", "Content-Transfer-Encoding: base64", "Content-Type: multipart/report",
                "Content-Disposition: attachment; filename*0*=x''%", "Content-Type: message/delivery-status",
                "From: (((",
                "Content-Type: text/plain; charset*0*=''", "Content-Type: multipart/alternative; boundary=\"b",
                "Message-ID: <a@b", "References: <<>>", "Date: 99", "Content-Type: message/external-body", "Status: 5",
            ]
        ),
        max_size=40,
    )
)  # fmt: skip
def test_any_order_of_lines_is_a_mail(lines: list[str]) -> None:
    letter = read_letter("\r\n".join(lines).encode())

    assert letter.head.senders is not None
