"""Published figures about dogs: measured dogs, pets' weights, standards and owners' own errors.

Where a source gives the body length (breastbone to buttock), the maker's length is taken as 0.785 of it plus 0.08 of
the height: withers to tail set over the body is 0.77 in the fox terrier's and 0.80 in the Bichon's standard (AKC), and
the base of the neck lies 0.08 of the height before the withers (59 side-on photographs).
"""

import math

import pytest

from sizing.body import Kin
from sizing.judge import judge
from sizing.measures import Dog, Measure
from sizing.reasons import Why
from sizing.units import to_inches, to_pounds
from sizing.weighing import kin_of, suspicion, told_of
from tests.sizing.dogs import dog
from tests.sizing.doubted import bare, doubted, first, of_breed

LENGTH, HEIGHT, WIDTH, THROAT, WEIGHT, GIRTH = range(6)


def cm(value: float) -> float:
    return to_inches(value, "cm")


def back(body: float, height: float) -> float:
    """Give the maker's length of a body length, in the unit of both."""
    return 0.785 * body + 0.08 * height


# Means of measured dogs, cm and kg: height, body length, girth, chest width, weight; None: not given.
MEASURED = {
    "Tazi, 62 dogs (search.isc.ac/inventory/10/944659)": (62.5, 60.9, 63.5, 17.3, 18.6),
    "Kangal, Kirikkale, 50 dogs (Asian J Anim Vet Adv 7:403, 2012)": (75.9, 74.8, 86.1, 22.4, 50.8),
    "Kangal in Europe, 39 dogs (cjpas.net id 1701)": (76.8, 67.3, None, 21.7, 50.5),
    "Akbash, 59 dogs (Bitlis Eren Univ J)": (75.3, 81.8, 86.5, None, 44.9),
    "Kangal bitches (Livestock Studies 34, 1994)": (62.4, None, 73.9, None, 32.4),
    "Kangal dogs (Livestock Studies 34, 1994)": (69.1, None, 82.1, None, 40.5),
}


def measured(height: float, body: float | None, girth: float | None, width: float | None, weight: float) -> Dog:
    return dog(
        height=cm(height),
        length=None if body is None else cm(back(body, height)),
        girth=None if girth is None else cm(girth),
        width=None if width is None else cm(width),
        weight=to_pounds(weight, "kg"),
    )


@pytest.mark.parametrize("means", MEASURED.values(), ids=MEASURED.keys())
def test_the_means_of_measured_dogs_are_not_doubted(
    means: tuple[float, float | None, float | None, float | None, float],
) -> None:
    assert doubted(measured(*means)) == set()


def test_the_mean_of_measured_puppies_is_not_doubted() -> None:
    """Kangal pups at 52 days, 38 dogs, weight at 8 weeks (Bulg J Agric Sci 18:980, 2012)."""
    told = dog(height=cm(27.3), length=cm(back(27.8, 27.3)), girth=cm(35.4), weight=to_pounds(3.9, "kg"))

    assert doubted(of_breed(told, age_months=1.7)) == set()


# Median, quartiles and range of adult pets in UK records, kg (VetCompass papers), with a usual height of the breed, in.
PETS = {
    "Chihuahua (BMC Vet Res 2020, s12917-020-2258-1)": ("Chihuahua", 7.5, (2.7, 3.4, 4.3)),
    "Shih Tzu, mean and one SD (Canine Med Genet, Jan 2024)": ("Shih Tzu", 10, (6.0, 7.9, 9.8)),
    "West Highland, mean and one SD (s40575-019-0075-2)": ("West Highland White Terrier", 10.75, (7.8, 9.6, 11.4)),
    "Border Terrier, medians (Canine Genet Epidemiol 4:15, 2017)": ("Border Terrier", 14, (9.1, 10.9)),
}


@pytest.mark.parametrize(("breed", "height", "weights"), PETS.values(), ids=PETS.keys())
def test_pets_heavier_than_their_standards_are_not_doubted(
    breed: str, height: float, weights: tuple[float, ...]
) -> None:
    for weight in weights:
        told = dog(height=height, weight=to_pounds(weight, "kg"))

        assert doubted(told) == set()
        assert doubted(of_breed(told, breed)) == set()


