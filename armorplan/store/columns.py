"""Rows of the workshop file and the values they stand for."""

import json
from datetime import UTC, datetime
from typing import Any

from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event, EventKind

Row = dict[str, Any]


def instant_text(at: datetime) -> str:
    """Write an aware instant as UTC to the microsecond, so that texts sort as instants do.

    Raises:
        ValueError: the instant has no zone.
    """
    if at.tzinfo is None:
        raise ValueError(f"an instant without a zone cannot be stored: {at.isoformat()}")
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def event_row(event: Event) -> Row:
    """Return the row of an entry, without its number."""
    return {
        "build": event.build,
        "step": event.step,
        "kind": event.kind.value,
        "at": instant_text(event.at),
        "boot_id": event.boot_id,
        "boot_s": float(event.boot_s),
        "batch": event.batch,
        "who": event.who,
        "text": event.text,
        "undoes": event.undoes,
    }


def event_of(row: Row) -> Event:
    """Return the entry of a row; ValueError where the row holds what no entry can."""
    return Event(
        **{**row, "kind": EventKind(row["kind"]), "at": datetime.fromisoformat(row["at"])}
    )


def build_row(build: BuildRecord) -> Row:
    """Return the row of a build."""
    return {
        "id": build.id,
        "name": build.name,
        "pattern_uuid": build.pattern_uuid,
        "pattern_version": build.pattern_version,
        "pattern_hash": build.pattern_hash,
        "created_at": instant_text(build.created_at),
        "pattern_files_json": json.dumps(build.pattern_files, ensure_ascii=False),
        "constants_json": build.constants_json,
        "relations_json": build.relations_json,
        "folder": build.folder,
    }


def build_of(row: Row) -> BuildRecord:
    """Return the build of a row; ValueError where the row holds what no build can."""
    values = dict(row)
    files = json.loads(values.pop("pattern_files_json"))
    return BuildRecord(
        **{
            **values,
            "created_at": datetime.fromisoformat(row["created_at"]),
            "pattern_files": tuple((name, text) for name, text in files),
        }
    )
