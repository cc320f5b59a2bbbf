"""What an answer says of each outcome, each level of caution and each thing beside."""

from dataclasses import replace

import pytest

from replies.enquiry import Enquiry, EnquiryDog
from replies.writing.caution_text import Load, caution_text
from sizing.caution import caution_for
from sizing.chart import builtin_shop
from sizing.measures import Measure, Posture, SpaceLimit
from sizing.outcome import Dimensions
from tests.replies.enquiries import WORDING, dog, drafted, enquiry

SHOP = builtin_shop()
SHARE = {"weight": 2.05}
"""The weight of ordinary dogs grows with this power of their height."""
MEASURES = {"length": 13.0, "height": 11.5, "width": 5.25, "throat_height": 8.25}


def text(one: EnquiryDog, **more: object) -> str:
    return drafted(enquiry(one, **more)).text  # type: ignore[arg-type]


def caution(pounds: float, *, units: str = "in lb") -> str:
    """The caution for a dog of that weight in a carrier of 2 lb, with 1 lb in its pockets."""
    inside = Dimensions(length=17, width=7, height=13)
    load = Load(calling="Bruno", caution=caution_for(pounds, 2.0, inside=inside, shop=SHOP))
    return caution_text([load], enquiry(units=units), WORDING)


@pytest.mark.parametrize(
    ("pounds", "words"),
    [
        (4, "you'd have about 7 lb on your shoulder"),
        (10, "Change sides often"),
        (15, "set it down for a rest within 30 ft (10 m)"),
        (25, "about 28 lb, so it is for short stretches only"),
        (26, "Please do not lift or carry it with Bruno inside"),
        (40, "carry it empty"),
    ],
)
def test_the_caution_fits_the_weight(pounds: float, words: str) -> None:
    assert words in caution(pounds)


def test_what_is_not_lifted_is_not_told_how_to_be_lifted_full() -> None:
    assert "Lift by both handles with a hand under the base, and always set it down" in caution(10)
    assert "Keep it standing on the floor while Bruno is in it" in caution(40)


def test_a_rest_and_a_load_are_told_in_the_customers_own_units() -> None:
    assert "it comes to about 8.5 kg" in caution(15, units="cm kg")
    assert "within 10 m." in caution(15, units="cm kg")


def test_a_load_is_never_made_lighter_than_it_is() -> None:
    assert "about 14 lb" in caution(10.1)
    assert "about 6.5 kg" in caution(11, units="cm kg")


def test_carriers_of_one_level_are_told_of_in_one_sentence() -> None:
    inside = Dimensions(length=17, width=7, height=13)
    loads = [
        Load(calling=c, caution=caution_for(lb, 2.0, inside=inside, shop=SHOP)) for c, lb in [("Nip", 5), ("Tuck", 6)]
    ]

    first = caution_text(loads, enquiry(), WORDING).split("\n\n")[0]

    assert (
        "With Nip inside and a few things in the pockets you'd have about 8 lb, with Tuck inside about 9 lb on" in first
    )


@pytest.mark.parametrize(
    "words",
    [
        "harness, never to a collar",
        "clip it first and unclip it last",
        "by both handles with a hand under the base",
        "set it down on the floor",
        "the seams, the handles and the clip every time",
        "Never leave Pickle alone in it",
        "out of the heat",
        "not a car restraint",
        "short-nosed",
        "pregnant, ask your doctor",
        "ask your vet",
        "Local rules",
    ],
)
def test_every_answer_with_a_carrier_has_the_whole_caution(words: str) -> None:
    assert words in text(dog("Pickle", **MEASURES, weight=14))


def test_a_dog_for_which_nothing_serves_gets_a_kind_way_out_and_no_caution_for_a_bag() -> None:
    draft = drafted(enquiry(dog("Pebble", length=32, height=33, width=12.5, throat_height=24, weight=148)))

    assert "I'm sorry" in draft.text
    assert "something on wheels" in draft.text
    assert draft.cautions == ()


