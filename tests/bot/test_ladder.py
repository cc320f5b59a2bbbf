"""The ladder of median dogs: which heights a size serves, and what lies between two sizes."""

from bot.ladder import ladder, median_dog
from sizing.chart import Shop, builtin_shop
from sizing.fit import fit
from sizing.outcome import Kind
from sizing.sizes import Inside


def only(*names: str) -> Shop:
    shop = builtin_shop()
    return shop.model_copy(update={"sizes": tuple(size for size in shop.sizes if size.name in names)})


def test_every_built_in_size_serves_some_median_dog_and_larger_sizes_larger_dogs() -> None:
    stretches = [stretch for _, stretch in ladder(builtin_shop()).sizes]

    assert None not in stretches
    lows = [stretch.low for stretch in stretches if stretch]
    assert lows == sorted(lows)


def test_the_dogs_of_a_gap_get_what_the_ladder_says_of_it() -> None:
    steps = ladder(only("No. 1", "No. 3"))

    assert steps.gaps
    for stretch, kind in steps.gaps:
        assert fit(median_dog(stretch.low), only("No. 1", "No. 3")).kind is kind
        assert kind is not Kind.STANDARD


def test_the_dogs_of_an_overlap_are_served_by_both_sizes() -> None:
    steps = ladder(builtin_shop())

    for smaller, larger, stretch in steps.overlaps:
        assert fit(median_dog(stretch.low), only(smaller)).size == smaller
        assert fit(median_dog(stretch.high), only(larger)).size == larger


def test_a_size_for_no_median_dog_is_told() -> None:
    shop = builtin_shop()
    odd = shop.sizes[0].model_copy(update={"inside": Inside(length=9.5, width=14, height=9)})

    steps = ladder(shop.model_copy(update={"sizes": (odd,)}))

    assert steps.sizes == (("No. 1", None),)
    assert (steps.gaps, steps.overlaps) == ((), ())


def test_a_shop_without_sizes_has_an_empty_ladder() -> None:
    steps = ladder(only())

    assert (steps.sizes, steps.gaps, steps.overlaps) == ((), (), ())
