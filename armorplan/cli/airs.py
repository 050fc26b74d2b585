"""What the window needs to keep the shop's air, and to go on with a build in it."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from armorplan.app.opening import Opened, resume_build
from armorplan.app.session import Session
from armorplan.app.session_protocol import BenchSession
from armorplan.app.shop_air import AirRule, ShopAir, room_words
from armorplan.cli.shop_now import ShopNow
from armorplan.desktop.opening import Ready
from armorplan.ledger.builds import BuildRecord
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf


@dataclass(frozen=True, slots=True, kw_only=True)
class Airs:
    """Fulfils ``air_desk.AirBench`` for the builds of a workshop.

    Attributes:
        shop: reads the shop as it is now, and keeps its air.
        shelf: reads the shelf as it is now.
        seat: makes a session of a build, in the window's thread.
    """

    shop: ShopNow
    shelf: Callable[[], Shelf]
    seat: Callable[[Opened], Session]

    def air(self) -> Callable[[], ShopAir]:
        """Return what reads the shop's air, in any thread."""
        return self.shop.air

    def keep(
        self, room: Room, before: Room | None = None, *, instead: bool = False
    ) -> Callable[[], str]:
        """Return what keeps the air of the shop and says so, in any thread."""
        return partial(self._keep, room, before, instead=instead)

    def _keep(self, room: Room, before: Room | None, *, instead: bool) -> str:
        air = self.shop.keep(room, before, instead=instead)
        said = f"Kept as the air of the shop: {room_words(room)}"
        if air.rule is AirRule.SHOP_FILE:
            return f"{said} The shop file rules over it: the plan goes by that."
        return said

    def go_on(self, session: BenchSession) -> Callable[[], Ready]:
        """Return what makes the same build ready in the air of now, in any thread."""
        if not isinstance(session, Session):
            message = "only a build of the workshop dries in its shop"
            raise TypeError(message)
        return partial(self._go_on, session.build)

    def _go_on(self, build: BuildRecord) -> Ready:
        """Derive a build anew: its pattern, shelf and relations stay, its minutes are today's."""
        return partial(self.seat, resume_build(build, self.shop(), today=self.shelf()))
