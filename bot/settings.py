"""The settings of a shop, read once and checked whole; the only reader of shop.toml and of the environment.

A shop is a folder: shop.toml, wording/, words.toml, secrets/ and the store. Everything that is wrong in shop.toml is
told at once. Tokens and passwords never stand in it: they come from the environment or from files of their own.
"""

import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import time
from pathlib import Path
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from pydantic import SecretStr, ValidationError

from bot.errors import Fault, NoShopError, SettingsError
from sizing.chart import Shop, read_shop
from sizing.errors import ShopError

if TYPE_CHECKING:
    from bot.sections import Sections
    from replies.writing.wording import Signature

FILE_NAME = "shop.toml"
ENVIRONMENT = "TAPELINE_SHOP"
SECRETS = "secrets"
LARGEST_FILE = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """All settings of a shop.

    folder    the shop's own folder
    shop      size chart, ease and everything else that sizing goes by, in inches and pounds
    own       the sections of shop.toml that the bot goes by
    zone      the time zone of quiet hours and of what the maker is shown
    """

    folder: Path
    shop: Shop
    own: "Sections"
    zone: ZoneInfo

    @property
    def signature(self) -> "Signature":
        """Give how the maker greets and signs."""
        from replies.writing.wording import Signature  # only here: who draws no draft need not load the templates

        maker = self.own.maker
        return Signature(
            maker_name=maker.name, shop_name=maker.workshop, greeting=maker.greeting, farewell=maker.farewell
        )

    @property
    def quiet_hours(self) -> tuple[time, time] | None:
        """Give when nothing goes out by itself, from and until, in the shop's time zone; None: there are none."""
        return self.own.messages.between

    @property
    def wording_folder(self) -> Path:
        """Give the folder of the maker's own versions of the templates; it need not exist."""
        return self.folder / self.own.files.wording

    @property
    def words_file(self) -> Path:
        """Give the file of the maker's own words; it need not exist."""
        return self.folder / self.own.files.words

    def asks_by_itself(self, channel: str) -> bool:
        """Tell whether the maker lets questions of this channel go out without her."""
        section = getattr(self.own, channel, None)
        return bool(getattr(section, "questions_by_themselves", False))


def find_folder(given: Path | None = None) -> Path:
    """Find the shop: `given`, else TAPELINE_SHOP, else the working folder if it holds a shop.toml, else the user's own.

    Returns   a folder, which need not exist
    """
    if given is not None:
        return given
    if named := os.environ.get(ENVIRONMENT):
        return Path(named)
    here = Path.cwd()
    if (here / FILE_NAME).is_file():
        return here
    from platformdirs import user_data_path

    return user_data_path("tapeline", appauthor=False)


def load_settings(folder: Path) -> Settings:
    """Read the settings of the shop in `folder`.

    Raises   NoShopError when it holds no shop.toml; SettingsError with everything that is wrong in it
    """
    path = folder / FILE_NAME
    return parse_settings(_text(path), folder=folder)


def parse_settings(text: str, *, folder: Path) -> Settings:
    """Read settings from the text of a shop.toml.

    Raises   SettingsError with everything that is wrong in it
    """
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise SettingsError([_syntax_fault(error)]) from None
    except RecursionError:
        fault = Fault(file=FILE_NAME, key="", given=None, remedy="its lists stand too deep inside one another")
        raise SettingsError([fault]) from None
    own, shop, faults = _checked(raw)
    if own is None or shop is None or faults:
        raise SettingsError(faults)
    return Settings(folder=folder, shop=shop, own=own, zone=ZoneInfo(own.time_zone))


def _checked(raw: Mapping[str, Any]) -> tuple["Sections | None", Shop | None, list[Fault]]:
    from bot.section_faults import section_faults, sizing_faults  # only here: most small commands find no shop
    from bot.sections import SECTIONS, Sections

    own: Sections | None = None
    shop: Shop | None = None
    faults: list[Fault] = []
    try:
        own = Sections.model_validate({key: value for key, value in raw.items() if key in SECTIONS})
    except ValidationError as error:
        faults += section_faults(error, file=FILE_NAME)
    try:
        shop = read_shop({key: value for key, value in raw.items() if key not in SECTIONS})
    except ShopError as error:
        faults += sizing_faults(error, file=FILE_NAME)
    return own, shop, faults


def _text(path: Path) -> str:
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        raise NoShopError(
            f"there is no {FILE_NAME} in {path.parent}. Make a shop there with: tapeline init --shop {path.parent}"
        ) from None
    except OSError as error:
        fault = Fault(file=str(path), key="", given=None, remedy=f"it cannot be read ({error.strerror})")
        raise SettingsError([fault]) from error
    if len(raw) > LARGEST_FILE:
        raise SettingsError([Fault(file=str(path), key="", given=None, remedy="it is larger than a megabyte")])
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        remedy = "a character is not UTF-8; save the file as UTF-8 in your editor"
        raise SettingsError([Fault(file=FILE_NAME, key=f"line {line}", given=None, remedy=remedy)]) from error


def _syntax_fault(error: tomllib.TOMLDecodeError) -> Fault:
    told = str(error)
    problem, _, place = told.rpartition(" (at ")
    line = place.removesuffix(")") if problem else ""
    return Fault(
        file=FILE_NAME,
        key=line.split(",")[0],
        given=None,
        remedy=f"this is no TOML ({problem or told}); texts stand in quotes, each setting on a line of its own",
    )


def read_secret(folder: Path, name: str) -> SecretStr | None:
    """Read a token or password: from the environment, else from a file that nobody else may read.

    name      such as "telegram_token": the variable TAPELINE_TELEGRAM_TOKEN, or the file secrets/telegram_token
    Returns   the secret, which shows itself to nobody; None: there is none
    Raises    SettingsError when the file can be read by others, or not by us, or is empty
    """
    if given := os.environ.get(f"TAPELINE_{name.upper()}", "").strip():
        return SecretStr(given)
    path = folder / SECRETS / name
    try:
        mode = path.stat().st_mode
        text = path.read_text(encoding="utf-8").strip()
    except FileNotFoundError:
        return None
    except (OSError, UnicodeDecodeError) as error:
        raise _secret_error(name, f"it cannot be read ({type(error).__name__})") from None
    if os.name == "posix" and mode & 0o077:
        raise _secret_error(name, f"others can read it (mode {mode & 0o777:04o}): chmod 600 {path}")
    if not text:
        raise _secret_error(name, "it is empty: put the token or password into it, and nothing else")
    return SecretStr(text)


def _secret_error(name: str, remedy: str) -> SettingsError:
    return SettingsError([Fault(file=f"{SECRETS}/{name}", key="", given=None, remedy=remedy)])
