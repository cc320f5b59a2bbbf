"""Which doubts come out, in which order and how many."""

import subprocess
import sys
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.body import ORDER
from sizing.breeds import breed_rows
from sizing.judge import judge
from sizing.measures import Amount, Dog, Measure, Taken
from sizing.reasons import Why
from sizing.weighing import suspicion
from tests.sizing.dogs import dog
from tests.sizing.doubted import bare, doubted, of_breed, ordinary


def taken(told: Dog, measure: Measure, **changed: object) -> Dog:
    return replace(told, measures={**told.measures, measure: replace(told.measures[measure], **changed)})  # type: ignore[arg-type]


def test_a_dog_without_measures_is_not_doubted() -> None:
    assert judge(Dog()) == ()


@pytest.mark.parametrize("measure", ORDER)
def test_any_single_measure_of_an_ordinary_dog_is_not_doubted(measure: Measure) -> None:
    told = ordinary(girth=17)

    assert judge(replace(told, measures={measure: told.measures[measure]})) == ()


@pytest.mark.parametrize("measure", ORDER)
def test_an_ordinary_dog_is_not_doubted_whichever_measure_is_missing(measure: Measure) -> None:
    told = ordinary(girth=17)

    assert judge(replace(told, measures={m: t for m, t in told.measures.items() if m is not measure})) == ()


def test_a_neck_is_neither_doubted_nor_in_the_way() -> None:
    told = ordinary()

    assert judge(replace(told, measures={**told.measures, Measure.NECK: Taken(amount=Amount.exactly(900))})) == ()


def test_the_likeliest_doubt_comes_first() -> None:
    odds = [doubt.odds for doubt in judge(dog(length=10, height=10, width=10, throat=10, weight=10))]

    assert odds == sorted(odds, reverse=True)
    assert len(odds) > 1


def test_two_mistakes_in_one_dog_are_both_found() -> None:
    measures = {doubt.measure for doubt in judge(ordinary(width=17, throat=11))}

    assert measures == {Measure.WIDTH, Measure.THROAT_HEIGHT}


def test_two_reasons_within_three_to_one_are_both_given() -> None:
    doubts = judge(dog(length=12, height=10, width=15, throat=7.25, weight=14))

    assert [doubt.measure for doubt in doubts] == [Measure.WIDTH, Measure.WIDTH]
    assert doubts[0].odds <= 3 * doubts[1].odds


def test_a_clear_reason_stands_alone() -> None:
    assert doubted(ordinary(width=50)) == {"width size"}


def test_what_the_words_give_away_is_doubted_with_the_likelier_value() -> None:
    told = taken(ordinary(height=14), Measure.HEIGHT, hints=frozenset({Why.HEAD}))

    (doubt,) = judge(told)

    assert (doubt.measure, doubt.why, doubt.odds) == (Measure.HEIGHT, Why.HEAD, float("inf"))
    assert doubt.likely == pytest.approx(10.75, abs=1)


def test_what_the_words_give_away_is_doubted_even_where_the_numbers_look_right() -> None:
    assert doubted(taken(ordinary(), Measure.LENGTH, hints=frozenset({Why.TAIL}))) == {"length tail"}


def test_a_hint_that_was_confirmed_is_not_raised_again() -> None:
    told = taken(ordinary(), Measure.LENGTH, hints=frozenset({Why.TAIL}), confirmed=frozenset({Why.TAIL}))

    assert judge(told) == ()


@pytest.mark.parametrize(
    ("told", "measure", "why"),
    [
        (ordinary(width=17), Measure.WIDTH, Why.GIRTH),
        (ordinary(length=20), Measure.LENGTH, Why.TAIL),
        (ordinary(height=14.5), Measure.HEIGHT, Why.HEAD),
        (ordinary(throat=11), Measure.THROAT_HEIGHT, Why.THROAT),
        (ordinary(weight=41), Measure.WEIGHT, Why.WEIGHT),
        (ordinary(height=105), Measure.HEIGHT, Why.SIZE),
    ],
)
def test_a_confirmed_reason_is_never_raised_again_for_that_measure(told: Dog, measure: Measure, why: Why) -> None:
    assert f"{measure} {why}" in doubted(told)
    assert f"{measure} {why}" not in doubted(taken(told, measure, confirmed=frozenset({why})))


def test_a_measure_that_was_confirmed_is_doubted_less_for_other_reasons_too() -> None:
    told = ordinary(height=13)

    assert suspicion(taken(told, Measure.HEIGHT, confirmed=frozenset({Why.UNIT}))) < suspicion(told)


def test_all_confirmed_centimetres_leave_nothing_to_ask_about_the_unit() -> None:
    told = dog(length=33, height=27, width=12, throat=19, weight=11)
    sure = {m: replace(t, confirmed=frozenset({Why.UNIT})) for m, t in told.measures.items()}

    assert not any(doubt.why is Why.UNIT for doubt in judge(replace(told, measures=sure)))


def test_a_mistake_that_could_not_change_what_serves_the_dog_is_not_raised() -> None:
    assert judge(ordinary(length=20), matters=lambda _: False) == ()


def test_whether_it_matters_is_asked_of_the_dog_without_the_mistake() -> None:
    seen: list[float] = []

    def matters(without: Dog) -> bool:
        seen.append(without.measures[Measure.LENGTH].amount.middle)
        return True

    doubt = judge(ordinary(length=32), matters=matters)[0]

    assert doubt.likely in seen


