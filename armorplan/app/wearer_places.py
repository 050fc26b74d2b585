"""Where straps close on a wearer: round what in the new size, and whether that is the limb's girth."""

from collections.abc import Callable, Iterator

from armorplan.app.wearer_model import SizedPlace
from armorplan.geometry.sizing.model import Wanted, WantedBy
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.wearing import StrapPlace

GirthsOf = Callable[[str], WantedBy]
"""From a strap to the measures of the limb it goes round: left and right may differ."""


def sized_places(pattern: Pattern, girths: GirthsOf) -> Iterator[SizedPlace]:
    """Yield strap places whose strap follows a girth: its middle does, its holes reach as far."""
    for place, _, girth in _followed(pattern, girths):
        by_mm = sum(place.girth_mm) / 2 * (girth.ratio - 1.0)
        least, most = (float(round(mm + by_mm)) for mm in place.girth_mm)
        yield SizedPlace(
            id=place.id, name=place.name, before_mm=place.girth_mm, after_mm=(least, most)
        )


def closing_findings(
    pattern: Pattern, girths: GirthsOf, called: Callable[[str], str]
) -> Iterator[Finding]:
    """Yield straps that did not close round the girth they follow, so that no other size does.

    Args:
        pattern: as it was drawn.
        girths: what was drawn for and is wanted, of each strap.
        called: from a measure's id to its name.
    """
    for place, measure, girth in _followed(pattern, girths):
        least, most = place.girth_mm
        if least <= girth.drawn_mm <= most:
            continue
        yield Finding(
            code="strap-closes-elsewhere",
            severity=Severity.WARNING,
            text=f"{place.name} is drawn to close round {least:.0f} to {most:.0f} mm, and follows the "
            f"{called(measure).lower()}, drawn for {girth.drawn_mm:.0f} mm. If it lies there, it does not "
            f"close on this wearer's {girth.wanted_mm:.0f} mm.",
            remedy="Say what the pattern was truly drawn for, let the strap follow the girth it lies at, or make "
            "it longer or shorter.",
            about=(place.strap,),
        )


def _followed(pattern: Pattern, girths: GirthsOf) -> Iterator[tuple[StrapPlace, str, Wanted]]:
    """Yield the places of straps that follow a girth which was taken, with that."""
    around = {part: s.around for s in pattern.scalings for part in s.parts if s.around}
    for place in pattern.strap_places:
        measure = around.get(place.strap)
        girth = girths(place.strap).get(measure) if measure else None
        if measure and girth is not None:
            yield place, measure, girth
