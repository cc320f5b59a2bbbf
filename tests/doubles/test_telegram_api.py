"""The Bot API double refuses what the real server refuses, and fails on order."""

import json
import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer
from typing import Any

import httpx
import pytest

from tests.doubles.telegram_api import TelegramApi
from tests.doubles.telegram_people import Cut, Trouble, button

KEYBOARD = {"inline_keyboard": [[{"text": "Approve", "callback_data": "a:7.3"}]]}


@pytest.fixture
def api() -> Iterator[TelegramApi]:
    with TelegramApi() as server:
        yield server


def call(api: TelegramApi, method: str, **form: Any) -> Any:
    data = {key: value if isinstance(value, str) else json.dumps(value) for key, value in form.items()}
    return httpx.post(f"{api.base}/bot{api.token}/{method}", data=data, timeout=5).json()


def customer(api: TelegramApi) -> int:
    ada = api.person("Ada")
    api.write(ada, "hello")
    return ada.id


@pytest.mark.parametrize(
    ("method", "form"),
    [
        pytest.param("sendMesage", {}, id="unknown method"),
        pytest.param("sendMessage", {"text": "hi", "chat_id": 1, "colour": "red"}, id="unknown parameter"),
        pytest.param("sendMessage", {"text": "hi"}, id="missing chat"),
        pytest.param("sendMessage", {"text": "hi", "chat_id": 1, "entities": "bold"}, id="not JSON"),
        pytest.param("sendMessage", {"text": "hi", "chat_id": 1, "entities": {"a": 1}}, id="ill-typed"),
        pytest.param(
            "sendMessage",
            {"text": "hi", "chat_id": 1, "reply_markup": {"inline_keyboard": [[{"text": "x", "url": "u", "glow": 1}]]}},
            id="unknown nested key",
        ),
        pytest.param("sendMessage", {"text": "x" * 4097, "chat_id": 1}, id="long text"),
        pytest.param("sendMessage", {"text": "\U0001f415" * 2049, "chat_id": 1}, id="long in UTF-16"),
        pytest.param("sendMessage", {"text": " ", "chat_id": 1}, id="empty text"),
        pytest.param("sendMessage", {"text": "*hi*", "chat_id": 1, "parse_mode": "MarkdownV2"}, id="markup"),
        pytest.param("sendPhoto", {"photo": "file-1", "chat_id": 1, "caption": "x" * 1025}, id="long caption"),
        pytest.param(
            "sendMessage",
            {"text": "\U0001f415 dog", "chat_id": 1, "entities": [{"type": "bold", "offset": 1, "length": 2}]},
            id="entity cuts a character",
        ),
        pytest.param(
            "sendMessage",
            {
                "text": "x",
                "chat_id": 1,
                "reply_markup": {"inline_keyboard": [[{"text": "x", "callback_data": "y" * 65}]]},
            },
            id="long button data",
        ),
        pytest.param("answerCallbackQuery", {"callback_query_id": "press-0"}, id="unknown press"),
        pytest.param("getStarTransactions", {}, id="not played"),
    ],
)
def test_an_unsound_call_is_refused_and_kept_as_a_fault(api: TelegramApi, method: str, form: dict[str, Any]) -> None:
    answer = call(api, method, **form)

    assert not answer["ok"]
    assert len(api.faults) == 1


def test_a_sound_call_arrives_with_its_buttons(api: TelegramApi) -> None:
    chat = customer(api)

    sent = call(api, "sendMessage", chat_id=chat, text="A question", reply_markup=KEYBOARD)["result"]

    assert button(sent, "approve") == "a:7.3"
    assert api.sent(api.world.people[chat]) == ["A question"]
    assert api.faults == []


def test_a_chat_that_never_wrote_cannot_be_written_to(api: TelegramApi) -> None:
    answer = call(api, "sendMessage", chat_id=api.person("Ada").id, text="hi")

    assert answer["error_code"] == 403


def test_an_edit_that_changes_nothing_is_refused(api: TelegramApi) -> None:
    chat = customer(api)
    sent = call(api, "sendMessage", chat_id=chat, text="A", reply_markup=KEYBOARD)["result"]
    edit = {"chat_id": chat, "message_id": sent["message_id"], "text": "A", "reply_markup": KEYBOARD}

    refused = call(api, "editMessageText", **edit)
    changed = call(api, "editMessageText", **{**edit, "text": "B"})

    assert refused["description"] == "Bad Request: message is not modified"
    assert changed["result"]["text"] == "B"


