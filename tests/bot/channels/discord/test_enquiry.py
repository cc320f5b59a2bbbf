"""Whole enquiries over real sockets: what a customer and a maker see, from the first message to the answer."""

from bot.states import DepartureState
from tests.bot.channels.discord.running import DiscordShop


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
