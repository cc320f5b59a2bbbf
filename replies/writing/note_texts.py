"""What else an answer says of a dog: that it still grows, how it rides, whether a carrier stays within a limit."""

from replies.writing.one_dog import OneDog
from sizing.measures import Posture
from sizing.outcome import Kind


def note_texts(one: OneDog) -> list[str]:
    """Write the notes on a dog that it needs.

    Raises   WordingError
    """
    return [note for note in (_growth_note(one), _posture_note(one), _space_note(one)) if note]


def _growth_note(one: OneDog) -> str:
    growing = one.assessment.growth
    if growing is None or one.outcome.kind is Kind.NOT_SAFE:
        return ""
    return one.text(
        "notes/puppy.jinja",
        stage=growing.stage.value,
        advice=growing.advice.value if growing.advice else "",
        months=f"{growing.wait_until_months:g}",
        served=one.is_served,
    )


def _posture_note(one: OneDog) -> str:
    posture = one.dog.posture
    if posture is None or posture is Posture.STANDS or not one.is_served:
        return ""
    return one.text("notes/posture.jinja", posture=posture.value)


def _space_note(one: OneDog) -> str:
    room = one.assessment.space
    if room is None:
        return ""
    within = ("all" if room.whichever_way else "some") if room.fits else "none"
    return one.text(
        "notes/space.jinja",
        outer=one.sides(room.outer.length, room.outer.width, room.outer.height),
        limit=one.sides(*room.limit.sides),
        within=within,
        upright=[one.brief(side) for side in room.upright],
    )
