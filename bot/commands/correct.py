"""Sets a measure by the maker's own hand, and drafts anew."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP


@click.command("correct")
@click.argument("number", metavar="N")
@click.argument("measures", nargs=-1, required=True, metavar="MEASURE...")
@SHOP
def command(number: str, measures: tuple[str, ...], folder: Path | None) -> None:
    """Set a measure of enquiry N yourself, such as: correct 7 "width 5.5".

    With several dogs: "Pickle: width 5.5". Your value outlives whatever the customer writes later.
    """
    from bot import maker_side
    from bot.commands.at_desk import at_desk, enquiry_of, maker
    from bot.commands.show import show

    enquiry = enquiry_of(number)
    with at_desk(folder) as desk:
        maker_side.correct(desk, enquiry, " ".join(measures), maker(desk))
        show(desk, enquiry)
