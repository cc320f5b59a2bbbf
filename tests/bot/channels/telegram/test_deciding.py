"""Only the maker decides, only about what still stands, and once."""

import threading
from pathlib import Path

from bot.states import DepartureState
from bot.store.database import open_database
from bot.store.drafts import decisions_of
from tests.bot.channels.telegram.running import WHOLE, TelegramShop, telegram_shop
from tests.doubles.telegram_people import Cut, Trouble


def test_a_strangers_press_changes_nothing(shop: TelegramShop) -> None:
    ada, eve = shop.api.person("Ada"), shop.api.person("Eve")
    shop.api.write(ada, WHOLE)
    shop.api.write(eve, "hi")
    shop.draft("1.1")

    press = shop.api.press(eve, 1, "tl1:approve:1.1")
    shop.api.wait_until(lambda: shop.api.answer_to(press) is not None)

    assert shop.api.answer_to(press) == "Only the maker decides here."
    assert shop.api.sent(ada) == []
    assert shop.parts() == []


def test_a_strangers_words_are_a_customers_and_no_command(shop: TelegramShop) -> None:
    eve = shop.api.person("Eve")

    for words in ("/waiting", "approve 1.1", "width 5.5", "/start"):
        shop.api.write(eve, words)
    shop.api.wait_until(lambda: shop.api.unconfirmed() == 0)
    shop.api.write(eve, WHOLE)
    shop.draft("1.1")

    assert shop.api.sent(eve) == []


def test_a_code_that_is_none_of_ours_is_answered(shop: TelegramShop) -> None:
    press = shop.api.press(shop.maker, 1, "tl1:approve:1.1; drop table draft")
    shop.api.wait_until(lambda: shop.api.answer_to(press) is not None)

    assert shop.api.answer_to(press) == "This button is not one of mine."


def test_a_draft_that_never_was_is_answered_in_words(shop: TelegramShop) -> None:
    press = shop.api.press(shop.maker, 1, "tl1:approve:99.7")

    assert "no enquiry 99" in shop.says("no enquiry 99")["text"]
    assert press


