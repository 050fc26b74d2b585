"""The cut list of a build: leathers, parts, lengths, minutes, beds, and what a kerf does to holes."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from math import ceil, pi

from armorplan.assembly.model import SidedPart
from armorplan.geometry.areas import outline_dm2, ring_length_mm
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.units import MM2_PER_DM2
from armorplan.needs.cutting.blanks import CutScene, Openings, blanks_of, laid, openings
from armorplan.needs.cutting.minutes import hand_min, machine_min, set_up_min
from armorplan.needs.cutting.model import (
    Bed,
    CutAsked,
    CutLeather,
    CutList,
    CutPart,
    Cutter,
    FilledBed,
    KerfHole,
    Laid,
)
from armorplan.needs.cutting.packing import Packing, Spot, packed
from armorplan.needs.cutting.screening import cutting_cautions, laser_findings, may_be_lasered
from armorplan.needs.leather import leather_needs
from armorplan.needs.model import LeatherNeed

_DECIMALS = 6


def cut_list(cut: CutScene, asked: CutAsked) -> CutList:
    """Return the cut list of a build.

    Args:
        cut: the build with its shelf.
        asked: what cuts, on which bed, with which kerf.
    """
    leathers = tuple(
        _leather(cut, asked, need) for need in leather_needs(cut.scene.assembly, cut.scene.shelf)
    )
    return CutList(
        pattern=cut.scene.assembly.pattern.name,
        asked=asked,
        leathers=leathers,
        cautions=cutting_cautions(asked.cutter),
        findings=tuple(_findings(cut, asked, leathers)),
    )


def _leather(cut: CutScene, asked: CutAsked, need: LeatherNeed) -> CutLeather:
    sided = _parts_of(cut, need)
    parts = tuple(_part(cut, group) for group in _grouped(sided))
    is_lasered = may_be_lasered(cut.scene.shelf.leather(need.leather))
    is_laid = asked.bed is not None and (asked.cutter is not Cutter.LASER or is_lasered)
    packing = (
        _packing(sided, asked.bed) if asked.bed and is_laid else Packing(beds=(), too_large=())
    )
    beds = tuple(_beds(cut, packing, asked.bed)) if asked.bed else ()
    machine = sum(part.machine_min for part in parts) + set_up_min(cut.scene) * max(len(beds), 1)
    return CutLeather(
        leather=need.leather,
        name=need.name,
        least_mm=need.least_mm,
        thickness_mm=need.thickness_mm,
        may_be_lasered=is_lasered,
        parts=parts,
        pieces=need.parts,
        cut_mm=sum(part.cut_mm * part.pieces for part in parts),
        net_dm2=need.net_dm2,
        yield_pct=need.yield_pct,
        buy_dm2=need.buy_dm2,
        buy_ft2=need.buy_ft2,
        hide=need.hide,
        hand_min=_whole(sum(part.hand_min for part in parts)),
        machine_min=_whole(machine),
        beds=beds,
        too_large=tuple(
            dict.fromkeys(cut.scene.assembly.part(one.part).part.name for one in packing.too_large)
        ),
        holes=_kerf_holes(cut, sided, asked.kerf_mm) if asked.kerf_mm else (),
    )


def _whole(minutes: float) -> int:
    return max(1, ceil(round(minutes, _DECIMALS)))


def _parts_of(cut: CutScene, need: LeatherNeed) -> list[SidedPart]:
    """Return the parts cut of one leather in one thickness."""
    materials = {material.id: material for material in cut.scene.assembly.pattern.materials}

    def is_of(sided: SidedPart) -> bool:
        made = materials[sided.part.material]
        mine = (made.leather, made.least_mm, made.thickness_mm)
        return mine == (need.leather, need.least_mm, need.thickness_mm)

    return [sided for sided in cut.scene.assembly.parts if is_of(sided)]


def _grouped(sided: Iterable[SidedPart]) -> Iterator[list[SidedPart]]:
    """Yield the sides of each part together, in the pattern's order."""
    found: dict[str, list[SidedPart]] = {}
    for one in sided:
        found.setdefault(one.part.id, []).append(one)
    yield from found.values()