# Ratios to the shoulder height in 45 to 59 side-on photographs of standing dogs (open key points), 5-95 %.
@pytest.mark.parametrize("ratio", [0.62, 0.70, 0.74, 0.77, 0.82])
def test_throat_heights_of_photographed_dogs_are_not_doubted(ratio: float) -> None:
    for height in (9, 12, 20):
        told = dog(height=height, length=height, width=0.42 * height, throat=ratio * height)

        assert doubted(told) == set()


@pytest.mark.parametrize("ratio", [0.81, 0.90, 0.98, 1.11, 1.45])
def test_lengths_of_photographed_dogs_are_not_doubted(ratio: float) -> None:
    for height in (9, 12, 20):
        assert doubted(dog(height=height, length=ratio * height, throat=0.73 * height)) == set()


def test_a_height_to_the_base_of_the_ear_hides_among_dogs_but_one_to_the_crown_does_not() -> None:
    """Ear base 1.18 of the shoulder height, middle half 1.14-1.23 (45 photographs)."""
    sound, ear, crown = (
        suspicion(dog(length=12.5, height=10.5 * factor, width=5, throat=7.6, weight=12)) for factor in (1, 1.18, 1.35)
    )

    assert sound < ear < crown
    assert first(dog(length=12.5, height=10.5 * 1.35, width=5, throat=7.6, weight=12)) == "height head"


# Lengths that a standard states in inches, all of one dog.
STANDARDS = {
    "Scottish Terrier, 10 in high, back 11 in, 19-22 lb (AKC 1993)": ("Scottish Terrier", 10, 11 + 0.8, 20),
    "Smooth Fox Terrier, 15.5 in, back at most 12 in, 18 lb (AKC)": ("Smooth Fox Terrier", 15.5, 12 + 1.24, 18),
    "Cairn Terrier, 10 in high, 15 in chest to rump, 14 lb (AKC)": ("Cairn Terrier", 10, back(15, 10), 14),
    "Pembroke corgi, back 40 % over the height, 27 lb (AKC)": ("Pembroke Welsh Corgi", 11, 11 * 1.48, 27),
    "Cardigan corgi, 1.8 to 1, 34 lb (AKC)": ("Cardigan Welsh Corgi", 11.5, back(1.8 * 11.5, 11.5), 34),
    "Clumber, 11 to 9, 77 lb (AKC, older)": ("Clumber Spaniel", 19.5, 19.5 * 11 / 9 + 1.5, 77),
    "Dachshund, 1.75 to 1 (FCI 148, 2019)": ("Dachshund (standard)", 8.5, back(1.75 * 8.5, 8.5), 22),
    "Pekingese, 3 high to 5 long, 14 lb (AKC)": ("Pekingese", 7.5, back(12.5, 7.5), 14),
}


@pytest.mark.parametrize(("breed", "height", "length", "weight"), STANDARDS.values(), ids=STANDARDS.keys())
def test_dogs_of_the_proportions_of_their_standards_are_not_doubted(
    breed: str, height: float, length: float, weight: float
) -> None:
    told = dog(height=height, length=length, weight=weight)

    assert doubted(told) == set()
    assert doubted(of_breed(told, breed)) == set()


# Girths that standards state, cm, with the height, cm, and the weight, kg.
GIRTHS = {
    "Jack Russell, 40-43 cm, 1 kg for each 5 cm (FCI 345)": ("Jack Russell Terrier", 28, 5.6, (40, 43)),
    "miniature Dachshund, 30-35 cm, 4 kg (FCI 148, 2001)": ("Dachshund (miniature)", 14, 4, (30, 35)),
    "Maltese, two thirds over the height (older FCI 65)": ("Maltese", 23, 3.7, (38.3,)),
}


@pytest.mark.parametrize(("breed", "height", "weight", "girths"), GIRTHS.values(), ids=GIRTHS.keys())
def test_the_girths_of_the_standards_are_not_doubted_and_are_never_widths(
    breed: str, height: float, weight: float, girths: tuple[float, ...]
) -> None:
    for girth in girths:
        size = {"height": cm(height), "weight": to_pounds(weight, "kg")}

        assert doubted(of_breed(dog(girth=cm(girth), **size), breed)) == set()
        assert doubted(of_breed(dog(width=cm(girth), **size), breed)) & {"width girth", "width unit"}


