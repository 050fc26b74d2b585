"""From an assembly to its steps, in the pattern's order; their order comes from the relations."""

from collections.abc import Iterator

from armorplan.assembly.model import Assembly
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import CheckTime
from armorplan.steps.after_machine import after_machine_steps
from armorplan.steps.flat_work import (
    burnishing_steps,
    cutting_steps,
    laying_steps,
    strap_steps,
)
from armorplan.steps.hardware import mounting_steps
from armorplan.steps.joining import setting_steps, threading_steps
from armorplan.steps.model import Step, Work
from armorplan.steps.numbering import numbering_steps
from armorplan.steps.own_work import own_steps
from armorplan.steps.paper_work import paper_steps
from armorplan.steps.scene import Group, Scene
from armorplan.steps.surface_work import (
    SEALS,
    cleaning_steps,
    masking_steps,
    roughening_steps,
    treatment_steps,
)
from armorplan.steps.trials import check_steps, closing_steps, fitting_steps, packing_steps
from armorplan.steps.wet_work import forming_steps, late_hardening_steps, tooling_steps
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf


def _made(group: Group) -> Iterator[Step]:
    """Yield the work on the parts of a piece, until they are ready to be joined."""
    yield from paper_steps(group)
    yield from check_steps(group, CheckTime.MOCK_UP)
    yield from laying_steps(group)
    yield from cutting_steps(group)
    yield from after_machine_steps(group)
    yield from numbering_steps(group)
    yield from tooling_steps(group)
    yield from forming_steps(group)
    yield from cleaning_steps(group)
    yield from treatment_steps(group)
    yield from late_hardening_steps(group)
    yield from burnishing_steps(group)
    yield from strap_steps(group)


def _joined(group: Group) -> Iterator[Step]:
    """Yield the joining, trying on and packing of a piece or a harness."""
    yield from masking_steps(group)
    yield from roughening_steps(group)
    yield from mounting_steps(group)
    yield from threading_steps(group)
    yield from fitting_steps(group)
    yield from check_steps(group, CheckTime.DRY_FIT)
    yield from setting_steps(group)
    yield from own_steps(group)
    yield from closing_steps(group)
    yield from packing_steps(group)


def _steps(scene: Scene) -> Iterator[Step]:
    """Yield all steps of kinds that the catalogues know, each with its drying.

    A build keeps the catalogues it was started with. Kinds of work that came later are not in
    them, so it goes on with the work it had.
    """
    left_out: set[str | None] = set()
    for group in scene.groups():
        made = () if group.is_harness else _made(group)
        for step in (*made, *_joined(group)):
            if scene.knows(step.kind) and step.after not in left_out:
                yield step
            else:
                left_out.add(step.id)


def derive_steps(assembly: Assembly, shelf: Shelf, room: Room | None = None) -> Work:
    """Return all steps of a build with minutes for this shop's air (23 °C, 50 % by default)."""
    scene = Scene(assembly=assembly, shelf=shelf, room=room or Room())
    return Work(steps=tuple(_steps(scene)))


def lining_findings(assembly: Assembly, shelf: Shelf) -> tuple[Finding, ...]:
    """Return which linings are oiled or finished along with their piece, as a note."""
    found: dict[str, dict[str, None]] = {}
    for sided in assembly.treatments:
        entry = shelf.treatment(sided.treatment.use)
        for part_id in sided.parts if entry and entry.kind in SEALS else ():
            part = assembly.part(part_id).part
            if entry and part.kind is PartKind.LINING:
                found.setdefault(part.id, {})[entry.name] = None
    return tuple(
        Finding(
            code="lining-treated",
            severity=Severity.NOTE,
            text=f"The lining '{assembly.pattern.part(part).name}' gets {' and '.join(uses)} too: soft "
            "leather drinks it and stiffens, and its glue faces have to be masked.",
            remedy="Name the parts in the treatment, without the lining, to leave it out.",
            about=(part,),
        )
        for part, uses in found.items()
    )
