"""A message while it is being read: what each step has found so far. It never leaves this package."""

from dataclasses import dataclass, field

from replies.reading.context import Context
from replies.reading.cues import Cue, SingleWords
from replies.reading.distance import Distance
from replies.reading.facts import Fact, Manner, Passage, SetAside
from replies.reading.labels import Label
from replies.reading.mark_index import MarkIndex
from replies.reading.marks import Mark, Piece
from replies.reading.quantity import Quantities
from replies.reading.tidy import Tidied
from replies.reading.words import Words
from sizing.measures import Measure, Posture, SpaceLimit
from sizing.reasons import Why


@dataclass(frozen=True, slots=True)
class Named:
    """A name of a dog in the text.

    first, last   indices of its marks
    name          as it was typed, with a capital letter
    sure          False: without a capital letter, a name only if other things speak for it
    outright      "called Otto", "name: Otto"
    """

    first: int
    last: int
    name: str
    sure: bool = True
    outright: bool = False


@dataclass(slots=True)
class Candidate:
    """A number that may become a fact.

    number    index of the quantity
    measure   as in labels.toml; None: nothing says yet
    labels    indices of the names that decided, nearest first
    hints     mistakes that the words give away
    dogs      indices into Page.dogs; (): nobody yet
    aside     why it is not taken; None: it may be
    note      the same in the maker's words
    beside    the words of distractors.toml, near, that set it aside; None: others, or none
    listed    its measure stands in a row of names beside the row of numbers
    older     said of earlier: it gives way to any other value
    manner    how it was told
    bare      no word named its measure
    replaces  index of the candidate that it corrects
    end_of    index of the candidate whose other end it is
    """

    number: int
    measure: str | None = None
    labels: tuple[int, ...] = ()
    hints: frozenset[Why] = frozenset()
    dogs: tuple[int, ...] = ()
    aside: SetAside | None = None
    note: str = ""
    beside: str | None = None
    listed: bool = False
    older: bool = False
    manner: Manner = Manner.PLAIN
    bare: bool = False
    replaces: int | None = None
    end_of: int | None = None

    def leave(self, why: SetAside, note: str) -> None:
        """Set the number aside."""
        self.aside, self.note = why, note


@dataclass(slots=True)
class Slot:
    """A dog that the message speaks of.

    known     its index in Context.dogs; None: mentioned here first
    sex_told  it was called "he" or "she" in so many words
    carried   False: a dog or another animal that is not to be carried
    """

    known: int | None = None
    name: str | None = None
    breeds: tuple[str, ...] = ()
    sex: str | None = None
    sex_told: bool = False
    carried: bool = True
    age_months: float | None = None
    posture: Posture | None = None
    space: SpaceLimit | None = None


@dataclass(frozen=True, slots=True)
class Likened:
    """A dog told by another: "the same but an inch longer".

    dog, of     indices into Page.dogs
    whole       all measures that are not told are the same
    changes     measure -> inches or pounds more (less: negative), and the place of the words that say so
    takes       measures that are the same, where not all are
    start, end  the words that liken them
    """

    dog: int
    of: int
    whole: bool
    start: int
    end: int
    changes: dict[Measure, tuple[float, int, int]] = field(default_factory=dict)
    takes: frozenset[Measure] = frozenset()


@dataclass(slots=True)
class Page:
    """A message with what the steps have found.

    index      of the marks, by what they stand for
    single     the same word by word, for the lists that part them otherwise
    names      names of dogs, in order of place
    quoted     measures that quoted questions ask for
    candidates one for each quantity, in order
    facts      of a dog: values told before that now stand otherwise
    tries      phrases that say which try a value is
    in_tries   the marks of those that speak of values outright, not of "the second" of something
    elsewhere  the marks that tell of other dogs, animals and people
    worn       the marks of things that are only told of as worn: "in her winter coat"
    turns      words that turn back to the dog as it is: the first and the last mark, and which of scopes.toml they are
    against    number -> the one that was set aside before it, and against which it stands: "last year 8 lb, now 9"
    likenings  index of the mark of "the same" -> the dog that is meant
    """

    tidied: Tidied
    context: Context
    words: Words
    quantities: Quantities
    pieces: list[Piece]
    marks: list[Mark]
    index: MarkIndex
    single: SingleWords
    labels: list[Label]
    distance: Distance
    candidates: list[Candidate]
    names: list[Named] = field(default_factory=list)
    quoted: frozenset[str] = frozenset()
    tries: list[Cue] = field(default_factory=list)
    in_tries: frozenset[int] = frozenset()
    elsewhere: set[int] = field(default_factory=set)
    worn: set[int] = field(default_factory=set)
    turns: list[tuple[int, int, str]] = field(default_factory=list)
    against: dict[int, int] = field(default_factory=dict)
    dogs: list[Slot] = field(default_factory=list)
    likenings: dict[int, int] = field(default_factory=dict)
    confirmed: set[tuple[int, Measure, Why]] = field(default_factory=set)
    withdrawn: set[tuple[int, Measure]] = field(default_factory=set)
    likened: list[Likened] = field(default_factory=list)
    facts: list[tuple[int, Fact]] = field(default_factory=list)
    length_unit: str | None = None
    weight_unit: str | None = None
    together: bool | None = None

    def passage(self, start: int, end: int) -> Passage:
        """Give the words of the original behind a stretch of the tidied text."""
        return self.tidied.passage(start, end)

    def raw(self, mark: Mark) -> str:
        """Give a mark as it was typed, in plain characters."""
        return self.tidied.text[mark.start : mark.end]
