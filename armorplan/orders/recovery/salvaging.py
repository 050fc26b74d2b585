"""Which salvages of the shelf are feasible for a mistake, and what each takes, risks and leaves."""

from collections.abc import Collection, Iterator
from dataclasses import replace
from math import inf

from armorplan.orders.recovery.amiss import Amiss
from armorplan.orders.recovery.costs import loss_min
from armorplan.orders.recovery.mistakes import WHICH_WAY, MistakeKind
from armorplan.orders.recovery.model import Cost, Doing, Means
from armorplan.orders.recovery.moves import PCT, Gathered, MoveNote, Told, cost_of, parts_words
from armorplan.orders.recovery.opened_for import with_open
from armorplan.orders.recovery.remaking import anew, held_by
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.unfit import edge_left_mm, unfit
from armorplan.steps.naming import lowered, part_name
from armorplan.workshop.salvages import Salvage


def means_of(salvage: Salvage) -> Means:
    """Return the means a salvage rests on."""
    return Means[salvage.means.replace("-", "_").upper()]


def feasible(scene: RecoveryScene, amiss: Amiss, stands: Collection[str]) -> tuple[Salvage, ...]:
    """Return the salvages of the shelf that may set a mistake right, as they stand there."""
    slug = amiss.mistake.kind.slug
    return tuple(
        salvage
        for salvage in scene.salvages
        if slug in salvage.mends and not unfit(scene, amiss, salvage, stands)
    )


def set_right(
    scene: RecoveryScene, gathered: Gathered, amiss: Amiss, stands: Collection[str]
) -> None:
    """Gather the moves that set a mistake right: each feasible salvage, and the part made anew."""
    gathered.goal.add(amiss.id)
    loss = loss_min(scene, amiss.parts, stands)
    for salvage in feasible(scene, amiss, stands):
        saved = _saved(scene, amiss, salvage, loss)
        inner = salvage_moves(scene, amiss, salvage, stands)
        gathered.add((replace(saved[0], cost=cost_of(inner)), saved[1]), inner)
    if amiss.parts:
        inner = anew(scene, amiss.parts, stands)
        whole = Doing(
            id=f"{amiss.id}:anew",
            does=amiss.id,
            title=inner[0][0].title,
            means=Means.REMAKE,
            cost=cost_of(inner),
        )
        gathered.add((whole, MoveNote()), inner)


def salvage_moves(
    scene: RecoveryScene, amiss: Amiss, salvage: Salvage, stands: Collection[str]
) -> tuple[Told, ...]:
    """Return the moves of a salvage, with all that is opened before it and done again after it."""
    saved = _saved(scene, amiss, salvage, loss_min(scene, amiss.parts, stands))
    return with_open(scene, (saved,), tuple(_open_for(scene, amiss, salvage, stands)), stands)


def _saved(
    scene: RecoveryScene, amiss: Amiss, salvage: Salvage, loss: float
) -> tuple[Doing, MoveNote]:
    doing = Doing(
        id=f"{amiss.id}:{salvage.id}",
        does=amiss.id,
        title=f"{salvage.name}: {_where(scene, amiss)}{_up_to(amiss, salvage)}",
        means=means_of(salvage),
        cost=_cost(amiss, salvage, loss),
        leaves=salvage.leaves,
    )
    detail = f"{salvage.how}{_edge_words(scene, amiss, salvage)}"
    return doing, MoveNote(detail=detail, tool=salvage.tool, cautions=salvage.cautions)


def _edge_words(scene: RecoveryScene, amiss: Amiss, salvage: Salvage) -> str:
    """Say how much leather a slot leaves to the edge."""
    if salvage.means != "oval":
        return ""
    least_mm = min((mm for _, mm in edge_left_mm(scene, amiss)), default=inf)
    return f" To the edge {least_mm:.1f} mm of leather are left." if least_mm < inf else ""


