"""A mail is read once, whatever happens to the connection, the program or the mailbox; and nothing in it is touched."""

import asyncio
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner
from imapclient import IMAPClient

from bot.channels.email.account import account_of
from bot.channels.email.channel import Email
from bot.channels.email.letter import read_head
from bot.channels.email.mailbox import Mailbox
from bot.cli import tapeline
from bot.errors import ChannelError, MendError
from bot.message import Author
from bot.store.database import open_database
from bot.store.messages import original_of
from tests.bot.channels.email.running import WHOLE, MailShop, mail, mail_shop
from tests.doubles.mail_servers import PASSWORD, MailServers, mail_servers


def customers(shop: MailShop, *enquiries: int) -> list[str]:
    """The subjects of what customers wrote."""
    found = [one for enquiry in enquiries or (1,) for one in shop.messages(enquiry)]
    return [one.subject for one in found if one.author is Author.CUSTOMER]


def subjects(shop: MailShop) -> list[str]:
    with open_database(shop.folder) as database, database.read() as connection:
        rows = connection.exec_driver_sql("SELECT subject FROM message WHERE author = 'customer' ORDER BY id")
        return [subject for (subject,) in rows]


def cursor(shop: MailShop, folder: str = "INBOX") -> str:
    with open_database(shop.folder) as database, database.read() as connection:
        rows = connection.exec_driver_sql("SELECT value FROM cursor WHERE folder = ?", (folder,))
        return str(rows.scalar() or "")


def read_through(shop: MailShop, count: int, *, folder: str = "INBOX") -> None:
    """Wait until so many mails of a folder were dealt with."""
    shop.wait(lambda: int(cursor(shop, folder).partition(":")[2] or 0) >= count)


def test_nothing_in_the_mailbox_is_changed(shop: MailShop) -> None:
    before = mail(WHOLE)
    shop.receive(before)
    shop.draft("1.1")

    assert [b"\\Seen" in flags for flags in shop.servers.flags(shop.name)] == [False]
    assert len(shop.mails_of(shop.name)) == 1


def test_new_mail_is_told_at_once_by_the_server(shop: MailShop) -> None:
    shop.receive(mail(WHOLE, sender="one@customers.example"))
    shop.draft("1.1")
    began = datetime.now(UTC)

    shop.receive(mail(WHOLE, sender="two@customers.example"))
    shop.draft("2.1")

    assert datetime.now(UTC) - began < timedelta(seconds=4)  # it looks by itself after 5


def test_the_original_is_kept_as_it_came(shop: MailShop) -> None:
    sent = mail(WHOLE, X_Odd="  two  blanks")
    shop.receive(sent)
    shop.draft("1.1")

    with open_database(shop.folder) as database, database.read() as connection:
        original = original_of(connection, shop.messages()[0].id)

    assert original is not None
    assert original.rstrip().endswith(sent.as_bytes().rstrip())
    assert original.startswith(b"Return-Path: <ada@customers.example>")


def test_a_rebuilt_mailbox_is_read_again_and_nothing_twice(shop: MailShop) -> None:
    for number in range(3):
        shop.receive(mail(WHOLE, subject=f"no. {number}"))
    without_id = mail(WHOLE, subject="no. 3")
    del without_id["Message-ID"]
    shop.receive(without_id)
    shop.wait(lambda: len(subjects(shop)) == 4)
    before = cursor(shop)
    shop.stop()

    shop.servers.rebuild(shop.name)
    shop.receive(mail(WHOLE, subject="no. 4"))
    shop.start()
    shop.wait(lambda: len(subjects(shop)) == 5)
    read_through(shop, 5)

    assert sorted(subjects(shop)) == [f"no. {number}" for number in range(5)]
    assert cursor(shop).partition(":")[0] != before.partition(":")[0]


def test_a_mailbox_that_is_rebuilt_under_a_running_shop_is_read_on(shop: MailShop) -> None:
    shop.receive(mail(WHOLE, subject="before"))
    shop.draft("1.1")

    shop.servers.rebuild(shop.name)
    shop.receive(mail(WHOLE, subject="after", sender="bea@customers.example"))
    shop.draft("2.1")

    assert subjects(shop) == ["before", "after"]


