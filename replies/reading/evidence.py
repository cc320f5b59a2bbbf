"""Weighs what speaks in a clause for a question about fit, for one about something else, and for a complaint."""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from replies.reading.clauses import Clause
from replies.reading.marks import NUMBER
from replies.reading.topic_words import FormWords, Group, Tells, TopicVocabulary

ENOUGH, STRONG, SURE = 1.0, 1.5, 2.0
"""Weights that are enough to be heard, that are heard beside others, and that no other outweighs."""
_HALF = 0.5
"""What asks so much does so only beside words that are surely about something else."""
_MARK = 1.5
"""How much a question mark asks."""
_UNKNOWN, _MOST_UNKNOWN = 0.75, 1.5
"""How much a word that no question about fit needs speaks for something else, and all such words at most."""
_MONEY = _THING = 2.0
_ANIMAL = _VARIANT = 1.5
"""How much a price, another thing to be fitted into, another animal and "the stripy one" speak for something else."""
_SIZE = _BODY = _BREED = 1.0
"""How much a size of the shop, a place of the body and a breed speak for fit."""
_SCRAP = 1
"""Words of what is hardly a question."""
_BRIEF = 4
"""Words of a clause that is no more than its subject: "price list pls"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """What speaks for what in a clause.

    asks      it is a question or a request
    wishes    it is a wish, told and not asked
    fit       weight of the words about fit
    sure      it asks which size in as many words
    known     weight of the words that are known to be about something else
    unknown   weight of words that no question about fit needs
    wrong     it complains
    uneasy    it may complain, or plead: so it does where nothing in the message is about fit
    sold      it is about what was bought
    measured  it gives a measure
    vague     one word alone makes it seem about something else, and it is of what was just told, or a scrap: "ish?"
    """

    asks: bool
    wishes: bool
    fit: float
    sure: bool
    known: float
    unknown: float
    wrong: bool
    uneasy: bool
    sold: bool
    measured: bool
    vague: bool = False

    @property
    def refers_back(self) -> bool:
        """Does it ask and name nothing: "is that ok?"."""
        return self.asks and not (self.fit or self.known or self.unknown or self.wrong)

    @property
    def about_fit(self) -> bool:
        """Does it ask which size fits or how to measure, whatever else it asks."""
        if not (self.asks or self.wishes):
            return False
        return self.sure or (self.fit >= STRONG and self.fit > self.known) or (self.fit > 0 and not self.about_other)

    @property
    def about_other(self) -> bool:
        """Does it ask for something that is not about fit, or complain."""
        if self.wrong:
            return True
        if (self.asks or self.wishes) and self.known >= ENOUGH:
            return True
        return self.asks and self.unknown > 0 and self.unknown >= self.fit and not self.sure


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What the reader knows of a message: code points at which marks begin, and numbers of quantities.

    names      words of a dog's name
    expected   breeds, words for measures, dogs told apart
    breeds     breeds of dogs;  animals: other animals
    body       places of the body and measures
    labels     words that name the measure of a number that was read
    things     crates, seats and other things that have a size;  objects: numbers of such sizes
    measured   numbers that are a dog's measures
    money      prices;  durations: days and weeks
    sizes      sizes of the shop: "the 3"
    """

    names: AbstractSet[int]
    expected: AbstractSet[int]
    body: AbstractSet[int]
    breeds: AbstractSet[int]
    animals: AbstractSet[int]
    durations: AbstractSet[int]
    labels: AbstractSet[int]
    things: AbstractSet[int]
    objects: AbstractSet[int]
    measured: AbstractSet[int]
    money: AbstractSet[int]
    sizes: AbstractSet[int]


def weigh(clause: Clause, vocabulary: TopicVocabulary, known: Known) -> Evidence:
    """Weigh a clause."""
    names = _names_heard(clause, vocabulary, known)
    heard = [vocabulary.groups[name] for name in sorted(names)]
    numbers = {mark.quantity for mark in clause.marks if mark.kind == NUMBER}
    starts = {mark.start for mark in clause.marks}
    measured = bool(numbers & known.measured)
    strange = _strange_words(clause, vocabulary, known)
    fit = _fit(starts, heard, known) + _SIZE * bool(numbers & known.sizes)
    other = _other(starts, heard, known) + _MONEY * bool(numbers & known.money)
    other += _VARIANT * _names_variant(clause, vocabulary.forms, strange)
    if "dog" not in names and ("fits" in names or numbers & known.objects):
        other += _THING * (not starts.isdisjoint(known.things))
    asks = clause.form + _MARK * clause.marked + sum(group.asks for group in heard if not group.wish)
    brief = clause.words <= _BRIEF
    subject = brief and not numbers and "done" not in names and any(group.brief for group in heard)
    tells = {group.tells for group in heard}
    return Evidence(
        asks=bool(clause.loose or heard) and (asks >= ENOUGH or subject or (asks >= _HALF and other >= STRONG)),
        wishes=any(group.wish for group in heard),
        fit=fit,
        sure=any(group.fit >= SURE for group in heard),
        known=other,
        unknown=0.0 if measured else min(_MOST_UNKNOWN, _UNKNOWN * len(strange)),
        wrong=_is_wrong(tells, other, brief=brief and not fit and not measured, measured=measured),
        uneasy=_is_uneasy(
            tells,
            names,
            strange=bool(strange) and not _is_glad(clause, tells),
            waited=bool(numbers & known.durations),
            known=other,
        ),
        sold=any(group.sold for group in heard),
        measured=measured,
        vague=len(strange) == 1 and other < ENOUGH and _is_vague(clause, vocabulary),
    )