def test_an_old_draft_says_so_and_shows_the_new_one(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    old = shop.draft("1.1")
    shop.api.write(ada, "sorry, I meant the width is 5.25 inches")
    shop.draft("1.2")

    answer = shop.press("Approve", old)

    assert answer.startswith("1.1 is old")
    shop.api.wait_until(lambda: len(shop.shown("1.2")) == 2)
    assert shop.api.sent(ada) == []


def test_a_press_before_the_new_words_were_read_sends_nothing_old(tmp_path: Path) -> None:
    with telegram_shop(tmp_path, settle_s=45) as shop:
        shop.start()
        ada = shop.api.person("Ada")
        shop.api.write(ada, WHOLE)
        shop.api.wait_until(lambda: shop.api.unconfirmed() == 0)
        shop.clock.advance(46)
        old = shop.draft("1.1")
        shop.api.write(ada, "sorry, I meant the width is 5.25 inches")
        shop.api.wait_until(lambda: shop.api.unconfirmed() == 0)

        answer = shop.press("Approve", old)

        assert answer.startswith("1.1 is old")
        assert "width: 5 1/4 in" in shop.draft("1.2")["text"]
        assert shop.api.sent(ada) == []


def test_the_same_press_twice_sends_one_text(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")

    first, second = shop.press("Approve", draft), shop.press("Approve", draft)
    shop.wait_for_state(DepartureState.GONE)

    assert first == "1.1 is approved."
    assert second.startswith("1.1 was already approved")
    assert len(shop.api.sent(ada)) == 1


def test_two_makers_who_decide_at_once_send_one_text(tmp_path: Path) -> None:
    with telegram_shop(tmp_path, makers=2) as shop:
        kit = shop.others[0]
        shop.start()
        ada = shop.api.person("Ada")
        shop.api.write(ada, WHOLE)
        mine, theirs = shop.draft("1.1"), shop.draft("1.1", maker=kit)
        presses = [
            threading.Thread(target=shop.press, args=("Approve", mine)),
            threading.Thread(target=shop.press, args=("Set aside", theirs), kwargs={"by": kit}),
        ]

        for one in presses:
            one.start()
        for one in presses:
            one.join()

        with open_database(tmp_path) as database, database.read() as connection:
            decisions = decisions_of(connection, 1)
        assert len(decisions) == 1
        shop.wait(lambda: all(part.state is DepartureState.GONE for part in shop.parts()))
        assert len(shop.api.sent(ada)) == (1 if decisions[0].action == "approve" else 0)
        shop.api.wait_until(lambda: shop.shown("1.1") == shop.shown("1.1", maker=kit) == [])


def test_a_message_edited_before_the_decision_makes_a_new_draft(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    number = shop.api.write(ada, WHOLE)
    shop.draft("1.1")

    shop.api.revise(ada, number, WHOLE.replace("4.75", "5.25"))

    assert "width: 5 1/4 in" in shop.draft("1.2")["text"]


def test_a_message_edited_after_the_answer_went_makes_another_answer(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    number = shop.api.write(ada, WHOLE)
    shop.press("Approve", shop.draft("1.1"))
    shop.wait_for_state(DepartureState.GONE)

    shop.api.revise(ada, number, WHOLE.replace("4.75", "6.25").replace("15 lb", "16 lb"))

    assert "width: 6 1/4 in" in shop.draft("1.2")["text"]
    assert len(shop.api.sent(ada)) == 1


def test_an_approved_text_that_still_waits_is_held_when_she_writes_again(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.trouble("sendMessage", Trouble(status=429, retry_after=600))
    shop.press("Approve", draft)
    shop.wait_for_attempts(1)

    shop.api.write(ada, "sorry, I meant the width is 5.25 inches")
    held = shop.says("1.1, for Ada (telegram), was approved but is held")
    shop.press("Drop it", held)
    shop.press("Approve", shop.draft("1.2"))

    shop.wait(lambda: sorted(part.state for part in shop.parts()) == [DepartureState.DROPPED, DepartureState.GONE])
    assert len(shop.api.sent(ada)) == 1
    assert "5 1/4" in shop.api.sent(ada)[0]


def test_an_unsure_text_is_settled_by_the_maker_alone(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.trouble("sendMessage", Trouble(cut=Cut.BEFORE))
    shop.press("Approve", draft)
    shop.wait_for_state(DepartureState.UNSURE)
    assert shop.api.sent(ada) == []

    shop.press("It did not: send it again", shop.says("1.1, for Ada (telegram), may have gone, or not"))
    shop.wait_for_state(DepartureState.GONE)

    assert len(shop.api.sent(ada)) == 1


def test_a_text_that_can_never_go_is_told(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.block(ada)

    shop.press("Approve", draft)

    assert "blocked by the user" in shop.says("could not be sent")["text"]
    shop.wait_for_state(DepartureState.FAILED)


def test_what_is_awaited_outlives_a_restart(tmp_path: Path) -> None:
    with telegram_shop(tmp_path) as shop:
        shop.start()
        shop.api.write(shop.api.person("Ada"), WHOLE)
        shop.press("Correct", shop.draft("1.1"))
        shop.says("Your next message corrects 1.1")
        shop.stop()
        shop.api.write(shop.maker, "width 5")
        shop.start()

        assert "width: 5 in (you set it)" in shop.draft("1.2")["text"]


def test_cancel_takes_back_what_is_awaited(shop: TelegramShop) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE)
    shop.press("Change", shop.draft("1.1"))
    shop.says("Your next message is the new text")

    shop.api.write(shop.maker, "/cancel")
    shop.says("taken for nothing")
    shop.api.write(shop.maker, "what was that?")

    shop.says("Forward a customer's message to me")
    assert len(shop.shown("1.1")) == 1
