"""Corrections that dry fits bring to a pattern: asked for, accepted one by one, kept as a version."""

from collections import Counter
from collections.abc import Callable, Collection
from dataclasses import dataclass, replace
from datetime import date

from armorplan.app.corrections_model import CorrectionRow, PatternBuild, Standing, VersionRow
from armorplan.app.corrections_rows import proposals
from armorplan.app.corrections_versions import noted, versions_rows
from armorplan.app.draft import Refused, refused
from armorplan.app.drafting import Home, OpenDraft, save
from armorplan.app.fit_corrections import NextVersion, texts_of, with_told
from armorplan.app.session import Session
from armorplan.app.session_protocol import BenchSession
from armorplan.kernel.errors import ArmorplanError
from armorplan.ledger.events import Event
from armorplan.ledger.state import derive


@dataclass(frozen=True, slots=True, kw_only=True)
class Corrections:
    """What is known of a pattern's corrections and versions; it stays as it was asked for.

    Attributes:
        opened: the pattern as its folder holds it.
        rows: what the dry fits showed.
        versions: the newest first.
        said: why nothing can be written where it lies; empty where it can.
        builds: the builds of the pattern.
        troubles: why a build is missing, as sentences.
    """

    opened: OpenDraft
    rows: tuple[CorrectionRow, ...]
    versions: tuple[VersionRow, ...]
    said: str
    builds: tuple[PatternBuild, ...]
    troubles: tuple[str, ...] = ()

    @property
    def next_version(self) -> int:
        """The number that the pattern has once something is accepted."""
        pattern = self.opened.draft.pattern
        cut = [build.version for build in self.builds]
        now = pattern.version if pattern else 0
        return now if now > max(cut, default=0) else now + 1


def corrections_asked(
    session: BenchSession, reading: Callable[[], OpenDraft]
) -> Callable[[], Corrections]:
    """Return what looks through all builds of a pattern, in any thread.

    Args:
        session: the build at the bench; the others are read along now, and derived later.
        reading: reads the pattern of the build, slowly.

    Raises:
        WorkshopError: the workshop file cannot be read.
    """
    build = _real(session)
    kin = build.builds_of_pattern()
    alike = Counter(name for _, name, _ in kin)
    open_derived, open_id = build.derived, build.build.id

    def ask() -> Corrections:
        opened = reading()
        found: list[tuple[PatternBuild, tuple[Event, ...]]] = []
        troubles: list[str] = []
        for record, name, events in kin:
            derived = open_derived if record.id == open_id else build.derived_of(record)
            if alike[name] > 1:
                name = f"{name} ({record.id})"  # noqa: PLW2901 - told apart from here on
            if derived is None:
                troubles.append(f"{name} could not be looked through.")
                continue
            made = PatternBuild(
                build=record.id,
                name=name,
                version=record.pattern_version,
                derived=derived,
                ledger=derive(events),
                begun_at=record.created_at,
            )
            found.append((made, events))
        builds = tuple(made for made, _ in found)
        return Corrections(
            opened=opened,
            rows=proposals(opened.draft, builds),
            versions=versions_rows(opened.draft, found, open_build=open_id),
            said=opened.home.said if opened.home.folder else opened.home.said or _NO_FOLDER,
            builds=builds,
            troubles=tuple(troubles),
        )

    return ask


_NO_FOLDER = "The folder of the pattern is not known."


def accepted(
    asked: Corrections, keys: Collection[str], *, note: str = "", on: date | None = None
) -> NextVersion | Refused:
    """Return the pattern's next version with the corrections that were accepted, unsaved.

    Args:
        asked: what was looked through.
        keys: keys of the accepted rows; the others stay offered.
        note: what the version brings, in the maker's words.
        on: the day.
    """
    rows = [row for row in asked.rows if row.key in keys and row.standing is Standing.OFFERED]
    if not rows:
        return refused("Nothing is accepted that the pattern has not yet.", code="nothing-found")
    made = NextVersion(draft=asked.opened.draft, changes=())
    of_build = {build.build: build for build in asked.builds}
    for row in rows:
        build = of_build[row.told.step.partition("/")[0]]
        one = with_told(made.draft, build.derived, row.told, row.changes)
        if isinstance(one, Refused):
            return one
        made = NextVersion(draft=one.draft, changes=(*made.changes, *one.changes))
    raised = made.draft.in_haste().raised_above(max(build.version for build in asked.builds))
    if isinstance(raised, Refused):
        return raised
    told = noted(
        raised,
        changed=texts_of(made.changes),
        builds=list(dict.fromkeys(found.build for row in rows for found in row.found)),
        note=note.strip(),
        on=on.isoformat() if on else "",
    )
    return told if isinstance(told, Refused) else replace(made, draft=told)


def keep_accepted(
    asked: Corrections, keys: Collection[str], *, note: str = "", on: date | None = None
) -> str:
    """Write accepted corrections into the pattern's folder; return what was kept, as sentences.

    Raises:
        ArmorplanError: nothing was accepted, the pattern may not be written where it lies, or
            somebody else wrote it since; nothing was changed.
    """
    made = accepted(asked, keys, note=note, on=on)
    if isinstance(made, Refused):
        raise ArmorplanError(made.words)
    home = save(made.draft, asked.opened.home)
    if not isinstance(home, Home):
        raise ArmorplanError(f"{home.text} {home.remedy}".strip())
    told = " ".join(texts_of(made.changes))
    version = made.draft.entry("pattern", "").get("version")
    return f"Kept in version {version} of the pattern; builds under way stay as they are. {told}"


def _real(session: BenchSession) -> Session:
    if not isinstance(session, Session):
        message = "only a build of the workshop has a pattern"
        raise TypeError(message)
    return session
