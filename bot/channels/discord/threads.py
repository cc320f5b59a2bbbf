"""A thread of its own for each enquiry in a channel: opened from the message that began it, or for a form alone.

A thread that is opened from a message has the message's number. So it is known before it exists, and opening it twice
after a crash opens it once.
"""

import asyncio
from typing import Final

import discord

from bot.channels.discord.client import Account
from bot.channels.discord.places import Kind, Place, split_address
from bot.errors import ChannelError, RefusedError
from bot.log import trouble
from bot.message import ChannelName
from bot.store.cursors import read_cursor, write_cursor
from bot.store.database import Database
from bot.store.enquiries import EnquiryRow, find_enquiry, set_thread_key

QUIET_MINUTES: Final = 10080
"""After a week without a word Discord folds a thread away; it opens again with the next message."""


class Threads:
    """Opens threads, and has what is written in them read."""

    def __init__(self, database: Database, account: Account) -> None:
        self._database = database
        self._account = account

    async def open_for(self, enquiry: int, *, begun_by: int | None = None) -> None:
        """Open the thread of an enquiry that has just begun. Trouble is left: it is opened when something has to go.

        begun_by   only where this message began it; None: only where it has no thread yet
        """
        row = await asyncio.to_thread(self._enquiry, enquiry)
        if row.thread_key != (str(begun_by) if begun_by else None):
            return
        try:
            await self.open(enquiry)
        except ChannelError:
            trouble("a thread could not be opened in Discord", enquiry=enquiry)

    async def open(self, enquiry: int) -> int:
        """Open the thread of an enquiry, and give its number.

        Raises   ChannelError
        """
        row = await asyncio.to_thread(self._enquiry, enquiry)
        customer, parent = split_address(row.customer.address)
        thread = int(row.thread_key or 0)
        if thread:
            await asyncio.to_thread(self._note, row, _place(thread, parent, customer))
        if not thread or not await self._from_message(row, parent, thread):
            thread = await self._alone(row, parent)
            await asyncio.to_thread(self._note, row, _place(thread, parent, customer))
        await self._bring_in(thread, customer)
        return thread

    async def _from_message(self, row: EnquiryRow, parent: int, number: int) -> bool:
        """Open it from the message that began the enquiry. False: that is gone."""
        client = await self._account.client()

        async def begin() -> None:
            try:
                await client.http.start_thread_with_message(
                    parent, number, name=_name(row), auto_archive_duration=QUIET_MINUTES
                )
            except discord.HTTPException as error:
                if error.code != _THERE_ALREADY:
                    raise

        try:
            await self._account.tried(begin)
        except RefusedError:
            return False
        return True

    async def _alone(self, row: EnquiryRow, parent: int) -> int:
        client = await self._account.client()
        begun = await self._account.tried(
            lambda: client.http.start_thread_without_message(
                parent,
                name=_name(row),
                auto_archive_duration=QUIET_MINUTES,
                type=discord.ChannelType.public_thread.value,
            )
        )
        return int(begun["id"])

    async def _bring_in(self, thread: int, customer: int) -> None:
        """Have the customer see the thread among hers."""
        client = await self._account.client()
        try:
            await self._account.tried(lambda: client.http.add_user_to_thread(thread, customer))
        except RefusedError:
            trouble("a customer could not be brought into her thread in Discord")

    def _enquiry(self, number: int) -> EnquiryRow:
        with self._database.read() as connection:
            row = find_enquiry(connection, number)
        assert row is not None  # noqa: S101 - it was just kept, or something goes out in it
        return row

    def _note(self, row: EnquiryRow, place: Place) -> None:
        with self._database.write() as connection:
            if row.thread_key != str(place.id):
                set_thread_key(connection, row.id, str(place.id))
            if read_cursor(connection, ChannelName.DISCORD, "", folder=place.folder) is None:
                write_cursor(connection, ChannelName.DISCORD, "", str(place.id), folder=place.folder)


_THERE_ALREADY = 160004
"""The error code for a message that has a thread already."""


def _place(thread: int, parent: int, customer: int) -> Place:
    return Place(kind=Kind.THREAD, id=thread, parent=parent, customer=customer)


def _name(row: EnquiryRow) -> str:
    return f"Fit enquiry {row.id}"
