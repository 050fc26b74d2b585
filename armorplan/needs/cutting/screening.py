"""What a laser must not cut, and the usual cautions of cutting."""

from collections.abc import Iterable, Iterator

from armorplan.kernel.findings import Finding, Severity
from armorplan.needs.cutting.model import Cutter
from armorplan.workshop.shelf import Leather

VEGETABLE = "vegetable"
_CUTTING = "Cut away from the holding hand, and keep that hand behind the blade."
_MACHINE = (
    "The machine's handbook, local codes and any licence they ask for rule over these notes."
)
_LASER = (
    (
        "Laser only leather that is known to be vegetable tanned. Never vinyl or PVC: its smoke holds "
        "hydrogen chloride, which harms lungs and eyes and eats the machine."
    ),
    (
        "Never chrome-tanned leather: its smoke and ash may hold chromium(VI). The EU allows less than 3 "
        "mg/kg of it in leather (REACH, Annex XVII, entry 47)."
    ),
    "Leather with a coating that nobody can name counts as plastic. If in doubt, use the knife.",
    "Run the extraction, lead it outdoors or through a filter for it, and keep the lid shut.",
    (
        "Stay beside the machine as long as it runs and some minutes after, with an extinguisher within "
        "reach: leather goes on glowing at its edges."
    ),
)
_TABLE = ("Keep hands off the bed while the knife moves, and know where its stop is.",)
_WHY = {
    "chrome": "is chrome tanned: its smoke and ash may hold chromium(VI)",
    "coated": "has a plastic face: nobody can say what its smoke holds",
    "plastic": "is vinyl or PVC: its smoke holds hydrogen chloride",
}


def may_be_lasered(leather: Leather | None) -> bool:
    """Tell whether a leather is known to be vegetable tanned."""
    return leather is not None and leather.tanning == VEGETABLE


def cutting_cautions(cutter: Cutter) -> tuple[str, ...]:
    """Return the usual cautions of cutting so, each a sentence."""
    if cutter is Cutter.LASER:
        return (*_LASER, _MACHINE)
    return (*_TABLE, _MACHINE) if cutter is Cutter.KNIFE_TABLE else (_CUTTING,)


def laser_findings(leathers: Iterable[tuple[str, Leather | None]]) -> Iterator[Finding]:
    """Yield which leathers are not cut with a laser, and why.

    Args:
        leathers: ids, with what the catalogue says of each.
    """
    unknown: dict[str, str] = {}
    for leather_id, leather in leathers:
        why = _WHY.get(leather.tanning if leather else "")
        name = leather.name if leather else leather_id
        if why:
            yield Finding(
                code="not-for-the-laser",
                severity=Severity.ERROR,
                text=f"{name} {why}. It is left out of what the laser cuts.",
                remedy="Cut it with the knife, or on a knife table.",
                about=(leather_id,),
            )
        elif not may_be_lasered(leather):
            unknown[leather_id] = name
    if unknown:
        yield Finding(
            code="tanning-not-known",
            severity=Severity.WARNING,
            text="How these are tanned, or what they are made of, is not known, so the laser does not "
            f"cut them: {'; '.join(unknown.values())}.",
            remedy="Ask who sold them. What is vegetable tanned is said so in your own leathers.toml, "
            f'[{next(iter(unknown))}] tanning = "vegetable"; the rest is cut with the knife.',
            about=tuple(unknown),
        )
