"""What is told of a bare drawing: what its shapes were taken for, sizes, holes, look-alikes."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from armorplan.files.bare_pattern import ASSUMED_MM
from armorplan.files.bare_shapes import Found
from armorplan.files.drawing import Drawing
from armorplan.files.faults import brief
from armorplan.geometry.alike.likeness import LookAlike, look_alikes
from armorplan.geometry.areas import part_area_mm2, rectangle_mm
from armorplan.geometry.widths import is_strap
from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.kernel.units import MM2_PER_DM2, mm2_to_square_feet
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern

_SHOWN_PAIRS = 60


def structure_findings(drawing: Drawing, found: Found) -> tuple[Finding, ...]:
    """Return what was made of shapes that are not plainly parts, holes or slots."""
    told = [*_about_parts(drawing.name, found), *_about_crossing(drawing.name, found)]
    lines = {line.id for line in drawing.lines}
    told += [
        replace(fault, severity=Severity.WARNING, text=f"{fault.text} It is not read.")
        for shape, fault in drawing.flawed.items()
        if shape not in lines
    ]
    if lines:
        told.append(
            _note(
                "drawn-lines",
                f"{_count(len(lines), 'straight line')} may be what leather is bent or folded "
                f"about: {_listed(sorted(lines))}.",
                mend='Write axis = "ID" under a form, once there is a pattern.toml.',
                place=Place(file=drawing.name),
            )
        )
    return tuple(told)


def _about_parts(name: str, found: Found) -> Iterator[Finding]:
    for frame in found.frames:
        yield _note(
            "drawn-frame",
            f'"{brief(frame)}" lies round several parts and is taken for the frame of the page.',
            mend="If it is a part, draw what lies inside it elsewhere.",
            place=Place(file=name, key=brief(frame)),
        )
    for part in found.nested:
        yield _note(
            "nested-part",
            f'"{brief(part)}" lies in a cut-out of another part and is taken for a part itself.',
            mend="If it is not one, delete it.",
            place=Place(file=name, key=brief(part)),
        )
    for double in found.doubles:
        yield _note(
            "drawn-twice",
            f'"{brief(double)}" lies on another outline of the same shape and is not read.',
            mend="Delete one of the two; or move it, if two are to be cut.",
            place=Place(file=name, key=brief(double)),
        )


def _about_crossing(name: str, found: Found) -> Iterator[Finding]:
    for one, other in found.crossing:
        yield replace(
            _note(
                "outlines-cross",
                f'The outlines "{brief(one)}" and "{brief(other)}" cross.',
                mend="Draw the two parts apart; each is cut from leather of its own.",
                place=Place(file=name, key=brief(one)),
            ),
            severity=Severity.WARNING,
        )


def drawn_findings(pattern: Pattern, drawing: str) -> tuple[Finding, ...]:
    """Return what a bare drawing holds: assumptions, every part with its sizes, look-alikes."""
    holes = sum(len(part.holes) for part in pattern.parts)
    assumed = _note(
        "bare-drawing",
        f"{drawing} is read without a pattern.toml: {_count(len(pattern.parts), 'part')}, "
        f"{_count(holes, 'hole')}. Assumed of all parts: plates of one piece, made once, of "
        f"leather of {ASSUMED_MM:g} mm, the grain outward, up the page is up on the wearer.",
        mend=f"'armorplan bring {drawing} -o FOLDER' makes a pattern of it that says it as it is, and "
        "asks how the parts are joined.",
        place=Place(file=drawing),
    )
    sizes = (_size(part, drawing) for part in pattern.parts)
    return (assumed, *sizes, *_likenesses(pattern, drawing))


def _size(part: Part, drawing: str) -> Finding:
    long_mm, wide_mm = rectangle_mm(part.outline)
    area_mm2 = part_area_mm2(part)
    words = (
        f"'{part.name}' is {long_mm:.0f} × {wide_mm:.0f} mm, {area_mm2 / MM2_PER_DM2:.2f} dm² "
        f"({mm2_to_square_feet(area_mm2):.2f} ft²)"
    )
    sizes = Counter(round(hole.diameter_mm, 1) for hole in part.holes)
    holes = ", ".join(f"{count} of {wide:g} mm" for wide, count in sorted(sizes.items()))
    slots = ", ".join(f"{slot.length_mm:.0f} × {slot.width_mm:.0f} mm" for slot in part.slots)
    words += f"; holes: {holes or 'none'}" + (f"; slots: {slots}" if slots else "") + "."
    if is_strap(part):
        words += " Long and narrow as it is, it may be a strap."
    return _note(
        "drawn-part",
        words,
        mend="If the size is wrong, mend width, height and viewBox of the drawing.",
        place=Place(file=drawing, key=part.id),
        about=(part.id,),
    )


def _likenesses(pattern: Pattern, drawing: str) -> Iterator[Finding]:
    names = {part.id: part.name for part in pattern.parts}
    found = sorted(look_alikes(pattern.parts), key=lambda pair: pair.difference_mm)
    for pair in found[:_SHOWN_PAIRS]:
        yield _note(
            "look-alikes",
            f"{likeness_words(pair, names[pair.first], names[pair.second])}.",
            mend="Number them on the flesh side as soon as they are cut.",
            place=Place(file=drawing, key=pair.first),
            about=(pair.first, pair.second),
        )
    more = len(found) - _SHOWN_PAIRS
    if more > 0:
        yield _note(
            "look-alikes",
            f"{more} more pairs of parts look alike.",
            mend="Number all parts on the flesh side as soon as they are cut.",
            place=Place(file=drawing),
        )


def likeness_words(pair: LookAlike, first: str, second: str) -> str:
    """Say how two parts are alike, with the mm that they differ by."""
    both, apart = f"'{first}' and '{second}'", f"{pair.difference_mm:.1f} mm"
    if pair.by_holes:
        outline = "mirrored outlines" if pair.mirrored else "one outline"
        told = pair.difference_words
        comma = "," if told.startswith("by ") else ":"
        return f"{both} have {outline}; only their holes tell them apart{comma} {told}"
    kind = "twins" if pair.is_twin else "near-twins"
    return f"{both} are {'mirror ' if pair.mirrored else ''}{kind}, {apart} apart"


def _listed(ids: list[str]) -> str:
    shown = ", ".join(brief(each) for each in ids[:5])
    return shown if len(ids) <= 5 else f"{shown} and {len(ids) - 5} more"  # noqa: PLR2004


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _note(
    code: str, text: str, *, mend: str, place: Place, about: tuple[str, ...] = ()
) -> Finding:
    return Finding(
        code=code, severity=Severity.NOTE, text=text, remedy=mend, about=about, place=place
    )
