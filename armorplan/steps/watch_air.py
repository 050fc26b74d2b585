"""A dipped coat that is dry to the touch before it has dripped: no turning helps it any more."""

from collections.abc import Iterator

from armorplan.drying.body import Body
from armorplan.drying.spans import Stage
from armorplan.kernel.findings import Finding, Severity
from armorplan.steps.model import StepKind
from armorplan.steps.usual_air import STARTS, Airing, hours_words
from armorplan.workshop.shelf import TreatmentEntry


def dry_before_turned(airing: Airing) -> Iterator[Finding]:
    """Tell which dipped coats this air dries to the touch while they drip, and at which hours."""
    for entry, body in _watched(airing):
        touches = {
            hour: touch
            for hour in STARTS
            if (touch := airing.times(entry, body, hour).likely_min(Stage.TOUCH)) is not None
            and touch <= entry.drip_min
        }
        if touches:
            dipped = "" if airing.is_steady else f" dipped {hours_words(sorted(touches), STARTS)},"
            yield Finding(
                code="dry-before-turned",
                severity=Severity.WARNING,
                text=f"{entry.name},{dipped} is dry to the touch after {min(touches.values())} min, "
                f"and drips for {entry.drip_min} min: turned and wiped after that it streaks.",
                remedy="Wipe it on, or dip in cooler, stiller air.",
                about=(entry.id,),
            )


def _watched(airing: Airing) -> list[tuple[TreatmentEntry, Body]]:
    """Return each treatment whose dipped coats are turned and wiped, with what dries of it."""
    found: dict[str, tuple[TreatmentEntry, Body]] = {}
    for watch in airing.work.of_kind(StepKind.WATCH):
        entry = airing.shelf.treatment(watch.treatment or "")
        dry = airing.work.drying_of(watch.after or "")
        if entry is not None and dry is not None and dry.drying is not None:
            found.setdefault(entry.id, (entry, dry.drying.body))
    return [found[name] for name in sorted(found)]
