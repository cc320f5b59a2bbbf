"""Closes an enquiry."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP


@click.command("close")
@click.argument("number", metavar="N")
@SHOP
def command(number: str, folder: Path | None) -> None:
    """Close enquiry N: its draft is set aside, and what was approved and has not begun to go is dropped."""
    from bot import maker_side
    from bot.commands.at_desk import at_desk, enquiry_of, maker

    enquiry = enquiry_of(number)
    with at_desk(folder) as desk:
        maker_side.close(desk, enquiry, maker(desk))
    click.echo(f"Enquiry {enquiry} is closed.")
