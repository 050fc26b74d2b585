"""A small bench sheet, and what a page of a PDF draws, measured in its own content."""

from dataclasses import replace
from io import BytesIO
from itertools import pairwise

from pypdf import PdfReader
from pypdf.generic import ContentStream

from armorplan.geometry.pictures import Layer, StackPicture
from armorplan.sheets.bench_sheet_model import (
    BenchSheet,
    Chapter,
    DrawnHole,
    DrawnPart,
    FitRound,
    FullPart,
    Scene,
    SheetFit,
    SheetLine,
    SheetRow,
    SheetRun,
    SheetTable,
    StackDrawing,
)

MM = 72 / 25.4
PLATE = ((0.0, 0.0), (60.0, 0.0), (60.0, 25.0), (40.0, 40.0), (0.0, 40.0))
STRAP = ((0.0, 0.0), (640.0, 0.0), (640.0, 30.0), (0.0, 30.0))


def full_part(outline=PLATE, *, name="plate", side="", hole=(10.0, 10.0)):
    return FullPart(
        name=name,
        side=side,
        piece="Cop",
        outline=outline,
        slots=(),
        holes=(DrawnHole(centre=hole, diameter_mm=4.0),),
        words=("3.6 mm", "grain side up"),
        up_deg=90.0,
        backbone_deg=0.0,
    )


def scene():
    part = DrawnPart(
        name="plate",
        outline=PLATE,
        holes=(DrawnHole(centre=(10.0, 10.0), diameter_mm=4.0, mark="2"),),
        lit=True,
    )
    return Scene(parts=(part,))


def run(number, *, title="Rivets", lines=3, **more):
    made = tuple(
        SheetLine(
            number=str(number + at), title=f"Rivet {number + at}", boxes=("",), spent="4 min"
        )
        for at in range(lines)
    )
    return SheetRun(
        title=title, summary=f"steps {number} to {number + lines - 1}", lines=made, **more
    )


def sheet(**changed):
    stack = StackDrawing(
        picture=StackPicture(
            layers=(Layer(name="plate", thick_mm=3.3), Layer(name="lame", thick_mm=3.3)),
            post_mm=9.5,
            window_mm=(8.1, 10.0),
            head_mm=9.0,
            hole_mm=4.0,
        ),
        title="Tubular rivet",
        where="steps 1, 2",
    )
    fit = SheetFit(
        title="Dry-fit Cop",
        words=("One round: all of it is on pins at once.",),
        lay_out=("Plate: grain up.",),
        rounds=(FitRound(title="One round", pins=("1. hole 1: M3",), looks=("No gap.",)),),
    )
    first = run(
        1,
        when="Mon 30 Nov 09:00 – 09:12",
        tools="setter and anvil",
        cautions=("Wear eye protection.",),
        reasons=("The dry fit is the last point at which anything is cheap to change.",),
        scene=scene(),
        stacks=(stack,),
        fits=(fit,),
    )
    table = SheetTable(
        title="Leather",
        heads=("Leather", "Buy"),
        rows=(SheetRow(cells=("Shoulder", "2 dm²"), remarks=("An offcut.",)),),
    )
    made = BenchSheet(
        title="Cop of the lantern watch",
        version="Version 3",
        facts=(("Parts", "2"),),
        cover=replace(scene(), as_laid=True),
        chapters=(Chapter(title="Joined for good", intro="", runs=(first,)),),
        needs=(table,),
        days=(SheetTable(title="Monday", heads=("When",), rows=(SheetRow(cells=("09:00",)),)),),
    )
    return replace(made, **changed)


def pages_of(data):
    return PdfReader(BytesIO(data)).pages


def drawn_paths(page):
    """Yield each path of a page as points in mm from its lower left corner, as it is painted."""
    matrix, kept, path = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), [], []
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        numbers = [float(n) for n in operands] if operator in _NUMBERED else []
        if operator == b"q":
            kept.append(matrix)
        elif operator == b"Q":
            matrix = kept.pop()
        elif operator == b"cm":
            matrix = _product(numbers, matrix)
        elif operator in _PAINTED:
            yield from [path] * bool(path)
            path = []
        # A clipping path is not painted, and a curve has three points.
        path = [] if operator == b"n" else path
        path += [_mm(matrix, *numbers[at : at + 2]) for at in _points(operator)]


def _points(operator):
    return {b"m": (0,), b"l": (0,), b"c": (0, 2, 4)}.get(operator, ())


_PAINTED = (b"S", b"f", b"B", b"f*", b"B*")
_NUMBERED = (b"cm", b"m", b"l", b"c")


def _product(new, old):
    a, b, c, d, e, f = new
    p, q, r, s, t, u = old
    return (
        a * p + b * r,
        a * q + b * s,
        c * p + d * r,
        c * q + d * s,
        e * p + f * r + t,
        e * q + f * s + u,
    )


def _mm(matrix, x, y):
    a, b, c, d, e, f = matrix
    return (a * x + c * y + e) / MM, (b * x + d * y + f) / MM


def lines_of(page):
    """Return the straight lines of a page, as pairs of points in mm."""
    return [(path[0], path[1]) for path in drawn_paths(page) if len(path) == 2]


def has_ring(page, ring, *, within_mm=0.02):
    """Tell whether an outline is drawn on a page at full size, wherever it lies."""
    return any(_is_moved(path, ring, within_mm) for path in drawn_paths(page))


def _is_moved(path, ring, within_mm):
    """Compare edge by edge: moved is alike; y runs up in a PDF and down in a pattern."""
    if len(path) != len(ring):
        return False
    drawn = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(path)]
    meant = [(b[0] - a[0], a[1] - b[1]) for a, b in pairwise(ring)]
    return all(
        abs(d[0] - m[0]) < within_mm and abs(d[1] - m[1]) < within_mm
        for d, m in zip(drawn, meant, strict=True)
    )
