"""Prints the sizes and settings in force."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bot.commands.shop_in_force import SHOP, shop_in_force

if TYPE_CHECKING:
    from sizing.chart import Shop


@click.command("chart")
@SHOP
@click.option("--json", "as_json", is_flag=True, help="In inches and pounds, for another program.")
def command(folder: Path | None, as_json: bool) -> None:
    """Print the sizes and settings in force."""
    shop = shop_in_force(folder)
    if as_json:
        from bot.json_dog import chart_out

        click.echo(json.dumps(chart_out(shop), allow_nan=False, indent=1))
    else:
        _show(shop)


def _show(shop: "Shop") -> None:
    from bot.screens.chart import chart_screen
    from bot.screens.terminal import console

    screen = console()
    for part in chart_screen(shop):
        screen.print(part)
