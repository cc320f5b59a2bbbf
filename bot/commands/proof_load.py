"""Says what to hang in a carrier to try it for a wanted rating."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP, shop_in_force


@click.command("proof-load")
@click.argument("rating")
@SHOP
def command(rating: str, folder: Path | None) -> None:
    """Say what to hang in a carrier to try it for a RATING, the heaviest dog that it is to be rated for.

    A RATING is written like "20lb" or "9 kg". Without a unit it is in the shop's.
    """
    from bot.screens.proof_load import proof_load_screen
    from bot.screens.terminal import console
    from sizing.given import read_weight

    shop = shop_in_force(folder)
    wanted = read_weight(rating, unit=shop.weight_unit).amount
    screen = console()
    for part in proof_load_screen(wanted.high, shop.weight_unit):
        screen.print(part)
