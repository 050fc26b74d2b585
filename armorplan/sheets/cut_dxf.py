"""A bed as a DXF drawing for the cutter, in mm, y up as that format has it."""

from io import StringIO

from armorplan.needs.cutting.model import CutShape, CutterBed
from armorplan.pattern.parts import Point
from armorplan.sheets.cut_layers import GUIDE, INSIDE, LAYERS, LETTER_MM, OUTLINE

_FORM = "R2000"
"""The oldest release with closed light polylines, so that most programs of cutters read it."""


def cut_dxf(bed: CutterBed) -> bytes:
    """Return a bed as DXF, a layer for what is cut inside, one for outlines, one that is not cut."""
    from ezdxf import units
    from ezdxf.colors import int2rgb
    from ezdxf.filemanagement import new

    drawing = new(_FORM, units=units.MM)
    for layer in LAYERS:
        made = drawing.layers.add(layer.name)
        made.rgb = int2rgb(int(layer.colour.removeprefix("#"), 16))
        made.description = layer.meant
    space = drawing.modelspace()

    def up(point: Point) -> Point:
        return point[0], bed.high_mm - point[1]

    def draw(shape: CutShape) -> None:
        inside, outer, guide = ({"layer": layer.name} for layer in (INSIDE, OUTLINE, GUIDE))
        for centre, diameter in shape.holes:
            space.add_circle(up(centre), diameter / 2, dxfattribs=inside)
        for slot in shape.slots:
            space.add_lwpolyline(map(up, slot), close=True, dxfattribs=inside)
        space.add_lwpolyline(map(up, shape.outline), close=True, dxfattribs=outer)
        for begin, end in shape.guides:
            space.add_line(up(begin), up(end), dxfattribs=guide)
        words = space.add_text(shape.name, height=LETTER_MM, dxfattribs=guide)
        words.set_placement(up(shape.label_at))

    for shape in bed.shapes:
        draw(shape)
    held = StringIO()
    drawing.write(held)
    return held.getvalue().encode(drawing.encoding, errors="dxfreplace")
