"""A pattern that takes what a build teaches it, without files."""

from dataclasses import dataclass, field

from armorplan.app.next_version import Before
from armorplan.kernel.errors import ArmorplanError


@dataclass
class FakeTeaching:
    """Fulfils ``TeachingBench``."""

    taught: list[tuple[str, str]] = field(default_factory=list)
    findings: tuple[tuple[str, str], ...] = ()
    corrected: int = 0
    refusal: str = ""

    def title(self, session, step):
        return next((s.title for s in session.steps if s.id == step), "")

    def befores(self, session, step):
        done = [s for s in session.steps if s.id in session._bench.done and s.id != step]
        return tuple(Before(step=s.id, title=s.title) for s in reversed(done))

    def earlier(self, _session, step, before):
        def write() -> str:
            if self.refusal:
                raise ArmorplanError(self.refusal)
            self.taught.append((step, before))
            return "From the next build on it comes first."

        return write

    def found(self, _session):
        return self.findings

    def correcting(self, _session):
        def write() -> str:
            self.corrected += 1
            return "Kept in version 2 of the pattern."

        return write
