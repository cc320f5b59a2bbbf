"""What the bot may do in a channel, and whether everybody can read it."""

from collections.abc import Sequence
from dataclasses import dataclass

import discord

from bot.channels.discord.client import Account
from bot.errors import MendError, RefusedError

NEEDED_BY_MAKERS = ("view_channel", "send_messages", "read_message_history", "attach_files")
NEEDED_BY_CUSTOMERS = (
    "view_channel",
    "send_messages",
    "read_message_history",
    "create_public_threads",
    "send_messages_in_threads",
)
_CALLED = {
    "view_channel": "View Channel",
    "send_messages": "Send Messages",
    "read_message_history": "Read Message History",
    "attach_files": "Attach Files",
    "create_public_threads": "Create Public Threads",
    "send_messages_in_threads": "Send Messages in Threads",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Rights:
    """What was found. public: everybody on the server can read the channel."""

    name: str
    public: bool
    granted: discord.Permissions

    def refuse_without(self, needed: Sequence[str]) -> None:
        """Raise MendError that names the rights that are missing."""
        missing = [_CALLED[name] for name in needed if not getattr(self.granted, name)]
        if missing:
            raise MendError(f"the bot lacks rights in #{self.name} on Discord; give it: {', '.join(missing)}")

    def refuse_public(self) -> None:
        """Raise MendError where everybody can read the channel: what customers wrote is private."""
        if self.public:
            raise MendError(f"everybody on the server can read #{self.name}: make it a private channel")


async def look_at(account: Account, channel: int) -> Rights:
    """Look at a channel.

    Raises   MendError: the bot cannot see it, or it is no channel of a server; ChannelError
    """
    client = await account.client()
    try:
        found = await account.tried(lambda: client.fetch_channel(channel))
        if not isinstance(found, discord.abc.GuildChannel):
            raise MendError(f"{channel} is no channel of a Discord server")
        guild = await account.tried(lambda: client.fetch_guild(found.guild.id))
        whole = await account.tried(lambda: guild.fetch_channel(channel))
        me = await account.tried(lambda: guild.fetch_member(client.user.id if client.user else 0))
    except RefusedError as error:
        raise MendError(f"the bot cannot see the channel {channel} on Discord ({error}): let it in") from None
    assert isinstance(whole, discord.abc.GuildChannel)  # noqa: S101 - as it was a moment ago
    everybody = whole.permissions_for(guild.default_role)
    return Rights(name=whole.name, public=everybody.view_channel, granted=whole.permissions_for(me))
