"""The table of actions: each has a key of its own, a name and a sentence."""

from collections import Counter

from PySide6.QtGui import QKeySequence

from armorplan.desktop.actions import TABLE, Menu


def test_every_action_has_a_key_a_name_and_a_sentence():
    for action in TABLE:
        assert action.keys, action.id
        assert action.text, action.id
        assert action.does.endswith("."), action.id


def test_no_key_does_two_things():
    keys = Counter(QKeySequence(key).toString() for a in TABLE for key in a.keys)
    assert [key for key, count in keys.items() if count > 1 or not key] == []


def test_ids_are_unique_and_every_menu_holds_something():
    assert len({a.id for a in TABLE}) == len(TABLE)
    assert {a.menu for a in TABLE} == set(Menu)


def test_underlined_letters_of_menus_differ():
    letters = [menu.value[menu.value.index("&") + 1].lower() for menu in Menu]
    assert len(set(letters)) == len(letters)
