"""The mail account of a shop: where mail is read and sent, with which certificates and which password."""

import ssl
from dataclasses import dataclass, field

from pydantic import SecretStr

from bot.errors import Fault, SettingsError
from bot.sections import Mail
from bot.settings import FILE_NAME, SECRETS, Settings, read_secret

PASSWORD = "email_password"  # noqa: S105 - the name of the file that holds it
SMTP_PASSWORD = "email_smtp_password"  # noqa: S105


@dataclass(frozen=True, slots=True, kw_only=True)
class Server:
    """One of the two servers.

    starttls   the connection begins in the clear and must turn to TLS
    context    which certificates are trusted; those of others are refused
    """

    host: str
    port: int
    starttls: bool
    user: str = field(repr=False)
    password: SecretStr
    context: ssl.SSLContext = field(repr=False)

    def __str__(self) -> str:
        return f"{self.host}:{self.port}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """A mail account.

    name   that customers see beside the address; "": none
    """

    address: str
    name: str
    imap: Server
    smtp: Server

    @property
    def domain(self) -> str:
        """Give what stands behind the @, as it is written in headers and message ids."""
        return ascii_domain(self.address.rpartition("@")[2])


def ascii_domain(domain: str) -> str:
    """Give a domain in the characters that every mail server takes."""
    try:
        return domain if domain.isascii() else domain.encode("idna").decode("ascii")
    except UnicodeError:
        return domain


def account_of(settings: Settings) -> Account | None:
    """Give the account that the settings name; None: they name none.

    Raises   SettingsError for a password that is missing or that others can read, or certificates that cannot be used
    """
    own = settings.own.email
    if not own.address:
        return None
    password = read_secret(settings.folder, PASSWORD)
    if password is None:
        remedy = f"it is needed for {own.address}: put the password into it, readable by you alone"
        raise SettingsError([Fault(file=f"{SECRETS}/{PASSWORD}", key="", given=None, remedy=remedy)])
    context = _context(settings, own)
    user = own.user or own.address
    return Account(
        address=own.address,
        name=settings.own.maker.workshop or settings.own.maker.name,
        imap=_server(own.imap, starttls=own.imap_starttls, user=user, password=password, context=context),
        smtp=_server(
            own.smtp,
            starttls=own.smtp_starttls,
            user=own.smtp_user or user,
            password=read_secret(settings.folder, SMTP_PASSWORD) or password,
            context=context,
        ),
    )


def _server(named: str, *, starttls: bool, user: str, password: SecretStr, context: ssl.SSLContext) -> Server:
    host, _, port = named.rpartition(":")
    return Server(
        host=host.strip("[]"), port=int(port), starttls=starttls, user=user, password=password, context=context
    )


def _context(settings: Settings, own: Mail) -> ssl.SSLContext:
    context = ssl.create_default_context()
    if own.ca_file:
        try:
            context.load_verify_locations(cafile=settings.folder / own.ca_file)
        except (OSError, ssl.SSLError) as error:
            why = error.strerror if isinstance(error, OSError) and error.strerror else "it holds no certificate"
            remedy = f"the certificates in it cannot be used ({why}); it must be a file in PEM form"
            raise SettingsError(
                [Fault(file=FILE_NAME, key="email.ca_file", given=repr(own.ca_file), remedy=remedy)]
            ) from error
    return context
