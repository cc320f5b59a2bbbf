"""How high the front opening's lower edge must lie.

Under the throat hollow, so that the dog is neither choked nor tips out, and not below the elbow, or a paw goes over.
"""

from dataclasses import dataclass

from sizing.chart import Shop
from sizing.cutting import nearest_within

_NOISE_IN = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeBand:
    """Where the edge may lie for a dog, inches above the board.

    lowest, highest   lowest may be above highest: then the edge can lie nowhere
    aim               where it lies best; never below the elbow
    """

    lowest: float
    aim: float
    highest: float


def elbow_line(height: float, shop: Shop) -> float:
    """Give the height of the elbow above the board, inches, for a dog of that shoulder height on its pad."""
    return shop.pad + shop.elbow * height


def clears_elbow(opening: float, height: float, shop: Shop) -> bool:
    """Tell whether an edge `opening` inches above the board lies at the dog's elbow or above it."""
    return opening >= elbow_line(height, shop) - _NOISE_IN


def edge_band(height: float, throat_height: float, shop: Shop) -> EdgeBand:
    """Give where the edge may lie.

    height, throat_height   inches above the floor
    """
    ease, hollow, elbow = shop.ease.drop, throat_height + shop.pad, elbow_line(height, shop)
    return EdgeBand(
        lowest=max(elbow, hollow - ease.most.at(height)),
        aim=max(elbow, hollow - ease.aim.at(height)),
        highest=hollow - ease.least.at(height),
    )


def recut(band: EdgeBand, inside_height: float, shop: Shop) -> float | None:
    """Give the opening that is cut for a dog, inches above the board.

    inside_height   of the carrier that it is cut into; the edge lies at least one step below its top
    Returns         a multiple of the cutting step, or None where none serves: the maker decides
    """
    highest = min(band.highest, inside_height - shop.step)
    return nearest_within(band.aim, band.lowest, highest, step=shop.step)
