"""One dog of an answer, with the ways in which its texts write lengths."""

from dataclasses import dataclass

from replies.enquiry import Enquiry, EnquiryDog
from replies.writing.wording import Wording, render
from sizing.assessment import Assessment
from sizing.chart import Shop
from sizing.measures import Measure
from sizing.outcome import Dimensions, Kind, Outcome
from sizing.sizes import Size
from sizing.written import length_with_unit

SERVED = frozenset({Kind.STANDARD, Kind.ALTERED_OPENING, Kind.MADE_TO_MEASURE})
"""The outcomes that give a carrier."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OneDog:
    """A dog with an outcome, and all that its texts need.

    calling         what it is called in the middle of a sentence
    opening_place   the marked place where no height of the opening serves
    """

    enquiry: Enquiry
    shop: Shop
    wording: Wording
    calling: str
    dog: EnquiryDog
    assessment: Assessment
    outcome: Outcome
    opening_place: str

    @property
    def is_served(self) -> bool:
        """Whether there is a carrier for it."""
        return self.outcome.kind in SERVED

    def text(self, name: str, **values: object) -> str:
        """Fill in a template that is told how the dog is called."""
        return render(self.wording, name, {"dog": self.calling, **values})

    @property
    def length_unit(self) -> str:
        """The unit that all of this dog's lengths came in; where they came in several, the customer's latest."""
        told = {
            length_with_unit(0, known.unit).split()[-1]
            for measure, known in self.dog.measures.items()
            if measure is not Measure.WEIGHT and known.taken.unit_stated and not known.source.by_maker
        }
        return told.pop() if len(told) == 1 else self.enquiry.length_unit

    def brief(self, inches: float) -> str:
        """Write a length in the customer's own unit."""
        return length_with_unit(inches, self.length_unit)

    def length(self, inches: float) -> str:
        """Write a length in the customer's own unit, and in the shop's beside it where that is another."""
        own, shops = self.brief(inches), length_with_unit(inches, self.shop.length_unit)
        return own if own.split()[-1] == shops.split()[-1] else f"{own} ({shops})"

    def sides(self, *inches: float) -> str:
        """Write the sides of a box, with the unit once."""
        *first, last = (self.brief(side) for side in inches)
        return " x ".join([*(side.rsplit(" ", 1)[0] for side in first), last])

    def inside(self, inside: Dimensions | None, opening: float | None) -> str:
        """Write finished inside dimensions; "" where they are open."""
        if inside is None or opening is None:
            return ""
        return self.text(
            "inside.jinja",
            length=self.length(inside.length),
            width=self.length(inside.width),
            height=self.length(inside.height),
            opening=self.length(opening),
        )

    def size(self, name: str | None) -> Size | None:
        """Give a standard size of the shop by its name."""
        return next((size for size in self.shop.sizes if size.name == name), None)
