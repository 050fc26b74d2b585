"""What is told of holes and outlines that cannot be given to a part."""

from armorplan.files.drawing import Circle, Outline
from armorplan.files.faults import Faults, brief
from armorplan.kernel.findings import Place
from armorplan.pattern.parts import Point

_SHOWN = 5
_MEND_MOVE = "Mend the move_mm of the correction, or take the correction out."


def _hole(circle: Circle) -> str:
    name = f'The hole "{brief(circle.id or "")}"'
    at = _at(circle.centre)
    return f"{name} at {at}" if circle.moved_by is None else f"{name}, moved to {at},"


def _mend(shape: Circle | Outline, mend: str) -> str:
    return mend if shape.moved_by is None else _MEND_MOVE


def _at(point: Point) -> str:
    return f"({point[0]:.1f}, {point[1]:.1f})"


def tell_edge(faults: Faults, circle: Circle, part: str) -> None:
    """Warn of a hole that breaks through the edge of its part."""
    faults.warning(
        "hole-breaks-edge",
        f'{_hole(circle)} breaks through the edge of "{part}": its centre lies less than its '
        f"radius, {circle.diameter_mm / 2:.1f} mm, from it.",
        mend=_mend(circle, "Move it inward, or make it smaller."),
        place=circle.moved_by or circle.place,
        about=(circle.id or "", part),
    )


def tell_elsewhere(faults: Faults, circle: Circle, part: str, *, place: Place, where: str) -> None:
    """Tell a hole that is declared to lie in a part and does not."""
    faults.error(
        "hole-outside-part",
        f'{_hole(circle)} is declared to lie in "{part}", but is {where}.',
        mend=_mend(circle, "Move the hole, or name the part it lies in."),
        place=circle.moved_by or place,
        about=(circle.id or "", part),
    )


def tell_outside(faults: Faults, circle: Circle, *, is_wanted: bool) -> None:
    """Tell a hole that lies in no part."""
    tell = faults.error if is_wanted else faults.note
    tell(
        "hole-outside-part",
        f"{_hole(circle)} lies in no part.",
        mend=_mend(circle, "Move it into the outline of a part, or delete it."),
        place=circle.moved_by or circle.place,
        about=(circle.id or "",),
    )


def tell_clash(faults: Faults, circle: Circle, parts: tuple[str, str], *, is_wanted: bool) -> None:
    """Tell a hole that lies in two parts neither of which lies inside the other."""
    part, rival = parts
    tell = faults.error if is_wanted else faults.warning
    tell(
        "hole-in-two-parts",
        f'{_hole(circle)} lies in "{part}" and in "{rival}", whose outlines overlap.',
        mend=_mend(
            circle,
            f'Draw the parts apart, or write part = "{part}" under '
            f"[holes.{brief(circle.id or '')}].",
        ),
        place=circle.moved_by or circle.place,
        about=(circle.id or "", part, rival),
    )


def note_nameless(faults: Faults, part: str, circles: list[Circle]) -> None:
    """Note circles without an id inside a part, which may be forgotten holes."""
    spots = ", ".join(_at(c.centre) for c in circles[:_SHOWN])
    more = f" and {len(circles) - _SHOWN} more" if len(circles) > _SHOWN else ""
    count = f"{len(circles)} circles have" if len(circles) > 1 else "A circle has"
    faults.note(
        "nameless-hole",
        f'{count} no id in "{part}", at {spots}{more}; not read as holes.',
        mend="Give an id to each that is a hole.",
        place=circles[0].place,
        about=(part,),
    )


def tell_stray(faults: Faults, outline: Outline, part: str | None, *, is_wanted: bool) -> None:
    """Tell a closed outline that is neither a part nor a slot in one."""
    where = "lies in none" if part is None else f'lies only partly in "{part}"'
    tell = faults.error if is_wanted else faults.note
    name, moved = brief(outline.id), "" if outline.moved_by is None else ", moved,"
    tell(
        "stray-outline",
        f'The outline "{name}"{moved} is not declared a part and {where}; it is not read.',
        mend=_mend(
            outline,
            f"Declare it under [parts.{name}], or move it wholly into a part as a slot.",
        ),
        place=outline.moved_by or outline.place,
        about=(outline.id,),
    )
