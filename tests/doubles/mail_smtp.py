"""An SMTP server on 127.0.0.1 that answers as a test wishes: refusals at any step, silence, a connection that drops."""

import asyncio
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from email.message import Message
from email.parser import BytesParser
from enum import StrEnum

from aiosmtpd.smtp import SMTP, AuthResult, Envelope, LoginPassword, Session

from tests.doubles.mail_servers import PASSWORD, Authority, free_port


class Step(StrEnum):
    """Where something happens in the sending of a mail."""

    LOGIN = "login"
    MAIL = "mail"
    RCPT = "rcpt"
    DATA = "data"
    """The mail was handed over whole."""


DROP = "drop"
"""The connection drops instead of an answer."""
HANG = "hang"
"""No answer comes."""


@dataclass
class ChosenAnswers:
    """What the server answers, and what it got.

    then   at each step, the answers to the next mails, one after another: "451 not now", DROP, HANG; else all is well
    """

    port: int
    then: dict[Step, list[str]] = field(default_factory=dict)
    arrived: list[Message] = field(default_factory=list)
    tried: int = 0

    def at(self, step: Step, *answers: str) -> None:
        """Let the next mails be answered so at a step."""
        self.then.setdefault(step, []).extend(answers)

    async def handle_MAIL(  # noqa: N802
        self, server: SMTP, session: Session, envelope: Envelope, address: str, options: list[str]
    ) -> str:
        self.tried += 1
        answer = await self._answer(server, Step.MAIL)
        if answer is None:
            envelope.mail_from = address
            envelope.mail_options.extend(options)
        return answer or "250 OK"

    async def handle_RCPT(  # noqa: N802
        self, server: SMTP, session: Session, envelope: Envelope, address: str, options: list[str]
    ) -> str:
        answer = await self._answer(server, Step.RCPT)
        if answer is None:
            envelope.rcpt_tos.append(address)
        return answer or "250 OK"

    async def handle_DATA(self, server: SMTP, session: Session, envelope: Envelope) -> str:  # noqa: N802
        answer = await self._answer(server, Step.DATA)
        if answer is None:
            assert isinstance(envelope.content, bytes)
            self.arrived.append(BytesParser().parsebytes(envelope.content))
        return answer or "250 OK"

    async def _answer(self, server: SMTP, step: Step) -> str | None:
        answers = self.then.get(step, [])
        answer = answers.pop(0) if answers else None
        if answer == HANG:
            await asyncio.sleep(30)
        if answer in (DROP, HANG):
            assert server.transport is not None
            server.transport.abort()
            return "421 gone"
        return answer

    def authenticate(
        self, server: SMTP, session: Session, envelope: Envelope, mechanism: str, data: object
    ) -> AuthResult:
        """Take the one password, unless something else was chosen."""
        answers = self.then.get(Step.LOGIN, [])
        if answers:
            return AuthResult(success=False, handled=False, message=answers.pop(0))
        sound = isinstance(data, LoginPassword) and data.password == PASSWORD.encode()
        return AuthResult(success=sound, handled=False)


@contextmanager
def chosen_answers(authority: Authority, *, starttls: bool = False, tls: bool = True) -> Iterator[ChosenAnswers]:
    """Serve on a free port, with TLS from the first byte or after STARTTLS, or with none at all."""
    server = ChosenAnswers(port=free_port())
    loop = asyncio.new_event_loop()
    connections: list[SMTP] = []

    def connection() -> SMTP:
        made = SMTP(
            server,
            hostname="chosen.example",
            loop=loop,
            authenticator=server.authenticate,
            auth_required=starttls,  # the library warns of passwords in the clear: it does not see the TLS around it
            auth_require_tls=starttls,
            tls_context=authority.serving() if starttls else None,
            require_starttls=starttls,
        )
        connections.append(made)
        return made

    async def stop(listening: asyncio.Server) -> None:
        listening.close()
        for one in connections:
            for transport in (one.transport, getattr(one, "_original_transport", None)):  # with TLS inside the other
                if transport is not None:
                    transport.abort()
        others = asyncio.all_tasks() - {asyncio.current_task()}
        for task in others:
            task.cancel()
        await asyncio.gather(*others, return_exceptions=True)
        await asyncio.sleep(0.02)  # connections that are closing come to their end

    at_once = authority.serving() if tls and not starttls else None
    thread = threading.Thread(target=loop.run_forever, name="chosen-answers", daemon=True)
    thread.start()
    made = loop.create_server(connection, "127.0.0.1", server.port, ssl=at_once)
    listening = asyncio.run_coroutine_threadsafe(made, loop).result(timeout=20)
    try:
        yield server
    finally:
        asyncio.run_coroutine_threadsafe(stop(listening), loop).result(timeout=20)
        loop.call_soon_threadsafe(loop.stop)
        thread.join()
        loop.close()