def test_a_mail_that_is_moved_away_and_back_is_one(shop: MailShop) -> None:
    shop.receive(mail(WHOLE, subject="first"))
    shop.draft("1.1")
    with shop.servers.mailbox(shop.name) as imap:
        imap.create("Later")
        imap.copy("1", "Later")
        imap.store("1", "+FLAGS", "\\Deleted")
        imap.expunge()
        imap.select("Later")
        imap.copy("1", "INBOX")

    read_through(shop, 2)

    assert subjects(shop) == ["first"]


def test_a_mail_that_was_taken_for_junk_is_read_when_it_is_put_right(shop: MailShop) -> None:
    with shop.servers.mailbox(shop.name) as imap:
        imap.create("Junk")
        imap.append("Junk", None, None, mail(WHOLE, subject="no junk").as_bytes())
        imap.select("Junk")
        imap.copy("1", "INBOX")

    shop.draft("1.1")

    assert subjects(shop) == ["no junk"]


def test_several_folders_are_read_each_from_its_own_place(servers: MailServers, tmp_path: Path) -> None:
    with mail_shop(servers, tmp_path, folders=["INBOX", "Größen"], look_s=0.5) as shop:
        with servers.mailbox(shop.name) as imap:
            imap.create("Gr&APYA3w-en")
            imap.append("Gr&APYA3w-en", None, None, mail(WHOLE, subject="sorted").as_bytes())
        shop.start()
        shop.receive(mail(WHOLE, subject="unsorted", sender="bea@customers.example"))
        shop.wait(lambda: len(subjects(shop)) == 2)
        read_through(shop, 1, folder="Größen")

        assert sorted(subjects(shop)) == ["sorted", "unsorted"]


def test_two_mails_with_the_same_id_are_both_kept(shop: MailShop) -> None:
    for subject in ("one", "two"):
        shop.receive(mail(WHOLE, subject=subject, message_id="<always-the-same@customers.example>"))
    shop.receive(mail(WHOLE, subject="two", message_id="<other@customers.example>"))

    shop.wait(lambda: len(subjects(shop)) == 3)

    assert sorted(subjects(shop)) == ["one", "two", "two"]


def test_mail_without_an_id_is_known_by_what_it_says(shop: MailShop) -> None:
    without_id = mail(WHOLE, subject="once")
    del without_id["Message-ID"]
    shop.receive(without_id)
    shop.receive(without_id)
    read_through(shop, 2)

    assert subjects(shop) == ["once"]


def test_what_came_long_before_is_left_alone_however_the_mailbox_numbers_it(
    servers: MailServers, tmp_path: Path
) -> None:
    with mail_shop(servers, tmp_path, first_days=7) as shop:
        old = mail(WHOLE, subject="old")
        received = "from a.example by b.example; " + (datetime.now(UTC) - timedelta(days=30)).strftime(
            "%a, %d %b %Y %H:%M:%S +0000"
        )
        old["Received"] = received
        with servers.mailbox(shop.name) as imap:
            imap.append("INBOX", None, None, old.as_bytes())
        shop.receive(mail(WHOLE, subject="new"))
        shop.start()
        shop.draft("1.1")
        shop.stop()
        servers.rebuild(shop.name)
        shop.start()
        read_through(shop, 2)

        assert subjects(shop) == ["new"]


def test_two_hundred_mails_that_wait_at_the_start_are_all_read_once(servers: MailServers, tmp_path: Path) -> None:
    with mail_shop(servers, tmp_path, makers=[]) as shop:
        with servers.mailbox(shop.name) as imap:
            for number in range(200):
                message = mail(WHOLE, subject=f"{number}", sender=f"ada{number}@customers.example")
                imap.append("INBOX", None, None, message.as_bytes())
        shop.start()

        shop.wait(lambda: len(shop.waiting()) == 200, seconds=60)

        assert subjects(shop) == [str(number) for number in range(200)]


