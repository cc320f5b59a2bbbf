"""The wording is tried out before a customer sees it."""

import pytest

from replies.checking import check_wording
from replies.drafting import draft
from replies.errors import WordingFault
from replies.writing.sample_parts import A_DAY
from replies.writing.samples import samples
from replies.writing.templating import built_in
from replies.writing.wording import Signature, make_wording
from sizing.chart import Shop, builtin_shop

METRIC = {"length_unit": "cm", "weight_unit": "kg"}
TIGHT = {"caution": builtin_shop().caution.model_copy(update={"carry_most": 3.0, "short_carry_most": 5.0})}


def faults(own: dict[str, str]) -> list[WordingFault]:
    return check_wording(make_wording(own=own), builtin_shop())


@pytest.mark.parametrize(
    "shop",
    [
        builtin_shop().model_copy(update=change)
        for change in ({}, METRIC, {"sizes": ()}, {"puppy": "leave_room"}, TIGHT)
    ],
    ids=["built in", "in centimetres", "without sizes", "leaves room", "stricter"],
)
def test_the_wording_that_comes_with_tapeline_has_no_fault(shop: Shop) -> None:
    assert check_wording(make_wording(), shop) == []


def test_every_branch_of_every_template_is_tried() -> None:
    marked = {name: _marked(name, text) for name, text in built_in().items()}
    wording = make_wording(Signature(maker_name="Maren"), {name: text for name, (text, _) in marked.items()})

    said = "".join(
        draft(one.enquiry, one.assessments, one.shop, wording, A_DAY).text for one in samples(builtin_shop())
    )

    marks = {mark for _, found in marked.values() for mark in found}
    assert sorted(mark for mark in marks if mark not in said) == []


def _marked(name: str, text: str) -> tuple[str, list[str]]:
    """A template that says where it went: a mark behind each line that begins a branch, and one at the end."""
    lines, marks = [], []
    for number, line in enumerate([*text.splitlines(), ""], start=1):
        lines.append(line)
        if _begins_a_branch(line) or (not line and number > len(text.splitlines())):
            marks.append(f"<{name}:{number}>")
            lines.append(marks[-1])
    return "\n".join(lines), marks


def _begins_a_branch(line: str) -> bool:
    return line.strip().startswith(("{% if", "{% elif", "{% else", "{%- if", "{% for"))


def test_a_fault_names_the_template_the_line_and_what_to_do() -> None:
    (fault,) = faults({"next.jinja": "Fine.\n\n{{ serve }}"})

    assert str(fault).startswith(
        "wording/next.jinja, line 3: 'serve' is undefined; use what is given here (cut, served)"
    )


@pytest.mark.parametrize(
    ("own", "about"),
    [
        ({"question.jinja": "Could you measure again?"}, "it leaves out {{ place }}"),
        ({"answer.jinja": "Take No. 4. {{ place }}"}, "it leaves out {{ caution }}"),
        ({"caution.jinja": "Mind your back."}, "it leaves out how heavy it gets"),
        ({"handover.jinja": "Hm."}, "it leaves out {{ place }}"),
        ({"outcomes/opening_open.jinja": "Hm."}, "it leaves out {{ place }}"),
        ({"frame.jinja": "Hello"}, "it leaves out {{ body }}"),
    ],
)
def test_a_template_that_leaves_out_a_place_or_the_caution_is_a_fault(own: dict[str, str], about: str) -> None:
    assert about in [fault.problem for fault in faults(own)]


def test_a_question_that_tells_the_size_is_a_fault() -> None:
    (fault,) = faults({"question.jinja": built_in()["question.jinja"] + "\nIt will be {{ dogs[0].outcome.size }}."})

    assert "has no attribute 'outcome'" in fault.problem


@pytest.mark.parametrize(
    "claim", ["It is safe.", "Tested by hand.", "approved for every airline", "It fits under the seat"]
)
def test_a_claim_that_no_document_bears_out_is_a_fault(claim: str) -> None:
    (fault,) = faults({"next.jinja": f"Good news.\n{claim}"})

    assert (fault.template, fault.line) == ("next.jinja", 2)
    assert "no document bears out" in fault.problem
