"""What doing a step now would close off, reckoned beside the window."""

from collections.abc import Callable
from functools import cached_property

from armorplan.app.closes_off import ClosesOff, closes_off
from armorplan.app.closing_order import ClosingOrder
from armorplan.app.derived import Derived
from armorplan.app.reach_track import reach_track


class Commits:
    """Of one build as it was derived. Reach along its order is traced once, when first asked."""

    def __init__(self, derived: Derived) -> None:
        self.derived = derived

    @cached_property
    def _track(self) -> ClosingOrder:
        return reach_track(self.derived)

    def asking(self, step: str, done: tuple[str, ...]) -> Callable[[], ClosesOff]:
        """Return what tells what a step closes off once these are done; call it in any thread."""

        def ask() -> ClosesOff:
            work = self.derived.work
            stand = [work.step(one) for one in done if work.has(one)]
            joints = {joint for one in stand for joint in work.sets(one)}
            return closes_off(self.derived, self._track, joints, (step,), done=done)

        return ask
