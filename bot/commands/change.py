"""Puts the maker's own words in the place of a draft."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP
from bot.commands.source import SOURCE, read_text


@click.command("change")
@click.argument("number", metavar="N[.V]")
@click.option("--text", "source", metavar="FILE|-", type=SOURCE, help="The new text, instead of an editor.")
@SHOP
def command(number: str, source: str | None, folder: Path | None) -> int:
    """Write the draft of enquiry N in your own words.

    Your editor opens with the text. The result is the next version, and waits for your yes.
    """
    from bot import maker_side
    from bot.commands.at_desk import at_desk, maker, number_of, refused

    with at_desk(folder) as desk:
        wanted = number_of(desk, number)
        waiting = desk.standing(wanted.enquiry).history.waiting
        text = read_text(source) if source is not None else _edited(waiting.text if waiting else "")
        if text is None:
            click.echo("Nothing was changed.", err=True)
            return 0
        decided = maker_side.change(desk, wanted, text, maker(desk))
        if not decided.done or decided.draft is None:
            return refused(decided)
        click.echo(f"{decided.draft.number} waits for your yes: tapeline approve {decided.draft.number}")
        for lack in decided.lacks:
            click.echo(f"tapeline: mind that {lack}", err=True)
    return 0


def _edited(text: str) -> str | None:
    """Let the maker edit a text; None: she left it as it was.

    Raises   click.ClickException where there is no terminal to edit in
    """
    from bot.commands.at_desk import at_terminal

    if not at_terminal():
        raise click.ClickException("no terminal to edit in: give the text with --text FILE, or --text -")
    return click.edit(text, extension=".txt")
