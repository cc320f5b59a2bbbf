"""The wording in force: the templates that come with tapeline, the maker's own versions of them, and how she signs.

A template holds wording and asks at most whether something is known; what to say is decided in Python.
"""

import difflib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from jinja2 import Environment, TemplateNotFound, TemplateSyntaxError, UndefinedError

from replies.errors import WordingError, WordingFault
from replies.writing.templating import built_in, make_environment, place_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Signature:
    """How the maker greets and signs. Any of these may be "": it is then left out.

    greeting   the word that opens a text, without a comma
    farewell   the line above the name, with its comma
    """

    maker_name: str = ""
    shop_name: str = ""
    greeting: str = "Hello"
    farewell: str = "Warm wishes,"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """The wording in force; made by `make_wording`.

    texts   every template by name, the maker's own version where she has one: what a fingerprint is taken of
    own     names of the templates of which she has her own version
    """

    signature: Signature
    texts: Mapping[str, str]
    own: frozenset[str]
    environment: Environment = field(repr=False, compare=False)


def make_wording(signature: Signature | None = None, own: Mapping[str, str] | None = None) -> Wording:
    """Put the wording together.

    own      the maker's own versions: the text by the template's name, such as "doubts/girth.jinja"
    Raises   WordingError with every name that no template has and every text that is not a template
    """
    own = own or {}
    texts = MappingProxyType({**built_in(), **own})
    wording = Wording(
        signature=signature or Signature(), texts=texts, own=frozenset(own), environment=make_environment(texts)
    )
    faults = [*_unknown_names(wording), *_broken(wording)]
    if faults:
        raise WordingError(faults)
    return wording


def render(wording: Wording, name: str, values: Mapping[str, Any]) -> str:
    """Fill in a template.

    name     such as "doubts/girth.jinja"
    values   what it may use; each a text, a yes or no, or a list or mapping of these
    Returns  paragraphs with an empty line between them: a line break in a template is a blank, as is a run of blanks
    Raises   WordingError, which names the template, the line and what to do
    """
    paragraphs = (" ".join(part.split()) for part in re.split(r"\n\s*\n", _filled(wording, name, values)))
    return "\n\n".join(part for part in paragraphs if part)


def render_lines(wording: Wording, name: str, values: Mapping[str, Any]) -> str:
    """Fill in a template whose line breaks count; at most one empty line is left in a row.

    Raises   as `render`
    """
    lines = [line.strip() for line in _filled(wording, name, values).splitlines()]
    return re.sub(r"\n{3,}", "\n\n", "\n".join(lines)).strip()


def _filled(wording: Wording, name: str, values: Mapping[str, Any]) -> str:
    try:
        return wording.environment.get_template(name).render(values)
    except Exception as error:  # whatever a template can raise is its writer's to mend
        raise WordingError([_fault(wording, name, error, values)]) from error


def _unknown_names(wording: Wording) -> Iterator[WordingFault]:
    known = sorted(built_in())
    for name in sorted(wording.own.difference(known)):
        near = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
        remedy = f"rename it to {near[0]}" if near else f"use one of {', '.join(known)}"
        yield WordingFault(template=name, line=None, problem="no template has this name", remedy=remedy)


def _broken(wording: Wording) -> Iterator[WordingFault]:
    for name in sorted(wording.own):
        try:
            wording.environment.parse(wording.texts[name], name, name)
        except TemplateSyntaxError as error:
            yield _fault(wording, name, error, {})


def _fault(wording: Wording, name: str, error: Exception, values: Mapping[str, Any]) -> WordingFault:
    template, line = place_of(error, name, wording.texts)
    own = template in wording.own
    back = "or remove the file to go back to tapeline's own text" if own else "or install tapeline again"
    problem = str(getattr(error, "message", None) or error or type(error).__name__).rstrip(".")
    remedy = f"mend that line {back}"
    if isinstance(error, TemplateNotFound):
        problem = f"it asks for the template {error.name}, which does not exist"
    elif isinstance(error, UndefinedError):
        remedy = f"use what is given here ({', '.join(sorted(values))}) {back}"
    return WordingFault(template=template, line=line, problem=problem, remedy=remedy, own=own)
