"""The keys of the bench view: pedals first, then what lies over the view, the verbs, and keys of its own."""

from collections.abc import Callable, Mapping

from armorplan.desktop.bench_desk import BenchDesk
from armorplan.desktop.bench_leaf import SIGNS
from armorplan.desktop.bench_setting import SettingLeaf
from armorplan.desktop.bench_verbs import (
    OWN_KEYS,
    Verb,
    pedal_of,
    read_pedals,
    shown_key,
    verb_of,
)
from armorplan.desktop.settings import BENCH_PEDALS, Settings


class BenchKeys:
    """Knows what a key means now."""

    def __init__(
        self, desk: BenchDesk, settings: Settings, others: Mapping[str, Callable[[], None]]
    ) -> None:
        """Take what the keys do that speak no verb."""
        self._desk, self._settings, self._others = desk, settings, others

    def _pedals(self) -> dict[str, Verb]:
        return read_pedals(self._settings.value(BENCH_PEDALS))

    def shown(self, verb: Verb) -> str:
        """Return what stands on the key of a verb: its pedal, else a key of the view's own."""
        leaf = self._desk.leaf
        pedal = pedal_of(self._pedals(), verb)
        key = pedal or (leaf.key_of(verb) if leaf else OWN_KEYS[verb][0])
        return SIGNS.get(key) or shown_key(key)

    def press(self, key: str) -> None:
        """Do what a key says; a pedal that is being learned is heard first."""
        leaf, pedals = self._desk.leaf, self._pedals()
        if isinstance(leaf, SettingLeaf) and leaf.learning is not None:
            leaf.learn(key)
            return
        verb = verb_of(key, pedals) if leaf is None else pedals.get(key) or leaf.verb_of(key)
        if verb is not None:
            self._desk.act(verb)
        elif leaf is not None and leaf.press(key):
            self._desk.turn()
        elif key == "Left" and leaf is None:
            self._desk.place.other(-1)
        elif key in self._others:
            self._others[key]()
