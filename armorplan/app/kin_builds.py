"""What follows from the workshop's other builds, derived once each and kept, in any thread."""

from dataclasses import replace
from threading import Lock

from armorplan.app.derived import Derived
from armorplan.app.in_room import in_room
from armorplan.app.opening import resume_build
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.findings import Finding
from armorplan.ledger.builds import BuildRecord
from armorplan.schedule.joining import Joiner
from armorplan.workshop.shop import Shop


class KinBuilds:
    """Derives each build of a workshop once, whichever session asks; one window has one of these.

    A build that cannot be derived stops nothing: why is kept, and it is not tried again until the
    window is opened anew, since its snapshot never changes.
    """

    def __init__(self) -> None:
        self._known: dict[str, Derived] = {}
        self._troubles: dict[str, str] = {}
        self._lock = Lock()
        self.not_begun: tuple[Finding, ...] = ()
        """Of what the shop orders and could not be begun, why."""
        self.joiner = Joiner()
        """Makes their joint problem, and keeps of it what does not change."""

    def know(self, derived: Derived) -> None:
        """Take in a build that was opened; never waits for one that is being derived."""
        self._known[derived.assembly.build] = derived

    def known(self, build: str) -> Derived | None:
        """Return what follows from a build as far as it is known; never waits."""
        return self._known.get(build)

    def trouble(self, build: str) -> str:
        """Return why a build could not be derived; empty where it could, or nobody tried."""
        return self._troubles.get(build, "")

    def is_new(self, build: str) -> bool:
        """Tell whether a build has to be derived yet; never waits."""
        return build not in self._known and build not in self._troubles

    def derived(self, build: str, record: BuildRecord | None, shop: Shop) -> Derived | None:
        """Return what follows from a build, in the shop as it is now; ``None``: see ``trouble``.

        The first time it takes as long as opening it.

        Args:
            build: its id.
            record: its snapshot; needed where it ``is_new``.
            shop: where it is worked.
        """
        with self._lock:
            if build in self._troubles:
                return None
            found = self._known.get(build)
            if found is None and record is not None:
                found = self._made(record, shop)
            if found is None:
                return None
            here = in_room(found, shop.room)
            if here.shop != shop:
                here = replace(here, shop=shop)
            self._known[build] = here
            return here

    def _made(self, build: BuildRecord, shop: Shop) -> Derived | None:
        try:
            found = resume_build(build, shop).derived
        except ArmorplanError as error:
            first = str(error).splitlines()[0].rstrip(".")
            self._troubles[build.id] = f"It cannot be read, so it is not planned: {first}."
            return None
        if not found.order:
            why = "Its steps contradict each other, so it is not planned: open it to see how."
            self._troubles[build.id] = why
            return None
        return found
