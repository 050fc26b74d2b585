"""Where the maker stands, from the settings and from what the screen says of itself."""

from PySide6.QtWidgets import QWidget

from armorplan.desktop.bench_type import ScreenFacts, Sight
from armorplan.desktop.settings import (
    BENCH_DIAGONAL_MM,
    BENCH_DISTANCE_CM,
    BENCH_TEXT_PCT,
    Settings,
)

CM_MM = 10.0


def screen_facts(widget: QWidget, settings: Settings) -> ScreenFacts:
    """Return what is known of the screen that a widget is on."""
    screen = widget.screen()
    size, real = screen.geometry(), screen.physicalSize()
    return ScreenFacts(
        wide_px=size.width(),
        high_px=size.height(),
        wide_mm=real.width(),
        high_mm=real.height(),
        own_diagonal_mm=settings.value(BENCH_DIAGONAL_MM),
    )


def sight_of(widget: QWidget, settings: Settings) -> Sight:
    """Return where the maker stands, before which screen, and how much larger it is wanted."""
    return Sight(
        distance_mm=CM_MM * settings.value(BENCH_DISTANCE_CM),
        px_per_mm=screen_facts(widget, settings).px_per_mm,
        pct=settings.value(BENCH_TEXT_PCT),
    )
