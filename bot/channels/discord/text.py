"""Texts as Discord takes and shows them: literal on the way out, readable on the way in, 2000 to a message. Pure.

Discord reads every text as markup, and a bot cannot ask it not to. So whatever would be read as markup, as a mention or
as an emoji is marked to stand for itself; only addresses of pages stay as they are, to be followed.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bot.paragraphs import in_parts, utf16_units

LIMIT = 2000
"""Characters of a message (API reference, create message)."""

_ACTIVE = re.compile(
    r"(?P<page>\b(?i:https?)://[A-Za-z0-9][A-Za-z0-9._%/?#=&+:;,!$-]*[)'\".,;:!?]*(?!\S))"
    r"|(?P<scheme>\w(?=://))"  # with anything else in it an address could hide markup, so it is none
    r"|(?P<start>^[ \t\u00a0]*(?:[-+>#]|\d+(?=[.)])))"  # a list, a quotation, a heading
    r"|(?P<emoji>:(?=[A-Za-z0-9_+-]+:))"
    r"|(?P<mark>[\\*_~`|<>@\[])",
    re.MULTILINE,
)
_TOKEN = re.compile(
    r"<(?:@!?(?P<user>\d+)|@&(?P<role>\d+)|#(?P<channel>\d+)|a?:(?P<emoji>\w+):\d+|t:-?\d+(?::\w)?"
    r"|/(?P<command>[^:>\n]+):\d+|id:\w+)>"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A line of a text. strong: set off in bold; said: a customer's own words, set off as a quotation."""

    text: str
    strong: bool = False
    said: bool = False


def literal(text: str) -> str:
    r"""Give what Discord shows as exactly this text.

    >>> literal("*2* x_y\n3. @everyone https://example.org/a_b")
    '\\*2\\* x\\_y\n3\\. \\@everyone https://example.org/a_b'
    """
    return _ACTIVE.sub(_marked, text)


def _marked(found: re.Match[str]) -> str:
    whole = found[0]
    if found["page"]:
        return whole
    if found["scheme"] or (found["start"] and whole[-1].isdigit()):
        return f"{whole}\\"  # what follows stands for itself
    return f"{whole[:-1]}\\{whole[-1]}"


def size(text: str) -> int:
    """Give the length of a text as it is sent, in the larger of the ways in which it may be counted."""
    return utf16_units(literal(text))


def readable(content: str, names: Mapping[int, str]) -> str:
    """Give what a customer saw when she wrote: names for mentions and emoji, whose numbers are no measures.

    names   of the people that are mentioned

    >>> readable("<@7> length 13 <:ruler:1234567890>", {7: "Wil"})
    '@Wil length 13 :ruler:'
    """

    def shown(found: re.Match[str]) -> str:
        if found["user"]:
            return f"@{names.get(int(found['user']), 'somebody')}"
        if found["emoji"]:
            return f":{found['emoji']}:"
        if found["command"]:
            return f"/{found['command']}"
        return "@role" if found["role"] else "#channel" if found["channel"] else ""

    return _TOKEN.sub(shown, content)


def messages_of(stretches: Iterable[Stretch]) -> list[str]:
    """Put lines together to messages that fit, each line marked to stand for itself. None of them is blank."""
    found: list[str] = []
    current = ""
    for line in _fitting(stretches):
        longer = f"{current}\n{line}" if current else line
        if utf16_units(longer) > LIMIT:
            found.append(current)
            longer = line
        current = longer
    return [one for one in [*found, current] if one.strip()]


def _fitting(stretches: Iterable[Stretch]) -> Iterable[str]:
    """Lines that fit a message each, with what sets them off."""
    for one in stretches:
        before, after = ("> ", "") if one.said else ("**", "**") if one.strong and one.text.strip() else ("", "")
        room = LIMIT - len(before) - len(after)
        parts = [one.text.rstrip()] if size(one.text) <= room else in_parts(one.text, room, size=size)
        yield from (f"{before}{literal(part)}{after}" for part in parts)
