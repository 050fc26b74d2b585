"""The invented parts closed joint by joint: rows gape less and less, straps go out of reach."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from desktop.fake_scenario import FakeStep

from armorplan.app.reach_rows import (
    JointReach,
    Opening,
    ReachFrame,
    ReachStop,
    RowReach,
    RowsInWay,
    WayIn,
)
from armorplan.app.rows import Diagram
from armorplan.geometry.reach.model import Margin, Standing, Through, Way

GAPE, SPACING_MM = 0.35, 30.0


@dataclass(frozen=True)
class FakeTrack:
    """Two rows of the first piece; its boss is lost once both are closed."""

    stops: tuple[ReachStop, ...]
    rows: tuple[tuple[str, ...], ...]
    spots: Mapping[str, tuple[float, float]]

    @classmethod
    def of(cls, diagram: Diagram, steps: tuple[FakeStep, ...]) -> "FakeTrack":
        spots = {hole.joint: hole.centre for hole in diagram.holes if hole.joint}
        piece = min(joint.id.partition(".")[0] for joint in diagram.joints)
        known = [s for s in steps if len(s.joints) == 1 and s.joints[0].startswith(f"{piece}.")]
        known = [s for s in known if any(j.step == s.id for j in diagram.joints)]
        stops = tuple(ReachStop(step=s.id, title=s.title, joints=s.joints) for s in known)
        names = [s.joints[0] for s in known]
        rows = tuple(tuple(n for n in names if f".{row}_" in n) for row in ("upper", "lower"))
        return cls(stops, rows, spots)

    def made(self, at: int) -> frozenset[str]:
        return frozenset(joint for stop in self.stops[:at] for joint in stop.joints)

    def joint_reach(self, joint: str, at: int) -> JointReach:
        made = self.made(at)
        closed = sum(made.issuperset(row) for row in self.rows)
        if "boss" not in joint:
            standing = Standing(closed)
        else:
            standing = (Standing.FLAT, Standing.END, Standing.CANNOT)[closed]
        way = Way(
            through=Through.RIM, name="rim-1", along_mm=182.0, least_mm=140.0, opening_mm=96.0
        )
        margin = Margin(
            standing=standing, tool="horn", way=way, opening_mm=96.0, reach_mm=150.0, margin_mm=-32
        )
        before = at > 0 and self.joint_reach(joint, at - 1).standing != standing
        return JointReach(id=joint, is_set=joint in made, margin=margin, worse=before)

    def row_reach(self, name: str, joints: tuple[str, ...], at: int) -> RowReach:
        made = self.made(at)
        closed = [i for i, joint in enumerate(joints) if joint in made]
        gapes = tuple(
            min((GAPE * SPACING_MM * abs(i - c) for c in closed), default=None)
            for i in range(len(joints))
        )
        is_set = tuple(joint in made for joint in joints)
        return RowReach(id=name, name=name, joints=joints, is_set=is_set, gapes_mm=gapes)

    def frame(self, at: int) -> ReachFrame:
        joints = tuple(self.joint_reach(j, at) for stop in self.stops for j in stop.joints)
        rows = tuple(
            self.row_reach(name, row, at)
            for name, row in zip(("upper row", "lower row"), self.rows, strict=True)
        )
        lost = tuple(j.id for j in joints if j.worse and j.standing is Standing.CANNOT)
        coming = self.stops[at].joints if at < len(self.stops) else ()
        return ReachFrame(at=at, joints=joints, rows=rows, lost=lost, coming=coming)

    def way_in(self, joint: str, at: int) -> WayIn | None:
        if joint not in self.spots:
            return None
        x, y = self.spots[joint]
        return WayIn(
            joint=joint,
            title=f"rivet {joint}",
            reach=self.joint_reach(joint, at),
            legs=(((x - 30, y - 80), (x, y)),),
            opening=Opening(words="by the mouth", wide_mm=96.0),
            tool="Horn anvil",
            barred_by=(
                RowsInWay(
                    rows=frozenset(("upper row", "lower row")),
                    names=("lower row", "upper row"),
                    standing=Standing.CANNOT,
                ),
            ),
        )

    def lost(self, should_stop: Callable[[], bool]) -> Mapping[int, tuple[str, ...]]:
        found = {}
        for at in range(len(self.stops) + 1):
            if not should_stop() and self.frame(at).lost:
                found[at] = self.frame(at).lost
        return found
