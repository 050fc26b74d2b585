"""Steps with wet leather: casing, tooling, damp forming, dye, oil, finish, and their drying."""

from collections.abc import Iterator
from math import ceil

from armorplan.assembly.model import SidedTreatment
from armorplan.drying.windows import handle_min, touch_min
from armorplan.pattern.joining import Form, Route
from armorplan.steps.drying_step import drying_step
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import kind_slug, names, part_name, with_side
from armorplan.steps.scene import Group
from armorplan.workshop.shelf import TreatmentEntry, TreatmentKind

_COAT_KIND = {
    TreatmentKind.DYE: StepKind.DYE,
    TreatmentKind.OIL: StepKind.OIL,
    TreatmentKind.FINISH: StepKind.FINISH,
}


def casing_entry(group: Group) -> TreatmentEntry | None:
    """Return the shelf's casing treatment, or ``None`` where the shelf has none."""
    kinds = (e for e in group.scene.shelf.treatments if e.kind is TreatmentKind.CASING)
    return next(kinds, None)


def _case(group: Group, served: Step, entry: TreatmentEntry) -> Step:
    parts, subject = served.parts, served.id.rsplit("/", 1)[-1]
    return Step(
        id=group.id(StepKind.CASE, f"{subject}.{kind_slug(served.kind)}"),
        kind=StepKind.CASE,
        piece=group.piece,
        side=group.side,
        title=f"Case {names(group.scene.assembly, parts)}",
        tray=group.tray(StepKind.CASE),
        parts=parts,
        minutes=max(1, ceil(entry.set_up_min + entry.per_part_min * len(parts))),
        serves=served.id,
        treatment=entry.id,
        batch_key=entry.id,
        detail="Damp through, then wait until the colour comes back.",
        cautions=entry.cautions,
    )


def tooling_steps(group: Group, parts: tuple[str, ...]) -> Iterator[Step]:
    """Yield casing and tooling of each tooled part; drying only where no damp form follows."""
    entry, scene = casing_entry(group), group.scene
    damp = {p for f in scene.assembly.forms if f.form.route is Route.DAMP for p in f.parts}
    for part_id in parts:
        tooling = scene.assembly.part(part_id).part.tooling
        if entry is None or not tooling:
            continue
        tool = group.hand_step(
            StepKind.TOOL,
            part_id,
            f"Tool the {tooling} into {part_name(scene.assembly, part_id)}",
            parts=(part_id,),
            minutes=scene.reckon(StepKind.TOOL, parts=1, cm=scene.edge_cm((part_id,))),
        )
        yield _case(group, tool, entry)
        yield tool
        if part_id not in damp:
            yield drying_step(group, tool, entry, handle_min(entry, scene.climate))


def _form_words(form: Form) -> str:
    bits = [f"radius {form.radius_mm:g} mm"] if form.radius_mm is not None else []
    bits += [f"{form.angle_deg:g}°"] if form.angle_deg is not None else []
    return ", ".join(bits)


def forming_steps(group: Group) -> Iterator[Step]:
    """Yield damp forms with casing and drying, and curving by hand for dry forms."""
    entry, scene = casing_entry(group), group.scene
    for sided in scene.assembly.forms:
        if (sided.piece, sided.side) != (group.piece, group.side):
            continue
        route, who = sided.form.route, names(scene.assembly, sided.parts)
        if route is Route.BY_SEAM or (route is Route.DAMP and entry is None):
            continue
        kind = StepKind.FORM if route is Route.DAMP else StepKind.FORM_DRY
        title = f"{sided.form.kind.capitalize()} {who}"
        form = group.hand_step(
            kind,
            sided.id,
            f"{title} while damp" if route is Route.DAMP else f"{title} by hand",
            parts=sided.parts,
            minutes=scene.reckon(kind, parts=len(sided.parts)),
            detail=_form_words(sided.form),
        )
        if route is Route.DAMP and entry is not None:
            yield _case(group, form, entry)
            yield form
            yield drying_step(group, form, entry, handle_min(entry, scene.climate))
        else:
            yield form


def _coat_title(sided: SidedTreatment, entry: TreatmentEntry, coat: int) -> str:
    colour = f", {sided.treatment.colour}" if sided.treatment.colour else ""
    count = f", coat {coat} of {sided.treatment.coats}" if sided.treatment.coats > 1 else ""
    return with_side(f"{entry.name}{colour}{count}", sided.side)


def treatment_steps(group: Group) -> Iterator[Step]:
    """Yield each coat of each treatment of this piece and side, with its drying behind it."""
    scene = group.scene
    for sided in scene.assembly.treatments:
        entry = scene.shelf.treatment(sided.treatment.use)
        mine = (sided.piece, sided.side) == (group.piece, group.side)
        if not mine or entry is None or entry.kind not in _COAT_KIND:
            continue
        kind, count = _COAT_KIND[entry.kind], sided.treatment.coats
        for coat in range(1, count + 1):
            title = _coat_title(sided, entry, coat)
            step = Step(
                id=group.id(kind, f"{sided.id}.coat-{coat}"),
                kind=kind,
                piece=group.piece,
                side=group.side,
                title=f"{title}: {names(scene.assembly, sided.parts)}",
                tray=group.tray(f"{kind}:{sided.id}"),
                parts=sided.parts,
                minutes=max(1, ceil(entry.set_up_min + entry.per_part_min * len(sided.parts))),
                treatment=entry.id,
                coat=coat,
                batch_key=f"{entry.id}|{sided.treatment.colour or ''}|{coat}",
                detail=names(scene.assembly, sided.parts),
                cautions=entry.cautions,
            )
            wait = handle_min if coat == count else touch_min
            yield step
            yield drying_step(group, step, entry, wait(entry, scene.climate))
