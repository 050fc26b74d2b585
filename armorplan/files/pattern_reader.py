"""From the files of a pattern to the pattern, with every fault told at once."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from uuid import UUID

from armorplan.files.budget import Budget
from armorplan.files.drawing import Drawing, read_drawing
from armorplan.files.drawn_index import Asked, DrawnIndex
from armorplan.files.faults import Faults, brief
from armorplan.files.joining_rows import (
    JointRow,
    ThreadRow,
    read_forms,
    read_joints,
    read_seams,
    read_threads,
    read_treatments,
    slots_of,
)
from armorplan.files.layout import Layout, Wanted, lay_out
from armorplan.files.part_rows import (
    PartRow,
    read_declared_holes,
    read_materials,
    read_parts,
    read_pieces,
)
from armorplan.files.references import Names, check_once, check_ref
from armorplan.files.source import PATTERN_FILE, PatternFiles, content_hash
from armorplan.files.tables import Table, open_toml, said
from armorplan.files.values import maybe_text, text, texts, whole
from armorplan.kernel.findings import Finding, has_errors
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.sides import mixed_entries
from armorplan.workshop.shelf import Shelf

KNOWN_FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadPattern:
    """A pattern and what was found in its files; no pattern where an error was found."""

    pattern: Pattern | None
    findings: tuple[Finding, ...]


def read_pattern(source: PatternFiles, shelf: Shelf) -> ReadPattern:
    """Read a pattern from its files.

    Args:
        source: from ``read_folder`` or, out of a snapshot, ``from_texts``.
        shelf: what leathers, fasteners and treatments it may name.

    Raises:
        UnreadableError: a file is not text.
    """
    faults = Faults()
    contents = source.as_texts()
    top = open_toml(PATTERN_FILE, contents.get(PATTERN_FILE, ""), faults)
    pattern = None
    if top is not None and _format_is_known(top):
        pattern = _Reading(source, contents, faults=faults).read(top, shelf)
    findings = faults.findings
    return ReadPattern(pattern=None if has_errors(findings) else pattern, findings=findings)


def _format_is_known(top: Table) -> bool:
    written = top.raw("format")
    if written is None:
        top.missing("format", wanted=f"{KNOWN_FORMAT} as the first line")
        return True
    if isinstance(written, int) and not isinstance(written, bool) and written > KNOWN_FORMAT:
        top.fault(
            "format",
            "newer-format",
            f"The pattern was written for a newer Armorplan: its format is {said(written)}, "
            f"this program reads up to {KNOWN_FORMAT}.",
            mend="Bring Armorplan up to date.",
        )
        return False
    if written is not True and written == KNOWN_FORMAT:
        return True
    top.wrong("format", written, wanted=f"format = {KNOWN_FORMAT}")
    return True


class _Reading:
    """One reading of a pattern's files."""

    def __init__(self, source: PatternFiles, contents: dict[str, str], *, faults: Faults) -> None:
        self._source = source
        self._contents = contents
        self._faults = faults

    def read(self, top: Table, shelf: Shelf) -> Pattern:
        """Return the pattern, sound only if no error was told."""
        head = top.table("pattern")
        drawings = self._drawings(head)
        pieces = read_pieces(top)
        materials = read_materials(top, shelf)
        rows = read_parts(top, pieces, materials)
        bare_parts = {row.part.id: row.part for row in rows}
        joints = read_joints(top, shelf)
        joint_ids = tuple(row.joint.id for row in joints)
        threads = read_threads(top, bare_parts, joint_ids)
        seams = read_seams(top, joint_ids)
        layout = self._laid_out(top, drawings, rows, joints=joints, threads=threads)
        pattern = Pattern(
            uuid=_uuid(head),
            slug=self._source.slug,
            name=text(head, "name"),
            version=whole(head, "version", least=1),
            content_hash=content_hash(self._source),
            notes=maybe_text(head, "notes") or "",
            pieces=pieces,
            materials=tuple(materials.values()),
            parts=tuple(_complete(row.part, layout) for row in rows),
            joints=tuple(row.joint for row in joints),
            seams=seams,
            threads=tuple(row.thread for row in threads),
            forms=read_forms(top, bare_parts, [seam.id for seam in seams]),
            treatments=read_treatments(top, bare_parts, shelf),
        )
        for row in rows:
            _check_hides(row, joint_ids)
        if not has_errors(self._faults.findings):
            _check_sides(top, pattern)
        head.finish()
        top.finish()
        return pattern

    def _drawings(self, head: Table) -> tuple[Drawing, ...]:
        names = texts(head, "drawings", required=True)
        check_once(head, "drawings", names)
        budget = Budget()
        drawings: list[Drawing] = []
        for name in dict.fromkeys(names):
            if name in self._contents:
                drawings.append(read_drawing(name, self._contents[name], budget))
                self._faults.put(*drawings[-1].findings)
            else:
                drawings.append(Drawing(name=name, readable=False))
                head.fault(
                    "drawings",
                    "no-such-file",
                    f'The drawing "{brief(name)}" is not among the pattern\'s files.',
                    mend="Put it into the folder, or take its name out.",
                )
        return tuple(drawings)

    def _laid_out(
        self,
        top: Table,
        drawings: Sequence[Drawing],
        rows: Sequence[PartRow],
        *,
        joints: Iterable[JointRow],
        threads: Iterable[ThreadRow],
    ) -> Layout:
        """Find what the tables name in the drawings, and give holes and slots their parts."""
        index = DrawnIndex(drawings, self._faults)
        parts = {row.part.id: row.part for row in rows}
        declared = read_declared_holes(top, parts)
        for row in rows:
            place = row.table.place("outline")
            index.outline(Asked(id=row.outline, what="outline", place=place))
        holes: set[str] = set()
        for joint_row in joints:
            place = joint_row.table.place("stack")
            for hole in joint_row.joint.stack:
                index.circle(Asked(id=hole, what="circle", place=place))
                holes.add(hole)
        slots: set[str] = set()
        owners = {row.outline: row.part.id for row in rows}
        for thread_row in threads:
            place = thread_row.table.place("through")
            for slot in slots_of(thread_row, parts, owners):
                index.outline(Asked(id=slot, what="outline", place=place))
                slots.add(slot)
        for hole, owner in declared.items():
            index.circle(Asked(id=hole, what="circle", place=owner.place))
        wanted = Wanted(
            outlines={row.part.id: row.outline for row in rows},
            holes=holes,
            slots=slots,
            declared=declared,
        )
        layout = lay_out(drawings, index, wanted, self._faults)
        index.tell_doubles()
        return layout


