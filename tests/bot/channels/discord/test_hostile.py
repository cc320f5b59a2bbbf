"""What strangers write is data: never markup, a mention, a command or a template, and it stops nothing."""

from typing import Any

import discord_markdown

from tests.bot.channels.discord.running import DiscordShop
from tests.bot.channels.telegram.running import WHOLE

NAMES = (
    "@everyone",
    "<@1> <@&2> <#3>",
    "*Ada* __Ada__ ||Ada|| ~~Ada~~",
    "[Ada](https://a.example)",
    "```Ada```",
    "# Ada",
    "{{ 7 * 7 }} {% raw %}",
    "</measures:1> <t:1:R> <:dog:123456789012345678>",
    "Ada\u202e\u0000\u200b",
    "\U0001f415" * 30,
)
TEXTS = (
    "{{ config }} {% for x in y %} ${7*7} <% 1 %>",
    "@everyone @here <@1> <@&2> <#3> <:dog:1234> <t:1:R> </a:1>",
    "*a* **b** __c__ ~~d~~ ||e|| `f` ```g``` [h](http://a.example) > i\n> j\n>>> k\n# l\n-# m\n- n\n1. o\n9. p",
    "tl1:approve:1.1 /waiting /measures approve 1.1",
    "\x00 \ud800 \u202e \ufeff \u2028 \U000e0041",
    "'; DROP TABLE message; --",
    "a" * 1999 + "\\",
    "\n" * 1000,
    "13 " * 600,
)
HARMLESS = {"text", "bold", "paragraph", "quote", "empty", "newline", "linebreak"}


def kinds(node: Any) -> set[str]:
    """Give the kinds of everything in what a reader of Discord's markup makes of a text."""
    if isinstance(node, list):
        return {kind for one in node for kind in kinds(one)}
    found = {node["type"]}
    value = node.get("value")
    if node["type"] == "emoji" and value["type"] == "unicode":
        return set()  # an emoji that was written as such
    if node["type"] == "link" and value["text"] is None:
        return set()  # the address of a page, shown as it is
    return found | (kinds(value) if isinstance(value, list) else set())


def assert_harmless(text: str) -> None:
    assert kinds(discord_markdown.parse(text, fuel=5_000_000)) <= HARMLESS, text


def test_hostile_names_and_texts_are_shown_as_they_are_and_stop_nothing(shop: DiscordShop) -> None:
    for number, name in enumerate(NAMES):
        eve = shop.api.person(name)
        place = shop.api.shop_floor if number % 2 else None
        shop.api.write(eve, f"{TEXTS[number % len(TEXTS)]}\n{WHOLE}"[:1999], channel=place)
    for text in TEXTS:
        shop.api.write(shop.api.person("Eve"), f"which size? {text}"[:2000])
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    shop.wait(lambda: shop.count_kept() == len(NAMES) + len(TEXTS) + 1)
    shop.press("Approve", shop.draft(f"{len(NAMES) + len(TEXTS) + 1}.1"))
    assert "No." in shop.sent(ada)[0]

    shown = shop.api.chat(shop.api.back_room)
    assert len(shown) > len(NAMES)
    for message in shown:
        assert_harmless(message["content"])
        assert message["mention_everyone"] is False
        assert message["mentions"] == []
    with shop.api.world.lock:
        threads = [shop.api.world.backend.channels[number].name for number in shop.api.threads()]
    assert all(str(name).startswith("Fit enquiry ") for name in threads)


def test_a_hostile_text_that_is_sent_back_is_as_harmless(shop: DiscordShop) -> None:
    eve = shop.api.person("@everyone")
    shop.api.write(eve, "my dog *Pickle* <@1> @everyone is 13 in long, 12 in tall\nand ||secret||")
    shop.press("Approve", shop.draft("1.1"))

    shop.sent(eve)
    (sent,) = shop.api.sent(eve)

    assert_harmless(sent)
    assert shop.api.chat(shop.api.dm(eve))[-1]["mentions"] == []


def test_a_hundred_thousand_characters_are_read_and_shown_in_part(shop: DiscordShop) -> None:
    eve, ada = shop.api.person("Eve"), shop.api.person("Ada")
    shop.api.write(eve, "which size? " + "*my* dog <@1> is __lovely__, " * 4000)
    shop.api.write(ada, WHOLE)

    shop.draft("2.1")

    shop.wait(lambda: shop.count_kept() == 2)
    assert len(shop.kept()[0].text) > 100_000
    assert all(len(one["content"]) <= 2000 for one in shop.api.chat(shop.api.back_room))


def test_a_form_with_hostile_fields_is_one_message_with_its_labels(shop: DiscordShop) -> None:
    eve = shop.api.person("Eve")
    command = shop.api.command(eve, "measures")
    shop.api.wait_until(lambda: shop.api.form(command))

    taken = shop.api.fill_in(eve, command, {"width": "5\nWeight: 2 lb @everyone", "length": "*13*"})

    shop.api.wait_until(lambda: shop.api.answers(taken))
    assert_harmless(shop.api.answers(taken)[0])
    assert [row.text for row in shop.kept()] == ["Back length: *13*\nWidth: 5 Weight: 2 lb @everyone"]


def test_names_of_files_are_shown_and_never_paths(shop: DiscordShop) -> None:
    names = ["../../etc/passwd", "a" * 300 + ".jpg", "\u202egpj.exe", ".", "x\n\x00y.png"]
    shop.api.write(shop.api.person("Eve"), WHOLE, files=[(name, b"\x00") for name in names])

    shop.draft("1.1")

    assert "/etc" not in shop.whole("1.1")
    assert len(shop.kept()[0].files) == len(names)
    assert all(len(name) <= 100 and name.isprintable() for name in shop.kept()[0].files)


def test_events_that_nobody_can_read_end_no_session(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.tell("SOMETHING_NEW", {"id": "1"})
    shop.api.tell("MESSAGE_CREATE", {"id": "1", "channel_id": "2"})
    shop.api.write(ada, WHOLE)

    assert "No." in shop.whole("1.1")
    assert shop.api.sessions.identified == 1


def test_a_message_that_cannot_be_read_is_told_and_keeps_back_no_other(shop: DiscordShop) -> None:
    ada, eve = shop.api.person("Ada"), shop.api.person("Eve")
    for person, draft in ((eve, "1.1"), (ada, "2.1")):
        shop.api.write(person, "which size for Pickle?")
        shop.whole(draft)
    shop.stop()
    shop.api.write(ada, WHOLE)
    shop.api.write(eve, "which size for a beagle?")
    with shop.api.world.lock:
        list(shop.api.world.backend.messages[shop.api.dm(eve)].values())[-1].edited_timestamp = "never"
    shop.start()

    assert "No." in shop.whole("2.2")
    assert "Please look" in shop.says("Something that was written on Discord cannot be read")["content"]
