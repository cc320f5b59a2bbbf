"""What a message on Discord means, told from its parts alone: no network, no server."""

import asyncio
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

import discord
import pytest

from bot.channels.discord.client import Client
from bot.channels.discord.messages import deletion, edit, meaning
from bot.channels.discord.places import Kind, Place
from bot.message import Author

ADA = {"id": "7", "username": "ada", "global_name": "Ada", "discriminator": "0", "avatar": None}
BOT = {**ADA, "id": "8", "bot": True}
DM = Place(kind=Kind.DM, id=100)
FLOOR = Place(kind=Kind.CHANNEL, id=200)
THREAD = Place(kind=Kind.THREAD, id=300, parent=200, customer=7)


def message(**parts: Any) -> discord.Message:
    """Give a message as the library makes it from what the service tells."""

    async def made() -> discord.Message:
        client = Client(reads_channels=True)
        told: dict[str, Any] = {
            "id": "175928847299117063",
            "channel_id": "100",
            "author": ADA,
            "content": "13 in",
            "timestamp": "2016-04-30T11:18:25.796000+00:00",
            "edited_timestamp": None,
            "type": 0,
            "tts": False,
            "mention_everyone": False,
            "pinned": False,
            **{name: [] for name in ("mentions", "mention_roles", "attachments", "embeds", "components")},
            **parts,
        }
        channel = client.get_partial_messageable(int(told["channel_id"]))
        try:
            return discord.Message(state=client._connection, channel=channel, data=told)  # type: ignore[arg-type]
        finally:
            await client.http.connector.close()

    return asyncio.run(made())


def test_a_private_message_is_a_customers() -> None:
    what = meaning(message(), DM)

    assert what is not None
    kept = what.message
    assert (kept.external_id, kept.address, kept.thread_key) == ("100:175928847299117063", "7", None)
    assert (kept.text, kept.display_name, kept.author) == ("13 in", "Ada", Author.CUSTOMER)
    assert kept.sent_at == datetime(2016, 4, 30, 11, 18, 25, 796000, tzinfo=UTC)


def test_in_a_channel_the_message_names_the_thread_to_come() -> None:
    what = meaning(message(channel_id="200"), FLOOR)

    assert what is not None
    assert (what.message.address, what.message.thread_key) == ("7@200", "175928847299117063")


def test_in_a_thread_it_belongs_to_the_thread() -> None:
    what = meaning(message(channel_id="300"), THREAD)

    assert what is not None
    assert (what.message.address, what.message.thread_key) == ("7@200", "300")


def test_a_maker_in_a_thread_writes_to_its_customer() -> None:
    what = meaning(message(channel_id="300", author={**ADA, "id": "9", "global_name": "Wil"}), THREAD, makers={9})

    assert what is not None
    assert (what.message.address, what.message.author, what.message.display_name) == ("7@200", Author.MAKER, "")


@pytest.mark.parametrize(
    ("place", "parts", "makers"),
    [
        pytest.param(DM, {"author": BOT}, (), id="a bot"),
        pytest.param(FLOOR, {"webhook_id": "5"}, (), id="a webhook"),
        pytest.param(FLOOR, {"type": 18}, (), id="a notice that a thread was opened"),
        pytest.param(FLOOR, {"type": 6}, (), id="a notice that something was pinned"),
        pytest.param(THREAD, {"author": {**ADA, "id": "9"}}, (), id="a third person in a thread"),
        pytest.param(FLOOR, {}, {7}, id="a maker in the channel"),
    ],
)
def test_what_is_nobodys_is_not_kept(place: Place, parts: Mapping[str, Any], makers: Any) -> None:
    assert meaning(message(**parts), place, makers=makers) is None


def test_an_answer_names_what_it_answers() -> None:
    what = meaning(message(type=19, message_reference={"channel_id": "100", "message_id": "5", "type": 0}), DM)

    assert what is not None
    assert what.message.reply_to == "100:5"


def test_what_only_discord_can_show_is_named() -> None:
    what = meaning(message(content="", sticker_items=[{"id": "1", "name": "wave", "format_type": 1}]), DM)

    assert what is not None
    assert [(file.name, file.url) for file in what.files] == [("sticker: wave (look in Discord)", "")]


def test_an_edit_holds_the_new_words_and_a_deletion_none() -> None:
    changed = edit(message(content="14 in"))

    assert changed is not None
    assert (changed.external_id, changed.text) == ("100:175928847299117063", "14 in")
    assert edit(message(author=BOT)) is None
    assert deletion(100, 5).text is None
