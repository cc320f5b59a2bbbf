"""Settings that cannot be: each is named with what would be right, and all are found at once."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from sizing.errors import Fault
from sizing.guideline import guideline
from sizing.sizes import CautionLimits, Ease, Eases, Sewn, Size
from sizing.units import from_inches, from_pounds

LEAST_POCKETS_LB = 1.0
"""The total load counts at least this for the pockets: settings may make the caution stricter, never laxer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InOwnUnits:
    """Writes a setting in the units that the maker works in."""

    length_unit: str
    weight_unit: str

    def length(self, inches: float) -> str:
        """Write a length, such as "0.25 in"."""
        return f"{from_inches(inches, self.length_unit):.6g} {self.length_unit}"

    def weight(self, pounds: float) -> str:
        """Write a weight, such as "1.3 kg"."""
        return f"{from_pounds(pounds, self.weight_unit):.6g} {self.weight_unit}"


def size_faults(sizes: Sequence[Size], pad: float, *, write: InOwnUnits) -> Iterator[Fault]:
    """Find sizes that share a name, that do not grow, or whose opening leaves no way in."""
    yield from name_faults([size.name for size in sizes])
    for size in sizes:
        yield from _opening_faults(size, pad, write=write)
    for smaller, larger in pairwise(sizes):
        if larger.inside.volume <= smaller.inside.volume:
            inside = larger.inside
            yield Fault(
                key=f"sizes.{larger.name}.inside",
                given=" x ".join(write.length(side) for side in (inside.length, inside.width, inside.height)),
                right=f"it holds no more than {smaller.name} before it: list the sizes from small to large",
            )


def name_faults(names: Sequence[str]) -> Iterator[Fault]:
    """Find names that several sizes share."""
    for name in sorted(name for name, count in Counter(names).items() if count > 1):
        yield Fault(key=f"sizes.{name}.name", given=name, right="each size needs a name of its own")


def _opening_faults(size: Size, pad: float, *, write: InOwnUnits) -> Iterator[Fault]:
    key = f"sizes.{size.name}.opening"
    if size.opening >= size.inside.height:
        height = write.length(size.inside.height)
        yield Fault(
            key=key,
            given=write.length(size.opening),
            right=f"the opening's lower edge must lie below the inside height, {height}: measure it up from the board",
        )
    if size.opening <= pad:
        yield Fault(
            key=key,
            given=write.length(size.opening),
            right=f"the opening's lower edge must lie above the pad, {write.length(pad)}: measure it up from the board",
        )


def ease_faults(eases: Eases, sewn: Sewn, *, step: float, write: InOwnUnits) -> Iterator[Fault]:
    """Find ease whose least, aim and most are out of order or too close for one cutting step."""
    spans = {
        "length": (eases.length, sewn.most.length),
        "width": (eases.width, sewn.most.width),
        "height": (eases.height, sewn.most.height),
        "drop": (eases.drop, sewn.most.height),
    }
    for name, (ease, largest) in spans.items():
        # An amount plus a share is a straight line: what holds at both ends holds between them.
        faults = (_one_ease_fault(f"ease.{name}", ease, at=at, step=step, write=write) for at in (0.0, largest))
        yield from [fault for fault in faults if fault][:1]


def _one_ease_fault(key: str, ease: Ease, *, at: float, step: float, write: InOwnUnits) -> Fault | None:
    least, aim, most = ease.least.at(at), ease.aim.at(at), ease.most.at(at)
    given = f"least {write.length(least)}, aim {write.length(aim)}, most {write.length(most)}"
    if at:
        given += f" at {write.length(at)}"
    if not least <= aim <= most:
        return Fault(key=key, given=given, right="least must not be more than aim, nor aim more than most")
    if most - least < step - 1e-9:
        return Fault(
            key=key,
            given=given,
            right=f"most must be at least one cutting step, {write.length(step)}, more than least: "
            "raise most, lower least or cut in smaller steps",
        )
    return None


def sewn_faults(sewn: Sewn, pad: float, *, write: InOwnUnits) -> Iterator[Fault]:
    """Find ends of what can be sewn that are the wrong way round or leave no way in."""
    for name in ("length", "width", "height", "opening"):
        least, most = getattr(sewn.least, name), getattr(sewn.most, name)
        if least > most:
            yield Fault(
                key=f"sewn.least.{name}",
                given=write.length(least),
                right=f"it must not be more than sewn.most.{name}, {write.length(most)}",
            )
    if sewn.least.opening >= sewn.most.height:
        yield Fault(
            key="sewn.least.opening",
            given=write.length(sewn.least.opening),
            right=f"the lowest opening must lie below the largest inside height, {write.length(sewn.most.height)}",
        )
    if pad >= sewn.most.height:
        yield Fault(
            key="pad",
            given=write.length(pad),
            right=f"the pad must be thinner than the largest inside height, {write.length(sewn.most.height)}",
        )


def caution_faults(limits: CautionLimits, pockets: float, *, write: InOwnUnits) -> Iterator[Fault]:
    """Find settings that would make the caution laxer than the published figures."""
    published = guideline()
    only = "the shop may make the caution stricter, never laxer"
    for name, given, most in (
        ("carry_most", limits.carry_most, published.carry_lb),
        ("short_carry_most", limits.short_carry_most, published.short_carry_lb),
    ):
        if given is not None and given > most + 1e-9:
            yield Fault(
                key=f"caution.{name}",
                given=write.weight(given),
                right=f"at most the published {write.weight(most)}: {only}",
            )
    carry = published.carry_lb if limits.carry_most is None else limits.carry_most
    short = published.short_carry_lb if limits.short_carry_most is None else limits.short_carry_most
    if short + 1e-9 < carry <= published.carry_lb + 1e-9:  # beyond the published figure, carry_most alone is at fault
        right = f"it must not be less than caution.carry_most, {write.weight(carry)}: lower that as well"
        yield Fault(key="caution.short_carry_most", given=write.weight(short), right=right)
    if pockets < LEAST_POCKETS_LB - 1e-9:
        right = f"at least {write.weight(LEAST_POCKETS_LB)}: {only}"
        yield Fault(key="pockets", given=write.weight(pockets), right=right)
