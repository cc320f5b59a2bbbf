"""Only makers decide, only about what still stands, and once."""

import threading
from pathlib import Path

import pytest

from bot.states import DepartureState
from bot.store.database import open_database
from bot.store.drafts import decisions_of
from tests.bot.channels.discord.running import DiscordShop, discord_shop, write_shop
from tests.bot.channels.telegram.running import WHOLE
from tests.doubles.discord_people import button, codes
from tests.doubles.telegram_people import Cut, Trouble


def test_a_strangers_press_changes_nothing(shop: DiscordShop) -> None:
    ada, eve = shop.api.person("Ada"), shop.api.person("Eve")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")

    presses = [shop.api.press(eve, draft, code) for code in codes(draft)]
    told = [shop.answer(press) for press in presses]

    assert told == ["Only the maker decides here."] * 4
    assert [shop.api.form(press) for press in presses] == [None] * 4
    assert shop.api.sent(ada) == []
    assert shop.parts() == []


def test_a_stranger_who_forges_a_makers_form_changes_nothing(shop: DiscordShop) -> None:
    ada, eve = shop.api.person("Ada"), shop.api.person("Eve")
    shop.api.write(ada, WHOLE)
    press = shop.press("Change", shop.draft("1.1"))
    shop.api.wait_until(lambda: shop.api.form(press))

    sent = shop.api.fill_in(eve, press, {"text 1": "Send money."})

    assert shop.answer(sent) == "Only the maker decides here."
    assert shop.shown("1.2") == []


def test_the_command_for_what_waits_is_not_shown_to_everybody(shop: DiscordShop) -> None:
    with pytest.raises(LookupError):
        shop.api.command(shop.api.person("Eve"), "waiting", channel=shop.api.elsewhere)


@pytest.mark.parametrize(
    ("code", "told"),
    [
        pytest.param("tl1:approve:1.1; drop table draft", "This button is not one of mine.", id="none of ours"),
        pytest.param("tl1:approve:99.7", "there is no enquiry 99", id="a draft that never was"),
    ],
)
def test_a_code_that_leads_nowhere_is_answered_in_words(shop: DiscordShop, code: str, told: str) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE)

    press = shop.api.press(shop.maker, shop.draft("1.1"), code)

    assert shop.answer(press) == told


def test_whoever_has_a_role_for_it_decides(tmp_path: Path) -> None:
    with discord_shop(tmp_path) as shop:
        kit, ada = shop.api.person("Kit"), shop.api.person("Ada")
        write_shop(tmp_path, shop.api, [], roles=[shop.api.role("helpers", kit)])
        shop.start()
        shop.api.write(ada, WHOLE)
        draft = shop.draft("1.1")

        assert shop.answer(shop.press("Approve", draft, by=shop.maker)) == "Only the maker decides here."
        assert shop.answer(shop.press("Approve", draft, by=kit)) == "1.1 is approved."
        shop.sent(ada)
        with open_database(tmp_path) as database, database.read() as connection:
            assert [(one.maker, one.surface) for one in decisions_of(connection, 1)] == [(str(kit.id), "discord")]


