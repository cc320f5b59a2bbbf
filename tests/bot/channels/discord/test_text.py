"""What goes out is shown word for word; an independent reader of Discord's markup is the judge."""

import re
from typing import Any

import discord_markdown
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from bot.channels.all_channels import parts_for
from bot.channels.discord.text import LIMIT, Stretch, literal, messages_of, readable, size
from bot.message import ChannelName
from bot.paragraphs import utf16_units

MARKUP = re.findall(
    r"\S+",
    """
* ** *** _ __ ~~ ` `` ``` | || < > <@1> <@!1> <@&1> <#1> <:a:1> <a:a:1> <t:1:R> </a:1> <id:home> @everyone @here
:dog: [a](http://a.example) # ## -# - + 1. 1) > >>> \\ a b 13 {{ 7 * 7 }} <b> &lt; {% x %} http://
https://a.example/x_y_z ̶ ﷽ é 🐕 ' " ( ) . : ! $ =
""",
)
HOSTILE = st.lists(st.sampled_from([*MARKUP, " ", "\t", "\n", "\n\n"]), max_size=25).map("".join)


def shown(text: str) -> str:
    """Give what a reader of Discord's markup shows; anything but words and addresses of pages is an error."""
    blocks = discord_markdown.parse(text, fuel=5_000_000)
    assert all(block["type"] in ("paragraph", "empty") for block in blocks), blocks
    return "".join(_words(node) for block in blocks for node in block.get("value", ()))


def _words(node: dict[str, Any]) -> str:
    if node["type"] == "emoji" and node["value"]["type"] == "unicode":
        return str(node["value"]["value"])  # an emoji that was written as such
    if node["type"] == "link":
        assert node["value"]["text"] is None, node
        return str(node["value"]["url"])
    assert node["type"] in ("text", "newline", "linebreak"), node
    return str(node.get("value", "\n"))


def squeezed(text: str) -> str:
    return "".join(text.split())


@given(HOSTILE.filter(lambda text: "http" not in text))
@example("3. a\n1. b")
@example("  - a")
@example("\\* \\\\*")
@example("@everyone <@&1>")
def test_whatever_is_written_is_shown_word_for_word(text: str) -> None:
    assert squeezed(shown(literal(text))) == squeezed(text)


@given(HOSTILE)
@example("http://@everyone*")
@example("https://a.example/x_y_z#<@1>")
def test_nothing_but_words_and_pages_is_shown(text: str) -> None:
    shown(literal(text))


def test_the_address_of_a_page_can_still_be_followed() -> None:
    (block,) = discord_markdown.parse(literal("see https://a.example/x_y?z=1 *now*"))

    assert [node["type"] for node in block["value"]] == ["text", "link", "text"]


@given(st.text())
def test_no_text_at_all_raises(text: str) -> None:
    assert literal(text).replace("\\", "") == text.replace("\\", "")
    readable(text, {})


@pytest.mark.parametrize(
    ("content", "seen"),
    [
        pytest.param("<@7> hi <@!8>", "@Wil hi @somebody", id="people"),
        pytest.param("in <#123456789012345678> for <@&5>", "in #channel for @role", id="channel and role"),
        pytest.param("13<:inch:123456789012345678> <a:wag:9>", "13:inch: :wag:", id="emoji"),
        pytest.param("<t:1618953630:R> </measures:123> <id:guide>", " /measures ", id="time and command"),
        pytest.param("length <13, width > 5 <@ 7>", "length <13, width > 5 <@ 7>", id="what is none of these"),
    ],
)
def test_numbers_of_mentions_and_emoji_are_no_measures(content: str, seen: str) -> None:
    assert readable(content, {7: "Wil"}) == seen


@given(st.lists(st.text("ab *_\n<@1>-🐕", max_size=600), max_size=12).map("\n\n".join))
def test_every_part_of_a_text_fits_a_message_and_nothing_is_lost(text: str) -> None:
    parts = parts_for(ChannelName.DISCORD, text)

    assert all(0 < utf16_units(literal(part)) <= LIMIT for part in parts)
    assert squeezed("".join(parts)) == squeezed(text)


def test_a_text_is_cut_at_a_paragraph() -> None:
    first, second = "a" * 1500, "b" * 1500

    assert parts_for(ChannelName.DISCORD, f"{first}\n\n{second}") == [first, second]


STRETCHES = st.lists(st.builds(Stretch, text=st.text("ab *_<🐕", max_size=2500), strong=st.booleans()), max_size=8)


@given(STRETCHES)
def test_lines_are_put_together_to_messages_that_fit(stretches: list[Stretch]) -> None:
    found = messages_of(stretches)

    assert all(one.strip() and utf16_units(one) <= LIMIT for one in found)
    assert "".join(found).count("a") == sum(one.text.count("a") for one in stretches)


def test_what_is_set_off_is_bold_and_what_a_customer_said_is_a_quotation() -> None:
    lines = [Stretch(text="No. 3", strong=True), Stretch(text="*13* in", said=True)]

    assert messages_of(lines) == ["**No. 3**\n> \\*13\\* in"]


def test_the_length_of_a_text_counts_what_is_added_to_it() -> None:
    assert size("*" * 1000) == 2000
