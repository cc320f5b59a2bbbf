"""Joins the lines of a text that a mail program broke and marked so. Pure.

Source: RFC 3676, sections 4.1 to 4.5: a line that ends in a space goes on in the next one of the same quote depth;
a space at the beginning was put there to protect the line; "-- " is the signature's mark and never goes on.
"""

from itertools import takewhile


def unflow(text: str, *, delsp: bool = False) -> str:
    """Give a text with its broken lines joined, and its quote marks as they were.

    delsp   the space that marks a broken line is none of the text

    >>> unflow("Back is 13 \\ninches.\\n> How \\n> tall?")
    'Back is 13 inches.\\n> How tall?'
    """
    lines: list[str] = []
    going_on: int | None = None
    for line in text.split("\n"):
        depth = sum(1 for _ in takewhile(">".__eq__, line))
        words = line[depth:].removeprefix(" ")
        flows = words.endswith(" ") and words != "-- "
        if delsp and flows:
            words = words[:-1]
        if going_on == depth and words != "-- ":
            lines.append(words)
        else:
            lines += ["\n" if lines else "", ">" * depth + " " * bool(depth and words), words]
        going_on = depth if flows else None
    return "".join(lines)
