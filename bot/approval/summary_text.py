"""A summary as lines of plain text, for every surface that has no layout of its own. Pure."""

from collections.abc import Iterator
from dataclasses import dataclass

from bot.approval.summary import DogSummary, NumberLine, Summary

DAMAGED = (
    "the store is damaged where the last draft stood, so this one was made anew; "
    "what you had changed is not in it, and the disk may be failing"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line. strong: it is what she decides by, and may be set in bold."""

    text: str
    strong: bool = False


def to_text(summary: Summary) -> str:
    """Give a summary as plain text."""
    return "\n".join(line.text for line in to_lines(summary)).strip() + "\n"


def to_lines(summary: Summary) -> Iterator[Line]:
    """Give a summary line by line: first what she decides by, then the draft, then the sizes beside it."""
    yield Line(text=_title(summary), strong=not summary.dogs)
    if summary.fault:
        yield Line(text=f"Broke off: {summary.fault}. The messages are kept; write the answer yourself.", strong=True)
    if summary.damaged:
        yield Line(text=f"Damaged: {DAMAGED}.", strong=True)
    yield from (Line(text=f"Note: {words}") for words in summary.on_the_way)
    for dog in summary.dogs:
        yield from _dog(dog, several=len(summary.dogs) > 1)
    yield from (Line(text=f'Also asked: "{words}"') for words in summary.other)
    yield from (Line(text=f"Came with it: {name}") for name in summary.files)
    yield from _draft(summary)
    for dog in summary.dogs:
        yield from (Line(text=words) for words in dog.neighbours)


def _title(summary: Summary) -> str:
    what = f"{summary.kind} {summary.number}" if summary.number else f"enquiry {summary.enquiry}, no draft waits"
    return f"{what}, from {summary.customer} ({summary.channel})"


def _dog(dog: DogSummary, *, several: bool) -> Iterator[Line]:
    name = f"{dog.name}: " if several or not dog.headline else ""
    if dog.headline:
        yield Line(text=f"{name}{dog.headline}", strong=True)
        finished = f", inside {dog.inside}" if dog.inside and dog.inside not in dog.headline else ""
        yield Line(text=f"{dog.kind}{finished}")
        yield from (Line(text=dog.sure),) if dog.sure else ()
    else:
        yield Line(text=f"{name}{_open(dog)}", strong=True)
        yield from (Line(text=dog.would_be),) if dog.would_be else ()
    for one in dog.directions:
        remark = f"  {one.verdict}" if one.verdict else "  the tightest" if one.tightest else ""
        yield Line(text=f"  {one.name}: {one.room}{remark}")
    if dog.load:
        yield Line(text=f"{dog.load}: {dog.level}", strong=True)
    yield from (Line(text=f"Doubt: {words}", strong=True) for words in dog.doubts)
    yield from (Line(text=f"  {_number(one)}") for one in dog.numbers)
    yield from (Line(text=f"Note: {words}") for words in dog.notes)


def _open(dog: DogSummary) -> str:
    if dog.missing:
        return f"still to ask: {', '.join(dog.missing)}"
    return "in doubt" if dog.doubts else "no size yet"


def _number(one: NumberLine) -> str:
    source = " (you set it)" if one.by_maker else f'  "{one.words}"' if one.words else ""
    return f"{one.name}: {one.value}{source}"


def _draft(summary: Summary) -> Iterator[Line]:
    if not summary.number:
        return
    yield Line(text="")
    yield Line(text="Your text:" if summary.changed else "Draft:")
    yield from (Line(text=line) for line in summary.draft.splitlines())
    yield Line(text="")
    yield from (Line(text=f"It lacks something: {words}", strong=True) for words in summary.lacks)
