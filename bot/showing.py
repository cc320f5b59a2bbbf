"""Keeps what the maker sees in step with the store.

A draft that waits is shown, one that no longer does is taken off, and what became of an approved text is told. What was
shown and told where stands in the store, so that nothing is told twice and nothing is forgotten after a crash.
"""

import asyncio
from collections.abc import Sequence
from dataclasses import dataclass

from bot.approval.decision import Number
from bot.approval.summary import summarize
from bot.channels.base import MakerSurface
from bot.desk import Desk
from bot.keeping import UNREAD
from bot.states import DepartureState, DraftState
from bot.store.drafts import DraftRow, add_shown, remove_shown, shown_on, waiting_draft, waiting_drafts
from bot.store.parts import Part, parts_in
from bot.telling import SETTLED_BY, words_of
from bot.waiting import Needs, what_waits

TOLD = "told "
"""Begins the marks of what was told; a surface's own references never begin with it."""
LATE_AFTER = 3
"""Attempts after which the maker hears that a text does not get through."""


@dataclass(frozen=True, slots=True, kw_only=True)
class News:
    """What is to be told of an approved text.

    mark   the same is told once
    late   why it does not get through, though it is tried again; "": it needs a word from the maker
    """

    draft_id: int
    number: Number
    mark: str
    late: str = ""


class Showing:
    """What the makers see on one surface."""

    def __init__(self, desk: Desk, surface: MakerSurface) -> None:
        self._desk = desk
        self._surface = surface

    async def step(self) -> None:
        """Bring the surface up to date.

        Raises   ChannelError when it cannot be reached; what was left is done at the next step
        """
        shown = await asyncio.to_thread(self._shown)
        for row, reference in shown:
            if row.state is not DraftState.WAITING and not reference.startswith(TOLD):
                await self._retire(row, reference)
        seen = {row.id for row, reference in shown if not reference.startswith(TOLD)}
        for row in await asyncio.to_thread(self._waiting):
            if row.id not in seen:
                await self._show(row)
        told = {(row.id, reference) for row, reference in shown}
        for news in await asyncio.to_thread(self._news):
            if (news.draft_id, news.mark) not in told:
                await self._tell(news)

    def _shown(self) -> list[tuple[DraftRow, str]]:
        with self._desk.database.read() as connection:
            return shown_on(connection, self._surface.surface)

    def _waiting(self) -> list[DraftRow]:
        with self._desk.database.read() as connection:
            return waiting_drafts(connection)

    async def _show(self, row: DraftRow) -> None:
        standing = await asyncio.to_thread(self._desk.standing, row.enquiry_id)
        waiting = standing.history.waiting
        if waiting is None:
            return
        references = await self._surface.show(summarize(standing.history, standing.drafted, self._desk.workshop.shop))
        await asyncio.to_thread(self._note, waiting.id, references)

    async def _retire(self, row: DraftRow, reference: str) -> None:
        await self._surface.retire(reference, await asyncio.to_thread(self._why_old, row))
        with self._desk.database.write() as connection:
            remove_shown(connection, row.id, self._surface.surface, external_ref=reference)

    def _why_old(self, row: DraftRow) -> str:
        if row.state is not DraftState.REPLACED:
            return f"{row.number} is {row.state.replace('_', ' ')}"
        with self._desk.database.read() as connection:
            newer = waiting_draft(connection, row.enquiry_id)
        return f"{row.number} is old; {newer.number} stands in its place" if newer else f"{row.number} is old"

    def _news(self) -> list[News]:
        with self._desk.database.read() as connection:
            parts = parts_in(connection, _NEWSWORTHY)
        found = (_news_of(part) for part in parts)
        return list({(news.draft_id, news.mark): news for news in found if news is not None}.values())

    async def _tell(self, news: News) -> None:
        if news.late:
            await self._surface.tell(
                f"{news.number} has not got through yet ({news.late}). It is tried again by itself."
            )
        else:
            waiting = await asyncio.to_thread(what_waits, self._desk.database)
            one = next((one for one in waiting if one.number == str(news.number) and one.needs in _TOLD_OF), None)
            if one is None:
                return  # settled meanwhile, or no news any more
            await self._surface.tell(words_of(one), number=news.number, actions=SETTLED_BY.get(one.needs, ()))
        await asyncio.to_thread(self._note, news.draft_id, [news.mark])

    def _note(self, draft_id: int, references: Sequence[str]) -> None:
        with self._desk.database.write() as connection:
            for reference in references:
                add_shown(connection, draft_id, self._surface.surface, external_ref=reference)


_TOLD_OF = frozenset({Needs.HELD, Needs.UNSURE, Needs.FAILED})
_NEWSWORTHY = (DepartureState.HELD, DepartureState.UNSURE, DepartureState.FAILED, DepartureState.QUEUED)


def _news_of(part: Part) -> News | None:
    """Give what is to be told of a part; None: it goes its way, or what the customer wrote meanwhile is read first."""
    number = Number(enquiry=part.enquiry_id, version=part.version)
    if part.state is DepartureState.QUEUED:
        late = part.attempts >= LATE_AFTER and part.error
        return News(draft_id=part.draft_id, number=number, mark=f"{TOLD}late", late=part.error or "") if late else None
    if part.error == UNREAD:
        return None
    return News(draft_id=part.draft_id, number=number, mark=f"{TOLD}{part.state} {part.attempts}")
