"""The demonstration's screens: a message with its marks, the fit, the draft, one under another."""

import re
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

_AS_ABOVE = "[... the rest of the weight caution, as above ...]"


def heading_screen(number: int, count: int, about: str, screen: Console) -> Iterator[Text]:
    """Give the line that opens an enquiry."""
    line = glyphs(screen).heavy
    head = Text(f"{line * 3} {number} of {count} ", style="quiet").append(f"{about} ", style="bold not dim")
    head.truncate(screen.width - 1, overflow="ellipsis")
    yield Text()
    yield head.append(line * max(0, screen.width - head.cell_len), style="quiet")
    yield Text()


def message_screen(standing: Standing, shop: Shop, screen: Console, *, whole: bool) -> Iterator[Text]:
    """Give the last message with its marks, what the engine says of each dog, and the draft.

    whole   with the whole weight caution; else with the level alone, once it has been shown
    """
    history, enquiry = standing.history, standing.drafted.enquiry
    theirs = [row for row in history.messages if row.author is Author.CUSTOMER]
    for row in theirs[-1:]:
        who = one_line(history.enquiry.customer.display_name)
        parts = (who, row.channel.value, f"{row.received_at:%H:%M}")
        yield Text(glyphs(screen).between.join(parts), style="heading")
        yield Text()
        reading = enquiry.readings.get(str(row.id))
        if reading is not None:
            yield from marked_message(row.text.strip(), reading, screen)
            yield from _after_a_blank(left_screen(reading, screen))
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
        yield from _draft(history.waiting, screen, whole=whole)
    yield Text()


def _after_a_blank(lines: Iterator[Text]) -> Iterator[Text]:
    for number, line in enumerate(lines):
        if number == 0:
            yield Text()
        yield line


def _draft(draft: DraftRow, screen: Console, *, whole: bool) -> Iterator[Text]:
    yield from rows("draft", [Text(draft.number, style="key").append(f"  {KINDS[draft.kind]}")], screen)
    _, *rest = from_json(draft.result_json).cautions or ("",)
    text = draft.text
    for number, paragraph in enumerate(rest if not whole else ()):
        text = text.replace(paragraph, "" if number else _AS_ABOVE, 1)
    yield from quoted_screen(re.sub(r"\n{3,}", "\n\n", text), screen)


def gone_screen(what: str, screen: Console) -> Iterator[Text]:
    """Give the line that says what became of a draft."""
    for number, part in enumerate(Text(what).wrap(screen, max(20, screen.width - 4))):
        yield Text.assemble((f" {glyphs(screen).done if number == 0 else ' '} ", "good"), part, style="good")


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
