"""An approved text on its way out: one that is to be copied is printed, and has gone with that."""

import sys
from typing import TYPE_CHECKING

import click

from bot.commands.at_desk import at_terminal, maker

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bot.approval.decision import Number
    from bot.desk import Desk
    from bot.store.parts import Part


def hand_over(desk: "Desk", number: "Number", parts: "Sequence[Part]") -> None:
    """Give an approved text to copy, or say which way it goes.

    The text alone goes to standard output, so that it can be piped to wherever it is wanted.
    """
    from bot.maker_side import copied
    from bot.message import ChannelName

    if any(part.channel is not ChannelName.PASTE for part in parts):
        click.echo(f"{number} is approved and goes out on {parts[0].channel}.", err=True)
        return
    click.echo(f"{number} is approved. Copy this:", err=True)
    _print_whole("\n\n".join(part.text for part in parts))
    if at_terminal() and not click.confirm("\nCopied?", default=True, err=True):
        click.echo(f"It is kept: tapeline copy {number}", err=True)
        return
    copied(desk, number, maker(desk))


def _print_whole(text: str) -> None:
    """Print a text as it is, without breaking its lines."""
    from bot.screens.inert import inert

    click.echo(inert(text))
    sys.stdout.flush()
