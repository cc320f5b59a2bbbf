"""Turns the HTML body of an e-mail into text: blocks become lines, cells stay apart, quoted mail gets its marks."""

import re
from html import unescape

from selectolax.lexbor import LexborHTMLParser, LexborNode

_BLOCKS = frozenset(
    [
        "address",
        "article",
        "aside",
        "blockquote",
        "body",
        "br",
        "center",
        "dd",
        "div",
        "dl",
        "dt",
        "fieldset",
        "figure",
        "footer",
        "form",
        "h1",
        "h2",
        "h3",
        "h4",
        "h5",
        "h6",
        "header",
        "hr",
        "html",
        "legend",
        "li",
        "main",
        "nav",
        "ol",
        "p",
        "pre",
        "section",
        "table",
        "tbody",
        "tfoot",
        "thead",
        "tr",
        "ul",
    ]
)
_PARTED = frozenset(("p", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "table", "blockquote"))
"""Blocks with an empty line before and after."""
_CELLS = frozenset(("td", "th"))
_HIDDEN = frozenset(("script", "style", "head", "title", "template", "noscript", "svg", "img", "object", "iframe"))
_STRUCK = frozenset(("s", "strike", "del"))
_NOT_CLOSED = frozenset((
    "p", "li", "td", "th", "tr", "tbody", "thead", "tfoot", "dd", "dt", "option", "br", "hr", "img", "meta", "link",
    "input", "col", "area", "base", "wbr", "html", "body",
))  # fmt: skip
"""Tags that end by themselves."""
_TAG = re.compile(r"<(/?)([A-Za-z][A-Za-z0-9]{0,20})")
_ANY_TAG = re.compile(r"<[^<>]{0,2000}>")
_DEEPEST = 2000
"""Parsing takes time with the square of the depth; mail programs stay far below."""
_SPACES = re.compile(r"[ \t\r\n\f]+")
_MANY_LINES = re.compile(r"\n{3,}")
_BLANK_ENDS = re.compile(r"[ \t]+\n")


def html_to_text(html: str) -> str:
    """Give the text of an HTML body as a reader sees it, with "> " before each line of a quoted mail.

    Never raises. What is struck through is left out. Cells of a table row are parted by tabs.

    >>> html_to_text("<table><tr><td>Back<td>13 1/2<tr><td>Width<td>5</table>")
    'Back\\t13 1/2\\nWidth\\t5'
    """
    if _depth(html) > _DEEPEST:
        return _without_tags(html)
    tree = LexborHTMLParser(html)
    root = tree.body or tree.root
    if root is None:
        return ""
    writer = _Writer()
    _walk(root, writer)
    return writer.text()


def _depth(html: str) -> int:
    """Count how deep the tags nest that must be closed."""
    deepest = depth = 0
    for match in _TAG.finditer(html):
        if match.group(2).lower() not in _NOT_CLOSED:
            depth = max(depth - 1, 0) if match.group(1) else depth + 1
            deepest = max(deepest, depth)
    return deepest


def _without_tags(html: str) -> str:
    """Leave the tags out, a line end for each: for bodies that nest deeper than any mail program writes."""
    return _MANY_LINES.sub("\n\n", _BLANK_ENDS.sub("\n", unescape(_ANY_TAG.sub("\n", html)))).strip()


class _Writer:
    """Collects words and line breaks; a line gets its quote marks when its first word is written."""

    def __init__(self) -> None:
        self.pieces: list[str] = []
        self.depth = 0
        self.last_depth = 0
        self.breaks = 0
        self.space = False
        self.begun = False

    def word(self, text: str, *, as_is: bool = False) -> None:
        """Write the words of a text, blanks joined to one; `as_is` keeps them (in <pre>)."""
        if as_is:
            for number, line in enumerate(text.split("\n")):
                if number:
                    self.line(1, least=True)
                self._put(line)
            return
        if text[:1].isspace() and text[:1] != "\xa0":
            self.space = True
        words = _SPACES.sub(" ", text).strip(" ")
        if words:
            self._put(words)
            self.space = text[-1:] in " \t\r\n\f"

    def _put(self, words: str) -> None:
        if not words:
            return
        if self.breaks or not self.begun:
            if self.begun:
                self.pieces.append(("\n" + ">" * min(self.depth, self.last_depth)) * (self.breaks - 1) + "\n")
            self.last_depth = self.depth
            self.pieces.append(">" * self.depth + " " if self.depth else "")
            self.breaks, self.space, self.begun = 0, False, True
        elif self.space:
            self.pieces.append(" ")
        self.space = False
        self.pieces.append(words)

    def line(self, count: int, *, least: bool = False) -> None:
        """Break the line; `least`: one more than there were."""
        if self.begun:
            self.breaks = self.breaks + 1 if least else max(self.breaks, count)
        self.space = False

    def cell(self) -> None:
        """Part two cells of a row."""
        if self.begun and not self.breaks:
            self.pieces.append("\t")
            self.space = False

    def text(self) -> str:
        """Give what was written."""
        written = _BLANK_ENDS.sub("\n", "".join(self.pieces))
        return _MANY_LINES.sub("\n\n", written).strip("\n")


def _walk(root: LexborNode, writer: _Writer) -> None:
    """Write a tree, without recursion: strangers nest as deep as they like."""
    stack: list[tuple[LexborNode, bool]] = [(root, False)]
    pre = 0
    while stack:
        node, leaving = stack.pop()
        tag = node.tag or ""
        if leaving:
            pre -= tag == "pre"
            _leave(tag, writer)
            continue
        if tag == "-text":
            writer.word(node.text_content or "", as_is=pre > 0)
            continue
        if tag in _HIDDEN or tag in _STRUCK or tag[:1] in ("-", "_", "!"):
            continue
        pre += tag == "pre"
        _enter(tag, writer)
        stack.append((node, True))
        children = list(node.iter(include_text=True))
        stack += [(child, False) for child in reversed(children)]


def _enter(tag: str, writer: _Writer) -> None:
    if tag == "br":
        writer.line(1, least=True)
    elif tag in _CELLS:
        writer.cell()
    elif tag in _BLOCKS:
        writer.line(2 if tag in _PARTED else 1)
    if tag == "blockquote":
        writer.depth += 1
    if tag == "li":
        writer.word("-")
        writer.space = True


def _leave(tag: str, writer: _Writer) -> None:
    if tag == "blockquote":
        writer.depth -= 1
    if tag in _BLOCKS and tag != "br":
        writer.line(2 if tag in _PARTED else 1)
