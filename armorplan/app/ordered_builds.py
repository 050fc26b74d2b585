"""The builds that a shop file orders: read from their patterns, as the order has them made."""

from dataclasses import dataclass
from pathlib import Path

from armorplan.app.build_origins import ordered_origin
from armorplan.app.derived import Derived, derive_build
from armorplan.app.opening import read_checked
from armorplan.files.order_rows import order_folder
from armorplan.files.ordered_pattern import as_ordered
from armorplan.files.shop_file import SHOP_FILE
from armorplan.files.source import PATTERN_FILE, PatternFiles, read_folder
from armorplan.kernel.errors import ArmorplanError, FaultyPatternError, UnreadableError
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.pattern import Pattern
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.sittings import step_of
from armorplan.schedule.workplace import Workplace
from armorplan.steps.model import Step
from armorplan.workshop.orders import Order
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


def shop_file_of(given: Path) -> Path | None:
    """Return the shop file meant by a path: itself, of its folder, or of a sample of that name.

    ``None`` where a pattern is meant.
    """
    if given.suffix == ".toml" and given.name != PATTERN_FILE:
        return given
    is_name = len(given.parts) == 1 and not given.exists()
    folder = samples_folder() / given if is_name else given
    file = folder / SHOP_FILE
    return file if file.is_file() and not (folder / PATTERN_FILE).exists() else None


def shop_title(file: Path) -> str:
    """Return what a shop is called: as its folder, or where that is not told apart, its file."""
    named = file.resolve().parent.name if file.name == SHOP_FILE else file.stem
    return named.replace("_", " ").capitalize()


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderedPattern:
    """What an order is made from: the files as it has them, and the folder they come from."""

    order: Order
    source: PatternFiles
    pattern: Pattern
    folder: Path

    @property
    def title(self) -> str:
        """What the build is called; builds alike by their number, too."""
        title = self.order.title or self.pattern.name
        _, mark, number = self.order.id.rpartition("-")
        return f"{title}, {number}" if mark and number.isdecimal() else title


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildToPlan:
    """A build as it is planned, with all that follows from its pattern.

    Attributes:
        in_hand: as the planner takes it.
        derived: of the first build made from the same files: builds alike share it, so that the
            steps in it may begin with another build's id.
        origin: what names it in the world (``build_origins``).
    """

    in_hand: BuildInHand
    derived: Derived
    origin: str

    def step(self, activity: str) -> Step | None:
        """Return the step that an activity of this build stands for; ``None``: it is no step."""
        own = step_of(activity).partition("/")[2]
        name = f"{self.derived.assembly.build}/{own}"
        return self.derived.work.step(name) if self.derived.work.has(name) else None


def _not_begun(made_from: OrderedPattern, derived: Derived, file: Path) -> BuildToPlan:
    order = made_from.order
    in_hand = BuildInHand(
        id=order.id,
        title=made_from.title,
        work=derived.work,
        relations=derived.relations,
        workplace=Workplace(shop=derived.shop, shelf=derived.shelf),
        order=derived.order,
        due_at=order.due_at,
        ready_at=order.ready_at,
        weight=order.weight,
        assembly=derived.assembly,
        wearer=order.wearer,
        after=order.after,
    )
    origin = ordered_origin(str(file.resolve()), order.id)
    return BuildToPlan(in_hand=in_hand, derived=derived, origin=origin)


def read_order(order: Order, base: Path, shelf: Shelf) -> OrderedPattern:
    """Return what an order is made from.

    Args:
        order: of a shop file.
        base: the folder of that file.
        shelf: the catalogues.

    Raises:
        UnreadableError: the pattern cannot be read.
        ArmorplanError: it has no such option, choice or colour.
    """
    folder = order_folder(base, order.pattern)
    source = as_ordered(read_folder(folder), order)
    return OrderedPattern(
        order=order, source=source, pattern=read_checked(source, shelf), folder=folder
    )


def derive_orders(
    orders: tuple[Order, ...], file: Path, shelf: Shelf, shop: Shop
) -> tuple[tuple[BuildToPlan, ...], tuple[Finding, ...]]:
    """Return what follows from each order, and of those that cannot be made why.

    Args:
        orders: of a shop file.
        file: the shop file.
        shelf: what they are made from.
        shop: where.
    """
    found, told = list[BuildToPlan](), list[Finding]()
    alike: dict[tuple[tuple[str, bytes], ...], Derived] = {}
    for order in orders:
        try:
            made_from = read_order(order, file.parent, shelf)
            files = made_from.source.files
            if files not in alike:
                alike[files] = derive_build(made_from.pattern, shelf, shop, build=order.id)
            if not alike[files].order:
                raise FaultyPatternError(alike[files].findings)
        except ArmorplanError as error:
            told.append(not_made(order, error))
        else:
            found.append(_not_begun(made_from, alike[files], file))
    return tuple(found), tuple(told)


def not_made(order: Order, error: ArmorplanError) -> Finding:
    """Return why an order is not planned, by the first of what was found."""
    first = error.findings[0] if isinstance(error, UnreadableError) and error.findings else None
    why = first.text if first else str(error)
    mend = first.remedy if first else ""
    return Finding(
        code="order-not-planned",
        severity=Severity.ERROR,
        text=f"The build '{order.id}' is not planned: its pattern {order.pattern} cannot be made. "
        f"{why}",
        remedy=f"{mend} 'armorplan check {order.pattern}' tells all.".strip(),
        about=(order.id,),
        place=first.place if first else None,
    )
