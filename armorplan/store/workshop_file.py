"""The workshop file: builds with their snapshots, the ledger, and each build's last plan."""

from dataclasses import replace
from pathlib import Path
from typing import Self

from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event
from armorplan.store.absence_file import AbsenceFile
from armorplan.store.air_file import AirFile
from armorplan.store.columns import build_of, build_row, event_of, event_row, instant_text
from armorplan.store.connection import connect
from armorplan.store.cut_log_file import CutLogFile
from armorplan.store.drill_file import DrillFile
from armorplan.store.fresh_start_file import FreshStartFile
from armorplan.store.gate import OPEN, Gate
from armorplan.store.keepsake_file import KeepsakeFile
from armorplan.store.lean import Database
from armorplan.store.order_file import OrderFile
from armorplan.store.skill_file import SkillFile
from armorplan.store.tables import Tables
from armorplan.store.timer_file import TimerFile
from armorplan.store.troubles import in_plain_words

_ADD_BUILD = """
    INSERT INTO builds (id, name, pattern_uuid, pattern_version, pattern_hash, created_at,
        pattern_files_json, constants_json, relations_json, folder)
    VALUES (:id, :name, :pattern_uuid, :pattern_version, :pattern_hash, :created_at,
        :pattern_files_json, :constants_json, :relations_json, :folder)
"""
_APPEND = """
    INSERT INTO events (build, step, kind, at, boot_id, boot_s, batch, who, text, undoes)
    VALUES (:build, :step, :kind, :at, :boot_id, :boot_s, :batch, :who, :text, :undoes)
"""
_SAVE_PLAN = """
    REPLACE INTO plans (build, saved_at, plan_json) VALUES (:build, :saved_at, :plan_json)
"""
"""As a new row: the last row is the plan that was kept last, also by a clock that was set back."""
_BUILDS = "SELECT * FROM builds ORDER BY rowid"
_NAMES = "SELECT id, name FROM builds ORDER BY rowid"
_NAMES_OF = "SELECT id, name FROM builds WHERE pattern_uuid = :uuid ORDER BY rowid"
_BUILD = "SELECT * FROM builds WHERE id = :id"
_EVENTS = "SELECT * FROM events WHERE build = :build AND seq > :seq ORDER BY seq"
_ALL_EVENTS = "SELECT * FROM events ORDER BY seq"
_LOOK_EVENTS = """
    SELECT * FROM events WHERE kind IN ('looked', 'weighed', 'undone', 'redone') ORDER BY seq
"""
_PLAN = "SELECT plan_json FROM plans WHERE build = :build"
_LATEST_PLAN = "SELECT plan_json FROM plans ORDER BY rowid DESC LIMIT 1"
_RESTORED = "SELECT kept_as FROM restorings ORDER BY seq DESC LIMIT 1"
"""Numbers are given anew after a restoring; what stood there before has a name of its own."""


