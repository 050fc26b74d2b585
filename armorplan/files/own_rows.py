"""The tables of what the maker adds beside relations: own steps, known corrections, versions."""

from datetime import date

from armorplan.files.faults import brief
from armorplan.files.limits import MAX_VERSION, SPOT, WAIT_MIN, WORK_MIN
from armorplan.files.option_rows import read_only_with
from armorplan.files.references import Names, check_once, ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import maybe_text, point, text, texts, whole
from armorplan.pattern.own_work import Correction, OwnStep, VersionNote
from armorplan.pattern.parts import Part

_USUAL_MIN = 5


def read_own_steps(
    top: Table, parts: dict[str, Part], *, pieces: Names, choices: Names
) -> tuple[OwnStep, ...]:
    """Return the steps the maker adds, in the order they are written."""
    of_piece = {
        piece: Names(
            what=f'part of the piece "{brief(piece)}"',
            ids=[part.id for part in parts.values() if part.piece == piece],
        )
        for piece in dict.fromkeys(part.piece for part in parts.values())
    }
    none = Names(what="part of that piece", ids=())
    found: list[OwnStep] = []
    for key, row in top.table("own_steps").rows():
        piece = ref(row, "piece", pieces)
        step = OwnStep(
            id=key,
            name=text(row, "name"),
            piece=piece,
            parts=refs(row, "parts", of_piece.get(piece, none)),
            minutes=whole(row, "minutes", least=0, most=WORK_MIN, default=_USUAL_MIN),
            wait_min=whole(row, "wait_min", least=0, most=WAIT_MIN, default=0),
            tool=maybe_text(row, "tool") or "",
            cautions=texts(row, "cautions"),
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, choices),
        )
        row.finish()
        found.append(step)
    return tuple(found)


def read_corrections(top: Table) -> tuple[tuple[Table, Correction], ...]:
    """Return the known corrections with their tables; whether their holes exist comes later."""
    found: list[tuple[Table, Correction]] = []
    for key, row in top.table("corrections").rows():
        holes = texts(row, "holes", required=True)
        check_once(row, "holes", holes)
        correction = Correction(
            id=key,
            name=text(row, "name"),
            holes=tuple(dict.fromkeys(holes)),
            move_mm=point(row, "move_mm", SPOT) or (0.0, 0.0),
            notes=maybe_text(row, "notes") or "",
        )
        row.finish()
        found.append((row, correction))
    return tuple(found)


def read_versions(top: Table, now: int) -> tuple[VersionNote, ...]:
    """Return what is noted of the pattern's versions, in the order it is written.

    Args:
        top: the pattern file.
        now: the version that the pattern says it is.
    """
    found: list[VersionNote] = []
    for key, row in top.table("versions").rows():
        version = whole(row, "version", least=1, most=MAX_VERSION)
        if version > now > 0:
            row.wrong("version", version, wanted=f"{now} at most, which is the pattern's version")
        twin = next((one.id for one in found if one.version == version), "")
        if twin:
            row.fault(
                "version",
                "version-noted-twice",
                f'"{brief(twin)}" and "{brief(key)}" both speak of version {version}.',
                mend="Put them into one.",
            )
        found.append(
            VersionNote(
                id=key,
                version=version,
                note=maybe_text(row, "note") or "",
                from_builds=texts(row, "from_builds"),
                on=_day(row, "on"),
                changed=texts(row, "changed"),
            )
        )
        row.finish()
    return tuple(found)


def _day(row: Table, key: str) -> str:
    written = maybe_text(row, key) or ""
    try:
        return date.fromisoformat(written).isoformat() if written else ""
    except ValueError:
        row.wrong(key, written, wanted='the day as "2026-11-29": year, month, day')
        return ""
