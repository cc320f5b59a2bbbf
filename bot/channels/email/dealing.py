"""Deals with one mail: keeps what a customer writes, does what a maker answers, notes what came back.

Whatever it brings is committed together with how far the mailbox has been read, or before; a mail that is dealt with
twice because of a crash in between changes nothing the second time.
"""

import asyncio
import hashlib
from dataclasses import replace
from datetime import datetime, timedelta

from bot import departures
from bot.channels.email.account import Account
from bot.channels.email.answers import MakerAnswers
from bot.channels.email.bodies import not_kept
from bot.channels.email.bounces import Delayed, Returned
from bot.channels.email.compose import text_key
from bot.channels.email.letter import Head, Letter
from bot.channels.email.machines import is_ours, same_mailbox
from bot.channels.email.meaning import FromCustomer, FromMaker, FromStranger, Left, Whose, meaning
from bot.channels.email.surface import MakerMails
from bot.channels.email.tokens import Tokens
from bot.desk import Desk, Place
from bot.log import note, trouble
from bot.message import Author, ChannelName, Incoming
from bot.states import DepartureState
from bot.store.cursors import read_cursor, write_cursor
from bot.store.database import Connection
from bot.store.messages import count_from, find_message
from bot.store.parts import part_by_key
from bot.store.people import find_customer

EMAIL = ChannelName.EMAIL
A_DAY = timedelta(days=1)
CAME_BACK = "it came back"
_LOOKS, _LOOK_S = 40, 0.25
"""A report may be quicker than the word that the text has gone: how often and how long to wait for that."""


