"""Makes plain lines of the forms in which other programs write values, sign for sign, so that every offset stays.

Three forms: lines of measure, value and unit in columns; elements of markup whose names or attributes are measures;
and a row of values behind a row of names, as a database is told them.
"""

import re
from itertools import pairwise

from replies.reading.lexicon import key
from replies.reading.words import Words
from sizing.measures import Measure

_LEAST = 2
"""So many lines alike are a table."""
_CELL = r"[^\d\n;|\t<>]{2,40}?"
_NUMBER = r"\d{1,4}(?:[.,]\d{1,3})?(?:[ ]\d/\d{1,2})?"
_UNIT = r"[^\W\d_]{1,12}\.?"
_SIGNS = r";|\t"
_VALUE_FIRST = re.compile(
    rf"[ \t|]*\"?(?:{_CELL})\"?[ ]*(?P<a>[{_SIGNS}])[ ]*\"?{_NUMBER}\"?[ ]*(?P=a)[ ]*\"?(?P<unit>{_UNIT})\"?[ \t|;]*$"
    rf"|[ ]*\"?[^\d\n;|\t<>,]{{2,40}}?\"?[ ]*,[ ]*(?:\"{_NUMBER}\"|\d{{1,4}}(?:\.\d{{1,3}})?)[ ]*,"
    rf"[ ]*\"?(?P<other>{_UNIT})\"?[ ]*$"
)
_UNIT_FIRST = re.compile(
    rf"[ \t|]*\"?{_CELL}\"?[ ]*(?P<a>[{_SIGNS},])[ ]*\"?(?P<unit>{_UNIT})\"?[ ]*(?P<b>(?P=a))[ ]*"
    rf"\"?{_NUMBER}\"?[ \t|;]*$"
)
_RULE = re.compile(r"[ \t|:+-]+$")
_TAG = re.compile(
    r"<(?P<close>/?)(?P<name>[^\W\d_][\w:.-]{0,40})"
    r"(?P<rest>(?:\s{1,9}[\w:.-]{1,40}\s{0,3}=\s{0,3}(?:\"[^\"<>\n]{0,60}\"|'[^'<>\n]{0,60}'))*)\s*/?>"
)
_ATTRIBUTE = re.compile(r"([\w:.-]+)(\s*=\s*)([\"'])([^\"'<>\n]*)[\"']")
_ROWS = re.compile(
    r"\((?P<names>[^()\d\n]{3,200})\)(?P<between>[^()\d\n]{1,20})\((?P<values>[^()\n]{3,200})\)", re.IGNORECASE
)
_OF_PICTURES = frozenset(("width", "height"))
"""Attributes that pictures and tables have, too: there only a unit of the tape makes a measure of them."""
_OF_PAGES = frozenset(("style", "class", "href"))
"""Attributes of the markup of pages, whose elements measure nothing."""


def plain_records(text: str, words: Words) -> str:
    """Write tables with a column for units, and markup whose names are measures, as plain lines of the same length."""
    if "<" in text and ">" in text:
        text = _TAG.sub(lambda match: _plain_tag(match, words), text)
    if any(sign in text for sign in ";|\t") or text.count(",") >= _LEAST * _LEAST:
        text = _plain_table(text, words)
    return _ROWS.sub(lambda match: _plain_rows(match, words), text) if ")" in text and "(" in text else text


def _plain_table(text: str, words: Words) -> str:
    lines = text.split("\n")
    if len(lines) < _LEAST:
        return text
    known = words.amounts.units.by_word
    plain: dict[int, str] = {}
    for at, line in enumerate(lines):
        match = _VALUE_FIRST.match(line) if len(line) < 200 else None
        if match and key((match["unit"] or match["other"]).rstrip(".")) in known:
            plain[at] = re.sub(r'["|;\t]|,(?!\d)|(?<!\d),', _FILL, line)
            continue
        match = _UNIT_FIRST.match(line) if len(line) < 200 else None
        if match and key(match["unit"].rstrip(".")) in known:
            first, second = match.start("a"), match.start("b")
            plain[at] = (line[:first] + "(" + line[first + 1 : second] + ")" + line[second + 1 :]).translate(_BLANKED)
    if len(plain) < _LEAST:
        return text
    for above, at in pairwise([-1, *sorted(plain)]):
        _blank_head(lines, at, above)
    return "\n".join(plain.get(at, line) for at, line in enumerate(lines))


