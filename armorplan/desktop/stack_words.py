"""What is written beside the section of a stack, and how it is spoken."""

from typing import NamedTuple

from PySide6.QtCore import QCoreApplication

from armorplan.app.shape_rows import ShapeRow
from armorplan.app.stack_names import with_names
from armorplan.geometry.pictures import StackPicture

_FEET = {
    "cap": "cap pressed on inside",
    "burr": "burr inside",
    "screw": "screw inside",
    "bent": "spread inside",
}


class Beside(NamedTuple):
    """A line of text beside the section, and the depth in mm from the outer face it belongs to."""

    depth_mm: float
    text: str


def _tr(text: str) -> str:
    return QCoreApplication.translate("StackWords", text)


def _mm(length: float) -> str:
    """Return a length as it is written: tenths, without a nought behind the point."""
    return f"{round(length, 1):g}"


def stack_of(
    joint: str, names: tuple[str, ...], rows: tuple[ShapeRow, ...]
) -> StackPicture | None:
    """Return the section through a joint, with these names of its own layers.

    Joints whose stacks are alike share one; ``None`` where none is reckoned.
    """
    for row in rows:
        if isinstance(row.picture, StackPicture) and joint in row.joints:
            return with_names(row.picture, names)
    return None


def deep_mm(picture: StackPicture) -> float:
    """Return how thick the pinched stack is."""
    return sum(layer.thick_mm for layer in picture.layers)


def beside(picture: StackPicture) -> tuple[Beside, ...]:
    """Return a line for each layer, for the posts that hold, and for the post chosen, top down."""
    lines, top = [], 0.0
    for layer in picture.layers:
        text = _tr("{n} mm {name}").format(n=_mm(layer.thick_mm), name=layer.name)
        lines.append(Beside(top + layer.thick_mm / 2, text))
        top += layer.thick_mm
    return (*lines, *sorted((_window(picture), _post(picture))))


def _window(picture: StackPicture) -> Beside:
    least, most = picture.window_mm
    told = _tr("{least} to {most} mm hold").format(least=_mm(least), most=_mm(most))
    return Beside((least + most) / 2, told)


def _post(picture: StackPicture) -> Beside:
    """Return what the post is: how far over the stack, or short or long of those that hold."""
    if picture.post_mm is None:
        return Beside(picture.window_mm[1], _tr("no post on sale fits"))
    post, (least, most) = picture.post_mm, picture.window_mm
    if post < least:
        told, off = _tr("post {n} mm, {off} short"), least - post
    elif post > most:
        told, off = _tr("post {n} mm, {off} long"), post - most
    else:
        told, off = _tr("post {n} mm, {off} over"), max(post - deep_mm(picture), 0.0)
    return Beside(post, told.format(n=_mm(post), off=_mm(off)))


def stack_sentence(picture: StackPicture) -> str:
    """Return the section in one sentence, as a screen reader speaks it."""
    foot = QCoreApplication.translate("StackFoot", _FEET.get(picture.foot, picture.foot))
    lines = (line.text for line in beside(picture))
    whole = _tr("{n} mm pinched").format(n=_mm(deep_mm(picture)))
    return "; ".join((whole, *lines, foot)) + "."
