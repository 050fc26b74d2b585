"""Invented rows of every topic with their pictures, for the page of shapes."""

from armorplan.app.shape_rows import ShapeRow
from armorplan.geometry.pictures import (
    Bar,
    BendPicture,
    LamesPicture,
    Layer,
    Overlap,
    Position,
    RowSide,
    RowsPicture,
    StackPicture,
)
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity

ROWS_OUT = RowsPicture(
    rows=(
        RowSide(
            part="top",
            name="upper petal, left row",
            along_mm=(0.0, 12.0, 24.0, 38.0),
            holes=("t1", "t2", "t3", "t4"),
        ),
        RowSide(
            part="mid",
            name="middle petal <left>",
            along_mm=(0.0, 12.0, 26.0, 38.0),
            holes=("m1", "m2", "m3", "m4"),
            off_mm=(0.0, 0.0, 2.0, 0.0),
        ),
    ),
)
BEND = BendPicture(
    radius_mm=30.0,
    angle_deg=120.0,
    legs_mm=(20.0, 200.0),
    layers=(
        Layer(name="cuff", thick_mm=4.0, kind="plate"),
        Layer(name="lining", thick_mm=4.0, kind="strap"),
    ),
    outer_deg=(-45.0, -15.0, 15.0, 45.0),
    inner_deg=(-51.0, -17.0, 17.0, 51.0),
)
STACK = StackPicture(
    layers=(
        Layer(name="upper petal", thick_mm=3.7, kind="plate"),
        Layer(name="middle petal", thick_mm=3.7, kind="plate"),
    ),
    post_mm=9.5,
    window_mm=(8.6, 10.4),
    head_mm=9.0,
    hole_mm=3.5,
)


def _position(angle_deg: float, gap_mm: float) -> Position:
    return Position(
        angle_deg=angle_deg,
        bars=(
            Bar(part="cop", name="cop", back=((60.0, 0.0), (62.0, 45.0)), pivots=((0.0, 20.0),)),
            Bar(
                part="lame",
                name="first lame",
                back=((58.0, 35.0 + gap_mm), (55.0, 75.0 + gap_mm)),
                pivots=((0.0, 40.0),),
            ),
        ),
        overlaps=(
            Overlap(
                outer="cop",
                inner="lame",
                overlap_mm=10.0 - gap_mm,
                severity=Severity.ERROR if gap_mm > 10 else None,
            ),
        ),
    )


LAMES = LamesPicture(positions=tuple(_position(15.0 * n, 3.0 * n) for n in range(5)))
MOVED = Finding(
    code="hole-off-row",
    severity=Severity.WARNING,
    text="Hole 3 of the middle petal is 2.0 mm too far along.",
    remedy="Move it 2.0 mm back in the drawing.",
    about=("piece_0.petal_mid",),
)
GAPS = Finding(
    code="lame-gap-opens",
    severity=Severity.ERROR,
    text="At 60° a gap of 2.0 mm opens.",
    remedy="Make the lame 12 mm longer.",
    about=("piece_0.lame_1",),
)
SLIDE = Figure(
    name="slide per spacing",
    value=13.333,
    unit="%",
    formula="d / R = 4.0 / 30 = 13.3 %",
    source="circle geometry",
)
SPACING = Figure(
    name="spacing of holes 2 and 3",
    value=14.0,
    unit="mm",
    formula="measured on the drawing",
    source="measured on the drawing",
)


def some_shapes() -> tuple[ShapeRow, ...]:
    """Return a row of each topic, some sound and some not."""
    return (
        ShapeRow(
            id="rows:left",
            topic="rows that meet",
            title="left row: middle petal on upper petal",
            verdict="hole 3 is 2.0 mm out",
            text="Three of four holes meet.",
            severity="warning",
            figures=(SPACING,),
            findings=(MOVED,),
            parts=("piece_0.petal_mid",),
            joints=("piece_0.upper_0",),
            picture=ROWS_OUT,
        ),
        ShapeRow(
            id="rows:right",
            topic="rows that meet",
            title="right row: middle petal on upper petal",
            verdict="meet",
            text="All holes meet within 0.1 mm.",
            figures=(SPACING,),
            parts=("piece_0.petal_mid",),
            joints=("piece_0.upper_1",),
        ),
        ShapeRow(
            id="bends:cuff",
            topic="bends",
            title="cuff round its lining",
            verdict="bend first",
            text="Riveted flat, the layers would slide 13.3 % of each spacing.",
            severity="note",
            figures=(SLIDE,),
            picture=BEND,
        ),
        ShapeRow(
            id="posts:upper_0",
            topic="fasteners and posts",
            title="double-cap rivet through upper and middle petal",
            verdict="post 9.5 mm",
            text="7.4 mm pinched; posts of 8.6 to 10.4 mm hold.",
            joints=("piece_0.upper_0",),
            picture=STACK,
        ),
        ShapeRow(
            id="lames:elbow",
            topic="lames",
            title="elbow: cop and first lame",
            verdict="a gap of 2.0 mm at 60°",
            text="The lame leaves the cop at 52°.",
            severity="error",
            findings=(GAPS,),
            parts=("piece_0.lame_1",),
            picture=LAMES,
        ),
    )


def many_shapes(count: int) -> tuple[ShapeRow, ...]:
    """Return so many sound rows, eight in ten of them fasteners."""
    return tuple(
        ShapeRow(
            id=f"posts:{n}" if n % 5 else f"rows:{n}",
            topic="fasteners and posts" if n % 5 else "rows that meet",
            title=f"number {n}: upper petal on middle petal",
            verdict="meet",
            text="They meet.",
            figures=(SPACING, SLIDE),
            picture=STACK if n % 5 else ROWS_OUT,
        )
        for n in sorted(range(count), key=lambda n: n % 5 > 0)
    )
