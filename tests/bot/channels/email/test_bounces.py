"""A text that comes back finds its departure, and the maker is told; whatever else a server says changes nothing."""

import pytest

from bot.channels.email.bounces import Delayed, Returned, find_returned
from bot.channels.email.letter import read_letter
from bot.states import DepartureState
from tests.bot.channels.email.running import WHOLE, MailShop, mail, plain

KEY = "0123456789abcdef01234567"
OTHER = "ffffffffffffffffffffffff"


def report(
    *,
    action: str = "failed",
    more: str = "Status: 5.1.1\nDiagnostic-Code: smtp; 550 5.1.1 no such user here\n",
    returned: str = f"Message-ID: <{KEY}@workshop.example>\nReferences: <{OTHER}@workshop.example>\n",
    kind: str = "message/rfc822",
    sender: str = "MAILER-DAEMON@mx.example",
) -> bytes:
    """A report as RFC 3464 has it (the fields are its own; the figures are invented)."""
    return (
        f"Return-Path: <>\nFrom: {sender}\nTo: size@workshop.example\nSubject: Undelivered\nMIME-Version: 1.0\n"
        'Content-Type: multipart/report; report-type=delivery-status; boundary="b"\n\n'
        "--b\nContent-Type: text/plain\n\nYour mail could not be delivered.\n"
        "--b\nContent-Type: message/delivery-status\n\nReporting-MTA: dns; mx.example\n\n"
        f"Final-Recipient: rfc822; ada@customers.example\nAction: {action}\n{more}\n"
        f"--b\nContent-Type: {kind}\n\nFrom: size@workshop.example\n{returned}Subject: Re: Which?\n\nNo. 3\n--b--\n"
    ).encode()


def found(raw: bytes) -> Returned | Delayed | None:
    return find_returned(read_letter(raw), "workshop.example")


def test_the_report_of_a_failure_names_the_text_and_the_reason() -> None:
    assert found(report()) == Returned(key=KEY, why="550 5.1.1 no such user here")


def test_headers_alone_are_enough() -> None:
    assert found(report(kind="text/rfc822-headers")) == Returned(key=KEY, why="550 5.1.1 no such user here")


@pytest.mark.parametrize("action", ["delayed", "relayed", "delivered", "expanded"])
def test_a_report_of_anything_else_is_no_failure(action: str) -> None:
    assert found(report(action=action)) == Delayed(key=KEY)


def test_a_report_in_a_servers_own_words_is_known_by_the_headers_it_sends_back() -> None:
    raw = (
        "Return-Path: <>\nFrom: postmaster@mx.example\nSubject: failure notice\n\n"
        "Sorry, no mailbox here by that name.\n\n--- Below this line is a copy of the message.\n\n"
        f"From: size@workshop.example\nMessage-ID: <{KEY}@workshop.example>\n\nNo. 3\n"
    )

    assert found(raw.encode()) == Returned(key=KEY, why="a mail server sent it back")


def test_a_warning_in_a_servers_own_words_is_no_failure() -> None:
    raw = (
        "Return-Path: <>\nFrom: postmaster@mx.example\nSubject: Warning: message delayed 4 hours\n\n"
        f"Message-ID: <{KEY}@workshop.example>\n"
    )

    assert found(raw.encode()) == Delayed(key=KEY)


@pytest.mark.parametrize(
    "raw",
    [
        pytest.param(report(returned="Message-ID: <1.a@other.example>\n"), id="another's mail"),
        pytest.param(report(returned=f"Message-ID: <{KEY}@other.example>\n"), id="another domain"),
        pytest.param(report(returned=""), id="no id"),
        pytest.param(
            f"Return-Path: <a@b.example>\nFrom: a@b.example\n\nMessage-ID: <{KEY}@workshop.example>\n".encode(),
            id="a customer who quotes the headers",
        ),
    ],
)
def test_what_is_no_report_about_a_text_of_ours_is_none(raw: bytes) -> None:
    assert found(raw) is None


def test_a_reason_is_one_short_line_whatever_the_server_writes() -> None:
    noisy = found(report(more="Diagnostic-Code: smtp; 550 " + "no\n  such\n  user " * 100 + "\n"))

    assert isinstance(noisy, Returned)
    assert "\n" not in noisy.why
    assert len(noisy.why) <= 200


def test_a_real_bounce_finds_its_departure_and_is_shown(shop: MailShop) -> None:
    shop.receive(mail(WHOLE, sender="Ada <ada@gone.example>"))
    shop.decide(shop.mailed("1.1: an answer waits for you"), "approve")

    (part,) = shop.wait_for_state(DepartureState.FAILED)
    told = shop.mailed("could not be sent")

    assert part.error == "it came back: status 5.0.0"
    assert "reach the customer another way (it came back: status 5.0.0)." in plain(told)
    assert [one.number for one in shop.waiting()] == []


def test_a_forged_report_about_a_text_that_is_not_ours_changes_nothing(shop: MailShop) -> None:
    ada = f"ada-{shop.name}@customers.example"
    shop.receive(mail(WHOLE, sender=ada))
    shop.draft("1.1")
    shop.approve("1.1")
    shop.wait_for_state(DepartureState.GONE)

    shop.servers.put(shop.name, report(), sender="")
    shop.receive(mail("And in green?", sender=ada))
    shop.draft("1.2")

    assert [part.state for part in shop.parts()] == [DepartureState.GONE]
