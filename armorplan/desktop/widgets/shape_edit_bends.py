"""Edits of bends on the drawing table: their line, radius and angle; and where straps close."""

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtCore import QCoreApplication

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.shaping import (
    Ends,
    add_form,
    draw_correction,
    drop_form,
    set_axis,
    set_bend,
    set_strap_place,
)
from armorplan.desktop.shape_edit_asks import Ask, AskField, Told, line_fields, line_told, number
from armorplan.desktop.shape_edit_over import Ghost
from armorplan.desktop.shape_edit_scene import TableAxis, middle
from armorplan.desktop.shape_edit_words import mm
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.pattern.joining import FormKind, Route
from armorplan.pattern.parts import Part, PartKind, Ring

_KINDS = (FormKind.BEND, FormKind.FOLD, FormKind.DISH)
_ROUTES = (Route.DAMP, Route.DRY, Route.WET_FOLD)
"""Hardened shapes and closures name more than is asked here: a hardener, seams."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("BendActs", text)


class BendActs:
    """What the menu of bends and straps does."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what each act does, by its slug."""
        return {
            "bend_line": self._ask_line,
            "new_bend": self._ask_new,
            "drop_bend": self._drop,
            "strap_place": self._ask_strap,
            "draw_correction": self._draw_correction,
        }

    # --- bends --------------------------------------------------------------------------------

    def _ask_line(self) -> None:
        axis = next(a for a in self._doing.scene.axes if a.form == self._doing.choice.forms[0])
        self._doing.ask(
            Ask(
                id="bend_line",
                title=_tr("The bend {0}").format(axis.form),
                help=_tr("Click or type the two ends of its line."),
                fields=(*line_fields(axis.ends), *_bend_fields(axis)),
                then=lambda told: self._put_line(axis, told),
                sketch=_sketch_line,
            )
        )

    def _put_line(self, axis: TableAxis, told: Told) -> None:
        form, ends = axis.form, line_told(told)
        radius_mm, angle_deg = (_maybe(told, name) for name in ("radius", "angle"))

        def put(draft: Draft) -> Draft | Refused:
            made = set_axis(draft, form, ends) if _is_other(ends, axis.ends) else draft
            if isinstance(made, Refused):
                return made
            return set_bend(made, form, radius_mm=radius_mm, angle_deg=angle_deg)

        self._doing.edit(put, _tr("line of {0}").format(form))

    def _ask_new(self) -> None:
        parts = [self._doing.scene.pattern.part(part) for part in self._doing.parts]
        names = ", ".join(part.name for part in parts)
        kinds = tuple((kind.value, _tr(kind.value)) for kind in _KINDS)
        routes = tuple((route.value, _tr(route.value.replace("_", " "))) for route in _ROUTES)
        self._doing.ask(
            Ask(
                id="new_bend",
                title=_tr("Shape {0}").format(names),
                help=_tr("Click or type the two ends of the line it bends about."),
                fields=(
                    AskField(name="kind", label=_tr("as a"), words=kinds),
                    AskField(name="route", label=_tr("made"), words=routes),
                    *line_fields(_up_through(parts)),
                    *_bend_fields(None),
                ),
                then=lambda told: self._add([part.id for part in parts], told),
                sketch=_sketch_line,
            )
        )

    def _add(self, parts: Sequence[str], told: Told) -> None:
        kind, route = FormKind(told["kind"]), Route(told["route"])
        ends = None if kind is FormKind.DISH else line_told(told)
        bend = _maybe(told, "radius") or 0.0, _maybe(told, "angle") or 0.0
        self._doing.want_new()
        self._doing.edit(
            lambda draft: add_form(draft, parts, kind=kind, route=route, ends=ends, bend=bend),
            _tr("shape {0}").format(", ".join(parts)),
        )

    def _drop(self) -> None:
        form = self._doing.choice.forms[0]
        words = _tr("take out {0}").format(form)
        self._doing.edit(lambda draft: drop_form(draft, form), words)

    # --- straps and corrections ---------------------------------------------------------------

    def _ask_strap(self) -> None:
        """Ask where the strap chosen closes; the holes chosen in it are those its buckle takes."""
        scene = self._doing.scene
        strap = scene.pattern.part(self._doing.parts[0])
        if strap.kind is not PartKind.STRAP:
            words = _tr("{0} is a {1}. Choose the strap whose end goes through the buckle first.")
            self._doing.said.emit(words.format(strap.name, _tr(strap.kind.value)))
            return
        held = next((p for p in scene.pattern.strap_places if p.strap == strap.id), None)
        chosen = [h for h in self._doing.choice.holes if scene.pattern.hole(h).part == strap.id]
        holes = tuple(chosen) or (held.holes if held else ())
        others = ((p.id, p.name) for p in scene.pattern.parts if p.id != strap.id)
        least, most = held.girth_mm if held else (0.0, 0.0)
        self._doing.ask(
            Ask(
                id="strap_place",
                title=_tr("Where {0} closes").format(strap.name),
                help=_tr("Its buckle can take {0}.").format(
                    ", ".join(holes) or _tr("no hole yet")
                ),
                fields=(
                    AskField(
                        name="meets",
                        label=_tr("buckle on"),
                        text=held.meets if held else "",
                        words=tuple(others),
                    ),
                    _mm("least", _tr("girth from"), least),
                    _mm("most", _tr("to"), most),
                ),
                then=lambda told: self._put_strap(strap.id, holes, held.id if held else "", told),
            )
        )

    def _put_strap(self, strap: str, holes: tuple[str, ...], place: str, told: Told) -> None:
        girth_mm = number(told["least"]), number(told["most"])
        self._doing.edit(
            lambda draft: set_strap_place(
                draft, strap, told["meets"], girth_mm=girth_mm, holes=holes, place=place
            ),
            _tr("where {0} closes").format(strap),
        )

    def _draw_correction(self) -> None:
        held = set(self._doing.choice.holes)
        known = self._doing.scene.pattern.corrections
        found = [one.id for one in known if held & set(one.holes)]
        if not found:
            self._doing.said.emit(_tr("No known correction moves the holes that are chosen."))
            return
        self._doing.edit(
            lambda draft: draw_correction(draft, found[0]),
            _tr("draw the correction {0}").format(found[0]),
        )


