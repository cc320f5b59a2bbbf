"""A message with what was read in it, below it the measures, and every number that was left, with the reason."""

from collections.abc import Iterator, Sequence

from rich.console import Console
from rich.text import Text

from bot.approval.words import MEASURES
from bot.screens.marked import Mark, mark_up
from bot.screens.rows import rows
from bot.screens.terminal import Glyphs, glyphs
from replies.reading.facts import Aside, DogReading, Fact, Reading, SetAside, Topic
from replies.writing.plain import one_line
from sizing.measures import FIVE, Measure
from sizing.units import is_weight
from sizing.written import amount_with_unit

_ASIDE: dict[SetAside, str] = {
    SetAside.UNCLEAR: "unclear, so it is asked for",
    SetAside.NOT_A_MEASURE: "not a measure",
    SetAside.NOT_THIS_DOG: "not of the dog to be carried",
    SetAside.QUOTED: "quoted or signed",
    SetAside.WITHDRAWN: "taken back",
}
_TOPICS = {
    Topic.SIZING: "about fit",
    Topic.OTHER: "something else, for the maker to answer",
    Topic.NONE: "nothing to answer",
}


def marked_message(text: str, reading: Reading, screen: Console) -> Iterator[Text]:
    """Give a message with what was read in it marked below its lines."""
    yield from mark_up(text, list(_marks(reading, glyphs(screen))), width=screen.width)


def what_was_read(
    reading: Reading, missing: Sequence[Measure], screen: Console, *, length_unit: str, weight_unit: str
) -> Iterator[Text]:
    """Give the measures with the words that decided, what is missing, and what was left.

    length_unit, weight_unit   the shop's; the customer's stand beside them where they differ
    """
    for dog in reading.dogs:
        name = one_line(dog.name) if dog.name else "the dog"
        about = ", ".join(_about(dog))
        yield from rows("", [Text(name, style="key").append(f" ({about})" if about else "", style="quiet")], screen)
        for fact in dog.facts:
            unit = weight_unit if is_weight(fact.measure) else length_unit
            yield from rows(MEASURES[fact.measure], [_told(fact, unit)], screen, wide=True)
    if missing and reading.topic is Topic.SIZING:
        names = ", ".join(MEASURES[measure] for measure in FIVE if measure in missing)
        yield from rows("missing", [names], screen, style="care", wide=True)
    yield from left_screen(reading, screen, wide=True)
    also = ", and asks something else too" if reading.also_other else ""
    yield from rows("message", [f"{_TOPICS[reading.topic]}{also}"], screen, style="quiet", wide=True)


def left_screen(reading: Reading, screen: Console, *, wide: bool = False) -> Iterator[Text]:
    """Give every number that was seen and left, with the reason."""
    yield from rows("left", [_left(aside) for aside in reading.aside], screen, style="quiet", wide=wide)


def _marks(reading: Reading, shapes: Glyphs) -> Iterator[Mark]:
    several = len(reading.dogs) > 1
    for dog in reading.dogs:
        whose = f" {one_line(dog.name)}" if several and dog.name else ""
        for fact in dog.facts:
            style = fact.measure.value
            label = f"{MEASURES[fact.measure]}{whose}"
            yield Mark(start=fact.at.start, end=fact.at.end, label=label, under=shapes.under, style=style)
            if fact.label is not None:
                yield Mark(start=fact.label.start, end=fact.label.end, label="", under=shapes.decided, style=style)
    for aside in reading.aside:
        label = f"left: {aside.note or _ASIDE[aside.why]}"
        yield Mark(start=aside.at.start, end=aside.at.end, label=label, under=shapes.left, style="quiet")


def _about(dog: DogReading) -> Iterator[str]:
    if dog.breeds:
        yield " x ".join(one_line(breed) for breed in dog.breeds)
    if dog.age_months is not None:
        yield f"{dog.age_months:g} months old" if dog.age_months < 24 else f"{dog.age_months / 12:.3g} years old"
    if dog.posture is not None:
        yield str(dog.posture)


def _told(fact: Fact, unit: str) -> Text:
    told = Text(amount_with_unit(fact.amount, unit), style="key")
    told.append(f"  from “{one_line(fact.at.words)}”", style="not bold")
    told.append(f", {_decided(fact)}", style="not bold dim")
    return told


def _decided(fact: Fact) -> str:
    if fact.label is not None:
        decided = f"by “{one_line(fact.label.words)}”"
    else:
        by_unit = is_weight(fact.measure) and fact.unit_stated
        decided = "by its unit" if by_unit else "by its place or by what was asked"
    unit = "" if fact.unit_stated else f"; no unit was told, {fact.unit} was taken"
    hedged = "; a guess" if fact.vague else "; said with some doubt" if fact.hedged else ""
    return f"{decided}{unit}{hedged}"


def _left(aside: Aside) -> str:
    words = one_line(aside.at.words)
    short = words if len(words) <= 40 else f"{words[:39]}…"
    return f"“{short}”: {aside.note or _ASIDE[aside.why]}"
