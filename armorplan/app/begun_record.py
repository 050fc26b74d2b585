"""What the workshop keeps of a build that begins: the snapshot of what it is made from."""

from datetime import datetime

from armorplan.app.derived import Derived
from armorplan.app.snapshots import relations_text, shelf_text
from armorplan.files.source import PatternFiles
from armorplan.ledger.builds import BuildRecord
from armorplan.workshop.shelf import Shelf


def begun_record(
    derived: Derived, source: PatternFiles, *, shelf: Shelf, at: datetime, name: str, folder: str
) -> BuildRecord:
    """Return a build that begins at an instant, with the snapshot of what it is made from.

    ``shelf`` is the shop's own: what was learned of its hands is no part of a snapshot, or it would
    count twice when the build is resumed.
    """
    pattern = derived.pattern
    return BuildRecord(
        id=derived.assembly.build,
        name=name,
        pattern_uuid=pattern.uuid,
        pattern_version=pattern.version,
        pattern_hash=pattern.content_hash,
        created_at=at,
        pattern_files=tuple(source.as_texts().items()),
        constants_json=shelf_text(shelf),
        relations_json=relations_text(derived.relations),
        folder=folder,
    )
