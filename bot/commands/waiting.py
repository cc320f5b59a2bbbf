"""Lists what waits for the maker."""

import json
from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP


@click.command("waiting")
@click.option("--json", "as_json", is_flag=True, help="One object a draft, for another program.")
@SHOP
def command(as_json: bool, folder: Path | None) -> None:
    """List what waits for you: drafts, texts to copy, texts that are held or of which nobody knows."""
    from bot.commands.at_desk import at_desk
    from bot.screens.terminal import console
    from bot.screens.waiting import find_waiting, waiting_screen

    with at_desk(folder) as desk:
        desk.refresh()
        items = find_waiting(desk)
    if as_json:
        click.echo(json.dumps([item.as_json() for item in items]))
        return
    screen = console()
    for line in waiting_screen(items, screen):
        screen.print(line)