class Dealing:
    """Deals with the mails of one account."""

    def __init__(self, desk: Desk, account: Account, tokens: Tokens, mails: MakerMails, answers: MakerAnswers) -> None:
        own = desk.settings.own.email
        self._desk = desk
        self._account = account
        self._tokens = tokens
        self._mails = mails
        self._answers = answers
        self._most_per_day = own.most_per_day
        self._whose = Whose(address=own.address, domain=account.domain, makers=own.makers, forms=own.forms)

    def is_known(self, head: Head) -> bool:
        """Tell whether a mail has been dealt with before, by what its headers say: it need not be fetched."""
        if head.message_id is None:
            return False
        with self._desk.database.read() as connection:
            return self._is_known(connection, head) or self._was_answered(connection, head)

    async def deal(self, letter: Letter, *, arrived: datetime, place: Place) -> None:
        """Deal with a mail from a folder that customers' mails come to.

        arrived   when the mailbox got it
        Raises    MendError: the store cannot be used; ChannelError: a maker could not be told what she must know
        """
        what = meaning(letter, self._whose, self._tokens)
        match what:
            case FromCustomer():
                await asyncio.to_thread(self._keep, letter, arrived, place)
            case FromMaker():
                if not await asyncio.to_thread(self.is_known, letter.head):
                    await self._answers.take(letter, what)
                await asyncio.to_thread(self._note_answered, letter.head, place)
            case FromStranger():
                number = what.token.number
                told = f"An answer to {number} came from an address that may not decide. Nothing has moved."
                await self._mails.say(what.maker, told)
                await asyncio.to_thread(self._move_on, place)
            case Returned():
                await self._came_back(what, place)
            case Delayed():
                note("a mail server is late with a text and goes on trying")
                await asyncio.to_thread(self._move_on, place)
            case Left():
                note(f"a mail was left in the mailbox: {what.why}")
                await asyncio.to_thread(self._move_on, place)

    def deal_with_sent(self, letter: Letter, *, arrived: datetime, place: Place) -> None:
        """Deal with a mail from the folder of what was sent: what the maker wrote by hand to a customer is kept."""
        head = letter.head
        by_hand = same_mailbox(head.sender, self._account.address) and not is_ours(head)
        if by_hand and not (head.message_id and text_key(head.message_id, self._account.domain)):
            for number, recipient in enumerate(head.recipients):
                if self._is_customer(recipient):
                    self._desk.keep(self._by_hand(letter, recipient, number, arrived))
        self._move_on(place)

    def keep_as_it_is(self, letter: Letter, place: Place) -> None:
        """Keep a mail that something broke off in, so that the maker gets it: no word of it is looked at."""
        told = not_kept("tapeline could not deal with this mail; it is in the original")
        incoming = Incoming(
            channel=EMAIL,
            external_id=f"whole {hashlib.sha256(letter.raw).hexdigest()[:32]}",
            address=letter.head.answer_to or "nobody",
            text="",
            attachments=(told,),
            original=letter.raw,
        )
        self._desk.keep(incoming, place=place)

    # Customers

    def _keep(self, letter: Letter, arrived: datetime, place: Place) -> None:
        head = letter.head
        with self._desk.database.write() as connection:
            incoming = self._incoming(connection, letter, arrived)
            customer = find_customer(connection, EMAIL, head.answer_to)
            since = self._desk.clock() - A_DAY
            count = count_from(connection, customer.id, since) if customer else 0
            if incoming is not None and count < self._most_per_day:
                self._settle_answered(connection, head)
        if incoming is None:
            self._move_on(place)
        elif count >= self._most_per_day:
            trouble("a mail was left in the mailbox: too many from one sender in a day", count=count)
            self._move_on(place)
        else:
            self._desk.keep(_with_last_word(incoming) if count == self._most_per_day - 1 else incoming, place=place)

    def _incoming(self, connection: Connection, letter: Letter, arrived: datetime) -> Incoming | None:
        """Give a mail as it is kept; None: it was kept before."""
        head = letter.head
        if self._is_known(connection, head):
            return None
        external_id = head.id_or_mark(letter.text)
        if find_message(connection, EMAIL, "", external_id=external_id) is not None:
            if head.message_id is None:
                return None
            external_id = f"{external_id} {_mark(head)}"  # another mail with the same id: some programs repeat theirs
        return Incoming(
            channel=EMAIL,
            external_id=external_id,
            address=head.answer_to,
            display_name=head.sender_name,
            text=letter.text,
            sent_at=_sent_at(head, arrived),
            thread_key=head.root or head.message_id or external_id,
            reply_to=self._answered(connection, head),
            subject=head.subject,
            attachments=letter.files,
            original=letter.raw,
        )

    def _is_known(self, connection: Connection, head: Head) -> bool:
        """The same id alone is not enough: what another mail with it says must not be lost."""
        if head.message_id is None:
            return False
        for external_id in (head.message_id, f"{head.message_id} {_mark(head)}"):
            row = find_message(connection, EMAIL, "", external_id=external_id)
            if row is not None and (row.author is not Author.CUSTOMER or _says_so(head, row.subject, row.sent_at)):
                return True
        return False

    def _answered(self, connection: Connection, head: Head) -> str | None:
        """Give the kept message that a mail answers, the nearest first; one of ours also where its id is not sure."""
        for one in head.answers:
            key = text_key(one, self._account.domain)
            for external_id in (one, f"departure {key}") if key else (one,):
                if find_message(connection, EMAIL, "", external_id=external_id) is not None:
                    return external_id
        return None

    def _settle_answered(self, connection: Connection, head: Head) -> None:
        """An answer to a text of which nobody knew whether it went shows that it did."""
        for one in head.answers:
            key = text_key(one, self._account.domain)
            part = part_by_key(connection, key) if key else None
            if part is not None and part.state is DepartureState.UNSURE:
                departures.found(connection, part, one)
                note("departure found by its answer", draft=part.draft_id, part=part.part)

    # The maker's own words

    def _is_customer(self, address: str) -> bool:
        with self._desk.database.read() as connection:
            return find_customer(connection, EMAIL, address) is not None

    def _by_hand(self, letter: Letter, recipient: str, number: int, arrived: datetime) -> Incoming:
        head = letter.head
        external_id = head.id_or_mark(letter.text)
        with self._desk.database.read() as connection:
            answered = self._answered(connection, head)
        return Incoming(
            channel=EMAIL,
            external_id=f"{external_id} {number}" if number else external_id,
            address=recipient,
            text=letter.text,
            sent_at=_sent_at(head, arrived),
            thread_key=head.root or head.message_id,
            reply_to=answered,
            author=Author.MAKER,
            subject=head.subject,
            attachments=letter.files,
            original=letter.raw,
        )

    def _was_answered(self, connection: Connection, head: Head) -> bool:
        return read_cursor(connection, EMAIL, "", folder=_folder(head)) is not None

    def _note_answered(self, head: Head, place: Place) -> None:
        """A maker's answer that is read again, in a mailbox that was built anew, does nothing and says nothing."""
        with self._desk.database.write() as connection:
            if head.message_id is not None:
                write_cursor(connection, EMAIL, "", "done", folder=_folder(head))
            _write(connection, place)

    # What came back

    async def _came_back(self, what: Returned, place: Place) -> None:
        for _ in range(_LOOKS):
            if await asyncio.to_thread(self._note_returned, what, place):
                return
            await asyncio.sleep(_LOOK_S)
        await asyncio.to_thread(self._move_on, place)

    def _note_returned(self, what: Returned, place: Place) -> bool:
        """Give False while the text is still being handed over."""
        with self._desk.database.write() as connection:
            part = part_by_key(connection, what.key)
            if part is not None and part.state is DepartureState.GOING:
                return False
            if part is not None and departures.came_back(connection, part, f"{CAME_BACK}: {what.why}"):
                trouble("a text came back", draft=part.draft_id, part=part.part)
            _write(connection, place)
        return True

    def _move_on(self, place: Place) -> None:
        with self._desk.database.write() as connection:
            _write(connection, place)


def _write(connection: Connection, place: Place) -> None:
    write_cursor(connection, place.channel, place.account, place.value, folder=place.folder)


def _says_so(head: Head, subject: str, sent_at: datetime | None) -> bool:
    """Is it the mail that was kept, as far as its headers tell."""
    return subject == head.subject and (sent_at is None or sent_at == head.sent_at)


def _sent_at(head: Head, arrived: datetime) -> datetime | None:
    """A clock that is far ahead says nothing."""
    return head.sent_at if head.sent_at is not None and head.sent_at <= arrived + A_DAY else None


def _mark(head: Head) -> str:
    told = "\n".join([head.sender, str(head.sent_at), head.subject])
    return hashlib.sha256(told.encode("utf-8", "replace")).hexdigest()[:16]


def _folder(head: Head) -> str:
    return f"answer {hashlib.sha256((head.message_id or '').encode()).hexdigest()[:32]}"


def _with_last_word(incoming: Incoming) -> Incoming:
    """Tell the maker, with the last mail that is taken, that more of them stay in the mailbox."""
    told = not_kept("this sender has written so much today that what else comes stays in your mailbox until tomorrow")
    return replace(incoming, attachments=(*incoming.attachments, told))
