"""The tables of a pattern on size: what it was drawn for, what follows what, whom it was fitted to."""

from collections.abc import Iterable
from uuid import UUID

from armorplan.files.limits import LENGTH, MAX_VERSION
from armorplan.files.references import Names, check_ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import maybe_text, number, text, whole
from armorplan.pattern.sizing import DrawnFor, FittedTo, Scaling
from armorplan.workshop.measures import BodyMeasure, MeasureKind

_SIDES = ("", "left", "right")


def read_drawn_for(top: Table, measures: Iterable[BodyMeasure]) -> tuple[DrawnFor, ...]:
    """Return what the pattern was drawn for, in the order it is written."""
    names = Names(what="measure", ids={m.id for m in measures}, where="in the catalogue")
    found: list[DrawnFor] = []
    table = top.table("drawn_for")
    for key, row in table.rows():
        check_ref(table, key, value=key, names=names)
        notes = maybe_text(row, "notes") or ""
        found.append(DrawnFor(id=key, mm=number(row, "mm", LENGTH), notes=notes))
        row.finish()
    return tuple(found)


def read_scalings(
    top: Table, parts: Names, drawn_for: Iterable[DrawnFor], measures: Iterable[BodyMeasure]
) -> tuple[Scaling, ...]:
    """Return the scalings, in the order they are written; each part follows in one of them."""
    reading = _Scalings({one.id for one in drawn_for}, {m.id: m for m in measures})
    return tuple(reading.read(key, row, parts) for key, row in top.table("scalings").rows())


class _Scalings:
    """The reading of scalings, with what they may name and what they named already."""

    def __init__(self, drawn: set[str], measures: dict[str, BodyMeasure]) -> None:
        self._drawn = Names(what="measure", ids=drawn, where="in [drawn_for]")
        self._measures = measures
        self._taken: dict[str, str] = {}

    def read(self, key: str, row: Table, parts: Names) -> Scaling:
        scaling = Scaling(
            id=key,
            parts=refs(row, "parts", parts, required=True),
            along=self._measure(row, "along"),
            around=self._measure(row, "around"),
            notes=maybe_text(row, "notes") or "",
        )
        if not (scaling.along or scaling.around):
            row.missing("around", wanted='"…", the girth that the parts follow')
        self._check_girth(row, scaling.around)
        self._check_once(row, scaling)
        row.finish()
        return scaling

    def _measure(self, row: Table, key: str) -> str:
        value = maybe_text(row, key) or ""
        if value:
            check_ref(row, key, value=value, names=self._drawn)
        return value

    def _check_girth(self, row: Table, around: str) -> None:
        measure = self._measures.get(around)
        if measure is not None and measure.kind is not MeasureKind.GIRTH:
            row.fault(
                "around",
                "not-a-girth",
                f"{row.name_of('around')} names {measure.name}, which is a length.",
                mend="Name a girth; what follows a length goes into along.",
            )

    def _check_once(self, row: Table, scaling: Scaling) -> None:
        for part in scaling.parts:
            other = self._taken.setdefault(part, scaling.id)
            if other != scaling.id:
                row.fault(
                    "parts",
                    "scaled-twice",
                    f'"{part}" is in the scalings {other} and {scaling.id}.',
                    mend="Leave it in one of them; both along and around may stand there.",
                    about=(part,),
                )


def read_fitted(top: Table) -> FittedTo | None:
    """Return what the pattern was fitted from and to whom; ``None`` where it is nobody's."""
    row = top.table("fitted")
    if not top.has("fitted"):
        return None
    written = text(row, "uuid")
    side = maybe_text(row, "side") or ""
    try:
        uuid = str(UUID(written)) if written else ""
    except ValueError:
        uuid = ""
        row.wrong("uuid", written, wanted="the uuid of the pattern it was fitted from")
    if side not in _SIDES:
        row.wrong("side", side, wanted='"left" or "right"')
    found = FittedTo(
        uuid=uuid,
        version=whole(row, "version", least=1, most=MAX_VERSION),
        wearer=text(row, "wearer"),
        name=maybe_text(row, "name") or "",
        side=side,
    )
    row.finish()
    return found
