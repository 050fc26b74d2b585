"""What the verbs do in the bench view."""

from PySide6.QtCore import QObject, Signal

from armorplan.app.bench_card import BenchCard
from armorplan.app.rows import BenchState
from armorplan.desktop.bench_leaf import Leaf
from armorplan.desktop.bench_place import BenchPlace
from armorplan.desktop.bench_verbs import Verb
from armorplan.desktop.bench_walk import Walk
from armorplan.desktop.bridge import Bridge

BOUNCE_S = 0.4
"""A pedal sends twice what is pressed once: the same verb so soon after is no second press."""
FRESH_S = 10.0
"""So long taking back stands out after each press; it can be done later, too."""


class BenchDesk(QObject):
    """Speaks each verb to the leaf that lies over the view, else to the step in hand.

    ``turned`` says that what is shown has changed, ``amiss_asked`` carries the step of which the
    maker says that something went wrong, ``ticked`` the step that was ticked.
    """

    turned = Signal()
    amiss_asked = Signal(str)
    ticked = Signal(str)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._ticked: list[str] = []
        self._pressed: tuple[Verb | None, float] = None, 0.0
        self._fresh_until = 0.0
        self._is_acting = self._has_turned = False
        self.leaf: Leaf | None = None
        """What has the verbs to itself for a while."""
        self.walk: Walk | None = None
        """The pages of the step in hand, if it has any: done is each of them, then the step."""
        self.place = BenchPlace(bridge, self)
        self.place.turned.connect(self.turn)
        self.place.emptied.connect(self._forget)

    @property
    def card(self) -> BenchCard | None:
        """The step in hand."""
        return self.place.card

    @property
    def fresh_s(self) -> float:
        """For how many seconds yet taking back stands out; 0: no longer."""
        left = self._fresh_until - self._bridge.clock.boot_seconds()
        return max(0.0, left) if self._bridge.session.can_undo() else 0.0

    @property
    def can_take_back(self) -> bool:
        """Whether there is a page or a press to go back from."""
        return bool((self.walk and self.walk.at) or self._bridge.session.can_undo())

    def begin(self) -> None:
        """Come into sight."""
        self.place.begin()

    def end(self) -> None:
        """Go out of sight."""
        self.leaf = None
        self.place.end()

    def open_leaf(self, leaf: Leaf | None) -> None:
        """Let a leaf have the verbs; ``None``: the step has them again."""
        self.leaf = leaf
        self.turn()

    def act(self, verb: Verb) -> None:
        """Do what a verb says, at once; a bounce of the same key is no second press."""
        now_s = self._bridge.clock.boot_seconds()
        before, at_s = self._pressed
        if verb is before and 0 <= now_s - at_s < BOUNCE_S:
            return
        self._pressed = verb, now_s
        self._is_acting, self._has_turned = True, False
        try:
            self._do(verb)
        finally:
            self._is_acting = False
        if self._has_turned:
            self.turned.emit()

    def take_longer(self) -> None:
        """Say that the step in hand takes longer; where something lies over it, nothing."""
        card = self.card
        if card is not None and self.leaf is None:
            self._bridge.longer((card.step,))
            self._be_fresh()

    def turn(self) -> None:
        """Say that something else is shown; of all that one press changes, once."""
        self._has_turned = True
        if not self._is_acting:
            self.turned.emit()

    def _do(self, verb: Verb) -> None:
        if self.leaf is not None:
            if verb in self.leaf.words():
                self.leaf.act(verb)
                self.turn()
            return
        {
            Verb.BEGIN: self._begin_or_pause,
            Verb.DONE: self._done,
            Verb.OTHER: lambda: self.place.other(1),
            Verb.AMISS: lambda: self.amiss_asked.emit(self.card.step if self.card else ""),
            Verb.TAKE_BACK: self._take_back,
        }[verb]()

    def _begin_or_pause(self) -> None:
        card = self.card
        if card is None:
            return
        if card.state is BenchState.RUNNING:
            self._bridge.pause((card.step,))
        elif card.state is BenchState.DRYING:
            self._bridge.said.emit(self.tr("{0}: drying goes on by itself.").format(card.title))
        elif card.is_over:
            self._bridge.said.emit(self.tr("{0}: done already.").format(card.title))
        else:
            self._bridge.start((card.step,))
        self._be_fresh()

    def _done(self) -> None:
        card = self.card
        if card is None:
            return
        if self.walk is not None and self.walk.on():
            self.turn()
            return
        with_it = self.walk.ticks if self.walk is not None else ()
        left = (step for step in with_it if not self.place.is_over(step))
        self._bridge.done((card.step, *left))
        self._be_fresh()
        if self.card is not None and self.card.is_over:
            self._ticked.append(card.step)
            self.ticked.emit(card.step)
            self.place.go_on()

    def _take_back(self) -> None:
        if self.walk is not None and self.walk.back():
            self.turn()
            return
        if not self._bridge.session.can_undo():
            self._bridge.said.emit(self.tr("There is nothing to take back."))
            return
        self._bridge.undo()
        self._fresh_until = 0.0
        if self._ticked and not self.place.is_over(self._ticked[-1]):
            self.place.choose(self._ticked.pop())
        self.turn()

    def _be_fresh(self) -> None:
        self._fresh_until = self._bridge.clock.boot_seconds() + FRESH_S
        self.turn()

    def _forget(self) -> None:
        """Another build is on the bench."""
        self._ticked.clear()
        self.leaf, self._fresh_until = None, 0.0
