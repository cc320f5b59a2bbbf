"""The customer's own lines of an e-mail, and what is set apart."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.reading.email_words import EmailWords
from replies.reading.mail import Author, Part
from replies.reading.tidy import tidy
from replies.reading.trim_email import trim_email


def own(text: str) -> list[str]:
    """The lines that are read, without the empty ones."""
    trimmed = trim_email(tidy(text).text)
    return [words for line in trimmed.read() if (words := trimmed.text[line.start : line.end].strip())]


def parts(text: str) -> list[str]:
    return [line.part.value for line in trim_email(tidy(text).text).lines if not line.is_blank]


GONE = [
    ("a quoted line", "13 in\n> How tall?", ["13 in"]),
    ("English", "13 in\n\nOn Mon, 16 Feb 2026 at 18:22, The workshop wrote:\n> Back 12", ["13 in"]),
    (
        "wrapped over two lines",
        "13 in\n\nOn 16 Feb 2026 at 18:22, The workshop\n<a@b.example> wrote:\n> Back 12",
        ["13 in"],
    ),
    ("German", "13 cm\n\nAm Di., 10. März 2026 um 09:14 Uhr schrieb Nähstube <a@b.example>:\n> 12", ["13 cm"]),
    ("French", "13 cm\n\nLe 2 avr. 2025 à 09:30, Atelier <a@b.example> a écrit :\n> 12", ["13 cm"]),
    ("Italian", "13 cm\n\nIl giorno mar 3 mar 2026 alle ore 11:05 Bottega <a@b.example> ha scritto:\n> 12", ["13 cm"]),
    ("Spanish", "13 cm\n\nEl mié, 4 mar 2026 a las 12:15, Taller (<a@b.example>) escribió:\n> 12", ["13 cm"]),
    ("Portuguese", "13 cm\n\nEm ter., 24 de fev. de 2026 às 21:40, Oficina <a@b.example> escreveu:\n> 12", ["13 cm"]),
    ("Dutch", "13 cm\n\nOp wo 4 mrt 2026 om 10:12 schreef Atelier <a@b.example>:\n> 12", ["13 cm"]),
    ("Swedish", "13 cm\n\nDen tors 26 feb. 2026 kl 08:02 skrev Verkstan <a@b.example>:\n> 12", ["13 cm"]),
    ("Polish", "13 cm\n\nW dniu 5.03.2026 o 20:11, Ada pisze:\n> 12", ["13 cm"]),
    ("Finnish", "13 cm\n\nke 4. maalisk. 2026 klo 9.45 Paja (a@b.example) kirjoitti:\n> 12", ["13 cm"]),
    ("Czech", "13 cm\n\nDne st 4. 3. 2026 v 8:15 Dílna <a@b.example> napsal(a):\n> 12", ["13 cm"]),
    (
        "history without marks",
        "13 in\n\nOn 2 May 2025, Shop <a@b.example> wrote:\n\nHow tall?\nBack 12",
        ["13 in"],
    ),
    ("an original message with marks", "13 in\n\n----- Original message -----\n> Back 12", ["13 in"]),
    (
        "a copied header",
        "35 cm\n\n-----Ursprüngliche Nachricht-----\nVon: Workshop <a@b.example>\nGesendet: 9. Februar 2026 17:31\n"
        "An: c@d.example\nBetreff: AW: Größe\n\nLiebe Ada,\nRücken 12 cm?\nGruß",
        ["35 cm"],
    ),
    (
        "a copied header without a line of dashes",
        "41 cm\n\nVon: Ueli <a@b.example>\nDatum: Freitag, 27. Februar 2026 um 06:58\nAn: Workshop <c@d.example>\n"
        "Betreff: Frage\n\nUnser Hund hat 9 kg.",
        ["41 cm"],
    ),
    (
        "headers at the top of a pasted mail",
        "To: a@b.example\nBcc: c@d.example\nSubject: Re: XL\nContent-Length: 48213\n\nback 12",
        ["back 12"],
    ),
    ("an attribution without a verb", "13 in\n\n2026-03-01 10:22 Shop <a@b.example>:\n> 12", ["13 in"]),
    ("what the shop says behind a question", "13 in\n> How tall? Mostly 12 in", ["13 in"]),
    ("a long aside behind a question", "Hi\n> How tall? For a dog like yours it lies between 7 and 8 1/2", ["Hi"]),
    ("a signature under dashes", "12 in\n--\nAda Example, Dip. Eng.\n6 Quay Lane | (01) 555 017", ["12 in"]),
    ("closing words and a name", "12 in\n\nKind regards,\nAda", ["12 in"]),
    ("closing words and a name in one line", "12 in\n\nRegards, Ada", ["12 in"]),
    (
        "closing words, name, telephone",
        "12 in\n\nWith kind regards,\nAda Dorn\nDorn Gardens | tel. 0555 010 233",
        ["12 in"],
    ),
    ("a name alone", "12 in\n\nAda", ["12 in"]),
    ("a name, telephone, no closing words", "12 in\n\nAda Dorn\nDorn Gardens | tel. 0555 010 233", ["12 in"]),
    ("German closing", "12 cm\n\nViele Grüße\nTorben", ["12 cm"]),
    ("French closing", "12 cm\n\nÀ bientôt\nCapucine", ["12 cm"]),
    ("a telephone's footer", "shoulder 15.5\n\nSent from my tablet", ["shoulder 15.5"]),
    (
        "a company's footer",
        "12 in\n\nThis e-mail may contain confidential information. Delete it within 24 hours.",
        ["12 in"],
    ),
    ("a footer of two lines", "12 in\n\nThis message is confidential\nand for 1 reader", ["12 in", "and for 1 reader"]),
    ("a footer of two lines without figures", "12 in\n\nThis message is\nconfidential", ["12 in"]),
    ("a footer in Spanish", "24 cm\n\nEnviado desde mi teléfono", ["24 cm"]),
]


@pytest.mark.parametrize(("text", "read"), [row[1:] for row in GONE], ids=[row[0] for row in GONE])
def test_what_is_not_the_customers_own_is_set_apart(text: str, read: list[str]) -> None:
    assert own(text) == read


KEPT = [
    ("answers between questions", "> How tall?\n25 cm\n\n> How long?\n31 cm", ["25 cm", "31 cm"]),
    ("answers below a blank line", "> How tall?\n\n25 cm", ["25 cm"]),
    (
        "answers below an attribution",
        "On 2 May 2025, Shop <a@b.example> wrote:\n> How tall?\n25 cm\n> How long?\n31 cm",
        ["25 cm", "31 cm"],
    ),
    ("answers behind the questions", "See below.\n> How tall? 25 cm\n> How long? 31", ["See below.", "25 cm", "31"]),
    ("text below the quote", "> How tall?\nBack 12, the rest tomorrow", ["Back 12, the rest tomorrow"]),
    (
        "more than, as a sign",
        "He is\n> 10 lb but less than 12\nI think",
        ["He is", "> 10 lb but less than 12", "I think"],
    ),
    (
        "from and to",
        "From: base of neck to rump 13\nTo: floor from shoulder 10",
        ["From: base of neck to rump 13", "To: floor from shoulder 10"],
    ),
    (
        "lines that look like headers",
        "Weight: 9 lb\nFrom: collar To: tail base = 11\nDate: of birth 3/4/2021\nReply-To: this address please",
        ["Weight: 9 lb", "From: collar To: tail base = 11", "Date: of birth 3/4/2021", "Reply-To: this address please"],
    ),
    ("somebody wrote", "My husband wrote:\n12 long", ["My husband wrote:", "12 long"]),
    ("I wrote", "I wrote 34 but correct is 31 cm", ["I wrote 34 but correct is 31 cm"]),
    ("a measure behind the name", "14 in\n\nCheers, Ada 12 lb", ["14 in", "Cheers, Ada 12 lb"]),
    ("a measure below the name", "14 in\n\nThanks\nAda\n12 lb", ["14 in", "12 lb"]),
    (
        "measures without units below the name",
        "Hello\n\nThanks\nAda\nback 12\nheight 10",
        ["Hello", "back 12", "height 10"],
    ),
    ("a postscript", "14 in\n\nRegards\nAda\n\nPS: shoulder height 13.5", ["14 in", "PS: shoulder height 13.5"]),
    ("a postscript under dashes", "14 in\n--\nAda\nPS weight 12", ["14 in", "PS weight 12"]),
    ("measures under dashes", "Rex\n--\nback 14 in\nheight 11 in", ["Rex", "--", "back 14 in", "height 11 in"]),
    ("a measure in a signature", "14 in\n--\nAda\nshe is 12 lb", ["14 in", "she is 12 lb"]),
    ("thanks first", "Thanks,\nback 12\nheight 10", ["Thanks,", "back 12", "height 10"]),
    ("thanks in a sentence", "Hi\n\nThank you, I will sleep on it.", ["Hi", "Thank you, I will sleep on it."]),
    ("best as a word", "Hi\n\nBest guess 12", ["Hi", "Best guess 12"]),
    ("a greeting", "Hi Ada,\n\n12 in", ["Hi Ada,", "12 in"]),
    (
        "an order pasted below the name",
        "Is M right?\n\nCheers\nAda\n\nORDER #30417\n1 x carrier (14 x 6 in)",
        ["Is M right?", "ORDER #30417", "1 x carrier (14 x 6 in)"],
    ),
    (
        "a forwarded mail",
        "See below.\n\n---------- Forwarded message ---------\nFrom: Ada <a@b.example>\nDate: Sun 1 Mar 2026 18:22\n"
        "Subject: measures\nTo: c@d.example\n\nback 26 cm",
        ["See below.", "back 26 cm"],
    ),
    ("a table", "| | Dot |\n|---|---|\n| length | 11 |", ["| | Dot |", "|---|---|", "| length | 11 |"]),
    ("a rule between dogs", "Rex 12 lb\n-----\nBess 14 lb", ["Rex 12 lb", "-----", "Bess 14 lb"]),
    ("one name as the whole mail", "Rex", ["Rex"]),
]


@pytest.mark.parametrize(("text", "read"), [row[1:] for row in KEPT], ids=[row[0] for row in KEPT])
def test_what_the_customer_says_is_never_lost(text: str, read: list[str]) -> None:
    assert own(text) == read


def test_a_mail_the_shop_forwarded_back_is_not_the_customers() -> None:
    text = (
        "12 cm\n\n---------- Forwarded message ---------\nFrom: The Workshop <a@b.example>\nDate: 1 Mar 2026 18:22\n"
        "Subject: sizes\n\nNo. 2 is 29 cm long"
    )

    assert own(text) == ["12 cm"]


def test_the_name_under_the_letter_is_known() -> None:
    assert trim_email("12 in\n\nBest wishes,\nAda Dorn\n").signed == "Ada Dorn"


def test_what_a_customer_quotes_of_herself_is_read_where_nothing_is_older() -> None:
    text = "I forgot: 7 kg.\n\nDulce\n\nOn 24 Feb 2026 at 21:40, Dulce <a@b.example> wrote:\n> back 35 cm\n"
    trimmed = trim_email(text)

    assert [text[line.words_start : line.end] for line in trimmed.read(first=True) if line.part == Part.QUOTED] == [
        "back 35 cm"
    ]
    assert "35" not in trimmed.masked()
    assert "35" in trimmed.masked(first=True)


def test_what_the_shop_wrote_is_not_read_even_then() -> None:
    text = "Hi\n\nDulce\n\nOn 24 Feb 2026 at 21:40, The workshop <a@b.example> wrote:\n> for example back 35 cm\n"

    assert "35" not in trim_email(text).masked(first=True)


def test_quotes_in_quotes_have_their_own_authors() -> None:
    text = (
        "9 3/4.\n\nPriddy\n\nOn 17 Feb 2026 at 09:02, The workshop wrote:\n> And the throat?\n>\n"
        "> On 16 Feb 2026 at 19:28, Priddy wrote:\n>> Shoulder 13 1/4\n"
    )
    quoted = [line.author for line in trim_email(text).lines if line.part == Part.QUOTED and not line.is_blank]

    assert quoted == [Author.SHOP, Author.CUSTOMER]


def test_a_maker_adds_words() -> None:
    words = EmailWords.load({"closing": {"words": ["toodle pip"]}})
    trimmed = trim_email("12 in\n\nToodle pip\nAda", words)

    assert trimmed.signed == "Ada"


pieces = [
    "> ", ">> ", "On 2 May 2025 at 10:22, Ada <a@b.example> wrote:", "wrote:", "From: a@b.example", "Subject: x",
    "Date: 2 May 2025 10:22", "-- ", "--", "Cheers", "Ada", "12 in", "back 12", "", "-----Original Message-----",
    "PS 12", "|", "Sent from my x",
]  # fmt: skip


@given(st.text() | st.lists(st.sampled_from(pieces)).map("\n".join))
def test_any_mail_is_trimmed_and_every_offset_stays(text: str) -> None:
    plain = tidy(text).text
    trimmed = trim_email(plain)

    assert "".join(plain[line.start : line.end] for line in trimmed.lines) == plain.replace("\n", "")
    for first in (False, True):
        masked = trimmed.masked(first=first)
        assert len(masked) == len(plain)
        assert all(new in (old, " ") for old, new in zip(plain, masked, strict=True))
    for line in trimmed.lines:
        trimmed.question_above(line.start)


@given(st.lists(st.sampled_from([*pieces, "she is 12 lb", "14 x 5 x 11"]), max_size=8).map("\n".join))
def test_a_measure_on_a_line_without_marks_above_all_history_is_read(text: str) -> None:
    assert "14 1/4 in" in own("14 1/4 in\n" + text)
