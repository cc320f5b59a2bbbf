"""Whole enquiries over real mail servers: what a customer and a maker see, from the first mail to the answer."""

from pathlib import Path

import pytest

from bot.message import Author
from bot.states import DepartureState
from tests.bot.channels.email.running import FOUR, WHOLE, MailShop, answer_to, html, mail, mail_shop, plain
from tests.doubles.mail_servers import MailServers
from tests.doubles.telegram_api import TelegramApi
from tests.doubles.telegram_people import button


@pytest.fixture
def ada(shop: MailShop) -> str:
    """A customer's address, with a mailbox of her own."""
    return f"ada-{shop.name}@customers.example"


def test_a_whole_enquiry_is_decided_in_the_terminal(shop: MailShop, ada: str) -> None:
    first = shop.receive(mail(FOUR, sender=f"Ada <{ada}>"))
    shop.draft("1.1")
    shop.approve("1.1")
    question = shop.mailed("Only one is missing", to=ada)

    shop.send(answer_to(question, "The width is 4.75 inches.", sender=ada), sender=ada)
    shop.draft("1.2")
    shop.approve("1.2")
    answer = shop.mailed("No. ", to=ada)

    assert question["Subject"] == answer["Subject"] == "Re: Which size?"
    assert question["In-Reply-To"] == first
    assert first in answer["References"]
    assert question["From"] == f"Wil & Daughters <{shop.address}>"
    assert "harness" in plain(answer)
    assert len(shop.mails_of(ada)) == 2


def test_a_whole_enquiry_is_decided_by_mail(shop: MailShop, ada: str) -> None:
    shop.receive(mail(WHOLE, sender=ada))

    shown = shop.mailed("1.1: an answer waits for you")
    shop.decide(shown, "correct width 5")
    corrected = shop.mailed("1.2: an answer waits for you")
    shop.decide(corrected, "Approve\n\nWil")
    answer = shop.mailed("No. ", to=ada)

    assert "width: 5 in (you set it)" in plain(corrected)
    assert "harness" in plain(answer)
    shop.mailed("1.2 is approved.")
    assert len(shop.mails_of(ada)) == 1
    assert "<b>" in html(shown)


def test_a_whole_enquiry_is_decided_in_telegram(servers: MailServers, tmp_path: Path) -> None:
    with TelegramApi() as api:
        wil = api.person("Wil")
        api.write(wil, "/start")
        (tmp_path / "secrets").mkdir()
        (tmp_path / "secrets" / "telegram_token").write_text(api.token, encoding="utf-8")
        (tmp_path / "secrets" / "telegram_token").chmod(0o600)
        telegram = f'[telegram]\nmakers = [{wil.id}]\nserver = "{api.base}"\n'
        with mail_shop(servers, tmp_path, telegram, makers=[]) as shop:
            shop.start()
            ada = f"ada-{shop.name}@customers.example"
            shop.receive(mail(WHOLE, sender=f"Ada <{ada}>"))

            def shown() -> dict[str, object] | None:
                waits = [one for one in api.chat(wil) if "reply_markup" in one]
                return waits[-1] if waits else None

            draft = api.wait_until(shown, timeout_s=20)
            assert draft is not None
            api.press(wil, int(str(draft["message_id"])), button(draft, "Approve"))
            answer = shop.mailed("No. ", to=ada)

        assert "from Ada (email)" in str(draft["text"])
        assert answer["Subject"] == "Re: Which size?"
        assert api.faults == []


def test_a_restart_in_the_middle_loses_nothing_and_sends_nothing_twice(shop: MailShop, ada: str) -> None:
    shop.receive(mail(FOUR, sender=ada))
    shown = shop.mailed("1.1: a question waits for you")
    shop.stop()
    shop.decide(shown, "approve")
    shop.start()
    question = shop.mailed("Only one is missing", to=ada)
    shop.stop()
    shop.receive(answer_to(question, "The width is 4.75 inches.", sender=ada))
    shop.start()

    shop.decide(shop.mailed("1.2: an answer waits for you"), "approve")
    shop.mailed("No. ", to=ada)
    shop.wait_for_state(DepartureState.GONE, count=2)

    assert len(shop.mails_of(ada)) == 2
    assert len([one for one in shop.messages() if one.author is Author.CUSTOMER]) == 2


