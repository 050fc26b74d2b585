"""What names a build in the world, so that no other shop's or season's calendar means it.

A build that a shop file orders goes by the file and its key there, before and after it is begun.
One begun at the bench goes by its pattern and the instant at which that was.
"""

from collections.abc import Callable
from pathlib import Path

from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.builds import BuildRecord


def ordered_origin(source: str, key: str) -> str:
    """Return what names the build that a shop file orders under this key."""
    return f"{source} {key}"


def pattern_origin(uuid: str, folder: Path) -> str:
    """Return what names the build that a pattern is planned for before any is begun."""
    return f"{uuid} {folder.resolve()}"


def build_origin(order: BuildOrder | None, record: Callable[[], BuildRecord]) -> str:
    """Return what names a build of a workshop.

    Args:
        order: what was agreed about it.
        record: reads the build; asked where no shop file orders it.
    """
    if order is not None and order.source and order.key:
        return ordered_origin(order.source, order.key)
    known = record()
    return f"{known.pattern_uuid} {known.id} {known.created_at.isoformat()}"
