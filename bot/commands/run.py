"""Runs the shop: takes messages, drafts, shows, and sends what was approved, until it is stopped."""

from pathlib import Path

import click

from bot.commands.shop_in_force import SHOP


@click.command("run")
@SHOP
def command(folder: Path | None) -> None:
    """Run every channel whose token is in the shop's secrets, until stopped.

    What it writes to standard error holds ids, states and durations, and none of a customer's words.
    """
    import asyncio

    from bot.build import open_channels, open_desk
    from bot.log import start_log
    from bot.run import run

    start_log()
    with open_desk(folder) as desk:
        asyncio.run(run(desk, open_channels(desk)))
