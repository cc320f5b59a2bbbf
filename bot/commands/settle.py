"""Settles an approved text that was held, or of which nobody knows whether it went."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP

_HOW = {
    "went": ("went", "it went"),
    "send-again": ("send_again", "it did not go: send it again"),
    "let-go": ("let_go", "let a held text go"),
    "drop": ("drop", "do not send a held text"),
}


@click.command("settle")
@click.argument("number", metavar="N.V")
@click.argument("how", type=click.Choice(list(_HOW)))
@SHOP
def command(number: str, how: str, folder: Path | None) -> int:
    """Say what is to become of an approved text that is held, or of which nobody knows whether it went.

    went: it went. send-again: it did not. let-go: it is held and may go all the same. drop: it is held and may not.
    """
    from bot import maker_side
    from bot.approval.decision import parse_number
    from bot.commands.at_desk import at_desk, maker

    wanted = parse_number(number)
    with at_desk(folder) as desk:
        settled = getattr(maker_side, _HOW[how][0])(desk, wanted, maker(desk))
    if not settled:
        click.echo(f"tapeline: no part of {wanted} stands so that you could say this of it", err=True)
        return 1
    click.echo(f"{wanted}: {_HOW[how][1]}")
    return 0
