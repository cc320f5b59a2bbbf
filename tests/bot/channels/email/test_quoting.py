"""All kinds of quoting, as mails on the wire: plain or HTML, in any encoding, the same measures are read."""

import tomllib
from email.message import EmailMessage
from email.policy import SMTP
from html import escape
from pathlib import Path
from typing import Any

import pytest

from bot.channels.email.letter import read_letter
from tests.replies.test_cases import heard, known_of

FILE = Path(__file__).parents[3] / "replies" / "cases" / "mail_quoting.toml"
CASES = tomllib.loads(FILE.read_text(encoding="utf-8"))["case"]


def plain(text: str) -> EmailMessage:
    message = EmailMessage(policy=SMTP)
    message.set_content(text, cte="quoted-printable")
    return message


CHARSETS = ("iso-8859-1", "iso-8859-9", "koi8-r", "iso-8859-7", "gb2312", "utf-8")
"""Those of older mail programs; a mail is written in the first that has its letters."""


def in_an_old_charset(text: str) -> EmailMessage:
    message = EmailMessage(policy=SMTP)
    charset = next(name for name in CHARSETS if text.encode(name, "replace").decode(name) == text)
    message.set_content(text, charset=charset, cte="base64")
    return message


def as_html(text: str) -> EmailMessage:
    """As programs write HTML: each line a block, what is quoted in blocks for quotes."""
    body, depth = "", 0
    for line in text.split("\n"):
        is_quote = line.startswith(">") and not line.startswith("> 6 kg")  # that one is her own "more than"
        bare = line.lstrip("> ") if is_quote else line
        now = line[: len(line) - len(bare)].count(">")
        body += "<blockquote>" * max(0, now - depth) + "</blockquote>" * max(0, depth - now)
        body += f"<div>{escape(bare) or '<br>'}</div>"
        depth = now
    message = EmailMessage(policy=SMTP)
    message.set_content(body + "</blockquote>" * depth, subtype="html")
    return message


def test_there_are_all_kinds_of_them() -> None:
    numbered = [case["about"].partition(":")[0] for case in CASES if case["about"][0].isdigit()]

    assert numbered == [str(number) for number in range(1, 27)]


@pytest.mark.parametrize("write", [plain, in_an_old_charset, as_html])
@pytest.mark.parametrize("case", CASES, ids=[case["about"] for case in CASES])
def test_no_measure_is_lost_and_none_is_read_that_is_quoted(case: dict[str, Any], write: Any) -> None:
    text = read_letter(write(case["text"].strip("\n")).as_bytes()).text

    assert known_of(heard(case | {"text": text})) == case["dogs"]
