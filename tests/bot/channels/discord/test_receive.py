"""Nothing that was written is lost: while nobody listened, while the connection was gone, in whichever place."""

from pathlib import Path

import pytest

from bot.states import DepartureState
from tests.bot.channels.discord.running import DiscordShop, discord_shop, write_shop
from tests.bot.channels.telegram.running import WHOLE
from tests.doubles.discord_people import Person
from tests.doubles.telegram_people import Cut, Trouble


@pytest.fixture
def known(shop: DiscordShop) -> Person:
    """Somebody who wrote once before, and was read."""
    ada = shop.api.person("Ada")
    shop.api.write(ada, "hi, which size for Pickle?")
    shop.draft("1.1")
    return ada


def test_what_was_written_in_private_while_nobody_listened_is_read_in_order(shop: DiscordShop, known: Person) -> None:
    shop.stop()
    for words in ("length 13 in", "height 12 in", "width 4.75 in", "throat 8.75 in, 15 lb"):
        shop.api.write(known, words)
    shop.start()
    shop.wait(lambda: len(shop.kept()) == 5)

    assert [row.text for row in shop.kept()][1:] == [
        "length 13 in",
        "height 12 in",
        "width 4.75 in",
        "throat 8.75 in, 15 lb",
    ]


def test_what_was_written_in_channels_and_threads_while_nobody_listened_is_read(shop: DiscordShop) -> None:
    ada, bea = shop.api.person("Ada"), shop.api.person("Bea")
    thread = shop.api.write(ada, "hi, which size for Pickle?", channel=shop.api.shop_floor)
    shop.api.wait_until(lambda: shop.api.threads() == [thread])
    shop.draft("1.1")
    shop.stop()
    shop.api.write(ada, WHOLE, channel=thread)
    other = shop.api.write(bea, WHOLE, channel=shop.api.shop_floor)
    begun = shop.api.begin_thread(bea, shop.api.shop_floor, "my dog")
    shop.api.write(bea, "and my other dog? " + WHOLE, channel=begun)
    shop.start()
    shop.wait(lambda: len(shop.kept()) == 4)

    assert [row.external_id.partition(":")[0] for row in shop.kept()][1:] != []
    assert {row.external_id.partition(":")[0] for row in shop.kept()} == {
        str(shop.api.shop_floor),
        str(thread),
        str(begun),
    }
    shop.api.wait_until(lambda: sorted(shop.api.threads()) == sorted([thread, other, begun]))


