"""Where the work of a build is done: people and hours, the air of the room, the treatments."""

from dataclasses import dataclass

from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Workplace:
    """A shop with what stands on its shelf."""

    shop: Shop
    shelf: Shelf
