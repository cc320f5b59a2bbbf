"""What a maker's answer to a mail of ours does. It counts by the token of that very mail, and from her address."""

import asyncio
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bot.approval.buttons import Action, Press
from bot.approval.decision import Decider, Number, decider
from bot.approval.summary import Summary
from bot.channels.email.letter import Letter
from bot.channels.email.meaning import FromMaker
from bot.channels.email.orders import Order, Word, read_order
from bot.channels.email.surface import SURFACE, MakerMails
from bot.channels.email.tokens import COPY, DECIDE, SURE, Token, settle
from bot.channels.presses import Presses
from bot.desk import Desk
from bot.log import note, trouble

NOT_PROVED = (
    "This did not count: it does not answer a mail of mine, and an address alone proves nothing. Answer the very mail "
    "that showed you the draft, or decide in the terminal: tapeline waiting."
)
UNCLEAR = (
    "This did not count, for it could be meant in two ways: it begins with the word {word} and goes on. Answer with "
    "that word and nothing else (a signature below a line of two dashes does no harm), or with the new text alone."
)
NOTHING = "This did not count: there is nothing in it but what it quotes."
NOT_HERE = "This did not count: {word} is no answer to that mail. Nothing has moved."
_ACTIONS: Mapping[Word, Action] = {
    Word.SET_ASIDE: Action.SET_ASIDE,
    Word.LET_GO: Action.LET_GO,
    Word.DROP: Action.DROP,
    Word.WENT: Action.WENT,
    Word.SEND_AGAIN: Action.SEND_AGAIN,
    Word.COPIED: Action.COPIED,
}
_WHILE_IT_WAITS = frozenset({Word.APPROVE, Word.SET_ASIDE, Word.CORRECT, Word.CHANGE})
_SETTLE = frozenset({Word.LET_GO, Word.DROP, Word.WENT, Word.SEND_AGAIN})


class MakerAnswers:
    """Does what makers ask for by mail."""

    def __init__(self, desk: Desk, mails: MakerMails) -> None:
        maker = desk.settings.own.maker
        self._desk = desk
        self._mails = mails
        self._presses = Presses(desk)
        self._most_told = desk.settings.own.email.most_per_day
        self._told: list[datetime] = []
        names = (maker.name, maker.workshop, maker.farewell)
        self._signed = frozenset(name.strip().casefold() for name in names if name.strip())

    async def take(self, letter: Letter, who: FromMaker) -> None:
        """Do what an answer asks for, and tell her what came of it, in one mail.

        Raises   MendError: the store cannot be used, and the answer has to be read again
        """
        order = read_order(letter.text, signed=self._signed)
        by = decider(self._desk.settings, SURFACE, who.maker)
        if by is None or (who.token is None and order.word in (Word.CHANGE, Word.NOTHING)):
            note("a mail from a maker's address answers none of ours, and was left in the mailbox")
            return
        if who.token is None and not self._may_be_told():
            trouble("answers that prove nothing come in numbers; nobody is told of more of them today")
            return
        reply = MailReply(self._mails, who.maker, letter.head.message_id)
        await self._presses.safely(reply, lambda: self._do(order, who.token, by, reply))
        await self._presses.safely(reply, reply.send)

    def _may_be_told(self) -> bool:
        """Anybody can write a From line: a flood of them must not become a flood to the maker."""
        now = self._desk.clock()
        self._told = [at for at in self._told if at > now - timedelta(days=1)]
        self._told.append(now)
        return len(self._told) <= self._most_told

    async def _do(self, order: Order, token: Token | None, by: Decider, reply: "MailReply") -> None:
        if token is None:
            await reply.say(NOT_PROVED)
        elif order.word is Word.UNCLEAR:
            await reply.say(UNCLEAR.format(word=f'"{order.text}"'))
        elif order.word is Word.NOTHING:
            await reply.say(NOTHING)
        elif not await asyncio.to_thread(self._allows, token, order.word):
            await reply.say(NOT_HERE.format(word=f'"{order.word}"'))
        else:
            await self._obey(order, token, by, reply)

    def _allows(self, token: Token, word: Word) -> bool:
        if token.purpose in (DECIDE, SURE):
            return word in _WHILE_IT_WAITS
        if token.purpose == COPY:
            return word is Word.COPIED
        return word in _SETTLE and token.purpose == settle(self._mails.attempts(token.number))

    async def _obey(self, order: Order, token: Token, by: Decider, reply: "MailReply") -> None:
        number = token.number
        if order.word is Word.CHANGE:
            await self._presses.change(number, order.text, by, reply)
        elif order.word is Word.CORRECT:
            await self._correct(number, order.text, by, reply)
        else:
            sure = token.purpose == SURE
            approve = Action.APPROVE_SURE if sure else Action.APPROVE
            action = _ACTIONS.get(order.word, approve)
            await self._presses.do(Press(action=action, number=number), by, reply)

    async def _correct(self, number: Number, text: str, by: Decider, reply: "MailReply") -> None:
        """Only the draft that waits can be corrected: her answer to an old one was to other numbers."""
        standing = await asyncio.to_thread(self._desk.standing, number.enquiry)
        waiting = standing.history.waiting
        if waiting is None or waiting.number != str(number):
            stands = f"; {waiting.number} stands in its place" if waiting else ""
            await reply.say(f"{number} no longer waits{stands}.")
            return
        await self._presses.correct(number, text, by)


@dataclass
class MailReply:
    """What a maker is told about her answer: gathered, and mailed once."""

    mails: MakerMails
    maker: str
    answers: str | None
    texts: list[str] = field(default_factory=list)
    number: Number | None = None
    actions: Sequence[Action] = ()

    async def brief(self, text: str, *, alert: bool = False) -> None:
        """Add a few words."""
        if text:
            self.texts.append(text)

    async def say(self, text: str, *, number: Number | None = None, actions: Sequence[Action] = ()) -> None:
        """Add a text, and what may be answered to it."""
        self.texts.append(text)
        if actions:
            self.number, self.actions = number, actions

    async def retire(self, number: Number, note: str) -> None:
        """A mail stays where it is."""

    async def show(self, summary: Summary) -> None:
        """Have a draft mailed that is new to her; of one that she got already, tell so."""
        if self.maker not in await self.mails.show_where_new(summary):
            self.texts.append(f"{summary.number} waits for you; you got it in a mail of its own.")

    async def ask(self, action: Action, summary: Summary) -> None:
        """By mail the new text comes with the answer itself: there is nothing to ask for."""

    async def send(self) -> None:
        """Mail what was gathered, if anything was.

        Raises   ChannelError
        """
        texts, self.texts = self.texts, []
        if texts:
            told = "\n\n".join(texts)
            await self.mails.say(self.maker, told, number=self.number, actions=self.actions, answers=self.answers)
