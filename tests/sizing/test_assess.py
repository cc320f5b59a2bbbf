"""The one way in."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizing.assess import assess
from sizing.assessment import Assessment
from sizing.caution import Level
from sizing.chart import Shop
from sizing.fit import body_of, fit
from sizing.growth import Stage
from sizing.measures import FIVE, Amount, Dog, Measure, SpaceLimit, Taken
from sizing.outcome import Kind
from sizing.reasons import Why
from tests.sizing.dogs import Value, dog, snug
from tests.sizing.shops import shop

ON = date(2026, 3, 1)
SHOP = shop()


def assessed(told: Dog, chart: Shop = SHOP) -> Assessment:
    return assess(told, chart, ON)


def taken(told: Dog, measure: Measure, **changed: object) -> Dog:
    return replace(told, measures={**told.measures, measure: replace(told.measures[measure], **changed)})  # type: ignore[arg-type]


def test_a_complete_dog_gets_an_outcome_that_says_how_sure_it_is() -> None:
    found = assessed(snug())

    assert (found.missing, found.doubts, found.on) == ((), (), ON)
    assert found.outcome is not None
    assert (found.outcome.kind, found.outcome.size) == (Kind.STANDARD, "No. 3")
    assert found.outcome.sure == pytest.approx(0.933, abs=0.01)
    assert found.outcome.sure_measure is Measure.THROAT_HEIGHT


def test_the_outcome_is_that_of_the_rules() -> None:
    outcome = assessed(snug()).outcome

    assert outcome is not None
    assert replace(outcome, sure=None, sure_measure=None) == fit(body_of(snug()), SHOP)


def test_while_anything_is_missing_there_is_no_outcome() -> None:
    found = assessed(snug(width=None))

    assert found.missing == (Measure.WIDTH,)
    assert found.outcome is None
    assert found.caution is None


def test_a_weight_is_always_needed() -> None:
    assert assessed(snug(weight=None)).outcome is None


def test_while_anything_is_doubted_there_is_no_outcome() -> None:
    found = assessed(snug(width=14))

    assert Why.GIRTH in {doubt.why for doubt in found.doubts}
    assert found.outcome is None
    assert found.caution is None


@pytest.mark.parametrize(
    "changed",
    [{"vague": True}, {"conflicting": (Amount.exactly(9.0), Amount.exactly(12.0))}, {"hints": frozenset({Why.TAIL})}],
    ids=["a guess", "two values", "a mistake said outright"],
)
def test_what_the_words_give_away_is_doubted(changed: dict[str, object]) -> None:
    found = assessed(taken(snug(), Measure.LENGTH, **changed))

    assert [doubt.measure for doubt in found.doubts] == [Measure.LENGTH]
    assert found.outcome is None


def test_a_guess_that_was_confirmed_is_no_longer_doubted() -> None:
    confirmed = taken(snug(), Measure.LENGTH, vague=True, confirmed=frozenset({Why.VAGUE}))

    assert assessed(confirmed).outcome is not None


def test_without_the_throat_alone_the_maker_sees_which_size_it_would_be() -> None:
    found = assessed(snug(throat=None))

    assert found.missing == (Measure.THROAT_HEIGHT,)
    assert found.would_be is not None
    assert found.would_be.size == "No. 3"


def test_without_the_throat_the_maker_sees_dimensions_where_no_size_is_right() -> None:
    would_be = assessed(dog(length=14.5, height=11, width=5.75, weight=13)).would_be

    assert would_be is not None
    assert (would_be.kind, would_be.size) == (Kind.MADE_TO_MEASURE, None)
    assert would_be.inside is not None
    assert would_be.inside.length == 17.0


@pytest.mark.parametrize("values", [{"throat": None, "width": None}, {"throat": None, "width": 14}])
def test_with_more_than_the_throat_open_nobody_sees_a_size(values: dict[str, Value]) -> None:
    assert assessed(snug(**values)).would_be is None


def test_a_fit_that_is_not_sure_enough_has_one_measure_taken_again() -> None:
    unsure = taken(snug(width=4.7), Measure.WIDTH, hedged=True)

    assert assessed(unsure).ask_again is Measure.WIDTH
    assert assessed(unsure, shop(ask_again_below=0.5)).ask_again is None
    assert assessed(snug()).ask_again is None


def test_a_range_counts_its_upper_weight_for_the_caution() -> None:
    caution = assessed(snug(weight=(9, 14))).caution

    assert caution is not None
    assert caution.total_lb == pytest.approx(14 + 1.7 + 1)
    assert caution.level is Level.SHORT_CARRY


def test_a_standard_size_counts_with_its_own_empty_weight_and_a_made_one_with_an_estimate() -> None:
    standard = assessed(snug()).caution
    made = assessed(dog(length=14.5, height=11, width=5.75, throat=8, weight=13)).caution

    assert standard is not None and made is not None
    assert (standard.empty_lb, standard.empty_estimated) == (1.7, False)
    assert 2.1 < made.empty_lb < 2.6
    assert made.empty_estimated


@pytest.mark.parametrize(
    "told",
    [dog(length=30, height=25, width=10, throat=18, weight=70), snug(weight=13)],
    ids=["outside the range", "not safe"],
)
def test_where_nothing_serves_there_is_still_a_caution_and_nothing_is_sure(told: Dog) -> None:
    weak = shop(sizes=[one.model_dump() | {"rated_load": 12.0} for one in SHOP.sizes])
    found = assessed(told, weak)

    assert found.outcome is not None
    assert found.outcome.kind in (Kind.OUTSIDE_RANGE, Kind.NOT_SAFE)
    assert found.outcome.sure is None
    assert found.caution is not None
    assert found.neighbours == ()


def test_an_opening_that_cannot_be_cut_leaves_the_maker_to_decide() -> None:
    found = assessed(taken(snug(throat=5.6), Measure.THROAT_HEIGHT, confirmed=frozenset(Why)))

    assert found.outcome is not None
    assert (found.outcome.opening, found.outcome.concern, found.outcome.sure) == (None, "opening", None)
    assert found.ask_again is None


def test_a_puppy_a_limit_and_the_sizes_beside_come_with_it() -> None:
    found = assessed(replace(snug(), age_months=5, space=SpaceLimit(sides=(18.0, 14.0, 8.0))))

    assert found.growth is not None and found.growth.stage is Stage.NOT_FINAL
    assert found.space is not None and found.space.fits
    assert [neighbour.size for neighbour in found.neighbours] == ["No. 2", "No. 4"]


def test_the_same_dog_is_always_assessed_alike() -> None:
    assert assessed(snug()) == assessed(snug())


WILD = st.one_of(
    st.floats(min_value=5e-324, max_value=1.7e308),
    st.floats(min_value=0.1, max_value=1000),
    st.sampled_from([1e-300, 1e-9, 1e9, 1e300]),
)


@settings(deadline=None)
@given(st.dictionaries(st.sampled_from([*FIVE, Measure.GIRTH, Measure.NECK]), st.tuples(WILD, WILD)), st.booleans())
def test_no_measures_however_wild_raise(values: dict[Measure, tuple[float, float]], confirmed: bool) -> None:
    reasons = frozenset(Why) if confirmed else frozenset()
    measures = {
        measure: Taken(amount=Amount(low=min(ends), high=max(ends)), confirmed=reasons)
        for measure, ends in values.items()
    }

    found = assessed(Dog(measures=measures))

    assert (found.outcome is None) == bool(found.missing or found.doubts)


@pytest.mark.parametrize("inches", [1e9, 1e-9, 1e300])
def test_a_dog_that_cannot_be_is_doubted_or_outside_the_range(inches: float) -> None:
    found = assessed(dog(length=inches, height=inches, width=inches, throat=inches, weight=inches))

    assert found.doubts or (found.outcome is not None and found.outcome.kind is Kind.OUTSIDE_RANGE)
