"""Keys and pedals of the bench view."""

from PySide6.QtCore import Qt

from armorplan.desktop.bench_verbs import (
    KEPT_KEYS,
    OWN_KEYS,
    Verb,
    key_name,
    pedal_of,
    read_pedals,
    verb_of,
    with_pedal,
    written_pedals,
)


def test_every_verb_has_a_digit_and_no_key_speaks_two():
    keys = [key for own in OWN_KEYS.values() for key in own]
    assert len(keys) == len(set(keys))
    assert {OWN_KEYS[verb][0] for verb in Verb} == {"0", "1", "2", "3", "4"}
    assert not KEPT_KEYS & set(keys)


def test_own_keys_are_named_as_qt_names_them():
    assert verb_of(key_name(Qt.Key.Key_Return), {}) is Verb.BEGIN
    assert verb_of(key_name(Qt.Key.Key_Space), {}) is Verb.DONE
    assert verb_of(key_name(Qt.Key.Key_3), {}) is Verb.OTHER
    assert verb_of(key_name(Qt.Key.Key_A), {}) is Verb.AMISS
    assert verb_of(key_name(Qt.Key.Key_Backspace), {}) is Verb.TAKE_BACK
    assert verb_of(key_name(Qt.Key.Key_Z), {}) is None


def test_pedals_go_before_own_keys_and_survive_being_written():
    pedals = with_pedal({}, "PgDown", Verb.DONE)
    pedals = with_pedal(pedals, "Space", Verb.TAKE_BACK)
    assert verb_of("PgDown", pedals) is Verb.DONE
    assert verb_of("Space", pedals) is Verb.TAKE_BACK
    assert verb_of("2", pedals) is Verb.DONE
    assert read_pedals(written_pedals(pedals)) == pedals
    assert pedal_of(pedals, Verb.AMISS) == ""


def test_one_pedal_a_verb_and_one_verb_a_pedal():
    pedals = with_pedal({"PgDown": Verb.DONE}, "PgUp", Verb.DONE)
    assert pedals == {"PgUp": Verb.DONE}
    assert with_pedal(pedals, "PgUp", Verb.OTHER) == {"PgUp": Verb.OTHER}


def test_what_is_no_pedal_is_left_out():
    assert read_pedals("done=PgDown; fly=PgUp; other=; nonsense") == {"PgDown": Verb.DONE}
