"""Words what is wrong with a section of shop.toml: the key, what stands there, what would be right."""

from collections.abc import Sequence
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel, ValidationError

from bot.errors import Fault
from bot.sections import SECTIONS, Sections
from sizing.errors import ShopError

_SECRET = ("token", "password", "secret", "passwd", "api_key")
_RIGHT = {
    "missing": "it is needed",
    "string_type": "words in quotes",
    "string_pattern_mismatch": "words in one line",
    "string_too_long": "at most {max_length} characters",
    "bool_type": "true or false, without quotes",
    "model_type": "a section of its own: [{section}]",
}


def section_faults(error: ValidationError, *, file: str) -> list[Fault]:
    """Give every fault of `error` in the maker's words."""
    return [_fault(dict(one), file=file) for one in error.errors()]


def sizing_faults(error: ShopError, *, file: str) -> list[Fault]:
    """Give the faults of the sizing settings as those of the file."""
    return [_sizing_fault(one.key, one.given, one.right, file=file) for one in error.faults]


def _sizing_fault(key: str, given: str, right: str, *, file: str) -> Fault:
    if _is_secret((key,)):
        return _secret_fault(key, file=file)
    if right.startswith("no such setting") and (close := get_close_matches(key, SECTIONS, n=1)):
        right = f"no such setting: did you mean {close[0]}?"
    return Fault(file=file, key=key, given=given or None, remedy=right)


def _fault(one: dict[str, Any], *, file: str) -> Fault:
    where: tuple[str | int, ...] = one["loc"]
    key = ".".join(str(part + 1) if isinstance(part, int) else part for part in where)
    if _is_secret(where):
        return _secret_fault(key, file=file)
    if one["type"] == "extra_forbidden":
        return Fault(file=file, key=key, given=_shown(one["input"]), remedy=_unknown(where))
    wanted = _description(where)
    told = _RIGHT.get(one["type"])
    told = told.format(section=where[0], **one.get("ctx", {})) if told else wanted or str(one["msg"])
    if one["type"] in ("hours", "zone", "outside", "channel"):
        told = str(one["msg"])
    given = None if one["type"] == "model_type" else _shown(one["input"])
    return Fault(file=file, key=key, given=given, remedy=told)


def _is_secret(where: Sequence[str | int]) -> bool:
    return any(word in str(part).lower() for part in where for word in _SECRET)


def _secret_fault(key: str, *, file: str) -> Fault:
    """What stands there is never repeated."""
    remedy = "no token or password belongs in this file: take it out, and keep it in the folder secrets"
    return Fault(file=file, key=key, given=None, remedy=remedy)


def _unknown(where: Sequence[str | int]) -> str:
    model = _model_at(where[:-1])
    known = sorted(model.model_fields) if model else []
    close = get_close_matches(str(where[-1]), known, n=1)
    if close:
        return f"no such setting: did you mean {close[0]}?"
    return f"no such setting: take it out (there are {', '.join(known)})" if known else "no such setting: take it out"


def _model_at(where: Sequence[str | int]) -> type[BaseModel] | None:
    model: type[BaseModel] | None = Sections
    for part in where:
        field = model.model_fields.get(str(part)) if model else None
        kind = field.annotation if field else None
        model = kind if isinstance(kind, type) and issubclass(kind, BaseModel) else None
    return model


def _description(where: Sequence[str | int]) -> str:
    named = [part for part in where if isinstance(part, str)]
    model = _model_at(named[:-1]) if named else None
    field = model.model_fields.get(named[-1]) if model else None
    return (field.description or "") if field else ""


def _shown(value: object) -> str:
    shown = repr(value) if not isinstance(value, bool) else str(value).lower()
    return shown if len(shown) <= 60 else f"{shown[:57]}..."
