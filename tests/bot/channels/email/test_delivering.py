"""From approval to the customer's mailbox, with an SMTP server that answers as it likes."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from bot.channels.email import sending
from bot.channels.email.channel import Email
from bot.channels.email.dealing import Dealing
from bot.message import Author
from bot.states import DepartureState
from tests.bot.channels.email.running import WHOLE, MailShop, mail, mail_shop
from tests.doubles.mail_servers import MailServers
from tests.doubles.mail_smtp import DROP, ChosenAnswers, Step, chosen_answers


@contextmanager
def shop_before(servers: MailServers, folder: Path, **more: object) -> Iterator[tuple[MailShop, ChosenAnswers]]:
    """A running shop whose mails go to a server with chosen answers, and whose first draft waits."""
    with (
        chosen_answers(servers.authority) as smtp,
        mail_shop(servers, folder, smtp=f"localhost:{smtp.port}", makers=[], **more) as shop,
    ):
        shop.start()
        shop.receive(mail(WHOLE))
        shop.draft("1.1")
        yield shop, smtp


def test_what_is_not_taken_now_is_tried_again_until_it_is(servers: MailServers, tmp_path: Path) -> None:
    with shop_before(servers, tmp_path) as (shop, smtp):
        smtp.at(Step.RCPT, "451 greylisted", "451 greylisted")
        shop.approve("1.1")
        (part,) = shop.wait_for_state(DepartureState.GONE)

        assert part.attempts == 3
        assert [one["Message-ID"] for one in smtp.arrived] == [f"<{part.key}@workshop.example>"]


def test_what_is_never_taken_has_failed_with_the_servers_words(servers: MailServers, tmp_path: Path) -> None:
    with shop_before(servers, tmp_path) as (shop, smtp):
        smtp.at(Step.RCPT, "550 5.1.1 no such user")
        shop.approve("1.1")
        (part,) = shop.wait_for_state(DepartureState.FAILED)

        assert part.error == "the mail server says: 550 5.1.1 no such user"
        assert smtp.tried == 1


def test_a_cut_after_the_text_is_unsure_and_never_sent_again_by_itself(servers: MailServers, tmp_path: Path) -> None:
    with shop_before(servers, tmp_path) as (shop, smtp):
        smtp.at(Step.DATA, DROP)
        shop.approve("1.1")
        (part,) = shop.wait_for_state(DepartureState.UNSURE)
        shop.stop()
        shop.start()
        shop.receive(mail("How much is it?", sender="bea@customers.example"))
        shop.draft("2.1")

        assert smtp.tried == 1
        assert part.error is not None
        assert "did not say whether it took it" in part.error


def test_an_answer_to_a_text_of_which_nobody_knew_shows_that_it_went(servers: MailServers, tmp_path: Path) -> None:
    with shop_before(servers, tmp_path) as (shop, smtp):
        smtp.at(Step.DATA, DROP)
        shop.approve("1.1")
        (part,) = shop.wait_for_state(DepartureState.UNSURE)

        shop.receive(mail("Thank you! And in green?", answers=[f"<{part.key}@workshop.example>"]))
        shop.wait_for_state(DepartureState.GONE)
        shop.draft("1.2")

        assert [one.author for one in shop.messages()] == [Author.CUSTOMER, Author.TAPELINE, Author.CUSTOMER]


def test_a_text_that_the_server_kept_among_what_was_sent_is_known_to_have_gone(
    servers: MailServers, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Many servers put what they took into the folder of what was sent, also where their answer was lost."""
    with shop_before(servers, tmp_path, sent_folder="Sent") as (shop, smtp):
        send = sending.send

        async def kept_by_the_server(account: object, letter: object) -> None:
            with servers.mailbox(shop.name) as imap:
                imap.append("Sent", None, None, letter.raw)  # type: ignore[attr-defined]
            await send(account, letter)  # type: ignore[arg-type]

        monkeypatch.setattr("bot.channels.email.channel.send", kept_by_the_server)
        smtp.at(Step.DATA, DROP)
        shop.approve("1.1")
        (part,) = shop.wait_for_state(DepartureState.GONE)

        assert (part.attempts, smtp.tried) == (1, 1)


def test_a_mail_that_something_breaks_off_in_is_kept_and_the_next_one_is_read(
    shop: MailShop, monkeypatch: pytest.MonkeyPatch
) -> None:
    keep = Dealing._keep

    def breaks_off(self: Dealing, letter: object, *more: object) -> None:
        if b"stumble" in letter.raw:  # type: ignore[attr-defined]
            raise ZeroDivisionError
        keep(self, letter, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(Dealing, "_keep", breaks_off)
    shop.receive(mail("stumble"))
    shop.receive(mail(WHOLE, sender="bea@customers.example"))
    shop.draft("2.1")

    (kept,) = shop.messages(1)
    assert kept.files == ("(tapeline could not deal with this mail; it is in the original)",)
    assert {row.number for row in shop.waiting()} == {"1.1", "2.1"}


def test_nothing_of_an_account_is_needed_where_no_address_is_set(tmp_path: Path) -> None:
    from bot.channels.email.channel import open_channel
    from tests.fakes import shop_desk

    with shop_desk(tmp_path) as desk:
        assert open_channel(desk) is None


def test_an_address_without_a_password_or_with_a_bad_authority_is_told(servers: MailServers, tmp_path: Path) -> None:
    from bot.channels.email.channel import open_channel
    from bot.errors import SettingsError

    with mail_shop(servers, tmp_path) as shop:
        (tmp_path / "secrets" / "email_password").chmod(0o644)
        with shop.desk() as desk, pytest.raises(SettingsError, match="others can read it"):
            open_channel(desk)
        (tmp_path / "secrets" / "email_password").unlink()
        with shop.desk() as desk, pytest.raises(SettingsError, match=r"secrets/email_password: it is needed for size"):
            open_channel(desk)
        shop.write_settings()
        (tmp_path / "ca.pem").write_text("no certificate", encoding="utf-8")
        with shop.desk() as desk, pytest.raises(SettingsError, match=r"email\.ca_file is 'ca\.pem'"):
            open_channel(desk)
        shop.write_settings()
        with shop.desk() as desk:
            opened = open_channel(desk)
            assert opened is not None and isinstance(opened.customers, Email)
            assert opened.maker is not None
