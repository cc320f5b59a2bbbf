"""Tells which numbers stand before and behind the words of scopes.toml: how far such words reach."""

from replies.reading.cues import Cue
from replies.reading.marks import NUMBER, PHRASE, SENTENCE_ENDS, STOP, Mark
from replies.reading.page import Candidate, Page
from replies.reading.quantity import Quantity
from replies.reading.shapes import Shape
from replies.reading.small_words import Small
from replies.reading.unit_words import Dimension
from sizing.units import to_inches

BACK = 4
"""So many words may stand between a number and words that reach back to it."""
CLOSE_BY = 4
"""So many marks behind "her mum" its number must follow."""
LOOKED_AHEAD = 14
"""A bracket is looked through so far."""
_SEVERAL = 2
_SHORTEST_PERSON = 36.0
"""Inches: no customer is so short."""
_GROWN = 18
"""From so many months a dog is grown."""
_YEARS = range(1990, 2040)


class Reach:
    """Looks around in the marks of a message."""

    def __init__(self, page: Page, hits: list[Cue]) -> None:
        self.page = page
        self.marks = page.marks
        self.hits = {hit.first: hit for hit in hits}
        self.named = {named.first: named for named in page.names}

    def is_now(self, at: int, *turns: str) -> bool:
        """Does "now", "without" stand right behind the number, in the same clause."""
        for place in range(at + 1, min(at + 3, len(self.marks))):
            if self.marks[place].kind != PHRASE:
                return False
            hit = self.hits.get(place)
            if hit is not None:
                return hit.says("turn", *(turns or ("now", "off")))
        return False

    def is_amount(self, candidate: Candidate) -> bool:
        """Is it an amount of something, no date, age or price."""
        return self.page.quantities.found[candidate.number].shape in (Shape.AMOUNT, Shape.HASH)

    def place(self, number: int) -> int:
        """Give the index of a number's mark."""
        return self.page.distance.place(number)

    def reach_back(self, hit: Cue, *, pointed: bool = False) -> list[int]:
        """Give the numbers right before a phrase, in its clause; across a comma where it points back: "that was"."""
        at, far = hit.first - 1, BACK
        points = self.pointing_before(hit)
        if points is not None:
            at, far = points - 1, BACK + 2
        elif pointed:
            return []
        while at >= 0 and hit.first - at <= far + 2:
            mark = self.marks[at]
            if mark.kind == NUMBER:
                return self.run(at)
            if mark.kind == STOP and not self.is_crossed(mark, at, points):
                return []
            if mark.kind == PHRASE and points is None and mark.has("pronoun") and mark.among(Small.HE_OR_SHE):
                return []
            at -= 1
        return []

    def pointing_before(self, hit: Cue) -> int | None:
        """Give the place of "that was" right before a phrase; None: nothing points back."""
        for at in range(hit.first - 1, max(hit.first - 4, -1), -1):
            other = self.hits.get(at)
            if other is not None and other.says("pointing"):
                return at
            if self.marks[at].kind != PHRASE:
                return None
        return None

    def is_crossed(self, mark: Mark, at: int, points: int | None) -> bool:
        """May the way back to a number cross this sign."""
        if mark.text in ('"', "'", "*"):
            return True
        if mark.text == "(":
            return not self.number_in_bracket(at)
        return points is not None and mark.text in (",", "-", ".", ";", ")")

    def number_in_bracket(self, at: int) -> bool:
        """Does a bracket tell a number of its own."""
        for mark in self.marks[at + 1 : at + LOOKED_AHEAD]:
            if mark.text == ")":
                return False
            if mark.kind == NUMBER and self.is_amount(self.page.candidates[mark.quantity]):
                return True
        return False

    def run(self, at: int) -> list[int]:
        """Give a number and those joined to it by "and": "13 in and 14 lb when grown"."""
        found = [at] if self.is_amount(self.page.candidates[self.marks[at].quantity]) else []
        place = at - 1
        while found and place >= 0 and found[-1] - place <= BACK:
            mark = self.marks[place]
            if mark.kind == NUMBER:
                joins = any(one.has("list") or one.text in "&/" for one in self.marks[place + 1 : found[-1]])
                if not joins or not self.is_amount(self.page.candidates[mark.quantity]):
                    break
                found.append(place)
            elif not (mark.has("list", "atom", "filler", "connector", "letter") or mark.text in ("&", "/", "x")):
                break
            place -= 1
        return [self.marks[one].quantity for one in found]

    def number_follows(self, hit: Cue) -> bool:
        """Does its number follow on "her mum": "is 16 lb", "11 lb", "(9 kg)", ", who's a 22 lb brute"."""
        before = self.marks[hit.first - 1] if hit.first else None
        if before is not None and before.among(Small.MY_OR_OUR):
            return False
        behind = self.marks[hit.last + 1 : hit.last + 1 + CLOSE_BY]
        for mark in behind:
            if mark.kind == NUMBER:
                return self.is_amount(self.page.candidates[mark.quantity])
            if mark.kind == STOP and mark.text not in (":", "(", "=", "-"):
                return False
            if mark.kind == PHRASE and not self.leads_on(mark) and not (hit.says("around") and mark.has("pronoun")):
                return False
        return False

    def leads_on(self, mark: Mark) -> bool:
        """May a word stand between "her mum", "my daughter" and her number."""
        if mark.among(Small.ONLY_SPEAKS, Small.SAYS):
            return False
        return mark.has("filler", "connector", "atom") or mark.among(Small.TELLS_OF_ONE, Small.OVER_TO_PERSON)

    def is_of_dog_named_by_breed(self, number: int) -> bool:
        """Is a dog or a breed what a number is said of: "the beagle is 25 lb", not "he is 25 lb"."""
        place = self.place(number)
        before = self.marks[max(0, place - BACK) : place]
        told = [mark.has("dog", "breed", "animal", "mark") for mark in before if mark.kind == PHRASE]
        return any(told) and not any(mark.among(Small.HE_OR_SHE) for mark in before)

    def is_contrasted(self, hit: Cue) -> bool:
        """Does the sentence turn back to the dog behind its brother's number, with a number of its own."""
        told = turned = False
        for at in range(hit.last + 1, min(hit.last + 1 + 2 * LOOKED_AHEAD, len(self.marks))):
            mark = self.marks[at]
            if mark.text in SENTENCE_ENDS and mark.kind == STOP:
                return False
            if mark.kind == NUMBER:
                if turned:
                    return True
                told = True
            elif told and (at in self.named or self.is_short_subject(at) or self.turns_at(at)):
                turned = True
        return False

    def turns_at(self, at: int) -> bool:
        """Do words that turn back to the dog begin at a mark."""
        return at in self.hits and self.hits[at].says("turn")

    def dog_follows(self, hit: Cue) -> bool:
        """Does a dog or an animal come right behind: "sleeps next to our 60 lb boxer"."""
        behind = self.marks[hit.last : hit.last + 2 + CLOSE_BY]
        for mark in behind:
            if mark.kind == STOP:
                return False
            if mark.kind == PHRASE and mark.has("dog", "breed", "animal", "large_animal", "owner", "kin", "mark"):
                return True
        return False

    def is_year(self, at: int) -> bool:
        """Is a number one of the last or next years."""
        quantity = self.page.quantities.found[self.marks[at].quantity]
        return quantity.unit is None and quantity.low in _YEARS

    def has_become(self, at: int) -> bool:
        """Is it the first number of "from 18 lb to 15 lb": a range goes up."""
        if not at or not self.marks[at - 1].among(Small.CHANGES_FROM):
            return False
        behind = self.marks[at + 1 : at + 3]
        if len(behind) < 2 or behind[1].kind != NUMBER or not behind[0].among(Small.MERELY_TO):
            return False
        one, other = (self.page.quantities.found[mark.quantity] for mark in (self.marks[at], behind[1]))
        return other.unit is not None and one.unit in (None, other.unit) and other.high < one.low

    def is_change(self, at: int) -> bool:
        """Is a range what a weight has gone through: "gained 3 lb, so from 11 to 14 lb"."""
        quantity = self.page.quantities.found[self.marks[at].quantity]
        if quantity.low == quantity.high or not at or not self.marks[at - 1].among(Small.CHANGES_FROM):
            return False
        return any(mark.among(Small.CHANGES) for mark in self.marks[max(0, at - LOOKED_AHEAD) : at])

    def ages_told(self) -> dict[int, float]:
        """Give the ages behind "at" by their marks, in months, where there are several: "at 8 weeks 3 lb, at 16 8"."""
        found: dict[int, float] = {}
        if sum(one.shape is Shape.DURATION for one in self.page.quantities.found) < _SEVERAL:
            return found
        for at in range(1, len(self.marks)):
            mark = self.marks[at]
            if mark.kind != NUMBER or not self.marks[at - 1].among(Small.AT_AGE):
                continue
            months = self._months(self.page.quantities.found[mark.quantity])
            if months is not None:
                found[at] = months
        return found if len(set(found.values())) > 1 else {}

    def _months(self, quantity: Quantity) -> float | None:
        """Give an age in months; None: it is none."""
        if quantity.shape != Shape.DURATION:
            return None
        word = self.page.tidied.folded[quantity.start : quantity.end].split()[-1].lstrip("0123456789.-")
        units = self.page.words.ages.units
        return quantity.high * units[word] if word in units else None

    def is_young(self) -> bool:
        """Does the message speak of a dog that still grows."""
        if self.page.index.holds_among(Small.YOUNG):
            return True
        ages = [self._months(quantity) for quantity in self.page.quantities.found]
        return any(months is not None and months < _GROWN for months in ages)

    def is_short_subject(self, at: int) -> bool:
        """Is it "him 5.2 kg", "she only 7 lb"."""
        if not self.marks[at].has("pronoun"):
            return False
        behind = self.marks[at + 1 : at + 3]
        if behind and behind[0].among(Small.HEDGES_VALUE, Small.OVER_TO_PERSON):
            behind = behind[1:]
        return bool(behind) and behind[0].kind == NUMBER

    def animal_follows(self, at: int) -> bool:
        """Does a number follow on a cat or a horse: "our cat is 12 lb"."""
        mark = self.marks[at]
        if not mark.has("animal", "large_animal") or mark.has("breed", "filler", "connector"):
            return False
        return not (at and self.marks[at - 1].kind == NUMBER) and self.number_follows(Cue(at, at))

    def is_of_animal(self, at: int) -> bool:
        """Does a cat or a goose stand right behind a number: "as heavy as our 13 lb goose"."""
        mark = self.marks[at + 1] if at + 1 < len(self.marks) else None
        return mark is not None and mark.has("animal", "large_animal") and not mark.has("breed", "filler", "connector")

    def is_behind_but(self, at: int) -> bool:
        """Does "but" stand right before a mark: "like her mum, but today she is 7 lb"."""
        return at > 0 and self.marks[at - 1].among(Small.TURNS_CLAUSE)

    def is_short(self, at: int) -> bool:
        """Is it a length, with its unit, that no person has: "my husband has 38 cm"."""
        quantity = self.page.quantities.found[self.marks[at].quantity]
        if quantity.unit is None or quantity.dimension is not Dimension.LENGTH:
            return False
        return to_inches(quantity.high, quantity.unit) < _SHORTEST_PERSON
