"""A maker's answer counts by the token of that very mail and from her address; nothing else proves anything."""

from pathlib import Path

import pytest

from bot import departures
from bot.approval import decision
from bot.channels.paste import keep_pasted
from bot.message import ChannelName, Incoming
from bot.states import DepartureState
from tests.bot.channels.email.running import ANN, FOUR, WHOLE, MailShop, answer_to, mail, mail_shop, plain
from tests.doubles.mail_servers import HOME, MailServers


def settled(shop: MailShop) -> None:
    """Wait until everything in the mailbox was dealt with: a mail that comes last has its draft."""
    number = len({row.enquiry_id for row in shop.waiting()} | {part.enquiry_id for part in shop.parts()}) + 1
    shop.receive(mail("How much is it?", sender=f"last{number}@customers.example"))
    shop.draft(f"{number}.1")


def test_a_from_line_alone_approves_nothing(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))
    shown = shop.mailed("1.1: an answer waits for you")

    shop.receive(mail("approve", sender=shop.maker, subject=f"Re: {shown['Subject']}"))
    told = shop.mailed("This did not count")

    assert "an address alone proves nothing" in plain(told)
    assert shop.parts() == []


def test_a_token_in_the_subject_or_the_text_alone_approves_nothing(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))
    token = shop.mailed("1.1: an answer waits for you")["Message-ID"]

    shop.receive(mail("approve", sender=shop.maker, subject=f"approve {token}"))
    shop.mailed("This did not count")

    assert shop.parts() == []


def test_a_token_from_another_address_approves_nothing_and_the_maker_hears_of_it(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))
    shown = shop.mailed("1.1: an answer waits for you")

    shop.decide(shown, "approve", sender="eve@customers.example")
    shop.mailed("An answer to 1.1 came from an address that may not decide")

    assert shop.parts() == []
    assert [row.number for row in shop.waiting()] == ["1.1"]


@pytest.mark.parametrize(
    "sender",
    [
        '"{maker}" <eve@customers.example>',
        "eve@customers.example, {maker}",
        "{maker}, eve@customers.example",
        "{maker}.evil.example",
    ],
)
def test_a_from_line_that_only_looks_like_hers_approves_nothing(shop: MailShop, sender: str) -> None:
    shop.receive(mail(WHOLE))
    shown = shop.mailed("1.1: an answer waits for you")

    forged = answer_to(shown, "approve", sender=shop.maker).as_bytes()
    line = f"From: {sender.format(maker=shop.maker)}".encode()
    shop.servers.put(shop.name, forged.replace(f"From: {shop.maker}".encode(), line))
    settled(shop)

    assert shop.parts() == []


def test_a_changed_token_approves_nothing(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))
    shown = shop.mailed("1.1: an answer waits for you")
    token = shown["Message-ID"]
    last = "a" if token[-len("a@workshop.example>")] != "a" else "b"
    forged = token.replace(token[-len("a@workshop.example>") :], f"{last}@workshop.example>")

    shop.receive(mail("approve", sender=shop.maker, answers=[forged]))
    shop.mailed("This did not count")

    assert shop.parts() == []


def test_a_token_of_one_draft_is_none_of_another(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))
    shop.receive(mail(WHOLE, sender="bea@customers.example"))
    token = shop.mailed("2.1: an answer waits for you")["Message-ID"]
    shop.mailed("1.1: an answer waits for you")

    shop.receive(mail("approve", sender=shop.maker, answers=[token.replace("tl.2.1.", "tl.1.1.")]))
    shop.mailed("This did not count")

    assert shop.parts() == []


def test_an_old_version_is_told_off_and_the_new_one_stands(shop: MailShop) -> None:
    shop.receive(mail(FOUR))
    old = shop.mailed("1.1: a question waits for you")
    shop.receive(mail("The width is 4.75 inches, sorry."))
    shop.mailed("1.2: an answer waits for you")

    shop.decide(old, "approve")
    told = shop.mailed("1.1 is old")

    assert "1.2 waits for you" in plain(told)
    assert shop.parts() == []


def test_the_same_answer_twice_sends_one_text(shop: MailShop) -> None:
    ada = f"ada-{shop.name}@customers.example"
    shop.receive(mail(WHOLE, sender=ada))
    shown = shop.mailed("1.1: an answer waits for you")
    for _ in range(2):
        shop.decide(shown, "approve")

    shop.mailed("1.1 was already approved")
    shop.wait_for_state(DepartureState.GONE)

    assert len(shop.mails_of(ada)) == 1


def test_an_answer_that_is_read_again_in_a_rebuilt_mailbox_does_and_says_nothing(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))
    shop.decide(shop.mailed("1.1: an answer waits for you"), "correct width 5")
    shop.mailed("1.2: an answer waits for you")
    shop.stop()
    before = len(shop.mails_of(shop.maker))

    shop.servers.rebuild(shop.name)
    shop.start()
    settled(shop)
    shop.mailed("2.1: ")

    assert len(shop.mails_of(shop.maker)) == before + 1
    assert "1.2" in [row.number for row in shop.waiting()]


def test_her_absence_notice_is_no_new_text(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))
    shown = shop.mailed("1.1: an answer waits for you")

    shop.decide(shown, "I am away until Monday.", Auto_Submitted="auto-replied")
    settled(shop)

    assert "1.1" in [row.number for row in shop.waiting()]


