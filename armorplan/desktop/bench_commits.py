"""What the next blow closes off, asked beside the window and kept until something is done."""

from PySide6.QtCore import QCoreApplication, QObject, Signal

from armorplan.app.bench_card import BenchCard
from armorplan.app.closes_off import ClosesOff
from armorplan.app.closing_words import FOR_GOOD
from armorplan.desktop.bench_content import Commit, Weight
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop

Asked = tuple[str, int]
"""A step, and how many stood when it was asked."""


class BenchCommits(QObject):
    """``told`` says that a line is known now; until then the band says that it is being looked at."""

    told = Signal()

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._known: dict[Asked, ClosesOff] = {}
        self._asking: Asked | None = None
        self._runner = Runner(self)
        self._runner.better.connect(self._take)
        self._runner.answered.connect(self._end)
        self._runner.failed.connect(self._fail)
        bridge.opened.connect(self._forget)

    def closing(self, card: BenchCard) -> ClosesOff | None:
        """Return what a step closes off; asked for where it is not known yet."""
        asked = card.step, card.done_count
        found = self._known.get(asked)
        if found is None and self._asking != asked:
            self._asking = asked
            self._ask(asked)
        return found

    def line(self, card: BenchCard) -> Commit:
        """Return the commit line of a step; empty where hands do nothing, or all is done."""
        if card.is_over or not card.attended:
            return Commit()
        found = self.closing(card)
        if found is None:
            return Commit(text=_say("Looking at what this closes off …"))
        if not (found.by or found.is_grave):
            return Commit(text=found.text)
        for_good = card.kind in FOR_GOOD and not found.is_grave
        return Commit(text=found.text, weight=Weight.FOR_GOOD if for_good else Weight.CLOSES)

    def _ask(self, asked: Asked) -> None:
        asking = self._bridge.session.asking_commit(asked[0])

        def work(report: Report, _should_stop: ShouldStop) -> object:
            report((asked, asking()))
            return asked

        self._runner.ask(work)

    def _take(self, answer: tuple[Asked, ClosesOff]) -> None:
        asked, found = answer
        if self._known and next(iter(self._known))[1] != asked[1]:
            # Something was done since: what the others close off may be another thing now.
            self._known.clear()
        self._known[asked] = found

    def _end(self, asked: Asked) -> None:
        if asked == self._asking:
            self._asking = None
        self.told.emit()

    def _fail(self, error: Exception) -> None:
        if self._asking is not None:
            text = _say("What this closes off is not known: {0}.").format(str(error).rstrip("."))
            self._known[self._asking] = ClosesOff(text=text, is_grave=True)
        self.told.emit()

    def _forget(self) -> None:
        self._runner.drop()
        self._known.clear()
        self._asking = None

    def close(self) -> None:
        """Wait for what is still being reckoned."""
        self._runner.close()


def _say(text: str) -> str:
    return QCoreApplication.translate("bench_commits", text)