_FILL = "\u00a0"
"""A blank of which three in a row part no cells."""
_BLANKED = str.maketrans(dict.fromkeys('"|;\t', _FILL))


def _blank_head(lines: list[str], at: int, above: int) -> None:
    """Blank out the heads right above the first line of a table, and the rule below them."""
    head = at - 1
    if head > above and _RULE.match(lines[head]):
        lines[head] = " " * len(lines[head])
        head -= 1
    signs = next((sign for sign in ";|\t," if sign in lines[at]), "")
    if (
        head > above
        and signs
        and lines[head].count(signs) == lines[at].count(signs)
        and not re.search(r"\d", lines[head])
    ):
        lines[head] = " " * len(lines[head])


def _is_measure(name: str, words: Words) -> bool:
    """Is the name of an element or an attribute a measure, written out: "length", "shoulder_height", but not "br"."""
    atoms: set[str] = set()
    for part in filter(None, re.split(r"[_:.\- ]+", name)):
        found = words.lexicon.find([key(part), "\0"], 0)
        senses = found[1].all if found else words.compounds.parts(key(part))
        atoms |= {sense.name for sense in senses if sense.kind == "atom" and len(part) > _ABBREVIATED}
    rule = words.composer.compose(frozenset(atoms)) if atoms else None
    return rule is not None and rule.gives in _MEASURES


_ABBREVIATED = 2
_MEASURES = frozenset(map(str, Measure))


def _plain_tag(match: re.Match[str], words: Words) -> str:
    """Write `<dog length="33cm"/>` as "length: 33cm,", `<length unit="cm">` as "length (cm)"; leave other markup."""
    whole, name, rest = match.group(), match["name"], match.start("rest") - match.start()
    attributes = list(_ATTRIBUTE.finditer(match["rest"]))
    of_element = _is_measure(name, words) and not any(one[1].lower() in _OF_PAGES for one in attributes)
    if match["close"]:
        return ("," if of_element else "<").ljust(len(whole)) if of_element else whole
    told = [one for one in attributes if _tells_measure(one, words)]
    values_alone = of_element or any(_is_measure(one[4], words) for one in attributes[:-1])
    if not (told or values_alone):
        return whole
    plain = list(" " * len(whole))
    if of_element:
        plain[1 : 1 + len(name)] = name
    if of_element and not attributes:
        plain[-1] = ":"
    in_brackets = not any(re.search(r"\d", one[4]) for one in attributes)
    for one in attributes:
        written = _plain_attribute(one, alone=values_alone, in_brackets=in_brackets)
        plain[rest + one.start() : rest + one.end()] = written
    return "".join(plain)


def _tells_measure(attribute: re.Match[str], words: Words) -> bool:
    """Is an attribute a measure with its value: "width" and "height" only where a unit of the tape stands there."""
    name, value = attribute[1], attribute[4]
    if not re.search(r"\d", value) or not _is_measure(name, words):
        return False
    return name.lower() not in _OF_PICTURES or key(re.sub(r"[\d.,\s/]", "", value)) in words.amounts.units.by_word


def _plain_attribute(attribute: re.Match[str], *, alone: bool, in_brackets: bool) -> str:
    """Write `length="33cm"` as "length: 33cm,", and where the value alone counts, as that, maybe in brackets."""
    name, sign, _, value = attribute.groups()
    if not alone:
        return f"{name}{':'.ljust(len(sign))} {value},"
    opened, closed = ("(", ")") if in_brackets else (" ", " ")
    return " " * (len(name) + len(sign)) + f"{opened}{value}{closed}"


def _plain_rows(match: re.Match[str], words: Words) -> str:
    """Blank out what is no measure in a row of names, and its value in the row behind it: "length,height = 13,11"."""
    names, values = match["names"].split(","), match["values"].split(",")
    kept = [_is_measure(name.strip(), words) for name in names]
    if len(names) != len(values) or sum(kept) < _LEAST:
        return match.group()
    left, right = _joined(names, kept), _joined(values, kept)
    return f" {left} " + "=".rjust(len(match["between"])) + f" {right} "


def _joined(cells: list[str], kept: list[bool]) -> str:
    pieces = [cell + "," if keep else " " * (len(cell) + 1) for cell, keep in zip(cells, kept, strict=True)]
    return "".join(pieces)[:-1]
