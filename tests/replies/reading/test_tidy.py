"""Plain characters, and the way back to the text as it came."""

import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from replies.reading.tidy import tidy

PLAIN = [
    ("a fraction behind a figure", "13½", "13 1/2"),
    ("a fraction behind a blank", "13 ½", "13 1/2"),
    ("a fraction alone", "¾ lb", "3/4 lb"),
    ("a fraction before a figure", "½13", "1/2 13"),
    ("an eighth", "9⅛", "9 1/8"),
    ("raised and lowered figures", "13 ¹/₂", "13 1/2"),
    ("the fraction slash", "13 1⁄2", "13 1/2"),
    ("fullwidth figures and letters", "３２ｃｍ", "32cm"),
    ("fullwidth point", "４．８ｋｇ", "4.8kg"),
    ("Arabic-Indic figures and decimal sign", "٦٫٢", "6.2"),
    ("Devanagari figures", "४.५", "4.5"),
    ("bold mathematical figures", "𝟏𝟐", "12"),
    ("smart double quotes", "12” and “so”", '12" and "so"'),
    ("primes", "5′4″", "5'4\""),
    ("two smart singles", "12’’", "12''"),
    ("an acute accent for a foot", "5´4", "5'4"),
    ("en dash", "12–13", "12-13"),
    ("em dash", "12—13", "12-13"),
    ("minus sign", "−12", "-12"),
    ("no-break blank", "13\xa0in", "13 in"),
    ("thin blank", "13\u2009in", "13 in"),
    ("zero-width blank in a number", "1\u200b3.5", "13.5"),
    ("soft hyphen", "shoul\xadder", "shoulder"),
    ("direction marks", "\u200e12\u200f in", "12 in"),
    ("byte order mark", "\ufeff12", "12"),
    ("keycap figures", "1️⃣3️⃣ long", "13 long"),
    ("the keycap ten", "🔟 lb", "10 lb"),
    ("a figure in a circle", "①length", "1 length"),
    ("a times sign", "14×5", "14x5"),
    ("one character for a unit", "12㎝ 6㎏", "12cm 6kg"),
    ("an ellipsis", "hm…", "hm..."),
    ("a letter with a combining accent", "la\u0308nge", "länge"),
    ("carriage returns", "a\r\nb\rc", "a\nb\nc"),
    ("line separator", "a\u2028b", "a\nb"),
    ("control characters", "a\x00b\x07c", "a b c"),
    ("accents stay in the text", "Größe à côté", "Größe à côté"),
    ("raised figures behind a unit stay", "cm²", "cm²"),
    ("tabs stay", "a\tb", "a\tb"),
    ("emoji stay", "12 🐶", "12 🐶"),
]


@pytest.mark.parametrize(("text", "plain"), [row[1:] for row in PLAIN], ids=[row[0] for row in PLAIN])
def test_characters_become_plain(text: str, plain: str) -> None:
    assert tidy(text).text == plain


def test_folded_text_has_small_letters_without_accents_one_for_one() -> None:
    tidied = tidy("Rückenlänge İ ẞ ÉTÉ")

    assert tidied.folded.startswith("ruckenlange i ")
    assert len(tidied.folded) == len(tidied.text)


BACK = [
    ("a fraction gives its one character", "a 13½ b", "13 1/2", "13½"),
    ("half of a replaced stretch gives all of it", "a 13½ b", "1/", "½"),
    ("what was left out inside is in the words", "1\u200b3 in", "13", "1\u200b3"),
    ("keycaps give all their characters", "x 1️⃣3️⃣ y", "13", "1️⃣3️⃣"),
    ("behind a shortened stretch", "a\r\nb 12 in", "12 in", "12 in"),
    ("behind a lengthened stretch", "½½ 12 in", "12 in", "12 in"),
]


@pytest.mark.parametrize(("text", "piece", "words"), [row[1:] for row in BACK], ids=[row[0] for row in BACK])
def test_a_passage_is_given_as_it_stands_in_the_original(text: str, piece: str, words: str) -> None:
    tidied = tidy(text)
    start = tidied.text.index(piece)
    passage = tidied.passage(start, start + len(piece))

    assert passage.words == words == text[passage.start : passage.end]


@given(st.text())
def test_any_text_is_tidied_and_every_passage_lies_in_it(text: str) -> None:
    tidied = tidy(text)

    assert len(tidied.folded) == len(tidied.text)
    assert tidied.passage(0, len(tidied.text)).words in text
    for place in range(len(tidied.text)):
        passage = tidied.passage(place, place + 1)
        assert 0 <= passage.start < passage.end <= len(text)
        assert passage.words == text[passage.start : passage.end]


@given(st.text())
def test_tidying_twice_changes_nothing_more(text: str) -> None:
    once = tidy(text).text

    assert tidy(once).text == once


@given(st.text(alphabet=st.characters(max_codepoint=126, min_codepoint=32), max_size=60))
def test_plain_text_stays_as_it_is(text: str) -> None:
    assume(not re.search(r"__|==|~~|\.{4}|`[^`]+`|</?[a-z]|^/[a-z]{3}", text))

    assert tidy(text).text == text.replace("`", "'")


@pytest.mark.parametrize("text", ["back······14", "back.....14", "back____14", "back==14", "back~~14", "back➜14"])
def test_a_row_of_signs_that_leads_to_a_number_is_one_sign(text: str) -> None:
    assert tidy(text).text == "back→14"


def test_signs_of_a_typewriter_s_letters_are_no_feet() -> None:
    assert tidy("`length 13` and 5`11").text == " length 13  and 5'11"


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("<b>back</b> 14<br>next", "back 14\nnext"),
        ("<tr><td>back</td><td>14</td></tr>", "back\t14\t\n"),
        ("my dog <3 is 12", "my dog <3 is 12"),
    ],
)
def test_marks_of_a_web_page_are_no_text(text: str, plain: str) -> None:
    assert tidy(text).text == plain


def test_a_command_to_a_machine_at_the_beginning_of_a_line_is_blank() -> None:
    assert tidy("/start 42\n12/13 back").text == "       42\n12/13 back"
