"""What the maker decides by, in the order in which she needs it, the same for every surface. Pure.

What customers wrote stands in here as it came: a surface shows it as plain text, never as markup.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from bot.approval import words
from bot.approval.lacks import lacks
from bot.history import History
from bot.message import Author
from bot.result import Because, from_json
from bot.store.messages import MessageRow
from bot.store.parts import Part
from bot.workbench import Drafted
from replies.enquiry import Enquiry, EnquiryDog, Known
from replies.writing.plain import one_line
from sizing.assessment import Assessment
from sizing.chart import Shop
from sizing.measures import Measure
from sizing.outcome import Direction
from sizing.units import is_weight
from sizing.written import amount_with_unit

LONGEST_EXCERPT = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionLine:
    """The room that one direction leaves. verdict: what is wrong with it; "": it is right."""

    direction: Direction
    name: str
    room: str
    verdict: str
    tightest: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberLine:
    """A measure, and the customer's words for it. words: "" where the maker set it."""

    measure: Measure
    name: str
    value: str
    words: str
    by_maker: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class DogSummary:
    """One dog, in the order in which a maker decides.

    headline    the size, or the finished dimensions, with the opening; "" while there is no outcome
    missing     what must still be asked for
    neighbours  the next size either way, and why not
    would_be    what it would be, once the throat height is known; "" where that cannot be said
    """

    name: str
    headline: str
    kind: str
    inside: str
    sure: str
    directions: tuple[DirectionLine, ...]
    load: str
    level: str
    doubts: tuple[str, ...]
    missing: tuple[str, ...]
    numbers: tuple[NumberLine, ...]
    neighbours: tuple[str, ...]
    notes: tuple[str, ...]
    would_be: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """What the maker decides by.

    number      of the draft that waits, such as 7.3; "" where none waits
    kind        of the draft: question, answer, handover; "" where none waits
    other       what else was asked, in the customer's words
    files       names of what came with the messages
    lacks       what the draft should not go without
    fault       what broke off while reading or drafting; "": nothing
    damaged     the draft stands in the place of one that was damaged in the store
    on_the_way  what became of texts that were approved and are not done with, in words
    said        the customer's messages since the last text went out, whole
    """

    enquiry: int
    customer: str
    channel: str
    number: str
    kind: str
    dogs: tuple[DogSummary, ...]
    other: tuple[str, ...]
    files: tuple[str, ...]
    draft: str = field(repr=False)
    changed: bool
    lacks: tuple[str, ...]
    fault: str
    damaged: bool
    on_the_way: tuple[str, ...]
    said: tuple[str, ...] = field(repr=False)


def summarize(history: History, drafted: Drafted, shop: Shop) -> Summary:
    """Put together what the maker decides by.

    history, drafted   an enquiry as it stands
    """
    waiting = history.waiting
    result = from_json(waiting.result_json) if waiting else None
    return Summary(
        enquiry=history.enquiry.id,
        customer=one_line(history.enquiry.customer.display_name) or "somebody",
        channel=history.enquiry.customer.channel,
        number=waiting.number if waiting else "",
        kind=waiting.kind if waiting else "",
        dogs=_dogs(history, drafted, shop),
        other=tuple(one_line(passage.words) for _, passage in drafted.enquiry.other),
        files=tuple(name for row in history.messages for name in row.files),
        draft=waiting.text if waiting else "",
        changed=bool(result and result.changed_by),
        lacks=lacks(waiting.text, result.cautions) if waiting and result else (),
        damaged=bool(result and result.because is Because.DAMAGED),
        fault=(result.fault if result else drafted.fault) or "",
        on_the_way=tuple(_on_the_way(history.unsettled)),
        said=_said(history.messages),
    )


def _dogs(history: History, drafted: Drafted, shop: Shop) -> tuple[DogSummary, ...]:
    texts = {str(row.id): row.text for row in history.messages}
    dogs = drafted.enquiry.dogs
    names = [dog.name or (f"dog {number}" if len(dogs) > 1 else "the dog") for number, dog in enumerate(dogs, 1)]
    return tuple(
        _dog(one_line(name), number, assessment, enquiry=drafted.enquiry, shop=shop, texts=texts)
        for number, (name, assessment) in enumerate(zip(names, drafted.assessments, strict=False))
    )


