"""What strangers write is data: it is shown as it came and sent back as text, whatever it looks like."""

import json
from pathlib import Path

import pytest

from bot.states import DepartureState
from tests.bot.channels.telegram.running import WHOLE, TelegramShop, codes, telegram_shop
from tests.doubles.telegram_judge import units
from tests.doubles.telegram_world import Json

TEXTS = [
    pytest.param("<b>bold</b> <a href='tg://user?id=1'>x</a> &amp; &lt;script&gt;", id="HTML"),
    pytest.param("*bold* _it_ [x](tg://user?id=1) `c` ||s|| > q \\", id="Markdown"),
    pytest.param("@everyone @here @wil #tag /approve /start t.me/joinchat https://example.org", id="mentions"),
    pytest.param("{{ 7 * 7 }} {% for x in y %} ${HOME} %(name)s {0.__class__}", id="templates"),
    pytest.param("'; drop table message; -- \" \\x00", id="SQL"),
    pytest.param("\u202egnorw\u202c \u200b\u2066\u2069 z\u0300\u0301\u0302\u0303", id="directions"),
    pytest.param("\U0001f468\u200d\U0001f469\u200d\U0001f467 \U0001f1ec\U0001f1e7 \U0001f415" * 40, id="pictures"),
    pytest.param("half a character: \ud83d and a null: \0", id="broken characters"),
    pytest.param("tl1:approve:1.1", id="a button's code"),
]


@pytest.mark.parametrize("text", TEXTS)
def test_a_hostile_text_and_name_are_shown_as_text_and_answered(shop: TelegramShop, text: str) -> None:
    eve = shop.api.person(text[:64], last_name=text[:64])
    shop.api.write(eve, f"{text}\n{WHOLE}")

    approve(shop)

    assert "No." in shop.api.sent(eve)[0]
    for call in shop.api.made("sendMessage"):
        assert "parse_mode" not in call.form
        kinds = {entity["type"] for entity in json.loads(call.form.get("entities", "[]"))}
        assert kinds <= {"bold", "expandable_blockquote"}


def approve(shop: TelegramShop) -> None:
    """Approve the draft, a second time where it asks for that, and wait until it is gone."""
    shop.press("Approve", shop.draft("1.1"))
    shop.wait(lambda: shop.parts() or asks_again(shop))
    for asking in asks_again(shop):
        shop.press("Send it all the same", asking)
    shop.wait_for_state(DepartureState.GONE)


def asks_again(shop: TelegramShop) -> list[Json]:
    return [message for message in shop.api.chat(shop.maker) if "tl1:sure:1.1" in codes(message)]


def test_a_text_of_100_kb_is_kept_whole_and_shown_in_messages_that_fit(shop: TelegramShop) -> None:
    eve = shop.api.person("Eve")
    long = "my dog is lovely \U0001f415 " * 5000
    assert len(long.encode()) > 100_000
    shop.api.write(eve, f"{WHOLE}\n{long}")

    approve(shop)

    assert len(shop.api.sent(shop.maker)) <= 8
    assert all(units(text) <= 4096 for text in shop.api.sent(eve))


def test_a_changed_text_of_9000_characters_goes_in_parts_and_in_order(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, "Hi! Pickle is 13 inches long. Which size?")
    shop.press("Change", shop.draft("1.1"))
    shop.says("Your next message is the new text")
    paragraphs = [f"Paragraph {number}. " + "\U0001f415 measure again, please. " * 40 for number in range(8)]
    shop.api.write(shop.maker, "\n\n".join(paragraphs))
    draft = shop.draft("1.2")

    shop.press("Approve", draft)
    shop.wait_for_state(DepartureState.GONE)

    sent = shop.api.sent(ada)
    assert len(sent) > 1
    assert "".join("".join(sent).split()) == "".join("".join(paragraphs).split())
    assert [part.part for part in shop.parts()] == list(range(1, len(sent) + 1))


def test_nothing_of_a_customer_and_no_token_is_in_the_log(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(0)
    with telegram_shop(tmp_path) as shop:
        shop.start()
        ada = shop.api.person("Adelheid", username="heidi_writes")
        shop.api.write(ada, WHOLE)
        shop.press("Approve", shop.draft("1.1"))
        shop.wait_for_state(DepartureState.GONE)

        told = caplog.text
        for private in ("Adelheid", "heidi_writes", "Pickle", str(ada.id), shop.api.token, shop.api.token[-10:]):
            assert private not in told
        assert "part 1 of draft" in told or "gone" in told
