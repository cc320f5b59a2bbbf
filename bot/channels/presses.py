"""What a maker does by buttons and words, the same on every surface.

Truth is in the store: a press is a code that names a draft, and whatever no longer stands is answered in words, with
what stands now. Whatever is done twice because of a crash in between changes nothing the second time.
"""

import asyncio
from collections.abc import Awaitable, Callable, Mapping, Sequence
from typing import Protocol

from bot import maker_side
from bot.approval.buttons import UNDER_A_COPY, Action, Press
from bot.approval.decision import Decided, Decider, Number, parse_number
from bot.approval.summary import Summary, summarize
from bot.desk import Desk
from bot.errors import ChannelError, DeclinedError, MendError
from bot.log import trouble
from bot.message import ChannelName
from bot.store.drafts import find_draft
from bot.store.parts import parts_of_draft
from bot.telling import SETTLED_BY, words_of
from bot.waiting import Needs, Waiting, what_waits

AT_ONCE = 5
STRANGER = "Only the maker decides here."
UNKNOWN = "This button is not one of mine."
BROKE_OFF = "That broke off: a fault of tapeline's own. Nothing was sent; look at /waiting."


class Reply(Protocol):
    """How the maker who pressed or wrote is answered. Each may raise ChannelError."""

    async def brief(self, text: str, *, alert: bool = False) -> None:
        """Answer a press in a few words, once. alert: she must not miss it; "": nothing has to be said."""

    async def say(self, text: str, *, number: Number | None = None, actions: Sequence[Action] = ()) -> None:
        """Tell her something, with buttons about a draft under it."""

    async def retire(self, number: Number, note: str) -> None:
        """Take the buttons off what she pressed, and say why."""

    async def show(self, summary: Summary) -> None:
        """Show a draft: to every maker where it is new, else to the one who asks."""

    async def ask(self, action: Action, summary: Summary) -> None:
        """Have her write the new text of a draft, or a correction of a measure."""


