"""What a build at the bench teaches its pattern: steps earlier next time, and what its fits showed.

Both go into the pattern's own file as its next version; the build at the bench stays as it is.
"""

from collections.abc import Callable
from dataclasses import dataclass

from armorplan.app.draft import Refused
from armorplan.app.drafting import OpenDraft
from armorplan.app.fit_corrections import not_mended_yet, told_with_place
from armorplan.app.fit_findings import found_in
from armorplan.app.fit_keeping import keep_findings
from armorplan.app.hindsight import could_have_waited, keep, teach, words
from armorplan.app.session import Session
from armorplan.app.session_protocol import BenchSession
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.findings import Finding

MOST_OFFERED = 30
"""So many steps are offered at most; what was done long before is seldom meant."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """A step that another one may be put before."""

    step: str
    title: str


class NextVersion:
    """Fulfils ``next_version_desk.TeachingBench``."""

    def __init__(self, drafts: Callable[[BenchSession], Callable[[], OpenDraft]]) -> None:
        """Take what reads the pattern of a build: from a session, quickly, to what reads it, slowly."""
        self._drafts = drafts

    def title(self, session: BenchSession, step: str) -> str:
        """Return what a step is called; empty where the build has no such step."""
        work = _real(session).derived.work
        return work.step(step).title if work.has(step) else ""

    def befores(self, session: BenchSession, step: str) -> tuple[Before, ...]:
        """Return before which steps another may be put, the likeliest first.

        That is the last one done before it that could have waited, then all others done before it,
        the latest first.
        """
        build = _real(session)
        done, work = build.done_order, build.derived.work
        before = done[: done.index(step)] if step in done else done
        likely = could_have_waited(build.derived, done, step)
        attended = [one for one in reversed(before) if work.has(one) and work.step(one).attended]
        found = dict.fromkeys((*((likely,) if likely else ()), *attended))
        found.pop(step, None)
        return tuple(Before(step=one, title=work.step(one).title) for one in found)[:MOST_OFFERED]

    def earlier(self, session: BenchSession, step: str, before: str) -> Callable[[], str]:
        """Return what writes that a step comes before another from the next build on, in any thread.

        Its answer is a sentence; it raises ArmorplanError where nothing was written.
        """
        build = _real(session)
        reading, record, derived = self._drafts(session), build.build, build.derived

        def write() -> str:
            taught = teach(reading(), record, derived, step=step, before=before)
            if isinstance(taught, Refused):
                raise ArmorplanError(taught.words)
            home = keep(taught)
            if isinstance(home, Finding):
                raise ArmorplanError(f"{home.text} {home.remedy}".strip())
            return words(taught)

        return write

    def found(self, session: BenchSession) -> tuple[tuple[str, str], ...]:
        """Return what the fits of a build showed: the fit's step, and in words what was found where."""
        build = _real(session)
        found = found_in(build.moment().ledger)
        return tuple((step, told_with_place(build.derived, step, one)) for step, one in found)

    def correcting(self, session: BenchSession) -> Callable[[], str]:
        """Return what writes what the fits showed into the pattern, in any thread.

        Its answer is a sentence; it raises ArmorplanError where nothing was written.
        """
        build = _real(session)
        reading, derived = self._drafts(session), build.derived
        ledger, begun_at = build.moment().ledger, build.build.created_at
        found = [(told.step, one) for told, one in not_mended_yet(derived, ledger, begun_at)]
        return lambda: keep_findings(reading(), derived, found).words


def _real(session: BenchSession) -> Session:
    if not isinstance(session, Session):
        message = "only a build of the workshop has a pattern"
        raise TypeError(message)
    return session