class WorkshopFile:
    """An open workshop file, for the thread that opened it; other windows may hold it too.

    Every method raises WorkshopError, with the path and what to do, where the file cannot be
    read or written. What a method has returned from is on the disk.

    Attributes:
        timers: what was done about timers, and the timers of each build.
        absences: who is away, as was said at the bench.
        air: the workshop's own air.
        fresh_starts: what was to be learned from nothing again.
        orders: what was agreed about builds, and the plans that were promised.
        keepsakes: notes, measurements and photos kept with builds.
        cut_log: what machines were set to, and how their cuts came out.
        drills: who answered which exercise, and how.
        skills: who does which kind of step, as was signed off.
    """

    def __init__(self, db: Database, path: Path, clock: Clock, gate: Gate = OPEN) -> None:
        self._db = db
        self._path = path
        self._clock = clock
        self._tables = Tables(db, path, gate)
        self._write, self._read = self._tables.write, self._tables.read
        self.timers = TimerFile(self._tables, clock)
        self.absences = AbsenceFile(self._tables, clock)
        self.air = AirFile(self._tables, clock)
        self.fresh_starts = FreshStartFile(self._tables, clock)
        self.orders = OrderFile(self._tables, clock)
        self.keepsakes = KeepsakeFile(self._tables, path, clock)
        self.cut_log = CutLogFile(self._tables)
        self.drills = DrillFile(self._tables)
        self.skills = SkillFile(self._tables)

    @classmethod
    def open(cls, path: Path, clock: Clock, gate: Gate = OPEN) -> Self:
        """Open a workshop file, or make it and its folder; see ``connection.connect``.

        ``gate`` says whether it may be written to: of windows one at a time does.
        """
        return cls(connect(path, gate=gate), path, clock, gate)

    @property
    def path(self) -> Path:
        """Where the file lies."""
        return self._path

    def builds(self) -> tuple[BuildRecord, ...]:
        """Return all builds in the order in which they were begun, whatever the clock said."""
        return self._read(build_of, _BUILDS, {})

    def names(self) -> dict[str, str]:
        """Return the names of all builds by their ids, as begun; no snapshot is read for it."""
        return dict(self._read(lambda row: (row["id"], row["name"]), _NAMES, {}))

    def names_of(self, pattern_uuid: str) -> dict[str, str]:
        """Return the names of a pattern's builds by their ids, as begun; no snapshot is read for it."""
        held = {"uuid": pattern_uuid}
        return dict(self._read(lambda row: (row["id"], row["name"]), _NAMES_OF, held))

    def build(self, build_id: str) -> BuildRecord:
        """Return a build by id; WorkshopError where there is none."""
        found = self._read(build_of, _BUILD, {"id": build_id})
        if not found:
            there = ", ".join(build.id for build in self.builds()) or "none"
            raise WorkshopError(
                f"The workshop file {self._path} has no build {build_id!r}. It has: {there}."
            )
        return found[0]

    def add_build(
        self,
        build: BuildRecord,
        events: tuple[Event, ...] = (),
        *,
        order: BuildOrder | None = None,
        former: str = "",
    ) -> None:
        """Add a build with its snapshot, and the entries it starts with, for ever: all or none.

        Args:
            build: the new build.
            events: what it takes over.
            order: what was agreed about it.
            former: the build it goes on from, whose order and keepsakes it takes over.

        Raises:
            WorkshopError: its id or its order is taken, or the file cannot be written.
        """
        entries = [(_APPEND, event_row(event)) for event in events]
        agreed = [self.orders.keeping(order)] if order else []
        if former:
            taken = self.orders.handing_on(former, build.id)
            agreed += [taken, self.keepsakes.handing_on(former, build.id)]
        self._write((_ADD_BUILD, build_row(build)), *entries, *agreed)

    def append(
        self, events: tuple[Event, ...], timers: tuple[str, str] | None = None
    ) -> tuple[Event, ...]:
        """Append entries, all or none, and return them with their numbers.

        ``timers``: a build's id and its timers from then on, kept in the same go.
        """
        also = (self.timers.keeping(*timers),) if timers and events else ()
        numbers = self._write(*((_APPEND, event_row(event)) for event in events), *also)
        return tuple(replace(e, seq=seq) for e, seq in zip(events, numbers, strict=False))

    def events(self, build_id: str) -> tuple[Event, ...]:
        """Return all entries of a build in order."""
        return self.events_since(build_id, 0)

    def events_since(self, build_id: str, seq: int) -> tuple[Event, ...]:
        """Return a build's entries numbered above ``seq``, of whichever window, in order."""
        return self._read(event_of, _EVENTS, {"build": build_id, "seq": seq})

    def all_events(self) -> tuple[Event, ...]:
        """Return the entries of all builds in order: what a workshop learns from."""
        return self._read(event_of, _ALL_EVENTS, {})

    def look_events(self) -> tuple[Event, ...]:
        """Return looks at dryings, weighings, and what was taken back or restored, of all builds.

        What was taken back is told by its press, so that nothing else has to be read.
        """
        return self._read(event_of, _LOOK_EVENTS, {})

    def save_plan(self, build_id: str, plan_json: str) -> None:
        """Keep this as the build's last plan, in place of the one before."""
        saved_at = instant_text(self._clock.now())
        row = {"build": build_id, "saved_at": saved_at, "plan_json": plan_json}
        self._write((_SAVE_PLAN, row))

    def last_plan(self, build_id: str) -> str | None:
        """Return the build's last plan, or ``None``."""
        found = self._read(lambda row: str(row["plan_json"]), _PLAN, {"build": build_id})
        return found[0] if found else None

    def latest_plan(self) -> str | None:
        """Return the plan that was kept last, whichever build stood at the bench; or ``None``."""
        found = self._read(lambda row: str(row["plan_json"]), _LATEST_PLAN, {})
        return found[0] if found else None

    def mark(self) -> object:
        """Return a value that is another once this or any other window has written.

        It costs some microseconds and reads no table.
        """
        return self._tables.mark()

    def restored(self) -> str:
        """Return what tells the last restoring of this workshop apart; empty where none was."""
        found = self._read(lambda row: str(row["kept_as"]), _RESTORED, {})
        return found[0] if found else ""

    def close(self) -> None:
        """Close the file; its companions are folded into it by the last window to close."""
        with in_plain_words(self._path, "closed"):
            self._db.close()
