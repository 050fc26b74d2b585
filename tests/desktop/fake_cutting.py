"""What a session says of cutting, without a pattern: one leather on a bed, and a log in memory."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime

from armorplan.app.cut_sections import cut_sections
from armorplan.app.cutting import CutPage, Tried
from armorplan.kernel.errors import ArmorplanError
from armorplan.needs.cutting.model import (
    Bed,
    CutAsked,
    CutLeather,
    CutList,
    CutPart,
    CutShape,
    CutterBed,
    FilledBed,
    Laid,
)
from armorplan.workshop.cut_settings import CutSetting, last_good

PART = CutPart(
    part="petal",
    name="petal",
    sides=("single",),
    pieces=2,
    size_mm=(100.0, 50.0),
    area_dm2=0.5,
    outline_mm=300.0,
    holes=1,
    holes_mm=12.6,
    slots=0,
    slots_mm=0.0,
    after_shaping=0,
    on_wearer=0,
    backbone=False,
    hand_min=9.0,
    machine_min=1.6,
)
LEATHER = CutLeather(
    leather="cop",
    name="Shoulder",
    least_mm=None,
    thickness_mm=3.2,
    may_be_lasered=True,
    parts=(PART,),
    pieces=2,
    cut_mm=625.0,
    net_dm2=1.0,
    yield_pct=70.0,
    buy_dm2=1.43,
    buy_ft2=0.15,
    hide="an offcut",
    hand_min=18,
    machine_min=10,
    beds=(),
    too_large=(),
    holes=(),
)


def shape(name: str, x: float) -> CutShape:
    ring = ((x, 5.0), (x + 100.0, 5.0), (x + 100.0, 55.0), (x, 55.0))
    return CutShape(
        name=name,
        outline=ring,
        slots=(),
        holes=(((x + 20.0, 20.0), 4.0),),
        guides=(),
        label_at=(x + 50.0, 30.0),
    )


def filled(number: int) -> FilledBed:
    one = Laid(
        part="petal",
        name="petal",
        copy=number,
        at_mm=(5.0, 5.0),
        size_mm=(100.0, 50.0),
        turned_deg=0.0,
        mirrored=False,
    )
    return FilledBed(number=number, blanks=(one,), used_mm=(110.0, 60.0), filled_pct=2.0)


def beds_on(bed: Bed) -> tuple[CutterBed, ...]:
    return tuple(
        CutterBed(
            key=f"cop-{number}",
            pattern="Cop",
            title=f"Shoulder, bed {number} of 2",
            wide_mm=bed.wide_mm,
            high_mm=bed.high_mm,
            shapes=(shape(f"petal {number}", 5.0),),
        )
        for number in (1, 2)
    )


@dataclass
class FakeCutting:
    """Fulfils what the window asks of ``app.cutting.Cutting``."""

    asked: list[CutAsked] = field(default_factory=list)
    kept: list[CutSetting] = field(default_factory=list)

    def asking(self, asked: CutAsked) -> Callable[[], CutPage]:
        self.asked.append(asked)
        leather = replace(LEATHER, beds=(filled(1), filled(2)) if asked.bed else ())
        found = CutList(
            pattern="Cop",
            asked=asked,
            leathers=(leather,),
            cautions=("Mind the blade.",),
            findings=(),
        )
        beds = beds_on(asked.bed) if asked.bed else ()
        return lambda: CutPage(found=found, sections=cut_sections(found), beds=beds)

    def good(self, leather: CutLeather) -> tuple[CutSetting, ...]:
        return last_good(self.kept, leather.leather, leather.thickness_mm)

    def log(self) -> tuple[CutSetting, ...]:
        return tuple(self.kept[::-1])

    def keep(self, tried: Tried) -> CutSetting:
        if not tried.machine:
            message = "Say the machine too. Nothing was kept."
            raise ArmorplanError(message)
        made = CutSetting(
            at=datetime(2027, 3, 1, 9, tzinfo=UTC),
            machine=tried.machine,
            leather=tried.leather.leather,
            thickness_mm=tried.leather.thickness_mm,
            words=tried.words,
            passes=tried.passes,
            result=tried.result,
            kerf_mm=tried.kerf_mm,
            note=tried.note,
        )
        self.kept.append(made)
        return made