def test_a_server_that_goes_and_comes_back_loses_nothing(servers: MailServers, tmp_path: Path) -> None:
    with mail_servers() as own, mail_shop(own, tmp_path) as shop:
        ada = f"ada-{shop.name}@customers.example"
        shop.start()
        shop.receive(mail(WHOLE, subject="before", sender=ada))
        shop.draft("1.1")

        own.stop_dovecot()
        own.stop_exim()
        shop.approve("1.1")
        shop.wait(lambda: [one for one in shop.parts() if one.attempts >= 2])
        assert {one.state for one in shop.parts()} <= {"queued", "going"}
        own.start_dovecot()
        shop.receive(mail("And in green?", subject="after", sender="bea@customers.example"))
        own.start_exim()

        shop.mailed("No. ", to=ada)
        shop.wait(lambda: "after" in subjects(shop))
        assert len(shop.mails_of(ada)) == 1


def test_a_server_that_tells_nothing_by_itself_is_asked(tmp_path: Path) -> None:
    with mail_servers(idle=False) as own, mail_shop(own, tmp_path, look_s=0.3) as shop:
        shop.start()
        for number in (1, 2):
            shop.receive(mail(WHOLE, subject=f"{number}", sender=f"ada{number}@customers.example"))
            shop.draft(f"{number}.1")

        assert subjects(shop) == ["1", "2"]
        with shop.desk() as desk:
            account = account_of(desk.settings)
            assert account is not None
            assert "looked for every 0.3 s" in asyncio.run(Email(desk, account).check())


def test_of_a_mail_that_is_too_large_the_beginning_is_read(servers: MailServers, tmp_path: Path) -> None:
    with mail_shop(servers, tmp_path, largest_mb=2) as shop:
        large = mail(WHOLE, subject="large")
        large.add_attachment(bytes(3_000_000), maintype="image", subtype="jpeg", filename="huge.jpg")
        shop.receive(large)
        shop.start()
        shop.draft("1.1")
        (row,) = shop.messages()

        assert row.text.strip() == WHOLE.strip()
        assert row.files == (
            "huge.jpg (not fetched whole)",
            "(it has 4 MB; only its beginning was fetched, look in your mailbox)",
        )


ODD = [
    b"From: Ada <ada@customers.example>\r\nMessage-ID: <1@a.example>\r\nSubject: plain\r\n\r\n",
    b"From: (Ada) ada@customers.example\r\nMessage-ID:\r\n <2@a.example>\r\nSubject: two\r\n lines\r\n\r\n",
    b'From: "Example, Ada" <ada+dogs@customers.example>\r\nMessage-Id: <3.x_y-z@a.example>\r\nSubject: x\r\n\r\n',
    b"From: A <a@x.example>, B <b@y.example>\r\nMessage-ID: <4@a.example>\r\nIn-Reply-To: <1@a.example>\r\n\r\n",
    b"From: Group: ada@x.example;\r\nReply-To: <bea@y.example>\r\nMessage-ID: <5@a.example>\r\n\r\n",
]


def test_the_server_reads_the_same_in_the_headers(servers: MailServers) -> None:
    """Dovecot's own reading (ENVELOPE, RFC 3501 section 7.4.2) beside ours."""
    with servers.mailbox("envelopes") as imap:
        for raw in ODD:
            imap.append("INBOX", None, None, raw + b"x\r\n")
    account = MailShop(servers=servers, folder=Path(), name="envelopes")
    client = IMAPClient("localhost", servers.ports["imap"], ssl_context=servers.authority.trusting(), timeout=20)
    with client:
        client.login(account.address, PASSWORD)
        client.select_folder("INBOX", readonly=True)
        theirs = client.fetch(client.search(), ["ENVELOPE"])

    for number, raw in enumerate(ODD, start=1):
        envelope, ours = theirs[number][b"ENVELOPE"], read_head(raw)
        people = [one for one in envelope.reply_to or () if one.host]
        assert f"<{ours.message_id}>".encode() == envelope.message_id.strip()
        assert ours.subject.encode() == (envelope.subject or b"")
        assert ours.answer_to.encode() == people[0].mailbox + b"@" + people[0].host
        assert [f"<{one}>".encode() for one in ours.answers[:1]] == [(envelope.in_reply_to or b"").strip()] * bool(
            envelope.in_reply_to
        )


