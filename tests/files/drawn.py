"""Short ways to read a drawing made of a few elements."""

from files.small_cuff import OPEN_SVG

from armorplan.files.drawing import read_drawing

NAMESPACES = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def read_body(body, head=OPEN_SVG):
    return read_drawing("x.svg", f"{head}{body}</svg>")


def ring_of(body, head=OPEN_SVG):
    found = read_body(body, head)
    assert not found.flawed, found.flawed
    assert len(found.outlines) == 1
    return found.outlines[0].ring


def circle_of(body, head=OPEN_SVG):
    found = read_body(body, head)
    assert len(found.circles) == 1
    return found.circles[0]


def page(size, box, more=""):
    width, height = size
    return f'<svg {NAMESPACES} width="{width}" height="{height}" viewBox="{box}" {more}>'
