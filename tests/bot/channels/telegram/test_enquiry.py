"""Whole enquiries over real sockets: what a customer and a maker see, from the first message to the answer."""

import socket
from pathlib import Path

import pytest

from bot.states import DepartureState
from bot.store.database import open_database
from bot.store.messages import messages_of
from tests.bot.channels.telegram.running import WHOLE, TelegramShop, telegram_shop
from tests.doubles.telegram_people import Cut, Trouble


def test_a_whole_enquiry_ends_with_exactly_one_answer(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, "Hi! Pickle is 13 inches long and 12 inches at the shoulder. Which size?")
    question = shop.draft("1.1")
    shop.press("Approve", question)
    shop.api.wait_until(lambda: len(shop.api.sent(ada)) == 1)
    assert "Width" in shop.api.sent(ada)[0]
    assert "Throat height" in shop.api.sent(ada)[0]

    shop.api.write(ada, "width is 4.5 inches, throat 8.75 inches and she weighs 15 lb")
    answer = shop.draft("1.2")
    shop.press("Correct", answer)
    shop.says("Your next message corrects 1.2")
    shop.api.write(shop.maker, "width 4.75")
    corrected = shop.draft("1.3")
    assert "width: 4 3/4 in (you set it)" in corrected["text"]
    shop.press("Approve", corrected)
    shop.wait_for_state(DepartureState.GONE)

    sent = shop.api.sent(ada)
    assert len(sent) == 2
    assert "No." in sent[1]
    assert "harness" in sent[1]


def test_what_she_decides_by_comes_first_and_her_words_last(shop: TelegramShop) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE + ". And do you have it in green?")

    text = shop.draft("1.1")["text"]

    order = ["No. ", "length: ", " in all (", "width: 4 3/4 in", "Also asked", "Draft:", "In the customer's words:"]
    places = [text.find(words) for words in order]
    assert -1 not in places
    assert places == sorted(places)


def test_five_short_messages_in_a_row_become_one_draft(tmp_path: Path) -> None:
    with telegram_shop(tmp_path, settle_s=45) as shop:
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
        shop.api.wait_until(lambda: shop.api.unconfirmed() == 0)
        shop.clock.advance(44)
        assert shop.shown("1.1") == []
        shop.clock.advance(2)

        draft = shop.draft("1.1")

        assert "No." in draft["text"]
        assert len(shop.api.sent(shop.maker)) == 2  # the greeting and the draft


def test_a_changed_text_goes_out_word_for_word(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, "Hi! Pickle is 13 inches long. Which size?")
    shop.press("Change", shop.draft("1.1"))
    shop.says("Your next message is the new text of 1.1")

    shop.api.write(shop.maker, "Dear Ada,\n\n*please* measure <b>again</b> {{ 7 * 7 }} @everyone")
    changed = shop.draft("1.2")
    shop.api.wait_until(lambda: shop.shown("1.1") == [])
    shop.press("Approve", changed)
    shop.wait_for_state(DepartureState.GONE)

    assert shop.api.sent(ada) == ["Dear Ada,\n\n*please* measure <b>again</b> {{ 7 * 7 }} @everyone"]


def test_an_answer_without_its_caution_needs_a_second_yes(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    shop.press("Change", shop.draft("1.1"))
    shop.says("Your next message is the new text")
    shop.api.write(shop.maker, "No. 3 it is.")
    shop.press("Approve", shop.draft("1.2"))
    lacking = shop.says("1.2 lacks something")
    assert shop.api.sent(ada) == []

    shop.press("Send it all the same", lacking)
    shop.wait_for_state(DepartureState.GONE)

    assert shop.api.sent(ada) == ["No. 3 it is."]


def test_what_is_set_aside_is_not_sent(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)

    answer = shop.press("Set aside", shop.draft("1.1"))

    assert answer == "1.1 is set aside."
    shop.api.wait_until(lambda: shop.shown("1.1") == [])
    assert shop.api.sent(ada) == []


def test_a_correction_that_cannot_be_read_is_asked_for_again(shop: TelegramShop) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE)
    shop.press("Correct", shop.draft("1.1"))
    shop.says("Your next message corrects 1.1")

    shop.api.write(shop.maker, "the width is not right")
    shop.says("write it like")
    shop.api.write(shop.maker, "width 5")

    assert "width: 5 in (you set it)" in shop.draft("1.2")["text"]


def test_a_forwarded_message_starts_an_enquiry_whose_text_comes_back_to_copy(shop: TelegramShop) -> None:
    shop.api.forward(shop.maker, WHOLE, origin=shop.api.person("Ada"))
    draft = shop.draft("1.1")
    assert "from Ada (paste)" in draft["text"]

    shop.press("Approve", draft)
    copy = shop.says("1.1, to copy.")
    texts = shop.api.sent(shop.maker)
    assert texts[-2].startswith("Hello")
    shop.press("I have copied it", copy)

    shop.wait_for_state(DepartureState.GONE)


