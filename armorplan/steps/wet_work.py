"""Steps with damp leather: casing, tooling, forming, wet folds, hardening, and their drying."""

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from armorplan.assembly.model import SidedForm
from armorplan.pattern.joining import FormKind, Route
from armorplan.steps.drying_step import case_drying, drying_step
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import kind_slug, names, part_name
from armorplan.steps.scene import Group
from armorplan.workshop.shelf import TreatmentEntry, TreatmentKind

DAMP_ROUTES = frozenset((Route.DAMP, Route.HARDENED, Route.WET_FOLD))
"""Routes that shape the leather within its damp window and dry it in that shape."""


def first_entry(group: Group, kind: TreatmentKind) -> TreatmentEntry | None:
    """Return the shelf's first treatment of a kind, or ``None`` where the shelf has none."""
    return next((e for e in group.scene.shelf.treatments if e.kind is kind), None)


def _case(group: Group, served: Step, entry: TreatmentEntry) -> Step:
    scene, parts, subject = group.scene, served.parts, served.id.rsplit("/", 1)[-1]
    minutes = ceil(entry.set_up_min + entry.per_part_min * scene.count(parts))
    return Step(
        id=group.id(StepKind.CASE, f"{subject}.{kind_slug(served.kind)}"),
        kind=StepKind.CASE,
        piece=group.piece,
        side=group.side,
        title=f"Case {names(scene.assembly, parts)} for {kind_slug(served.kind)}ing",
        tray=group.tray(f"{StepKind.CASE}:{served.kind}"),
        parts=parts,
        minutes=scene.rounded(StepKind.CASE, minutes),
        serves=served.id,
        treatment=entry.id,
        batch_key=entry.id,
        detail="Damp through, then wait until the colour comes back.",
        cautions=entry.cautions,
        drying=case_drying(group, parts, entry),
    )


def tooling_steps(group: Group) -> Iterator[Step]:
    """Yield casing and tooling of each tooled part; drying only where no damp form follows."""
    entry, scene = first_entry(group, TreatmentKind.CASING), group.scene
    damp = {p for f in scene.assembly.forms if f.form.route in DAMP_ROUTES for p in f.parts}
    for part_id in group.parts:
        tooling = scene.assembly.part(part_id).part.tooling
        if entry is None or not tooling:
            continue
        tool = group.hand_step(
            StepKind.TOOL,
            part_id,
            f"Tool {_the(tooling)} into {part_name(scene.assembly, part_id)}",
            parts=(part_id,),
            minutes=scene.reckon(
                StepKind.TOOL, parts=scene.count((part_id,)), cm=scene.edge_cm((part_id,))
            ),
        )
        yield _case(group, tool, entry)
        yield tool
        if part_id not in damp:
            yield drying_step(group, tool, entry)


def _the(tooling: str) -> str:
    """Return what is tooled with an article, unless it comes with one."""
    return tooling if tooling.startswith(("a ", "an ", "the ")) else f"the {tooling}"


def _form_words(group: Group, sided: SidedForm) -> str:
    form = sided.form
    held = {hardware.part for hardware in group.scene.assembly.hardware}
    bits = [f"radius {form.radius_mm:g} mm"] if form.radius_mm is not None else []
    bits += [f"{form.angle_deg:g}°"] if form.angle_deg is not None else []
    bits += ["held in the fold until dry"] if form.route is Route.WET_FOLD else []
    if form.kind is FormKind.FOLD and form.route is Route.DRY and held.intersection(sided.parts):
        bits += ["pinned through its holes until it is fastened"]
    return ", ".join(bits)


def _form(group: Group, sided: SidedForm) -> Step:
    kind = StepKind.FORM if sided.form.route in DAMP_ROUTES else StepKind.FORM_DRY
    who = names(group.scene.assembly, sided.parts)
    return group.hand_step(
        kind,
        sided.id,
        f"{sided.form.kind.capitalize()} {who} "
        f"{'while damp' if kind is StepKind.FORM else 'by hand'}",
        parts=sided.parts,
        minutes=group.scene.reckon(kind, parts=group.scene.count(sided.parts)),
        detail=_form_words(group, sided),
    )


def _hardener(group: Group, sided: SidedForm) -> TreatmentEntry | None:
    """Return the hardening a form names, else the shelf's first that goes on before dye."""
    shelf = group.scene.shelf
    if sided.form.hardening is not None:
        return shelf.treatment(sided.form.hardening)
    kinds = (e for e in shelf.treatments if e.kind is TreatmentKind.HARDENER and not e.after_dye)
    return next(kinds, None)


def _my_forms(group: Group) -> Iterator[SidedForm]:
    for sided in group.scene.assembly.forms:
        if (sided.piece, sided.side) == (group.piece, group.side):
            yield sided


def forming_steps(group: Group) -> Iterator[Step]:
    """Yield damp forms with casing, drying and hardening, and curving by hand for dry forms."""
    entry = first_entry(group, TreatmentKind.CASING)
    for sided in _my_forms(group):
        route = sided.form.route
        if route is Route.BY_SEAM or (route in DAMP_ROUTES and entry is None):
            continue
        form = _form(group, sided)
        if form.kind is StepKind.FORM and entry is not None:
            yield _case(group, form, entry)
            yield form
            yield drying_step(group, form, entry)
        else:
            yield form
        yield from _hardening(group, sided, after_dye=False)


def late_hardening_steps(group: Group) -> Iterator[Step]:
    """Yield the hardening that goes on after the dye, such as with wax."""
    for sided in _my_forms(group):
        yield from _hardening(group, sided, after_dye=True)


def _hardening(group: Group, sided: SidedForm, *, after_dye: bool) -> Iterator[Step]:
    scene, entry = group.scene, _hardener(group, sided)
    late = entry is not None and entry.after_dye
    if sided.form.route is not Route.HARDENED or late is not after_dye:
        return
    step = group.hand_step(
        StepKind.HARDEN,
        sided.id,
        f"Harden {names(scene.assembly, sided.parts)}",
        parts=sided.parts,
        minutes=scene.reckon(StepKind.HARDEN, parts=scene.count(sided.parts)),
        detail="For good: nothing softens it again. Hold it on its form until it is cold and dry.",
    )
    if entry is None:
        yield step
        return
    step = treated(step, entry)
    yield step
    yield drying_step(group, step, entry)


def treated(step: Step, entry: TreatmentEntry) -> Step:
    """Return a hands-on step as it is done with a treatment: its name, bath and cautions."""
    return replace(
        step,
        treatment=entry.id,
        batch_key=entry.id,
        detail=f"{entry.name}. {step.detail}".strip(),
        cautions=tuple(dict.fromkeys((*step.cautions, *entry.cautions))),
    )
