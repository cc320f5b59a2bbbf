"""A mail goes once, and whatever goes wrong says what became of it."""

import asyncio
import logging
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from pydantic import SecretStr

from bot.channels.email import sending
from bot.channels.email.account import Account, Server
from bot.channels.email.compose import customer_mail
from bot.channels.email.sending import send, try_login
from bot.errors import BotError, MendError, NotGoneError, RefusedError, UnsureError
from bot.message import ChannelName, Outgoing
from tests.doubles.mail_servers import PASSWORD, Authority, free_port
from tests.doubles.mail_smtp import DROP, HANG, ChosenAnswers, Step, chosen_answers

TEXT = Outgoing(
    channel=ChannelName.EMAIL,
    account="",
    address="ada@customers.example",
    text="No. 3 it is.",
    key="0123456789abcdef01234567",
    subject="Which size?",
)


@pytest.fixture(scope="module")
def authority(tmp_path_factory: pytest.TempPathFactory) -> Authority:
    made = Authority(tmp_path_factory.mktemp("authority"))
    made.write()
    return made


@pytest.fixture
def server(authority: Authority) -> Iterator[ChosenAnswers]:
    with chosen_answers(authority) as running:
        yield running


def account(authority: Authority, port: int, *, starttls: bool = False, password: str = PASSWORD) -> Account:
    one = Server(
        host="localhost",
        port=port,
        starttls=starttls,
        user="size@workshop.example",
        password=SecretStr(password),
        context=authority.trusting(),
    )
    return Account(address="size@workshop.example", name="Wil", imap=one, smtp=one)


def outcome(whose: Account) -> BotError | None:
    """Send, and give what was raised."""
    try:
        asyncio.run(send(whose, customer_mail(whose, TEXT, at=datetime.now(UTC))))
    except BotError as error:
        return error
    return None


def test_a_mail_arrives_once_under_the_id_that_was_chosen_before(authority: Authority, server: ChosenAnswers) -> None:
    assert outcome(account(authority, server.port)) is None

    assert [one["Message-ID"] for one in server.arrived] == ["<0123456789abcdef01234567@workshop.example>"]


ANSWERS = [
    pytest.param(Step.MAIL, "451 greylisted, come back", NotGoneError, id="later, at the sender"),
    pytest.param(Step.MAIL, "550 we do not know you", RefusedError, id="never, at the sender"),
    pytest.param(Step.RCPT, "450 mailbox busy", NotGoneError, id="later, at the recipient"),
    pytest.param(Step.RCPT, "550 no such user", RefusedError, id="never, at the recipient"),
    pytest.param(Step.DATA, "451 no room", NotGoneError, id="later, after the text"),
    pytest.param(Step.DATA, "421 closing", NotGoneError, id="closing, after the text"),
    pytest.param(Step.DATA, "554 looks like spam", RefusedError, id="never, after the text"),
    pytest.param(Step.MAIL, DROP, NotGoneError, id="cut at the sender"),
    pytest.param(Step.RCPT, DROP, NotGoneError, id="cut at the recipient"),
    pytest.param(Step.DATA, DROP, UnsureError, id="cut after the text"),
    pytest.param(Step.DATA, HANG, UnsureError, id="silence after the text"),
    pytest.param(Step.LOGIN, "454 4.7.0 temporary trouble", NotGoneError, id="no login now"),
    pytest.param(Step.LOGIN, "535 5.7.8 wrong", NotGoneError, id="no login"),
]


@pytest.mark.parametrize(("step", "answer", "kind"), ANSWERS)
def test_what_the_server_says_decides_what_became_of_the_text(
    authority: Authority,
    server: ChosenAnswers,
    monkeypatch: pytest.MonkeyPatch,
    step: Step,
    answer: str,
    kind: type[BotError],
) -> None:
    monkeypatch.setattr(sending, "ANSWER_S", 0.5)
    # A refused login is tried again in each way that the server offers.
    server.at(step, *[answer] * (3 if step is Step.LOGIN else 1))

    error = outcome(account(authority, server.port))

    assert type(error) is kind
    assert server.arrived == []
    if answer[:3].isdigit():
        assert answer[:3] in str(error)


def test_the_next_try_after_a_refusal_for_the_moment_goes(authority: Authority, server: ChosenAnswers) -> None:
    server.at(Step.RCPT, "451 greylisted")
    whose = account(authority, server.port)
    outcome(whose)

    assert outcome(whose) is None
    assert len(server.arrived) == 1


def test_a_server_that_is_not_there_surely_took_nothing(authority: Authority) -> None:
    assert type(outcome(account(authority, free_port()))) is NotGoneError


def test_tls_may_come_after_a_beginning_in_the_clear(authority: Authority) -> None:
    with chosen_answers(authority, starttls=True) as server:
        assert outcome(account(authority, server.port, starttls=True)) is None
        assert len(server.arrived) == 1


@pytest.mark.parametrize("starttls", [True, False])
def test_a_server_without_tls_gets_neither_password_nor_text(authority: Authority, starttls: bool) -> None:
    with chosen_answers(authority, tls=False) as server:
        whose = account(authority, server.port, starttls=starttls)

        with pytest.raises(MendError, match="TLS"):
            asyncio.run(try_login(whose))
        assert type(outcome(whose)) is NotGoneError
        assert server.tried == 0


def test_a_certificate_of_another_authority_is_refused_in_words(tmp_path: Path, server: ChosenAnswers) -> None:
    other = Authority(tmp_path)
    other.write()

    with pytest.raises(MendError, match=r"certificate that cannot be trusted .*email\.ca_file"):
        asyncio.run(try_login(account(other, server.port)))
    assert type(outcome(account(other, server.port))) is NotGoneError
    assert server.tried == 0


def test_a_certificate_for_another_name_is_refused(tmp_path: Path) -> None:
    other = Authority(tmp_path)
    other.write("mail.workshop.example")

    with chosen_answers(other) as server, pytest.raises(MendError, match="localhost"):
        asyncio.run(try_login(account(other, server.port)))


def test_a_wrong_password_is_refused_in_words(authority: Authority, server: ChosenAnswers) -> None:
    with pytest.raises(MendError, match="does not take the name or the password to send with"):
        asyncio.run(try_login(account(authority, server.port, password="another")))


def test_a_login_is_tried_without_sending(authority: Authority, server: ChosenAnswers) -> None:
    asyncio.run(try_login(account(authority, server.port)))

    assert server.tried == 0


def test_the_password_is_in_no_log_error_or_repr(
    authority: Authority, server: ChosenAnswers, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG, logger="aiosmtplib")
    secret = "päss wörd % with {odd} signs"
    whose = account(authority, server.port, password=secret)

    error = outcome(whose)

    assert type(error) is NotGoneError
    told = f"{error!r} {error} {whose!r} {whose.smtp!r} {whose.smtp}"
    ours = [record.getMessage() for record in caplog.records if not record.name.startswith("mail.log")]
    for hidden in (secret, "wörd", PASSWORD):
        assert hidden not in told + "".join(ours)


def test_a_send_that_is_cancelled_ends_at_once(authority: Authority, server: ChosenAnswers) -> None:
    server.at(Step.DATA, HANG)
    whose = account(authority, server.port)

    async def go() -> None:
        task = asyncio.create_task(send(whose, customer_mail(whose, TEXT, at=datetime.now(UTC))))
        await asyncio.sleep(0.3)
        assert server.tried == 1
        task.cancel()
        await asyncio.wait([task])

    began = time.monotonic()
    asyncio.run(go())

    assert time.monotonic() - began < 5
