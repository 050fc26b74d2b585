"""How each joint of a shell stands from first to last: what the measures of reach tell of."""

from dataclasses import dataclass

from armorplan.geometry.reach.bars import Bar
from armorplan.geometry.reach.gathered import Reach
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Margin, Shell, Standing
from armorplan.geometry.reach.no_mouth import sealed_from
from armorplan.geometry.reach.words import shut


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One joint with what becomes of its reach.

    Attributes:
        first: with no other joint made.
        last: with all rows of its shell made.
        bars: what makes it harder or impossible, the worst first.
    """

    joint: str
    first: Margin
    last: Margin
    bars: tuple[Bar, ...]

    @property
    def worst(self) -> Bar | None:
        """The bar that makes it hardest; ``None``: nothing does."""
        return self.bars[0] if self.bars else None

    @property
    def rank(self) -> tuple[float, ...]:
        """The greater, the harder it is to get at: at first, at worst, and how deep it lies."""
        worst = self.worst.after if self.worst else self.first
        way = worst.way or self.last.way
        return (
            float(self.first.standing is Standing.CANNOT),
            float(worst.standing),
            worst.effort,
            0.0 if way is None else way.along_mm,
        )


def told_of(reach: Reach, shell: Shell, joint: str) -> Told:
    """Return how a joint of a shell stands at first and at last, and what bars it."""
    rows = frozenset(each for row in shell.rows for each in row.joints)
    found = [bar for bar in (*reach.bars, *reach.own_bars) if bar.joint == joint]
    found.sort(key=lambda bar: (-bar.after.standing, len(bar.rows), sorted(bar.rows)))
    return Told(
        joint=joint,
        first=margin(reach.drawn, joint, frozenset(), reach.bench),
        last=margin(reach.drawn, joint, rows - {joint}, reach.bench),
        bars=tuple(found),
    )


def when(reach: Reach, bar: Bar) -> str:
    """Say once what is done a bar bites: ``left row is shut``."""
    named = {row.id: row for row in reach.rows}
    rows = [named[row].name for row in sorted(bar.rows)]
    if not bar.own:
        return shut(rows)
    own = next(row for row in reach.rows if bar.joint in row.joints)
    rest = f"the rest of {own.name} is set"
    return f"{shut(rows)} and {rest}" if rows else rest


def verdict(reach: Reach, told: Told) -> str:
    """Return in a few words until when a joint is reached, and how."""
    if told.first.standing is Standing.CANNOT:
        return "no tool gets there"
    if sealed := _sealed(reach, told):
        return sealed
    worst = told.worst
    if worst is None:
        return _STEADY[told.first.standing]
    once = when(reach, worst)
    if worst.after.standing is Standing.CANNOT:
        return f"cannot be set once {once}"
    if worst.after.standing is Standing.END:
        return f"at the end of reach once {once}"
    return f"easy until {once}"


def _sealed(reach: Reach, told: Told) -> str:
    """Say from where on a row shuts its shell round, so that no tool gets in behind it any more."""
    shell = reach.drawn.shells[reach.drawn.access[told.joint].shell]
    sealed = sealed_from(reach, shell)
    if sealed is None or told.joint not in sealed.row.joints:
        return ""
    if told.first.standing is Standing.FLAT:
        return f"flat on the bench; from '{sealed.joints[0]}' on from outside only"
    return f"no tool gets in from '{sealed.joints[0]}' on"


_STEADY = {
    Standing.FLAT: "flat on the bench at any time",
    Standing.CURVED: "at hand at any time",
    Standing.INSIDE: "within reach at any time",
    Standing.END: "at the end of reach at any time",
}
