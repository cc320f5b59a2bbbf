"""Tells which measure some words name together."""

from collections.abc import Iterable

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
