"""Hands a mail to the SMTP server, and tells failures by what became of the mail.

aiosmtplib, not smtplib in a thread: a send that is cancelled ends at once, and a server that hangs holds none of the
few threads that the store needs.
"""

import asyncio
import contextlib
import logging
import ssl
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from aiosmtplib import (
    SMTP,
    SMTPAuthenticationError,
    SMTPException,
    SMTPResponseException,
    SMTPServerDisconnected,
    SMTPTimeoutError,
)

from bot.channels.email.account import Account, Server
from bot.channels.email.compose import Mail
from bot.channels.email.headers import one_line
from bot.errors import ChannelError, MendError, NotGoneError, RefusedError, UnsureError

CONNECT_S = 20.0
ANSWER_S = 60.0
_LONGEST_SAID = 200


async def send(account: Account, mail: Mail) -> None:
    """Send a mail, once. Each goes over a connection of its own.

    Raises   NotGoneError: it has surely not gone; RefusedError: the server will never take it; UnsureError: the
             connection was lost after the server was handed the mail. No message of theirs holds the password
    """
    try:
        async with _logged_in(account) as client:
            await _envelope(client, account, mail)
            await _hand_over(client, mail)
    except (ChannelError, MendError) as error:
        if isinstance(error, NotGoneError | RefusedError | UnsureError):
            raise
        raise NotGoneError(str(error)) from None


async def try_login(account: Account) -> None:
    """Log in and send nothing.

    Raises   MendError, ChannelError
    """
    async with _logged_in(account):
        pass


@asynccontextmanager
async def _logged_in(account: Account) -> AsyncIterator[SMTP]:
    """Open a connection on which a mail may be sent.

    Raises   MendError: certificate, name or password; ChannelError: no connection
    """
    logging.getLogger("aiosmtplib").setLevel(logging.CRITICAL + 1)
    server = account.smtp
    client = SMTP(
        hostname=server.host,
        port=server.port,
        local_hostname=account.domain,
        timeout=CONNECT_S,
        use_tls=not server.starttls,
        start_tls=False,
        tls_context=server.context,
    )
    transport: asyncio.BaseTransport | None = None
    try:
        try:
            await _connect(client, server)
        finally:
            transport = client.transport  # the library forgets it when it says goodbye
        yield client
        with contextlib.suppress(SMTPException, OSError):
            await client.quit()
    finally:
        client.close()
        if isinstance(transport, asyncio.WriteTransport):
            transport.abort()  # a polite end of TLS would wait for a server that may have gone silent
        await asyncio.sleep(0)


async def _connect(client: SMTP, server: Server) -> None:
    try:
        await client.connect()
        await client.ehlo()
        if server.starttls:
            _refuse_without(client, "starttls", server)
            await client.starttls(tls_context=server.context)
            await client.ehlo()
        _refuse_without(client, "auth", server)
        await client.login(server.user, server.password.get_secret_value())
    except (SMTPException, OSError, ValueError) as error:
        raise _in_words(error, server) from None


def _refuse_without(client: SMTP, offer: str, server: Server) -> None:
    if not client.supports_extension(offer):
        what = "TLS" if offer == "starttls" else "login"
        raise MendError(f"{server} offers no {what} on this port; look at email.smtp and smtp_starttls")


def _in_words(error: BaseException, server: Server) -> ChannelError | MendError:
    """Say what is wrong before anything was sent, and whose turn it is."""
    distrust = _in_chain(error, ssl.SSLCertVerificationError)
    if isinstance(distrust, ssl.SSLCertVerificationError):
        return MendError(untrusted(server, distrust))
    if _in_chain(error, ssl.SSLError):
        return MendError(f"{server} does not speak TLS as email.smtp_starttls says; look at the port, too")
    if isinstance(error, SMTPAuthenticationError) and error.code >= 500:
        return MendError(f"{server} does not take the name or the password to send with: {said(error)}")
    if isinstance(error, SMTPResponseException):
        return ChannelError(f"{server} does not take mail now: {said(error)}")
    return ChannelError(f"{server} cannot be reached ({type(error.__cause__ or error).__name__})")


def untrusted(server: Server, error: ssl.SSLCertVerificationError) -> str:
    """Say why a server's certificate is not trusted."""
    return (
        f"{server} shows a certificate that cannot be trusted ({error.verify_message}). If it is your own authority's, "
        "name that in email.ca_file; else something stands between you and the server"
    )


def _in_chain(error: BaseException | None, kind: type[BaseException]) -> BaseException | None:
    while error is not None and not isinstance(error, kind):
        error = error.__cause__ or error.__context__
    return error


async def _envelope(client: SMTP, account: Account, mail: Mail) -> None:
    """Say whose mail it is and whom it goes to."""
    options = ["SMTPUTF8"] if mail.wide else []
    if mail.wide and not client.supports_extension("smtputf8"):
        raise RefusedError(f"{account.smtp} takes no addresses with such characters")
    try:
        await client.mail(account.address, options=options, timeout=ANSWER_S)
        await client.rcpt(mail.recipient, timeout=ANSWER_S)
    except SMTPResponseException as error:
        raise _told_apart(error) from None
    except (SMTPException, OSError, ValueError) as error:
        raise NotGoneError(f"the connection to {account.smtp} was lost ({type(error).__name__})") from None


async def _hand_over(client: SMTP, mail: Mail) -> None:
    try:
        await client.data(mail.raw, timeout=ANSWER_S)
    except SMTPResponseException as error:
        raise _told_apart(error) from None
    except (SMTPServerDisconnected, SMTPTimeoutError, OSError) as error:
        told = f"the mail server was handed the text and did not say whether it took it ({type(error).__name__})"
        raise UnsureError(told) from None


def _told_apart(error: SMTPResponseException) -> NotGoneError | RefusedError | UnsureError:
    """An answer of 4xx says: not now; one of 5xx: never. Source: RFC 5321, section 4.2.1."""
    if 400 <= error.code < 500:
        return NotGoneError(f"the mail server says: {said(error)}")
    if error.code >= 500:
        return RefusedError(f"the mail server says: {said(error)}")
    return UnsureError(f"the mail server says: {said(error)}")


def said(error: SMTPResponseException) -> str:
    """Give a server's answer in one line."""
    return f"{error.code} {one_line(error.message)}"[:_LONGEST_SAID]
