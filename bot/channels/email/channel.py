"""E-mail as a channel: takes what customers write, sends what was approved, mails the maker what waits."""

import asyncio

from bot.approval.decision import AUTOMATIC
from bot.channels.base import OpenChannel
from bot.channels.email.account import Account, account_of
from bot.channels.email.answers import MakerAnswers
from bot.channels.email.compose import customer_mail
from bot.channels.email.dealing import Dealing
from bot.channels.email.inbox import Inbox
from bot.channels.email.letter import OURS
from bot.channels.email.mailbox import Mailbox
from bot.channels.email.sending import send, try_login
from bot.channels.email.surface import MakerMails
from bot.channels.email.tokens import Tokens
from bot.desk import Desk
from bot.errors import RefusedError
from bot.message import ChannelName, Outgoing
from bot.store.drafts import decisions_of
from bot.store.parts import part_by_key


class Email:
    """Customers by mail."""

    name = ChannelName.EMAIL

    def __init__(self, desk: Desk, account: Account) -> None:
        tokens = Tokens(desk.database)
        self._desk = desk
        self._account = account
        self._own = desk.settings.own.email
        self.mails = MakerMails(desk, account, tokens)
        answers = MakerAnswers(desk, self.mails)
        self._inbox = Inbox(desk, account, Dealing(desk, account, tokens, self.mails, answers))

    async def close(self) -> None:
        """Nothing stays open: each mail goes over a connection of its own, and the mailbox closes with `receive`."""

    async def receive(self) -> None:
        """Take mails until cancelled. See `CustomerChannel.receive`."""
        await self._inbox.watch()

    async def deliver(self, text: Outgoing) -> str:
        """Send an approved text, and give its Message-ID. See `CustomerChannel.deliver`."""
        automatic = await asyncio.to_thread(self._went_by_itself, text.key)
        try:
            mail = customer_mail(self._account, text, at=self._desk.clock(), automatic=automatic)
        except (ValueError, UnicodeError):
            raise RefusedError("the customer's address cannot be written to") from None
        await send(self._account, mail)
        self._inbox.copy(text.key, mail.raw)
        return mail.message_id

    async def find(self, text: Outgoing) -> str | None:
        """Look among what was sent: many servers keep there what they took. See `CustomerChannel.find`."""
        if not self._own.sent_folder:
            return None
        return await asyncio.to_thread(self._find, text.key)

    def _find(self, key: str) -> str | None:
        box = Mailbox(self._account.imap)
        try:
            box.open()
            box.select(self._own.sent_folder)
            return f"{key}@{self._account.domain}" if box.holds(OURS, key) else None
        finally:
            box.close()

    async def check(self) -> str:
        """Log in to both servers and send nothing. See `CustomerChannel.check`."""
        read = await asyncio.to_thread(self._look)
        await try_login(self._account)
        count = len(self._own.makers)
        decide = f"{count} may decide by mail" if count else "nobody may decide by mail (email.makers is empty)"
        return f"{self._account.address}: {read}; mail can be sent; {decide}"

    def _look(self) -> str:
        box = Mailbox(self._account.imap)
        try:
            box.open()
            folders = [*self._own.folders, *filter(None, [self._own.sent_folder])]
            counts = [f"{folder} with {box.count(folder)}" for folder in folders]
            when = "told at once" if box.tells else f"looked for every {self._own.look_s:g} s"
            return f"mail can be read ({', '.join(counts)}), new mail is {when}"
        finally:
            box.close()

    def _went_by_itself(self, key: str) -> bool:
        with self._desk.database.read() as connection:
            part = part_by_key(connection, key)
            decisions = decisions_of(connection, part.enquiry_id) if part else []
        return any(one.surface == AUTOMATIC for one in decisions if part and one.draft_id == part.draft_id)


def open_channel(desk: Desk) -> OpenChannel | None:
    """Give the channel where an address is set; None: none is.

    Raises   SettingsError for a password that is missing or that others can read, or certificates that cannot be used
    """
    account = account_of(desk.settings)
    if account is None:
        return None
    channel = Email(desk, account)
    surface = channel.mails if desk.settings.own.email.makers else None
    return OpenChannel(customers=channel, maker=surface, close=channel.close)
