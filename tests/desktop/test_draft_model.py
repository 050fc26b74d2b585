"""The list of a pattern's entries: headings, words, places."""

from desktop.drafts import open_draft

from armorplan.app.draft_rows import group_rows
from armorplan.desktop.draft_model import DraftModel, list_rows
from armorplan.kernel.shipped import samples_folder


def test_words_find_titles_ids_and_headings():
    groups = group_rows(open_draft(samples_folder() / "elbow_cop").draft)
    places = [row.place for row in list_rows(groups, "boss left")]
    assert places == [None, ("joints", "boss_left")]
    assert {row.group.table for row in list_rows(groups, "seam")} == {"seams"}
    assert list_rows(groups, "no such word") == ()
    empty = [row.group.table for row in list_rows(groups) if not row.group.entries]
    assert "own_steps" in empty


def test_it_is_a_sound_model(qtmodeltester, qapp):
    groups = group_rows(open_draft(samples_folder() / "elbow_cop").draft)
    model = DraftModel()
    model.show(list_rows(groups))
    qtmodeltester.check(model)
    boss = model.index_of(("parts", "boss"))
    assert model.data(boss).strip() == "boss"
    assert not model.index_of(("parts", "nobody")).isValid()
    model.show(list_rows(groups, "lantern"))
    assert model.row_at(model.first_entry()).place == ("pattern", "")
    model.show(())
    assert not model.first_entry().isValid()
