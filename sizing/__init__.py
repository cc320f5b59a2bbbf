"""The sizing engine: judges a dog's measures and says what serves it."""

from sizing.assess import assess
from sizing.assessment import Assessment, Neighbour, Note, Remark, WouldBe
from sizing.caution import Bound, Caution, DecidedBy, Level
from sizing.chart import Shop, builtin_shop, read_shop
from sizing.doubt import Doubt
from sizing.errors import AmountError, DataError, Fault, LiftError, ShopError, SizingError
from sizing.given import Given, read_length, read_weight
from sizing.measures import FIVE, Amount, Dog, Measure, Posture, SpaceLimit, Taken
from sizing.outcome import Dimensions, Direction, Kind, Outcome, Room, Slack
from sizing.reasons import Why

__all__ = [
    "FIVE",
    "Amount",
    "AmountError",
    "Assessment",
    "Bound",
    "Caution",
    "DataError",
    "DecidedBy",
    "Dimensions",
    "Direction",
    "Dog",
    "Doubt",
    "Fault",
    "Given",
    "Kind",
    "Level",
    "LiftError",
    "Measure",
    "Neighbour",
    "Note",
    "Outcome",
    "Posture",
    "Remark",
    "Room",
    "Shop",
    "ShopError",
    "SizingError",
    "Slack",
    "SpaceLimit",
    "Taken",
    "Why",
    "WouldBe",
    "assess",
    "builtin_shop",
    "read_length",
    "read_shop",
    "read_weight",
]
