"""Discord on 127.0.0.1 for tests: API, gateway and files over real sockets, every call judged.

It runs in a thread of its own, so that a bot in this process, or in another one, can be driven from a plain test. Calls
are judged by discord_world, sessions live in discord_gateway, what a test does and sees stands in discord_people.
"""

import asyncio
import contextlib
import fnmatch
import io
import json
import re
import threading
from collections.abc import Iterator
from typing import Any

from aiohttp import web
from simcord.backend.errors import BackendError

from tests.doubles.discord_gateway import Gateway
from tests.doubles.discord_people import Call, DiscordPeople
from tests.doubles.discord_world import CDN, File, Json
from tests.doubles.telegram_people import Cut, Trouble

TOKEN = "MTAwMDAwMDAwMDAwMDAwMDAw.made-up.about-forty-characters-of-a-made-up-key"
WITHOUT_TOKEN = ("/interactions/", "/webhooks/")
_SINGLE = re.compile(r"(?<=/messages)/\d+|(?<=/interactions)/\d+/[^/]+|(?<=/webhooks)/\d+/[^/]+|(?<=/cdn)/.*")
"""What makes a path one of many of its kind."""


class DiscordApi(DiscordPeople):
    """The server; a context manager. All methods may be called from any thread."""

    def __init__(self, *, token: str = TOKEN) -> None:
        self._loop = asyncio.new_event_loop()
        self._gateway: Gateway | None = None
        super().__init__()
        self.token = token
        self._gateway = Gateway(self.world, token, self._look)
        self._troubles: list[tuple[str, str, Trouble]] = []
        self._each: Cut | None = None
        self._cut_once: set[tuple[str, str]] = set()
        self._hung: list[asyncio.Event] = []
        self._thread = threading.Thread(target=self._run, name="discord-api", daemon=True)

    # Life

    def __enter__(self) -> "DiscordApi":
        self._thread.start()
        self._in_loop(self._start_server(0))
        return self

    def __exit__(self, *_: object) -> None:
        self._in_loop(self._stop_server())
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join()
        self._loop.close()

    @property
    def base(self) -> str:
        """The address of the API to put into the settings, without a slash at the end."""
        return f"http://127.0.0.1:{self._port}"

    @property
    def gateway(self) -> str:
        """The address of the gateway to put into the settings."""
        return f"ws://127.0.0.1:{self._port}/gateway"

    @property
    def sessions(self) -> Gateway:
        """The gateway's side."""
        assert self._gateway is not None
        return self._gateway

    def drop(self, *, resumable: bool = True) -> None:
        """Cut every gateway connection. resumable: what happens meanwhile is told later; else it is lost."""
        self._loop.call_soon_threadsafe(lambda: self.sessions.drop(resumable=resumable))

    def tell(self, event: str, payload: Json) -> None:
        """Tell an event to everybody who is there, whatever it is."""
        self._told(event, payload)

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

    async def _start_server(self, port: int) -> None:
        app = web.Application(client_max_size=60 * 1024 * 1024)
        app.router.add_get("/gateway", self._connect)
        app.router.add_get("/gateway/", self._connect)
        app.router.add_get("/cdn/{path:.*}", self._serve_file)
        app.router.add_route("*", "/api/v10/{path:.*}", self._serve)
        self._runner = web.AppRunner(app, access_log=None, shutdown_timeout=0.1)
        await self._runner.setup()
        await web.TCPSite(self._runner, "127.0.0.1", port, reuse_address=True).start()
        self._port = self._runner.addresses[0][1]
        self.sessions.base = self.base

    async def _stop_server(self) -> None:
        for hung in self._hung:
            hung.set()
        self.sessions.drop(resumable=True)
        await self._runner.cleanup()

    async def _connect(self, request: web.Request) -> web.StreamResponse:
        trouble = self._next_trouble("GET", "/gateway")
        if trouble.cut is not None:
            return _drop(request)
        return await self.sessions.serve(request)

    def _told(self, event: str, payload: Json) -> None:
        if self._gateway is not None:
            self._loop.call_soon_threadsafe(self._gateway.feed, event, payload)

    def _look(self) -> None:
        with self._changed:
            self._changed.notify_all()

    # Trouble

    def trouble(self, method: str, path: str, *troubles: Trouble) -> None:
        """Let the next calls whose path looks so go wrong, one after another. path: with * and ?"""
        with self._changed:
            self._troubles.extend((method, path, trouble) for trouble in troubles)

    def cut_each(self, cut: Cut) -> None:
        """Let the first call of every kind, in every channel, be cut."""
        with self._changed:
            self._each = cut

    def _next_trouble(self, method: str, path: str) -> Trouble:
        with self._changed:
            kind = (method, _SINGLE.sub("/#", path))
            if self._each is not None and kind not in self._cut_once:
                self._cut_once.add(kind)
                return Trouble(cut=self._each)
            for place, (wanted, pattern, trouble) in enumerate(self._troubles):
                if method == wanted and fnmatch.fnmatch(path, pattern):
                    del self._troubles[place]
                    return trouble
        return Trouble()

    # The server's side

    async def _serve(self, request: web.Request) -> web.StreamResponse:
        method, path = request.method, "/" + request.match_info["path"]
        if not path.startswith(WITHOUT_TOKEN) and request.headers.get("Authorization") != f"Bot {self.token}":
            return self._error(method, path, None, BackendError(401, 0, "401: Unauthorized"))
        body, files = await _parts(request)
        trouble = self._next_trouble(method, path)
        if trouble.cut is Cut.BEFORE:
            self._note(Call(method=method, path=path, body=body, cut=trouble.cut))
            return _drop(request)
        if trouble.status:
            return self._trouble_answer(method, path, body, trouble)
        try:
            result = self.world.call(method, path, body=body, params=dict(request.query), files=files)
        except BackendError as error:
            response = self._error(method, path, body, error, cut=trouble.cut)
        else:
            self._note(Call(method=method, path=path, body=body, cut=trouble.cut))
            response = self._json(result)
        return response if trouble.cut is None else await self._cut(request, response, trouble.cut)

    def _json(self, result: Any) -> web.Response:
        if result is None:
            return web.Response(status=204)
        text = json.dumps(result).replace(CDN, f"{self.base}/cdn")
        # discord.py reads an answer as JSON only where its type stands alone
        return web.Response(body=text.encode(), headers={"Content-Type": "application/json"})

    def _error(self, method: str, path: str, body: Any, error: BackendError, *, cut: Cut | None = None) -> web.Response:
        self._note(Call(method=method, path=path, body=body, refused=error.message, cut=cut))
        text = json.dumps(error.to_json())
        return web.Response(status=error.status, body=text.encode(), headers={"Content-Type": "application/json"})

    def _trouble_answer(self, method: str, path: str, body: Any, trouble: Trouble) -> web.Response:
        told: Json = {"message": "Trouble", "code": 0}
        if trouble.status == 429:
            told = {"message": "You are being rate limited.", "retry_after": trouble.retry_after, "global": False}
        self._note(Call(method=method, path=path, body=body, refused=str(told["message"])))
        headers = {"Content-Type": "application/json", "Via": "1.1 double"}
        return web.Response(status=trouble.status, body=json.dumps(told).encode(), headers=headers)

    def _note(self, call: Call) -> None:
        with self._changed:
            self.calls.append(call)
            self._changed.notify_all()

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

    async def _serve_file(self, request: web.Request) -> web.StreamResponse:
        path = request.match_info["path"]
        trouble = self._next_trouble("GET", f"/cdn/{path}")
        self._note(Call(method="GET", path=f"/cdn/{path}", body=None, cut=trouble.cut))
        if trouble.cut is Cut.BEFORE:
            return _drop(request)
        content = self.world.backend.cdn.get(f"{CDN}/{path}")
        if content is None or trouble.status:
            return web.Response(status=trouble.status or 404)
        response = web.Response(body=content)
        return response if trouble.cut is None else await self._cut(request, response, trouble.cut)


async def _parts(request: web.Request) -> tuple[Any, list[File]]:
    if not request.can_read_body:
        return None, []
    if request.content_type == "application/json":
        return json.loads(await request.text() or "null"), []
    body, files = None, []
    for key, value in (await request.post()).items():
        if isinstance(value, web.FileField):
            files.append(File(filename=value.filename, fp=io.BytesIO(value.file.read())))
        elif key == "payload_json":
            body = json.loads(str(value))
    return body, files


def _drop(request: web.Request) -> web.StreamResponse:
    if request.transport is not None:
        request.transport.abort()
    return web.Response()


@contextlib.contextmanager
def discord_api() -> Iterator[DiscordApi]:
    """Serve; no fault is left at the end."""
    with DiscordApi() as api:
        yield api
        assert api.world.faults == []