class Presses:
    """Does what makers ask for."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    async def safely(self, reply: Reply, do: Callable[[], Awaitable[None]]) -> None:
        """Do what a maker asked for; what goes wrong with it keeps back nothing that comes after it.

        Raises   MendError: the store cannot be used, and she has to ask again
        """
        try:
            await do()
        except MendError:
            raise
        except DeclinedError as error:
            await _told(reply, str(error))
        except ChannelError:
            trouble("a maker could not be answered")
        except Exception as error:
            trouble(f"what a maker asked for broke off ({type(error).__name__})")
            await _told(reply, BROKE_OFF)

    async def do(self, wanted: Press, by: Decider, reply: Reply) -> None:
        """Do what a button says.

        Raises   DeclinedError, with words for her; ChannelError: she could not be answered
        """
        number = wanted.number
        match wanted.action:
            case Action.APPROVE | Action.APPROVE_SURE:
                await self._approve(number, by, reply, sure=wanted.action is Action.APPROVE_SURE)
            case Action.SET_ASIDE:
                decided = await asyncio.to_thread(maker_side.set_aside, self._desk, number, by)
                await self._decided(number, decided, reply, "set aside")
            case Action.CHANGE | Action.CORRECT:
                await self._ask(wanted, reply)
            case Action.SHOW:
                await reply.brief("")
                await self.show(number.enquiry, reply)
            case Action.COPIED:
                await asyncio.to_thread(maker_side.copied, self._desk, number, by)
                await _settled(number, reply, "copied")
            case _:
                await self._settle(wanted, by, reply)

    async def _approve(self, number: Number, by: Decider, reply: Reply, *, sure: bool) -> None:
        decided = await asyncio.to_thread(lambda: maker_side.approve(self._desk, number, by, sure=sure))
        if decided.lacks and not decided.done:
            await reply.brief("It lacks something.")
            await reply.say(f"{decided.reason}.", number=number, actions=(Action.APPROVE_SURE, Action.CHANGE))
            return
        await self._decided(number, decided, reply, "approved")
        if decided.done and any(part.channel is ChannelName.PASTE for part in decided.parts):
            await _give_to_copy(number, [part.text for part in decided.parts], reply)

    async def _decided(self, number: Number, decided: Decided, reply: Reply, done: str) -> None:
        if decided.done:
            await _settled(number, reply, done)
        else:
            await self._refused(number, decided.reason, reply)

    async def _refused(self, number: Number, reason: str, reply: Reply) -> None:
        """Say that a draft no longer stands, and show the one that does."""
        await reply.brief(f"{reason}.", alert=True)
        await reply.retire(number, reason)
        await self.show(number.enquiry, reply)

    async def _ask(self, wanted: Press, reply: Reply) -> None:
        number = wanted.number
        summary = await self._summary(number.enquiry)
        if summary is not None and summary.number == str(number):
            await reply.ask(wanted.action, summary)
            return
        stands = f"; {summary.number} stands in its place" if summary else ""
        await self._refused(number, f"{number} no longer waits{stands}", reply)

    async def _settle(self, wanted: Press, by: Decider, reply: Reply) -> None:
        act, done = _SETTLING[wanted.action]
        count = await asyncio.to_thread(act, self._desk, wanted.number, by)
        if count:
            await _settled(wanted.number, reply, done)
        else:
            await reply.brief(f"{wanted.number} no longer stands so that you could say this of it.", alert=True)

    async def change(self, number: Number, text: str, by: Decider, reply: Reply) -> bool:
        """Put her own text in the place of a draft. What stands then is still to be shown.

        Returns   False: it was refused, and the same draft still waits for her text
        Raises    DeclinedError, ChannelError
        """
        decided = await asyncio.to_thread(maker_side.change, self._desk, number, text, by)
        if not decided.done:
            await reply.say(f"{decided.reason}.")
        return decided.done or decided.draft is None or decided.draft.number != str(number)

    async def correct(self, number: Number, text: str, by: Decider) -> None:
        """Set measures. What stands then is still to be shown.

        Raises   CorrectionError, with words for her
        """
        await asyncio.to_thread(maker_side.correct, self._desk, number.enquiry, text, by)

    async def _summary(self, enquiry: int) -> Summary | None:
        """Give what the maker decides by; None: nothing waits in this enquiry."""
        standing = await asyncio.to_thread(self._desk.standing, enquiry)
        if standing.history.waiting is None:
            return None
        return summarize(standing.history, standing.drafted, self._desk.workshop.shop)

    async def show(self, enquiry: int, reply: Reply) -> None:
        """Show what waits in an enquiry."""
        summary = await self._summary(enquiry)
        if summary is None:
            await reply.say(f"Nothing waits in enquiry {enquiry}.")
        else:
            await reply.show(summary)

    async def show_waiting(self, reply: Reply) -> None:
        """Show what waits for her, the oldest first."""
        found = await asyncio.to_thread(what_waits, self._desk.database)
        for one in found[:AT_ONCE]:
            await self._show_one(one, reply)
        if not found:
            await reply.say("Nothing waits for you.")
        elif len(found) > AT_ONCE:
            await reply.say(f"{len(found) - AT_ONCE} more wait; /waiting shows them once these are dealt with.")

    async def _show_one(self, one: Waiting, reply: Reply) -> None:
        if one.needs is Needs.DECIDE:
            await self.show(one.enquiry, reply)
        elif one.needs is Needs.COPY:
            copy = parse_number(one.number)
            await _give_to_copy(copy, await asyncio.to_thread(self._texts, copy), reply)
        else:
            number = parse_number(one.number) if one.number else None
            await reply.say(words_of(one), number=number, actions=SETTLED_BY.get(one.needs, ()))

    def _texts(self, number: Number) -> list[str]:
        with self._desk.database.read() as connection:
            row = find_draft(connection, number.enquiry, number.version)
            return [part.text for part in parts_of_draft(connection, row.id)] if row else []


def how_to_correct(summary: Summary) -> str:
    """Say how a correction of a draft is written."""
    if len(summary.dogs) > 1:
        return f"Write the dog first, such as: {summary.dogs[0].name}: width 5.5"
    return "Write it such as: width 5.5"


async def _settled(number: Number, reply: Reply, done: str) -> None:
    await reply.brief(f"{number} is {done}.")
    await reply.retire(number, f"{number} is {done}")


async def _give_to_copy(number: Number, texts: Sequence[str], reply: Reply) -> None:
    """Each text stands in a message of its own, so that it can be copied whole."""
    for text in texts:
        await reply.say(text)
    await reply.say(f"{number}, to copy.", number=number, actions=UNDER_A_COPY)


async def _told(reply: Reply, text: str) -> None:
    try:
        await reply.brief("")
        await reply.say(text)
    except ChannelError:
        trouble("a maker could not be answered")


_SETTLING: Mapping[Action, tuple[Callable[[Desk, Number, Decider], int], str]] = {
    Action.LET_GO: (maker_side.let_go, "on its way"),
    Action.DROP: (maker_side.drop, "dropped"),
    Action.WENT: (maker_side.went, "taken as gone"),
    Action.SEND_AGAIN: (maker_side.send_again, "on its way again"),
}
