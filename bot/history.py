"""What was kept of an enquiry, and the events that it is computed from, oldest first."""

from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.errors import NotThereError
from bot.message import Author
from bot.result import from_json_if_sound
from bot.states import DepartureState, DraftState
from bot.store.database import Connection
from bot.store.drafts import DraftRow, draft_by_id, drafts_of
from bot.store.enquiries import EnquiryRow, find_enquiry
from bot.store.messages import CorrectionRow, MessageRow, ReadingState, corrections_of, messages_of
from bot.store.parts import Part, parts_of_enquiry, parts_of_messages
from replies.enquiry import CorrectionEvent, Event, MessageEvent, SentEvent
from replies.reading.context import Asked
from sizing.measures import Taken

_ON_THE_WAY = frozenset({DepartureState.GOING, DepartureState.GONE, DepartureState.UNSURE})
"""What counts as sent: where nobody knows, the customer's answer is itself the sign that it went."""

_DONE_WITH = frozenset({DepartureState.GONE, DepartureState.FAILED, DepartureState.DROPPED})


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """All that was kept of an enquiry.

    sent   the parts that became messages of it; after a join some are of another enquiry's drafts
    asks   what each draft that they belong to asked for, by the draft's id
    """

    enquiry: EnquiryRow
    messages: Sequence[MessageRow]
    corrections: Sequence[CorrectionRow]
    drafts: Sequence[DraftRow]
    parts: Sequence[Part]
    sent: Sequence[Part]
    asks: Mapping[int, tuple[Asked, ...]]

    @property
    def waiting(self) -> DraftRow | None:
        """The draft that waits for the maker."""
        return next((row for row in self.drafts if row.state is DraftState.WAITING), None)

    @property
    def unread(self) -> list[MessageRow]:
        """The customer's messages that are kept and not read yet, edited ones among them."""
        return [row for row in self.messages if row.reading_state is ReadingState.KEPT]

    @property
    def unsettled(self) -> list[Part]:
        """What was approved and is not done with: to go, on its way, held, or nobody knows."""
        return [part for part in self.parts if part.state not in _DONE_WITH]


def load_history(connection: Connection, enquiry_id: int) -> History:
    """Give all that was kept of an enquiry.

    Raises   NotThereError when there is no such enquiry
    """
    enquiry = find_enquiry(connection, enquiry_id)
    if enquiry is None:
        raise NotThereError(f"there is no enquiry {enquiry_id}")
    messages = messages_of(connection, enquiry_id)
    sent = parts_of_messages(connection, [row.id for row in messages if row.author is Author.TAPELINE])
    drafts = {part.draft_id: draft_by_id(connection, part.draft_id) for part in sent}
    return History(
        enquiry=enquiry,
        messages=messages,
        corrections=corrections_of(connection, enquiry_id),
        drafts=drafts_of(connection, enquiry_id),
        parts=parts_of_enquiry(connection, enquiry_id),
        sent=sent,
        asks={number: _asks(row) for number, row in drafts.items() if row is not None},
    )


def _asks(row: DraftRow) -> tuple[Asked, ...]:
    """Give what a draft asked for; where that is damaged, the answer is read as if nothing had been asked."""
    result = from_json_if_sound(row.result_json)
    return result.asks if result else ()


def events_of(history: History) -> list[Event]:
    """Give the events of an enquiry in the order in which they count."""
    placed = [*_messages(history), *((row.seq, _correction(row)) for row in history.corrections)]
    return [event for _, event in sorted(placed, key=lambda pair: pair[0])]


def _messages(history: History) -> Iterator[tuple[int, Event]]:
    sent_with = {part.message_id: part for part in history.sent if part.state in _ON_THE_WAY}
    told: set[int] = set()
    last_out = _last_out(history, sent_with)
    for row in history.messages:
        match row.author:
            case Author.CUSTOMER:
                if not row.deleted:
                    yield row.seq, _message(row, last_out)
            case Author.MAKER:
                yield row.seq, SentEvent()
            case Author.TAPELINE:
                part = sent_with.get(row.id)
                if part is not None and part.draft_id not in told:
                    told.add(part.draft_id)
                    yield row.seq, SentEvent(asks=history.asks.get(part.draft_id, ()))


def _last_out(history: History, sent_with: Container[int | None]) -> datetime | None:
    """When the last text went out; None: none has."""
    ours = [row for row in history.messages if row.author is Author.MAKER or row.id in sent_with]
    return max((row.received_at for row in ours), default=None)


def _message(row: MessageRow, last_out: datetime | None) -> MessageEvent:
    return MessageEvent(
        id=str(row.id),
        text=row.text,
        channel=row.channel.text_kind,
        sent_at=row.sent_at or row.received_at,
        subject=row.subject,
        reopened=row.n > 1 and last_out is not None and row.revised_at >= last_out,
    )


def _correction(row: CorrectionRow) -> CorrectionEvent:
    return CorrectionEvent(dog=row.dog, measure=row.measure, taken=Taken(amount=row.amount))
