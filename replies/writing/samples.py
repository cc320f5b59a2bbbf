"""Sample enquiries that need every template that comes with tapeline, and every branch of it.

They are what the wording is tried on before a customer sees it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from replies.enquiry import Enquiry, EnquiryDog, MessageEvent
from replies.reading.context import Asked, Channel
from replies.reading.facts import Passage, Topic
from replies.writing import sample_parts as parts
from replies.writing.sample_parts import MADE_TO_MEASURE, STANDARD, decided, doubts_of, in_doubt, sample_dog, undecided
from sizing.assessment import Assessment
from sizing.caution import Level
from sizing.chart import Shop
from sizing.doubt import Doubt
from sizing.growth import Advice, Growth, Stage
from sizing.measures import FIVE, Measure, Posture, SpaceLimit
from sizing.outcome import Kind, Outcome
from sizing.reasons import Why
from sizing.space import space

_PASSAGE = Passage(start=0, end=26, words="which colours do you have?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """An enquiry with what the engine could say of its dogs, in a shop; `about` says what it is for."""

    about: str
    enquiry: Enquiry
    assessments: tuple[Assessment, ...]
    shop: Shop


def samples(shop: Shop) -> Iterator[Sample]:
    """Give the samples, for a customer in inches and one in centimetres.

    shop   its units and settings count; the sizes are the samples' own
    """
    trial = shop.model_copy(update={"sizes": parts.sizes()})
    for metric in (False, True):
        bench = _Bench(shop=trial, metric=metric)
        yield from _questions(bench)
        yield from _doubts(bench)
        yield from _questions_of_several(bench)
        yield from _answers(bench)
        yield from _notes(bench)
        yield from _handovers(bench)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bench:
    """Makes samples of one shop, for a customer in one kind of units; the one in centimetres writes e-mails."""

    shop: Shop
    metric: bool

    def dog(self, name: str | None = "Pickle", *without: Measure) -> EnquiryDog:
        return sample_dog(name, metric=self.metric, without=without)

    def decided(self, dog: EnquiryDog, outcome: Outcome, *, level: Level = Level.SHORT_CARRY) -> Assessment:
        return decided(dog, outcome, self.shop, level=level)

    def enquiry(self, *dogs: EnquiryDog) -> Enquiry:
        return Enquiry(
            dogs=dogs,
            topic=Topic.SIZING,
            unanswered=Topic.SIZING,
            also_other=self.metric,
            other=(("1", _PASSAGE),) if self.metric else (),
            length_unit="cm" if self.metric else "in",
            weight_unit="kg" if self.metric else "lb",
            last=MessageEvent(id="1", text="", channel=Channel.EMAIL if self.metric else Channel.CHAT),
        )

    def sample(self, about: str, *rows: tuple[EnquiryDog, Assessment]) -> Sample:
        enquiry = self.enquiry(*(dog for dog, _ in rows))
        return Sample(about=about, enquiry=enquiry, assessments=tuple(one for _, one in rows), shop=self.shop)


def _questions(bench: _Bench) -> Iterator[Sample]:
    yield bench.sample("nothing known")
    weighed = bench.dog("Pickle", *(one for one in FIVE if one is not Measure.WEIGHT))
    yield bench.sample("only the weights known", (weighed, undecided(weighed)), (weighed, undecided(weighed)))
    for about, dog in (
        ("one missing", bench.dog(None, Measure.WEIGHT)),
        ("three missing", bench.dog("Pickle", Measure.WIDTH, Measure.THROAT_HEIGHT, Measure.WEIGHT)),
        ("only the weight known", weighed),
        ("all missing", EnquiryDog()),
    ):
        yield bench.sample(about, (dog, undecided(dog)))
    whole = bench.dog()
    for channel in Channel:
        again = replace(bench.decided(whole, STANDARD), ask_again=Measure.WIDTH)
        sample = bench.sample("one number again", (whole, again))
        last = MessageEvent(id="1", text="", channel=channel)
        yield replace(sample, enquiry=replace(sample.enquiry, last=last, sent=1))


def _doubts(bench: _Bench) -> Iterator[Sample]:
    whole = bench.dog()
    for why in Why:
        for also in (None, *(other for other in Why if other is not why)):
            dog = in_doubt(whole, why)
            yield bench.sample(f"{why}, else {also}", (dog, undecided(dog, doubts_of(why, also))))
        lacking = Measure.LENGTH if why is Why.THROAT else Measure.THROAT_HEIGHT
        mixed = in_doubt(bench.dog("Pickle", lacking), why)
        yield bench.sample(f"{why}, and one missing", (mixed, undecided(mixed, doubts_of(why))))
    by_maker = in_doubt(whole, Why.CONFLICT, by_maker=True)
    yield bench.sample("not the maker's number", (by_maker, undecided(by_maker, doubts_of(Why.CONFLICT))))
    around = parts.with_rounds(whole, metric=bench.metric)
    for why in (Why.SIZE, Why.UNIT):
        rounds = tuple(Doubt(measure=measure, why=why) for measure in (Measure.GIRTH, Measure.NECK))
        yield bench.sample("girth and neck", (around, undecided(around, rounds)))
    weight = (Doubt(measure=Measure.WEIGHT, why=Why.UNIT),)
    lengths = tuple(Doubt(measure=measure, why=Why.UNIT) for measure in (Measure.LENGTH, Measure.HEIGHT))
    for doubts in (weight, lengths, weight + lengths, doubts_of(Why.GIRTH) + weight):
        yield bench.sample("units", (whole, undecided(whole, doubts)))


def _questions_of_several(bench: _Bench) -> Iterator[Sample]:
    whole, nameless, new = bench.dog(), bench.dog(None, Measure.WIDTH), EnquiryDog()
    only = bench.dog(None, *(measure for measure in FIVE if measure is not Measure.WIDTH))
    ready = bench.decided(whole, STANDARD)
    again = replace(ready, ask_again=Measure.WIDTH)
    for about, rows in (
        ("one ready, one not", ((whole, ready), (nameless, undecided(nameless)))),
        ("one again, one doubted", ((whole, again), (nameless, undecided(nameless, doubts_of(Why.TAIL))))),
        ("two of which nothing is known", ((new, undecided(new)), (new, undecided(new)))),
        ("one ready, one with a doubted width alone", ((whole, ready), (only, undecided(only, doubts_of(Why.GIRTH))))),
        ("a doubted width alone", ((only, undecided(only, doubts_of(Why.GIRTH))),)),
        ("one known, one new", ((whole, undecided(whole, doubts_of(Why.SWAP))), (new, undecided(new)))),
    ):
        yield bench.sample(about, *rows)


def _answers(bench: _Bench) -> Iterator[Sample]:
    whole = bench.dog()
    for outcome in parts.outcomes():
        for level in Level:
            yield bench.sample(f"{outcome.kind}, {level}", (whole, bench.decided(whole, outcome, level=level)))
    for factor in (3.0, 0.2):
        dog = parts.scaled(whole, factor)
        yield bench.sample("outside", (dog, bench.decided(dog, Outcome(kind=Kind.OUTSIDE_RANGE))))
    rows = [(bench.dog(f"Pickle{number}"), outcome) for number, outcome in enumerate(parts.outcomes())]
    yield bench.sample("every outcome", *((dog, bench.decided(dog, outcome)) for dog, outcome in rows))


def _notes(bench: _Bench) -> Iterator[Sample]:
    nameless = bench.dog(None)
    for posture in Posture:
        dog = replace(nameless, posture=posture)
        yield bench.sample(f"a dog that {posture}", (dog, bench.decided(dog, STANDARD)))
    for stage in Stage:
        for advice in Advice:
            young = Growth(stage=stage, advice=advice, age_months=5.0, wait_until_months=12.0)
            for outcome in (STANDARD, Outcome(kind=Kind.OUTSIDE_RANGE)):
                one = decided(nameless, outcome, bench.shop, growth=young)
                yield bench.sample(f"a young dog, {stage}, {advice}", (nameless, one))
    inside = STANDARD.inside
    for sides in ((30.0, 30.0, 30.0), (20.0, 10.0, 15.0), (9.0, 9.0, 9.0)):
        if inside is not None:
            room = space(inside, SpaceLimit(sides=sides), bench.shop)
            yield bench.sample("a limit", (nameless, replace(bench.decided(nameless, MADE_TO_MEASURE), space=room)))
    yield from _pairs(bench)


def _pairs(bench: _Bench) -> Iterator[Sample]:
    """Two that can share a carrier, two whose throats lie too far apart, two that are too much for one."""
    whole = bench.dog()
    for about, factors in (("for both", (0.8, 0.8)), ("too unlike", (0.9, 0.6)), ("too large", (2.4, 2.4))):
        dogs = [parts.scaled(whole, factor) for factor in factors]
        sample = bench.sample(about, *((dog, bench.decided(dog, MADE_TO_MEASURE)) for dog in dogs))
        yield replace(sample, enquiry=replace(sample.enquiry, together=True))


def _handovers(bench: _Bench) -> Iterator[Sample]:
    lacking = bench.dog("Pickle", Measure.WIDTH)
    wanted = (Asked(measure=Measure.WIDTH),)
    for dogs, asked in (((), ()), ((lacking,), ()), ((lacking,), wanted), ((lacking, bench.dog(None)), wanted)):
        sample = bench.sample("something else", *((dog, undecided(dog)) for dog in dogs))
        enquiry = replace(sample.enquiry, topic=Topic.OTHER, unanswered=Topic.OTHER, asked=asked)
        yield replace(sample, enquiry=enquiry)
