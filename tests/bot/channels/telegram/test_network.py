"""Whatever the network does in the middle of a call: no message is lost, and no text goes twice without a word."""

from pathlib import Path

import pytest

from bot import maker_side
from bot.approval.decision import Decider, Number
from bot.build import open_desk
from bot.states import DepartureState
from tests.bot.channels.telegram.running import WHOLE, TelegramShop, telegram_shop
from tests.doubles.telegram_people import Cut, Trouble

CUTS = (Cut.BEFORE, Cut.AFTER, Cut.HALF)


def approved_and_gone(shop: TelegramShop) -> list[str]:
    """Let a customer write and the maker approve; gives what the customer got."""
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    shop.draft("1.1")
    shop.press("Approve", shop.shown("1.1")[-1])
    shop.wait_for_state(DepartureState.GONE)
    return shop.api.sent(ada)


@pytest.mark.parametrize("cut", CUTS)
@pytest.mark.parametrize("method", ["getMe", "deleteWebhook", "getUpdates"])
def test_a_cut_while_receiving_loses_no_message(tmp_path: Path, method: str, cut: Cut) -> None:
    with telegram_shop(tmp_path) as shop:
        shop.api.trouble(method, Trouble(cut=cut))
        shop.start()

        assert len(approved_and_gone(shop)) == 1


@pytest.mark.parametrize("cut", CUTS)
@pytest.mark.parametrize("method", ["sendMessage", "answerCallbackQuery", "editMessageReplyMarkup"])
def test_a_cut_before_the_makers_eyes_keeps_no_answer_back(shop: TelegramShop, method: str, cut: Cut) -> None:
    shop.says("Forward a customer's message")
    shop.api.trouble(method, Trouble(cut=cut))

    assert len(approved_and_gone(shop)) == 1


@pytest.mark.parametrize("cut", CUTS)
@pytest.mark.parametrize("method", ["getFile", "file"])
def test_a_cut_while_fetching_a_photo_loses_neither_words_nor_photo(shop: TelegramShop, method: str, cut: Cut) -> None:
    shop.api.trouble(method, Trouble(cut=cut))

    shop.api.send_photo(shop.api.person("Ada"), b"\xff\xd8 a picture", caption=WHOLE)

    assert "Came with it: photo.jpg\n" in shop.draft("1.1")["text"]


@pytest.mark.parametrize("cut", [*CUTS, Cut.HANG])
def test_a_cut_while_delivering_is_unsure_and_never_sent_again_by_itself(tmp_path: Path, cut: Cut) -> None:
    with telegram_shop(tmp_path) as shop:
        shop.answer_s = 1.0 if cut is Cut.HANG else 20.0
        shop.start()
        ada = shop.api.person("Ada")
        shop.api.write(ada, WHOLE)
        draft = shop.draft("1.1")
        shop.api.trouble("sendMessage", Trouble(cut=cut))

        shop.press("Approve", draft)
        told = shop.says("may have gone, or not")
        shop.wait_for_state(DepartureState.UNSURE)
        arrived = len(shop.api.sent(ada))
        shop.press("It arrived" if arrived else "It did not", told)
        shop.wait_for_state(DepartureState.GONE)

        assert len(shop.api.sent(ada)) == 1


@pytest.mark.parametrize("status", [500, 502])
def test_a_servers_error_while_delivering_is_unsure(shop: TelegramShop, status: int) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.trouble("sendMessage", Trouble(status=status))

    shop.press("Approve", draft)

    shop.says("may have gone, or not")
    shop.wait_for_state(DepartureState.UNSURE)


def test_what_is_approved_while_the_server_is_away_goes_once_it_is_back(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    shop.draft("1.1")
    shop.api.stop_listening()
    with open_desk(shop.folder, clock=shop.clock) as desk:
        maker_side.approve(desk, Number(enquiry=1, version=1), Decider(maker="Wil"))
    shop.wait_for_attempts(2)
    shop.api.start_listening()
    shop.clock.advance(60)

    shop.wait_for_state(DepartureState.GONE)

    assert len(shop.api.sent(ada)) == 1


def test_a_server_that_asks_to_wait_is_left_alone_for_so_long(shop: TelegramShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE)
    draft = shop.draft("1.1")
    shop.api.trouble("sendMessage", Trouble(status=429, retry_after=600))
    shop.press("Approve", draft)
    shop.wait_for_attempts(1)
    shop.clock.advance(599)
    shop.api.write(shop.maker, "/help")
    shop.says("Forward a customer's message to me")
    assert [part.attempts for part in shop.parts()] == [1]
    shop.clock.advance(60)

    shop.wait_for_state(DepartureState.GONE)

    assert len(shop.api.sent(ada)) == 1


def test_a_wait_asked_for_before_the_makers_eyes_is_obeyed(shop: TelegramShop) -> None:
    shop.says("Forward a customer's message")
    shop.api.trouble("sendMessage", Trouble(status=429, retry_after=1))
    shop.api.write(shop.api.person("Ada"), WHOLE)

    shop.draft("1.1")

    refused, done = shop.api.made("sendMessage")[-2:]
    assert refused.refused is not None
    assert done.at - refused.at >= 1
