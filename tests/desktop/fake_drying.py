"""Looks at what dries in the invented session: what was pressed is kept, nothing is learned."""

from collections.abc import Callable
from dataclasses import dataclass, field

from armorplan.app.learned_rows import DryingRow


def learned_row(treatment: str = "water_dye", **changes) -> DryingRow:
    """Return what was learned of an invented treatment."""
    fields = {
        "treatment": treatment,
        "name": treatment.replace("_", " ").capitalize(),
        "before_min": 1440,
        "after_min": 1150,
        "factor": 0.8,
        "between": (0.74, 0.87),
        "spread_pct": 18.0,
        "observations": 5,
        "damped": (),
        "words": "Water dye: about 19 h to handle on a usual day here, by the catalogue 24 h "
        "(factor 0.80, likely 0.74 to 0.87). Learned from 5 dryings.",
    }
    return DryingRow(**{**fields, **changes})


@dataclass
class FakeDrying:
    """Fulfils ``drying_protocol.BenchDrying``; ``pressed`` is what it was told, in order."""

    dries: Callable[[str], bool]
    hear: Callable[[], None]
    rows: tuple[DryingRow, ...] = (learned_row(),)
    pressed: list[tuple[object, ...]] = field(default_factory=list)

    def may_look(self, step_id: str) -> bool:
        return self.dries(step_id)

    def look(self, step_id: str, *, dry: bool) -> str:
        return self._press("dry" if dry else "damp", step_id)

    def weigh(self, step_id: str, *, before_g: float, wet_g: float, now_g: float) -> str:
        return self._press("weighed", step_id, before_g, wet_g, now_g)

    def estimate(self, treatment: str) -> DryingRow:
        return next((r for r in self.rows if r.treatment == treatment), learned_row(treatment))

    def estimates(self) -> tuple[DryingRow, ...]:
        return self.rows

    def forget(self, treatment: str = "all") -> str:
        return self._press("forget", treatment)

    def remember(self, treatment: str = "all") -> str:
        return self._press("remember", treatment)

    def _press(self, *told: object) -> str:
        self.pressed.append(told)
        self.hear()
        return f"{told[0]}: {told[1]}."
