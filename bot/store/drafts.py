"""Drafts, their states, and the decisions about them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, RowMapping, delete, func, insert, select, update

from bot.states import DraftEvent, DraftState, next_draft
from bot.store.schema import decision, draft, shown
from replies.draft import DraftKind


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftRow:
    """One version of a draft.

    revision      of the enquiry for which it was made
    fingerprint   of chart, ease, wording and engine with which it was made
    result_json   what was computed with it
    """

    id: int
    enquiry_id: int
    version: int
    revision: int
    fingerprint: str
    kind: DraftKind
    state: DraftState
    text: str = field(repr=False)
    result_json: str = field(repr=False)

    @property
    def number(self) -> str:
        """Give the number by which the maker names it, such as 7.3."""
        return f"{self.enquiry_id}.{self.version}"


@dataclass(frozen=True, slots=True, kw_only=True)
class DecisionRow:
    """Who decided what, where and when. Never changed, never removed."""

    draft_id: int
    version: int
    maker: str
    surface: str
    action: str
    at: datetime


def _row(row: RowMapping | Mapping[str, Any]) -> DraftRow:
    return DraftRow(**dict(row) | {"kind": DraftKind(row["kind"]), "state": DraftState(row["state"])})


def find_draft(connection: Connection, enquiry_id: int, version: int) -> DraftRow | None:
    """Find a version of a draft."""
    wanted = (draft.c.enquiry_id == enquiry_id) & (draft.c.version == version)
    row = connection.execute(select(draft).where(wanted)).mappings().one_or_none()
    return _row(row) if row else None


def draft_by_id(connection: Connection, draft_id: int) -> DraftRow | None:
    """Find a draft by its id."""
    row = connection.execute(select(draft).where(draft.c.id == draft_id)).mappings().one_or_none()
    return _row(row) if row else None


def waiting_draft(connection: Connection, enquiry_id: int) -> DraftRow | None:
    """Find the draft of an enquiry that waits for the maker; there is at most one."""
    wanted = (draft.c.enquiry_id == enquiry_id) & (draft.c.state == DraftState.WAITING)
    row = connection.execute(select(draft).where(wanted)).mappings().one_or_none()
    return _row(row) if row else None


def waiting_drafts(connection: Connection) -> list[DraftRow]:
    """Give all drafts that wait for the maker, oldest first."""
    query = select(draft).where(draft.c.state == DraftState.WAITING).order_by(draft.c.id)
    return [_row(row) for row in connection.execute(query).mappings()]


def drafts_of(connection: Connection, enquiry_id: int) -> list[DraftRow]:
    """Give all versions of an enquiry's drafts, oldest first."""
    query = select(draft).where(draft.c.enquiry_id == enquiry_id).order_by(draft.c.version)
    return [_row(row) for row in connection.execute(query).mappings()]


def add_draft(
    connection: Connection,
    enquiry_id: int,
    *,
    revision: int,
    fingerprint: str,
    kind: DraftKind,
    text: str,
    result_json: str,
) -> DraftRow:
    """Store the next version of a draft, waiting. The one that waited before must have been moved on first."""
    last = connection.execute(select(func.max(draft.c.version)).where(draft.c.enquiry_id == enquiry_id)).scalar()
    values = {
        "enquiry_id": enquiry_id,
        "version": (last or 0) + 1,
        "revision": revision,
        "fingerprint": fingerprint,
        "kind": kind,
        "text": text,
        "result_json": result_json,
        "state": DraftState.WAITING,
    }
    return _row(connection.execute(insert(draft).values(**values).returning(draft)).mappings().one())


def move_draft(connection: Connection, row: DraftRow, event: DraftEvent) -> bool:
    """Take a draft to the state that follows `event`.

    Returns   False where it no longer stands as `row` says; then nothing has moved
    Raises    NotAllowedError where the table of states has no such change
    """
    after = next_draft(row.state, event)
    change = update(draft).where((draft.c.id == row.id) & (draft.c.state == row.state)).values(state=after)
    return connection.execute(change).rowcount == 1


def restamp_draft(connection: Connection, draft_id: int, *, revision: int) -> None:
    """Note that a waiting draft holds for what is written now, too."""
    change = update(draft).where((draft.c.id == draft_id) & (draft.c.state == DraftState.WAITING))
    connection.execute(change.values(revision=revision))


def add_decision(connection: Connection, draft_id: int, *, maker: str, surface: str, action: str, at: datetime) -> None:
    """Write down who decided what."""
    connection.execute(insert(decision).values(draft_id=draft_id, maker=maker, surface=surface, action=action, at=at))


def decisions_of(connection: Connection, enquiry_id: int) -> list[DecisionRow]:
    """Give all decisions about an enquiry's drafts, oldest first."""
    query = (
        select(
            decision.c.draft_id, draft.c.version, decision.c.maker, decision.c.surface, decision.c.action, decision.c.at
        )
        .join_from(decision, draft)
        .where(draft.c.enquiry_id == enquiry_id)
        .order_by(decision.c.id)
    )
    return [DecisionRow(**row) for row in connection.execute(query).mappings()]


def add_shown(connection: Connection, draft_id: int, surface: str, *, external_ref: str) -> None:
    """Note where a draft was shown, so that its buttons can be taken away when it is old."""
    row = {"draft_id": draft_id, "surface": surface, "external_ref": external_ref}
    known = select(shown).where(
        (shown.c.draft_id == draft_id) & (shown.c.surface == surface) & (shown.c.external_ref == external_ref)
    )
    if connection.execute(known).first() is None:
        connection.execute(insert(shown).values(**row))


def shown_at(connection: Connection, draft_id: int) -> list[tuple[str, str]]:
    """Give where a draft was shown: surface and the surface's own reference."""
    query = select(shown.c.surface, shown.c.external_ref).where(shown.c.draft_id == draft_id)
    return [(surface, reference) for surface, reference in connection.execute(query)]


def shown_on(connection: Connection, surface: str) -> list[tuple[DraftRow, str]]:
    """Give the drafts that were shown on a surface and not yet taken off it, with the surface's own references."""
    query = select(draft, shown.c.external_ref).join_from(shown, draft).where(shown.c.surface == surface)
    rows = connection.execute(query.order_by(draft.c.id)).mappings().all()
    return [(_row({column.name: row[column.name] for column in draft.c}), row["external_ref"]) for row in rows]


def remove_shown(connection: Connection, draft_id: int, surface: str, *, external_ref: str) -> None:
    """Note that a draft was taken off a surface."""
    wanted = (shown.c.draft_id == draft_id) & (shown.c.surface == surface) & (shown.c.external_ref == external_ref)
    connection.execute(delete(shown).where(wanted))
