"""Who among those who write may decide. Roles come with what the gateway tells; read on later, they are asked for."""

import discord

from bot.channels.discord.client import Account
from bot.channels.discord.places import Kind, Place
from bot.errors import RefusedError
from bot.sections import Discord as DiscordSettings


class People:
    """The makers among the writers in a server."""

    def __init__(self, account: Account, settings: DiscordSettings) -> None:
        self._account = account
        self._makers = frozenset(settings.makers)
        self._roles = frozenset(settings.maker_roles)
        self._asked: dict[int, frozenset[int]] = {}

    async def is_maker(self, writer: discord.User | discord.Member, place: Place) -> bool:
        """Tell whether a writer may decide. In private nobody is a maker: there she may try what customers see.

        Raises   ChannelError
        """
        if place.kind is Kind.DM:
            return False
        if writer.id in self._makers:
            return True
        return bool(self._roles) and not self._roles.isdisjoint(await self._roles_of(writer, place))

    async def _roles_of(self, writer: discord.User | discord.Member, place: Place) -> frozenset[int]:
        if isinstance(writer, discord.Member):
            self._asked[writer.id] = frozenset(roles_of(writer))
        if writer.id not in self._asked:
            self._asked[writer.id] = await self._ask(writer.id, place)
        return self._asked[writer.id]

    async def _ask(self, writer: int, place: Place) -> frozenset[int]:
        client = await self._account.client()
        try:
            channel = await self._account.tried(lambda: client.fetch_channel(place.parent or place.id))
            guild = channel.guild if isinstance(channel, discord.abc.GuildChannel) else None
            if guild is None:
                return frozenset()
            member = await self._account.tried(lambda: client.http.get_member(guild.id, writer))
        except RefusedError:
            return frozenset()  # she has left the server
        return frozenset(int(role) for role in member["roles"])


def roles_of(writer: discord.User | discord.Member) -> list[int]:
    """Give the roles of somebody, as Discord vouches for them."""
    return [role.id for role in writer.roles] if isinstance(writer, discord.Member) else []
