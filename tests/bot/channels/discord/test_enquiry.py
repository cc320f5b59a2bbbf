"""Whole enquiries over real sockets: what a customer and a maker see, from the first message to the answer."""

from pathlib import Path

import pytest

from bot.channels.discord.text import LIMIT
from bot.paragraphs import utf16_units
from bot.states import DepartureState
from tests.bot.channels.discord.running import DiscordShop, discord_shop
from tests.bot.channels.telegram.running import WHOLE
from tests.doubles.discord_people import button, codes

PICTURE = b"\xff\xd8 a picture"


def test_a_whole_enquiry_ends_with_exactly_one_answer(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, "Hi! Pickle is 13 inches long and 12 inches at the shoulder. Which size?")
    shop.press("Approve", shop.draft("1.1"))
    (question,) = shop.sent(ada)
    assert "Width" in question
    assert "Throat height" in question

    shop.api.write(ada, "width is 4.5 inches, throat 8.75 inches and she weighs 15 lb")
    shop.fill_in("Correct", shop.draft("1.2"), "width 4.75")
    corrected = shop.draft("1.3")
    assert "width: 4 3/4 in (you set it)" in shop.whole("1.3")
    shop.press("Approve", corrected)
    shop.wait_for_state(DepartureState.GONE)

    sent = shop.sent(ada, 2)
    assert len(sent) == 2
    assert "No." in sent[1]
    assert "harness" in sent[1]


def test_an_enquiry_in_a_channel_goes_on_in_a_thread_of_its_own(shop: DiscordShop) -> None:
    ada, bea = shop.api.person("Ada"), shop.api.person("Bea")
    hers = shop.api.write(ada, "Pickle is 13 inches long and 12 inches tall", channel=shop.api.shop_floor)
    other = shop.api.write(bea, "which size for a beagle?", channel=shop.api.shop_floor)
    shop.press("Approve", shop.draft("1.1"))
    assert "Width" in shop.sent(hers)[0]

    shop.api.write(ada, "width 4.5 in, throat 8.75 in, 15 lb", channel=hers)
    shop.press("Approve", shop.draft("1.2"))

    assert "No." in shop.sent(hers, 2)[1]
    assert sorted(shop.api.threads()) == [hers, other]
    assert shop.api.sent(shop.api.shop_floor) == [shop.api.sent(shop.api.shop_floor)[0]]  # the sign alone
    assert shop.api.sent(ada) == shop.api.sent(bea) == shop.api.sent(other) == []
    assert ada.id in shop.api.world.backend.channels[hers].thread_members


def test_more_lines_in_the_channel_join_the_first(tmp_path: Path) -> None:
    with discord_shop(tmp_path, settle_s=45) as shop:
        shop.start()
        ada = shop.api.person("Ada")
        first, *_ = [
            shop.api.write(ada, words, channel=shop.api.shop_floor)
            for words in (
                "hi",
                "for my dog Pickle",
                "length 13 in, height 12 in",
                "width 4.75 in",
                "15 lb, 8.75 in throat",
            )
        ]
        shop.wait(lambda: len(shop.kept()) == 5)
        shop.clock.advance(46)

        assert "No." in shop.whole("1.1")
        assert shop.api.threads() == [first]


def test_five_short_messages_in_a_row_become_one_draft(tmp_path: Path) -> None:
    with discord_shop(tmp_path, settle_s=45) as shop:
        shop.start()
        ada = shop.api.person("Ada")
        for words in (
            "hi",
            "for my dog Pickle",
            "length 13 in, height 12 in",
            "width 4.75 in",
            "15 lb, throat 8.75 in",
        ):
            shop.api.write(ada, words)
            shop.clock.advance(4)
        shop.wait(lambda: len(shop.kept()) == 5)
        shop.clock.advance(40)
        assert shop.api.chat(shop.api.back_room) == []
        shop.clock.advance(6)

        assert "No." in shop.whole("1.1")
        assert [one for one in shop.api.chat(shop.api.back_room) if "from Ada" in one["content"]] != []
        assert len(shop.shown("1.1")) == 1


FILLED = {
    "length": "13 in",
    "height": "12",
    "width": "4 3/4 in",
    "throat_height": "8.75 in",
    "weight": "15 lb",
}


