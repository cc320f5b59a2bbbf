"""Which business accounts are served: those of makers alone, within the rights that each connection gives.

A connection's id changes when its owner connects the bot anew, so the owner is what is remembered; the newest
connection of each is kept in the store.
"""

import json
from collections.abc import Collection, Mapping

from bot.channels.telegram.updates import Business
from bot.errors import RefusedError
from bot.message import ChannelName
from bot.store.cursors import read_cursor, write_cursor
from bot.store.database import Database

FOLDER = "business"


class Accounts:
    """The business accounts that are served, by their owners. Kept in the store."""

    def __init__(self, database: Database, makers: Collection[int]) -> None:
        self._database = database
        self._makers = frozenset(makers)
        self._by_owner: dict[int, Business] = {}

    def load(self) -> None:
        """Read what was known when the program last ran."""
        with self._database.read() as connection:
            for owner in self._makers:
                kept = read_cursor(connection, ChannelName.TELEGRAM, str(owner), folder=FOLDER)
                if kept is not None:
                    self._by_owner[owner] = Business(**json.loads(kept))

    def note(self, business: Business) -> bool:
        """Remember an account's newest connection. False where its owner is no maker: such an account is not served."""
        if business.owner not in self._makers:
            return False
        told = {
            "id": business.id,
            "owner": business.owner,
            "enabled": business.enabled,
            "can_reply": business.can_reply,
        }
        with self._database.write() as connection:
            write_cursor(connection, ChannelName.TELEGRAM, str(business.owner), json.dumps(told), folder=FOLDER)
        self._by_owner[business.owner] = business
        return True

    @property
    def owners(self) -> Mapping[str, int]:
        """Give the owner of each connection that is served, by the connection's id."""
        return {business.id: owner for owner, business in self._by_owner.items()}

    def of(self, owner: int) -> Business:
        """Give the connection of an owner.

        Raises   RefusedError when she has none
        """
        business = self._by_owner.get(owner)
        if business is None:
            raise RefusedError(f"the business account {owner} is not connected to the bot")
        return business


def refuse_without_right(business: Business) -> None:
    """Let only connections pass through which the bot may answer.

    Raises   RefusedError that says what the owner must do
    """
    if not business.enabled:
        raise RefusedError("your business account is no longer connected to the bot: connect it again in Telegram")
    if not business.can_reply:
        raise RefusedError("the bot may not answer for your business account: give it the right to reply in Telegram")