def test_the_model_finds_the_width_that_goes_with_a_girth() -> None:
    """Tazi: girth 63.5 cm, width 17.3 cm, height 62.5 cm (62 dogs, search.isc.ac/inventory/10/944659)."""
    width = Kin().expected(WIDTH, [math.log(cm(62.5)), math.log(cm(63.5))], (HEIGHT, GIRTH))

    assert width == pytest.approx(cm(17.3), rel=0.15)


@pytest.mark.parametrize("height", [6, 9, 12, 16, 22, 28])
def test_the_weight_that_goes_with_a_height_is_that_of_the_breeds(height: float) -> None:
    """Weight (lb) = 0.10 x height (in) ^ 2.05 over 264 breeds, residual spread 0.30; pets are heavier."""
    weight = Kin().expected(WEIGHT, [math.log(height)], (HEIGHT,))

    assert 0.75 < weight / (0.10 * height**2.05) < 1.6


def test_the_smallest_recorded_dog_is_not_doubted() -> None:
    """3.8 in and about 1 lb (world-record listings on sinogenepets.com)."""
    assert doubted(dog(height=3.8, weight=1)) == set()


# Owners' entries of labrador heights and weights, 28,012 and 43,421 of them: the kinds of errors that were found
# (PLOS ONE 15(1):e0228154, 2020, table 7).
LABRADOR = {"length": 23.5, "height": 22.5, "width": 9, "throat": 16.5, "weight": 70}


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        ({"height": 225}, Why.SIZE),
        ({"height": 2.25}, Why.SIZE),
        ({"height": 122.5}, None),
        ({"height": 1022.5}, None),
        ({"height": 57}, Why.UNIT),
        ({"height": 22.5 / 2.54}, None),
        ({"weight": 700}, Why.WEIGHT),
        ({"weight": 7}, Why.WEIGHT),
        ({"weight": 170}, None),
        ({"weight": 70 / 2.2046}, Why.UNIT),
    ],
)
def test_the_errors_that_owners_made_are_doubted(wrong: dict[str, float], why: Why | None) -> None:
    doubts = judge(of_breed(dog(**{**LABRADOR, **wrong}), "Labrador Retriever"))

    assert {doubt.measure for doubt in doubts} >= {
        {"height": Measure.HEIGHT, "weight": Measure.WEIGHT}[key] for key in wrong
    }
    assert why is None or doubts[0].why is why


def test_the_labrador_without_errors_is_not() -> None:
    assert doubted(of_breed(dog(**LABRADOR), "Labrador Retriever")) == set()


def test_the_growth_of_a_beagle() -> None:
    """50 % of the grown weight (17 kg line) at 14.8 weeks, 95 % at 35-39 weeks (BMC Vet Res 9:203, 2013)."""
    grown = to_pounds(17, "kg")

    for months, share in ((14.8 * 7 / 30.44, 0.5), (37 * 7 / 30.44, 0.95)):
        told = of_breed(dog(weight=share * grown, height=15 * share**0.4), "Beagle", age_months=months)

        assert doubted(told) == set()


def test_a_standards_body_length_is_not_the_makers_length() -> None:
    """Cardigan corgi 1.8 to 1 (AKC), told as a back length without the breed, with a throat and a width."""
    body_length = dog(length=1.8 * 11.5, height=11.5, width=6.5, throat=8, weight=26)
    makers = dog(length=back(1.8 * 11.5, 11.5), height=11.5, width=6.5, throat=8, weight=26)

    assert suspicion(body_length) > 5 * suspicion(makers)
    assert doubted(makers) == set()


def test_the_measures_of_a_crate_are_not_those_of_a_carrier() -> None:
    """IATA Live Animals Regulations, container requirement 1: A nose to tail root, D floor to the top of the head."""
    height, length = 10.5, 12.5
    told = dog(length=length + 0.5 * height, height=1.35 * height, width=5, throat=7.5, weight=11.5)

    assert {"length tail", "height head"} & doubted(told)


def test_a_bare_number_is_judged_as_inches_first() -> None:
    told = bare(dog(**LABRADOR))

    assert doubted(told) == set()
    assert kin_of(told).log_density([[math.log(v) for v in (23.5, 22.5, 9, 16.5, 70)]], (0, 1, 2, 3, 4))[0] > -15
    assert told_of(told).unstated == frozenset(told.measures)