def test_a_price_is_told_where_the_chart_has_one() -> None:
    priced = SHOP.model_copy(update={"sizes": tuple(size.model_copy(update={"price": "$114"}) for size in SHOP.sizes)})

    assert "It costs $114." in drafted(enquiry(dog("Pickle", **MEASURES, weight=14)), shop=priced).text
    assert "costs" not in text(dog("Pickle", **MEASURES, weight=14))


def test_an_altered_opening_says_what_is_wrong_with_the_standard_one() -> None:
    assert (
        "Its edge would press on the throat. So I'd cut the opening to begin 7 in above the board instead of 8 in"
        in text(dog("Fergus", **{**MEASURES, "throat_height": 7.75}, weight=13))
    )


def test_a_standard_size_promises_no_more_of_its_edge_than_is_known() -> None:
    answer = text(dog("Pickle", **MEASURES, weight=14))

    assert "so it should stay clear of the throat and still hold Pickle in well" in answer
    assert "doesn't press" not in answer


def test_made_to_measure_says_why_no_standard_size_is_right() -> None:
    one = dog("Dottie", length=14.5, height=11, width=5.75, throat_height=8, weight=13)

    assert "my No. 4 would be tight in length and width, and my No. 5 would be too roomy in height" in text(one)


@pytest.mark.parametrize(
    ("months", "words"),
    [
        (4, "none of these measures is final"),
        (8, "these measures are not quite final"),
        (13, "only the weight may still rise"),
        (30, None),
        (None, None),
    ],
)
def test_a_puppys_people_are_told_that_it_grows(months: float | None, words: str | None) -> None:
    answer = text(replace(dog("Crumb", **MEASURES, weight=14), age_months=months))

    assert words in answer if words else "final" not in answer


@pytest.mark.parametrize(
    ("advice", "words"), [("wait", "I'd wait with the cutting"), ("leave_room", "I can leave room to grow in length")]
)
def test_a_puppys_people_get_the_shops_advice(advice: str, words: str) -> None:
    puppy = replace(dog("Crumb", **MEASURES, weight=14), age_months=4)

    assert words in drafted(enquiry(puppy), shop=SHOP.model_copy(update={"puppy": advice})).text


@pytest.mark.parametrize(
    ("posture", "words"),
    [(Posture.SITS, "That takes less length than standing"), (Posture.CURLS, "more width"), (Posture.STANDS, None)],
)
def test_a_dog_that_does_not_stand_is_told_what_that_means_for_the_length(posture: Posture, words: str | None) -> None:
    answer = text(replace(dog("Pickle", **MEASURES, weight=14), posture=posture))

    assert words in answer if words else "You say that" not in answer


@pytest.mark.parametrize(
    ("sides", "words"),
    [
        ((20.0, 20.0, 20.0), "and that is within it."),
        ((18.0, 14.0, 15.0), "only if 15 in is the height"),
        ((12.0, 12.0, 12.0), "more than that"),
    ],
)
def test_a_limit_is_held_against_the_outside_and_the_operator_decides(
    sides: tuple[float, float, float], words: str
) -> None:
    answer = text(replace(dog("Pickle", **MEASURES, weight=14), space=SpaceLimit(sides=sides)))

    assert words in answer
    assert "they decide" in answer


def pair(second_throat: float, size: float = 1.0) -> Enquiry:
    base = {"length": 9.0, "height": 8.5, "width": 3.5, "throat_height": 6.25, "weight": 6.0}
    first = dog("Lefty", **{key: value * size ** SHARE.get(key, 1) for key, value in base.items()})
    second = dog(
        "Righty",
        **{**{key: value * size ** SHARE.get(key, 1) for key, value in base.items()}, "throat_height": second_throat},
    )
    return enquiry(first, second, together=True, asked_again=frozenset({(0, Measure.WIDTH), (1, Measure.WIDTH)}))


def test_two_dogs_that_can_share_are_told_the_dimensions_and_the_load_of_both() -> None:
    draft = drafted(pair(6.25))

    assert "made for the pair, with room between them and a tether for each. " not in draft.text
    assert "with both dogs inside" in draft.cautions[0]


def test_a_pair_too_large_for_one_carrier_is_told_to_take_two() -> None:
    draft = drafted(pair(6.25 * 2, size=2.0))

    assert "so please let it be two" in draft.text
    assert "both dogs" not in draft.text