def _part(cut: CutScene, group: Sequence[SidedPart]) -> CutPart:
    """Return a part with all its sides; what is cut inside one is told of the side with the most."""
    part, blank = group[0].part, next(blanks_of(group[0]))
    found = [openings(cut, one) for one in group]
    most = max(found, key=lambda inside: inside.punched)
    outline_mm = ring_length_mm(part.outline)
    return CutPart(
        part=part.id,
        name=part.name,
        sides=tuple(one.side.value for one in group),
        pieces=sum(one.part.count for one in group),
        size_mm=blank.size_mm,
        area_dm2=outline_dm2(part),
        outline_mm=outline_mm,
        holes=len(most.holes),
        holes_mm=_holes_mm(most),
        slots=len(most.slots),
        slots_mm=_slots_mm(most),
        after_shaping=most.after_shaping,
        on_wearer=most.on_wearer,
        backbone=blank.fixed,
        hand_min=sum(
            hand_min(cut.scene, one.part, inside.punched)
            for one, inside in zip(group, found, strict=True)
        ),
        machine_min=sum(
            machine_min(cut.scene, one.part, outline_mm + _holes_mm(inside) + _slots_mm(inside))
            for one, inside in zip(group, found, strict=True)
        ),
    )


def _holes_mm(inside: Openings) -> float:
    return sum(pi * hole.diameter_mm for hole in inside.holes)


def _slots_mm(inside: Openings) -> float:
    return sum(map(ring_length_mm, inside.slots))


def _packing(sided: Iterable[SidedPart], bed: Bed) -> Packing:
    return packed([blank for one in sided for blank in blanks_of(one)], bed)


def _beds(cut: CutScene, packing: Packing, bed: Bed) -> Iterator[FilledBed]:
    for number, spots in enumerate(packing.beds, start=1):
        blanks = tuple(_laid(cut, spot) for spot in spots)
        ends = [(b.at_mm[0] + b.size_mm[0], b.at_mm[1] + b.size_mm[1]) for b in blanks]
        net_dm2 = sum(outline_dm2(cut.scene.assembly.part(b.part).part) for b in blanks)
        yield FilledBed(
            number=number,
            blanks=blanks,
            used_mm=(
                max(x for x, _ in ends) + bed.margin_mm,
                max(y for _, y in ends) + bed.margin_mm,
            ),
            filled_pct=100 * net_dm2 * MM2_PER_DM2 / (bed.wide_mm * bed.high_mm),
        )


def _laid(cut: CutScene, spot: Spot) -> Laid:
    return laid(
        cut.scene.assembly.part(spot.blank.part), spot.blank, spot.at_mm, quarter=spot.quarter
    )


def _kerf_holes(cut: CutScene, sided: Iterable[SidedPart], kerf_mm: float) -> tuple[KerfHole, ...]:
    counts = Counter(
        hole.diameter_mm
        for one in sided
        for hole in openings(cut, one).holes
        for _ in range(one.part.count)
    )
    return tuple(
        KerfHole(
            drawn_mm=drawn_mm,
            count=count,
            plain_mm=drawn_mm + kerf_mm,
            path_mm=max(drawn_mm - kerf_mm, 0.0),
        )
        for drawn_mm, count in sorted(counts.items())
    )


def _findings(cut: CutScene, asked: CutAsked, leathers: Sequence[CutLeather]) -> Iterator[Finding]:
    if asked.cutter is Cutter.LASER:
        ids = dict.fromkeys(one.leather for one in leathers)
        yield from laser_findings((each, cut.scene.shelf.leather(each)) for each in ids)
    for one in leathers:
        if one.too_large and asked.bed:
            yield _too_large(one, asked.bed)
        lost = [hole for hole in one.holes if not hole.path_mm]
        if lost:
            yield _no_wider(one, lost, asked.kerf_mm)


def _too_large(one: CutLeather, bed: Bed) -> Finding:
    parts = [part for part in one.parts if part.name in one.too_large]
    sizes = "; ".join(
        f"{part.name}, {part.size_mm[0]:.0f} × {part.size_mm[1]:.0f} mm"
        f"{', along the backbone' if part.backbone else ''}"
        for part in parts
    )
    return Finding(
        code="larger-than-the-bed",
        severity=Severity.WARNING,
        text=f"The bed of {bed.wide_mm:g} × {bed.high_mm:g} mm, {bed.margin_mm:g} mm kept free round "
        f"each blank, does not hold: {sizes}.",
        remedy="Cut these by hand, or name a larger bed.",
        about=tuple(part.part for part in parts),
    )


def _no_wider(one: CutLeather, lost: Iterable[KerfHole], kerf_mm: float) -> Finding:
    sizes = ", ".join(f"{hole.count} of {hole.drawn_mm:g} mm" for hole in lost)
    return Finding(
        code="hole-no-wider-than-kerf",
        severity=Severity.WARNING,
        text=f"A kerf of {kerf_mm:g} mm is as wide as holes in {one.name}: {sizes}. They are left out.",
        remedy="Punch them, or check the kerf: a laser takes some 0.1 to 0.5 mm.",
        about=(one.leather,),
    )
