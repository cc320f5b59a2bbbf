"""What a rehearsal would have done, as a table of counts with bars."""

from collections.abc import Iterator, Sequence

from rich.console import Console
from rich.text import Text

from bot.approval.words import MEASURES, kind_words
from bot.screens.rows import rows
from bot.screens.terminal import Glyphs, glyphs
from bot.tally import Tally
from replies.draft import DraftKind
from replies.writing.plain import one_line
from sizing.caution import Level
from sizing.outcome import Kind

_DRAFTS = {
    DraftKind.QUESTION: "a question drafted",
    DraftKind.ANSWER: "an answer with a size drafted",
    DraftKind.HANDOVER: "handed to you to write",
    DraftKind.NONE: "nothing to send",
}
_PAST = {
    Level.CARRY: "may be carried",
    Level.SHORT_CARRY: "past the first level: short carry only",
    Level.DO_NOT_LIFT: "past the second level: not lifted with the dog inside",
}
_SHOWN_BAD = 10
_BAR = 20

Count = tuple[str, int]


def rehearsed_screen(tally: Tally, screen: Console) -> Iterator[Text]:
    """Give what would have been drafted, then the dogs as they stood at the end of their conversations."""
    yield Text(
        f"{tally.messages} messages, {tally.conversations} conversations, {len(tally.dogs)} dogs", style="heading"
    )
    drafted = [(name, tally.drafts[kind]) for kind, name in _DRAFTS.items()]
    yield from _block("What it would have done, message by message", drafted, tally.messages, screen)
    yield from _block("What serves the dogs", list(_outcomes(tally)), len(tally.dogs), screen)
    missing = [(MEASURES[measure], count) for measure, count in tally.missing().most_common()]
    yield from _block("Still missing at the end", missing, len(tally.dogs), screen)
    doubts = [(f"{MEASURES[measure]}: {why}", count) for (measure, why), count in tally.doubts().most_common()]
    yield from _block("Doubted at the end", doubts, len(tally.dogs), screen)
    levels = tally.levels()
    weights = [(name, levels[level]) for level, name in _PAST.items() if levels[level]]
    yield from _block("How heavy it gets", weights, len(tally.dogs), screen)
    yield from _bad(tally, screen)
    yield Text()
    yield from rows("", ["Nothing was sent. Answers never go out before you approve them."], screen, style="quiet")


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _outcomes(tally: Tally) -> Iterator[Count]:
    counted = tally.outcomes()
    for kind in Kind:
        sizes = sorted((size, count) for (of, size), count in counted.items() if of is kind)
        for size, count in sizes:
            yield f"{one_line(size)}, {kind_words(kind)}" if size else kind_words(kind), count
    if tally.open:
        yield "open: something is missing or doubted", tally.open
    if tally.unsure:
        yield "of those served, one measure is asked again", tally.unsure


def _block(title: str, counts: Sequence[Count], whole: int, screen: Console) -> Iterator[Text]:
    if not counts:
        return
    yield Text()
    yield Text(title, style="heading")
    shapes = glyphs(screen)
    name_width = min(max(len(name) for name, _ in counts) + 1, screen.width - _BAR - 8)
    for name, count in counts:
        yield _bar(name, count, whole, name_width, shapes)


def _bar(name: str, count: int, whole: int, name_width: int, shapes: Glyphs) -> Text:
    head = Text(name)
    head.truncate(name_width, overflow="ellipsis", pad=True)
    length = round(_BAR * count / max(1, whole))
    bar = f"  {shapes.dog * max(length, 1)}" if count else ""
    return head.append(f"{count:>6}", style="key").append(bar, style="dog")


def _bad(tally: Tally, screen: Console) -> Iterator[Text]:
    if not tally.bad:
        return
    yield Text()
    yield Text(f"{_counted(len(tally.bad), 'line')} could not be answered", style="bad")
    for number, reason in tally.bad[:_SHOWN_BAD]:
        yield from rows(f"line {number}", [one_line(reason)], screen)
    if len(tally.bad) > _SHOWN_BAD:
        yield from rows("", [f"and {len(tally.bad) - _SHOWN_BAD} more"], screen, style="quiet")
