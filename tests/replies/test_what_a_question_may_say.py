"""A question tells nothing that the customer did not tell: no number of ours, no size, no outcome."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.draft import DraftKind
from replies.drafting import draft
from replies.enquiry import EnquiryDog, Known
from replies.writing.claims import claims_in
from replies.writing.sample_parts import DOUBTED, STANDARD, decided, doubts_of, in_doubt, sample_dog, undecided
from replies.writing.samples import samples
from sizing.assessment import Assessment
from sizing.chart import builtin_shop
from sizing.doubt import Doubt
from sizing.measures import FIVE, Measure
from sizing.reasons import Why
from tests.replies.enquiries import ON, WORDING, dog, drafted, enquiry, told

SHOP = builtin_shop()
OUTCOME_WORDS = re.compile(
    r"\b(standard|made to measure|to measure for|opening|inside|pad|board|ease|roomy|No\. ?\d)\b", re.I
)
NUMBER = re.compile(r"(?:(\d+) )?(\d+)/(\d+)|(\d+(?:\.\d+)?)")

LENGTHS = st.one_of(
    st.integers(1, 60).map(float),
    st.integers(4, 480).map(lambda eighths: eighths / 8),
    st.integers(10, 6000).map(lambda hundredths: hundredths / 100),
)


@st.composite
def measures(draw: st.DrawFn, measure: Measure) -> Known:
    unit = draw(st.sampled_from(["lb", "kg", "oz", "g"] if measure is Measure.WEIGHT else ["in", "cm", "mm"]))
    low = draw(LENGTHS)
    others = draw(st.lists(LENGTHS, max_size=2, unique=True))
    return told(
        low,
        unit,
        high=draw(st.one_of(st.none(), st.just(low + draw(LENGTHS)))),
        stated=draw(st.booleans()),
        hedged=draw(st.booleans()),
        conflicting=[low, *others] if others else [],
    )


@st.composite
def cases(draw: st.DrawFn) -> tuple[EnquiryDog, Assessment]:
    known = {measure: draw(measures(measure)) for measure in FIVE if draw(st.booleans())}
    doubts = [
        Doubt(measure=measure, why=why, likely=draw(LENGTHS), odds=draw(st.floats(0.5, 50)))
        for measure in known
        for why in draw(st.lists(st.sampled_from(list(Why)), max_size=2, unique=True))
    ]
    one = EnquiryDog(name=draw(st.sampled_from([None, "Pickle"])), measures=known)
    return one, undecided(one, tuple(sorted(doubts, key=lambda doubt: -doubt.odds)))


def numbers_in(text: str) -> set[float]:
    found = set()
    for whole, over, under, plain in NUMBER.findall(text):
        found.add(float(plain) if plain else float(int(whole or 0) + Fraction(int(over), int(under))))
    return found


def numbers_told(one: EnquiryDog) -> set[float]:
    told_by_her = {end for known in one.measures.values() for end in known.written}
    for known in one.measures.values():
        factor = known.written[0] / known.taken.amount.low
        told_by_her |= {amount.low * factor for amount in known.taken.conflicting}
    return told_by_her


@given(cases())
def test_no_number_stands_in_a_question_that_the_customer_did_not_give(case: tuple[EnquiryDog, Assessment]) -> None:
    one, assessment = case

    asked = draft(enquiry(one), [assessment], SHOP, WORDING, ON)

    told_by_her = numbers_told(one)
    unknown = {
        n for n in numbers_in(asked.text) if not any(abs(n - told) <= 1e-6 * max(1, told) for told in told_by_her)
    }
    assert asked.kind in (DraftKind.QUESTION, DraftKind.ANSWER)
    assert unknown == set()


@given(st.lists(cases(), min_size=1, max_size=3))
def test_the_numbers_asked_for_are_named_in_the_order_in_which_they_are_asked(
    given_cases: list[tuple[EnquiryDog, Assessment]],
) -> None:
    asked = draft(enquiry(*(one for one, _ in given_cases)), [one for _, one in given_cases], SHOP, WORDING, ON)

    lines = re.findall(r"^(Length|Height|Width|Throat height|Weight) \(", asked.text, re.MULTILINE)
    taken = {one.measure for one in asked.asks if one.why is not Why.UNIT and one.measure in FIVE}
    assert [line.lower().replace(" ", "_") for line in lines] == [m.value for m in FIVE if m in taken]


def test_no_question_speaks_of_a_size_or_an_outcome() -> None:
    spoken = []
    for one in samples(SHOP):
        made = draft(one.enquiry, one.assessments, one.shop, WORDING, ON)
        if made.kind is DraftKind.QUESTION:
            spoken += OUTCOME_WORDS.findall(made.text) + re.findall("Sample [A-C]", made.text)

    assert spoken == []


def test_no_question_is_told_an_outcome_though_the_engine_has_one() -> None:
    pickle = sample_dog()
    unsure = replace(decided(pickle, STANDARD, SHOP), ask_again=Measure.WIDTH)

    text = draft(enquiry(pickle), [unsure], SHOP, WORDING, ON).text

    assert "width" in text
    assert "Sample B" not in text


@pytest.mark.parametrize("why", Why)
def test_each_reason_has_a_question_that_says_back_what_was_said(why: Why) -> None:
    pickle = in_doubt(sample_dog(), why)
    asked = draft(enquiry(pickle), [undecided(pickle, doubts_of(why))], SHOP, WORDING, ON)

    assert {one.why for one in asked.asks} >= {why}
    for measure in DOUBTED[why]:
        assert why is Why.UNIT or measure.value.replace("_", " ") in asked.text.lower()
    if why is not Why.VAGUE:
        said = {Measure.LENGTH: "14 1/2", Measure.HEIGHT: "11", Measure.WIDTH: "5 1/2", Measure.THROAT_HEIGHT: "8"}
        assert said.get(DOUBTED[why][0], "13 lb") in asked.text


@pytest.mark.parametrize("why", Why)
def test_no_question_tells_the_likelier_value(why: Why) -> None:
    pickle = in_doubt(sample_dog(), why)
    doubts = tuple(replace(doubt, likely=7.77) for doubt in doubts_of(why))

    assert "7.77" not in draft(enquiry(pickle), [undecided(pickle, doubts)], SHOP, WORDING, ON).text


def test_only_a_doubt_about_the_unit_offers_both_readings() -> None:
    rex = dog("Rex", **{key: told(value, stated=False) for key, value in {"length": 38, "height": 30}.items()})
    doubts = tuple(Doubt(measure=measure, why=Why.UNIT) for measure in (Measure.LENGTH, Measure.HEIGHT))

    text = draft(enquiry(rex), [undecided(rex, doubts)], SHOP, WORDING, ON).text

    assert "38 long and 30 at the shoulder. Are those inches or centimetres?" in text


def test_two_reasons_that_are_about_as_likely_are_one_question() -> None:
    pickle = sample_dog()
    text = draft(enquiry(pickle), [undecided(pickle, doubts_of(Why.GIRTH, Why.UNIT))], SHOP, WORDING, ON).text

    assert (
        "looks more like the way around, and I need it straight across. Or is the width in centimetres? Could you take"
        in text
    )


def test_a_second_reason_that_is_far_less_likely_is_left_out() -> None:
    pickle = sample_dog()
    doubts = (
        Doubt(measure=Measure.WIDTH, why=Why.GIRTH, odds=31.0),
        Doubt(measure=Measure.WIDTH, why=Why.UNIT, odds=10.0),
    )

    assert "centimetres?" not in draft(enquiry(pickle), [undecided(pickle, doubts)], SHOP, WORDING, ON).text


def test_no_text_makes_a_claim() -> None:
    texts = [draft(one.enquiry, one.assessments, one.shop, WORDING, ON).text for one in samples(SHOP)]

    assert [claims_in(text) for text in texts if claims_in(text)] == []


@pytest.mark.parametrize("measure", FIVE)
def test_the_reason_for_a_measure_is_six_words(measure: Measure) -> None:
    known = {other.value: 10.0 for other in FIVE if other is not measure}

    reason = re.search(r"\((so [a-zA-Z ]+)\):", drafted(enquiry(dog(**known))).text)

    assert reason is not None
    assert len(reason.group(1).split()) == 6
