"""Large patterns for what reach costs: tubes of plates, all in one shell or in many.

Each tube is so many plates round and so many down, every plate riveted to its neighbours on all
sides, with a strap on every fifth of them.
"""

from armorplan.pattern.joining import Joint, JointKind, Seam
from armorplan.pattern.parts import Hole, Material, Part, PartKind, Piece, Point
from armorplan.pattern.pattern import Pattern

WIDE_MM, HIGH_MM, EDGE_MM, GAP_MM = 64.0, 56.0, 6.0, 20.0
SIDE, BELOW, STRAP_EACH = 3, 2, 5


def one_shell(parts: int = 300) -> Pattern:
    """Return one tube, 20 plates round."""
    return tubes(1, around=20, down=parts // 20)


def many_shells(parts: int = 300) -> Pattern:
    """Return tubes of ten plates each."""
    return tubes(parts // 10, around=5, down=2)


def tubes(count: int, *, around: int, down: int) -> Pattern:
    """Return so many tubes, each a shell of its own."""
    parts, joints, seams = [], [], []
    for tube in range(count):
        told = _Tube(f"t{tube}", around, down, (0.0, tube * (down + 1) * (HIGH_MM + GAP_MM)))
        parts += told.parts
        joints += told.joints
        seams += told.seams
    return Pattern(
        uuid="00000000-0000-0000-0000-000000000000",
        slug="tubes",
        name="tubes",
        version=1,
        content_hash="",
        pieces=(Piece(id="coat", name="coat"),),
        materials=(Material(id="hide", leather="plate", thickness_mm=3.2),),
        parts=tuple(parts),
        joints=tuple(joints),
        seams=tuple(seams),
    )


class _Tube:
    """One tube: its plates, laid out in a grid, what joins them, and the straps on them."""

    def __init__(self, name: str, around: int, down: int, at: Point) -> None:
        self.joints: list[Joint] = []
        self.seams: list[Seam] = []
        self._name, self._at = name, at
        self._holes: dict[tuple[int, int], list[Hole]] = {}
        plates = [(row, column) for row in range(down) for column in range(around)]
        for row, column in plates:
            self._row((row, column), (row, (column + 1) % around), beside=True)
            if row + 1 < down:
                self._row((row, column), (row + 1, column), beside=False)
        straps = [self._strap(plate) for at, plate in enumerate(plates) if at % STRAP_EACH == 0]
        self.parts = [*(self._plate(plate) for plate in plates), *straps]

    def _corner(self, plate: tuple[int, int]) -> Point:
        row, column = plate
        x, y = self._at
        return x + column * (WIDE_MM + GAP_MM), y + row * (HIGH_MM + GAP_MM)

    def _id(self, plate: tuple[int, int]) -> str:
        return f"{self._name}_{plate[0]}_{plate[1]}"

    def _hole(self, plate: tuple[int, int], name: str, spot: Point) -> str:
        x, y = self._corner(plate)
        hole = Hole(
            id=f"{self._id(plate)}_{name}",
            part=self._id(plate),
            centre=(x + spot[0], y + spot[1]),
            diameter_mm=3.5,
        )
        self._holes.setdefault(plate, []).append(hole)
        return hole.id

    def _row(self, one: tuple[int, int], other: tuple[int, int], *, beside: bool) -> None:
        far = (WIDE_MM if beside else HIGH_MM) - EDGE_MM
        count, long_mm = (SIDE, HIGH_MM) if beside else (BELOW, WIDE_MM)
        way, made = ("side" if beside else "below"), []
        for at in range(count):
            along = EDGE_MM + 4.0 + at * (long_mm - 2 * EDGE_MM - 8.0) / (count - 1)
            spots = (
                ((far, along), (EDGE_MM, along)) if beside else ((along, far), (along, EDGE_MM))
            )
            stack = (
                self._hole(one, f"{way}{at}", spots[0]),
                self._hole(other, f"{way}{at}_under", spots[1]),
            )
            made.append(_rivet(f"{self._id(one)}_{way}_j{at}", *stack))
        self.joints += made
        name = f"{self._id(one)}_{way}"
        self.seams.append(Seam(id=name, name=name, joints=tuple(joint.id for joint in made)))

    def _plate(self, plate: tuple[int, int]) -> Part:
        return _part(self._id(plate), self._corner(plate), (WIDE_MM, HIGH_MM), self._holes[plate])

    def _strap(self, plate: tuple[int, int]) -> Part:
        name, (x, y) = f"{self._id(plate)}_strap", self._corner(plate)
        at = (x + WIDE_MM / 2 - 8.0, y + HIGH_MM + 2.0)
        hole = Hole(
            id=f"{name}_end", part=name, centre=(at[0] + 8.0, at[1] + 6.0), diameter_mm=3.5
        )
        on = self._hole(plate, "strap", (WIDE_MM / 2, HIGH_MM / 2))
        self.joints.append(_rivet(f"{name}_j", hole.id, on))
        return _part(name, at, (16.0, 12.0), [hole], kind=PartKind.STRAP)


def _part(
    name: str,
    at: Point,
    size: tuple[float, float],
    holes: list[Hole],
    kind: PartKind = PartKind.PLATE,
) -> Part:
    (x, y), (wide, high) = at, size
    return Part(
        id=name,
        name=name,
        piece="coat",
        kind=kind,
        outline=((x, y), (x + wide, y), (x + wide, y + high), (x, y + high)),
        material="hide",
        thickness_mm=3.2,
        holes=tuple(holes),
    )


def _rivet(name: str, *stack: str) -> Joint:
    return Joint(id=name, kind=JointKind.RIVET, stack=stack, fastener="tubular_9")
