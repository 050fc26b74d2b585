"""Dye, oil, finish, casing, cleaner, hardener: wiped on and dipped, side by side."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from armorplan.assembly.model import Assembly, SidedPart
from armorplan.geometry.areas import outline_dm2, rectangle_mm
from armorplan.kernel.units import ML_PER_LITRE
from armorplan.needs.lying import formed_heights
from armorplan.needs.measures import priced
from armorplan.needs.model import LiquidNeed, WayNeed
from armorplan.pattern.joining import Applying
from armorplan.pattern.parts import Part
from armorplan.steps.model import StepKind, Work
from armorplan.steps.naming import part_name
from armorplan.steps.wetted import FACES
from armorplan.workshop.shelf import Carrier, Shelf, TreatmentEntry, TreatmentKind
from armorplan.workshop.shop import Tray

OVER_PART_MM = 10.0
"""Liquid over the thickest part in the tray (common practice, no source)."""
_ML_PER_MM3 = 1e-3
_FROM_STEPS = (StepKind.CASE, StepKind.CLEAN, StepKind.HARDEN)
"""Work that the pattern does not write down as a treatment."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Use:
    """One treatment in one colour on a part, in coats."""

    treatment: str
    colour: str
    part: str
    coats: int
    says: Applying | None


def _uses(assembly: Assembly, work: Work) -> Iterator[_Use]:
    for step in work.of_kind(*_FROM_STEPS):
        for part in step.parts if step.treatment else ():
            yield _Use(treatment=step.treatment or "", colour="", part=part, coats=1, says=None)
    for sided in assembly.treatments:
        one = sided.treatment
        for part in sided.parts:
            yield _Use(
                treatment=one.use,
                colour=one.colour or "",
                part=part,
                coats=one.coats,
                says=one.applying,
            )


def liquid_needs(
    assembly: Assembly, work: Work, shelf: Shelf, tray: Tray
) -> tuple[LiquidNeed, ...]:
    """Return one row for each treatment and colour, over all pieces and both sides."""
    groups: dict[tuple[str, str], list[_Use]] = {}
    for use in _uses(assembly, work):
        groups.setdefault((use.treatment, use.colour), []).append(use)
    heights = formed_heights(assembly)
    parts = {sided.part.id: sided.part for sided in assembly.parts}
    areas = {name: outline_dm2(part) for name, part in parts.items()}
    too_large = frozenset(name for name, part in parts.items() if not _lies_in(part, tray))
    found = []
    for (treatment, _), uses in groups.items():
        entry = shelf.treatment(treatment)
        if entry is not None:
            lying = {} if entry.kind is TreatmentKind.CASING else heights
            found.append(_need(_Bath(assembly, entry, tuple(uses), tray, lying, areas, too_large)))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Bath:
    """All that goes through one bath, with the tray and how parts lie in it.

    ``heights`` are those of formed sided parts, ``areas`` of parts in dm², ``too_large`` the parts
    larger than the tray.
    """

    assembly: Assembly
    entry: TreatmentEntry
    uses: tuple[_Use, ...]
    tray: Tray
    heights: dict[str, float | None]
    areas: dict[str, float]
    too_large: frozenset[str]

    @property
    def parts(self) -> tuple[SidedPart, ...]:
        return tuple(self.assembly.part(p) for p in dict.fromkeys(use.part for use in self.uses))

    @property
    def coats_by_part(self) -> dict[str, int]:
        coats: dict[str, int] = {}
        for use in self.uses:
            coats[use.part] = coats.get(use.part, 0) + use.coats
        return coats

    @property
    def coated_dm2(self) -> float:
        """One face of all parts, each as often as it gets a coat."""
        coats = self.coats_by_part
        return sum(self.areas[s.part.id] * s.part.count * coats[s.id] for s in self.parts)

    @property
    def handlings(self) -> int:
        """How often a part is taken up for a coat."""
        coats = self.coats_by_part
        return sum(sided.part.count * coats[sided.id] for sided in self.parts)

    def uptake_ml(self, per_dm2: float, faces: int = 1) -> float | None:
        return self.coated_dm2 * faces * per_dm2 if per_dm2 else None

    def minutes(self, per_part_min: float | None) -> int | None:
        if per_part_min is None:
            return None
        coats = max(self.coats_by_part.values())
        return ceil(self.entry.set_up_min * coats + per_part_min * self.handlings)

    @property
    def lying_mm(self) -> float:
        return max(self.heights.get(s.id) or s.part.thickness_mm for s in self.parts)

    @property
    def fill_mm(self) -> float:
        return self.lying_mm + OVER_PART_MM

    def way(
        self, applying: Applying, uptake_ml: float | None, fill_ml: float, minutes: int | None
    ) -> WayNeed:
        ready_ml = None if uptake_ml is None else uptake_ml + fill_ml
        litres = None if ready_ml is None else ready_ml / ML_PER_LITRE
        return WayNeed(
            applying=applying,
            uptake_ml=uptake_ml,
            fill_ml=fill_ml,
            ready_ml=ready_ml,
            minutes=minutes,
            cost=priced(litres, self.entry.price_per_litre),
        )


def _need(bath: _Bath) -> LiquidNeed:
    entry, tray, faces = bath.entry, bath.tray, FACES[bath.entry.kind]
    fill_ml = tray.length_mm * tray.width_mm * bath.fill_mm * _ML_PER_MM3
    return LiquidNeed(
        treatment=entry.id,
        name=entry.name,
        kind=entry.kind.value,
        colour=bath.uses[0].colour,
        coats=max(bath.coats_by_part.values()),
        least_coats=min(bath.coats_by_part.values()),
        parts=sum(sided.part.count for sided in bath.parts),
        area_dm2=sum(bath.areas[s.part.id] * s.part.count for s in bath.parts),
        faces=faces,
        wiped=bath.way(
            Applying.WIPE,
            bath.uptake_ml(entry.wipe_ml_per_dm2, faces),
            0.0,
            bath.minutes(entry.per_part_min),
        ),
        dipped=bath.way(
            Applying.DIP,
            bath.uptake_ml(entry.dip_ml_per_dm2),
            fill_ml,
            bath.minutes(entry.dip_per_part_min),
        ),
        says=tuple(sorted({use.says for use in bath.uses if use.says})),
        lying_mm=bath.lying_mm,
        counted_flat=_named(bath, (s for s in bath.parts if bath.heights.get(s.id, 0.0) is None)),
        over_tray=_named(bath, (s for s in bath.parts if s.part.id in bath.too_large)),
        overfull=bath.fill_mm > tray.depth_mm,
        flammable=entry.carrier is Carrier.ALCOHOL,
        is_bought=entry.kind is not TreatmentKind.CASING,
    )


def _lies_in(part: Part, tray: Tray) -> bool:
    length_mm, width_mm = rectangle_mm(part.outline)
    across_mm, along_mm = sorted((tray.length_mm, tray.width_mm))
    return length_mm <= along_mm and width_mm <= across_mm


def _named(bath: _Bath, parts: Iterable[SidedPart]) -> tuple[str, ...]:
    return tuple(part_name(bath.assembly, sided.id) for sided in parts)
