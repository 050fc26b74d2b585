"""Which two pieces are suggested to be folded into one, off the window's thread."""

from types import SimpleNamespace

import pytest

from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.shape_edit_desk import TableDesk
from armorplan.desktop.widgets import shape_edit_sides
from armorplan.desktop.widgets.shape_edit_sides import SideActs
from armorplan.pattern.parts import Piece

PIECES = tuple(Piece(id=name, name=name) for name in ("leg_right", "arm", "leg"))


@pytest.fixture
def asked(qapp, monkeypatch):
    """Acts on three pieces, ``chosen`` of them, with the twin that is ``found``; ``asks`` hears."""
    desk, heard = TableDesk(DraftDesk()), []
    parts = {piece.id: SimpleNamespace(piece=piece.id) for piece in PIECES}
    pattern = SimpleNamespace(pieces=PIECES, part=parts.__getitem__)

    def begin(*chosen, found):
        def twin(_pattern, piece):
            return next((each for each in PIECES if each.id == found), None)

        monkeypatch.setattr(shape_edit_sides, "twin_of", twin)
        doing = SimpleNamespace(
            scene=SimpleNamespace(pattern=pattern), parts=chosen, desk=desk, ask=heard.append
        )
        SideActs(doing).acts()["pair"]()
        return heard

    yield begin
    assert desk.close()


def fields(ask):
    return {field.name: field.text for field in ask.fields}


def test_the_twin_is_suggested_and_the_one_called_right_is_the_right_one(asked, qtbot):
    heard = asked("leg_right", found="leg")
    qtbot.waitUntil(lambda: bool(heard))
    assert fields(heard[0]) == {"left": "leg", "right": "leg_right"}


def test_where_no_piece_is_a_mirror_that_is_said(asked, qtbot):
    heard = asked("arm", found="")
    qtbot.waitUntil(lambda: bool(heard))
    assert heard[0].help.startswith("No other piece is drawn as the mirror of arm.")
    assert fields(heard[0])["left"] != fields(heard[0])["right"]


def test_two_that_are_chosen_are_asked_about_at_once(asked):
    (ask,) = asked("arm", "leg", found="")
    assert fields(ask) == {"left": "arm", "right": "leg"}
