"""HTML bodies as text."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.reading.html_text import html_to_text
from replies.reading.tidy import tidy
from replies.reading.trim_email import trim_email
from tests.replies.reading.found import amounts

BODIES = [
    ("line breaks", "back 12<br>height 10<br/>", "back 12\nheight 10"),
    ("blocks", "<div>back 12</div><div>height 10</div>", "back 12\nheight 10"),
    ("paragraphs", "<p>Hi</p><p>back 12</p>", "Hi\n\nback 12"),
    ("blanks of the source", "<p>back\n   12</p>", "back 12"),
    ("words in marks stay together", "13<b>½</b> long", "13½ long"),
    ("blanks around marks stay", "13 <b>1/2</b> long", "13 1/2 long"),
    ("characters by name", "13&frac12;&nbsp;in &lt; 14", "13½\xa0in < 14"),
    ("cells stay apart", "<table><tr><td>Back<td>13 1/2<tr><td>Width<td>10</table>", "Back\t13 1/2\nWidth\t10"),
    ("cells with paragraphs", "<table><tr><td><b>Back</b></td><td>12</td></tr></table>", "Back\t12"),
    ("items", "<ul><li>back 12<li>width 5</ul>", "- back 12\n- width 5"),
    ("preformatted text", "<pre>back  12\nwidth  5</pre>", "back  12\nwidth  5"),
    ("an image has no words", 'a <img src=x width=640 height="480"> b', "a b"),
    ("a script has no words", "<script>alert(12)</script>13 in", "13 in"),
    ("a style has no words", "<style>p{width:12in}</style>13 in", "13 in"),
    ("the head has no words", "<html><head><title>12</title></head><body>13 in</body></html>", "13 in"),
    ("struck through", "<s>14</s> <del>15</del> 13 lb", "13 lb"),
    ("a quoted mail", "<div>12 in</div><blockquote>How tall?</blockquote>", "12 in\n\n> How tall?"),
    ("quotes in quotes", "<blockquote>a<blockquote>b</blockquote></blockquote>", "> a\n>\n>> b"),
    ("plain text", "back 12", "back 12"),
    ("nothing", "", ""),
    ("broken marks", "<div><b>12 in</div", "12 in"),
]


@pytest.mark.parametrize(("html", "text"), [row[1:] for row in BODIES], ids=[row[0] for row in BODIES])
def test_a_body_becomes_text(html: str, text: str) -> None:
    assert html_to_text(html) == text


def test_answers_between_quoted_questions_stay_apart_from_them() -> None:
    html = (
        '<div class="quote"><div>On Mon, 16 Feb 2026 at 18:22, The workshop wrote:<br></div>'
        "<blockquote><div>How tall?</div></blockquote><div>12 in</div>"
        "<blockquote>How long?</blockquote><div>14 in</div></div>"
    )
    trimmed = trim_email(tidy(html_to_text(html)).text)

    assert amounts(trimmed.masked()) == ["12 in", "14 in"]
    assert [question.text for question in trimmed.questions] == ["How tall?", "How long?"]


def test_a_body_that_nests_without_end_keeps_its_words() -> None:
    assert html_to_text("<div>" * 5000 + "13&frac12; in<br>tall") == "13½ in\ntall"


pieces = ["<p>", "</p>", "<td>", "<blockquote>", "</blockquote>", "12 in", "<", "&", "<br>"]


@given(st.text() | st.lists(st.sampled_from(pieces)).map("".join))
def test_any_body_becomes_text(html: str) -> None:
    text = html_to_text(html)

    assert text == text.strip("\n")
