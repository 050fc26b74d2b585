"""The dry fits of the invented build: two rounds each, for want of pins."""

from dataclasses import dataclass, replace

from desktop.fake_scenario import FakeStep

from armorplan.app.dry_fit_rows import DryFitPlan, PieceFit
from armorplan.app.fit_lay_out import LayOutRow
from armorplan.app.fit_looks import Look, LookKind
from armorplan.app.fit_pins import ClipRow, PinRow
from armorplan.app.fit_rounds import RoundRow


@dataclass(frozen=True)
class FakeFits:
    """Fulfils ``DryFits``: two rounds at once, one of them proved too many for the first piece."""

    steps: tuple[FakeStep, ...]
    pins: tuple = ()

    def with_pins(self, pins) -> "FakeFits":
        return replace(self, pins=pins)

    def at_once(self) -> DryFitPlan:
        return replace(fit_plan_of(self.steps), pins=self.pins)

    def proved(self, solve) -> DryFitPlan:
        solve(None)
        first, *others = fit_plan_of(self.steps).fits
        return DryFitPlan(fits=(replace(first, rounds=first.rounds[:1], proved=True), *others))


def fit_plan_of(steps: tuple[FakeStep, ...]) -> DryFitPlan:
    return DryFitPlan(fits=tuple(_fit(step, steps) for step in steps if step.kind == "dry-fit"))


def _fit(fit: FakeStep, steps: tuple[FakeStep, ...]) -> PieceFit:
    rivets = [s for s in steps if s.piece == fit.piece and s.joints]
    rows = ("lower", "upper")
    return PieceFit(
        step=fit.id,
        title=f"Dry-fit {fit.piece} with pins",
        lay_out=tuple(_laid(part) for part in fit.parts),
        flow="The lames flow down the arm.",
        seams=tuple((f"{row}_row", f"{row} row") for row in rows),
        rounds=tuple(_round(number, row, rivets) for number, row in enumerate(rows, start=1)),
        pins_needed=8,
        pins_wanted=(("bolt_3x12", 6), ("bolt_4x12", 2)),
        pins_owned=5,
        proved=True,
        bound=2,
        words=("2 rounds: there are too few pins for one.",),
    )


def _laid(part: str) -> LayOutRow:
    return LayOutRow(
        part=part,
        name=part,
        hand="",
        grain_out=True,
        up_deg=90.0,
        over=(),
        under=(),
        text=f"{part}: grain up.",
    )


def _round(number: int, row: str, rivets: list[FakeStep]) -> RoundRow:
    mine = [s for s in rivets if f"/{row}_" in s.id]
    looks = [
        Look(
            id=f"gap:{row}",
            kind=LookKind.GAP,
            text="The holes meet without force.",
            about=(*mine[0].parts, f"{row}_row"),
            seams=(f"{row}_row",),
        )
    ]
    if number == 2:
        step = rivets[0].id
        worn = {"kind": LookKind.MARK, "text": "Mark the strap.", "on_wearer": True, "step": step}
        looks.append(Look(id="mark", about=rivets[0].parts, **worn))
    return RoundRow(
        number=number,
        title=f"Round {number} of 2: 4 pins",
        seams=(f"{row}_row",),
        pins=tuple(_pin(n, s.joints[0], row) for n, s in enumerate(mine, start=1)),
        clips=(ClipRow(joint=mine[0].joints[0], name="the strap"),) if number == 2 else (),
        looks=tuple(looks),
        on_wearer=number == 2,
    )


def _pin(number: int, joint: str, row: str) -> PinRow:
    return PinRow(
        number=number,
        joint=joint,
        name=f"{row} row, hole {number} of 4",
        pin="bolt",
        pin_name="Bolt M3 × 12",
        diameter_mm=3.0,
        length_mm=12.0,
        hole_mm=3.5,
        is_extra=number == 4,
        is_stuck=number == 3,
    )