def _check_sides(top: Table, pattern: Pattern) -> None:
    for mixed in mixed_entries(pattern):
        top.table(mixed.table).fault(
            mixed.id,
            "single-to-pair",
            f"'{mixed.id}' brings '{mixed.once}', which is made once, together with "
            f"'{mixed.paired}', which is made left and right: one hole cannot serve both sides.",
            mend="Put both in pieces that are mirrored, or in pieces that are not, with the left "
            "and the right drawn as parts of their own.",
        )


def _uuid(head: Table) -> str:
    written = text(head, "uuid")
    try:
        return str(UUID(written)) if written else ""
    except ValueError:
        head.wrong(
            "uuid", written, wanted="a UUID like 2f1c3a5e-… (the command uuidgen makes one)"
        )
        return ""


def _complete(part: Part, layout: Layout) -> Part:
    outline = layout.outlines.get(part.id)
    return replace(
        part,
        outline=outline.ring if outline else (),
        holes=tuple(layout.holes.get(part.id, ())),
        slots=tuple(layout.slots.get(part.id, ())),
    )


def _check_hides(row: PartRow, joints: Sequence[str]) -> None:
    names = Names(what="joint", ids=joints)
    for joint in row.part.hides:
        check_ref(row.table, "hides", value=joint, names=names)
