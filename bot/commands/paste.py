"""Takes a pasted message: the draft comes back, and once approved a plain text to copy."""

import sys
from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP
from bot.commands.source import SOURCE, decode, read_text

_END = "Ctrl-Z and Enter" if sys.platform == "win32" else "Ctrl-D"


@click.command("paste")
@click.argument("source", metavar="[FILE|-]", type=SOURCE, default="-")
@click.option("--from", "name", metavar="NAME", default="", help="Who wrote it: her next message goes on where it was.")
@click.option("--subject", default="", help="The subject, where it was an e-mail.")
@SHOP
def command(source: str, name: str, subject: str, folder: Path | None) -> int:
    """Paste a customer's message, decide about the draft, copy the answer.

    Without FILE the message is pasted here, or read from standard input.
    """
    from bot.channels.paste import keep_pasted
    from bot.commands.at_desk import at_desk, at_terminal
    from bot.commands.deciding import decide
    from bot.commands.handing_over import hand_over
    from bot.commands.show import show

    text = _pasted() if source == "-" and at_terminal() else read_text(source)
    if not text.strip():
        raise click.ClickException("there is no message in it")
    with at_desk(folder) as desk:
        kept = keep_pasted(desk, text, name=name, subject=subject)
        if not kept.new:
            click.echo(f"This message was there already, in enquiry {kept.enquiry}.", err=True)
        desk.draft(kept.enquiry)
        if at_terminal():
            decide(
                desk,
                kept.enquiry,
                show=lambda enquiry: show(desk, enquiry, hints=False),
                hand_over=lambda number, parts: hand_over(desk, number, parts),
            )
        else:
            show(desk, kept.enquiry)
    return 0


def _pasted() -> str:
    click.echo(f"Paste the message, then press {_END} on a line of its own.")
    return decode(sys.stdin.buffer.read())
