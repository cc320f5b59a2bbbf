"""An enquiry as the maker sees it: what she decides by, her customer's words beside the numbers, the draft."""

from collections.abc import Iterator, Sequence

from rich.console import Console
from rich.text import Text

from bot.approval.words import MEASURES
from bot.desk import Standing
from bot.result import from_json
from bot.screens.inert import inert
from bot.screens.judgement import beside, judgement
from bot.screens.reading import marked_message
from bot.screens.rows import rows
from bot.screens.terminal import glyphs
from bot.states import DepartureState
from bot.store.drafts import DraftRow
from bot.store.enquiries import EnquiryRow, EnquiryState
from bot.store.messages import MessageRow
from replies.draft import DraftKind
from replies.enquiry import Enquiry, EnquiryDog, Known
from replies.writing.plain import one_line
from sizing.assessment import Assessment
from sizing.chart import Shop
from sizing.measures import Measure
from sizing.units import is_weight
from sizing.written import amount_with_unit

KINDS = {
    DraftKind.QUESTION: "a question",
    DraftKind.ANSWER: "an answer",
    DraftKind.HANDOVER: "yours to write",
    DraftKind.NONE: "nothing to send",
}
STATES = {
    DepartureState.QUEUED: "approved, to go",
    DepartureState.GOING: "on its way",
    DepartureState.GONE: "gone",
    DepartureState.FAILED: "failed: the channel will not take it",
    DepartureState.UNSURE: "nobody knows whether it went",
    DepartureState.HELD: "held: the customer wrote again",
    DepartureState.DROPPED: "not sent",
}


def enquiry_screen(standing: Standing, shop: Shop, screen: Console) -> Iterator[Text]:
    """Give an enquiry, what she decides by first."""
    history, drafted = standing.history, standing.drafted
    yield from _head(history.enquiry, history.waiting, screen)
    if drafted.fault is not None:
        yield from rows("fault", [f"{drafted.fault}; read it yourself"], screen, style="bad")
    for dog, assessment in zip(drafted.enquiry.dogs, drafted.assessments, strict=False):
        yield Text()
        yield from dog_screen(drafted.enquiry, dog, assessment, shop, screen)
    asked = [f"“{one_line(passage.words)}”" for _, passage in drafted.enquiry.other]
    if asked:
        yield Text()
        yield from rows("also asked", asked, screen, style="care")
    if history.waiting is not None:
        yield Text()
        yield from draft_screen(history.waiting, screen)
    yield from _besides(drafted.assessments, shop, screen)
    yield Text()
    yield from _messages(history.messages, drafted.enquiry, screen)
    yield from _departures(standing, screen)


def dog_screen(
    enquiry: Enquiry, dog: EnquiryDog, assessment: Assessment, shop: Shop, screen: Console
) -> Iterator[Text]:
    """Give one dog: the judgement, then each measure with the words that gave it."""
    yield from judgement(assessment, shop, screen)
    yield Text()
    yield from measures_screen(enquiry, dog, assessment, shop, screen)


def measures_screen(
    enquiry: Enquiry, dog: EnquiryDog, assessment: Assessment, shop: Shop, screen: Console
) -> Iterator[Text]:
    """Give each measure of a dog with the words that gave it; the shop's unit first, the customer's beside it."""
    doubted = {doubt.measure for doubt in assessment.doubts}
    for measure in Measure:
        known = dog.measures.get(measure)
        if known is not None:
            unit = shop.weight_unit if is_weight(measure) else shop.length_unit
            words = Text(amount_with_unit(known.taken.amount, unit), style="care" if measure in doubted else "")
            words.append(f"  {_source(known)}", style="quiet")
            yield from rows(MEASURES[measure], [words], screen, wide=True)


def _source(known: Known) -> str:
    if known.source.by_maker:
        return "set by you"
    words = f"“{one_line(known.source.at.words)}”" if known.source.at else ""
    confirmed = ", confirmed" if known.taken.confirmed else ""
    hedged = ", said with some doubt" if known.taken.hedged else ""
    return f"{words}{hedged}{confirmed}"


def draft_screen(draft: DraftRow, screen: Console) -> Iterator[Text]:
    """Give a draft with its number, and its text behind a bar."""
    changed = from_json(draft.result_json).changed_by
    by = ", in your own words" if changed else ""
    yield from rows("draft", [Text(draft.number, style="key").append(f"  {KINDS[draft.kind]}{by}")], screen)
    yield from quoted_screen(draft.text, screen)


def quoted_screen(text: str, screen: Console) -> Iterator[Text]:
    """Give a text behind a bar, as it would be sent."""
    bar = glyphs(screen).bar
    for line in inert(text).split("\n"):
        for part in Text(line).wrap(screen, max(20, screen.width - 4)) or [Text()]:
            part.rstrip()
            yield Text(f" {bar} ", style="quiet").append_text(part)


def _head(enquiry: EnquiryRow, waiting: DraftRow | None, screen: Console) -> Iterator[Text]:
    customer = enquiry.customer
    name = one_line(customer.display_name) or "somebody"
    state = f"{KINDS[waiting.kind]} waits" if waiting else "nothing waits"
    closed = "closed" if enquiry.state is EnquiryState.CLOSED else ""
    parts = [f"enquiry {enquiry.id}", name, customer.channel.value, *([closed] if closed else []), state]
    yield Text(glyphs(screen).between.join(parts), style="heading")


def _besides(assessments: Sequence[Assessment], shop: Shop, screen: Console) -> Iterator[Text]:
    lines = [line for assessment in assessments for line in beside(assessment, shop, screen)]
    if lines:
        yield Text()
        yield from lines


def _messages(messages: Sequence[MessageRow], enquiry: Enquiry, screen: Console) -> Iterator[Text]:
    for row in messages:
        when = row.sent_at or row.received_at
        files = f", with {', '.join(map(one_line, row.files))}" if row.files else ""
        deleted = ", deleted by the customer" if row.deleted else ""
        subject = f", “{one_line(row.subject)}”" if row.subject else ""
        yield Text(f"{row.author.value}, {when:%d %b %H:%M} UTC{subject}{files}{deleted}", style="quiet")
        reading = enquiry.readings.get(str(row.id))
        if reading is not None and not row.deleted:
            yield from marked_message(row.text, reading, screen)
        else:
            yield from quoted_screen(row.text, screen)
        yield Text()


def _departures(standing: Standing, screen: Console) -> Iterator[Text]:
    for part in standing.history.unsettled:
        error = f" ({one_line(part.error)})" if part.error else ""
        told = f"{part.enquiry_id}.{part.version}, part {part.part}: {STATES[part.state]}{error}"
        yield from rows("going out", [told], screen, style="care")
