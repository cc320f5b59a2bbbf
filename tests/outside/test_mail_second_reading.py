"""Quoted history told apart as an independent library does it, on mails whose layout is beyond doubt.

Source: mail-parser-reply 1.36 (MIT), inscriptis 2.7 (Apache-2.0), both from the package registry. Neither is used by
the program: on less orderly mails the first loses measures, and the second drops what nests deeply.
"""

import re

import pytest
from inscriptis import get_text
from mailparser_reply import EmailReplyParser

from replies.reading.html_text import html_to_text
from replies.reading.tidy import tidy
from replies.reading.trim_email import trim_email

MAILS = {
    "en": (
        "Back 13 1/2, height 11.\n\n"
        "On Mon, 16 Feb 2026 at 18:22, The workshop <a@b.example> wrote:\n> How tall is he?\n> Back 12"
    ),
    "de": (
        "Rücken 33 cm, Höhe 29 cm.\n\n"
        "Am 16. Februar 2026 um 18:22 schrieb Werkstatt <a@b.example>:\n> Wie hoch?\n> 12 cm"
    ),
    "fr": (
        "Dos 33 cm, garrot 29 cm.\n\n"
        "Le 16 févr. 2026 à 18:22, Atelier <a@b.example> a écrit :\n> Quelle hauteur ?\n> 12 cm"
    ),
    "it": (
        "Schiena 33 cm.\n\n"
        "Il giorno lun 16 feb 2026 alle ore 18:22 Bottega <a@b.example> ha scritto:\n> Altezza?\n> 12 cm"
    ),
}
"""Its Dutch leaves the line with "schreef" standing, so that language is left to our own tests."""


@pytest.mark.parametrize("language", MAILS)
def test_an_orderly_mail_is_trimmed_alike(language: str) -> None:
    text = MAILS[language]
    theirs = EmailReplyParser(languages=[language]).read(text=text).replies[0].content
    ours = trim_email(tidy(text).text).masked()

    assert ours.split() == tidy(theirs).text.split()


BODIES = [
    "<div>Back 13 1/2 in</div><div>Height 11 in</div>",
    "<p>Hello</p><p>Back 33&nbsp;cm, <b>height</b> 29 cm</p>",
    "<table><tr><td>Back</td><td>13.5</td></tr><tr><td>Width</td><td>5</td></tr></table>",
    "<ul><li>Back 12</li><li>Width 5</li></ul>",
    "Back 12<br>Width 5<br><br>Ada",
]


@pytest.mark.parametrize("html", BODIES)
def test_an_html_body_has_the_same_words_in_the_same_lines(html: str) -> None:
    def words(text: str) -> list[list[str]]:
        return [re.findall(r"[\w.]+", line) for line in text.splitlines() if line.strip()]

    assert words(html_to_text(html)) == words(get_text(f"<body>{html}</body>"))