def test_a_mistake_that_matters_is_raised_where_another_does_not() -> None:
    told = dog(length=12, height=10, width=15, throat=7.25, weight=14)
    in_cm = pytest.approx(15 / 2.54)

    doubts = judge(told, matters=lambda without: without.measures[Measure.WIDTH].amount.middle != in_cm)

    assert [doubt.why for doubt in doubts] == [Why.GIRTH]


def test_a_named_breed_settles_what_the_numbers_leave_open() -> None:
    exchanged = dog(length=8.5, height=14, width=5, throat=5.75, weight=12)

    plain, dachshund = (judge(told)[0] for told in (exchanged, of_breed(exchanged, "Dachshund (standard)")))

    assert dachshund.why is Why.SWAP
    assert dachshund.odds > 100 * plain.odds


def test_a_named_breed_clears_what_is_unusual_among_all_dogs() -> None:
    told = dog(length=22.5, height=23.5, throat=17.25, weight=33)

    assert suspicion(of_breed(told, "Azawakh")) < suspicion(told) / 10


def test_a_breed_without_a_row_changes_nothing() -> None:
    told = ordinary(length=17)

    assert suspicion(of_breed(told, "Weimaraner")) == suspicion(told)


def test_the_case_and_the_sex_of_a_breed_name_make_no_difference() -> None:
    told = ordinary(length=15)

    assert suspicion(of_breed(told, "cairn terrier [f]")) == suspicion(of_breed(told, "Cairn Terrier"))


@pytest.mark.parametrize("row", breed_rows(), ids=lambda row: row.breed)
@pytest.mark.parametrize("end", [0, 1], ids=["smallest", "largest"])
def test_every_breeds_own_smallest_and_largest_pass(row, end: int) -> None:
    height, weight = row.heights[end], row.weights[end]
    told = dog(height=height, weight=weight, throat=height and 0.73 * height)

    assert judge(told) == judge(of_breed(told, row.breed)) == ()


def test_a_range_is_judged_by_its_middle() -> None:
    assert doubted(dog(length=(12, 13), height=(10, 10.5), width=(4.75, 5), throat=(7, 7.5), weight=(9, 10))) == set()


def test_a_wide_range_is_doubted_less_than_its_middle_alone() -> None:
    assert suspicion(ordinary(length=(12, 22))) < suspicion(ordinary(length=17))


def test_a_hedged_value_is_doubted_less() -> None:
    told = ordinary(height=13.5)

    assert suspicion(taken(told, Measure.HEIGHT, hedged=True)) < suspicion(told)


def test_at_most_two_reasons_are_given_for_one_measure() -> None:
    told = taken(
        bare(ordinary(width=17)),
        Measure.WIDTH,
        vague=True,
        hints=frozenset({Why.GIRTH, Why.SIZE, Why.UNIT}),
    )

    assert len([doubt for doubt in judge(told) if doubt.measure is Measure.WIDTH]) == 2


AMOUNTS = st.floats(min_value=1e-300, max_value=1e300).map(Amount.exactly)


@given(st.dictionaries(st.sampled_from(Measure), AMOUNTS), st.floats(min_value=0, max_value=1e6) | st.none())
def test_no_measures_however_wild_raise(amounts: dict[Measure, Amount], age: float | None) -> None:
    measures = {measure: Taken(amount=amount, unit_stated=False) for measure, amount in amounts.items()}

    for doubt in judge(Dog(measures=measures, age_months=age)):
        assert doubt.measure in measures
        assert doubt.odds > 0
        assert doubt.likely is None or 0 < doubt.likely < 1000


@given(
    length=st.floats(5, 30), height=st.floats(5, 30), width=st.floats(2, 12), throat=st.floats(3, 20),
    weight=st.floats(1, 120),
)  # fmt: skip
def test_the_same_dog_is_always_judged_the_same(**values: float) -> None:
    assert judge(dog(**values)) == judge(dog(**values))


def test_importing_the_judge_does_not_import_numpy() -> None:
    code = "import sys, sizing.judge; sys.exit('numpy' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code]).returncode == 0


@pytest.mark.parametrize(
    ("told", "measure", "why"),
    [
        (dog(length=11.5, height=10, width=5, throat=7, weight=33), Measure.WEIGHT, Why.WEIGHT),
        (dog(length=22, height=12, width=5.5, throat=8.5, weight=17), Measure.LENGTH, Why.TAIL),
        (ordinary(width=2.75), Measure.WIDTH, Why.SIZE),
        (ordinary(height=14.5), Measure.HEIGHT, Why.HEAD),
    ],
)
def test_what_a_customer_confirmed_does_not_come_back_in_another_guise(told: Dog, measure: Measure, why: Why) -> None:
    assert doubted(told)
    assert doubted(taken(told, measure, confirmed=frozenset({why}))) == set()


def test_what_was_confirmed_in_one_measure_does_not_cover_a_mistake_in_another() -> None:
    told = taken(ordinary(length=20, width=17), Measure.LENGTH, confirmed=frozenset({Why.TAIL}))

    assert doubted(told) == {"width girth"}


def test_a_maker_who_sets_a_measure_settles_it() -> None:
    told = taken(ordinary(height=30), Measure.HEIGHT, confirmed=frozenset(Why))

    assert not any(doubt.measure is Measure.HEIGHT for doubt in judge(told))
