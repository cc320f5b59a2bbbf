"""The double of Discord refuses what the real one refuses, and fails on order."""

from collections.abc import Iterator
from typing import Any

import httpx
import pytest

from tests.doubles.discord_api import DiscordApi
from tests.doubles.telegram_people import Cut, Trouble

QUIET = {"parse": []}


@pytest.fixture
def api() -> Iterator[DiscordApi]:
    with DiscordApi() as server:
        yield server


def call(api: DiscordApi, method: str, path: str, body: Any = None, **params: Any) -> httpx.Response:
    headers = {"Authorization": f"Bot {api.token}"}
    with httpx.Client(base_url=f"{api.base}/api/v10", headers=headers, timeout=5) as client:
        return client.request(method, path, json=body, params=params)


def text(content: str = "hi", **more: Any) -> dict[str, Any]:
    return {"content": content, "nonce": "n1", "enforce_nonce": True, "allowed_mentions": QUIET, **more}


def messages(api: DiscordApi) -> str:
    return f"/channels/{api.dm(api.person('Ada'))}/messages"


@pytest.mark.parametrize(
    "body",
    [
        pytest.param(text("x" * 2001), id="long text"),
        pytest.param(text(""), id="empty text"),
        pytest.param(text(nonce="n" * 26), id="long nonce"),
        pytest.param(text(glow=1), id="unknown field"),
        pytest.param({"content": "hi", "nonce": "n1", "enforce_nonce": True}, id="mentions left on"),
        pytest.param({"content": "hi", "allowed_mentions": QUIET}, id="no nonce"),
        pytest.param(
            text(components=[{"type": 1, "components": [{"type": 2, "style": 2, "custom_id": "x" * 101}]}]),
            id="long code of a button",
        ),
    ],
)
def test_an_unsound_call_is_kept_as_a_fault(api: DiscordApi, body: dict[str, Any]) -> None:
    call(api, "POST", messages(api), body)

    assert len(api.world.faults) == 1


def test_a_route_that_is_not_played_is_a_fault(api: DiscordApi) -> None:
    call(api, "GET", "/sticker-packs")

    assert len(api.world.faults) == 1


def test_an_enforced_nonce_makes_the_same_message_once(api: DiscordApi) -> None:
    path = messages(api)

    first, second = call(api, "POST", path, text()).json(), call(api, "POST", path, text("other")).json()

    assert first["id"] == second["id"]
    assert len(call(api, "GET", path).json()) == 1


def test_of_what_came_after_a_message_the_oldest_are_given(api: DiscordApi) -> None:
    ada = api.person("Ada")
    numbers = [api.write(ada, f"{number}") for number in range(5)]

    page = call(api, "GET", f"/channels/{api.dm(ada)}/messages", after=numbers[0], limit=2).json()

    assert [one["content"] for one in page] == ["2", "1"]


def test_a_message_has_one_thread_with_its_number(api: DiscordApi) -> None:
    number = api.write(api.person("Ada"), "hi", channel=api.shop_floor)
    path = f"/channels/{api.shop_floor}/messages/{number}/threads"

    assert call(api, "POST", path, {"name": "x"}).json()["id"] == str(number)
    assert call(api, "POST", path, {"name": "x"}).json()["code"] == 160004


@pytest.mark.parametrize(("token", "status"), [("", 401), ("Bot wrong", 401)])
def test_a_wrong_token_is_refused(api: DiscordApi, token: str, status: int) -> None:
    answer = httpx.get(f"{api.base}/api/v10/users/@me", headers={"Authorization": token})

    assert answer.status_code == status


def test_an_interaction_is_answered_once(api: DiscordApi) -> None:
    ada = api.person("Ada")
    path = messages(api)
    sent = call(api, "POST", path, text()).json()
    press = api.press(ada, {**sent, "channel_id": sent["channel_id"]}, "tl1:show:1.1")
    where = f"/interactions/{press}/simcord_interaction_{press}/callback"

    assert call(api, "POST", where, {"type": 6}).status_code == 200
    assert call(api, "POST", where, {"type": 6}).json()["code"] == 40060


@pytest.mark.parametrize(
    ("cut", "done"), [(Cut.BEFORE, 0), (Cut.AFTER, 1), (Cut.HALF, 1)], ids=["before", "after", "half"]
)
def test_a_cut_connection_leaves_the_message_there_or_not(api: DiscordApi, cut: Cut, done: int) -> None:
    path = messages(api)
    api.trouble("POST", "*/messages", Trouble(cut=cut))

    with pytest.raises(httpx.TransportError):
        call(api, "POST", path, text())

    assert len(call(api, "GET", path).json()) == done
