"""Discord's gateway for tests: sessions that can be dropped, resumed or lost, over a WebSocket.

Nothing is told to a session beside its intents (simcord knows which event needs which), and nothing is kept for anybody
who is not there, except for a session that may still resume.
"""

import asyncio
import contextlib
import itertools
import json
import zlib
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import discord
from aiohttp import WSMsgType, web
from simcord import intents as wanted
from simcord.backend import serializers

from tests.doubles.discord_world import CDN, DiscordWorld, Json

DISPATCH, HEARTBEAT, IDENTIFY, RESUME, RECONNECT, INVALID, HELLO, ACK = 0, 1, 2, 6, 7, 9, 10, 11


@dataclass(slots=True)
class Session:
    """What was told to one client, so that it can be told again. out: its socket; None: it is gone."""

    id: str
    intents: discord.Intents
    told: list[Json] = field(default_factory=list)
    out: "asyncio.Queue[Json | None] | None" = None

    def tell(self, event: str, payload: Any) -> None:
        self.told.append({"op": DISPATCH, "t": event, "s": len(self.told) + 1, "d": payload})
        if self.out is not None:
            self.out.put_nowait(self.told[-1])


class Gateway:
    """All sessions. Use it in the server's loop alone."""

    def __init__(self, world: DiscordWorld, token: str, changed: Callable[[], None]) -> None:
        self.world = world
        self.token = token
        self.base = ""
        self.closed_with: list[int] = []
        self.identified = 0
        self.resumed = 0
        self._changed = changed
        self._sessions: dict[str, Session] = {}
        self._names = itertools.count(1)

    @property
    def connected(self) -> int:
        """How many clients are there."""
        return sum(session.out is not None for session in self._sessions.values())

    def feed(self, event: str, payload: Json) -> None:
        """Tell an event to every session that wants it."""
        for session in self._sessions.values():
            needs = wanted.required_intent(event, payload)
            if needs is None or getattr(session.intents, needs):
                session.tell(event, self._shaped(event, payload, session))

    def _shaped(self, event: str, payload: Json, session: Session) -> Json:
        shaped: Json = json.loads(json.dumps(payload).replace(CDN, f"{self.base}/cdn"))
        me = self.world.backend.bot_user.id
        if event in ("MESSAGE_CREATE", "MESSAGE_UPDATE") and not session.intents.message_content:
            wanted.censor_message(shaped, me, backend=self.world.backend)
        if event == "GUILD_CREATE":
            wanted.prune_guild_create(shaped, session.intents, me)
        return shaped

    def drop(self, *, resumable: bool = True) -> None:
        """Cut every connection. resumable: what happens meanwhile is told when they come back; else it is lost."""
        for session in self._sessions.values():
            if session.out is not None:
                session.out.put_nowait(None)
        if not resumable:
            self._sessions.clear()

    # One connection

    async def serve(self, request: web.Request) -> web.WebSocketResponse:
        """Serve one client."""
        socket = web.WebSocketResponse(compress=False)
        await socket.prepare(request)
        out: asyncio.Queue[Json | None] = asyncio.Queue()
        zipped = zlib.compressobj() if request.query.get("compress") == "zlib-stream" else None
        writing = asyncio.create_task(_write(socket, out, zipped))
        out.put_nowait({"op": HELLO, "d": {"heartbeat_interval": 41250}})
        session: Session | None = None
        try:
            async for message in socket:
                if message.type is not WSMsgType.TEXT:
                    break
                session = await self._take(json.loads(message.data), socket, out, session)
        finally:
            if session is not None and session.out is out:
                session.out = None
            writing.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await writing
            self._changed()
        return socket

    async def _take(
        self, said: Json, socket: web.WebSocketResponse, out: "asyncio.Queue[Json | None]", session: Session | None
    ) -> Session | None:
        match said["op"]:
            case 1:
                out.put_nowait({"op": ACK})
            case 2:
                return await self._identify(said["d"], socket, out)
            case 6:
                return self._resume(said["d"], out)
        return session

    async def _identify(
        self, said: Json, socket: web.WebSocketResponse, out: "asyncio.Queue[Json | None]"
    ) -> Session | None:
        intents = discord.Intents._from_value(int(said["intents"]))
        code = 4004 if said["token"] != self.token else 0
        if intents.message_content and not self.world.message_content:
            code = 4014
        if code:
            self.closed_with.append(code)
            await socket.close(code=code)
            return None
        session = Session(id=f"session-{next(self._names)}", intents=intents, out=out)
        with self.world.lock:
            backend = self.world.backend
            guilds = [
                json.loads(json.dumps(serializers.guild_create_payload(backend, one)))
                for one in backend.guilds.values()
            ]
            ready = {
                "v": 10,
                "user": json.loads(json.dumps(serializers.user_payload(backend.bot_user))),
                "guilds": [{"id": one["id"], "unavailable": True} for one in guilds],
                "session_id": session.id,
                "resume_gateway_url": f"ws{self.base.removeprefix('http')}/gateway",
                "application": {"id": str(backend.application_id), "flags": 0},
            }
            session.tell("READY", ready)
            for one in guilds:
                session.tell("GUILD_CREATE", self._shaped("GUILD_CREATE", one, session))
            self._sessions[session.id] = session
        self.identified += 1
        self._changed()
        return session

    def _resume(self, said: Json, out: "asyncio.Queue[Json | None]") -> Session | None:
        session = self._sessions.get(str(said["session_id"]))
        if session is None:
            out.put_nowait({"op": INVALID, "d": False})
            return None
        session.out = out
        for told in session.told[int(said["seq"] or 0) :]:
            out.put_nowait(told)
        session.tell("RESUMED", {})
        self.resumed += 1
        self._changed()
        return session


async def _write(socket: web.WebSocketResponse, out: "asyncio.Queue[Json | None]", zipped: Any) -> None:
    """Send what is to be told; None: cut the connection."""
    with contextlib.suppress(ConnectionError, RuntimeError):
        while (told := await out.get()) is not None:
            text = json.dumps({"t": None, "s": None, "d": None, **told})
            if zipped is None:
                await socket.send_str(text)
            else:
                await socket.send_bytes(zipped.compress(text.encode()) + zipped.flush(zlib.Z_SYNC_FLUSH))
    await socket.close(code=4000)
