"""From the files of a pattern to the pattern, with every fault told at once."""

from dataclasses import dataclass
from uuid import UUID

from armorplan.files.bare_words import drawn_findings
from armorplan.files.budget import Budget
from armorplan.files.drawing import Drawing, read_drawing
from armorplan.files.drawn_parts import Rows, find_drawn
from armorplan.files.faults import Faults, brief
from armorplan.files.joining_rows import read_joints, read_seams, read_threads
from armorplan.files.limits import MAX_VERSION
from armorplan.files.misnamed import only_their_own
from armorplan.files.moving_rows import check_pivots, read_movements
from armorplan.files.option_rows import choice_names, read_options
from armorplan.files.own_relations import read_overrulings, read_own_relations
from armorplan.files.own_rows import read_corrections, read_own_steps, read_versions
from armorplan.files.part_rows import (
    check_covers,
    read_declared_holes,
    read_materials,
    read_parts,
    read_pieces,
)
from armorplan.files.pattern_checks import check_whole
from armorplan.files.references import Names, check_once
from armorplan.files.shaping_rows import read_forms, read_treatments
from armorplan.files.sizing_rows import read_drawn_for, read_fitted, read_scalings
from armorplan.files.source import PATTERN_FILE, PatternFiles, content_hash
from armorplan.files.tables import Table, open_toml, said
from armorplan.files.values import maybe_text, text, texts, whole
from armorplan.files.wearing_rows import (
    read_fit_checks,
    read_hardware,
    read_harnesses,
    read_strap_places,
    read_suspensions,
)
from armorplan.kernel.findings import Finding, has_errors
from armorplan.pattern.pattern import Pattern
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
        meant = top.misnamed()
        if meant:
            mended = Faults()
            _Reading(source, contents, faults=mended).read(top.with_names(meant, mended), shelf)
            faults = only_their_own(faults, mended, meant=meant, top=top)
    faults.put(*source.findings)
    if pattern is not None and source.bare and not has_errors(faults.findings):
        faults.put(*drawn_findings(pattern, source.bare))
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
        version = whole(head, "version", least=1, most=MAX_VERSION)
        options = read_options(top)
        choices = choice_names(options)
        pieces = read_pieces(top)
        materials = read_materials(top, shelf)
        part_rows = read_parts(top, pieces, materials, choices=choices)
        parts = {row.part.id: row.part for row in part_rows}
        joint_rows = read_joints(top, parts, shelf=shelf, choices=choices)
        piece_names = Names(what="piece", ids={piece.id for piece in pieces})
        part_names = Names(what="part", ids=parts)
        joint_names = Names(what="joint", ids={row.joint.id for row in joint_rows})
        seams = read_seams(top, joint_names)
        seam_ids = {seam.id for seam in seams}
        rows = Rows(
            parts=part_rows,
            declared=read_declared_holes(top, parts),
            joints=joint_rows,
            threads=read_threads(top, parts, joints=joint_names, choices=choices),
            forms=read_forms(top, parts, seams=seam_ids, shelf=shelf, choices=choices),
            places=read_strap_places(top, part_names, choices=choices),
            corrections=read_corrections(top),
        )
        movements = read_movements(top, part_names, choices)
        drawn_for = read_drawn_for(top, shelf.measures)
        drawn = find_drawn(drawings, rows, self._faults)
        check_pivots(movements, joint_rows, drawn.parts)
        check_covers(part_rows, joints=joint_names, parts=part_names)
        pattern = Pattern(
            uuid=_uuid(head),
            slug=self._source.slug,
            name=text(head, "name"),
            version=version,
            content_hash=content_hash(self._source),
            notes=maybe_text(head, "notes") or "",
            pieces=pieces,
            materials=tuple(materials.values()),
            parts=drawn.parts,
            joints=tuple(row.joint for row in joint_rows),
            seams=seams,
            threads=tuple(row.thread for row in rows.threads),
            forms=drawn.forms,
            treatments=read_treatments(top, parts, shelf=shelf, choices=choices),
            harnesses=read_harnesses(top, piece_names),
            hardware=read_hardware(
                top, part_names, joints=joint_names, shelf=shelf, choices=choices
            ),
            strap_places=tuple(row.place for row in rows.places),
            fit_checks=read_fit_checks(top, piece_names, parts=part_names),
            suspensions=read_suspensions(top, piece_names, parts=part_names),
            own_steps=read_own_steps(top, parts, pieces=piece_names, choices=choices),
            own_relations=read_own_relations(top, choices),
            overrulings=read_overrulings(top),
            corrections=tuple(correction for _, correction in rows.corrections),
            options=options,
            movements=tuple(row.movement for row in movements),
            drawn_for=drawn_for,
            scalings=read_scalings(top, part_names, drawn_for, shelf.measures),
            fitted=read_fitted(top),
            versions=read_versions(top, version),
        )
        if not has_errors(self._faults.findings):
            check_whole(top, pattern)
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


def _uuid(head: Table) -> str:
    written = text(head, "uuid")
    try:
        return str(UUID(written)) if written else ""
    except ValueError:
        head.wrong(
            "uuid", written, wanted="a UUID like 2f1c3a5e-… (the command uuidgen makes one)"
        )
        return ""
