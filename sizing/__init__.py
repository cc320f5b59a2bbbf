"""The sizing engine: judges a dog's measures and says what serves it."""

from sizing.assess import assess
from sizing.assessment import Assessment, Neighbour, Note, Remark, WouldBe
from sizing.caution import Bound, Caution, DecidedBy, Level
from sizing.chart import Shop, builtin_shop, read_shop
from sizing.doubt import Doubt
from sizing.errors import AmountError, DataError, Fault, LiftError, ShopError, SizingError
from sizing.given import Given, read_length, read_weight
from sizing.growth import Advice, Growth, Stage
from sizing.measures import FIVE, Amount, Dog, Measure, Posture, SpaceLimit, Taken
from sizing.outcome import Dimensions, Direction, Kind, Outcome, Room, Slack
from sizing.proof_load import ProofLoad, proof_load
from sizing.reasons import Why
from sizing.space import Space
from sizing.together import Together, together

__all__ = [
    "FIVE",
    "Advice",
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
    "Growth",
    "Kind",
    "Level",
    "LiftError",
    "Measure",
    "Neighbour",
    "Note",
    "Outcome",
    "Posture",
    "ProofLoad",
    "Remark",
    "Room",
    "Shop",
    "ShopError",
    "SizingError",
    "Slack",
    "Space",
    "SpaceLimit",
    "Stage",
    "Taken",
    "Together",
    "Why",
    "WouldBe",
    "assess",
    "builtin_shop",
    "proof_load",
    "read_length",
    "read_shop",
    "read_weight",
    "together",
]
