"""Puts two enquiries of one customer together."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP


@click.command("join")
@click.argument("number", metavar="N")
@click.argument("other", metavar="M")
@SHOP
def command(number: str, other: str, folder: Path | None) -> None:
    """Put everything of enquiry M into enquiry N, and close M. Both must be of one customer."""
    from bot.commands.at_desk import at_desk, enquiry_of, maker
    from bot.commands.regrouped import tell
    from bot.regroup import join

    into, rest = enquiry_of(number), enquiry_of(other)
    with at_desk(folder) as desk:
        regrouped = join(desk, into, rest, maker(desk))
        click.echo(f"Enquiry {rest} is in enquiry {into} now: tapeline show {into}")
        tell(regrouped, desk.workshop.shop)
