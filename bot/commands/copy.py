"""Prints an approved text of a pasted enquiry to copy; with that it has gone."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP


@click.command("copy")
@click.argument("number", metavar="N.V")
@SHOP
def command(number: str, folder: Path | None) -> None:
    """Print the approved text N.V of a pasted enquiry, to copy. With that it counts as gone."""
    from bot.approval.decision import parse_number
    from bot.commands.at_desk import at_desk
    from bot.commands.handing_over import hand_over
    from bot.errors import NotThereError
    from bot.history import load_history

    wanted = parse_number(number)
    with at_desk(folder) as desk:
        with desk.database.read() as connection:
            history = load_history(connection, wanted.enquiry)
        parts = [part for part in history.parts if part.version == wanted.version]
        if not parts:
            raise NotThereError(f"{wanted} was not approved, so there is nothing to copy")
        hand_over(desk, wanted, parts)
