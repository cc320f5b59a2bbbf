"""Opens a message: which characters are the customer's own words now, and what was asked right above them.

Quoted history, signatures and the shop's own lines become blanks, so that every offset stays.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from replies.reading.context import Channel, Context
from replies.reading.labels import Label, find_labels
from replies.reading.mail import Author, MailLine, Part, Trimmed
from replies.reading.marks import cut, find_marks
from replies.reading.quantities import read_quantities
from replies.reading.speakers import Turn, find_turns, mask_turns
from replies.reading.tidy import tidy
from replies.reading.trim_email import trim_email
from replies.reading.unit_words import Dimension
from replies.reading.words import Words
from sizing.measures import Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Questions:
    """What was asked right before a stretch of the customer's words, in order."""

    start: int
    end: int
    measures: tuple[Measure, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedFor:
    """A value of which the shop asked whether it is right; `unit` is as it stood, None: there was none."""

    measure: Measure
    value: float
    unit: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedBack:
    """A doubt that the shop put into words in a pasted chat: "is that all the way around?".

    since        where the customer's words before it begin
    at           where it stands
    start, end   the customer's words behind it
    atoms        the words for measures and places in it
    """

    since: int
    at: int
    start: int
    end: int
    atoms: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """A message with the customer's own words laid open.

    own        the tidied text with a blank for each character that is not read
    left       (start, end) of what is not read
    units      units for which the shop asked right before: "in cm?"
    older      (start, end) of what the customer quotes of herself
    open_from  what is asked before this place has been answered by the shop
    questions  what stands asked right above the customer's words: quoted, or said by the shop in a pasted chat
    asked_for  values for which the shop asked whether they are right: "is the width really 12 cm?"
    asked_back doubts of the shop in a pasted chat
    asks_fit   in a pasted chat the shop asked for measures, so it is about fit whatever was answered
    numbered   number of a quoted question -> what it asks for
    """

    own: str
    left: tuple[tuple[int, int], ...] = ()
    open_from: int = 0
    older: tuple[tuple[int, int], ...] = ()
    units: tuple[str, ...] = ()
    questions: tuple[Questions, ...] = ()
    asked_for: tuple[AskedFor, ...] = ()
    asked_back: tuple[AskedBack, ...] = ()
    asks_fit: bool = False
    numbered: dict[int, tuple[Measure, ...]]


def open_letter(text: str, context: Context, words: Words) -> Letter:
    """Lay the customer's own words open. `text` is tidied. Never raises; in linear time."""
    if context.channel == Channel.EMAIL:
        return _open_mail(trim_email(text, words.emails), words, first=context.first)
    turns = find_turns(text, words.speakers, lambda name: _is_measure(name, words))
    if turns and not any(_is_measure(turn.speaker, words) for turn in turns):
        return _open_turns(text, turns, words)
    if ">" in text and _QUOTING.search(text):
        return _open_mail(_only_quotes(trim_email(text, words.emails)), words, first=context.first)
    return Letter(own=text, numbered={})


def _is_measure(speaker: str, words: Words) -> bool:
    """Is what looks like a speaker's name a measure: "Length: 12" under "Height: 11"."""
    return bool(measures_named(speaker, words))


_QUOTING = re.compile(r"(?m)^[ \t]*>[ \t]*\S")


def _only_quotes(mail: Trimmed) -> Trimmed:
    """In a chat there are no signatures or headers: only the quoted lines are left out."""
    kept = tuple(
        line
        if line.part in (Part.QUOTED, Part.ATTRIBUTION) and line.depth
        else MailLine(start=line.start, end=line.end, words_start=line.words_start)
        for line in mail.lines
    )
    return Trimmed(text=mail.text, lines=kept, signed=None, questions=mail.questions)


def _open_mail(mail: Trimmed, words: Words, *, first: bool) -> Letter:
    numbered = {number: measures_named(question.text, words) for number, question in mail.numbered().items()}
    return Letter(
        own=mail.masked(first=first),
        left=mail.set_aside(first=first),
        questions=tuple(_asked_above(mail, words)),
        asked_for=_asked_for([question.text for question in mail.questions], words),
        numbered=numbered,
        older=tuple((line.start, line.end) for line in mail.read(first=first) if line.part == Part.QUOTED),
    )


def _asked_above(mail: Trimmed, words: Words) -> Iterator[Questions]:
    """Give what the quoted lines right above each stretch of the customer's lines ask for."""
    quoted: list[MailLine] = []
    own: list[MailLine] = []
    for line in mail.lines:
        blank = not mail.text[line.words_start : line.end].strip()
        if line.part == Part.QUOTED:
            if own:
                yield from _stretch(mail, quoted, own, words)
                quoted, own = [], []
            quoted.append(line)
        elif line.part == Part.OWN and not blank:
            own.append(line)
    if own:
        yield from _stretch(mail, quoted, own, words)


def _stretch(mail: Trimmed, quoted: list[MailLine], own: list[MailLine], words: Words) -> Iterator[Questions]:
    asked = [line for line in quoted if line.author != Author.CUSTOMER]
    text = "\n".join(mail.text[line.words_start : line.end] for line in asked)
    measures = measures_named(text, words)
    if measures:
        yield Questions(start=own[0].start, end=own[-1].end, measures=measures)


def _open_turns(text: str, turns: tuple[Turn, ...], words: Words) -> Letter:
    questions: list[Questions] = []
    measures: tuple[Measure, ...] = ()
    asked_before = False
    units: list[str] = []
    for turn in turns:
        if turn.author == Author.SHOP:
            units += _units_asked(text[turn.words_start : turn.end], words)
            said = text[turn.words_start : turn.end]
            now = measures_named(said, words) or _weight_asked(said, words)
            measures = (*measures, *now) if asked_before else now or measures
            asked_before = True
        else:
            asked_before = False
            if measures:
                questions.append(Questions(start=turn.words_start, end=turn.end, measures=measures))
    left = tuple((turn.start, turn.end if turn.author == Author.SHOP else turn.words_start) for turn in turns)
    shop_last = max((turn.end for turn in turns if turn.author == Author.SHOP), default=0)
    return Letter(
        own=mask_turns(text, turns),
        left=left,
        questions=tuple(questions),
        asked_for=_asked_for([text[turn.words_start : turn.end] for turn in _of_shop(turns)], words),
        asked_back=tuple(_asked_back(text, turns, words)),
        asks_fit=bool(measures),
        numbered={},
        open_from=shop_last,
        units=tuple(units),
    )


def _of_shop(turns: Sequence[Turn]) -> list[Turn]:
    return [turn for turn in turns if turn.author == Author.SHOP]


def _asked_for(texts: Sequence[str], words: Words) -> tuple[AskedFor, ...]:
    """Give the values of questions that hold one amount and name one measure."""
    found: list[AskedFor] = []
    for text in texts:
        for sentence in _SENTENCE.findall(text[:_LONGEST_QUESTION]) if "?" in text else ():
            tidied = tidy(sentence)
            quantities = read_quantities(tidied, words.amounts)
            amounts = [quantity for quantity in quantities.found if quantity.shape == "amount"]
            if not sentence.rstrip().endswith("?") or len(amounts) != 1 or amounts[0].low != amounts[0].high:
                continue
            labels = find_labels(find_marks(cut(tidied, quantities, words), tidied, words), words)
            named = {label.rule.gives for label in labels if label.rule and not label.letter} & set(map(str, Measure))
            found += [AskedFor(measure=Measure(one), value=amounts[0].low, unit=amounts[0].unit) for one in named]
    return tuple(found)


def _asked_back(text: str, turns: Sequence[Turn], words: Words) -> Iterator[AskedBack]:
    """Give the questions of the shop that stand between two turns of the customer and name places of the body."""
    for before, shop, after in zip(turns, turns[1:], turns[2:], strict=False):
        asked = text[shop.words_start : shop.end]
        if (before.author, shop.author, after.author) != _DOUBTED or "?" not in asked:
            continue
        labels = _labels_in(asked[:_LONGEST_QUESTION], words)
        atoms = frozenset[str]().union(*(label.atoms for label in labels))
        if atoms:
            yield AskedBack(
                since=before.words_start, at=shop.start, start=after.words_start, end=after.end, atoms=atoms
            )


_DOUBTED = (Author.CUSTOMER, Author.SHOP, Author.CUSTOMER)


def _units_asked(text: str, words: Words) -> list[str]:
    """Give the units in a question such as "how tall in cm?", "29 cm, yes?"; none where it offers two of a kind."""
    if "?" not in text:
        return []
    quantities = read_quantities(tidy(text[:_LONGEST_QUESTION]), words.amounts)
    told = [(one.unit, one.dimension) for one in quantities.lone]
    told += [(one.unit, one.dimension) for one in quantities.found if one.unit and one.dimension]
    return [unit for unit, dimension in told if len({one for one, other in told if other == dimension}) == 1]


def _weight_asked(text: str, words: Words) -> tuple[Measure, ...]:
    """Read "Is he over 6 kg?": a question that names nothing but a weight asks for it."""
    if "?" not in text:
        return ()
    found = read_quantities(tidy(text[:_LONGEST_QUESTION]), words.amounts).found
    amounts = [one for one in found if one.unit is not None]
    return (Measure.WEIGHT,) if len(amounts) == 1 and amounts[0].dimension is Dimension.WEIGHT else ()


_SENTENCE = re.compile(r"(?:[^\n.!?]|\.(?=[^\s]))+[\n.!?]*")
"""A point within a word or a number ends no sentence."""
_LONGEST_QUESTION = 4000


def measures_named(text: str, words: Words) -> tuple[Measure, ...]:
    """Give the measures that a question names, in order; sentences with amounts say something, and ask nothing."""
    found: list[Measure] = []
    for sentence in _SENTENCE.findall(text[:_LONGEST_QUESTION]):
        for label in _labels_in(sentence, words):
            gives = label.rule.gives if label.rule and not label.letter else None
            measure = next((one for one in Measure if one == gives), None)
            if measure is not None and measure not in found:
                found.append(measure)
    return tuple(found)


def _labels_in(sentence: str, words: Words) -> list[Label]:
    """Give the names of measures in a sentence; () for one that tells amounts; "with two books" tells none."""
    tidied = tidy(sentence)
    quantities = read_quantities(tidied, words.amounts)
    amounts = [one for one in quantities.found if one.shape == "amount" and (one.unit or not one.spelled)]
    if amounts and (amounts[0].start > 3 or len(amounts) > 1):
        return []
    return find_labels(find_marks(cut(tidied, quantities, words), tidied, words), words)