def test_a_text_without_its_caution_needs_a_second_yes_to_its_own_mail(shop: MailShop) -> None:
    ada = f"ada-{shop.name}@customers.example"
    shop.receive(mail(WHOLE, sender=ada))
    shop.decide(shop.mailed("1.1: an answer waits for you"), "No. 3 it is.")
    changed = shop.mailed("1.2: an answer waits for you")
    shop.decide(changed, "approve")
    lacks = shop.mailed("1.2 lacks something")
    assert shop.parts() == []

    shop.decide(lacks, "approve")

    assert plain(shop.mailed("No. 3 it is.", to=ada)).strip() == "No. 3 it is."


def test_a_word_that_goes_on_is_asked_about(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))
    shown = shop.mailed("1.1: an answer waits for you")

    shop.decide(shown, "approve\n\nbut make it No. 4")
    shop.mailed("it could be meant in two ways")

    assert shop.parts() == []
    assert [row.number for row in shop.waiting()] == ["1.1"]


def test_a_draft_is_set_aside_by_mail(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))

    shop.decide(shop.mailed("1.1: an answer waits for you"), "set aside")
    shop.mailed("1.1 is set aside.")

    assert shop.waiting() == []


def test_a_correction_that_cannot_be_read_is_told(shop: MailShop) -> None:
    shop.receive(mail(WHOLE))

    shop.decide(shop.mailed("1.1: an answer waits for you"), "correct the 5 please")
    told = shop.mailed("does not begin with a measure")

    assert "write it like" in plain(told)


def test_the_token_may_come_by_the_address_where_ids_are_changed_on_the_way(
    servers: MailServers, tmp_path: Path
) -> None:
    with mail_shop(servers, tmp_path, plus_addresses=True) as shop:
        ada = f"ada-{shop.name}@customers.example"
        shop.start()
        shop.receive(mail(WHOLE, sender=ada))
        shown = shop.mailed("1.1: an answer waits for you")
        local, _, home = shown["Reply-To"].partition("@")
        assert local.startswith(f"{shop.name}+tl.1.1.decide.")
        assert home == HOME

        answer = mail("approve", sender=shop.maker, to=shown["Reply-To"], answers=["<changed@provider.example>"])
        shop.send(answer, sender=shop.maker)

        shop.mailed("No. ", to=ada)


def test_a_maker_whose_address_is_the_shops_own_decides_in_her_one_mailbox(
    servers: MailServers, tmp_path: Path
) -> None:
    with mail_shop(servers, tmp_path) as shop:
        shop.write_settings(makers=[shop.address])
        ada = f"ada-{shop.name}@customers.example"
        shop.start()
        shop.receive(mail(WHOLE, sender=ada))
        shown = shop.mailed("1.1: an answer waits for you", to=shop.address)

        shop.decide(shown, "approve", sender=shop.address)

        shop.mailed("No. ", to=ada)
        assert shop.waiting() == []


def test_a_held_text_is_let_go_by_mail(shop: MailShop, servers: MailServers) -> None:
    ada = f"ada-{shop.name}@customers.example"
    shop.receive(mail(WHOLE, sender=ada))
    shop.draft("1.1")
    shop.stop()
    shop.approve("1.1")
    with shop.desk() as desk:
        more = Incoming(
            channel=ChannelName.EMAIL, external_id="more@x.example", address=ada, text="Is it there in green as well?"
        )
        desk.keep(more)
    shop.start()

    held = shop.mailed("was approved but is held")
    shop.decide(held, "let it go out")

    shop.mailed("No. ", to=ada)


def test_a_flood_of_forged_answers_becomes_no_flood_to_the_maker(servers: MailServers, tmp_path: Path) -> None:
    with mail_shop(servers, tmp_path, most_per_day=3) as shop:
        shop.start()
        for _ in range(8):
            shop.receive(mail("approve", sender=shop.maker))
        settled(shop)
        shop.mailed("1.1: ")

        assert len([one for one in shop.mails_of(shop.maker) if "did not count" in plain(one)]) == 3


def test_a_pasted_enquirys_text_comes_by_mail_to_copy(shop: MailShop) -> None:
    with shop.desk() as desk:
        keep_pasted(desk, WHOLE, name="Ada")
    shop.decide(shop.mailed("1.1: an answer waits for you"), "approve")
    copy = shop.mailed("1.1, to copy.")
    assert "No. " in plain(copy)

    shop.decide(copy, "copied")

    shop.wait_for_state(DepartureState.GONE)


def test_an_unsure_text_is_settled_by_mail_and_each_mail_settles_it_once(servers: MailServers, tmp_path: Path) -> None:
    with mail_shop(servers, tmp_path) as shop:
        shop.start()
        shop.receive(mail(WHOLE))
        shop.draft("1.1")
        with shop.desk() as desk, desk.database.write() as connection:
            decided = decision.approve(
                connection, decision.Number(enquiry=1, version=1), ANN, fingerprint=desk.fingerprint, at=desk.clock()
            )
            claimed = departures.claim(connection, decided.parts[0], at=desk.clock())
            assert claimed is not None
            departures.lost(connection, claimed, "no answer")
        unsure = shop.mailed("may have gone, or not")

        shop.decide(unsure, "approve")
        shop.mailed("is no answer to that mail")
        shop.decide(unsure, "it arrived")
        shop.wait_for_state(DepartureState.GONE)
        shop.decide(unsure, "send it again")

        shop.mailed("no longer stands so that you could say this of it")
        assert [part.state for part in shop.parts()] == [DepartureState.GONE]
