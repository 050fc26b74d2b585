"""From an assembly to its steps, in the pattern's order; their order comes from the relations."""

from collections.abc import Iterator
from math import isinf

from armorplan.assembly.model import Assembly
from armorplan.drying.windows import drying_factor
from armorplan.kernel.findings import Finding, Severity
from armorplan.steps.flat_work import cutting_steps, paper_steps, strap_steps
from armorplan.steps.joining import closing_steps, fitting_steps, setting_steps, threading_steps
from armorplan.steps.model import Step, Work
from armorplan.steps.scene import Group, Scene
from armorplan.steps.wet_work import forming_steps, tooling_steps, treatment_steps
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Climate


def _steps(scene: Scene) -> Iterator[Step]:
    for piece, side, parts in scene.groups():
        group = Group(scene=scene, piece=piece, side=side)
        yield from paper_steps(group, parts)
        yield from cutting_steps(group, parts)
        yield from tooling_steps(group, parts)
        yield from forming_steps(group)
        yield from treatment_steps(group)
        yield from strap_steps(group, parts)
        yield from threading_steps(group)
        yield from fitting_steps(group, parts)
        yield from setting_steps(group)
        yield from closing_steps(group, parts)


def derive_steps(assembly: Assembly, shelf: Shelf, climate: Climate | None = None) -> Work:
    """Return all steps of a build with minutes for this shop's air (23 °C, 50 % by default)."""
    scene = Scene(assembly=assembly, shelf=shelf, climate=climate or Climate())
    return Work(steps=tuple(_steps(scene)))


def air_findings(work: Work, shelf: Shelf, climate: Climate) -> tuple[Finding, ...]:
    """Return a finding for each treatment that will not dry in this air."""
    used = sorted({s.treatment for s in work.steps if s.treatment and not s.attended})
    entries = [entry for name in used if (entry := shelf.treatment(name))]
    return tuple(
        Finding(
            code="will-not-dry",
            severity=Severity.ERROR,
            text=f"{entry.name} will not dry at {climate.temperature_c:g} °C and "
            f"{climate.humidity_pct:g} % humidity.",
            remedy="Warm or dry the room; the plan shows the catalogue's time meanwhile.",
            about=(entry.id,),
        )
        for entry in entries
        if isinf(drying_factor(entry.carrier, climate))
    )