def test_a_command_opens_a_form_whose_answers_are_a_message(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    command = shop.api.command(ada, "measures")
    shop.api.wait_until(lambda: shop.api.form(command))

    taken = shop.api.fill_in(ada, command, FILLED)

    assert "Back length: 13 in" in shop.answer(taken)
    assert "The answer comes here." in shop.answer(taken)
    assert [row.text for row in shop.kept()] == [
        "Back length: 13 in\nShoulder height: 12\nWidth: 4 3/4 in\nThroat height: 8.75 in\nWeight: 15 lb"
    ]
    shop.press("Approve", shop.draft("1.1"))
    assert "No." in shop.sent(ada)[0]


def test_the_form_asks_for_the_five_measures_and_says_how_to_take_them(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    command = shop.api.command(ada, "measures")

    form = shop.api.wait_until(lambda: shop.api.form(command)) or {}

    assert [one["label"] for one in form["components"]] == [
        "Back length",
        "Shoulder height",
        "Width",
        "Throat height",
        "Weight",
    ]
    assert "not around" in form["components"][2]["description"]


def test_the_button_under_a_question_opens_the_form(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, "Pickle is 13 inches long")
    shop.press("Approve", shop.draft("1.1"))
    shop.sent(ada)
    question = shop.api.chat(shop.api.dm(ada))[-1]

    press = shop.api.press(ada, question, button(question, "Give the measures"))
    shop.api.wait_until(lambda: shop.api.form(press))
    shop.api.fill_in(ada, press, FILLED)
    shop.press("Approve", shop.draft("1.2"))

    assert "No." in shop.sent(ada, 2)[1]
    assert codes(shop.api.chat(shop.api.dm(ada))[-1]) == []  # no form under an answer


def test_a_form_from_the_sign_in_a_channel_gets_a_thread(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.sent(shop.api.shop_floor)
    sign = shop.api.chat(shop.api.shop_floor)[0]

    press = shop.api.press(ada, sign, button(sign, "Give the measures"))
    shop.api.wait_until(lambda: shop.api.form(press))
    taken = shop.api.fill_in(ada, press, FILLED)
    assert "in a thread of its own" in shop.answer(taken)
    (thread,) = shop.api.threads()
    shop.press("Approve", shop.draft("1.1"))

    assert "No." in shop.sent(thread)[0]
    assert ada.id in shop.api.world.backend.channels[thread].thread_members
    shop.api.write(ada, "sorry, the width is 6.25 in", channel=thread)
    assert "width: 6 1/4 in" in shop.whole("1.2")


def test_a_form_from_elsewhere_on_the_server_is_answered_in_private(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    command = shop.api.command(ada, "measures", channel=shop.api.elsewhere)
    shop.api.wait_until(lambda: shop.api.form(command))

    taken = shop.api.fill_in(ada, command, FILLED)

    assert "by direct message" in shop.answer(taken)
    shop.press("Approve", shop.draft("1.1"))
    assert "No." in shop.sent(ada)[0]


def test_a_form_in_her_own_thread_is_answered_there(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    thread = shop.api.write(ada, "which size for Pickle?", channel=shop.api.shop_floor)
    shop.draft("1.1")
    shop.api.wait_until(lambda: shop.api.threads() == [thread])
    command = shop.api.command(ada, "measures", channel=thread)
    shop.api.wait_until(lambda: shop.api.form(command))

    taken = shop.api.fill_in(ada, command, FILLED)

    assert "The answer comes here." in shop.answer(taken)
    shop.press("Approve", shop.draft("1.2"))
    assert "No." in shop.sent(thread)[0]


def test_an_empty_form_is_no_message(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    command = shop.api.command(ada, "measures")
    shop.api.wait_until(lambda: shop.api.form(command))

    taken = shop.api.fill_in(ada, command, {"width": "   "})

    assert "nothing was noted" in shop.answer(taken)
    assert shop.kept() == []


def test_what_she_decides_by_comes_first_and_the_customers_words_last(shop: DiscordShop) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE + ". And do you have it in green?")

    text = shop.whole("1.1")

    order = ["**No. ", "length: ", " in all (", "width: 4 3/4 in", "Also asked", "Draft:", "In the customer's words:"]
    places = [text.find(words) for words in order]
    assert -1 not in places
    assert places == sorted(places)
    shown = shop.api.chat(shop.api.back_room)
    assert all(utf16_units(one["content"]) <= LIMIT for one in shown)
    assert [bool(codes(one)) for one in shown] == [False] * (len(shown) - 1) + [True]


def test_a_changed_text_goes_out_word_for_word(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, "Hi! Pickle is 13 inches long. Which size?")
    text = "Dear Ada,\n\n*please* measure <@1> again {{ 7 * 7 }} @everyone\n1. x\n3. y"

    shop.fill_in("Change", shop.draft("1.1"), text)
    changed = shop.draft("1.2")
    shop.wait(lambda: shop.shown("1.1") == [])
    shop.press("Approve", changed)

    assert shop.sent(ada) == [text]
    assert "\\*please\\*" in shop.api.sent(ada)[0]
    assert shop.api.chat(shop.api.dm(ada))[-1]["mention_everyone"] is False


def test_the_form_for_a_change_holds_the_text_as_it_stands(shop: DiscordShop) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE)

    press = shop.press("Change", shop.draft("1.1"))

    form = shop.api.wait_until(lambda: shop.api.form(press)) or {}
    assert form["components"][0]["component"]["value"].startswith("Hello")
    assert form["custom_id"] == "tl1:change:1.1"


def test_a_text_that_is_longer_than_a_message_goes_in_parts_at_paragraphs(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, "Hi! Pickle is 13 inches long. Which size?")
    paragraphs = [f"{number}. " + "word " * 240 for number in range(3)]
    shop.fill_in("Change", shop.draft("1.1"), "\n\n".join(paragraphs))

    shop.press("Approve", shop.draft("1.2"))

    assert shop.sent(ada, 3) == [one.strip() for one in paragraphs]
    assert [part.part for part in shop.parts()] == [1, 2, 3]


def test_a_very_long_text_is_changed_in_several_fields(shop: DiscordShop) -> None:
    shop.api.write(shop.api.person("Ada"), "Hi! Pickle is 13 inches long. Which size?")
    paragraphs = [f"{number} " + "word " * 700 for number in range(2)]
    shop.fill_in("Change", shop.draft("1.1"), paragraphs[0])
    longer = shop.press("Change", shop.draft("1.2"))
    form = shop.api.wait_until(lambda: shop.api.form(longer)) or {}
    assert len(form["components"]) == 1

    shop.api.fill_in(shop.maker, longer, {"text 1": paragraphs[0][:3900] + "\n\nEnd"})

    assert shop.whole("1.3").count("End") == 1


def test_an_answer_without_its_caution_needs_a_second_yes(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    shop.fill_in("Change", shop.draft("1.1"), "No. 3 it is.")
    press = shop.press("Approve", shop.draft("1.2"))
    shop.api.wait_until(lambda: len(shop.api.answers(press)) == 2)
    lacking = shop.api.answer_messages(press)[1]
    assert "caution" in lacking["content"]
    assert shop.api.sent(ada) == []

    shop.press("Send it all the same", lacking)

    assert shop.sent(ada) == ["No. 3 it is."]


def test_what_is_set_aside_is_not_sent(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)

    press = shop.press("Set aside", shop.draft("1.1"))

    assert shop.answer(press) == "1.1 is set aside."
    shop.api.wait_until(lambda: shop.shown("1.1") == [])
    assert shop.api.sent(ada) == []


def test_a_correction_that_cannot_be_read_says_how_it_is_written(shop: DiscordShop) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE)

    wrong = shop.fill_in("Correct", shop.draft("1.1"), "the width is not right")

    assert "write it like" in shop.answer(wrong)
    shop.fill_in("Correct", shop.draft("1.1"), "width 5")
    assert "width: 5 in (you set it)" in shop.whole("1.2")


def test_waiting_shows_what_waits_once_more(shop: DiscordShop) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE)
    first = shop.draft("1.1")

    command = shop.api.command(shop.maker, "waiting", channel=shop.api.back_room)

    shop.api.wait_until(lambda: len(shop.shown("1.1")) == 2)
    assert shop.shown("1.1")[1]["content"] == first["content"]
    assert shop.api.acknowledged(command)
    shop.api.wait_until(lambda: shop.api.made("DELETE", "/messages/@original"))  # it does not think for ever


def test_waiting_says_that_nothing_does(shop: DiscordShop) -> None:
    command = shop.api.command(shop.maker, "waiting", channel=shop.api.back_room)

    assert shop.answer(command) == "Nothing waits for you."


def test_a_photo_is_kept_and_shown_before_its_draft(shop: DiscordShop) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE, files=[("dog.jpg", PICTURE), ("note.txt", b"13 in")])

    draft = shop.draft("1.1")

    with_files = [one for one in shop.api.chat(shop.api.back_room) if one["attachments"]]
    names = [file["filename"] for one in with_files for file in one["attachments"]]
    assert names == ["dog.jpg", "note.txt"]
    url = with_files[0]["attachments"][0]["url"]
    assert shop.api.world.backend.cdn.get(url) == PICTURE
    assert all(int(one["id"]) < int(draft["id"]) for one in with_files)
    assert "Came with it: dog.jpg" in shop.whole("1.1")


@pytest.mark.parametrize("tries", [1, 3])
def test_a_picture_that_cannot_be_had_is_named_and_keeps_nothing_back(shop: DiscordShop, tries: int) -> None:
    from tests.doubles.telegram_people import Cut, Trouble

    shop.api.trouble("GET", "/cdn/*", *[Trouble(cut=Cut.HALF)] * tries)
    shop.api.write(shop.api.person("Ada"), WHOLE, files=[("dog.jpg", PICTURE)])

    text = shop.whole("1.1")

    assert ("dog.jpg (could not be fetched)" in text) == (tries == 3)


def test_the_sign_is_put_up_once_and_stays_away_when_it_is_taken_down(shop: DiscordShop) -> None:
    shop.sent(shop.api.shop_floor)
    (sign,) = shop.api.chat(shop.api.shop_floor)
    assert "Which size does your dog need?" in sign["content"]
    shop.api.delete(shop.api.shop_floor, int(sign["id"]))

    shop.stop()
    shop.start()
    shop.api.write(shop.api.person("Ada"), WHOLE)
    shop.draft("1.1")

    assert shop.api.chat(shop.api.shop_floor) == []