def test_an_old_draft_says_so_and_shows_the_new_one(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    old = shop.draft("1.1")
    shop.api.write(ada, "sorry, I meant the width is 5.25 inches")
    shop.draft("1.2")

    press = shop.press("Approve", old)

    assert shop.answer(press).startswith("1.1 is old")
    shop.api.wait_until(lambda: len(shop.shown("1.2")) == 2)
    assert shop.api.sent(ada) == []


@pytest.mark.parametrize("label", ["Change", "Correct"])
def test_a_form_about_an_old_draft_is_not_opened(shop: DiscordShop, label: str) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    old = shop.draft("1.1")
    shop.api.write(ada, "sorry, I meant the width is 5.25 inches")
    shop.draft("1.2")

    press = shop.press(label, old)

    assert shop.answer(press) == "1.1 no longer waits; 1.2 stands in its place."
    assert shop.api.form(press) is None


def test_a_text_written_for_a_draft_that_grew_old_meanwhile_is_refused(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    press = shop.press("Change", shop.draft("1.1"))
    shop.api.wait_until(lambda: shop.api.form(press))
    shop.api.write(ada, "sorry, I meant the width is 5.25 inches")
    shop.draft("1.2")

    sent = shop.api.fill_in(shop.maker, press, {"text 1": "No. 4 it is."})

    assert shop.answer(sent).startswith("1.1 is old")
    shop.api.wait_until(lambda: len(shop.shown("1.2")) == 2)


def test_buttons_and_forms_from_before_a_restart_work(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    press = shop.press("Correct", draft)
    shop.api.wait_until(lambda: shop.api.form(press))
    command = shop.api.command(ada, "measures")
    shop.api.wait_until(lambda: shop.api.form(command))
    shop.stop()
    shop.start()

    shop.api.fill_in(shop.maker, press, {"correction": "width 5"})
    shop.draft("1.2")
    assert shop.answer(shop.press("Approve", draft)).startswith("1.1 is old")
    taken = shop.api.fill_in(ada, command, {"width": "5.25 in"})

    assert "Width: 5.25 in" in shop.answer(taken)


def test_the_same_press_twice_sends_one_text(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")

    first, second = (shop.api.press(shop.maker, draft, button(draft, "Approve")) for _ in range(2))
    told = sorted([shop.answer(first), shop.answer(second)])
    shop.wait_for_state(DepartureState.GONE)

    assert told[0] == "1.1 is approved."
    assert told[1].startswith("1.1 was already approved")
    assert len(shop.api.sent(ada)) == 1


def test_two_makers_who_decide_at_once_send_at_most_one_text(tmp_path: Path) -> None:
    with discord_shop(tmp_path, makers=2) as shop:
        shop.start()
        ada = shop.api.person("Ada")
        shop.api.write(ada, WHOLE)
        draft = shop.draft("1.1")
        presses = [
            threading.Thread(target=shop.press, args=(label, draft), kwargs={"by": maker})
            for label, maker in (("Approve", shop.maker), ("Set aside", shop.others[0]))
        ]

        for one in presses:
            one.start()
        for one in presses:
            one.join()

        shop.wait(lambda: shop.shown("1.1") == [])
        with open_database(tmp_path) as database, database.read() as connection:
            decisions = decisions_of(connection, 1)
        assert len(decisions) == 1
        shop.wait(lambda: all(part.state is DepartureState.GONE for part in shop.parts()))
        assert len(shop.api.sent(ada)) == (1 if decisions[0].action == "approve" else 0)


def test_a_press_that_cannot_be_answered_in_time_does_nothing(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.trouble("POST", "*/callback", Trouble(status=404))

    shop.api.press(shop.maker, draft, button(draft, "Approve"))
    shop.api.wait_until(lambda: shop.api.made("POST", "/callback"))
    shop.api.command(shop.maker, "waiting", channel=shop.api.back_room)
    shop.api.wait_until(lambda: len(shop.shown("1.1")) == 2)

    assert shop.parts() == []


def test_a_press_is_acknowledged_before_a_slow_store_has_answered(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")

    with open_database(shop.folder) as database, database.write():
        press = shop.press("Approve", draft)
        assert shop.api.answers(press) == []

    assert shop.answer(press) == "1.1 is approved."


def test_a_form_is_acknowledged_while_the_store_is_slow(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    command = shop.api.command(ada, "measures")
    shop.api.wait_until(lambda: shop.api.form(command))

    with open_database(shop.folder) as database, database.write():
        taken = shop.api.fill_in(ada, command, {"width": "5 in"})
        shop.api.wait_until(lambda: shop.api.acknowledged(taken))
        assert shop.api.answers(taken) == []

    assert "Width: 5 in" in shop.answer(taken)


def test_a_message_edited_before_the_decision_makes_a_new_draft(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    number = shop.api.write(ada, WHOLE)
    shop.draft("1.1")

    shop.api.revise(shop.api.dm(ada), number, WHOLE.replace("4.75", "5.25"))

    assert "width: 5 1/4 in" in shop.whole("1.2")


def test_a_message_edited_after_the_answer_went_makes_another_answer(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    number = shop.api.write(ada, WHOLE)
    shop.press("Approve", shop.draft("1.1"))
    shop.sent(ada)

    shop.api.revise(shop.api.dm(ada), number, WHOLE.replace("4.75", "6.25").replace("15 lb", "16 lb"))

    assert "width: 6 1/4 in" in shop.whole("1.2")
    assert len(shop.api.sent(ada)) == 1


def test_an_approved_text_that_still_waits_is_held_when_she_writes_again(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.trouble("POST", f"/channels/{shop.api.dm(ada)}/messages", Trouble(status=429, retry_after=600))
    shop.press("Approve", draft)
    shop.wait(lambda: [part.attempts for part in shop.parts()] == [1])

    shop.api.write(ada, "sorry, I meant the width is 5.25 inches")
    shop.press("Drop it", shop.says("1.1, for Ada (discord), was approved but is held"))
    shop.press("Approve", shop.draft("1.2"))

    shop.wait(lambda: sorted(part.state for part in shop.parts()) == [DepartureState.DROPPED, DepartureState.GONE])
    assert len(shop.api.sent(ada)) == 1
    assert "5 1/4" in shop.api.sent(ada)[0]


def test_an_unsure_text_that_cannot_be_found_is_settled_by_the_maker_alone(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.trouble("POST", f"/channels/{shop.api.dm(ada)}/messages", Trouble(cut=Cut.BEFORE))
    shop.press("Approve", draft)
    shop.wait_for_state(DepartureState.UNSURE)
    assert shop.api.sent(ada) == []

    shop.press("It did not: send it again", shop.says("1.1, for Ada (discord), may have gone, or not"))
    shop.wait_for_state(DepartureState.GONE)

    assert len(shop.api.sent(ada)) == 1


def test_a_text_that_can_never_go_is_told(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.trouble("POST", f"/channels/{shop.api.dm(ada)}/messages", Trouble(status=403))

    shop.press("Approve", draft)

    assert "Discord refused it" in shop.says("could not be sent")["content"]
    shop.wait_for_state(DepartureState.FAILED)
