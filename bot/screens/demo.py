"""The demonstration's screens: a message with its marks, the fit, the draft, one under another."""

from collections import Counter
from collections.abc import Iterator

from rich.console import Console
from rich.text import Text

from bot.approval.words import MEASURES
from bot.desk import Standing
from bot.message import Author
from bot.result import from_json
from bot.screens.enquiry import KINDS, quoted_screen
from bot.screens.judgement import judgement
from bot.screens.reading import left_screen, marked_message
from bot.screens.rows import rows
from bot.screens.terminal import glyphs
from bot.store.drafts import DraftRow
from replies.writing.plain import one_line
from sizing.chart import Shop
from sizing.measures import FIVE


def heading_screen(number: int, count: int, about: str, screen: Console) -> Iterator[Text]:
    """Give the line that opens an enquiry."""
    line = glyphs(screen).heavy
    head = Text(f"{line * 3} {number} of {count} ", style="quiet").append(f"{about} ", style="bold not dim")
    yield Text()
    yield head.append(line * max(0, screen.width - head.cell_len), style="quiet")
    yield Text()


def message_screen(standing: Standing, shop: Shop, screen: Console, seen: set[str], *, name: str) -> Iterator[Text]:
    """Give the last message with its marks, what the engine says of each dog, and the draft.

    seen   cautions that were shown in full before; they are named instead of shown again
    """
    history, enquiry = standing.history, standing.drafted.enquiry
    theirs = [row for row in history.messages if row.author is Author.CUSTOMER]
    for row in theirs[-1:]:
        between = glyphs(screen).between
        yield Text(f"{one_line(name)}{between}{row.channel.value}{between}{row.received_at:%H:%M}", style="heading")
        yield Text()
        reading = enquiry.readings.get(str(row.id))
        if reading is not None:
            yield from marked_message(row.text, reading, screen)
            yield Text()
            yield from left_screen(reading, screen)
    for dog, assessment in zip(enquiry.dogs, standing.drafted.assessments, strict=True):
        yield Text()
        if len(enquiry.dogs) > 1:
            yield Text(one_line(dog.name or "the other dog"), style="heading")
        if not dog.measures:
            yield from rows("missing", [", ".join(MEASURES[measure] for measure in FIVE)], screen, style="care")
        else:
            yield from judgement(assessment, shop, screen)
    if history.waiting is not None:
        yield Text()
        yield from _draft(history.waiting, screen, seen)
    yield Text()


def _draft(draft: DraftRow, screen: Console, seen: set[str]) -> Iterator[Text]:
    yield from rows("draft", [Text(draft.number, style="key").append(f"  {KINDS[draft.kind]}")], screen)
    text, hidden = draft.text, 0
    for caution in from_json(draft.result_json).cautions:
        if caution in seen:
            text, hidden = text.replace(f"{caution}\n\n", "", 1), hidden + 1
        seen.add(caution)
    yield from quoted_screen(text, screen)
    if hidden:
        yield Text(f"   and {hidden} paragraphs of the weight caution that stand above", style="quiet")


def gone_screen(what: str, screen: Console) -> Iterator[Text]:
    """Give the line that says what became of a draft."""
    yield Text(f" {glyphs(screen).done} {what}", style="good")


def closing_screen(ends: Counter[str], screen: Console) -> Iterator[Text]:
    """Give the end of the morning.

    ends   how many drafts ended in which way
    """
    line = glyphs(screen).heavy
    told = ", ".join(f"{count} {name}" for name, count in ends.most_common())
    yield Text()
    yield Text(line * screen.width, style="quiet")
    yield from rows("the morning", [f"{ends.total()} drafts: {told}"], screen)
    yield from rows("", ["Everyone in it is invented, and nothing has left this machine."], screen, style="quiet")
    yield from rows("your own", ["tapeline init"], screen)
