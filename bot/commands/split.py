"""Moves some of a customer's messages into an enquiry of their own."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP


@click.command("split")
@click.argument("number", metavar="N")
@click.argument("messages", metavar="MESSAGE...", nargs=-1, required=True, type=int)
@SHOP
def command(number: str, messages: tuple[int, ...], folder: Path | None) -> None:
    """Move messages of enquiry N, by the numbers that show gives them, into a new enquiry."""
    from bot.commands.at_desk import at_desk, enquiry_of, maker
    from bot.commands.regrouped import tell
    from bot.regroup import split

    enquiry = enquiry_of(number)
    with at_desk(folder) as desk:
        regrouped = split(desk, enquiry, messages, maker(desk))
        click.echo(f"Enquiry {regrouped.enquiry} is new: tapeline show {regrouped.enquiry}")
        tell(regrouped, desk.workshop.shop)
