"""The maker's own wording: taken by name, closed to everything but the values, refused with the line and a remedy."""

import pytest

from replies.errors import WordingError
from replies.writing.templating import built_in
from replies.writing.wording import Signature, make_wording, render, render_lines


def faults(own: dict[str, str]) -> list[str]:
    with pytest.raises(WordingError) as caught:
        make_wording(own=own)
    return [str(fault) for fault in caught.value.faults]


def test_the_makers_own_version_takes_the_place_of_the_built_in_one() -> None:
    wording = make_wording(own={"passing/breed.jinja": "What sort of dog is {{ dog }}?"})

    assert render(wording, "passing/breed.jinja", {"dog": "Pickle"}) == "What sort of dog is Pickle?"
    assert wording.own == {"passing/breed.jinja"}


def test_the_texts_in_force_are_open_to_a_fingerprint() -> None:
    own = {"next.jinja": "Bye."}

    assert dict(make_wording(own=own).texts) == {**built_in(), **own}


def test_her_versions_cannot_be_changed_behind_the_wording() -> None:
    own = {"next.jinja": "Bye."}
    wording = make_wording(own=own)
    own["next.jinja"] = "{{ broken"

    assert render(wording, "next.jinja", {}) == "Bye."


def test_a_name_that_no_template_has_is_refused_with_the_nearest() -> None:
    assert faults({"doubts/girt.jinja": ""}) == [
        "wording/doubts/girt.jinja: no template has this name; rename it to doubts/girth.jinja"
    ]


def test_a_text_that_is_no_template_is_refused_with_its_line() -> None:
    (fault,) = faults({"next.jinja": "Fine.\n{% if cut %}\nNot closed."})

    assert fault.startswith("wording/next.jinja, line 3: Unexpected end of template")
    assert fault.endswith("mend that line or remove the file to go back to tapeline's own text")


def test_all_faults_are_named_at_once() -> None:
    assert len(faults({"next.jinja": "{{", "answer.jinja": "{% what %}", "other.jinja": ""})) == 3


@pytest.mark.parametrize(
    "text",
    [
        "{{ nothing.of.the.kind }}",
        "{{ 1 // 0 }}",
        "{{ dog + 1 }}",
        "{{ dog.__class__.__mro__ }}",
        "{{ ''.__class__.__base__.__subclasses__() }}",
        "{{ self.__init__.__globals__ }}",
        "{% include 'other.jinja' %}",
        "{% for i in range(10000000) %}x{% endfor %}",
        "{% include 'next.jinja' %}",
    ],
)
def test_whatever_a_template_does_wrong_names_its_line(text: str) -> None:
    wording = make_wording(own={"next.jinja": f"Fine.\n{text}"})

    with pytest.raises(WordingError, match=r"^wording/next\.jinja, line 2: "):
        render(wording, "next.jinja", {"dog": "Pickle"})


def test_a_template_cannot_change_what_it_is_given() -> None:
    numbers = ["width"]
    wording = make_wording(own={"next.jinja": "{{ numbers.append('height') }}"})

    with pytest.raises(WordingError):
        render(wording, "next.jinja", {"numbers": numbers})
    assert numbers == ["width"]


def test_a_fault_in_a_template_that_another_uses_is_named_where_it_is() -> None:
    wording = make_wording(own={"next.jinja": "{% include 'label.jinja' %}", "label.jinja": "\n{{ thing }}"})

    with pytest.raises(WordingError, match=r"^wording/label\.jinja, line 2: 'thing' is undefined"):
        render(wording, "next.jinja", {})


def test_values_are_never_templates_nor_escaped() -> None:
    wording = make_wording(own={"next.jinja": "{{ dog }}"})

    assert render(wording, "next.jinja", {"dog": "{{ 7*7 }} <b> & 'x'"}) == "{{ 7*7 }} <b> & 'x'"


def test_a_line_break_is_a_blank_and_an_empty_line_a_new_paragraph() -> None:
    wording = make_wording(own={"next.jinja": "one\n  two   three\n\n\n \nfour\n"})

    assert render(wording, "next.jinja", {}) == "one two three\n\nfour"


def test_the_line_breaks_of_a_frame_count() -> None:
    wording = make_wording(own={"frame.jinja": "{{ body }}\n\n\n\nYours,\n  Maren\n"})

    assert render_lines(wording, "frame.jinja", {"body": "a\n\nb"}) == "a\n\nb\n\nYours,\nMaren"


@pytest.mark.parametrize("name", sorted(built_in()))
def test_every_template_says_first_what_it_is_for(name: str) -> None:
    assert built_in()[name].startswith("{# ")


def test_without_a_signature_the_greeting_is_plain() -> None:
    assert make_wording().signature == Signature(greeting="Hello", farewell="Warm wishes,")