def test_a_thread_that_a_customer_begins_herself_is_hers(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    thread = shop.api.begin_thread(ada, shop.api.shop_floor, "my dog")

    shop.api.write(ada, WHOLE, channel=thread)
    shop.press("Approve", shop.draft("1.1"))

    assert "No." in shop.sent(thread)[0]


@pytest.mark.parametrize("resumable", [True, False], ids=["resumed", "lost"])
def test_what_is_written_while_the_connection_is_gone_is_read(
    shop: DiscordShop, known: Person, resumable: bool
) -> None:
    shop.api.trouble("GET", "/gateway", Trouble(cut=Cut.BEFORE))
    shop.api.drop(resumable=resumable)
    shop.api.wait_until(lambda: shop.api.sessions.connected == 0)

    shop.api.write(known, WHOLE)

    assert "No." in shop.whole("1.2")
    assert (shop.api.sessions.resumed, shop.api.sessions.identified) == ((1, 1) if resumable else (0, 2))


def test_a_strangers_first_words_while_nobody_listened_are_found_when_she_writes_again(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.stop()
    shop.api.write(ada, "Pickle: length 13 in, height 12 in, width 4.75 in")
    shop.start()

    shop.api.write(ada, "are you there? throat 8.75 in, 15 lb")

    assert "No." in shop.whole("1.1")
    assert len(shop.kept()) == 2


def test_what_was_written_before_the_channel_was_for_customers_is_not_read(tmp_path: Path) -> None:
    with discord_shop(tmp_path) as shop:
        ada = shop.api.person("Ada")
        with shop.api.time_ago(hours=2):
            shop.api.write(ada, "nice weather, 30 cm of snow", channel=shop.api.shop_floor)
        shop.start()
        shop.api.write(ada, WHOLE, channel=shop.api.shop_floor)
        shop.draft("1.1")

        assert [row.text for row in shop.kept()] == [WHOLE]


def test_a_thousand_messages_are_read_in_order_for_each_customer(tmp_path: Path) -> None:
    with discord_shop(tmp_path, settle_s=45) as shop:
        shop.start()
        people = [shop.api.person(f"Person {number}") for number in range(4)]
        for person in people:
            shop.api.write(person, "hi")
        thread = shop.api.write(people[0], "hi", channel=shop.api.shop_floor)
        shop.api.wait_until(lambda: shop.api.threads() == [thread])
        shop.wait(lambda: shop.count_kept() == 5)
        shop.stop()
        for number in range(200):
            for person in people:
                shop.api.write(person, f"message {number} of hers")
            shop.api.write(people[0], f"message {number} of hers", channel=thread)

        shop.start()
        shop.wait(lambda: shop.count_kept() == 1005)

        by_place: dict[str, list[str]] = {}
        for row in shop.kept():
            by_place.setdefault(row.external_id.partition(":")[0], []).append(row.text)
        lines = [f"message {number} of hers" for number in range(200)]
        private = {str(shop.api.dm(person)): ["hi", *lines] for person in people}
        assert by_place == {**private, str(thread): lines, str(shop.api.shop_floor): ["hi"]}


def test_what_was_changed_while_nobody_listened_is_read_anew(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    number = shop.api.write(ada, WHOLE)
    shop.draft("1.1")
    shop.stop()
    shop.api.revise(shop.api.dm(ada), number, WHOLE.replace("4.75", "5.25"))
    shop.start()

    assert "width: 5 1/4 in" in shop.whole("1.2")


def test_a_deleted_message_counts_no_more(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, "Pickle: length 13 in, height 12 in, throat 8.75 in, 15 lb")
    number = shop.api.write(ada, "width 4.75 in")
    shop.wait(lambda: any("No." in one["content"] for one in shop.api.chat(shop.api.back_room)))

    shop.api.delete(shop.api.dm(ada), number)

    shop.says("still to ask: width")


def test_bots_and_the_services_own_notices_are_nobodys(shop: DiscordShop) -> None:
    bot = shop.api.world.backend.make_user("Other", bot=True)
    shop.api.world.backend.add_member(shop.api.guild, bot.id)
    ada = shop.api.person("Ada")
    thread = shop.api.write(ada, WHOLE, channel=shop.api.shop_floor)  # a notice says that a thread was opened
    shop.draft("1.1")
    shop.api.write(Person(id=bot.id, name="Other"), WHOLE, channel=shop.api.shop_floor)
    shop.api.write(Person(id=bot.id, name="Other"), "width 9 in", channel=thread)
    shop.api.write(ada, "thanks!", channel=thread)
    shop.wait(lambda: len(shop.kept()) == 2)

    assert [row.text for row in shop.kept()] == [WHOLE, "thanks!"]


def test_what_third_people_say_in_a_thread_is_not_hers(shop: DiscordShop) -> None:
    ada, eve = shop.api.person("Ada"), shop.api.person("Eve")
    thread = shop.api.write(ada, "which size for Pickle?", channel=shop.api.shop_floor)
    shop.draft("1.1")
    shop.api.write(eve, "mine is 30 in long and wears No. 6", channel=thread)
    shop.api.write(ada, WHOLE, channel=thread)
    shop.draft("1.2")

    assert [row.text for row in shop.kept()] == ["which size for Pickle?", WHOLE]


@pytest.mark.parametrize("by_role", [False, True], ids=["by number", "by role"])
@pytest.mark.parametrize("later", [False, True], ids=["at once", "read on later"])
def test_what_a_maker_writes_in_a_thread_by_hand_replaces_the_draft(tmp_path: Path, by_role: bool, later: bool) -> None:
    with discord_shop(tmp_path) as shop:
        kit, ada = shop.api.person("Kit"), shop.api.person("Ada")
        role = shop.api.role("helpers", kit)
        write_shop(tmp_path, shop.api, [] if by_role else [kit], roles=[role] if by_role else [])
        shop.start()
        thread = shop.api.write(ada, WHOLE, channel=shop.api.shop_floor)
        shop.draft("1.1")
        shop.api.wait_until(lambda: shop.api.threads() == [thread])
        if later:
            shop.stop()
        shop.api.write(kit, "No. 4, and it is in stock.", channel=thread)
        if later:
            shop.start()

        shop.wait(lambda: shop.shown("1.1") == [])

        assert [row.text for row in shop.kept()] == [WHOLE]


def test_a_makers_own_words_in_the_channel_are_for_everybody(shop: DiscordShop) -> None:
    shop.api.write(shop.maker, "New sizes next week: 13 in long, 12 in tall", channel=shop.api.shop_floor)
    shop.api.write(shop.api.person("Ada"), WHOLE, channel=shop.api.shop_floor)
    shop.draft("1.1")

    assert [row.text for row in shop.kept()] == [WHOLE]


def test_words_elsewhere_on_the_server_are_not_read(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    shop.api.write(ada, WHOLE, channel=shop.api.elsewhere)
    begun = shop.api.begin_thread(ada, shop.api.elsewhere, "talk")
    shop.api.write(ada, WHOLE, channel=begun)
    shop.api.write(ada, WHOLE)
    shop.draft("1.1")

    assert len(shop.kept()) == 1


def test_without_channels_only_direct_messages_are_asked_for(tmp_path: Path) -> None:
    with discord_shop(tmp_path, channels=False) as shop:
        shop.api.world.message_content = False  # the switch in the portal is not needed then
        shop.start()
        ada = shop.api.person("Ada")
        shop.api.write(ada, WHOLE, channel=shop.api.shop_floor)
        shop.api.write(ada, WHOLE)

        assert "No." in shop.whole("1.1")
        assert len(shop.kept()) == 1


def test_her_private_words_and_those_in_a_channel_are_two_enquiries(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    thread = shop.api.write(ada, "which size for Pickle?", channel=shop.api.shop_floor)
    shop.draft("1.1")

    shop.api.write(ada, WHOLE)
    shop.press("Approve", shop.draft("2.1"))

    assert "No." in shop.sent(ada)[0]
    assert shop.api.sent(thread) == []
    shop.wait_for_state(DepartureState.GONE)


def test_an_answer_to_a_message_of_an_older_enquiry_joins_it(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    first = shop.api.write(ada, "which size for Pickle?")
    shop.draft("1.1")

    shop.api.write(ada, "15 lb", reply_to=first)

    shop.wait(lambda: len(shop.kept()) == 2)
    assert {row.enquiry_id for row in shop.kept()} == {1}


def test_a_forwarded_note_is_read_as_hers(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    note = shop.api.write(ada, WHOLE, channel=shop.api.elsewhere)

    shop.api.forward(ada, shop.api.elsewhere, note)

    assert "No." in shop.whole("1.1")


def test_numbers_in_mentions_are_no_measures(shop: DiscordShop) -> None:
    ada = shop.api.person("Ada")
    bot = shop.api.world.backend.bot_user.id

    shop.api.write(ada, f"<@{bot}> length 13 in <:paw:123456789012345678> in <#{shop.api.shop_floor}>")

    assert shop.draft("1.1")
    assert shop.kept()[0].text == "@TestBot length 13 in :paw: in #channel"
