"""Tells which measure some words name together, also where they are written as one."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from replies.reading.lexicon import Sense
from replies.reading.word_lists import Rule


class Composer:
    """Applies the rules of labels.toml, first rule that holds, and remembers what it has found."""

    def __init__(self, rules: Iterable[Rule]) -> None:
        self._rules = tuple(rules)
        self._found: dict[frozenset[str], Rule | None] = {}

    def compose(self, atoms: frozenset[str]) -> Rule | None:
        """Give the rule that covers all of these groups of words; None: they name no measure together."""
        if atoms not in self._found:
            self._found[atoms] = next((rule for rule in self._rules if _holds(rule, atoms)), None)
        return self._found[atoms]


def _holds(rule: Rule, atoms: frozenset[str]) -> bool:
    if not rule.all <= atoms or (rule.any and not rule.any & atoms):
        return False
    return atoms <= rule.all | rule.any | rule.also


class Compounds:
    """Parts words that two known words make up, as German, Dutch and Nordic languages write them: "Schulterhöhe"."""

    def __init__(self, atoms: Mapping[str, Sense], joints: Sequence[str]) -> None:
        self._atoms = {word: sense for word, sense in atoms.items() if len(word) >= 3}
        self._joints = tuple(joints)

    def parts(self, word: str) -> tuple[Sense, ...]:
        """Give the senses of the two words that a word is made of; (): it is no such word."""
        if not 7 <= len(word) <= 24:
            return ()
        for cut in range(3, len(word) - 2):
            last = self._atoms.get(word[cut:])
            if last is None:
                continue
            first = next((self._atoms[start] for start in self._starts(word[:cut]) if start in self._atoms), None)
            if first is not None:
                return (first, last)
        return ()

    def _starts(self, part: str) -> Iterator[str]:
        """Give a first part of a compound without the letters that join it to the second."""
        yield part
        for joint in self._joints:
            if part.endswith(joint):
                yield part.removesuffix(joint)
