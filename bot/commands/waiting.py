"""Lists what waits for the maker."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bot.commands.shop_in_force import SHOP

if TYPE_CHECKING:
    from bot.desk import Desk
    from bot.waiting import Waiting


@click.command("waiting")
@click.option("--json", "as_json", is_flag=True, help="A list of objects, for another program.")
@SHOP
def command(as_json: bool, folder: Path | None) -> None:
    """List what waits for you: drafts, texts to copy, texts that are held or of which nobody knows."""
    from bot.commands.at_desk import at_desk
    from bot.screens.terminal import console
    from bot.screens.waiting import about, waiting_screen
    from bot.waiting import Needs, what_waits

    def comes_to(desk: "Desk", item: "Waiting") -> str:
        return about(desk.worked_out(item.enquiry).drafted, desk.workshop.shop) if item.needs is Needs.DECIDE else ""

    with at_desk(folder) as desk:
        desk.refresh()
        items = [(item, comes_to(desk, item)) for item in what_waits(desk.database)]
    if as_json:
        told = [
            {
                "number": item.number,
                "enquiry": item.enquiry,
                "needs": item.needs.value,
                "kind": item.kind.value if item.kind else None,
                "customer": item.customer,
                "channel": item.channel.value,
                "about": comes,
                "since": item.since.isoformat() if item.since else None,
            }
            for item, comes in items
        ]
        click.echo(json.dumps(told))
        return
    screen = console()
    for line in waiting_screen(items, screen):
        screen.print(line)
