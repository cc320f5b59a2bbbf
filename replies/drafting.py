"""From an enquiry and what the engine says of its dogs to one draft for the customer.

What the draft is, is decided in `_kind`; how it is put is in `replies/writing/`.
"""

from collections.abc import Sequence
from datetime import date

from replies.asking import what_to_ask
from replies.draft import Draft, DraftKind
from replies.enquiry import Enquiry
from replies.errors import WordingError, WordingFault
from replies.reading.context import Asked, Channel
from replies.reading.facts import Topic
from replies.writing.answer import answer_body, measures_in_own_units
from replies.writing.naming import callings, names
from replies.writing.places import opening_place, other_place, places_in
from replies.writing.question import question_body
from replies.writing.wording import Wording, render, render_lines
from sizing.assessment import Assessment
from sizing.chart import Shop


def draft(enquiry: Enquiry, assessments: Sequence[Assessment], shop: Shop, wording: Wording, on: date) -> Draft:
    """Write the draft for an enquiry as it stands.

    assessments   one a dog of the enquiry, in order
    on            the day of the draft; no wording speaks of it so far
    Returns       one draft with all dogs in it
    Raises        WordingError, which names the template, the line and what to do
    """
    asks = what_to_ask(assessments, enquiry.asked_again)
    match _kind(enquiry, asks):
        case DraftKind.QUESTION:
            return _question(enquiry, assessments, wording, asks)
        case DraftKind.ANSWER:
            return _answer(enquiry, assessments, shop, wording)
        case DraftKind.HANDOVER:
            return _handover(enquiry, wording)
        case DraftKind.NONE:
            return Draft(kind=DraftKind.NONE)


def _kind(enquiry: Enquiry, asks: Sequence[Asked]) -> DraftKind:
    """Say what the draft is: about fit if anything unanswered is, else a text of the maker's own, else nothing.

    A "thanks" right after an unanswered question does not hide the question, and after a text that went out it needs
    none.
    """
    match enquiry.unanswered:
        case Topic.SIZING:
            return DraftKind.QUESTION if asks else DraftKind.ANSWER
        case Topic.OTHER:
            return DraftKind.HANDOVER
        case Topic.NONE:
            return DraftKind.NONE


def _opening_is_open(assessments: Sequence[Assessment]) -> bool:
    return any(one.outcome is not None and one.outcome.concern is not None for one in assessments)


def _question(enquiry: Enquiry, assessments: Sequence[Assessment], wording: Wording, asks: tuple[Asked, ...]) -> Draft:
    doubts = [one.doubts for one in assessments]
    place = _other_place(enquiry)
    body = question_body(enquiry, asks, doubts, place=place, wording=wording)
    _must_hold(body, place, "place", template="question.jinja", wording=wording)
    text = _framed(enquiry, wording, body)
    return Draft(kind=DraftKind.QUESTION, text=text, asks=asks, places=places_in(text))


def _answer(enquiry: Enquiry, assessments: Sequence[Assessment], shop: Shop, wording: Wording) -> Draft:
    """An answer; where the opening of some dog is open it has a place for the maker, and is hers to finish."""
    place, is_open = _other_place(enquiry), _opening_is_open(assessments)
    body = answer_body(enquiry, assessments, shop, wording, place=place, opening_place=opening_place())
    _must_hold(body.text, place, "place", template="answer.jinja", wording=wording)
    _must_hold(body.text, "\n\n".join(body.cautions), "caution", template="answer.jinja", wording=wording)
    if is_open:
        where = "outcomes/opening_open.jinja"
        _must_hold(body.text, opening_place(), "place", template=where, wording=wording)
    text = _framed(enquiry, wording, body.text)
    kind = DraftKind.HANDOVER if is_open else DraftKind.ANSWER
    return Draft(kind=kind, text=text, places=places_in(text), cautions=body.cautions)


def _handover(enquiry: Enquiry, wording: Wording) -> Draft:
    """A text that the maker writes: what she was asked, what is known, and what is still open and stays so."""
    dogs = [
        {
            "dog": calling,
            "measures": measures_in_own_units(enquiry, dog, wording),
            "wanted": [
                render(wording, "label.jinja", {"measure": asked.measure.value})
                for asked in enquiry.asked
                if asked.dog == number
            ],
        }
        for number, (calling, dog) in enumerate(zip(callings(enquiry.dogs), enquiry.dogs, strict=False))
    ]
    place = other_place([passage for _, passage in enquiry.other])
    body = render(wording, "handover.jinja", {"place": place, "dogs": dogs})
    _must_hold(body, place, "place", template="handover.jinja", wording=wording)
    text = _framed(enquiry, wording, body)
    return Draft(kind=DraftKind.HANDOVER, text=text, asks=enquiry.asked, places=places_in(text))


def _other_place(enquiry: Enquiry) -> str:
    passages = [passage for _, passage in enquiry.other]
    return other_place(passages) if enquiry.also_other or passages else ""


def _framed(enquiry: Enquiry, wording: Wording, body: str) -> str:
    signature = wording.signature
    in_a_chat = enquiry.last is not None and enquiry.last.channel is not Channel.EMAIL
    values = {
        "letter": not (in_a_chat and enquiry.sent),
        "greeting": signature.greeting,
        "farewell": signature.farewell,
        "maker_name": signature.maker_name,
        "shop_name": signature.shop_name,
        "names": list(names(enquiry.dogs)),
        "body": body,
    }
    text = render_lines(wording, "frame.jinja", values)
    _must_hold(text, body, "body", template="frame.jinja", wording=wording)
    return text


def _must_hold(text: str, part: str, called: str, *, template: str, wording: Wording) -> None:
    """Refuse a text that a template of the maker's own left something out of that must reach her or the customer."""
    if part in text:
        return
    fault = WordingFault(
        template=template,
        line=None,
        problem=f"it leaves out {{{{ {called} }}}}",
        remedy="put it back or remove the file to go back to tapeline's own text",
        own=template in wording.own,
    )
    raise WordingError([fault])