def _up_to(amiss: Amiss, salvage: Salvage) -> str:
    """Say for what of that which nobody said a salvage is good: how large, which way, which colour."""
    mistake, bits = amiss.mistake, list[str]()
    if not amiss.mm and salvage.most_mm is not None:
        bits.append(f"{salvage.most_mm:g} mm at most")
    ways = WHICH_WAY.get(mistake.kind, {})
    known = [ways[way] for way in salvage.ways if way in ways]
    if known and not mistake.way:
        bits.append(" or ".join(known))
    if mistake.kind is MistakeKind.WRONG_COLOUR and mistake.darker is None and salvage.colour:
        bits.append(f"{salvage.colour} than it is to be")
    return f", if it is {' and '.join(bits)}" if bits else ""


def _open_for(
    scene: RecoveryScene, amiss: Amiss, salvage: Salvage, stands: Collection[str]
) -> Iterator[str]:
    if salvage.holes_open:
        for joint in amiss.joints:
            step = scene.facts.work.setting(joint.id)
            if step and step.id in stands:
                yield step.id
    if salvage.part_open:
        for part in amiss.parts:
            yield from (step.id for step in held_by(scene, part, stands))


def _cost(amiss: Amiss, salvage: Salvage, loss: float) -> Cost:
    holes, parts = len(amiss.holes), len(amiss.parts)
    # Each spoilt part has a spot of its own: what is done once is done to each, and each may fail.
    spots = parts if amiss.mistake.kind is MistakeKind.SPOILT else 1
    used: dict[str, int] = {}
    for what in (*(salvage.hardware * spots), *(salvage.hole_hardware * holes)):
        used[what] = used.get(what, 0) + 1
    once_min = salvage.minutes * spots
    return Cost(
        minutes=once_min + salvage.per_hole_min * holes + salvage.per_part_min * parts,
        wait_min=salvage.wait_min,
        risk_pct=PCT * (1 - (1 - salvage.risk_pct / PCT) ** spots),
        loss_min=loss,
        hardware=tuple(sorted(used.items())),
    )


def _where(scene: RecoveryScene, amiss: Amiss) -> str:
    names = parts_words(lowered(part_name(scene.facts.assembly, part)) for part in amiss.parts)
    if len(amiss.holes) > 1:
        return f"{len(amiss.holes)} holes of {names}{_row(scene, amiss)}"
    return f"the hole of {names}{_row(scene, amiss)}" if amiss.holes else names


def _row(scene: RecoveryScene, amiss: Amiss) -> str:
    """Say at which joint a hole lies, or in which row: ``, left row, 3 of 7``."""
    steps = [step for j in amiss.joints if (step := scene.facts.work.setting(j.id))]
    if not steps:
        return f" '{amiss.holes[0][1]}'" if len(amiss.holes) == 1 else ""
    where = lowered(steps[0].title.partition(" ")[2])
    return f" ({where if len(amiss.holes) == 1 else where.rpartition(',')[0] or where})"


def told_of(scene: RecoveryScene, amiss: Amiss) -> str:
    """Return a mistake as a sentence, with how far it is taken to be out."""
    kind, where = amiss.mistake.kind, _where(scene, amiss)
    way = WHICH_WAY.get(kind, {}).get(amiss.mistake.way, "")
    way = f" {way}" if kind is MistakeKind.SPOILT and way else f", {way}" if way else ""
    are = "are" if len(amiss.holes) > 1 else "is"
    said = {
        MistakeKind.TWO_ALIKE: f"{where.capitalize()} was made for the wrong hand.",
        MistakeKind.WRONG_COLOUR: f"{where.capitalize()} has the wrong colour.",
        MistakeKind.SPOILT: f"{where.capitalize()} is spoilt{way}.",
        MistakeKind.WRONG_HOLE: f"{where.capitalize()} {are} out by {amiss.mm:g} mm{way}.",
        MistakeKind.ROW_OFF: f"A row is out by {amiss.mm:g} mm{way}: {where}.",
    }[kind]
    if amiss.holes and not amiss.mistake.mm:
        said += " How far was not said: it is taken as that."
    return said
