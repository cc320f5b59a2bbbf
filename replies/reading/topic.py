"""Tells what a message is: about fit, something else that the maker must answer, or nothing to answer.

One idea: whatever is asked or requested and is not about fit goes to the maker. So a question is taken to be about
something else as soon as it holds a word that a question about fit has no use for, known or not.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from replies.reading.distractors import SENTENCE_ENDS
from replies.reading.dogs import is_of_other_animals
from replies.reading.facts import DogReading, Passage, SetAside, Topic
from replies.reading.marks import NUMBER, PHRASE, STOP, Mark, find_topic_marks
from replies.reading.page import Page
from replies.reading.shapes import Shape
from sizing.measures import Measure

_BRIEF = 5
"""Marks of a sentence that names a subject and no more: "price please"."""
_GREETING = 4
"""Words of a question that is no more than a greeting: "anyone there?"."""
_SHORT = 14
"""Marks of a message so short that a measure named in it is what it is about."""
_OPENERS = frozenset(("and", "but", "so", "also", "or", "then", "plus", "oh", "ps", "hi", "hello", "hey", "hiya", "ok", "okay", "btw", "und", "en", "et", "y", "e", "og", "och", "i", "oraz", "ja", "na", "well", "thanks", "cheers", "perfect", "great", "brilliant", "cool", "lovely", "sorry", "please", "just", "yes", "no", "hallo", "hola", "ciao", "bonjour"))
"""Words behind which a question may open in the middle of a sentence."""


@dataclass(frozen=True, slots=True)
class _Sentence:
    """A sentence with the way it is put.

    question   with a question mark, or opened as a question
    request    with a word of request
    strange    how many words it has that a question about fit has no use for
    measured   it gives a measure
    """

    marks: Sequence[Mark]
    question: bool
    request: bool
    strange: int
    measured: bool

    def has(self, *kinds: str) -> bool:
        return any(mark.has(*kinds) for mark in self.marks if mark.senses)

    @property
    def asking(self) -> bool:
        return self.question or self.request

    @property
    def marked(self) -> bool:
        return self.marks[-1].text == "?"

    @property
    def words(self) -> int:
        return sum(len(mark.text.split()) for mark in self.marks if mark.kind == PHRASE)


def topic_of(page: Page, dogs: Sequence[DogReading], *, open_from: int) -> tuple[Topic, tuple[Passage, ...]]:
    """Give the topic, and the passages that ask something that the maker must answer herself.

    open_from   what was asked before this place of the text has been answered
    """
    sentences = [one for one in _sentences(page) if one.marks[-1].end > open_from]
    if any(sentence.has("automatic") for sentence in sentences):
        return Topic.NONE, ()
    told = any(_tells(page, dog) for dog in dogs) or bool(page.length_unit or page.weight_unit)
    sizes = [sentence for sentence in sentences if _asks_for_size(page, sentence)]
    fit = bool(told or sizes or _speaks_of_measures(page))
    other = [sentence for sentence in sentences if _asks_other(page, sentence, fit=fit, size=sentence in sizes)]
    passages = tuple(page.passage(sentence.marks[0].start, sentence.marks[-1].end) for sentence in other)
    if is_of_other_animals(page) or (not sizes and _is_only_said_in_passing(page, sentences, dogs)):
        return Topic.OTHER, passages
    if fit:
        return Topic.SIZING, passages
    return (Topic.OTHER if other else Topic.NONE), passages


def _tells(page: Page, dog: DogReading) -> bool:
    """Is something told of a dog: a measure, or the name of one that is known."""
    return bool(dog.facts or dog.confirmed or dog.withdrawn or (dog.name and dog.known is not None and page.context.dogs[dog.known].name is None))


def _sentences(page: Page) -> Iterator[_Sentence]:
    """Part the marks into sentences, each with the sign that ends it."""
    marks = find_topic_marks(page.pieces, page.tidied, page.words)
    named = {page.marks[at].start for name in page.names for at in range(name.first, name.last + 1)}
    measured = {page.quantities.found[one.number].start for one in page.candidates if one.aside is None and one.measure}
    named |= {mark.start for mark in page.marks if mark.kind == PHRASE and mark.has("breed")}
    start = 0
    for at in range(len(marks) + 1):
        ends = at == len(marks) or (marks[at].kind == STOP and marks[at].text in SENTENCE_ENDS)
        if ends or (at > start + 2 and _begins_another(marks, at)):
            sentence = marks[start : at + 1]
            if any(mark.kind != STOP for mark in sentence):
                yield _Sentence(
                    sentence,
                    sentence[-1].text == "?" or _opens_question(sentence),
                    any(mark.has("request") for mark in sentence if mark.senses),
                    sum(_is_strange(page, mark, named) for mark in sentence),
                    any(mark.kind == NUMBER and mark.start in measured for mark in sentence),
                )
            start = at + 1


def _begins_another(marks: Sequence[Mark], at: int) -> bool:
    """Does a second question begin in the middle of a sentence: "..., and can the bag be adjusted"."""
    joins = marks[at].text in ("and", "also", "plus", "but") or marks[at].text == ","
    following = marks[at + 1] if at + 1 < len(marks) else None
    if not joins or following is None or following.kind != PHRASE or not _is_question(following):
        return False
    return marks[at].text != "," or following.text.split()[0] not in _RELATIVE


_RELATIVE = frozenset(("who", "which", "when", "where", "what", "was", "wo", "que", "che", "qui", "quand", "cuando", "quando", "como", "come", "nar", "hvor", "var"))
"""In the middle of a sentence these open no question: "my other dog, who is 70 lb"."""
_FIRST = frozenset(("how", "hows", "what", "whats", "which", "when", "where", "wheres", "who", "whos", "why", "can", "could", "do", "does", "did", "is", "are", "will", "would", "should", "has", "have", "any", "combien", "cuanto", "cuanta", "quanto", "quanta", "was", "wie", "wat", "hoeveel", "ile", "possible", "c'est", "wann", "wo"))


def _is_question(mark: Mark) -> bool:
    """Is it a word of question, or a phrase that begins with one: "how much is"."""
    return mark.has("question") or (mark.has("asks", "size", "fit", "measuring") and mark.text.split()[0] in _FIRST and " " in mark.text)


def _opens_question(sentence: Sequence[Mark]) -> bool:
    """Does a word of question open the sentence, or a clause of it."""
    opening = True
    first = next((mark for mark in sentence if mark.kind == PHRASE and mark.text not in _OPENERS), None)
    for mark in sentence:
        if mark.kind == STOP:
            opening = opening or mark.text in (",", "-", ":", "(", ")") or not mark.text.isascii()
            continue
        if mark.kind == PHRASE and opening and _is_question(mark) and (mark is first or mark.text.split()[0] not in _RELATIVE):
            return True
        if mark.kind == PHRASE and mark.has("asks") and mark.text.split()[0] in ("how", "combien", "cuanto", "quanto", "hoeveel", "ile"):
            return True
        if mark.kind == PHRASE and mark.text in ("and", "but", "so", "also", "or", "plus"):
            opening = True
            continue
        opening = opening and mark.kind == PHRASE and (mark.text in _OPENERS or mark.has("greeting"))
    return False


def _is_strange(page: Page, mark: Mark, named: set[int]) -> bool:
    """Is it a word that a question about fit has no use for."""
    if mark.kind != PHRASE or mark.start in named:
        return False
    if mark.has("size", "fit", "measuring", "greeting", "harmless", "praise"):
        return False
    return any(word not in page.words.plain and not word.isdigit() for word in mark.text.split())


def _asks_other(page: Page, sentence: _Sentence, *, fit: bool, size: bool) -> bool:
    """Does a sentence ask or request something that is not about fit, or complain."""
    if sentence.has("complaint"):
        return sentence.asking or not fit or any(mark.text in ("your", "order", "parcel") for mark in sentence.marks)
    if sentence.marked and any(_is_money(page, mark) or _is_of_thing(page, mark) for mark in sentence.marks):
        return True
    if sentence.has("asks") and (sentence.asking or _is_brief(sentence)):
        return True
    if sentence.measured or sentence.has("harmless") or (size and not (sentence.strange > 1 and not sentence.has("size", "fit"))):
        return False
    if not fit:
        return _wants_answer(sentence)
    return sentence.strange > 0 and (sentence.marked or (sentence.asking and sentence.words > 2)) and not _is_greeting(sentence)


def _wants_answer(sentence: _Sentence) -> bool:
    """Does a sentence of a message that is not about fit want an answer: a question, a request, a word on an order."""
    if _is_greeting(sentence) or sentence.has("promise"):
        return False
    if sentence.question and sentence.words > 2:
        return not sentence.has("praise") or sentence.marked
    if sentence.has("praise"):
        return False
    if sentence.request and sentence.strange and sentence.words > 1:
        return True
    return sentence.has("dealing") and sentence.has("sign")


def _is_greeting(sentence: _Sentence) -> bool:
    return sentence.has("greeting") and sentence.words <= _GREETING


def _is_money(page: Page, mark: Mark) -> bool:
    return mark.kind == NUMBER and page.quantities.found[mark.quantity].shape == Shape.MONEY


def _is_of_thing(page: Page, mark: Mark) -> bool:
    """Is it the size of a crate or a seat, which the carrier is to go into."""
    if mark.kind != NUMBER or page.candidates[mark.quantity].note != page.words.notes["object"]:
        return False
    place = page.distance.place(mark.quantity)
    return any(one.has("thing") for one in page.marks[max(0, place - 8) : place + 8] if one.kind == PHRASE)


def _is_brief(sentence: _Sentence) -> bool:
    return len(sentence.marks) <= _BRIEF and not any(mark.text in (":", "=") for mark in sentence.marks)


def _asks_for_size(page: Page, sentence: _Sentence) -> bool:
    """Does a sentence ask which size, whether one fits, or how to measure."""
    if any(mark.has("size") and not _is_numbered(sentence.marks, at) for at, mark in enumerate(sentence.marks) if mark.senses):
        return sentence.asking or not sentence.has("praise")
    if not sentence.asking and not _asks_by_itself(sentence):
        return False
    if sentence.has("fit"):
        return sentence.marked or not sentence.has("praise")
    if not sentence.question or sentence.has("asks"):
        return False
    return sentence.has("measuring") or _names_measure(page, sentence) or _names_sizes_for_dog(page, sentence)


def _asks_by_itself(sentence: _Sentence) -> bool:
    return any(mark.has("fit") and len(mark.text.split()) > 2 for mark in sentence.marks if mark.senses)


def _is_numbered(marks: Sequence[Mark], at: int) -> bool:
    """Is it "size 69": of something else."""
    return marks[at].text == "size" and at + 1 < len(marks) and marks[at + 1].kind == NUMBER


def _names_measure(page: Page, sentence: _Sentence) -> bool:
    places = [page.marks[label.first].start for label in page.labels if label.rule and label.rule.gives != "none" and not label.letter]
    at = bisect_left(places, sentence.marks[0].start)
    return at < len(places) and places[at] < sentence.marks[-1].end


def _names_sizes_for_dog(page: Page, sentence: _Sentence) -> bool:
    """Is it "which is better for her, No. 2 or No. 3"."""
    sizes = any(mark.kind == NUMBER and page.quantities.found[mark.quantity].shape == Shape.CODE and page.quantities.found[mark.quantity].low <= 20 for mark in sentence.marks)
    breeds = [mark.start for mark in page.marks if mark.kind == PHRASE and mark.has("breed", "dog")]
    at = bisect_left(breeds, sentence.marks[0].start)
    of_dog = at < len(breeds) and breeds[at] < sentence.marks[-1].end
    return sizes and (of_dog or any(mark.text in ("him", "her", "he", "she", "hes", "shes", "my", "dog") for mark in sentence.marks))


def _speaks_of_measures(page: Page) -> bool:
    """Does a short answer name a measure, or take a number back: "on the width i mean"."""
    if not (page.context.dogs or page.context.asked):
        return False
    unplaced = any(candidate.aside is SetAside.UNCLEAR for candidate in page.candidates)
    words = [mark for mark in page.marks if mark.kind == PHRASE]
    if len(words) > _SHORT or any(mark.has("promise") for mark in words):
        return False
    meant = any(mark.has("correction", "swapped", "pick", "stands") for mark in words)
    named = any(label.rule and label.rule.gives != "none" and not label.letter for label in page.labels)
    return (meant and named) or (unplaced and bool(page.context.asked))


def _is_only_said_in_passing(page: Page, sentences: Sequence[_Sentence], dogs: Sequence[DogReading]) -> bool:
    """Is a weight all that a complaint or a question of care tells: "the lining tore, she's only 9 pounds"."""
    facts = [fact for dog in dogs for fact in dog.facts]
    if not facts or any(fact.measure is not Measure.WEIGHT for fact in facts) or page.context.asked:
        return False
    cared = any(mark.name("asks") in ("care", "trouble") for sentence in sentences for mark in sentence.marks if mark.senses)
    return cared or any(sentence.has("complaint") for sentence in sentences)
