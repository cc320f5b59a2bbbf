"""The bot drafts for the maker's own account, and answers in her name only after approval and within its rights."""

from pathlib import Path

import pytest

from bot.states import DepartureState
from tests.bot.channels.telegram.running import WHOLE, TelegramShop, telegram_shop


def test_a_customer_of_the_makers_own_account_is_answered_in_her_name(shop: TelegramShop) -> None:
    connection, ada = shop.api.connect(shop.maker), shop.api.person("Ada")
    shop.api.write_business(connection, ada, WHOLE)

    shop.press("Approve", shop.draft("1.1"))
    shop.wait_for_state(DepartureState.GONE)

    sent = shop.api.sent(ada, connection)
    assert len(sent) == 1
    assert "No." in sent[0]
    assert shop.api.sent(ada) == []


def test_the_bots_own_text_that_comes_back_is_no_message(shop: TelegramShop) -> None:
    connection, ada = shop.api.connect(shop.maker), shop.api.person("Ada")
    shop.api.write_business(connection, ada, WHOLE)
    shop.press("Approve", shop.draft("1.1"))
    shop.wait_for_state(DepartureState.GONE)
    shop.api.wait_until(lambda: shop.api.unconfirmed() == 0)

    shop.api.write_business(connection, ada, "sorry, the width is 6.25 inches")

    assert "width: 6 1/4 in" in shop.draft("1.2")["text"]


def test_what_the_maker_writes_by_hand_takes_the_place_of_the_draft(shop: TelegramShop) -> None:
    connection, ada = shop.api.connect(shop.maker), shop.api.person("Ada")
    shop.api.write_business(connection, ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.write_business(connection, ada, "I'll sew you a No. 4!", by_owner=True)
    shop.api.wait_until(lambda: shop.shown("1.1") == [])

    answer = shop.press_code("tl1:approve:1.1", draft)

    assert answer.startswith("1.1 is old")
    assert shop.api.sent(ada, connection) == []


@pytest.mark.parametrize("change", [{"can_reply": False}, {"enabled": False}])
def test_without_the_right_nothing_goes_and_the_maker_is_told(shop: TelegramShop, change: dict[str, bool]) -> None:
    connection, ada = shop.api.connect(shop.maker), shop.api.person("Ada")
    shop.api.write_business(connection, ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.reconnect(connection, **change)
    shop.api.wait_until(lambda: shop.api.unconfirmed() == 0)

    shop.press("Approve", draft)

    assert "business account" in shop.says("could not be sent")["text"]
    shop.wait_for_state(DepartureState.FAILED)
    assert shop.api.sent(ada, connection) == []


def test_a_right_that_was_given_back_is_used(shop: TelegramShop) -> None:
    connection, ada = shop.api.connect(shop.maker, can_reply=False), shop.api.person("Ada")
    shop.api.write_business(connection, ada, WHOLE)
    draft = shop.draft("1.1")
    connection.can_reply = True  # its update has not come yet

    shop.press("Approve", draft)
    shop.wait_for_state(DepartureState.GONE)

    assert len(shop.api.sent(ada, connection)) == 1


def test_a_connection_made_anew_answers_what_came_through_the_old_one(shop: TelegramShop) -> None:
    old, ada = shop.api.connect(shop.maker), shop.api.person("Ada")
    shop.api.write_business(old, ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.reconnect(old, enabled=False)
    shop.api.connect(shop.maker)
    shop.api.wait_until(lambda: shop.api.unconfirmed() == 0)

    shop.press("Approve", draft)
    shop.wait_for_state(DepartureState.GONE)

    assert len(shop.api.sent(ada, old)) == 1


def test_a_connection_made_while_the_bot_was_down_is_learnt(tmp_path: Path) -> None:
    with telegram_shop(tmp_path) as shop:
        connection, ada = shop.api.connect(shop.maker), shop.api.person("Ada")
        shop.api.forget("business_connection")
        shop.api.write_business(connection, ada, WHOLE)
        shop.start()

        shop.press("Approve", shop.draft("1.1"))
        shop.wait_for_state(DepartureState.GONE)

        assert len(shop.api.sent(ada, connection)) == 1


def test_a_strangers_business_account_is_not_served(shop: TelegramShop) -> None:
    eve, ada = shop.api.person("Eve"), shop.api.person("Ada")
    shop.api.write(eve, "hi")
    theirs, mine = shop.api.connect(eve), shop.api.connect(shop.maker)
    shop.api.write_business(theirs, ada, WHOLE)
    shop.api.write_business(mine, shop.api.person("Bo"), WHOLE)

    shown = [shop.draft(number) for number in ("2.1",)]

    assert "from Bo" in shown[0]["text"]
    assert len(shop.api.sent(shop.maker)) == 2  # the greeting and Bo's draft


def test_one_persons_two_chats_are_two_enquiries(shop: TelegramShop) -> None:
    connection, ada = shop.api.connect(shop.maker), shop.api.person("Ada")
    shop.api.write(ada, "Hi! Pickle is 13 inches long. Which size?")
    shop.draft("1.1")

    shop.api.write_business(connection, ada, WHOLE)
    shop.press("Approve", shop.draft("2.1"))
    shop.wait_for_state(DepartureState.GONE)

    assert shop.api.sent(ada) == []
    assert len(shop.api.sent(ada, connection)) == 1


def test_a_message_edited_or_deleted_there_is_read_again(shop: TelegramShop) -> None:
    connection, ada = shop.api.connect(shop.maker), shop.api.person("Ada")
    number = shop.api.write_business(connection, ada, WHOLE)
    shop.draft("1.1")
    shop.api.revise_business(connection, ada, number, WHOLE.replace("4.75", "5.25"))
    assert "width: 5 1/4 in" in shop.draft("1.2")["text"]

    shop.api.delete_business(connection, ada, [number])

    shop.api.wait_until(lambda: shop.shown("1.2") == [])
