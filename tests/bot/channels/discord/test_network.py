"""The network cut in the middle of each call, waits asked for, settings refused: what people see of it."""

from pathlib import Path

import pytest

from bot.states import DepartureState
from tests.bot.channels.discord.running import DiscordShop, discord_shop
from tests.bot.channels.telegram.running import WHOLE
from tests.doubles.discord_people import button
from tests.doubles.telegram_people import Cut, Trouble


@pytest.mark.parametrize("cut", [Cut.BEFORE, Cut.AFTER, Cut.HALF, Cut.HANG])
def test_the_first_call_of_every_kind_is_cut_and_one_answer_arrives(tmp_path: Path, cut: Cut) -> None:
    with discord_shop(tmp_path) as shop:
        shop.answer_s = 0.2 if cut is Cut.HANG else 5.0
        shop.api.cut_each(cut)
        shop.start()
        ada = shop.api.person("Ada")
        thread = shop.api.write(ada, WHOLE, channel=shop.api.shop_floor, files=[("dog.jpg", b"\xff\xd8")])
        draft = shop.draft("1.1")
        press = shop.api.press(shop.maker, draft, button(draft, "Approve"))
        shop.wait(shop.parts)
        shop.wait(lambda: shop.parts()[0].state in (DepartureState.GONE, DepartureState.UNSURE))
        if shop.parts()[0].state is DepartureState.UNSURE:
            assert cut is Cut.BEFORE
            assert shop.api.sent(thread) == []
            shop.press("It did not: send it again", shop.says("may have gone, or not"))
        shop.wait_for_state(DepartureState.GONE)

        assert press
        assert len(shop.api.sent(thread)) == 1
        assert [row.text for row in shop.kept()] == [WHOLE]
        shop.wait(lambda: shop.shown("1.1") == [])
        kinds = {(call.method, call.path.rpartition("/")[2]) for call in shop.api.calls if call.cut}
        assert {("POST", "messages"), ("POST", "threads"), ("POST", "callback"), ("GET", "messages")} <= kinds


def test_a_text_that_is_found_where_it_went_asks_nobody(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.trouble("POST", f"/channels/{shop.api.dm(ada)}/messages", Trouble(cut=Cut.AFTER))

    shop.press("Approve", draft)
    shop.wait_for_state(DepartureState.GONE)

    assert len(shop.api.sent(ada)) == 1
    assert [one for one in shop.api.chat(shop.api.back_room) if "may have gone" in one["content"]] == []


def test_the_same_words_sent_before_are_not_taken_for_it(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    for version in (1, 3):
        shop.api.write(ada, f"Pickle is {12 + version} inches long")
        if version == 3:
            shop.api.trouble("POST", f"/channels/{shop.api.dm(ada)}/messages", Trouble(cut=Cut.BEFORE))
        shop.fill_in("Change", shop.draft(f"1.{version}"), "And the width?")
        shop.press("Approve", shop.draft(f"1.{version + 1}"))
        shop.wait(lambda count=version: len(shop.parts()) == (count + 1) // 2)
        shop.wait(lambda: all(part.state not in (DepartureState.QUEUED, DepartureState.GOING) for part in shop.parts()))

    assert [part.state for part in shop.parts()] == [DepartureState.GONE, DepartureState.UNSURE]
    assert len(shop.api.sent(ada)) == 1


def test_a_wait_that_is_asked_for_is_kept_and_the_text_goes_once(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    path = f"/channels/{shop.api.dm(ada)}/messages"
    shop.api.trouble("POST", path, Trouble(status=429, retry_after=1))

    shop.press("Approve", draft)
    shop.wait_for_state(DepartureState.GONE)

    first, second = shop.api.made("POST", path)
    assert second.at - first.at >= 0.99
    assert len(shop.api.sent(ada)) == 1


def test_a_thread_that_could_not_be_opened_is_opened_when_the_answer_goes(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.trouble("POST", "*/threads", Trouble(status=403), Trouble(status=403))
    number = shop.api.write(ada, WHOLE, channel=shop.api.shop_floor)
    draft = shop.draft("1.1")
    assert shop.api.threads() == []

    shop.press("Approve", draft)

    assert "No." in shop.sent(number)[0]


def test_an_answer_to_a_message_that_was_deleted_gets_a_thread_all_the_same(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.trouble("POST", "*/threads", Trouble(status=403), Trouble(status=403))
    number = shop.api.write(ada, WHOLE, channel=shop.api.shop_floor)
    draft = shop.draft("1.1")
    with shop.api.world.lock:
        del shop.api.world.backend.messages[shop.api.shop_floor][number]

    shop.press("Approve", draft)

    shop.api.wait_until(shop.api.threads)
    (thread,) = shop.api.threads()
    assert thread != number
    assert "No." in shop.sent(thread)[0]


def test_a_switch_that_is_off_is_told_where_the_maker_is(tmp_path: Path) -> None:
    with discord_shop(tmp_path) as shop:
        shop.api.world.message_content = False
        shop.start_unheard()

        assert "Message Content Intent" in shop.says("discord: Discord does not let the bot read")["content"]


def test_nothing_private_is_shown_where_everybody_reads(tmp_path: Path) -> None:
    with discord_shop(tmp_path) as shop:
        shop.api.world.backend.channels[shop.api.back_room].overwrites.clear()
        shop.start()
        shop.api.write(shop.api.person("Ada"), WHOLE)
        shop.wait(lambda: len(shop.kept()) == 1)
        shop.api.wait_until(lambda: shop.api.made("GET", f"/members/{shop.api.world.backend.bot_user.id}"))
        shop.stop()

        assert shop.api.chat(shop.api.back_room) == []
