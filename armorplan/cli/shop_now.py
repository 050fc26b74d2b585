"""The shop as it is at this moment: its people and trays as told, its air as it is kept."""

from dataclasses import dataclass
from pathlib import Path

from armorplan.app.shop_air import ShopAir, room_from, room_text, shop_air, with_air
from armorplan.cli.reading import shop_for
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.air import Room
from armorplan.workshop.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopNow:
    """Reads the shop anew each time it is asked, in any thread, over a connection of its own.

    Attributes:
        told: the shop as its file has it, or the usual one.
        is_told: a shop file was given; it rules over the air that is kept.
        workshop_path: the workshop file, which keeps the air.
        clock: tells when it is kept.
    """

    told: Shop
    is_told: bool
    workshop_path: Path
    clock: Clock

    def __call__(self) -> Shop:
        """Return the shop; air that cannot be read is told where it is looked at, and stops nothing."""
        try:
            return with_air(self.told, self.air())
        except WorkshopError:
            return self.told

    def air(self) -> ShopAir:
        """Return its air.

        Raises:
            WorkshopError: the workshop file, or the air in it, cannot be read.
        """
        own = WorkshopFile.open(self.workshop_path, self.clock)
        try:
            kept = own.air.last()
        finally:
            own.close()
        room = room_from(kept) if kept is not None else None
        return shop_air(self.told, room, is_told=self.is_told)

    def keep(self, room: Room) -> ShopAir:
        """Keep the air of the room from now on; return what the plan reckons with then.

        Raises:
            WorkshopError: the workshop file cannot be written.
        """
        own = WorkshopFile.open(self.workshop_path, self.clock)
        try:
            own.air.keep(room_text(room))
        finally:
            own.close()
        return self.air()


def shop_now(given: Path | None, workshop_path: Path, clock: Clock) -> ShopNow:
    """Return what reads the shop of a shop file, or of one maker with the usual hours.

    Raises:
        UnreadableError: with every fault of the shop file.
    """
    return ShopNow(
        told=shop_for(given), is_told=given is not None, workshop_path=workshop_path, clock=clock
    )
