"""What the maker decides by, first and large: the carrier, the room in each direction, the load, the doubts."""

from collections.abc import Iterator

from rich.cells import cell_len
from rich.console import Console
from rich.text import Text

from bot.approval.words import (
    MEASURES,
    bound_words,
    doubt_words,
    headline,
    inside_words,
    kind_words,
    level_words,
    load_words,
    neighbour_words,
    sure_words,
    would_be_words,
)
from bot.screens.fit import draw, strips
from bot.screens.rows import rows
from bot.screens.terminal import Glyphs, glyphs
from replies.writing.plain import one_line
from sizing.assessment import Assessment
from sizing.caution import Caution, Level
from sizing.chart import Shop
from sizing.outcome import Kind, Outcome
from sizing.written import length_with_unit

_LEVEL_STYLES = {Level.CARRY: "good", Level.SHORT_CARRY: "care", Level.DO_NOT_LIFT: "bad"}
_NOTHING_SERVES = (Kind.NOT_SAFE, Kind.OUTSIDE_RANGE)


def judgement(assessment: Assessment, shop: Shop, screen: Console) -> Iterator[Text]:
    """Give what the engine says of one dog, the decision first; its neighbours and notes are in `beside`."""
    if assessment.outcome is not None:
        yield from _recommended(assessment, assessment.outcome, shop, screen)
    else:
        yield from _open(assessment, shop, screen)
    yield from rows("doubt", _doubts(assessment, shop), screen, style="care")


def beside(assessment: Assessment, shop: Shop, screen: Console) -> Iterator[Text]:
    """Give the next size either way and why not, and what the maker should know that no measure says."""
    neighbours = [neighbour_words(one, shop.length_unit) for one in assessment.neighbours]
    yield from rows("beside it", neighbours, screen, style="quiet")
    yield from rows("note", [note.text for note in assessment.notes], screen)


def _recommended(assessment: Assessment, outcome: Outcome, shop: Shop, screen: Console) -> Iterator[Text]:
    shapes, width = glyphs(screen), screen.width
    style = "bad" if outcome.kind in _NOTHING_SERVES else "good"
    yield from _large(headline(outcome, shop.length_unit), style, shapes, width)
    told = shapes.between.join(_told(outcome, assessment.dog.name, shop.length_unit))
    yield from rows("", [told], screen, style="quiet")
    yield Text()
    measures = {measure: taken.amount.middle for measure, taken in assessment.dog.measures.items()}
    laid = strips(measures, outcome, pad=shop.pad, elbow=shop.elbow)
    if laid:
        yield from draw(laid, screen, unit=shop.length_unit)
        yield Text()
    if assessment.caution is not None:
        yield from _load(assessment.caution, shop, screen)


def _large(words: str, style: str, shapes: Glyphs, width: int) -> Iterator[Text]:
    """Set a line in a heavy frame, spaced out; the one thing on the screen that is seen from across the room."""
    inner = one_line(words)
    space = 3 if cell_len(inner) + 8 <= width else 0
    line = f"{' ' * space}{inner}{' ' * space}"
    edge = shapes.heavy * cell_len(line)
    yield Text(f"{shapes.corners[0]}{edge}{shapes.corners[1]}", style=style)
    yield Text(shapes.edge, style=style).append(line, style=f"large.{style}").append(shapes.edge, style=style)
    yield Text(f"{shapes.corners[2]}{edge}{shapes.corners[3]}", style=style)


def _told(outcome: Outcome, name: str | None, unit: str) -> Iterator[str]:
    if name:
        yield f"for {one_line(name)}"
    yield kind_words(outcome.kind)
    if outcome.kind in (Kind.STANDARD, Kind.ALTERED_OPENING):
        yield f"inside {inside_words(outcome.inside, unit)}"
    if outcome.kind is Kind.STANDARD and outcome.opening is not None:
        yield f"opening {length_with_unit(outcome.opening, unit)}"
    if sure := sure_words(outcome):
        yield sure
    if outcome.kind is Kind.MADE_TO_MEASURE:
        yield f"till it is sewn: {outcome.fallback}" if outcome.fallback else "no standard size would do meanwhile"


def _load(caution: Caution, shop: Shop, screen: Console) -> Iterator[Text]:
    yield from rows("weight", [load_words(caution, shop.weight_unit)], screen)
    told = f"{level_words(caution)} ({bound_words(caution, shop.weight_unit)})"
    yield from rows("", [told], screen, style=_LEVEL_STYLES[caution.level])


def _open(assessment: Assessment, shop: Shop, screen: Console) -> Iterator[Text]:
    if assessment.missing:
        names = ", ".join(MEASURES[measure] for measure in assessment.missing)
        yield from rows("missing", [names], screen, style="care")
    if assessment.would_be is not None:
        yield from rows("", [would_be_words(assessment.would_be, shop.length_unit)], screen, style="quiet")


def _doubts(assessment: Assessment, shop: Shop) -> list[str]:
    told = [
        doubt_words(doubt, length_unit=shop.length_unit, weight_unit=shop.weight_unit) for doubt in assessment.doubts
    ]
    again = assessment.ask_again
    return told if again is None else [*told, f"{MEASURES[again]}: worth measuring once more, it decides"]