def _bend_fields(axis: TableAxis | None) -> tuple[AskField, ...]:
    radius = axis.radius_mm if axis else None
    angle = axis.angle_deg if axis else None
    return (
        AskField(
            name="radius",
            label=_tr("inner radius"),
            text="" if radius is None else mm(radius),
            unit="mm",
            may_lack=True,
        ),
        AskField(
            name="angle",
            label=_tr("by"),
            text="" if angle is None else mm(angle),
            unit="°",
            may_lack=True,
        ),
    )


def _mm(name: str, label: str, value: float) -> AskField:
    return AskField(name=name, label=label, text=mm(value) if value else "", unit="mm")


def _maybe(told: Told, name: str) -> float | None:
    text = told[name].strip()
    return number(text, unit="°" if name == "angle" else "mm") if text else None


def _is_other(ends: Ends, former: Ends) -> bool:
    """Tell whether a line is another than the one shown, which fields round."""
    pairs = zip((*ends[0], *ends[1]), (*former[0], *former[1]), strict=True)
    return any(mm(now) != mm(was) for now, was in pairs)


def _up_through(parts: Sequence[Part]) -> Ends:
    """Return a line up the page through the middle of parts."""
    corners: Ring = tuple(at for part in parts for at in part.outline)
    x, down = middle(corners)[0], [y for _, y in corners]
    return (x, min(down)), (x, max(down))


def _sketch_line(told: Told) -> tuple[Ghost, ...]:
    return (Ghost(pairs=(line_told(told),)),)
