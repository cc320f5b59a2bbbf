"""Which shop a command works for."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from bot.settings import Settings
    from sizing.chart import Shop

SHOP = click.option(
    "--shop",
    "folder",
    metavar="FOLDER",
    type=click.Path(file_okay=False, path_type=Path),
    help="The shop's folder. Else TAPELINE_SHOP, the working folder, your own data folder.",
)


def settings_in_force(folder: Path | None) -> "Settings | None":
    """Give the settings of the shop that is found; None: there is none, and nobody named one.

    Raises   NoShopError for a folder that was named and holds no shop; SettingsError
    """
    from bot.settings import FILE_NAME, find_folder, load_settings

    found = find_folder(folder)
    named = folder is not None or found != _own_folder()
    return load_settings(found) if named or (found / FILE_NAME).is_file() else None


def shop_in_force(folder: Path | None) -> "Shop":
    """Give the chart and settings that sizing goes by: the shop's, or the built-in ones where there is no shop."""
    from sizing.chart import builtin_shop

    settings = settings_in_force(folder)
    return settings.shop if settings else builtin_shop()


def _own_folder() -> Path:
    from platformdirs import user_data_path

    return user_data_path("tapeline", appauthor=False)
