"""What waits for the maker, one line each, the oldest first, with the command that deals with it."""

from collections.abc import Iterator, Mapping, Sequence

from rich.console import Console
from rich.text import Text

from bot.approval.words import MEASURES, headline
from bot.screens.enquiry import KINDS
from bot.screens.rows import rows
from bot.waiting import Needs, Waiting
from bot.workbench import Drafted
from replies.writing.plain import one_line
from sizing.assessment import Assessment
from sizing.chart import Shop

_NEEDS: Mapping[Needs, str] = {
    Needs.COPY: "approved, to copy",
    Needs.HELD: "held: the customer wrote again",
    Needs.UNSURE: "nobody knows whether it went",
    Needs.FAILED: "the channel will not take it: reach the customer another way",
    Needs.UNREAD: "just came in",
}
_TODO: Mapping[Needs, str] = {
    Needs.DECIDE: "show {enquiry}",
    Needs.COPY: "copy {number}",
    Needs.HELD: "settle {number} let-go, or drop",
    Needs.UNSURE: "settle {number} went, or send-again",
    Needs.FAILED: "show {enquiry}",
    Needs.UNREAD: "show {enquiry}",
}


def about(drafted: Drafted, shop: Shop) -> str:
    """Say in a few words what an enquiry comes to."""
    told = [_dog(one, shop) for one in drafted.assessments]
    return "; ".join([*told, *(["asks something else too"] if drafted.enquiry.other else [])])


def _dog(assessment: Assessment, shop: Shop) -> str:
    if assessment.outcome is not None:
        return headline(assessment.outcome, shop.length_unit)
    doubted = [f"{MEASURES[doubt.measure]} in doubt" for doubt in assessment.doubts[:1]]
    missing = [f"{MEASURES[measure]} missing" for measure in assessment.missing]
    return ", ".join([*doubted, *missing])


def waiting_screen(items: Sequence[tuple[Waiting, str]], screen: Console) -> Iterator[Text]:
    """Give what waits.

    items   with what each comes to; "" where that says nothing
    """
    if not items:
        yield Text("Nothing waits for you.", style="good")
    for item, comes_to in items:
        kind = KINDS[item.kind] if item.kind is not None else ""
        what = kind if item.needs is Needs.DECIDE else _NEEDS[item.needs]
        told = Text(f"{one_line(item.customer) or 'somebody'}, {item.channel.value}: {what}")
        more = "; ".join(part for part in (comes_to, one_line(item.why)) if part)
        if more:
            told.append(f"  {more}", style="care")
        todo = _TODO[item.needs].format(enquiry=item.enquiry, number=item.number)
        yield from rows(item.number or str(item.enquiry), [told, Text(f"tapeline {todo}", style="quiet")], screen)
