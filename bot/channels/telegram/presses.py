"""What a maker does in her chat with the bot: presses of buttons, and messages.

Truth is in the store: a press is a code that names a draft, and whatever no longer stands is answered in words, with
what stands now. Whatever is done twice because of a crash in between changes nothing the second time.
"""

import asyncio
from collections.abc import Awaitable, Callable, Mapping, Sequence

from bot import maker_side
from bot.approval.buttons import UNDER_A_COPY, Action, Press, read_code
from bot.approval.decision import Decided, Decider, Number, decider, parse_number
from bot.approval.summary import Summary, summarize
from bot.channels.telegram.awaited import Awaited, await_next, awaited
from bot.channels.telegram.client import Client
from bot.channels.telegram.display import shortened
from bot.channels.telegram.sending import tried
from bot.channels.telegram.shown import SURFACE
from bot.channels.telegram.surface import MakerChats
from bot.channels.telegram.text import sound
from bot.channels.telegram.updates import MakerPressed, MakerWrote
from bot.desk import Desk
from bot.errors import ChannelError, DeclinedError, MendError
from bot.log import trouble
from bot.message import Attachment, ChannelName, Incoming
from bot.store.drafts import find_draft
from bot.store.parts import parts_of_draft
from bot.telling import SETTLED_BY, words_of
from bot.waiting import Needs, Waiting, what_waits

AT_ONCE = 5
LONGEST_ANSWER = 200
"""Characters of what pops up after a press (Bot API reference, answerCallbackQuery)."""
STRANGER = "Only the maker decides here."
UNKNOWN = "This button is not one of mine."
HELP = (
    "Forward a customer's message to me, and I draft the answer for you to copy.\n\n"
    "Drafts come here by themselves, with buttons. After Change, your next message is the new text; after Correct a "
    "measure, it is the measure, such as: width 5.5\n\n"
    "/waiting shows what waits for you, /cancel takes back the last Change or Correct."
)


