"""The bench view fitted to the bench by its own verbs: distance, screen, size of letters, pedals."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from armorplan.desktop.bench_leaf import Leaf
from armorplan.desktop.bench_type import AN_INCH_MM, ScreenFacts
from armorplan.desktop.bench_verbs import (
    KEPT_KEYS,
    Verb,
    pedal_of,
    read_pedals,
    shown_key,
    verb_word,
    with_pedal,
    without_pedal,
    written_pedals,
)
from armorplan.desktop.bench_walk import WalkPage
from armorplan.desktop.bench_words import ELSEWHERE, HERE
from armorplan.desktop.settings import (
    BENCH_DIAGONAL_MM,
    BENCH_DISTANCE_CM,
    BENCH_PEDALS,
    BENCH_TEXT_PCT,
    BENCH_WHOLE_SCREEN,
    Setting,
    Settings,
)

DISTANCE_STEP_CM, TEXT_STEP_PCT, DIAGONAL_STEP_IN = 10, 10, 0.5


@dataclass(frozen=True, slots=True)
class _Row:
    """One line: its words, and what less and more do to it."""

    text: Callable[[], str]
    change: Callable[[int], None]


class SettingLeaf(Leaf):
    """Worked by the verbs: less, more, next line, back. A pedal is pressed to be learned."""

    def __init__(
        self,
        settings: Settings,
        screen: Callable[[], ScreenFacts],
        *,
        close: Callable[[], None],
        turned: Callable[[], None],
        widened: Callable[[], None],
    ) -> None:
        """Take the settings, what is known of the screen, what shows the view anew, and larger."""
        self._settings, self._screen = settings, screen
        self._close, self._turned, self._widened = close, turned, widened
        self._at = 0
        self.learning: Verb | None = None
        """The verb whose pedal is waited for."""
        self._said = ""
        self._rows = (
            _Row(self._distance_text, self._change_distance),
            _Row(self._screen_text, self._change_screen),
            _Row(self._letters_text, self._change_letters),
            _Row(self._whole_text, self._change_whole),
            *(self._pedal_row(verb) for verb in Verb),
        )

    def words(self) -> Mapping[Verb, str]:
        """Less, more, next, close."""
        if self.learning is not None:
            return {Verb.TAKE_BACK: _say("None")}
        is_pedal = self._at >= len(self._rows) - len(Verb)
        return {
            Verb.BEGIN: _say("None") if is_pedal else _say("Less"),
            Verb.DONE: _say("Learn") if is_pedal else _say("More"),
            Verb.OTHER: _say("Next"),
            Verb.TAKE_BACK: _say("Close"),
        }

    def act(self, verb: Verb) -> None:
        """Change the line in hand, go to the next one, or close."""
        self._said = ""
        if self.learning is not None:
            self.learning = None
        elif verb is Verb.OTHER:
            self._at = (self._at + 1) % len(self._rows)
        elif verb in (Verb.BEGIN, Verb.DONE):
            self._rows[self._at].change(1 if verb is Verb.DONE else -1)
        else:
            self._close()
            return
        self._turned()

    def learn(self, key: str) -> None:
        """Take a key as the pedal that is waited for."""
        verb, self.learning = self.learning, None
        if verb is not None and key and key not in KEPT_KEYS:
            pedals = read_pedals(self._settings.value(BENCH_PEDALS))
            self._settings.put(BENCH_PEDALS, written_pedals(with_pedal(pedals, key, verb)))
        elif key != "Esc":
            self._said = _say("This key is needed for something else.")
        self._turned()

    def page(self) -> WalkPage | None:
        """Return all lines, the one in hand marked."""
        lines = [
            (HERE if at == self._at else ELSEWHERE) + row.text()
            for at, row in enumerate(self._rows)
        ]
        title = _say("Fit to the bench")
        if self.learning is not None:
            title = _say("Press the pedal or key for: {0}").format(verb_word(self.learning))
        return WalkPage(title=self._said or title, lines=tuple(lines), is_whole=True)

    # --- lines ------------------------------------------------------------------------------

    def _distance_text(self) -> str:
        told = _say("You stand {0} cm from the screen")
        return told.format(self._settings.value(BENCH_DISTANCE_CM))

    def _change_distance(self, by: int) -> None:
        self._put(BENCH_DISTANCE_CM, by * DISTANCE_STEP_CM)

    def _screen_text(self) -> str:
        facts = self._screen()
        inches = f"{facts.diagonal_mm / AN_INCH_MM:.1f}"
        if self._settings.value(BENCH_DIAGONAL_MM):
            return _say("Screen of {0} inches, as you say").format(inches)
        if facts.is_known:
            return _say("Screen of {0} inches, as it says").format(inches)
        return _say("The screen does not say how large it is: {0} inches?").format(inches)

    def _change_screen(self, by: int) -> None:
        inches = self._screen().diagonal_mm / AN_INCH_MM + by * DIAGONAL_STEP_IN
        half = round(inches / DIAGONAL_STEP_IN) * DIAGONAL_STEP_IN
        wanted = round(half * AN_INCH_MM)
        if wanted and BENCH_DIAGONAL_MM.allows(wanted):
            self._settings.put(BENCH_DIAGONAL_MM, wanted)

    def _letters_text(self) -> str:
        told = _say("Letters at {0} % of what the distance asks for")
        return told.format(self._settings.value(BENCH_TEXT_PCT))

    def _change_letters(self, by: int) -> None:
        self._put(BENCH_TEXT_PCT, by * TEXT_STEP_PCT)

    def _whole_text(self) -> str:
        whole = self._settings.value(BENCH_WHOLE_SCREEN)
        return _say("On the whole screen") if whole else _say("In the window as it stands")

    def _change_whole(self, by: int) -> None:
        self._settings.put(BENCH_WHOLE_SCREEN, by > 0)
        self._widened()

    def _put(self, setting: Setting[int], by: int) -> None:
        wanted = self._settings.value(setting) + by
        if setting.allows(wanted):
            self._settings.put(setting, wanted)

    def _pedal_row(self, verb: Verb) -> _Row:
        def text() -> str:
            key = pedal_of(read_pedals(self._settings.value(BENCH_PEDALS)), verb)
            return _say("Pedal for {0}: {1}").format(
                verb_word(verb), shown_key(key) if key else _say("none")
            )

        def change(by: int) -> None:
            if by > 0:
                self.learning = verb
                return
            pedals = read_pedals(self._settings.value(BENCH_PEDALS))
            self._settings.put(BENCH_PEDALS, written_pedals(without_pedal(pedals, verb)))

        return _Row(text, change)


def _say(text: str) -> str:
    return QCoreApplication.translate("bench_setting", text)
