"""The verbs of the bench view, and the keys and pedals that speak them."""

from collections.abc import Mapping
from enum import StrEnum

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QKeySequence


class Verb(StrEnum):
    """What one key does at the bench."""

    BEGIN = "begin"
    DONE = "done"
    OTHER = "other"
    AMISS = "amiss"
    TAKE_BACK = "take back"


_WORDS = {
    Verb.BEGIN: "Begin",
    Verb.DONE: "Done",
    Verb.OTHER: "Other",
    Verb.AMISS: "Amiss",
    Verb.TAKE_BACK: "Take back",
}
_DOES = {
    Verb.BEGIN: "Starts the step, or pauses it.",
    Verb.DONE: "Ticks the step and goes on to the next.",
    Verb.OTHER: "Shows the next step that can be done now.",
    Verb.AMISS: "Something went wrong: says what, and finds the way back.",
    Verb.TAKE_BACK: "Takes back the last key.",
}
OWN_KEYS: Mapping[Verb, tuple[str, ...]] = {
    Verb.BEGIN: ("1", "Return", "Enter"),
    Verb.DONE: ("2", "Space"),
    Verb.OTHER: ("3", "Right"),
    Verb.AMISS: ("4", "A"),
    Verb.TAKE_BACK: ("0", "Backspace"),
}
"""These always work; the first of them is shown. Pedals come on top."""


def verb_word(verb: Verb) -> str:
    """Return a verb's word in the person's language."""
    return QCoreApplication.translate("bench_verbs", _WORDS[verb])


def verb_does(verb: Verb) -> str:
    """Say in a sentence what a verb does."""
    return QCoreApplication.translate("bench_verbs", _DOES[verb])


def key_name(key: int) -> str:
    """Return a key as Qt writes it in any language; empty for one that has no name."""
    return QKeySequence(key).toString(QKeySequence.SequenceFormat.PortableText)


def shown_key(name: str) -> str:
    """Return a key as the person's keyboard has it."""
    return QKeySequence(name).toString(QKeySequence.SequenceFormat.NativeText)


def read_pedals(text: str) -> dict[str, Verb]:
    """Read ``done=PgDown; take back=PgUp`` as keys and their verbs; what is no pedal is left out."""
    found: dict[str, Verb] = {}
    for pair in text.split(";"):
        word, _, key = (bit.strip() for bit in pair.partition("="))
        if word in tuple(Verb) and key:
            found[key] = Verb(word)
    return found


def written_pedals(pedals: Mapping[str, Verb]) -> str:
    """Write pedals as ``read_pedals`` reads them."""
    return "; ".join(f"{verb}={key}" for key, verb in sorted(pedals.items()))


def with_pedal(pedals: Mapping[str, Verb], key: str, verb: Verb) -> dict[str, Verb]:
    """Return pedals in which a key speaks a verb: one pedal a verb, one verb a pedal."""
    return {k: v for k, v in pedals.items() if v is not verb and k != key} | {key: verb}


def without_pedal(pedals: Mapping[str, Verb], verb: Verb) -> dict[str, Verb]:
    """Return pedals none of which speaks a verb."""
    return {key: own for key, own in pedals.items() if own is not verb}


def pedal_of(pedals: Mapping[str, Verb], verb: Verb) -> str:
    """Return the pedal of a verb; empty where it has none."""
    return next((key for key, own in pedals.items() if own is verb), "")


def own_verb(key: str) -> Verb | None:
    """Return the verb that a key of the view's own speaks."""
    return next((verb for verb, keys in OWN_KEYS.items() if key in keys), None)


def verb_of(key: str, pedals: Mapping[str, Verb]) -> Verb | None:
    """Return the verb that a key speaks; a pedal goes before a key of the view's own."""
    return pedals.get(key) or own_verb(key)


KEPT_KEYS = frozenset({"Esc", "Tab", "Backtab", "F5"})
"""Leave, walk between targets, answer what rings: these cannot be pedals."""
