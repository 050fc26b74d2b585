"""The tables of a pattern that say how it is shaped and treated: forms, treatments."""

from collections.abc import Collection
from dataclasses import dataclass

from armorplan.files.faults import brief
from armorplan.files.limits import ANGLE, LENGTH, SPOT
from armorplan.files.option_rows import read_only_with
from armorplan.files.references import Names, ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import (
    as_point,
    choice,
    maybe_choice,
    maybe_number,
    maybe_text,
    texts,
    whole,
)
from armorplan.pattern.joining import Applying, Form, FormKind, Route, Treatment
from armorplan.pattern.parts import Part, Point
from armorplan.workshop.shelf import Shelf, TreatmentKind

MAX_COATS = 20
"""Each coat is a step, and a wait, on every piece; two to four are usual (common practice)."""
_COATS = frozenset({TreatmentKind.DYE, TreatmentKind.OIL, TreatmentKind.FINISH})
_ENDS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class FormRow:
    """A form with its table; ``drawn_axis`` is the id of the drawn line it bends about, if any."""

    table: Table
    form: Form
    drawn_axis: str | None = None


def read_forms(
    top: Table, parts: Collection[str], *, seams: Collection[str], shelf: Shelf, choices: Names
) -> tuple[FormRow, ...]:
    """Return the forms, in the order they are written; drawn axes are found later."""
    hardener_ids = {e.id for e in shelf.treatments if e.kind is TreatmentKind.HARDENER}
    hardeners = Names(what="hardener", where="on the shelf", ids=hardener_ids)
    part_names, seam_names = Names(what="part", ids=parts), Names(what="seam", ids=seams)
    found: list[FormRow] = []
    for key, row in top.table("forms").rows():
        form = Form(
            id=key,
            kind=choice(row, "kind", FormKind) or FormKind.BEND,
            parts=refs(row, "parts", part_names, required=True),
            route=choice(row, "route", Route) or Route.DAMP,
            axis=_written_axis(row),
            radius_mm=maybe_number(row, "radius_mm", LENGTH),
            angle_deg=maybe_number(row, "angle_deg", ANGLE),
            seams=refs(row, "seams", seam_names),
            hardening=_hardening(row, hardeners),
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, choices),
        )
        _check_route(row, form)
        row.finish()
        drawn = row.raw("axis")
        found.append(
            FormRow(table=row, form=form, drawn_axis=drawn if isinstance(drawn, str) else None)
        )
    return tuple(found)


def _written_axis(row: Table) -> tuple[Point, Point] | None:
    """Return the axis where it is written as two points; a text is the id of a drawn line."""
    value = row.raw("axis")
    if value is None or isinstance(value, str):
        return None
    entries = value if isinstance(value, list) else []
    ends = [end for end in (as_point(entry, SPOT) for entry in entries) if end is not None]
    if len(ends) == len(entries) == _ENDS and ends[0] != ends[1]:
        return ends[0], ends[1]
    if len(ends) == len(entries) == _ENDS:
        row.wrong("axis", value, wanted="two points that lie apart: these two are one spot")
        return None
    row.wrong("axis", value, wanted="the id of a drawn line, or two points, [[x, y], [x, y]]")
    return None


def _hardening(row: Table, hardeners: Names) -> str | None:
    return ref(row, "hardening", hardeners) or None if row.has("hardening") else None


def _check_route(row: Table, form: Form) -> None:
    if form.route is Route.BY_SEAM:
        texts(row, "seams", required=True)
    if form.route is not Route.HARDENED:
        row.idle("hardening", because=f"the route is {form.route.value}, not hardened")
    elif not row.has("hardening"):
        row.faults.warning(
            "no-hardening",
            f'The form "{brief(form.id)}" is hardened, and nothing says with what.',
            mend='Write hardening = "…", a hardener of the shelf.',
            place=row.place("route"),
            about=(form.id,),
        )


def read_treatments(
    top: Table, parts: dict[str, Part], *, shelf: Shelf, choices: Names
) -> tuple[Treatment, ...]:
    """Return the treatments; ``pieces`` stands for all their parts."""
    coats = {e.id for e in shelf.treatments if e.kind in _COATS}
    uses = Names(what="dye, oil or finish", where="on the shelf", ids=coats)
    goes_on = _GoesOn(parts)
    found: list[Treatment] = []
    for key, row in top.table("treatments").rows():
        treatment = Treatment(
            id=key,
            use=ref(row, "use", uses),
            parts=goes_on.read(row),
            colour=maybe_text(row, "colour") or None,
            coats=whole(row, "coats", least=1, default=1, most=MAX_COATS),
            applying=maybe_choice(row, "applying", Applying) or Applying.WIPE,
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, choices),
        )
        row.finish()
        found.append(treatment)
    return tuple(found)


class _GoesOn:
    """The reading of what a treatment goes on."""

    def __init__(self, parts: dict[str, Part]) -> None:
        self._of_piece: dict[str, list[str]] = {}
        for key, part in parts.items():
            self._of_piece.setdefault(part.piece, []).append(key)
        self._places = {key: place for place, key in enumerate(parts)}
        self._parts = Names(what="part", ids=parts)
        self._pieces = Names(what="piece with parts", ids=self._of_piece)

    def read(self, row: Table) -> tuple[str, ...]:
        """Return the parts, in the pattern's order where pieces stand for them."""
        named = refs(row, "parts", self._parts)
        pieces = refs(row, "pieces", self._pieces)
        if row.has("parts") and row.has("pieces"):
            row.fault(
                "pieces",
                "parts-and-pieces",
                "Both parts and pieces are written.",
                mend="Keep one of them.",
            )
        elif not named and not pieces and row.raw("parts") in (None, []):
            row.missing("parts", wanted='["…"], or pieces = ["…"]')
        of_pieces = (part for piece in pieces for part in self._of_piece.get(piece, ()))
        return named or tuple(sorted(of_pieces, key=self._places.__getitem__))
