"""Judges a call to the Bot API by an independent library: aiogram's typed methods, then the limits beyond types.

Limits are from the Bot API's own reference (sendMessage, sendPhoto, InlineKeyboardButton, answerCallbackQuery,
MessageEntity). It counts characters without saying of which kind; here they are UTF-16 units, the strictest reading.
"""

import json
import types
import typing
from collections.abc import Iterator, Mapping
from typing import Any

import aiogram.methods
from aiogram.methods import TelegramMethod
from aiogram.types import BufferedInputFile, InlineKeyboardMarkup, InputFile, MessageEntity, Update
from pydantic import BaseModel, ValidationError

METHODS: dict[str, type[TelegramMethod[Any]]] = {
    method.__api_method__.lower(): method
    for method in vars(aiogram.methods).values()
    if isinstance(method, type) and issubclass(method, TelegramMethod) and method is not TelegramMethod
}

TEXT_LIMIT = 4096
CAPTION_LIMIT = 1024
CALLBACK_DATA_BYTES = 64
CALLBACK_ANSWER_LIMIT = 200
UPDATE_LIMIT = 100


class RefusedError(Exception):
    """A call that the server answers with an error.

    fault   True: no sound program ever makes this call
    """

    def __init__(
        self, description: str, *, status: int = 400, fault: bool = False, retry_after: int | None = None
    ) -> None:
        super().__init__(description)
        self.description = description
        self.status = status
        self.fault = fault
        self.retry_after = retry_after


def judge(name: str, form: Mapping[str, str], files: Mapping[str, bytes]) -> TelegramMethod[Any]:
    """Build the typed method of a call from its form fields and uploaded files.

    Raises   RefusedError, a fault: an unknown method, parameter or nested key, a missing or ill-typed value, a limit
    """
    method = METHODS.get(name.lower())
    if method is None:
        raise RefusedError("Not Found: method not found", status=404, fault=True)
    values: dict[str, Any] = {}
    for key, raw in form.items():
        field = method.model_fields.get(key)
        if field is None:
            raise RefusedError(f"Bad Request: {name} has no parameter {key}", fault=True)
        values[key] = _decoded(name, key, raw, field.annotation)
    _add_files(name, method, values, files)
    try:
        call = method.model_validate(values)
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(str(part) for part in first["loc"])
        raise RefusedError(f"Bad Request: {name}.{place}: {first['msg']}", fault=True) from error
    for place in _unknown_keys(call, name):
        raise RefusedError(f"Bad Request: unknown key {place}", fault=True)
    _check_limits(name, call)
    return call


def judge_update(update: Mapping[str, Any]) -> Mapping[str, Any]:
    """Give back an update that aiogram can read in full.

    Raises   ValueError: the double itself made a wrong update
    """
    built = Update.model_validate(update)
    for place in _unknown_keys(built, "update"):
        raise ValueError(f"this double made an update with an unknown key: {place}")
    return update


def units(text: str) -> int:
    """Length in UTF-16 units, as entities count."""
    return len(text.encode("utf-16-le")) // 2


def _alternatives(annotation: Any) -> Iterator[Any]:
    origin = typing.get_origin(annotation)
    if origin in (typing.Union, types.UnionType):
        for part in typing.get_args(annotation):
            yield from _alternatives(part)
    elif origin is typing.Annotated:
        yield from _alternatives(typing.get_args(annotation)[0])
    else:
        yield annotation


def _decoded(name: str, key: str, raw: str, annotation: Any) -> Any:
    """Form fields are text: numbers, yes/no and objects come as JSON, plain strings as they are."""
    kinds = set(_alternatives(annotation))
    if str in kinds:
        return int(raw) if int in kinds and raw.lstrip("-").isdigit() else raw
    try:
        return json.loads(raw)
    except ValueError as error:
        raise RefusedError(f"Bad Request: {name}.{key} is not JSON", fault=True) from error


def _add_files(
    name: str, method: type[TelegramMethod[Any]], values: dict[str, Any], files: Mapping[str, bytes]
) -> None:
    attached = {part for part in files if f"attach://{part}" in json.dumps(values)}
    for part, content in files.items():
        if part in attached:
            continue
        field = method.model_fields.get(part)
        if field is None or InputFile not in set(_alternatives(field.annotation)):
            raise RefusedError(f"Bad Request: {name} takes no file {part}", fault=True)
        values[part] = BufferedInputFile(content, filename=part)


def _unknown_keys(value: Any, place: str) -> Iterator[str]:
    if isinstance(value, BaseModel):
        for key in value.model_extra or {}:
            yield f"{place}.{key}"
        for key in type(value).model_fields:
            yield from _unknown_keys(getattr(value, key), f"{place}.{key}")
    elif isinstance(value, list | tuple):
        for number, part in enumerate(value):
            yield from _unknown_keys(part, f"{place}[{number}]")


def _check_limits(name: str, call: TelegramMethod[Any]) -> None:
    if isinstance(getattr(call, "parse_mode", None), str):
        raise RefusedError("Bad Request: this double reads no markup; texts go with entities", fault=True)
    text = getattr(call, "text", None)
    if name.lower() in ("sendmessage", "editmessagetext"):
        _check_text(text, getattr(call, "entities", None))
    if name.lower() == "answercallbackquery" and text and units(text) > CALLBACK_ANSWER_LIMIT:
        raise RefusedError("Bad Request: MESSAGE_TOO_LONG", fault=True)
    caption = getattr(call, "caption", None)
    if caption and units(caption) > CAPTION_LIMIT:
        raise RefusedError("Bad Request: message caption is too long", fault=True)
    markup = getattr(call, "reply_markup", None)
    if isinstance(markup, InlineKeyboardMarkup):
        _check_buttons(markup)


def _check_text(text: Any, entities: list[MessageEntity] | None) -> None:
    if not isinstance(text, str) or not text.strip():
        raise RefusedError("Bad Request: message text is empty", fault=True)
    if units(text) > TEXT_LIMIT:
        raise RefusedError("Bad Request: message is too long", fault=True)
    edges = _edges(text)
    for entity in entities or []:
        if entity.length < 1 or entity.offset not in edges or entity.offset + entity.length not in edges:
            raise RefusedError(
                f"Bad Request: the entity at {entity.offset}+{entity.length} lies outside the text or cuts a character",
                fault=True,
            )


def _edges(text: str) -> set[int]:
    """The UTF-16 offsets at which a character begins or the text ends."""
    edges, place = {0}, 0
    for character in text:
        place += 2 if ord(character) > 0xFFFF else 1
        edges.add(place)
    return edges


def _check_buttons(markup: InlineKeyboardMarkup) -> None:
    for button in (button for row in markup.inline_keyboard for button in row):
        if not button.text.strip():
            raise RefusedError("Bad Request: Text buttons are unallowed in the inline keyboard", fault=True)
        data = button.callback_data
        if data is not None and not 1 <= len(data.encode()) <= CALLBACK_DATA_BYTES:
            raise RefusedError("Bad Request: BUTTON_DATA_INVALID", fault=True)
