"""The invented parts as the diagram shows them."""

from math import cos, pi, sin

from desktop.fake_scenario import PARTS, ROW_HOLES, FakeStep

from armorplan.app.rows import BenchState, Diagram, DiagramHole, DiagramJoint, DiagramPart


def _petal(
    width_mm: float, height_mm: float, x_mm: float, y_mm: float
) -> tuple[tuple[float, float], ...]:
    count = 24
    return tuple(
        (
            x_mm + width_mm / 2 * (1 + cos(2 * pi * i / count)),
            y_mm + height_mm / 2 * (1 + sin(2 * pi * i / count)),
        )
        for i in range(count)
    )


_PLACES = {
    # width, height, x, y, layer in mm
    "petal_top": (160.0, 70.0, 0.0, 0.0, 0),
    "petal_mid": (170.0, 80.0, -5.0, 55.0, 1),
    "petal_low": (160.0, 70.0, 0.0, 120.0, 0),
    "strap": (220.0, 24.0, -30.0, 200.0, 2),
    "boss": (40.0, 40.0, 60.0, 75.0, 3),
}


def diagram_of(steps: tuple[FakeStep, ...], states: dict[str, BenchState]) -> Diagram:
    """Lay every piece's parts side by side, with the holes of its rows."""
    keys = sorted({part.split(".")[0] for s in steps for part in s.parts}, key=_number)
    pieces = {s.parts[0].split(".")[0]: s.piece for s in steps}
    setting = {joint: s for s in steps for joint in s.joints}
    parts: list[DiagramPart] = []
    holes: list[DiagramHole] = []
    for place, key in enumerate(keys):
        across, down = (place % 8) * 280.0, (place // 8) * 260.0
        for part, name, kind in PARTS:
            width, height, x, y, layer = _PLACES[part]
            outline = _petal(width, height, x + across, y + down)
            label_at = (x + across + width / 2, y + down + height / 2)
            parts.append(
                DiagramPart(
                    id=f"{key}.{part}",
                    name=name,
                    kind=kind,
                    piece=pieces[key],
                    outline=outline,
                    slots=(),
                    label_at=label_at,
                    layer=layer,
                )
            )
        for row, y, under in (("upper", 62.0, "petal_top"), ("lower", 128.0, "petal_low")):
            for hole in range(ROW_HOLES):
                centre = (across + 35.0 + hole * 30.0, down + y)
                holes.extend(
                    DiagramHole(
                        id=f"{key}.{part}.{row}_{hole}",
                        part=f"{key}.{part}",
                        joint=f"{key}.{row}_{hole}",
                        centre=centre,
                        diameter_mm=3.0,
                    )
                    for part in ("petal_mid", under)
                )
        for joint, part, under, centre in (
            ("boss_0", "boss", "petal_mid", (across + 80.0, down + 95.0)),
            ("strap_0", "strap", "petal_low", (across + 30.0, down + 185.0)),
        ):
            holes.extend(
                DiagramHole(
                    id=f"{key}.{member}.{joint}",
                    part=f"{key}.{member}",
                    joint=f"{key}.{joint}",
                    centre=centre,
                    diameter_mm=4.0,
                )
                for member in (part, under)
            )
    joints = tuple(
        DiagramJoint(
            id=joint,
            kind="rivet",
            fastener="double-cap rivet 8 mm",
            head_mm=9.0,
            stack=tuple(p.split(".")[1] for p in step.parts),
            parts=step.parts,
            step=step.id,
            state=states.get(step.id, BenchState.WAITING),
        )
        for joint, step in sorted(setting.items())
    )
    return Diagram(parts=tuple(parts), holes=tuple(holes), joints=joints)


def _number(key: str) -> int:
    return int(key.split("_")[1])
