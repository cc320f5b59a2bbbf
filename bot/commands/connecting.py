"""Tries each channel's account, without sending anything."""

import asyncio
from pathlib import Path

import click

from bot.build import open_channels, open_desk
from bot.channels.base import OpenChannel
from bot.errors import BotError


def try_accounts(folder: Path | None) -> list[str]:
    """Try each channel's account and print one line each.

    Returns   what is wrong; []: nothing
    Raises    NoShopError, SettingsError, StoreError: hers to mend
    """
    with open_desk(folder) as desk:
        channels = open_channels(desk)
        if not channels:
            nothing = "no channel has an account yet: put a token into the shop's folder secrets"
            click.echo(nothing, err=True)
            return [nothing]
        return asyncio.run(_try_all(channels))


async def _try_all(channels: list[OpenChannel]) -> list[str]:
    return [fault for fault in [await _try(channel) for channel in channels] if fault]


async def _try(channel: OpenChannel) -> str:
    name = channel.customers.name
    try:
        click.echo(f"{name}: {await channel.customers.check()}", err=True)
    except BotError as error:
        click.echo(f"{name}: {error}", err=True)
        return f"{name}: {error}"
    finally:
        await channel.close()
    return ""
