"""What a picture of a shape shows, said in words, for those who hear it."""

from collections.abc import Iterator

from PySide6.QtCore import QCoreApplication

from armorplan.desktop.shapes_bending import formed_size, slide_mm
from armorplan.desktop.shapes_reach_words import reach_sentences
from armorplan.desktop.shapes_words import mm_text, number_text
from armorplan.desktop.stack_words import stack_sentence
from armorplan.geometry.pictures import (
    BendPicture,
    LamesPicture,
    Overlap,
    Picture,
    Position,
    RowSide,
    RowsPicture,
    StackPicture,
)
from armorplan.geometry.ways_in import ReachPicture

OUT_MM = 0.5
"""From here on a hole is told to be out; below, punch and leather make it up."""


def _say(text: str) -> str:
    return QCoreApplication.translate("shapes", text)


def picture_words(picture: Picture) -> str:
    """Say a picture in whole sentences."""
    match picture:
        case RowsPicture():
            return _rows(picture)
        case BendPicture():
            return _bend(picture)
        case LamesPicture():
            return _lames(picture)
        case StackPicture():
            return stack_sentence(picture)
        case ReachPicture():
            return reach_sentences(picture)


def _rows(picture: RowsPicture) -> str:
    told = [
        _say("{0}: {1} holes over {2}.").format(
            row.name, len(row.along_mm), mm_text(_long(row.along_mm))
        )
        for row in picture.rows
    ]
    out = [words for row in picture.rows for words in _out(row)]
    if picture.missing:
        spacings = ", ".join(f"{at + 1}–{at + 2}" for at in picture.missing)
        out.append(_say("holes {0} are not as far apart on both").format(spacings))
    told.append(
        _say("Out: {0}.").format("; ".join(out)) if out else _say("No hole is out of its place.")
    )
    return " ".join((_say("The rows laid straight."), *told))


def _out(row: RowSide) -> Iterator[str]:
    """Say which holes of a row are out, which way they are moved, and which lie beside it."""
    for at, off in enumerate(row.off_mm, start=1):
        if abs(off) >= OUT_MM:
            way = _say("to the left") if off > 0 else _say("to the right")
            told = _say("hole {0} of {1}, to move {2} {3}")
            yield told.format(at, row.name, mm_text(abs(off)), way)
    for at, aside in enumerate(row.aside_mm, start=1):
        if abs(aside) >= OUT_MM:
            yield _say("hole {0} of {1} lies {2} beside its row").format(
                at, row.name, mm_text(abs(aside))
            )


def _long(along_mm: tuple[float, ...]) -> float:
    return max(along_mm) - min(along_mm) if along_mm else 0.0


def _bend(picture: BendPicture) -> str:
    layers = "; ".join(f"{layer.name}, {mm_text(layer.thick_mm)}" for layer in picture.layers)
    told = [
        _say("Bent {0}° round a radius of {1} mm, from outside in: {2}.").format(
            number_text(picture.angle_deg), number_text(picture.radius_mm), layers
        ),
        _formed(picture),
    ]
    if picture.outer_deg and picture.inner_deg:
        parted = _say("The holes of the two rows part by up to {0}.")
        told.append(parted.format(mm_text(slide_mm(picture))))
    return " ".join(told)


def _formed(picture: BendPicture) -> str:
    if not picture.legs_known:
        return _say("How long its legs stay straight is not known, nor its size once bent.")
    wide, high = formed_size(picture)
    return _say("Formed, it is {0} wide and {1} high.").format(mm_text(wide), mm_text(high))


def _lames(picture: LamesPicture) -> str:
    return " ".join(_position(position) for position in picture.positions)


def _position(position: Position) -> str:
    names = {bar.part: bar.name for bar in position.bars}
    told = ", ".join(_overlap(overlap, names) for overlap in position.overlaps)
    return _say("At {0}°: {1}.").format(number_text(position.angle_deg), told)


def _overlap(overlap: Overlap, names: dict[str, str]) -> str:
    outer = names.get(overlap.outer, overlap.outer)
    inner = names.get(overlap.inner, overlap.inner)
    if overlap.overlap_mm < 0:
        gap = mm_text(-overlap.overlap_mm)
        return _say("a gap of {0} between {1} and {2}").format(gap, outer, inner)
    return _say("{0} over {1} by {2}").format(outer, inner, mm_text(overlap.overlap_mm))