def test_a_changed_text_goes_out_word_for_word_and_never_as_markup_or_header(shop: MailShop, ada: str) -> None:
    shop.receive(mail(WHOLE, sender=ada, subject="Which size?"))
    text = "Dear Ada,\n\n<b>13</b> & {{ 7 * 7 }}\nBcc: everybody@example.org\n.\n\nWarm wishes,\nWil"
    shop.decide(shop.mailed("1.1: an answer waits for you"), text)
    shop.decide(shop.mailed("1.2: an answer waits for you"), "approve")
    shop.decide(shop.mailed("1.2 lacks something"), "approve")

    answer = shop.mailed("Dear Ada", to=ada)

    assert plain(answer).strip() == text
    assert "&lt;b&gt;13&lt;/b&gt; &amp; {{ 7 * 7 }}<br>" in html(answer)
    assert answer["Bcc"] is None


def test_an_answer_between_the_lines_of_the_last_mail_is_read(shop: MailShop, ada: str) -> None:
    shop.receive(mail("Which size for my dog Pickle? She weighs 15 lb.", sender=ada))
    shop.draft("1.1")
    shop.approve("1.1")
    question = shop.mailed("Throat height", to=ada)
    measures = {"Length": "13 in", "Height": "12 in", "Width": "4.75 in", "Throat height": "8.75 in"}
    lines = []
    for line in plain(question).splitlines():
        lines.append(f"> {line}")
        lines += [value for name, value in measures.items() if line.startswith(name)]
    answered = mail(
        "\n".join(lines), sender=ada, subject=f"Re: {question['Subject']}", answers=[question["Message-ID"]]
    )

    shop.receive(answered)
    shown = plain(shop.mailed("1.2: an answer waits for you"))

    for said in ("back length: 13 in", "shoulder height: 12 in", "width: 4 3/4 in", "throat height: 8 3/4 in"):
        assert said in shown


def test_a_picture_goes_with_its_draft_and_stays_in_the_store(shop: MailShop, ada: str) -> None:
    message = mail(WHOLE, sender=ada)
    message.add_attachment(b"\xff\xd8 a picture", maintype="image", subtype="jpeg", filename="../../Pickle.jpg")
    message.add_attachment(b"MZ", maintype="application", subtype="octet-stream", filename="measures.exe")
    shop.receive(message)

    shown = shop.mailed("1.1: an answer waits for you")

    files = {part.get_filename(): part.get_payload(decode=True) for part in shown.walk() if part.get_filename()}
    assert files == {"Pickle.jpg": b"\xff\xd8 a picture"}
    assert "Came with it: measures.exe" in plain(shown)


def test_what_the_maker_writes_by_hand_replaces_the_draft(servers: MailServers, tmp_path: Path) -> None:
    with mail_shop(servers, tmp_path, sent_folder="Sent", look_s=0.3) as shop:
        ada = f"ada-{shop.name}@customers.example"
        shop.start()
        asked = shop.receive(mail(WHOLE, sender=ada))
        shop.draft("1.1")

        by_hand = mail("Hello Ada, come by on Monday.", sender=shop.address, to=ada, answers=[asked])
        with servers.mailbox(shop.name) as imap:
            imap.append("Sent", None, None, by_hand.as_bytes())
        shop.wait(lambda: not shop.waiting())

        assert [one.author for one in shop.messages()] == [Author.CUSTOMER, Author.MAKER]


def test_a_copy_of_what_went_out_is_put_among_what_was_sent(servers: MailServers, tmp_path: Path) -> None:
    with mail_shop(servers, tmp_path, sent_folder="Sent", look_s=0.5) as shop:
        ada = f"ada-{shop.name}@customers.example"
        shop.start()
        shop.receive(mail(WHOLE, sender=ada))
        shop.draft("1.1")
        shop.approve("1.1")

        copy = shop.wait(lambda: servers.mails(shop.name, "Sent"))[0]
        shop.receive(mail("And is it green?", sender=ada))
        shop.draft("1.2")

        assert copy["Message-ID"] == shop.mailed("No. ", to=ada)["Message-ID"]
        assert len(servers.mails(shop.name, "Sent")) == 1
        assert [one.author for one in shop.messages()] == [Author.CUSTOMER, Author.TAPELINE, Author.CUSTOMER]