def test_a_business_chat_takes_texts_only_within_the_rights_of_the_connection(api: TelegramApi) -> None:
    owner, ada = api.person("Maker"), api.person("Ada")
    connection = api.connect(owner)
    api.write_business(connection, ada, "hi")
    send = {"chat_id": ada.id, "text": "Hello", "business_connection_id": connection.id}

    allowed = call(api, "sendMessage", **send)
    api.reconnect(connection, can_reply=False)
    without_right = call(api, "sendMessage", **send)
    api.reconnect(connection, enabled=False)
    ended = call(api, "sendMessage", **send)

    assert [answer["ok"] for answer in (allowed, without_right, ended)] == [True, False, False]
    assert api.sent(ada, connection) == ["Hello"]


def test_updates_stay_until_a_higher_offset_confirms_them(api: TelegramApi) -> None:
    customer(api)

    first = call(api, "getUpdates")["result"]
    again = call(api, "getUpdates", offset=first[0]["update_id"])["result"]
    after = call(api, "getUpdates", offset=first[0]["update_id"] + 1)["result"]

    assert again == first
    assert after == []


def test_a_second_poller_ends_the_first_with_a_conflict(api: TelegramApi) -> None:
    answers: list[Any] = []
    first = threading.Thread(target=lambda: answers.append(call(api, "getUpdates", timeout=4)))
    first.start()
    api.wait_until(lambda: api._poll is not None)

    call(api, "getUpdates", timeout=0)
    first.join()

    assert answers[0]["error_code"] == 409
    assert api.conflicts == 1


@pytest.mark.parametrize("cut", [Cut.AFTER, Cut.HALF, Cut.BEFORE, Cut.HANG])
def test_a_cut_breaks_the_call_with_the_text_sent_or_not(api: TelegramApi, cut: Cut) -> None:
    chat = customer(api)
    api.trouble("sendMessage", Trouble(cut=cut))

    with pytest.raises(httpx.TransportError):
        httpx.post(
            f"{api.base}/bot{api.token}/sendMessage", data={"chat_id": str(chat), "text": "hi"}, timeout=0.5
        ).json()

    assert api.sent(api.world.people[chat]) == ([] if cut is Cut.BEFORE else ["hi"])


def test_a_wait_is_asked_for_and_then_the_call_goes_through(api: TelegramApi) -> None:
    chat = customer(api)
    api.trouble("sendMessage", Trouble(status=429, retry_after=3))

    refused = call(api, "sendMessage", chat_id=chat, text="hi")
    done = call(api, "sendMessage", chat_id=chat, text="hi")

    assert refused["parameters"] == {"retry_after": 3}
    assert done["ok"]


def test_a_server_that_stopped_listening_refuses_the_connection(api: TelegramApi) -> None:
    api.stop_listening()
    with pytest.raises(httpx.ConnectError):
        call(api, "getMe")
    api.start_listening()

    assert call(api, "getMe")["ok"]


def test_a_wrong_key_is_refused(api: TelegramApi) -> None:
    assert httpx.get(f"{api.base}/bot1:wrong/getMe").status_code == 401


def test_files_can_be_fetched(api: TelegramApi) -> None:
    ada = api.person("Ada")
    api.send_photo(ada, b"picture", caption="my dog")
    photo = call(api, "getUpdates")["result"][0]["message"]["photo"][0]

    path = call(api, "getFile", file_id=photo["file_id"])["result"]["file_path"]

    assert httpx.get(f"{api.base}/file/bot{api.token}/{path}").content == b"picture"


def test_a_webhook_gets_each_update_until_it_takes_it(api: TelegramApi) -> None:
    came: list[tuple[str | None, str]] = []

    class Taker(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            body = json.loads(self.rfile.read(int(self.headers["Content-Length"])))
            came.append((self.headers["X-Telegram-Bot-Api-Secret-Token"], body["message"]["text"]))
            self.send_response(200 if len(came) > 1 else 500)
            self.end_headers()

        def log_message(self, *_: object) -> None:
            pass

    with HTTPServer(("127.0.0.1", 0), Taker) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        call(api, "setWebhook", url=f"http://127.0.0.1:{server.server_port}/hook", secret_token="s3cret")
        api.write(api.person("Ada"), "hello")
        api.wait_until(lambda: api.unconfirmed() == 0)
        server.shutdown()

    assert came == [("s3cret", "hello"), ("s3cret", "hello")]
