"""Approves a draft by its number."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP


@click.command("approve")
@click.argument("number", metavar="N.V")
@click.option("--sure", is_flag=True, help="The second yes: it may go with a place unfilled, or its caution cut.")
@SHOP
def command(number: str, sure: bool, folder: Path | None) -> int:
    """Approve draft N.V, such as 7.3, and let it go.

    It is refused where anything has moved since it was drafted. The text of a pasted enquiry is printed to copy.
    """
    from bot import maker_side
    from bot.approval.decision import parse_number
    from bot.commands.at_desk import at_desk, maker, refused
    from bot.commands.handing_over import hand_over

    wanted = parse_number(number)
    with at_desk(folder) as desk:
        decided = maker_side.approve(desk, wanted, maker(desk), sure=sure)
        if not decided.done:
            code = refused(decided)
            if decided.lacks:
                click.echo(f"          to send it all the same: tapeline approve {wanted} --sure", err=True)
            return code
        hand_over(desk, wanted, decided.parts)
    return 0