class Presses:
    """Does what makers ask for in their chats."""

    def __init__(self, desk: Desk, client: Client, chats: MakerChats) -> None:
        self._desk = desk
        self._client = client
        self._chats = chats

    async def pressed(self, press: MakerPressed) -> None:
        """Do what a button says. A stranger's press is told off and changes nothing.

        Raises   MendError: the store cannot be used, and the press has to come again
        """
        by = decider(self._desk.settings, SURFACE, press.user)
        wanted = read_code(press.code)
        if by is None or wanted is None:
            await self._pop_up(press, STRANGER if by is None else UNKNOWN)
            return
        await self._safely(press.user, lambda: self._do(press, wanted, by))

    async def wrote(self, words: MakerWrote, files: Sequence[Attachment]) -> None:
        """Take a maker's message: as what was awaited, as a message to draft an answer to, or as a question for help.

        Raises   MendError: the store cannot be used, and the message has to come again
        """
        by = decider(self._desk.settings, SURFACE, words.user)
        if by is not None:
            await self._safely(words.user, lambda: self._take(words, by, files))

    async def _safely(self, maker: int, do: Callable[[], Awaitable[None]]) -> None:
        """One press that goes wrong must not keep back what comes after it."""
        try:
            await do()
        except MendError:
            raise
        except DeclinedError as error:
            await self._say(maker, str(error))
        except ChannelError:
            trouble("a maker could not be answered in Telegram", maker=maker)
        except Exception as error:
            trouble(f"what a maker asked for in Telegram broke off ({type(error).__name__})", maker=maker)
            await self._say(maker, "That broke off: a fault of tapeline's own. Nothing was sent; look at /waiting.")

    # Presses

    async def _do(self, press: MakerPressed, wanted: Press, by: Decider) -> None:
        number = wanted.number
        match wanted.action:
            case Action.APPROVE | Action.APPROVE_SURE:
                await self._approve(press, number, by, sure=wanted.action is Action.APPROVE_SURE)
            case Action.SET_ASIDE:
                decided = await asyncio.to_thread(maker_side.set_aside, self._desk, number, by)
                await self._decided(press, number, decided, "set aside")
            case Action.CHANGE | Action.CORRECT:
                await self._await_next(press, wanted)
            case Action.SHOW:
                await self._pop_up(press, "")
                await self._show(press.user, number.enquiry)
            case Action.COPIED:
                await asyncio.to_thread(maker_side.copied, self._desk, number, by)
                await self._settled(press, number, "copied")
            case _:
                await self._settle(press, wanted, by)

    async def _approve(self, press: MakerPressed, number: Number, by: Decider, *, sure: bool) -> None:
        decided = await asyncio.to_thread(lambda: maker_side.approve(self._desk, number, by, sure=sure))
        if decided.lacks and not decided.done:
            await self._pop_up(press, "It lacks something.")
            actions = (Action.APPROVE_SURE, Action.CHANGE)
            await self._chats.say(press.user, f"{decided.reason}.", number=number, actions=actions)
            return
        await self._decided(press, number, decided, "approved")
        if decided.done and any(part.channel is ChannelName.PASTE for part in decided.parts):
            await self._give_to_copy(press.user, number, [part.text for part in decided.parts])

    async def _give_to_copy(self, maker: int, number: Number, texts: Sequence[str]) -> None:
        """Each text stands in a message of its own, so that it can be copied whole."""
        for text in texts:
            await self._chats.say(maker, text)
        await self._chats.say(maker, f"{number}, to copy.", number=number, actions=UNDER_A_COPY)

    async def _decided(self, press: MakerPressed, number: Number, decided: Decided, done: str) -> None:
        if decided.done:
            await self._settled(press, number, done)
            return
        await self._refused(press, number, decided.reason)

    async def _settled(self, press: MakerPressed, number: Number, done: str) -> None:
        await self._pop_up(press, f"{number} is {done}.")
        if press.message is not None:
            await self._chats.retire(f"{press.user}:{press.message}:{number}", f"{number} is {done}")

    async def _refused(self, press: MakerPressed, number: Number, reason: str) -> None:
        """Say that a draft no longer stands, and show the one that does."""
        await self._pop_up(press, f"{reason}.", alert=True)
        if press.message is not None:
            await self._chats.retire(f"{press.user}:{press.message}:{number}", reason)
        await self._show(press.user, number.enquiry)

    async def _await_next(self, press: MakerPressed, wanted: Press) -> None:
        number = wanted.number
        summary = await self._summary(number.enquiry)
        if summary is None or summary.number != str(number):
            stands = f"; {summary.number} stands in its place" if summary else ""
            await self._refused(press, number, f"{number} no longer waits{stands}")
            return
        what = Awaited(action=wanted.action, number=number)
        await asyncio.to_thread(await_next, self._desk.database, press.user, what)
        await self._pop_up(press, "")
        if wanted.action is Action.CORRECT:
            await self._chats.say(press.user, f"Your next message corrects {number}. {_how_to_correct(summary)}")
            return
        await self._chats.say(press.user, f"Your next message is the new text of {number}. As it stands, to copy:")
        if summary.draft.strip():
            await self._chats.say(press.user, summary.draft)

    async def _settle(self, press: MakerPressed, wanted: Press, by: Decider) -> None:
        act, done = _SETTLING[wanted.action]
        count = await asyncio.to_thread(act, self._desk, wanted.number, by)
        if count:
            await self._settled(press, wanted.number, done)
        else:
            await self._pop_up(press, f"{wanted.number} no longer stands so that you could say this of it.", alert=True)

    # Messages

    async def _take(self, words: MakerWrote, by: Decider, files: Sequence[Attachment]) -> None:
        if words.forwarded:
            await self._start_enquiry(words, files)
            return
        command = words.text.strip().lower()
        if command == "/waiting":
            await self._show_waiting(words.user)
        elif command == "/cancel":
            await asyncio.to_thread(await_next, self._desk.database, words.user, None)
            await self._chats.say(words.user, "Your next message is taken for nothing in particular.")
        elif command in ("/start", "/help"):
            await self._chats.say(words.user, HELP)
        elif (what := await asyncio.to_thread(awaited, self._desk.database, words.user)) is not None:
            await self._take_awaited(words, what, by)
        else:
            await self._chats.say(words.user, HELP)

    async def _take_awaited(self, words: MakerWrote, what: Awaited, by: Decider) -> None:
        """A correction that cannot be read may be sent again; a text for a draft that is old is shown the new one."""
        number = what.number
        if what.action is Action.CORRECT:
            await asyncio.to_thread(maker_side.correct, self._desk, number.enquiry, words.text, by)
            await asyncio.to_thread(await_next, self._desk.database, words.user, None)
        else:
            decided = await asyncio.to_thread(maker_side.change, self._desk, number, words.text, by)
            if decided.done or decided.draft is None or decided.draft.number != str(number):
                await asyncio.to_thread(await_next, self._desk.database, words.user, None)
            if not decided.done:
                await self._chats.say(words.user, f"{decided.reason}.")
        await self._show(words.user, number.enquiry)

    async def _start_enquiry(self, words: MakerWrote, files: Sequence[Attachment]) -> None:
        """A forwarded message is kept as one that was pasted: its answer comes back here, to copy."""
        incoming = Incoming(
            channel=ChannelName.PASTE,
            account=f"{SURFACE} {words.user}",
            external_id=str(words.message),
            address=f"{SURFACE} {words.user} {words.origin_key}",
            display_name=words.origin or "",
            text=words.text,
            sent_at=words.sent_at,
            attachments=tuple(files),
        )
        await asyncio.to_thread(self._desk.keep, incoming)

    # Showing

    async def _summary(self, enquiry: int) -> Summary | None:
        """Give what the maker decides by; None: nothing waits in this enquiry."""
        standing = await asyncio.to_thread(self._desk.standing, enquiry)
        if standing.history.waiting is None:
            return None
        return summarize(standing.history, standing.drafted, self._desk.workshop.shop)

    async def _show(self, maker: int, enquiry: int) -> None:
        """Show what waits in an enquiry: to every maker where it is new, else to the one who asks."""
        summary = await self._summary(enquiry)
        if summary is None:
            await self._chats.say(maker, f"Nothing waits in enquiry {enquiry}.")
        elif maker not in await self._chats.show_where_new(summary):
            await self._chats.show_to(maker, summary)

    async def _show_waiting(self, maker: int) -> None:
        found = await asyncio.to_thread(what_waits, self._desk.database)
        for one in found[:AT_ONCE]:
            await self._show_one(maker, one)
        if not found:
            await self._chats.say(maker, "Nothing waits for you.")
        elif len(found) > AT_ONCE:
            await self._chats.say(maker, f"{len(found) - AT_ONCE} more wait; /waiting shows them after these.")

    async def _show_one(self, maker: int, one: Waiting) -> None:
        if one.needs is Needs.DECIDE:
            await self._show(maker, one.enquiry)
        elif one.needs is Needs.COPY:
            copy = parse_number(one.number)
            await self._give_to_copy(maker, copy, await asyncio.to_thread(self._texts, copy))
        else:
            number = parse_number(one.number) if one.number else None
            await self._chats.say(maker, words_of(one), number=number, actions=SETTLED_BY.get(one.needs, ()))

    def _texts(self, number: Number) -> list[str]:
        with self._desk.database.read() as connection:
            row = find_draft(connection, number.enquiry, number.version)
            return [part.text for part in parts_of_draft(connection, row.id)] if row else []

    async def _pop_up(self, press: MakerPressed, text: str, *, alert: bool = False) -> None:
        """Answer a press. One that is too old to be answered is no fault."""
        told = shortened(sound(text), LONGEST_ANSWER)
        try:
            await tried(lambda: self._client.answer_callback_query(press.press, told, show_alert=alert))
        except ChannelError:
            trouble("a press in Telegram could not be answered", maker=press.user)

    async def _say(self, maker: int, text: str) -> None:
        try:
            await self._chats.say(maker, text)
        except ChannelError:
            trouble("a maker could not be answered in Telegram", maker=maker)


def _how_to_correct(summary: Summary) -> str:
    if len(summary.dogs) > 1:
        return f"Write the dog first, such as: {summary.dogs[0].name}: width 5.5"
    return "Write it such as: width 5.5"


_SETTLING: Mapping[Action, tuple[Callable[[Desk, Number, Decider], int], str]] = {
    Action.LET_GO: (maker_side.let_go, "on its way"),
    Action.DROP: (maker_side.drop, "dropped"),
    Action.WENT: (maker_side.went, "taken as gone"),
    Action.SEND_AGAIN: (maker_side.send_again, "on its way again"),
}
