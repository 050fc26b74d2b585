"""Judges what the program makes of the files of a pattern, however spoilt.

Whatever is in a folder: a pattern comes out of it, or findings that say what is wrong and how to
mend it. Nothing else: no other exception, no file opened outside it, nothing slower than 10 s.
"""

import faulthandler
import sys
import sysconfig
import time
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from files.judged_shapes import judge_shapes
from files.small_cuff import SHELF

from armorplan.app.derived import derive_build
from armorplan.app.needs_sections import needs_of, needs_page
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import has_errors
from armorplan.schedule.building import problem_from
from armorplan.schedule.planning import first_plan
from armorplan.schedule.workplace import Workplace
from armorplan.workshop.shop import one_maker

LONGEST_S = 10.0
SHOP = one_maker("UTC")
MONDAY_AT = datetime(2026, 1, 5, 8, tzinfo=UTC)
ZoneInfo(SHOP.zone)  # kept from here on, so that no build opens its file
_ROOT = Path(__file__).resolve().parents[2]
_OWN = {_ROOT, *(Path(p).resolve() for p in (sys.prefix, sys.base_prefix))}
_OWN |= {Path(sysconfig.get_path(key)).resolve() for key in ("stdlib", "purelib", "platlib")}


class _Opened:
    """The files opened while it watches. An audit hook stays for ever, so there is one."""

    def __init__(self) -> None:
        self.paths: list[str] | None = None
        sys.addaudithook(self._hear)

    def _hear(self, event, args):
        if event == "open" and self.paths is not None and isinstance(args[0], str | bytes):
            self.paths.append(args[0] if isinstance(args[0], str) else args[0].decode())


_OPENED = _Opened()


@contextmanager
def watched(folder: Path):
    """Fail where a file outside the folder and the program is opened, or time runs out.

    Time is the processor's, which what else the machine does leaves be; what hangs is ended.
    """
    faulthandler.dump_traceback_later(20 * LONGEST_S, exit=True)
    _OPENED.paths = paths = []
    started = time.process_time()
    try:
        yield
    finally:
        _OPENED.paths = None
        faulthandler.cancel_dump_traceback_later()
    assert time.process_time() - started < LONGEST_S
    allowed = {*_OWN, folder.resolve()}
    real = {Path(path).resolve() for path in paths}
    outside = [p for p in real if not any(p.is_relative_to(home) for home in allowed)]
    assert outside == []


def judge(path: Path, folder: Path | None = None) -> tuple[str, ...]:
    """Read a folder, or a bare drawing in one, and build it; return the codes of what was found."""
    with watched(folder or path):
        try:
            found = read_pattern(read_folder(path), SHELF)
        except UnreadableError as error:
            findings = error.findings
            assert has_errors(findings)
        else:
            findings = found.findings
            assert (found.pattern is None) is has_errors(findings)
            if found.pattern is not None:
                findings = (*findings, *_built(found.pattern))
    for finding in findings:
        assert finding.text
        assert finding.remedy
        assert len(str(finding)) < 1500
        assert str(finding).isprintable()
    return tuple(finding.code for finding in findings)


def _built(pattern):
    """Build a pattern as ``check``, ``needs`` and ``plan`` do; return what was found."""
    derived = derive_build(pattern, SHELF, SHOP, build=pattern.slug)
    judge_shapes(derived)
    assert needs_page(needs_of(derived, SHOP.trays[0])).sections
    if derived.order:
        problem = problem_from(
            derived.work,
            derived.relations,
            Workplace(shop=SHOP, shelf=SHELF),
            origin_at=MONDAY_AT,
            order=derived.order,
        )
        plan = first_plan(problem)
        assert plan.placed or plan.conflict
    return derived.findings


def put(folder: Path, files: dict[str, bytes]) -> None:
    """Write files into a folder, with a link out of it beside them, and a secret outside."""
    folder.mkdir()
    for name, data in files.items():
        (folder / name).write_bytes(data)
    (folder.parent / "secret.svg").write_bytes(b"<svg/>")
    link = folder / "link.svg"
    if not link.exists():
        link.symlink_to(folder.parent / "secret.svg")
