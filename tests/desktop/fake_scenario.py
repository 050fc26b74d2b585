"""Invented data: the lantern watch's armour for the harbour pageant, as many pieces as wanted."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

ORIGIN_AT = datetime(2026, 5, 4, 7, 0, tzinfo=UTC)
PIECES = ("Elbow cop", "Collar", "Shoulder cop", "Knee cop", "Tasset", "Bracer")
PARTS = (
    ("petal_low", "lower petal", "lame"),
    ("petal_mid", "middle petal", "lame"),
    ("petal_top", "upper petal", "lame"),
    ("strap", "arm strap", "strap"),
    ("boss", "lantern boss", "trim"),
)
ROW_HOLES = 4
DAY_MIN = 8 * 60
CAUTION = "Ventilate, wear gloves and keep flames away; the product's label and local codes rule."


class StoppedClock:
    """A clock the test sets; it stands still until it is told to go on."""

    def __init__(self, at: datetime = ORIGIN_AT) -> None:
        self.at = at

    def now(self) -> datetime:
        return self.at

    def boot_id(self) -> str:
        return "a-quiet-morning"

    def boot_seconds(self) -> float:
        return (self.at - ORIGIN_AT).total_seconds()

    def advance(self, minutes: float) -> None:
        self.at += timedelta(minutes=minutes)


@dataclass(frozen=True, slots=True, kw_only=True)
class FakeStep:
    """A step of the scenario with what has to be done before it."""

    id: str
    title: str
    kind: str
    piece: str
    tray: str
    tray_title: str
    parts: tuple[str, ...]
    joints: tuple[str, ...] = ()
    minutes: int = 5
    attended: bool = True
    needs: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


_TREATING = (
    # kind, tray title, minutes, attended, verb
    ("cut", "Cut the parts", 6, True, "Cut"),
    ("bevel", "Bevel the edges", 4, True, "Bevel"),
    ("punch", "Punch the holes", 5, True, "Punch"),
    ("dye", "Dye, first coat of alcohol dye", 7, True, "Dye"),
    ("dry", "Let the dye dry", 180, False, "Dry"),
    ("finish", "Acrylic finish", 6, True, "Finish"),
    ("dry", "Let the finish dry", 720, False, "Dry"),
)


def piece_steps(number: int) -> list[FakeStep]:
    """Return the steps of one piece in an order that holds."""
    name = PIECES[number % len(PIECES)]
    piece = f"{name} {number // len(PIECES) + 1}" if number >= len(PIECES) else name
    key = f"piece_{number}"
    steps: list[FakeStep] = []
    last: dict[str, str] = {}
    for stage, (kind, tray_title, minutes, attended, verb) in enumerate(_TREATING):
        for part, part_name, _kind in PARTS:
            step = FakeStep(
                id=f"watch/{key}/none/{kind}_{stage}/{part}",
                title=f"{verb} the {part_name}",
                kind=kind,
                piece=piece,
                tray=f"tray:{key}/{stage}",
                tray_title=tray_title,
                parts=(f"{key}.{part}",),
                minutes=minutes,
                attended=attended,
                needs=(last[part],) if part in last else (),
                cautions=(CAUTION,) if kind in ("dye", "finish") else (),
            )
            last[part] = step.id
            steps.append(step)
    steps.extend(_hardware(key, piece, tuple(last.values())))
    return steps


def _hardware(key: str, piece: str, dried: tuple[str, ...]) -> list[FakeStep]:
    every = tuple(f"{key}.{part}" for part, _, _ in PARTS)
    fit = FakeStep(
        id=f"watch/{key}/none/dry-fit/all",
        title="Dry-fit with screw posts and bend",
        kind="dry-fit",
        piece=piece,
        tray=f"tray:{key}/fit",
        tray_title="Dry-fit",
        parts=every,
        minutes=20,
        needs=dried,
    )
    template = replace(fit, kind="rivet", minutes=3, needs=(fit.id,))
    rivets = [
        replace(
            template,
            id=f"watch/{key}/none/rivet/{row}_{hole}",
            title=f"Rivet {hole + 1} of the {row} row",
            tray=f"tray:{key}/{row}",
            tray_title=f"Rivet the {row} row",
            parts=(f"{key}.petal_mid", f"{key}.petal_{'low' if row == 'lower' else 'top'}"),
            joints=(f"{key}.{row}_{hole}",),
        )
        for row in ("lower", "upper")
        for hole in range(ROW_HOLES)
    ]
    boss = replace(
        template,
        id=f"watch/{key}/none/rivet/boss",
        title="Rivet the lantern boss over the row heads",
        tray=f"tray:{key}/boss",
        tray_title="Rivet the boss",
        parts=(f"{key}.boss", f"{key}.petal_mid"),
        joints=(f"{key}.boss_0",),
        needs=tuple(r.id for r in rivets),
    )
    strap = replace(
        template,
        id=f"watch/{key}/none/rivet/strap",
        title="Rivet the arm strap",
        tray=f"tray:{key}/strap",
        tray_title="Rivet the strap",
        parts=(f"{key}.strap", f"{key}.petal_low"),
        joints=(f"{key}.strap_0",),
    )
    return [fit, strap, *rivets, boss]


def scenario(step_count: int) -> tuple[FakeStep, ...]:
    """Return the steps of as many whole pieces as hold ``step_count`` steps, cut to the count."""
    steps: list[FakeStep] = []
    number = 0
    while len(steps) < step_count:
        steps.extend(piece_steps(number))
        number += 1
    return tuple(steps[:step_count])


def lay_out(steps: tuple[FakeStep, ...]) -> dict[str, datetime]:
    """Lay attended steps one after the other in eight-hour days; drying where it falls."""
    by_id = {s.id: s for s in steps}
    at: dict[str, datetime] = {}
    worked = 0
    for step in steps:
        ready = [at[n] + timedelta(minutes=by_id[n].minutes) for n in step.needs]
        day, minute = divmod(worked, DAY_MIN)
        at[step.id] = max([ORIGIN_AT + timedelta(days=day, minutes=60 + minute), *ready])
        worked += step.minutes if step.attended else 0
    return at
