"""The plan that was promised last, read along from the workshop file."""

from armorplan.app.other_builds import OrderShelf
from armorplan.app.shown_plan import ShownPlan, plan_from


class Promised:
    """Keeps the plan promised last, whichever window promised it."""

    def __init__(self, shelf: OrderShelf) -> None:
        self._shelf = shelf
        self._number = 0
        self.plan: ShownPlan | None = None
        self.read_new()

    def read_new(self) -> bool:
        """Take in what another window promised; tell whether any did.

        Raises:
            WorkshopError: the file cannot be read.
        """
        found = self._shelf.promised()
        if found is None or found[0] == self._number:
            return False
        self._number, self.plan = found[0], plan_from(found[2])
        return True

    def keep(self, plan: ShownPlan) -> None:
        """Keep a plan as promised.

        Raises:
            WorkshopError: the file cannot be written.
        """
        self._number = self._shelf.promise(plan.as_text())
        self.plan = plan
