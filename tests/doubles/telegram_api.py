"""A Bot API server on 127.0.0.1 for tests: polling, webhook and files over real sockets, every call judged.

It runs in a thread of its own, so that a bot in this process, or in another one, can be driven from a plain test.
Calls are judged by aiogram's typed methods (telegram_judge), chats live in telegram_world, what a test does and sees
stands in telegram_people. What a sound program never does is answered with an error and kept in `faults`: a test ends
with none.
"""

import asyncio
import contextlib
import threading
from typing import Any

import aiohttp
from aiogram import methods
from aiogram.methods import TelegramMethod
from aiohttp import web

from tests.doubles.telegram_judge import UPDATE_LIMIT, RefusedError, judge
from tests.doubles.telegram_people import Call, Cut, TelegramPeople, Trouble
from tests.doubles.telegram_world import Json

TOKEN = "7000001:AAbout-forty-characters-of-a-made-up-key"


class TelegramApi(TelegramPeople):
    """The server; a context manager. All methods may be called from any thread."""

    def __init__(self, *, token: str = TOKEN) -> None:
        super().__init__()
        self.token = token
        self.conflicts = 0
        self._poll: object | None = None
        self._allowed: list[str] | None = None
        self._webhook: Json | None = None
        self._troubles: dict[str, list[Trouble]] = {}
        self._loop = asyncio.new_event_loop()
        self._wake: asyncio.Event = asyncio.Event()
        self._thread = threading.Thread(target=self._run, name="telegram-api", daemon=True)
        self._hung: list[asyncio.Event] = []

    # Life

    def __enter__(self) -> "TelegramApi":
        self._thread.start()
        self._in_loop(self._start())
        return self

    def __exit__(self, *_: object) -> None:
        self._in_loop(self._stop())
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join()
        self._loop.close()

    @property
    def base(self) -> str:
        """The address to put into the settings, without a slash at the end."""
        return f"http://127.0.0.1:{self._port}"

    def stop_listening(self) -> None:
        """Refuse new connections and drop the open ones."""
        self._in_loop(self._stop_server())

    def start_listening(self) -> None:
        """Listen again, on the same port."""
        self._in_loop(self._start_server(self._port))

    def _run(self) -> None:
        asyncio.set_event_loop(self._loop)
        self._loop.run_forever()

    def _in_loop(self, job: Any) -> Any:
        return asyncio.run_coroutine_threadsafe(job, self._loop).result(timeout=20)

    async def _start(self) -> None:
        self._client = aiohttp.ClientSession()
        await self._start_server(0)
        self._pusher: asyncio.Task[None] | None = None

    async def _start_server(self, port: int) -> None:
        app = web.Application(client_max_size=60 * 1024 * 1024)
        app.router.add_route("*", "/bot{token}/{method}", self._serve)
        app.router.add_get("/file/bot{token}/all/{file_id}", self._serve_file)
        self._runner = web.AppRunner(app, access_log=None, shutdown_timeout=0.1)
        await self._runner.setup()
        site = web.TCPSite(self._runner, "127.0.0.1", port, reuse_address=True)
        await site.start()
        self._port = self._runner.addresses[0][1]

    async def _stop_server(self) -> None:
        for hung in self._hung:
            hung.set()
        self._wake.set()
        await self._runner.cleanup()

    async def _stop(self) -> None:
        if self._pusher is not None:
            self._pusher.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await self._pusher
        await self._stop_server()
        await self._client.close()

    # Trouble

    def trouble(self, method: str, *troubles: Trouble) -> None:
        """Let the next calls of a method go wrong, one after another."""
        with self._changed:
            self._troubles.setdefault(method.lower(), []).extend(troubles)

    # The server's side

    def _queued(self) -> None:
        self._loop.call_soon_threadsafe(self._wake.set)

    async def _serve(self, request: web.Request) -> web.StreamResponse:
        name = request.match_info["method"]
        if request.match_info["token"] != self.token:
            return _error(RefusedError("Unauthorized", status=401))
        form, files = await _parts(request)
        trouble = self._next_trouble(name)
        if trouble.cut is Cut.BEFORE:
            self._note(name, form, cut=trouble.cut)
            return _drop(request)
        if trouble.status:
            text = f"Too Many Requests: retry after {trouble.retry_after}" if trouble.status == 429 else "Trouble"
            self._note(name, form, refused=text)
            return _error(RefusedError(text, status=trouble.status, retry_after=trouble.retry_after))
        try:
            result = await self._answer(request, judge(name, form, files))
        except RefusedError as error:
            self._note(name, form, refused=error.description, fault=error.fault, cut=trouble.cut)
            response = _error(error)
        else:
            self._note(name, form, cut=trouble.cut)
            response = web.json_response({"ok": True, "result": result})
        return response if trouble.cut is None else await self._cut(request, response, trouble.cut)

    async def _cut(self, request: web.Request, response: web.Response, cut: Cut) -> web.StreamResponse:
        if cut is Cut.HANG:
            hung = asyncio.Event()
            self._hung.append(hung)
            await hung.wait()
        if cut is Cut.HALF:
            body = response.body if isinstance(response.body, bytes) else b""
            half = web.StreamResponse(headers={"Content-Type": "application/json", "Content-Length": str(len(body))})
            with contextlib.suppress(ConnectionError):
                await half.prepare(request)
                await half.write(body[: len(body) // 2])
        return _drop(request)

    def _next_trouble(self, name: str) -> Trouble:
        with self._changed:
            waiting = self._troubles.get(name.lower())
            return waiting.pop(0) if waiting else Trouble()

    def _note(
        self, name: str, form: Json, *, refused: str | None = None, fault: bool = False, cut: Cut | None = None
    ) -> None:
        with self._changed:
            self.calls.append(Call(method=name, form=form, refused=refused, cut=cut))
            if fault:
                self.faults.append(f"{name}: {refused}")
            self._changed.notify_all()

    async def _answer(self, request: web.Request, call: TelegramMethod[Any]) -> Any:
        match call:
            case methods.GetUpdates():
                return await self._get_updates(request, call)
            case methods.SetWebhook():
                return self._set_webhook(call)
            case methods.DeleteWebhook():
                self._webhook = None
                return True
            case methods.GetWebhookInfo():
                url = self._webhook["url"] if self._webhook else ""
                return {"url": url, "has_custom_certificate": False, "pending_update_count": len(self._queue)}
        with self._changed:
            return self.world.answer(call)

    # Polling and webhook

    async def _get_updates(self, request: web.Request, call: methods.GetUpdates) -> list[Json]:
        if self._webhook:
            raise RefusedError("Conflict: can't use getUpdates method while webhook is active", status=409)
        if call.allowed_updates is not None:
            self._allowed = call.allowed_updates
        me = object()
        if self._poll is not None:
            self._poll = None
            self._wake.set()
        self._poll = me
        self._confirm(call.offset or 0)
        deadline = self._loop.time() + (call.timeout or 0)
        while True:
            self._wake.clear()
            if self._poll is not me:
                if request.transport is not None and not request.transport.is_closing():
                    self.conflicts += 1
                raise RefusedError(
                    "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running",
                    status=409,
                )
            ready = self._ready(call.limit or UPDATE_LIMIT)
            left = deadline - self._loop.time()
            if ready or left <= 0 or request.transport is None or request.transport.is_closing():
                self._poll = None
                return ready
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(self._wake.wait(), left)

    def _confirm(self, offset: int) -> None:
        with self._changed:
            self._queue = [update for update in self._queue if update["update_id"] >= offset]
            self._changed.notify_all()

    def _ready(self, limit: int) -> list[Json]:
        with self._changed:
            if self._allowed:
                self._queue = [update for update in self._queue if any(kind in update for kind in self._allowed)]
            return self._queue[: max(1, min(limit, UPDATE_LIMIT))]

    def _set_webhook(self, call: methods.SetWebhook) -> bool:
        self._webhook = {"url": call.url, "secret": call.secret_token} if call.url else None
        if call.allowed_updates is not None:
            self._allowed = call.allowed_updates
        self._wake.set()
        self._pusher = self._pusher or asyncio.create_task(self._push())
        return True

    async def _push(self) -> None:
        """Send updates to the webhook one by one, each again until it is taken."""
        while True:
            if self._webhook is None or not self._queue:
                await asyncio.sleep(0.01)
                continue
            update = self._ready(1)
            if update and await self._taken(update[0]):
                self._confirm(update[0]["update_id"] + 1)
            else:
                await asyncio.sleep(0.05)

    async def _taken(self, update: Json) -> bool:
        if self._webhook is None:
            return False
        secret = self._webhook["secret"]
        headers = {"X-Telegram-Bot-Api-Secret-Token": secret} if secret else {}
        try:
            async with self._client.post(self._webhook["url"], json=update, headers=headers) as response:
                return response.status == 200
        except (aiohttp.ClientError, OSError):
            return False

    async def _serve_file(self, request: web.Request) -> web.StreamResponse:
        file_id = request.match_info["file_id"]
        trouble = self._next_trouble("file")
        self._note("file", {"file_id": file_id}, cut=trouble.cut)
        if trouble.cut is Cut.BEFORE:
            return _drop(request)
        if request.match_info["token"] != self.token or file_id not in self.world.files:
            return web.Response(status=404)
        response = web.Response(body=self.world.files[file_id])
        return response if trouble.cut is None else await self._cut(request, response, trouble.cut)


async def _parts(request: web.Request) -> tuple[dict[str, str], dict[str, bytes]]:
    form: dict[str, str] = dict(request.query)
    files: dict[str, bytes] = {}
    if request.content_type == "application/json" and request.can_read_body:
        raise web.HTTPUnsupportedMediaType(text="this double reads forms")
    for key, value in (await request.post()).items():
        if isinstance(value, str):
            form[key] = value
        elif isinstance(value, web.FileField):
            files[key] = value.file.read()
    return form, files


def _drop(request: web.Request) -> web.StreamResponse:
    if request.transport is not None:
        request.transport.abort()
    return web.Response()


def _error(error: RefusedError) -> web.Response:
    body: Json = {"ok": False, "error_code": error.status, "description": error.description}
    if error.retry_after is not None:
        body["parameters"] = {"retry_after": error.retry_after}
    return web.json_response(body, status=error.status)
