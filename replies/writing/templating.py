"""The one Jinja2 environment: strict about missing values, closed to everything but the values that it is handed.

Drafts are plain text, so nothing is escaped. What customers wrote is always a value, never a template.
"""

import traceback
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from types import MappingProxyType

from jinja2 import Environment, FunctionLoader, StrictUndefined, TemplateSyntaxError
from jinja2.sandbox import ImmutableSandboxedEnvironment

SUFFIX = ".jinja"


@cache
def built_in() -> Mapping[str, str]:
    """Give the templates that come with tapeline: the text by name, such as "doubts/girth.jinja"."""
    return MappingProxyType(dict(_walk(files("replies.writing").joinpath("templates"), "")))


def _walk(folder: Traversable, above: str) -> Iterator[tuple[str, str]]:
    for entry in folder.iterdir():
        if entry.is_dir():
            yield from _walk(entry, f"{above}{entry.name}/")
        elif entry.name.endswith(SUFFIX):
            yield above + entry.name, entry.read_text(encoding="utf-8")


def make_environment(texts: Mapping[str, str]) -> Environment:
    """Give an environment whose templates are these texts by name."""

    def load(name: str) -> tuple[str, str, None] | None:
        return (texts[name], name, None) if name in texts else None

    environment = ImmutableSandboxedEnvironment(
        loader=FunctionLoader(load),
        undefined=StrictUndefined,
        autoescape=False,  # plain text: nothing of it is ever read as markup
        trim_blocks=True,
        lstrip_blocks=True,
        cache_size=-1,
    )
    environment.filters.update(capital=capital, joined=joined)
    return environment


def capital(text: str) -> str:
    """Begin a sentence; the rest stays as it is, so that a name keeps its own capitals.

    >>> capital("your dog"), capital("McGee")
    ('Your dog', 'McGee')
    """
    return text[:1].upper() + text[1:]


def joined(things: Iterable[str]) -> str:
    """Join the things of a list as in a sentence.

    >>> joined(["length", "height", "width"]), joined(["length"])
    ('length, height and width', 'length')
    """
    *first, last = list(things) or [""]
    return f"{', '.join(first)} and {last}" if first else last


def place_of(error: Exception, name: str, texts: Mapping[str, str]) -> tuple[str, int | None]:
    """Give the template and the line that an error comes from; the innermost one where templates use one another.

    name     of the template that was being filled in
    """
    if isinstance(error, TemplateSyntaxError):
        return (error.name or name, error.lineno)
    frames = [frame for frame in traceback.extract_tb(error.__traceback__) if frame.filename in texts]
    return (frames[-1].filename, frames[-1].lineno) if frames else (name, None)
