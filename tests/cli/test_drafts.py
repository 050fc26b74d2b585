"""The pattern of a build at the bench is read where the build came from."""

import pytest
from clocks import FakeClock
from folders_cli import copy_sample

from armorplan.app.opening import open_build, resume_build
from armorplan.app.session import Session
from armorplan.cli.drafts import Drafts
from armorplan.files.catalogue import read_shelf
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker

SHOP = one_maker("UTC")


def test_a_build_resumed_without_a_folder_is_edited_where_it_was_opened(tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    folder = copy_sample(tmp_path)
    open_build(folder, workshop, read_shelf(), SHOP, clock=clock)
    (kept,) = workshop.builds()
    resumed = resume_build(kept, SHOP)
    session = Session(kept, resumed.derived, workshop, clock, lambda: "press")
    drafts = Drafts(read_shelf, lambda: SHOP)
    assert drafts(session)().home.folder is None
    drafts.know(resumed)
    opened = drafts(session)()
    assert opened.home.folder == folder
    assert opened.draft.text == (folder / "pattern.toml").read_text(encoding="utf-8")
    workshop.close()


def test_a_bare_drawing_becomes_a_folder(tmp_path):
    clock = FakeClock()
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", clock)
    drawing = copy_sample(tmp_path) / "elbow_cop.svg"
    found = open_build(drawing, workshop, read_shelf(), SHOP, clock=clock)
    session = Session(found.build, found.derived, workshop, clock, lambda: "press")
    drafts = Drafts(read_shelf, lambda: SHOP)
    drafts.know(found)
    opened = drafts(session)()
    assert "bare drawing" in opened.home.said
    assert opened.draft.entry("parts", "")
    workshop.close()


def test_a_session_of_no_workshop_has_no_pattern():
    with pytest.raises(TypeError):
        Drafts(read_shelf, lambda: SHOP)(object())
