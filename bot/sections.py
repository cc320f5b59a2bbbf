"""The sections of shop.toml that the bot goes by; what sizing goes by is in sizing/chart.py."""

import re
from datetime import time
from difflib import get_close_matches
from typing import Annotated
from zoneinfo import available_timezones

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, field_validator
from pydantic_core import PydanticCustomError

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


class Mail(Section):
    """E-mail.

    makers   the addresses from which decisions are taken; (): none
    """

    questions_by_themselves: Annotated[bool, Field(description="true or false, without quotes")] = False
    makers: Annotated[
        tuple[Line, ...], Field(strict=False, description='addresses, such as ["me@workshop.example"]')
    ] = ()


class Sections(Section):
    """Every setting that is not about sizing."""

    time_zone: Annotated[str, Field(description='a place, such as "Europe/London" or "America/Denver"')] = "UTC"
    maker: Maker = Maker()
    messages: Messages = Messages()
    files: Files = Files()
    telegram: Telegram = Telegram()
    discord: Chat = Chat()
    email: Mail = Mail()

    @field_validator("time_zone")
    @classmethod
    def _is_known(cls, value: str) -> str:
        zones = available_timezones()
        if value not in zones:
            close = get_close_matches(value, zones, n=1, cutoff=0.5)
            near = f"did you mean {close[0]}?" if close else 'a place, such as "Europe/London"'
            raise PydanticCustomError("zone", "no such time zone: {near}", {"near": near})
        return value


SECTIONS = frozenset(Sections.model_fields)
