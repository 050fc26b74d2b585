"""Reads patterns, shops and builds for a window: in any thread, over connections of their own."""

from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from armorplan.app.kin_builds import KinBuilds
from armorplan.app.opening import Opened, build_named, open_build, resume_build
from armorplan.app.ordered_builds import shop_file_of
from armorplan.app.session import Session
from armorplan.cli.first_build import open_shop
from armorplan.cli.shop_now import ShopNow, shop_now
from armorplan.kernel.clock import SystemClock
from armorplan.store.gate import OPEN, Gate
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shelf import Shelf


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildReading:
    """The slow half of opening; what it returns seats a session in the window's thread.

    Attributes:
        path: the workshop file.
        shelf: reads the shelf as it is now.
        shop: the shop the window works in.
        kin: what is known of its builds.
        seat: makes a session, in the window's thread.
        gate: says whether this window writes.
    """

    path: Path
    shelf: Callable[[], Shelf]
    shop: ShopNow
    kin: KinBuilds
    seat: Callable[[Opened], Session]
    gate: Gate = OPEN

    def __call__(self, folder: Path, going_on: str = "") -> Callable[[], Session]:
        """Read a pattern folder; of a shop, begin what it orders and read the build due first.

        From then on the window works in that shop.

        Raises:
            ArmorplanError: it cannot be read.
        """
        file = shop_file_of(folder)
        if file is not None:
            return self._shop(file)
        today = self.shelf()
        with closing(self._opened()) as own:
            opened = open_build(
                folder, own, today, self.shop(today), clock=SystemClock(), going_on=going_on
            )
        return partial(self.seat, opened)

    def resume(self, build_id: str) -> Callable[[], Session]:
        """Read a build of the workshop as it was started.

        Raises:
            ArmorplanError: it cannot be read.
        """
        with closing(self._opened()) as own:
            build, today = build_named(own.builds(), build_id), self.shelf()
            opened = resume_build(build, self.shop(today), today=today)
        return partial(self.seat, opened)

    def _shop(self, file: Path) -> Callable[[], Session]:
        today = self.shelf()
        there = shop_now(file, self.path, self.shelf, SystemClock(), gate=self.gate)
        with closing(self._opened()) as own:
            opened = open_shop(file, own, (today, there(today)), self.kin)

        def ready() -> Session:
            self.shop.work_in(there.told)
            return self.seat(opened)

        return ready

    def _opened(self) -> WorkshopFile:
        return WorkshopFile.open(self.path, SystemClock(), self.gate)
