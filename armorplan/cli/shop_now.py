"""The shop as it is at this moment: people and trays as told, air as kept, paces as learned."""

from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from armorplan.app.learned_shop import shop_today
from armorplan.app.past_air import air_over_time
from armorplan.app.shop_air import ShopAir, room_from, room_text, shop_air, with_air
from armorplan.cli.reading import shop_for
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopNow:
    """Reads the shop anew each time it is asked, in any thread, over a connection of its own.

    Attributes:
        told: the shop as its file has it, or the usual one.
        is_told: a shop file was given; it rules over the air that is kept.
        workshop_path: the workshop file, which keeps the air.
        shelf: reads the shelf as it is now.
        clock: tells when it is kept.
    """

    told: Shop
    is_told: bool
    workshop_path: Path
    shelf: Callable[[], Shelf]
    clock: Clock

    def __call__(self) -> Shop:
        """Return the shop; air that cannot be read is told where it is looked at, and stops nothing."""
        try:
            with closing(self._opened()) as own:
                shop = shop_today(self.told, own, self.shelf())
                return with_air(shop, self._air(own, shop))
        except WorkshopError:
            return self.told

    def air(self) -> ShopAir:
        """Return its air.

        Raises:
            WorkshopError: the workshop file, or the air in it, cannot be read.
        """
        with closing(self._opened()) as own:
            return self._air(own, self.told)

    def _opened(self) -> WorkshopFile:
        return WorkshopFile.open(self.workshop_path, self.clock)

    def _air(self, own: WorkshopFile, shop: Shop) -> ShopAir:
        told = tuple((at, room_from(text)) for at, text in own.air.all())
        return air_over_time(shop, told, self.clock.now(), is_told=self.is_told)

    def keep(self, room: Room, before: Room | None = None) -> ShopAir:
        """Keep the air of the room from now on; return what the plan reckons with then.

        Args:
            room: with its air.
            before: where nothing was kept yet, the air up to now; ``None``: the same.

        Raises:
            WorkshopError: the workshop file cannot be written.
        """
        with closing(self._opened()) as own:
            if before is not None and own.air.last() is None:
                own.air.keep(room_text(before))
            own.air.keep(room_text(room))
            return self._air(own, self.told)


def shop_kept(
    given: Path | None, workshop_path: Path | None, shelf: Callable[[], Shelf], clock: Clock
) -> tuple[Shop, ShopAir]:
    """Return the shop that a command reckons with, and who told its air.

    Args:
        given: a shop file.
        workshop_path: a workshop file, whose air and learned paces count; ``None``: none does.
        shelf: reads the catalogues.
        clock: of the machine.

    Raises:
        UnreadableError: with every fault of the shop file.
        WorkshopError: there is no such workshop file, or it cannot be read.
    """
    if workshop_path is None:
        told = shop_for(given)
        return told, shop_air(told, None, is_told=given is not None)
    if not workshop_path.exists():
        message = f"There is no workshop file {workshop_path}."
        raise WorkshopError(message)
    now = shop_now(given, workshop_path, shelf, clock)
    return now(), now.air()


def shop_now(
    given: Path | None, workshop_path: Path, shelf: Callable[[], Shelf], clock: Clock
) -> ShopNow:
    """Return what reads the shop of a shop file, or of one maker with the usual hours.

    Raises:
        UnreadableError: with every fault of the shop file.
    """
    return ShopNow(
        told=shop_for(given),
        is_told=given is not None,
        workshop_path=workshop_path,
        shelf=shelf,
        clock=clock,
    )
