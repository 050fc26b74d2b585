"""What the window needs to keep the shop's air, and to go on with a build in it."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from armorplan.app.other_air import Settle
from armorplan.app.session import Session
from armorplan.app.session_protocol import BenchSession
from armorplan.app.shop_air import AirRule, ShopAir, room_words
from armorplan.cli.shop_now import ShopNow
from armorplan.workshop.air import Room


@dataclass(frozen=True, slots=True, kw_only=True)
class Airs:
    """Fulfils ``air_desk.AirBench`` for the builds of a workshop.

    Attributes:
        shop: reads the shop as it is now, and keeps its air.
    """

    shop: ShopNow

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

    def is_behind(self, session: BenchSession) -> bool:
        """Tell whether another window kept air that this build was not reckoned in."""
        return isinstance(session, Session) and session.air_is_new

    def go_on(self, session: BenchSession) -> Callable[[], Settle]:
        """Return what reckons the same build in the air of now, in any thread."""
        if not isinstance(session, Session):
            message = "only a build of the workshop dries in its shop"
            raise TypeError(message)
        return session.asking_air(self._now)

    def _now(self) -> tuple[int, Room]:
        # Air that is kept in between is noticed, and reckoned in the next time.
        return self.shop.latest_air(), self.shop().room
