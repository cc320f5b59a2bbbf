"""What the tables leave out of a breed is filled in."""

import pytest

from sizing.breeds import breed_rows
from sizing.builds import Build, builds


def of(breed: str) -> list[Build]:
    return [build for build in builds() if build.breed == breed]


def test_every_sized_breed_has_builds_whose_shares_add_up_to_one() -> None:
    sized = {row.breed for row in breed_rows() if any(row.heights)}

    for breed in sized:
        assert sum(build.share for build in of(breed)) == pytest.approx(1), breed


def test_a_ratio_of_the_whole_body_is_made_shorter() -> None:
    (build,) = of("Basenji")

    assert build.length == pytest.approx((0.785 * 1.0 + 0.08) * 1.03)


def test_a_ratio_of_the_back_is_not() -> None:
    assert [build.length for build in of("Pembroke Welsh Corgi")] == pytest.approx([(1.4 + 0.08) * 1.03] * 2)


def test_a_ratio_from_the_point_of_the_shoulder_to_the_tail_is_the_makers_own() -> None:
    (build,) = of("Tibetan Terrier")

    assert build.length == pytest.approx(1.03)


def test_a_breed_takes_its_ratio_from_the_row_of_all_its_sizes() -> None:
    assert {round(build.length, 2) for build in of("Dachshund (standard)")} == {1.5, 1.7}


def test_a_breed_takes_its_weight_from_another_row() -> None:
    assert {build.weights for build in of("Great Dane")} == {(110, 175)}


def test_the_heights_of_a_row_count_and_other_figures_fill_in_only_where_it_has_none() -> None:
    found = of("Dachshund (miniature)")

    stated = {build.heights for build in found if build.weights == (pytest.approx(0.6 * 11), 11)}
    filled_in = [build.heights for build in found if build.weights[1] < 9]
    assert stated == {(5, 6)}
    assert (min(low for low, _ in filled_in), max(high for _, high in filled_in)) == pytest.approx((5, 8.5))


def test_a_ceiling_alone_gets_a_floor() -> None:
    (build,) = of("Basset Hound")

    assert build.heights == (pytest.approx(0.85 * 15), 15)


def test_a_breed_of_many_sizes_is_split_small_and_light_from_large_and_heavy() -> None:
    parts = of("American Eskimo Dog")

    assert [part.heights[0] for part in parts] == sorted(part.heights[0] for part in parts)
    assert [part.weights[1] for part in parts] == sorted(part.weights[1] for part in parts)
    assert (parts[0].heights[0], parts[-1].heights[1]) == (pytest.approx(9), pytest.approx(19))


@pytest.mark.parametrize("breed", ["Whippet", "Greyhound", "Azawakh", "Saluki", "Italian Greyhound"])
def test_a_sighthound_is_lean(breed: str) -> None:
    assert all(build.is_lean and not build.is_long for build in of(breed))


@pytest.mark.parametrize("breed", ["Dachshund (standard)", "Basset Hound", "Pembroke Welsh Corgi", "Skye Terrier"])
def test_a_short_legged_breed_is_long(breed: str) -> None:
    assert all(build.is_long and not build.is_lean for build in of(breed))


@pytest.mark.parametrize("breed", ["Bulldog", "Pug", "Labrador Retriever", "Boxer"])
def test_other_breeds_are_neither(breed: str) -> None:
    assert not any(build.is_long or build.is_lean for build in of(breed))
