"""The sections of shop.toml that the bot goes by; what sizing goes by is in sizing/chart.py."""

import re
from datetime import time
from typing import Annotated

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationInfo,
    field_validator,
    model_validator,
)
from pydantic_core import PydanticCustomError

from bot.time_zones import is_zone, meant

_PRINTED = r"^[^\x00-\x1f\x7f]*$"


class Section(BaseModel):
    """What all sections share: they cannot be changed and know no other settings."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False, defer_build=True)


def _plain_path(value: object) -> object:
    """A file of the shop lies in its folder: a setting is no way out of it."""
    if isinstance(value, str) and (value.startswith(("/", "\\", "~")) or ".." in value or ":" in value or not value):
        raise PydanticCustomError("outside", "the name of a file or folder within the shop's own folder")
    return value


Line = Annotated[str, Field(max_length=200, pattern=_PRINTED)]
Inside = Annotated[str, Field(max_length=200, pattern=_PRINTED), BeforeValidator(_plain_path)]


class Maker(Section):
    """Who answers, and how she signs."""

    name: Annotated[Line, Field(description="a name in quotes")] = ""
    workshop: Annotated[Line, Field(description="the workshop's name in quotes")] = ""
    greeting: Annotated[Line, Field(description="the word that opens a text, in quotes")] = "Hello"
    farewell: Annotated[Line, Field(description="the line above the name, in quotes")] = "Warm wishes,"


class Messages(Section):
    """How messages become enquiries."""

    settle_s: Annotated[float, Field(ge=0, le=3600, description="seconds, 0 to 3600")] = 45
    quiet_days: Annotated[int, Field(ge=1, le=365, description="whole days, 1 to 365")] = 14
    reopen_days: Annotated[int, Field(ge=1, le=3650, description="whole days, 1 to 3650")] = 60
    quiet_hours: Annotated[str, Field(description='two times of day in quotes, such as "21:00-08:00", or ""')] = (
        "21:00-08:00"
    )

    @field_validator("quiet_hours")
    @classmethod
    def _is_two_times(cls, value: str) -> str:
        _between(value)
        return value

    @property
    def between(self) -> tuple[time, time] | None:
        """Give from when until when; None: no hours are quiet."""
        return _between(self.quiet_hours)


def _between(value: str) -> tuple[time, time] | None:
    if not value.strip():
        return None
    try:
        start, end = (time.fromisoformat(part.strip()) for part in value.split("-"))
    except ValueError:
        raise PydanticCustomError("hours", 'two times of day in quotes, such as "21:00-08:00"') from None
    if start == end or start.tzinfo or end.tzinfo:
        raise PydanticCustomError("hours", "two different times of day, without a zone")
    return start, end


class Files(Section):
    """Where the maker's own wording and words lie, within the shop's folder."""

    wording: Annotated[Inside, Field(description="a folder within the shop's own folder")] = "wording"
    words: Annotated[Inside, Field(description="a file within the shop's own folder")] = "words.toml"


class Chat(Section):
    """A channel on which questions may go out by themselves.

    makers   the accounts that may decide, as the channel numbers them; (): nobody
    """

    questions_by_themselves: Annotated[bool, Field(description="true or false, without quotes")] = False
    makers: Annotated[tuple[int, ...], Field(strict=False, description="account numbers, such as [12345678]")] = ()


def _listens(value: str) -> str:
    host, colon, port = value.rpartition(":")
    if not (host and colon and port.isascii() and port.isdigit() and 0 < int(port) < 65536):
        raise PydanticCustomError("listen", 'an address of this machine and a port, such as "127.0.0.1:8443"')
    return value


def _is_address(value: str) -> str:
    if re.fullmatch(r"https?://[^\s/?#]+[^\s?#]*", value) is None:
        raise PydanticCustomError("address", "an address that begins with https://")
    return value


def _is_address_or_none(value: str) -> str:
    return _is_address(value) if value else value


class Telegram(Chat):
    """Telegram.

    server    the Bot API server; people run it themselves, too
    webhook   the address under which the server reaches `listen`; "": messages are asked for instead
    listen    where this machine listens for the webhook
    """

    server: Annotated[
        Line, AfterValidator(_is_address), Field(description='an address, such as "https://api.telegram.org"')
    ] = "https://api.telegram.org"
    webhook: Annotated[
        Line, AfterValidator(_is_address_or_none), Field(description='an address that begins with https://, or ""')
    ] = ""
    listen: Annotated[str, AfterValidator(_listens), Field(description='such as "127.0.0.1:8443"')] = "127.0.0.1:8443"

    @property
    def listens(self) -> tuple[str, int]:
        """Give host and port of `listen`."""
        host, _, port = self.listen.rpartition(":")
        return host, int(port)


def _is_gateway(value: str) -> str:
    if re.fullmatch(r"wss?://[^\s/?#]+[^\s?#]*", value) is None:
        raise PydanticCustomError("address", "an address that begins with wss://")
    return value


_Number = Annotated[int, Field(ge=0)]


class Discord(Chat):
    """Discord.

    maker_roles     whoever has one of these roles may decide, too
    maker_channel   the private channel in which drafts are shown; 0: none
    channels        where customers write beside direct messages; each enquiry gets a thread of its own
    server, gateway the addresses of the service
    """

    maker_roles: Annotated[
        tuple[_Number, ...], Field(strict=False, description="role numbers, such as [12345678]")
    ] = ()
    maker_channel: Annotated[int, Field(ge=0, description="a channel's number, or 0 for none")] = 0
    channels: Annotated[
        tuple[_Number, ...], Field(strict=False, description="channel numbers, such as [12345678]")
    ] = ()
    server: Annotated[
        Line, AfterValidator(_is_address), Field(description='an address, such as "https://discord.com"')
    ] = "https://discord.com"
    gateway: Annotated[
        Line, AfterValidator(_is_gateway), Field(description='an address, such as "wss://gateway.discord.gg"')
    ] = "wss://gateway.discord.gg"

    @field_validator("channels")
    @classmethod
    def _is_not_the_makers(cls, value: tuple[int, ...], info: ValidationInfo) -> tuple[int, ...]:
        if info.data.get("maker_channel") in value:
            raise PydanticCustomError("channel", "other channels than maker_channel, which customers must not see")
        return value


def _is_server(value: str) -> str:
    if value and re.fullmatch(r"[^\s:/@]+:[0-9]{1,5}|\[[0-9a-fA-F:]+\]:[0-9]{1,5}", value) is None:
        raise PydanticCustomError("server", 'a server and its port, such as "imap.workshop.example:993", or ""')
    return value


def _is_mail_address(value: str) -> str:
    if value and re.fullmatch(r"[^\s@<>()\[\],;:\\\"]+@[^\s@<>()\[\],;:\\\"]+", value) is None:
        raise PydanticCustomError("mail_address", 'an e-mail address, such as "size@workshop.example"')
    return value


def _plain_path_or_none(value: object) -> object:
    return value if value == "" else _plain_path(value)


MailServer = Annotated[Line, AfterValidator(_is_server)]
MailAddress = Annotated[Line, AfterValidator(_is_mail_address)]
_SERVER_SAID = 'a server and its port, such as "imap.workshop.example:993", or ""'


class Mail(Section):
    """E-mail.

    makers           the addresses from which decisions are taken; (): none
    address          what customers write to; "": there is no mail
    imap, smtp       where mail is read and sent, "host:port"
    ..._starttls     the connection begins in the clear and must turn to TLS; else it is TLS from the first byte
    user, smtp_user  the names to log in with; "": the address, the same name
    ca_file          certificates of an authority of one's own, within the shop's folder; "": the usual ones
    folders          which are read
    sent_folder      where the maker's own mails lie and a copy of what goes out is put; "": none
    look_s           seconds between two looks, where the server does not say by itself that something came
    first_days       how old a mail may be that is taken when a mailbox is first read
    largest_mb       of a larger mail only the beginning is fetched
    most_per_day     mails of one sender that are taken in 24 hours
    forms            addresses from which a machine sends what people typed into a form
    plus_addresses   the server takes "name+anything@" for "name@"
    """

    questions_by_themselves: Annotated[bool, Field(description="true or false, without quotes")] = False
    makers: Annotated[
        tuple[MailAddress, ...], Field(strict=False, description='addresses, such as ["me@workshop.example"]')
    ] = ()
    address: Annotated[MailAddress, Field(description='an address in quotes, or ""')] = ""
    imap: Annotated[MailServer, Field(description=_SERVER_SAID)] = ""
    imap_starttls: Annotated[bool, Field(description="true or false, without quotes")] = False
    smtp: Annotated[MailServer, Field(description=_SERVER_SAID)] = ""
    smtp_starttls: Annotated[bool, Field(description="true or false, without quotes")] = False
    user: Annotated[Line, Field(description='a name in quotes, or "" for the address')] = ""
    smtp_user: Annotated[Line, Field(description='a name in quotes, or "" for the same as user')] = ""
    ca_file: Annotated[
        str,
        Field(max_length=200, pattern=_PRINTED, description="a file within the shop's own folder"),
        BeforeValidator(_plain_path_or_none),
    ] = ""
    folders: Annotated[tuple[Line, ...], Field(strict=False, min_length=1, description='names, such as ["INBOX"]')] = (
        "INBOX",
    )
    sent_folder: Annotated[Line, Field(description='a name in quotes, such as "Sent", or "" for none')] = ""
    look_s: Annotated[float, Field(gt=0, le=1500, description="seconds, up to 1500")] = 60
    first_days: Annotated[int, Field(ge=0, le=3650, description="whole days, 0 to 3650")] = 7
    largest_mb: Annotated[float, Field(gt=0, le=100, description="megabytes, up to 100")] = 25
    most_per_day: Annotated[int, Field(ge=1, le=1000, description="mails, 1 to 1000")] = 20
    forms: Annotated[
        tuple[MailAddress, ...], Field(strict=False, description='addresses, such as ["form@workshop.example"]')
    ] = ()
    plus_addresses: Annotated[bool, Field(description="true or false, without quotes")] = False

    @model_validator(mode="after")
    def _is_whole(self) -> "Mail":
        missing = [name for name in ("imap", "smtp") if self.address and not getattr(self, name)]
        if missing:
            raise PydanticCustomError(
                "whole", "mail to {address} needs {missing}, too", {"address": self.address, "missing": missing[0]}
            )
        return self


class Sections(Section):
    """Every setting that is not about sizing."""

    time_zone: Annotated[str, Field(description='a place, such as "Europe/London" or "America/Denver"')] = "UTC"
    maker: Maker = Maker()
    messages: Messages = Messages()
    files: Files = Files()
    telegram: Telegram = Telegram()
    discord: Discord = Discord()
    email: Mail = Mail()

    @field_validator("time_zone")
    @classmethod
    def _is_known(cls, value: str) -> str:
        if not is_zone(value):
            raise PydanticCustomError("zone", "no such time zone: {near}", {"near": meant(value)})
        return value


SECTIONS = frozenset(Sections.model_fields)
