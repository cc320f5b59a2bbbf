"""What every channel offers.

A channel that customers write on is a `CustomerChannel`; one on which the maker sees drafts and decides is a
`MakerSurface`; one class may be both, and any of the first goes with any of the second. A channel knows the desk; the
desk knows no channel by name.

The desk's methods are not `async` and take a millisecond or a few: a channel calls them with `asyncio.to_thread`, and
acknowledges to its server only after `Desk.keep` has returned, for then the message is committed.
"""

from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from bot.message import ChannelName, Outgoing

if TYPE_CHECKING:
    from bot.approval.buttons import Action
    from bot.approval.decision import Number
    from bot.approval.summary import Summary


class CustomerChannel(Protocol):
    """A way in which customers write."""

    @property
    def name(self) -> ChannelName:
        """Give its name in settings and store."""

    async def receive(self) -> None:
        """Take messages until cancelled: each to `Desk.keep` or `Desk.edit`, then acknowledged.

        Raises   ChannelError when the connection is lost; it is started again, with backoff
        """

    async def deliver(self, text: Outgoing) -> str:
        """Send one part of an approved text, and give the channel's own id of the message.

        Called by `bot/departures.py` alone, after the part was claimed. Not tried again in here.
        Raises   NotGoneError: it has surely not gone; RefusedError: it never will; UnsureError: nobody knows. Whatever
                 else is raised, and a cancellation, counts as unsure
        """

    async def find(self, text: Outgoing) -> str | None:
        """Look for a text that may have gone, by its key, and give the channel's own id of the message.

        Returns   None: the channel cannot tell, and the maker is asked
        """

    async def check(self) -> str:
        """Try the account without sending anything, and say in one line what was found.

        Raises   ChannelError or MendError that says what to do
        """


class MakerSurface(Protocol):
    """Where the maker is shown drafts and decides."""

    @property
    def surface(self) -> str:
        """Give its name in the store, at most 16 characters."""

    async def show(self, summary: "Summary") -> Sequence[str]:
        """Show a draft with its buttons.

        Returns   the surface's own references to what was shown, by which `retire` finds it
        Raises    ChannelError
        """

    async def retire(self, reference: str, note: str) -> None:
        """Take the buttons off a draft that is decided or old, and say so in `note`. One that is gone is no fault.

        Raises   ChannelError
        """

    async def tell(self, text: str, *, number: "Number | None" = None, actions: "Sequence[Action]" = ()) -> None:
        """Tell the maker something: a text that failed, is held, or about which nobody knows.

        number, actions   the draft that it is about, and the buttons to put under it
        Raises            ChannelError
        """


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenChannel:
    """A channel whose account is known: what customers write on, and where makers decide, if anybody may there.

    close   gives its connections back
    """

    customers: CustomerChannel
    maker: MakerSurface | None
    close: Callable[[], Awaitable[None]]
