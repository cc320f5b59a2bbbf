"""The lifting equation worked out for one carrier, for the maker: from the floor to the shoulder, with both hands.

It says how the load compares with a two-handed lift of a stable load. The equation leaves out a dog in a carrier on one
shoulder (see lifting.SCOPE), so no text for a customer may lean on it.
"""

from dataclasses import dataclass

from sizing.errors import LiftError
from sizing.guideline import Zone, guideline
from sizing.lifting import SCOPE, Coupling, Lift, horizontal_from_depth, lifting_index, recommended_weight_limit


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftReference:
    """A two-handed lift of a carrier by its handles, from the floor to the shoulder, seldom, with a fair grip.

    limit_lb      recommended weight limit at whichever end of the lift is the stricter
    index         total load over the limit; above 1: raised risk for some, above 3: for nearly all
    governs       "origin" or "destination"
    origin, destination   the lift as it goes into the equation, inches
    scope         what the equation does not cover
    """

    limit_lb: float
    index: float
    governs: str
    origin: Lift
    destination: Lift
    scope: str = SCOPE


def lift_reference(total_lb: float, *, depth_in: float, hands_from_in: float) -> LiftReference | None:
    """Work the equation out for a carrier.

    total_lb        total load
    depth_in        of the carrier, from the body outwards
    hands_from_in   height of the hands when they take the handles
    Returns         None where the lift lies outside the equation's limits
    """
    shoulder = guideline().tops_in[Zone.ELBOW_TO_SHOULDER]
    way = abs(shoulder - hands_from_in)
    try:
        origin = _lift(depth_in, hands_from_in, way)
        destination = _lift(depth_in, shoulder, way)
        limits = {"origin": recommended_weight_limit(origin), "destination": recommended_weight_limit(destination)}
        governs = min(limits, key=lambda end: limits[end])
        index = lifting_index(total_lb, origin if governs == "origin" else destination)
    except LiftError:
        return None
    return LiftReference(limit_lb=limits[governs], index=index, governs=governs, origin=origin, destination=destination)


def _lift(depth: float, hands: float, way: float) -> Lift:
    return Lift(
        horizontal=horizontal_from_depth(depth, hands),
        vertical=hands,
        distance=way,
        coupling=Coupling.FAIR,
    )
