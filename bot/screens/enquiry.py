"""An enquiry as the maker sees it: what she decides by, her customer's words beside the numbers, the draft."""

from collections.abc import Iterator, Sequence
from zoneinfo import ZoneInfo

from rich.console import Console
from rich.text import Text

from bot.approval.summary import NumberLine, summarize
from bot.approval.summary_text import DAMAGED
from bot.desk import Standing
from bot.result import from_json
from bot.screens.inert import inert
from bot.screens.judgement import beside, judgement
from bot.screens.reading import marked_message
from bot.screens.rows import rows
from bot.screens.terminal import glyphs
from bot.store.drafts import DraftRow
from bot.store.enquiries import EnquiryRow, EnquiryState
from bot.store.messages import MessageRow
from replies.draft import DraftKind
from replies.enquiry import Enquiry
from replies.writing.places import places_in
from replies.writing.plain import one_line
from sizing.assessment import Assessment
from sizing.chart import Shop

KINDS = {
    DraftKind.QUESTION: "a question",
    DraftKind.ANSWER: "an answer",
    DraftKind.HANDOVER: "yours to write",
    DraftKind.NONE: "nothing to send",
}


def enquiry_screen(standing: Standing, shop: Shop, screen: Console, *, zone: ZoneInfo) -> Iterator[Text]:
    """Give an enquiry, what she decides by first.

    zone   in which times are told
    """
    history, drafted = standing.history, standing.drafted
    summary = summarize(history, drafted, shop)
    yield from _head(history.enquiry, history.waiting, screen)
    if summary.fault:
        yield from rows("broke off", [f"{summary.fault}; read it yourself"], screen, style="bad")
    if summary.damaged:
        yield from rows("damaged", [DAMAGED], screen, style="bad")
    yield from rows("going out", summary.on_the_way, screen, style="care")
    for dog, assessment in zip(summary.dogs, drafted.assessments, strict=True):
        yield Text()
        yield from judgement(assessment, shop, screen)
        yield Text()
        yield from numbers_screen(dog.numbers, assessment, screen)
    if summary.other or summary.files:
        yield Text()
        yield from rows("also asked", [f"“{words}”" for words in summary.other], screen, style="care")
        yield from rows("came with it", [one_line(name) for name in summary.files], screen)
    if history.waiting is not None:
        yield Text()
        yield from draft_screen(history.waiting, screen)
        if summary.lacks:
            yield Text()
        yield from rows("it lacks", summary.lacks, screen, style="bad")
    yield from _besides(drafted.assessments, shop, screen)
    yield from _messages(history.messages, drafted.enquiry, screen, zone)


def numbers_screen(numbers: Sequence[NumberLine], assessment: Assessment, screen: Console) -> Iterator[Text]:
    """Give each measure of a dog with the words that gave it."""
    doubted = {doubt.measure for doubt in assessment.doubts}
    for one in numbers:
        told = Text(one.value, style="care" if one.measure in doubted else "")
        told.append("  set by you" if one.by_maker else f"  “{one.words}”", style="quiet")
        yield from rows(one.name, [told], screen, wide=True)


def draft_screen(draft: DraftRow, screen: Console) -> Iterator[Text]:
    """Give a draft with its number, and its text behind a bar."""
    changed = from_json(draft.result_json).changed_by
    by = ", in your own words" if changed else ""
    yield from rows("draft", [Text(draft.number, style="key").append(f"  {KINDS[draft.kind]}{by}")], screen)
    yield from quoted_screen(draft.text, screen)


def quoted_screen(text: str, screen: Console, *, style: str = "") -> Iterator[Text]:
    """Give a text behind a bar, as it would be sent; places that the maker must fill stand out."""
    bar = (f" {glyphs(screen).bar} ", "quiet")
    whole = Text(inert(text), style=style)
    for place in places_in(text):
        whole.highlight_words([inert(place)], "care")
    for line in whole.split("\n", allow_blank=True):
        for part in line.wrap(screen, max(20, screen.width - 4)) or [Text()]:
            part.rstrip()
            yield Text.assemble(bar, part)


def _head(enquiry: EnquiryRow, waiting: DraftRow | None, screen: Console) -> Iterator[Text]:
    customer = enquiry.customer
    name = one_line(customer.display_name) or "somebody"
    state = f"{KINDS[waiting.kind]} waits" if waiting else "nothing waits"
    closed = "closed" if enquiry.state is EnquiryState.CLOSED else ""
    parts = [f"enquiry {enquiry.id}", name, customer.channel.value, *([closed] if closed else []), state]
    yield Text(glyphs(screen).between.join(parts), style="heading")


def _besides(assessments: Sequence[Assessment], shop: Shop, screen: Console) -> Iterator[Text]:
    for number, assessment in enumerate(assessments, start=1):
        lines = list(beside(assessment, shop, screen))
        if not lines:
            continue
        yield Text()
        if len(assessments) > 1:
            yield from rows("", [f"for {one_line(assessment.dog.name or f'dog {number}')}"], screen, style="quiet")
        yield from lines


def _messages(messages: Sequence[MessageRow], enquiry: Enquiry, screen: Console, zone: ZoneInfo) -> Iterator[Text]:
    for row in messages:
        when = (row.sent_at or row.received_at).astimezone(zone)
        files = f", with {', '.join(map(one_line, row.files))}" if row.files else ""
        deleted = ", deleted by the customer" if row.deleted else ""
        subject = f", “{one_line(row.subject)}”" if row.subject else ""
        yield Text()
        who = f"{row.author.value}, message {row.id}, {when:%d %b %H:%M}{subject}{files}{deleted}"
        yield from rows("", [Text(who)], screen, style="quiet")
        reading = enquiry.readings.get(str(row.id))
        if reading is not None and not row.deleted:
            yield from marked_message(row.text.strip(), reading, screen)
        else:
            yield from quoted_screen(row.text, screen)
