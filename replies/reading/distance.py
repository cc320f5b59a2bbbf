"""How far a number and a name are apart: the words and signs between them, each with its cost."""

from collections.abc import Sequence

from replies.reading.labels import Label
from replies.reading.marks import NUMBER, PHRASE, Mark
from replies.reading.quantity import Quantity

_STOPS = {
    ",": (1.5, 1.5),
    ";": (3.0, 3.0),
    ".": (4.0, 6.0),
    "...": (0.4, 3.0),
    "!": (4.0, 6.0),
    "?": (2.0, 5.0),
    "\n": (3.0, 5.0),
    "\n\n": (6.0, 8.0),
    ":": (0.0, 1.8),
    "=": (0.0, 1.8),
    "-": (0.3, 0.4),
    "(": (0.4, 0.4),
    ")": (1.0, 1.2),
    "\t": (0.2, 1.0),
    "/": (2.0, 2.0),
    "|": (2.0, 2.5),
    "&": (1.2, 1.2),
    "+": (1.2, 1.2),
    "@": (0.1, 0.1),
    "*": (0.1, 0.1),
    '"': (0.1, 0.1),
    "'": (0.1, 0.1),
    "~": (0.0, 0.3),
    ">": (0.1, 0.3),
    "→": (0.0, 0.3),
    "#": (0.2, 0.5),
}
"""The cost of a sign behind a name and before its number, and the other way round."""
_OTHER_STOP = (0.3, 0.4)
_ASKED = 0.6
"""A question mark right before the answer: "How tall? 12"."""
_PICTURE = (1.8, 2.0)
"""A picture stands where others set a full stop."""
_JOINING, _KNOWN, _UNKNOWN, _AND, _NUMBER = 0.08, 0.3, 0.5, 1.2, 2.0


_OPENS = 3.5
"""A letter with a colon behind it opens what follows."""


class Distance:
    """Measures the ways between the marks of one message, from sums made once."""

    def __init__(self, marks: Sequence[Mark], quantities: Sequence[Quantity]) -> None:
        self._places = [0] * len(quantities)
        self._marks = marks
        before, after = [0.0], [0.0]
        for at, mark in enumerate(marks):
            if mark.kind == NUMBER:
                self._places[mark.quantity] = at
                if quantities[mark.quantity].restates:
                    before.append(before[-1])
                    after.append(after[-1])
                    continue
            behind_name, behind_number = _cost(mark)
            if (
                mark.text == "?"
                and _ends_name(marks, at)
                and at + 1 < len(marks)
                and (marks[at + 1].kind == NUMBER or marks[at + 1].text in ("-", ":", ">", "="))
            ):
                behind_name = _ASKED
            before.append(before[-1] + behind_name)
            after.append(after[-1] + behind_number)
        self._before, self._after = before, after

    def place(self, number: int) -> int:
        """Give the index of a number's mark."""
        return self._places[number]

    def before(self, last: int, number: int) -> float:
        """Give the way from the last mark of a name to a number behind it."""
        return self._before[self._places[number]] - self._before[last + 1]

    def after(self, number: int, first: int) -> float:
        """Give the way from a number to the first mark of a name behind it."""
        return self._after[first] - self._after[self._places[number] + 1]

    def opens(self, label: Label) -> bool:
        """Does a colon behind a name say that its number follows."""
        return label.last + 1 < len(self._marks) and self._marks[label.last + 1].text in (":", "=")

    def _is_glued_on(self, letter: int) -> bool:
        """Is a number tied to a letter before it: "L-13"."""
        following = self._marks[letter + 1 : letter + 3]
        tied = len(following) == 2 and following[0].text == "-" and following[1].kind == NUMBER
        return tied and following[0].glued and following[1].glued

    def letter(self, label: Label, number: int) -> float:
        """Give the way between a number and a letter, which must stand at it: glued best, else beside it."""
        place = self._places[number]
        if label.first < place:
            if place - label.first == 1 or (place - label.first == 2 and self._is_glued_on(label.first)):
                return 0.0 if self._marks[place].glued else 0.3
            return 0.3 + 3 * self.before(label.last, number)
        if self.opens(label) or self._is_glued_on(label.first):
            return _OPENS
        if label.first - place == 1:
            return 0.0 if self._marks[label.first].glued else 0.3
        return 0.5 + 3 * self.after(number, label.first)


def _ends_name(marks: Sequence[Mark], at: int) -> bool:
    """Does the name of a measure stand right before the sign, or in brackets there."""
    before = [mark for mark in marks[max(0, at - 3) : at] if mark.text != ")"]
    return bool(before) and before[-1].kind == PHRASE and before[-1].has("atom", "connector")


def _cost(mark: Mark) -> tuple[float, float]:
    if mark.kind == NUMBER:
        return _NUMBER, _NUMBER
    if mark.kind != PHRASE:
        return _STOPS.get(mark.text, _OTHER_STOP if mark.text.isascii() else _PICTURE)
    if not mark.senses:
        return _UNKNOWN, _UNKNOWN
    if mark.has("list"):
        return _AND, _AND
    if mark.has("filler", "connector"):
        return _JOINING, _JOINING
    return _KNOWN, _KNOWN