@pytest.mark.parametrize("word", ["/start", "/help", "what now?"])
def test_a_maker_is_told_how_it_goes(shop: TelegramShop, word: str) -> None:
    shop.api.wait_until(lambda: len(shop.api.sent(shop.maker)) == 1)

    shop.api.write(shop.maker, word)
    shop.api.wait_until(lambda: len(shop.api.sent(shop.maker)) == 2)

    assert "Forward a customer's message to me" in shop.api.sent(shop.maker)[-1]


def test_waiting_shows_what_waits(shop: TelegramShop) -> None:
    shop.api.write(shop.api.person("Ada"), WHOLE)
    first = shop.draft("1.1")

    shop.api.write(shop.maker, "/waiting")

    shop.api.wait_until(lambda: len(shop.shown("1.1")) == 2)
    assert shop.shown("1.1")[1]["text"] == first["text"]


def test_a_photo_is_kept_and_shown_before_its_draft(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.send_photo(ada, b"\xff\xd8 a picture", caption=WHOLE)

    draft = shop.draft("1.1")

    photos = [message for message in shop.api.chat(shop.maker) if "photo" in message]
    assert [shop.api.world.files[one["photo"][0]["file_id"]] for one in photos] == [b"\xff\xd8 a picture"]
    assert photos[0]["message_id"] < draft["message_id"]


def test_a_photo_without_a_word_is_the_makers_to_answer(shop: TelegramShop) -> None:
    shop.api.send_photo(shop.api.person("Ada"), b"\xff\xd8", as_file="../../dog.jpg")

    draft = shop.draft("1.1")

    assert draft["text"].startswith("handover 1.1")
    assert "Came with it: dog.jpg" in draft["text"]


STICKER = {
    "sticker": {
        "file_id": "s",
        "file_unique_id": "u-s",
        "type": "regular",
        "width": 512,
        "height": 512,
        "is_animated": False,
        "is_video": False,
        "emoji": "\U0001f44d",
    }
}


def test_a_sticker_is_its_picture_character_and_needs_no_answer(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    shop.draft("1.1")

    shop.api.send(ada, **STICKER)
    shop.api.write(ada, "sorry, the width is 5.25 inches")
    shop.draft("1.2")

    with open_database(shop.folder) as database, database.read() as connection:
        kept = messages_of(connection, 1)
    assert [(row.text, row.files) for row in kept][1] == ("\U0001f44d", ())


def test_what_only_telegram_can_show_is_named_to_the_maker(shop: TelegramShop) -> None:
    shop.api.send(shop.api.person("Ada"), location={"latitude": 1.5, "longitude": 2.5})

    assert "Came with it: location" in shop.draft("1.1")["text"]


def test_a_photo_that_can_never_be_fetched_keeps_nothing_back(shop: TelegramShop) -> None:
    shop.api.trouble("file", *[Trouble(cut=Cut.BEFORE)] * 40)
    ada = shop.api.person("Ada")
    shop.api.send_photo(ada, b"\xff\xd8", caption=WHOLE)

    draft = shop.draft("1.1")

    assert "Came with it: photo.jpg (could not be fetched)" in draft["text"]


def test_a_photo_that_the_server_no_longer_has_is_kept_by_its_name(shop: TelegramShop) -> None:
    shop.api.trouble("getFile", Trouble(status=400))

    shop.api.send_photo(shop.api.person("Ada"), b"\xff\xd8", caption=WHOLE)

    assert "Came with it: photo.jpg (could not be fetched)" in shop.draft("1.1")["text"]


def test_an_answer_to_a_message_that_was_deleted_still_goes(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    number = shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.delete(ada, number)

    shop.press("Approve", draft)
    shop.wait_for_state(DepartureState.GONE)

    assert len(shop.api.sent(ada)) == 1


def test_the_commands_are_listed_in_the_makers_chats_alone(shop: TelegramShop) -> None:
    shop.api.wait_until(lambda: shop.api.world.commands)

    assert shop.api.world.commands == {shop.maker.id: ["waiting", "cancel", "help"]}


def test_an_enquiry_comes_and_goes_by_webhook(tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
    hook = f'webhook = "http://127.0.0.1:{port}/from-telegram"\nlisten = "127.0.0.1:{port}"\n'
    with telegram_shop(tmp_path, more=hook) as shop:
        shop.start()
        ada = shop.api.person("Ada")
        shop.api.write(ada, WHOLE)
        shop.press("Approve", shop.draft("1.1"))
        shop.wait_for_state(DepartureState.GONE)

        assert len(shop.api.sent(ada)) == 1
        assert shop.api.made("getUpdates") == []
