"""What waits for the maker, one line each, oldest first."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rich.console import Console
from rich.text import Text

from bot.approval.words import MEASURES, headline
from bot.desk import Desk
from bot.history import load_history
from bot.message import ChannelName
from bot.screens.enquiry import KINDS, STATES
from bot.screens.rows import rows
from bot.states import DepartureState
from bot.store.drafts import waiting_drafts
from bot.store.enquiries import EnquiryState
from bot.store.parts import Part, parts_in
from replies.writing.plain import one_line
from sizing.assessment import Assessment
from sizing.chart import Shop

_TROUBLE = (DepartureState.QUEUED, DepartureState.HELD, DepartureState.UNSURE, DepartureState.FAILED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing that waits.

    number   of the draft
    what     in a few words; `about` says what it comes to
    todo     the command that deals with it
    """

    number: str
    customer: str
    channel: ChannelName
    what: str
    about: str
    todo: str

    def as_json(self) -> dict[str, str]:
        """Give it for another program."""
        return {
            "number": self.number,
            "customer": self.customer,
            "channel": self.channel.value,
            "what": self.what,
            "about": self.about,
        }


def find_waiting(desk: Desk) -> list[Item]:
    """Find everything that waits for the maker: drafts, then texts that were approved and have not gone."""
    with desk.database.read() as connection:
        drafts, parts = waiting_drafts(connection), parts_in(connection, _TROUBLE)
    items = []
    for draft in drafts:
        standing = desk.worked_out(draft.enquiry_id)
        customer = standing.history.enquiry.customer
        about = [_about(one, desk.workshop.shop) for one in standing.drafted.assessments]
        if standing.drafted.enquiry.other:
            about.append("asks something else too")
        items.append(
            Item(
                number=draft.number,
                customer=one_line(customer.display_name) or "somebody",
                channel=customer.channel,
                what=KINDS[draft.kind],
                about="; ".join(about),
                todo=f"show {draft.enquiry_id}",
            )
        )
    seen = set()
    for part in parts:
        if part.draft_id not in seen and (item := _trouble(desk, part)):
            seen.add(part.draft_id)
            items.append(item)
    return items


def _trouble(desk: Desk, part: Part) -> Item | None:
    """An approved text that will not go by itself; None for one that will, or that failed in a closed enquiry."""
    with desk.database.read() as connection:
        enquiry = load_history(connection, part.enquiry_id).enquiry
    number = f"{part.enquiry_id}.{part.version}"
    match part.state:
        case DepartureState.QUEUED if part.channel is not ChannelName.PASTE:
            return None
        case DepartureState.QUEUED:
            what, todo = "approved, to copy", f"copy {number}"
        case DepartureState.FAILED if enquiry.state is EnquiryState.CLOSED:
            return None
        case DepartureState.FAILED:
            what, todo = STATES[part.state], f"show {part.enquiry_id}"
        case DepartureState.HELD:
            what, todo = STATES[part.state], f"settle {number} let-go, or drop"
        case _:
            what, todo = STATES[part.state], f"settle {number} went, or send-again"
    return Item(
        number=number,
        customer=one_line(enquiry.customer.display_name) or "somebody",
        channel=part.channel,
        what=what,
        about=one_line(part.error or ""),
        todo=todo,
    )


def _about(assessment: Assessment, shop: Shop) -> str:
    if assessment.outcome is not None:
        return headline(assessment.outcome, shop.length_unit)
    doubted = [f"{MEASURES[doubt.measure]} in doubt" for doubt in assessment.doubts[:1]]
    missing = [f"{MEASURES[measure]} missing" for measure in assessment.missing]
    return ", ".join([*doubted, *missing])


def waiting_screen(items: Sequence[Item], screen: Console) -> Iterator[Text]:
    """Give what waits, and the command that deals with each."""
    if not items:
        yield Text("Nothing waits for you.", style="good")
        return
    for item in items:
        told = Text(f"{item.customer}, {item.channel.value}: {item.what}")
        if item.about:
            told.append(f"  {item.about}", style="care")
        told.append(f"  tapeline {item.todo}", style="quiet")
        yield from rows(item.number, [told], screen)