def _is_vague(clause: Clause, vocabulary: TopicVocabulary) -> bool:
    """Does it ask of what was just told or done ("where would that land us?"), or is it a scrap: "ish?"."""
    if clause.words <= _SCRAP and not clause.form:
        return True
    forms = vocabulary.forms
    pairs = zip(clause.marks, clause.marks[1:], strict=False)
    return any(
        second.text in forms.inversions.get(first.text, ())
        and (second.text in forms.just_told or (second.text == "i" and first.text in forms.own_acts))
        for first, second in pairs
    )


def _names_heard(clause: Clause, vocabulary: TopicVocabulary, known: Known) -> set[str]:
    """Give the groups that speak in a clause, each once."""
    names: set[str] = set()
    for hit in clause.hits:
        if hit.idle or hit.start in known.labels or hit.start in known.names:
            continue
        names |= {name for name in hit.names if not vocabulary.groups[name].first or hit.first == clause.opens}
    return names


def _strange_words(clause: Clause, vocabulary: TopicVocabulary, known: Known) -> list[int]:
    """Give where the words begin that no question about fit needs."""
    return [
        mark.start
        for mark in clause.loose
        if _is_strange(mark.text, vocabulary) and mark.start not in known.names and mark.start not in known.expected
    ]


def _fit(starts: AbstractSet[int], heard: Sequence[Group], known: Known) -> float:
    """Weigh what speaks for fit; weak words count only beside others."""
    weight = sum(group.fit for group in heard if not group.weak)
    weight += sum(group.fit for group in heard if group.weak) if weight else 0.0
    weight += _BODY * (not starts.isdisjoint(known.body))
    dogs = known.breeds | known.names if any(group.wish for group in heard) else known.breeds
    return weight + _BREED * (not starts.isdisjoint(dogs))


def _other(starts: AbstractSet[int], heard: Sequence[Group], known: Known) -> float:
    """Weigh what is known to speak for something else."""
    wishes = any(group.wish for group in heard)
    weight = sum(group.other for group in heard if wishes or not group.wished)
    return weight + _ANIMAL * (not starts.isdisjoint(known.animals))


def _names_variant(clause: Clause, forms: FormWords, strange: Sequence[int]) -> bool:
    """Is it "the stripy one": one of several by a word that no question about fit needs."""
    rows = zip(clause.marks, clause.marks[1:], clause.marks[2:], strict=False)
    return bool(strange) and any(
        first.text in forms.pointing and second.start in strange and third.text in forms.ones
        for first, second, third in rows
    )


def _is_strange(word: str, vocabulary: TopicVocabulary) -> bool:
    forms = vocabulary.forms
    return (
        word not in vocabulary.plain
        and word not in forms.inversions
        and word not in forms.question_words
        and word not in forms.openers
    )


def _is_wrong(tells: AbstractSet[Tells | None], known: float, *, brief: bool, measured: bool) -> bool:
    """Does the clause complain: of harm to what the shop made or sent, or of something that has not come."""
    if Tells.OWN in tells and Tells.ERRAND not in tells:
        return False
    if Tells.COMPLAINT in tells:
        return True
    ours = bool(tells & {Tells.OURS, Tells.IT, Tells.CAME, Tells.ERRAND}) or known >= STRONG
    lacks = Tells.LACK in tells and Tells.CAME in tells and (not measured or Tells.OURS in tells)
    return (Tells.HARM in tells and (ours or brief)) or lacks


def _is_glad(clause: Clause, tells: AbstractSet[Tells | None]) -> bool:
    """Is it told with joy that something has come: "the bag arrived and Lumi sleeps in it!"."""
    return clause.marks[-1].text == "!" and Tells.CAME in tells and not tells & {Tells.HARM, Tells.LACK}


def _is_uneasy(
    tells: AbstractSet[Tells | None], names: AbstractSet[str], *, strange: bool, waited: bool, known: float
) -> bool:
    """May the clause complain or plead.

    So it does where it tells of harm, of a long wait, or in words that praise has no use for of what the shop made
    ("one side of the bag hangs lower"), and where it holds a "please" with a word unheard of.
    """
    if "praise" in names or (Tells.OWN in tells and Tells.ERRAND not in tells):
        return False
    if (waited and tells & {Tells.LONG, Tells.LACK}) or Tells.PLEA in tells:
        return True
    made = Tells.OURS in tells or "parts" in names
    harmed = Tells.HARM in tells or (made and strange) or (Tells.LACK in tells and known >= STRONG)
    return (harmed and "dog" not in names) or ("please" in names and strange)
