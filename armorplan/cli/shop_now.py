"""The shop as it is at this moment: people and trays as told, air as kept, paces as learned."""

from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path

from armorplan.app.air_texts import room_text, shortest_text, states_from
from armorplan.app.learned_shop import shop_today
from armorplan.app.past_air import PAST, air_over_time
from armorplan.app.shop_air import ShopAir, shop_air, with_air
from armorplan.cli.reading import shop_for, tell
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.store.gate import OPEN, Gate
from armorplan.store.places import default_workshop_path
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.absences import with_absences
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop
from armorplan.workshop.skills import with_skills


@dataclass(slots=True, kw_only=True)
class ShopNow:
    """Reads the shop anew each time it is asked, in any thread, over a connection of its own.

    Attributes:
        told: the shop as its file has it, or the usual one.
        is_told: a shop file was given; it rules over the air that is kept.
        workshop_path: the workshop file, which keeps the air.
        shelf: reads the shelf as it is now.
        clock: tells when it is kept.
        gate: says whether this window writes.
    """

    told: Shop
    is_told: bool
    workshop_path: Path
    shelf: Callable[[], Shelf]
    clock: Clock
    gate: Gate = OPEN

    def __call__(self, shelf: Shelf | None = None) -> Shop:
        """Return the shop; what cannot be read is told where it is looked at, and stops nothing.

        Neither air nor what was learned costs the other.

        Args:
            shelf: as it is now, from whoever has read it already; ``None``: it is read here.
        """
        shop = self.told
        with suppress(WorkshopError), closing(self._opened()) as own:
            shop = with_absences(self._today(own, shelf), own.absences.latest())
            shop = with_air(shop, self._air(own, shop))
        return shop

    def work_in(self, told: Shop) -> None:
        """Go on in another shop, as its file has it."""
        self.told, self.is_told = told, True

    def with_its_air(self) -> tuple[Shop, ShopAir]:
        """Return the shop, and its air with who told it.

        Raises:
            WorkshopError: the workshop file, or the air kept last in it, cannot be read.
        """
        with closing(self._opened()) as own:
            shop = self._today(own)
            air = self._air(own, shop)
        return with_air(shop, air), air

    def air(self) -> ShopAir:
        """Return its air.

        Raises:
            WorkshopError: the workshop file, or the air kept last in it, cannot be read.
        """
        with closing(self._opened()) as own:
            return self._air(own, self.told)

    def latest_air(self) -> int:
        """Return the number of the air kept last; 0 where none is.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        with closing(self._opened()) as own:
            return own.air.latest()

    def _opened(self) -> WorkshopFile:
        return WorkshopFile.open(self.workshop_path, self.clock, self.gate)

    def _today(self, own: WorkshopFile, shelf: Shelf | None = None) -> Shop:
        """Return the shop with what was learned in it and signed off, where that can be read."""
        shop = self.told
        with suppress(WorkshopError):
            shop = with_skills(shop, own.skills.all())
            shop = shop_today(shop, own, shelf or self.shelf())
        return shop

    def _air(self, own: WorkshopFile, shop: Shop) -> ShopAir:
        now_at = self.clock.now()
        kept = states_from(own.air.since(now_at - PAST), own.air.text)
        return air_over_time(shop, kept, now_at, is_told=self.is_told)

    def keep(self, room: Room, before: Room | None = None, *, instead: bool = False) -> ShopAir:
        """Keep the air of the room from now on; return what the plan reckons with then.

        Args:
            room: with its air.
            before: where nothing was kept yet, the air up to now; ``None``: the same.
            instead: it was so all along: what was kept last was mistyped.

        Raises:
            WorkshopError: the workshop file cannot be written.
        """
        with closing(self._opened()) as own:
            last = own.air.last()
            if before is not None and last is None:
                own.air.keep(room_text(before))
            own.air.keep(shortest_text(room, last, own.air.text, instead=instead))
            return self._air(own, self.told)


def shop_kept(
    given: Path | None, workshop_path: Path | None, shelf: Callable[[], Shelf], clock: Clock
) -> tuple[Shop, ShopAir]:
    """Return the shop that a command reckons with, and who told its air.

    Args:
        given: a shop file.
        workshop_path: a workshop file, whose air and learned paces count; ``None``: the usual one,
            if it is there. None is made.
        shelf: reads the catalogues.
        clock: of the machine.

    Raises:
        UnreadableError: with every fault of the shop file.
        WorkshopError: there is no such workshop file, or it cannot be read.
    """
    path = workshop_path or default_workshop_path()
    if workshop_path is not None and not path.exists():
        message = f"There is no workshop file {path}."
        raise WorkshopError(message)
    now = shop_now(given, path, shelf, clock)
    if path.exists():
        try:
            return now.with_its_air()
        except WorkshopError as error:
            if workshop_path is not None:
                raise
            tell(f"{error} Its air and what was learned in it do not count here.")
    return now.told, shop_air(now.told, None, is_told=now.is_told)


def shop_now(
    given: Path | None,
    workshop_path: Path,
    shelf: Callable[[], Shelf],
    clock: Clock,
    *,
    gate: Gate = OPEN,
) -> ShopNow:
    """Return what reads the shop of a shop file, or of one maker with the usual hours.

    ``gate`` says whether its air may be kept here: of windows one at a time writes.

    Raises:
        UnreadableError: with every fault of the shop file.
    """
    return ShopNow(
        told=shop_for(given),
        is_told=given is not None,
        workshop_path=workshop_path,
        shelf=shelf,
        clock=clock,
        gate=gate,
    )
