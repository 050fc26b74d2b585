"""Which module makes which kind of exercise. Each is imported when it is asked for."""

from importlib import import_module

from armorplan.app.drills.source import DrillMaker
from armorplan.practice.drill import DrillKind

_MODULES: dict[DrillKind, str] = {
    DrillKind.DRY: "dry_drill",
    DrillKind.DAY: "day_drill",
    DrillKind.ORDER: "order_drill",
    DrillKind.NEXT: "next_drill",
    DrillKind.MISTAKE: "mistake_drill",
    DrillKind.WAY_BACK: "way_back_drill",
    DrillKind.FIRST: "first_drill",
    DrillKind.FASTENER: "fastener_drill",
}
"""A module ``armorplan.app.drills.<name>`` with a value ``MAKER`` for each kind."""

KINDS: tuple[DrillKind, ...] = tuple(kind for kind in DrillKind if kind in _MODULES)
"""In the order they are offered."""


def maker_of(kind: DrillKind) -> DrillMaker:
    """Return who makes a kind of exercise."""
    found: DrillMaker = import_module(f"armorplan.app.drills.{_MODULES[kind]}").MAKER
    return found