def _dog(
    name: str, number: int, assessment: Assessment, *, enquiry: Enquiry, shop: Shop, texts: Mapping[str, str]
) -> DogSummary:
    outcome, caution = assessment.outcome, assessment.caution
    length_unit, weight_unit = shop.length_unit, shop.weight_unit
    return DogSummary(
        name=name,
        headline=words.headline(outcome, length_unit) if outcome else "",
        kind=words.kind_words(outcome.kind) if outcome else "",
        inside=words.inside_words(outcome.inside, length_unit) if outcome else "",
        sure=words.sure_words(outcome) if outcome else "",
        directions=_directions(assessment, length_unit),
        load=words.load_words(caution, weight_unit) if caution else "",
        level=words.level_words(caution) if caution else "",
        doubts=tuple(
            words.doubt_words(one, length_unit=length_unit, weight_unit=weight_unit) for one in assessment.doubts
        ),
        missing=tuple(words.MEASURES[measure] for measure in assessment.missing),
        numbers=_numbers(enquiry.dogs[number], number, enquiry=enquiry, shop=shop, texts=texts),
        neighbours=tuple(words.neighbour_words(one, length_unit) for one in assessment.neighbours),
        notes=tuple(note.text for note in assessment.notes),
        would_be=words.would_be_words(assessment.would_be, length_unit) if assessment.would_be else "",
    )


def _directions(assessment: Assessment, unit: str) -> tuple[DirectionLine, ...]:
    slacks = assessment.outcome.slacks if assessment.outcome else ()
    nearest = words.tightest(slacks)
    return tuple(
        DirectionLine(
            direction=slack.direction,
            name=words.DIRECTIONS[slack.direction],
            room=words.room_words(slack, unit),
            verdict=words.verdict(slack),
            tightest=slack is nearest,
        )
        for slack in slacks
    )


def _numbers(
    dog: EnquiryDog, number: int, *, enquiry: Enquiry, shop: Shop, texts: Mapping[str, str]
) -> tuple[NumberLine, ...]:
    return tuple(
        NumberLine(
            measure=measure,
            name=words.MEASURES[measure],
            value=amount_with_unit(
                dog.measures[measure].taken.amount, shop.weight_unit if is_weight(measure) else shop.length_unit
            ),
            words=_her_words(dog.measures[measure], measure, enquiry=enquiry, texts=texts),
            by_maker=dog.measures[measure].source.by_maker,
        )
        for measure in Measure
        if measure in dog.measures
    )


def _her_words(known: Known, measure: Measure, *, enquiry: Enquiry, texts: Mapping[str, str]) -> str:
    """The words of the number together with those that named the measure, as they stand in the message."""
    source = known.source
    if source.at is None or source.message is None:
        return ""
    start, end = source.at.start, source.at.end
    reading = enquiry.readings.get(source.message)
    for dog in reading.dogs if reading else ():
        for fact in dog.facts:
            if fact.measure is measure and fact.at == source.at and fact.label is not None:
                start, end = min(start, fact.label.start), max(end, fact.label.end)
    if end - start > LONGEST_EXCERPT:
        start, end = source.at.start, source.at.end
    return one_line(texts.get(source.message, "")[start:end])


def _said(messages: Sequence[MessageRow]) -> tuple[str, ...]:
    """The customer's messages since the last text went out, or the last one where there is none since."""
    ours = [place for place, row in enumerate(messages) if row.author is not Author.CUSTOMER]
    since = messages[ours[-1] + 1 :] if ours else messages
    theirs = [row for row in messages if row.author is Author.CUSTOMER and not row.deleted]
    shown = [row for row in since if not row.deleted] or theirs[-1:]
    return tuple(row.text for row in shown)


def _on_the_way(parts: Sequence[Part]) -> list[str]:
    counts = {part.draft_id: sum(other.draft_id == part.draft_id for other in parts) for part in parts}
    return [_part_words(part, several=counts[part.draft_id] > 1 or part.part > 1) for part in parts]


def _part_words(part: Part, *, several: bool) -> str:
    what = f"{part.enquiry_id}.{part.version}" + (f", part {part.part}," if several else "")
    return f"{what} is {part.state}" + (f": {part.error}" if part.error else "")
