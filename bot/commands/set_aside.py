"""Sets a draft aside without sending it."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP


@click.command("set-aside")
@click.argument("number", metavar="N[.V]")
@SHOP
def command(number: str, folder: Path | None) -> int:
    """Set the draft of enquiry N aside: it is not sent. The customer's next message brings a new one."""
    from bot import maker_side
    from bot.commands.at_desk import at_desk, maker, number_of, refused

    with at_desk(folder) as desk:
        wanted = number_of(desk, number)
        decided = maker_side.set_aside(desk, wanted, maker(desk))
        if not decided.done:
            return refused(decided)
        click.echo(f"{wanted} is set aside. To draft it anew: tapeline show {wanted.enquiry} --draft-again")
    return 0