# Trouble with the account


@pytest.fixture
def account(servers: MailServers, tmp_path: Path) -> Iterator[MailShop]:
    """A shop that is not running."""
    with mail_shop(servers, tmp_path) as opened:
        yield opened


def check(shop: MailShop) -> str:
    """Try both servers without sending."""
    with shop.desk() as desk:
        found = account_of(desk.settings)
        assert found is not None
        return asyncio.run(Email(desk, found).check())


def test_a_sound_account_is_told_in_one_line(account: MailShop) -> None:
    account.receive(mail(WHOLE))

    assert check(account) == (
        f"{account.address}: mail can be read (INBOX with 1), new mail is told at once; mail can be sent; "
        "1 may decide by mail"
    )
    assert len(account.mails_of(account.name)) == 1


def test_the_command_tries_both_logins_and_sends_nothing(account: MailShop) -> None:
    run = ["check", "--connect", "--shop", str(account.folder)]
    sound = CliRunner().invoke(tapeline, run, standalone_mode=False)
    account.write_password("another-password")
    refused = CliRunner().invoke(tapeline, run, standalone_mode=False)

    assert "mail can be sent; 1 may decide by mail" in sound.output
    assert (sound.return_value, refused.return_value) == (0, 1)
    assert "does not take the name or the password" in refused.output
    assert "another-password" not in refused.output
    assert account.mails_of(account.maker) == account.mails_of(account.name) == []


def test_both_servers_may_turn_to_tls_after_a_beginning_in_the_clear(account: MailShop) -> None:
    ports = account.servers.ports
    account.write_settings(
        imap=f"localhost:{ports['imap_starttls']}",
        imap_starttls=True,
        smtp=f"localhost:{ports['submission']}",
        smtp_starttls=True,
    )

    assert "mail can be sent" in check(account)


def test_a_wrong_password_is_told_in_words_that_do_not_hold_it(account: MailShop) -> None:
    account.write_password("not-the-password")

    with pytest.raises(MendError, match="does not take the name or the password to read with") as raised:
        check(account)
    assert "not-the-password" not in str(raised.value)


def test_a_certificate_of_an_unknown_authority_is_refused_in_words(account: MailShop) -> None:
    account.write_settings(ca_file="")

    with pytest.raises(MendError, match=r"certificate that cannot be trusted .*email\.ca_file"):
        check(account)


def test_a_port_that_speaks_no_tls_is_told(account: MailShop) -> None:
    account.write_settings(imap=f"localhost:{account.servers.ports['imap_starttls']}")

    with pytest.raises(MendError, match=r"does not speak TLS as email\.imap_starttls says"):
        check(account)


def test_a_server_that_is_not_there_is_theirs_to_mend(account: MailShop) -> None:
    account.write_settings(imap="localhost:1")

    with pytest.raises(ChannelError, match=r"localhost:1 cannot be reached \(ConnectionRefusedError\)"):
        check(account)


def test_a_folder_that_is_not_there_is_told_with_those_that_are(account: MailShop) -> None:
    account.write_settings(folders=["Inbux"])

    with pytest.raises(MendError, match=r"there is no mail folder 'Inbux'; there are .*INBOX"):
        check(account)


def test_a_password_in_any_characters_is_taken_to_the_server_whole(account: MailShop) -> None:
    account.write_password('pä"ss\\wörd 🐕')

    with pytest.raises(MendError, match="does not take the name or the password"):
        check(account)


def test_a_connection_is_closed_politely_and_twice_is_no_fault(account: MailShop) -> None:
    with account.desk() as desk:
        found = account_of(desk.settings)
    assert found is not None
    box = Mailbox(found.imap)
    box.open()
    box.close()
    box.close()
    box.cut()

    with pytest.raises(ChannelError, match="is closed"):
        box.after(0)
