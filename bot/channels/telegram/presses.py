"""What a maker does in her chat with the bot: presses of buttons, and messages."""

import asyncio
from collections.abc import Sequence
from dataclasses import dataclass

from bot.approval.buttons import Action, read_code
from bot.approval.decision import Decider, Number, decider, parse_number
from bot.approval.summary import Summary
from bot.channels.excerpts import shortened
from bot.channels.presses import STRANGER, UNKNOWN, Presses, how_to_correct
from bot.channels.telegram.awaited import Awaited, await_next, awaited
from bot.channels.telegram.client import Client
from bot.channels.telegram.sending import tried
from bot.channels.telegram.surface import MakerChats
from bot.channels.telegram.updates import MakerPressed, MakerWrote
from bot.desk import Desk
from bot.errors import ChannelError
from bot.keeping import sound_text
from bot.log import trouble
from bot.message import Attachment, ChannelName, Incoming
from bot.store.database import Database

LONGEST_ANSWER = 200
"""Characters of what pops up after a press (Bot API reference, answerCallbackQuery)."""
HELP = (
    "Forward a customer's message to me, and I draft the answer for you to copy.\n\n"
    "Drafts come here by themselves, with buttons. After Change, your next message is the new text; after Correct a "
    "measure, it is the measure, such as: width 5.5\n\n"
    "/waiting shows what waits for you, /cancel takes back the last Change or Correct."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChatReply:
    """Answers one maker in her chat. See `Reply`. press: what she pressed; None: she wrote."""

    database: Database
    client: Client
    chats: MakerChats
    maker: int
    press: MakerPressed | None = None

    async def brief(self, text: str, *, alert: bool = False) -> None:
        """Let a few words pop up. A press that is too old to be answered is no fault."""
        if self.press is None:
            return
        press, told = self.press.press, shortened(sound_text(text), LONGEST_ANSWER)
        try:
            await tried(lambda: self.client.answer_callback_query(press, told, show_alert=alert))
        except ChannelError:
            trouble("a press in Telegram could not be answered", maker=self.maker)

    async def say(self, text: str, *, number: Number | None = None, actions: Sequence[Action] = ()) -> None:
        """Tell her something in her chat."""
        await self.chats.say(self.maker, text, number=number, actions=actions)

    async def retire(self, number: Number, note: str) -> None:
        """Take the buttons off the message that she pressed."""
        if self.press is not None and self.press.message is not None:
            await self.chats.retire(f"{self.maker}:{self.press.message}:{number}", note)

    async def show(self, summary: Summary) -> None:
        """Show a draft in every chat where it is new, and in hers."""
        if self.maker not in await self.chats.show_where_new(summary):
            await self.chats.show_to(self.maker, summary)

    async def ask(self, action: Action, summary: Summary) -> None:
        """Take her next message for what she is asked for."""
        number = parse_number(summary.number)
        await asyncio.to_thread(await_next, self.database, self.maker, Awaited(action=action, number=number))
        await self.brief("")
        if action is Action.CORRECT:
            await self.say(f"Your next message corrects {number}. {how_to_correct(summary)}")
            return
        await self.say(f"Your next message is the new text of {number}. As it stands, to copy:")
        if summary.draft.strip():
            await self.say(summary.draft)


class Chatting:
    """Does what makers ask for in their chats."""

    def __init__(self, desk: Desk, client: Client, chats: MakerChats) -> None:
        self._desk = desk
        self._client = client
        self._chats = chats
        self._presses = Presses(desk)

    def _reply(self, maker: int, press: MakerPressed | None = None) -> ChatReply:
        return ChatReply(database=self._desk.database, client=self._client, chats=self._chats, maker=maker, press=press)

    async def pressed(self, press: MakerPressed) -> None:
        """Do what a button says. A stranger's press is told off and changes nothing.

        Raises   MendError: the store cannot be used, and the press has to come again
        """
        by = decider(self._desk.settings, ChannelName.TELEGRAM, press.user)
        wanted = read_code(press.code)
        reply = self._reply(press.user, press)
        if by is None or wanted is None:
            await reply.brief(STRANGER if by is None else UNKNOWN)
            return
        await self._presses.safely(reply, lambda: self._presses.do(wanted, by, reply))

    async def wrote(self, words: MakerWrote, files: Sequence[Attachment]) -> None:
        """Take a maker's message: as what was awaited, as a message to draft an answer to, or as a question for help.

        Raises   MendError: the store cannot be used, and the message has to come again
        """
        by = decider(self._desk.settings, ChannelName.TELEGRAM, words.user)
        if by is not None:
            reply = self._reply(words.user)
            await self._presses.safely(reply, lambda: self._take(words, by, files, reply))

    async def _take(self, words: MakerWrote, by: Decider, files: Sequence[Attachment], reply: ChatReply) -> None:
        if words.forwarded:
            await self._start_enquiry(words, files)
            return
        command = words.text.strip().lower()
        if command == "/waiting":
            await self._presses.show_waiting(reply)
        elif command == "/cancel":
            await self._await_nothing(words.user)
            await reply.say("Your next message is taken for nothing in particular.")
        elif command in ("/start", "/help"):
            await reply.say(HELP)
        elif (what := await asyncio.to_thread(awaited, self._desk.database, words.user)) is not None:
            await self._take_awaited(words, what, by, reply)
        else:
            await reply.say(HELP)

    async def _take_awaited(self, words: MakerWrote, what: Awaited, by: Decider, reply: ChatReply) -> None:
        """A correction that cannot be read may be sent again; a text for a draft that is old is shown the new one."""
        taken = True
        if what.action is Action.CORRECT:
            await self._presses.correct(what.number, words.text, by)
        else:
            taken = await self._presses.change(what.number, words.text, by, reply)
        if taken:
            await self._await_nothing(words.user)
        await self._presses.show(what.number.enquiry, reply)

    async def _await_nothing(self, maker: int) -> None:
        await asyncio.to_thread(await_next, self._desk.database, maker, None)

    async def _start_enquiry(self, words: MakerWrote, files: Sequence[Attachment]) -> None:
        """A forwarded message is kept as one that was pasted: its answer comes back here, to copy."""
        incoming = Incoming(
            channel=ChannelName.PASTE,
            account=f"{ChannelName.TELEGRAM} {words.user}",
            external_id=str(words.message),
            address=f"{ChannelName.TELEGRAM} {words.user} {words.origin_key}",
            display_name=words.origin or "",
            text=words.text,
            sent_at=words.sent_at,
            attachments=tuple(files),
        )
        await asyncio.to_thread(self._desk.keep, incoming)
