"""Forms in which other programs write values: made plain, sign for sign."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.reading.records import plain_records
from replies.reading.words import load_words

PLAIN = [
    ("back;33,5;cm\nshoulder;29;cm", "back 33,5 cm shoulder 29 cm"),
    ("what;value;unit\nback;33,5;cm\nshoulder;29;cm", "back 33,5 cm shoulder 29 cm"),
    ("back;cm;33,5\nshoulder;cm;29", "back(cm)33,5 shoulder(cm)29"),
    ('"back","13.5","in"\n"shoulder","12","in"', "back 13.5 in shoulder 12 in"),
    ('<dog length="33cm" weight="6kg"/>', "length: 33cm, weight: 6kg,"),
    ("<length>33 cm</length>", "length:33 cm,"),
    ('<length unit="cm">33</length>', "length (cm) 33,"),
    ('<measure name="length" value="33" unit="cm"/>', "length 33 cm"),
    ("(name, length, height) VALUES ('Hugo', 13, 11)", "length, height = 13, 11"),
]
KEPT = [
    "back;33 cm\nshoulder;29 cm",
    "12 in long; 11 in high; 14 lb",
    '<img src="x.png" width="480" height="320">',
    '<p style="height:99px">4.7 kg</p>',
    "<@123456> <#99>",
    "<body>back 12 in<br>shoulder 11 in<hr><table><tr><th>13</th></tr></table></body>",
    "he is (rather, a bit) 12 (or 13)",
]


@pytest.mark.parametrize(("text", "plain"), PLAIN)
def test_what_another_program_wrote_is_made_plain(text: str, plain: str) -> None:
    assert " ".join(plain_records(text, load_words()).split()) == plain


@pytest.mark.parametrize("text", KEPT)
def test_other_text_is_kept(text: str) -> None:
    assert plain_records(text, load_words()) == text


PIECES = [
    "<", ">", "/", "</", "/>", "<length", "<dog ", "height=", '"', "'", "33", "29 cm", "cm", ";", "|", ",", "\t", "\n",
    " ", "back", "weight", "(", ")", "name", "=", "unit", "---", "VALUES",
]  # fmt: skip


@given(st.lists(st.sampled_from(PIECES), max_size=40).map("".join) | st.text(max_size=80))
def test_every_sign_keeps_its_place(text: str) -> None:
    plain = plain_records(text, load_words())

    assert len(plain) == len(text)
    assert [at for at, sign in enumerate(plain) if sign == "\n"] == [at for at, sign in enumerate(text) if sign == "\n"]
