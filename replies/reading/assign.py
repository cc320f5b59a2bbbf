"""Gives numbers to the names of measures: one optimisation over all numbers and names of a message.

Numbers and names stand in one order, and a name belongs to a number before or behind it, so the cheapest way to give
every number at most one name (or a name on either side: "stands 12 at the shoulder") is found by going along the text
once, remembering only how many of the names behind a number it has taken. Going back along it as well gives, for every
number, the cost of the best way in which it has another measure. Where that is nearly as good, it is not given at all.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import cache

from replies.reading.cheapest import REACH, Given, Option, cheapest, skip_costs
from replies.reading.distance import Distance
from replies.reading.labels import Label
from replies.reading.quantity import Quantity
from replies.reading.unit_words import Dimension
from replies.reading.word_lists import Rule
from replies.reading.words import Words
from sizing.units import from_inches, to_inches, to_pounds

_NO_NAME = 4.6
"""The cost of leaving a number without a name, in unknown words between number and name times two."""
_NO_NAME_WEIGHT = 0.3
"""The same for a number whose unit shows that it is a weight."""

_SECOND = 0.7
"""The weight of the distance of a further name for the same number."""
_COMMA, _BEYOND = 1.4, 0.6
"""A further name on the same side that lies beyond a comma costs this more: it tells of another number."""
_FORMS = {"noun": (0.0, 0.7), "adjective": (0.9, 0.0), "verb": (0.0, 4.8), "place": (0.25, 0.2), "letter": (0.2, 0.2)}
"""The cost of a name before its number, and behind it, by part of speech."""
_LEFT = {"noun": 1.0, "adjective": 1.0, "verb": 0.3, "place": 0.5, "letter": 0.05}
"""The cost of a name that gets no number."""
_LEFT_TOLD_OUT = 1.3
"""The same where the words say from where to where: nobody tells that of nothing."""
_SAYS_HOW = frozenset(("HEADUP", "HEADDOWN"))
_APART = frozenset(("length", "height", "throat_height", "weight", "chest"))
_ASKED, _NEAR = 0.6, 2.5
_OPENS_NEXT = 2.5
"""The cost of a name for the number before it, where a colon says that the one behind it is meant."""
_TOUCHING, _USUAL, _LEFT_TOUCHING = 0.3, 0.3, 1.6
_LEFT_OPENING, _SENTENCE = 2.1, 4.0
"""The cost of leaving a name that touches the first number of its sentence, and how far off the number before lies."""
_PLAUSIBLE = {
    "length": (3.0, 55.0),
    "height": (3.0, 45.0),
    "width": (1.5, 40.0),
    "throat_height": (2.0, 40.0),
    "girth": (5.0, 60.0),
    "neck": (3.0, 40.0),
    "weight": (0.4, 220.0),
}
"""Inches, or pounds: what a number may be of at all. Wide: what is unlikely is asked about (a maker's judgement)."""
_IMPLAUSIBLE = 0.6


def assign(
    numbers: Sequence[int],
    quantities: Sequence[Quantity],
    labels: Sequence[Label],
    *,
    distance: Distance,
    words: Words,
    asked: frozenset[str] = frozenset(),
) -> list[Given]:
    """Give each of the numbers a measure or none.

    numbers    indices of the quantities that may be measures, in order
    asked      measures that had just been asked for: they are a little more likely
    Returns    one entry for every number that has a name or a weight's unit
    """
    if not numbers:
        return []
    gaps = _gaps(numbers, labels, distance)
    left = _left_costs(numbers, labels, gaps, distance)
    options = [
        _options(
            number, quantities, labels, gaps[at], gaps[at + 1], left=left, distance=distance, words=words, asked=asked
        )
        for at, number in enumerate(numbers)
    ]
    return cheapest(numbers, options, [skip_costs(gap, left) for gap in gaps])


def _gaps(numbers: Sequence[int], labels: Sequence[Label], distance: Distance) -> list[list[int]]:
    """Part the names by the numbers between which they stand."""
    gaps: list[list[int]] = [[] for _ in range(len(numbers) + 1)]
    places = [distance.place(number) for number in numbers]
    at = 0
    for index, label in enumerate(labels):
        while at < len(places) and places[at] < label.first:
            at += 1
        gaps[at].append(index)
    return gaps


def _options(
    number: int,
    quantities: Sequence[Quantity],
    labels: Sequence[Label],
    before: Sequence[int],
    after: Sequence[int],
    *,
    left: Sequence[float],
    distance: Distance,
    words: Words,
    asked: frozenset[str],
) -> list[Option]:
    """Give every way to name a number: any of the nearest names on either side that name one measure together."""
    quantity = quantities[number]
    weighs = quantity.dimension == Dimension.WEIGHT
    options = [Option(0, 0, _NO_NAME_WEIGHT if weighs else _NO_NAME, "weight" if weighs else None, (), None)]
    near = [(-place, index) for place, index in enumerate(reversed(before[-REACH:]), start=1)]
    near += [(place, index) for place, index in enumerate(after[:REACH], start=1)]
    costs = {index: _name_cost(number, labels[index], place, distance) for place, index in near}
    fitting: dict[str, float | None] = {}
    for chosen in _choices([entry for entry in near if costs[entry[1]] <= _NO_NAME + 2], labels, costs):
        rule = _rule_of([labels[index] for _, index in chosen], words)
        if rule is None:
            continue
        if rule.gives not in fitting:
            fitting[rule.gives] = _fit(quantity, rule.gives)
        fits = fitting[rule.gives]
        if fits is None:
            continue
        reach_before = max((-place for place, _ in chosen if place < 0), default=0)
        reach_after = max((place for place, _ in chosen if place > 0), default=0)
        skipped = sum(
            left[index]
            for place, index in near
            if -reach_before <= place <= reach_after and (place, index) not in chosen
        )
        first, *others = (costs[index] for _, index in chosen)
        further = sum(0.1 + _SECOND * other for other in others)
        further += _BEYOND * sum(
            costs[index] > _COMMA and (place > 0) == (chosen[0][0] > 0) and _tells_another(labels[index])
            for place, index in chosen[1:]
        )
        cost = first + further + rule.far + fits + skipped
        if first < _NEAR and (rule.gives in asked or (rule.gives == "chest" and "width" in asked)):
            cost -= _ASKED
        options.append(
            Option(reach_before, reach_after, cost, rule.gives, tuple(index for _, index in chosen), rule.hint)
        )
    return options


_Near = tuple[int, int]
"""How many names from the number a name stands, less than 0 before it, and its index."""


def _choices(near: Sequence[_Near], labels: Sequence[Label], costs: Mapping[int, float]) -> Iterator[list[_Near]]:
    """Give every choice of some of the names that tell no two measures at once, each cheapest first."""
    choices: list[tuple[list[_Near], str | None]] = [([], None)]
    for entry in near:
        own = _own_measure(labels[entry[1]])
        longer = [
            ([*chosen, entry], measure or own) if own is None or measure in (None, own) else None
            for chosen, measure in choices
        ]
        pairs = zip(choices, longer, strict=True)
        choices = [choice for pair in pairs for choice in pair if choice is not None]
    for chosen, _ in choices[1:]:
        yield chosen if len(chosen) == 1 else sorted(chosen, key=lambda entry: costs[entry[1]])


def _rule_of(labels: Sequence[Label], words: Words) -> Rule | None:
    """Give what some names tell together; None: nothing."""
    if len(labels) == 1:
        return labels[0].rule
    return words.composer.compose(frozenset().union(*[one.atoms for one in labels]))


def _own_measure(label: Label) -> str | None:
    """Give the measure that a name tells by itself, where no other one can be meant with it."""
    return label.rule.gives if label.rule is not None and label.rule.gives in _APART else None


def _tells_another(label: Label) -> bool:
    """Does a name tell a measure by itself, rather than how the one beside it was taken."""
    return label.rule is not None and label.rule.gives != "none" and label.rule.hint is None


def _name_cost(number: int, label: Label, place: int, distance: Distance) -> float:
    """Give the cost of a name for a number: the way between them, and whether such a word usually stands there."""
    side = 0 if place < 0 else 1
    usual = min(_FORMS[form][side] for form in label.forms)
    if label.letter:
        return usual + distance.letter(label, number)
    if side == 0:
        return usual + distance.before(label.last, number)
    return usual + distance.after(number, label.first) + (_OPENS_NEXT if distance.opens(label) else 0.0)


def _fit(quantity: Quantity, measure: str) -> float | None:
    """Give the cost of a value for a measure; None: a length can't be a weight, nor a weight a length."""
    weighs = quantity.dimension == Dimension.WEIGHT
    if measure == "none":
        return 0.0
    if quantity.dimension is not None and weighs != (measure == "weight"):
        return None
    least, most = _PLAUSIBLE.get(measure, (1.0, 60.0))
    if quantity.unit is None:
        most = _most_bare(measure, most)
        low, high = quantity.low, quantity.high
    else:
        convert = to_pounds if weighs else to_inches
        low, high = convert(quantity.low, quantity.unit), convert(quantity.high, quantity.unit)
    return 0.0 if least <= low and high <= most else _IMPLAUSIBLE


@cache
def _most_bare(measure: str, most: float) -> float:
    """Give the largest number that may be of a measure whatever its unit."""
    return to_pounds(most, "kg") if measure == "weight" else from_inches(most, "cm")


def _left_cost(label: Label) -> float:
    if label.atoms & _SAYS_HOW:
        return 1.3
    if label.rule is None or label.rule.gives == "none":
        return 0.6
    if label.rule.hint is not None:
        return 1.5
    if "FLOOR" in label.atoms and len(label.atoms) > 1:
        return _LEFT_TOLD_OUT
    return min(_LEFT[form] for form in label.forms)


def _left_costs(
    numbers: Sequence[int], labels: Sequence[Label], gaps: Sequence[Sequence[int]], distance: Distance
) -> list[float]:
    """Give for each name the cost of leaving it without a number; higher where it touches one on its usual side."""
    costs = [_left_cost(label) for label in labels]
    for at, number in enumerate(numbers):
        for side, gap in ((0, gaps[at][-1:]), (1, gaps[at + 1][:1])):
            for index in gap:
                label = labels[index]
                way = distance.before(label.last, number) if side == 0 else distance.after(number, label.first)
                opens = side == 0 and len(gap) == 1 and _opens(numbers, at, label, distance)
                if opens and way <= _TOUCHING and not label.letter:
                    costs[index] = max(costs[index], _LEFT_OPENING)
                if way <= _TOUCHING and not label.letter and min(_FORMS[form][side] for form in label.forms) <= _USUAL:
                    costs[index] = max(costs[index], _LEFT_TOUCHING)
    return costs


def _opens(numbers: Sequence[int], at: int, label: Label, distance: Distance) -> bool:
    """Does a name stand before the first number of its sentence: it can be of no number before it."""
    return at == 0 or distance.after(numbers[at - 1], label.first) >= _SENTENCE
