"""Load, edit, save, load: comments stay, and only what was edited changes."""

import errno
import os
import shutil
import tempfile
from pathlib import Path

import pytest
from clocks import FakeClock
from folders_cli import copy_sample
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from armorplan.app.draft import Bench, Draft, Refused, drafted
from armorplan.app.draft_rows import field_rows, group_rows, typed_in, with_entry
from armorplan.app.drafting import Home, copy_place, draft_of, save, save_copy
from armorplan.app.opening import open_build
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import from_texts, read_folder
from armorplan.kernel.findings import Finding
from armorplan.kernel.shipped import samples_folder
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker

BENCH = Bench(shelf=read_shelf(), shop=one_maker("UTC"))
NAME = ("parts", "boss", "name")


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


@pytest.fixture
def build(tmp_path, folder):
    workshop = WorkshopFile.open(tmp_path / "w.sqlite", FakeClock())
    yield open_build(folder, workshop, BENCH.shelf, BENCH.shop, clock=FakeClock()).build
    workshop.close()


def taken(result) -> Draft:
    assert isinstance(result, Draft)
    return result


def at_home(result) -> Home:
    assert isinstance(result, Home), result
    return result


def told(result) -> Finding:
    assert isinstance(result, Finding)
    return result


def test_what_is_saved_is_read_again_with_its_comments(folder, build):
    before = (folder / "pattern.toml").read_text(encoding="utf-8")
    opened = draft_of(build, folder, BENCH)
    edited = taken(opened.draft.put((NAME, "brass boss")))
    assert not opened.home.is_saved(edited)
    home = at_home(save(edited, opened.home))
    assert home.is_saved(edited)
    assert (folder / "pattern.toml").read_text(encoding="utf-8") == before.replace(
        'name = "boss"', 'name = "brass boss"'
    )
    again = draft_of(build, folder, BENCH)
    assert again.draft.text == edited.text
    at_home(save(taken(edited.put((NAME, "boss"))), home))
    assert (folder / "pattern.toml").read_text(encoding="utf-8") == before


def test_two_windows_on_one_folder_do_not_write_over_each_other(folder, build):
    one, two = draft_of(build, folder, BENCH), draft_of(build, folder, BENCH)
    at_home(save(taken(one.draft.put((NAME, "from one"))), one.home))
    second = taken(two.draft.put((NAME, "from two")))
    refusal = told(save(second, two.home))
    assert refusal.code == "changed-meanwhile"
    assert 'name = "from one"' in (folder / "pattern.toml").read_text(encoding="utf-8")
    copy = at_home(save_copy(second, folder.parent / "kept"))
    assert 'name = "from two"' in (copy.folder / "pattern.toml").read_text(encoding="utf-8")


def test_two_windows_that_change_different_files_of_a_pattern_do_not_make_it_unreadable(
    folder, build
):
    one, two = draft_of(build, folder, BENCH), draft_of(build, folder, BENCH)
    svg = dict(one.draft.texts)["elbow_cop.svg"].replace('cy="118"', 'cy="118.5"', 1)
    at_home(save(taken(one.draft.with_files({"elbow_cop.svg": svg})), one.home))
    before = _bytes(folder)
    refusal = told(save(taken(two.draft.put((NAME, "brass boss"))), two.home))
    assert (refusal.code, refusal.place.file) == ("changed-meanwhile", "elbow_cop.svg")
    assert _bytes(folder) == before


def test_a_sample_that_came_with_the_program_is_saved_as_a_copy(tmp_path, build):
    sample = samples_folder() / "elbow_cop"
    opened = draft_of(build, sample, BENCH)
    assert "came with Armorplan" in opened.home.said
    edited = taken(opened.draft.put((NAME, "brass boss")))
    assert told(save(edited, opened.home)).code == "needs-a-copy"
    home = at_home(save_copy(edited, tmp_path / "mine"))
    assert home.said == ""
    assert (tmp_path / "mine" / "elbow_cop.svg").read_bytes() == (
        sample / "elbow_cop.svg"
    ).read_bytes()
    assert draft_of(build, home.folder, BENCH).draft.text == edited.text


def test_a_copy_is_not_mixed_with_what_is_there(folder, build):
    draft = draft_of(build, folder, BENCH).draft
    assert told(save_copy(draft, folder)).code == "folder-not-empty"
    file = folder.parent / "a file"
    file.write_text("", encoding="utf-8")
    assert told(save_copy(draft, file)).code == "cannot-write"


def test_a_copy_gets_a_folder_of_its_own(tmp_path):
    (tmp_path / "empty").mkdir()
    assert copy_place(tmp_path / "empty", "cop") == tmp_path / "empty"
    assert copy_place(tmp_path / "new", "cop") == tmp_path / "new"
    assert copy_place(tmp_path, "cop") == tmp_path / "cop"
    (tmp_path / "cop").mkdir()
    assert copy_place(tmp_path, "cop") == tmp_path / "cop_2"
    file = tmp_path / "a file"
    file.write_text("", encoding="utf-8")
    assert copy_place(file, "cop") == file


@pytest.mark.parametrize("fails_at", [1, 2])
def test_a_full_disk_leaves_no_half_copy_and_no_half_file(folder, build, monkeypatch, fails_at):
    opened = draft_of(build, folder, BENCH)
    edited = taken(opened.draft.put((NAME, "brass boss")))
    before = (folder / "pattern.toml").read_bytes()
    calls = iter(range(1, 10))
    sync = os.fsync

    def full(handle: int) -> None:
        if next(calls) == fails_at:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        sync(handle)

    monkeypatch.setattr(os, "fsync", full)
    assert "space" in told(save_copy(edited, folder.parent / "copy")).text
    assert not (folder.parent / "copy").exists()
    calls = iter([fails_at])
    assert "space" in told(save(edited, opened.home)).text
    assert (folder / "pattern.toml").read_bytes() == before


def _drawn_anew(draft: Draft) -> Draft:
    """Return the draft with a change in its drawing and one in its tables."""
    svg = dict(draft.texts)["elbow_cop.svg"].replace('cy="118"', 'cy="118.5"', 1)
    toml = draft.text.replace('name = "boss"', 'name = "brass boss"')
    return taken(draft.with_files({"elbow_cop.svg": svg, "pattern.toml": toml}))


def _bytes(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_drawing_and_tables_are_saved_together_and_read_again(folder, build):
    opened = draft_of(build, folder, BENCH)
    edited = _drawn_anew(opened.draft)
    home = at_home(save(edited, opened.home))
    assert home.is_saved(edited)
    assert draft_of(build, folder, BENCH).draft.texts == edited.texts
    at_home(save(opened.draft, home))
    assert draft_of(build, folder, BENCH).draft.texts == opened.draft.texts


def test_a_new_drawing_is_saved_beside_the_others_and_one_that_is_left_out_stays(folder, build):
    opened = draft_of(build, folder, BENCH)
    svg = dict(opened.draft.texts)["elbow_cop.svg"]
    toml = opened.draft.text.replace('"elbow_cop.svg"', '"cop.svg"')
    moved = taken(
        opened.draft.with_files({"elbow_cop.svg": None, "cop.svg": svg, "pattern.toml": toml})
    )
    assert [name for name, _ in moved.texts] == ["cop.svg", "pattern.toml"]
    at_home(save(moved, opened.home))
    assert sorted(_bytes(folder)) == ["cop.svg", "elbow_cop.svg", "pattern.toml"]
    assert draft_of(build, folder, BENCH).draft.texts == moved.texts


@pytest.mark.parametrize("fails_at", [1, 2])
def test_where_one_of_two_files_cannot_be_written_neither_is(folder, build, monkeypatch, fails_at):
    opened = draft_of(build, folder, BENCH)
    before, calls, sync = _bytes(folder), iter(range(1, 10)), os.fsync

    def full(handle: int) -> None:
        if next(calls) == fails_at:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        sync(handle)

    monkeypatch.setattr(os, "fsync", full)
    assert "space" in told(save(_drawn_anew(opened.draft), opened.home)).text
    assert _bytes(folder) == before


def test_a_drawing_that_was_changed_meanwhile_keeps_the_tables_from_being_written(folder, build):
    opened = draft_of(build, folder, BENCH)
    edited = _drawn_anew(opened.draft)
    drawing = folder / "elbow_cop.svg"
    drawing.write_text(drawing.read_text(encoding="utf-8") + "\n", encoding="utf-8")
    before = _bytes(folder)
    refusal = told(save(edited, opened.home))
    assert (refusal.code, refusal.place.file) == ("changed-meanwhile", "elbow_cop.svg")
    assert _bytes(folder) == before


def test_an_edit_that_could_not_be_read_is_refused_and_one_that_only_fits_badly_is_not(
    build, folder
):
    draft = draft_of(build, folder, BENCH).draft
    svg = dict(draft.texts)["elbow_cop.svg"]
    broken = draft.with_files({"elbow_cop.svg": svg.replace('id="left_2"', 'id="left_22"')})
    assert isinstance(broken, Refused)
    assert "left_2" in broken.words
    bad = taken(draft.with_files({"elbow_cop.svg": svg.replace('cx="113.289"', 'cx="108.289"')}))
    assert len(bad.findings) > len(draft.findings)


def test_a_folder_that_is_gone_or_another_leaves_the_pattern_of_the_build(folder, build):
    shutil.rmtree(folder)
    opened = draft_of(build, folder, BENCH)
    assert opened.home.folder is None
    assert "cannot be read" in opened.home.said
    assert opened.draft.text == dict(build.pattern_files)["pattern.toml"]
    other = copy_sample(folder.parent, "collar")
    assert "another pattern" in draft_of(build, other, BENCH).home.said
    assert "not known" in draft_of(build, None, BENCH).home.said
    (other / "pattern.toml").write_text("[broken", encoding="utf-8")
    assert "not valid" in draft_of(build, other, BENCH).home.said


def test_a_read_only_folder_is_saved_as_a_copy(folder, build, monkeypatch):
    monkeypatch.setattr(os, "access", lambda *_asked: False)
    opened = draft_of(build, folder, BENCH)
    assert "may only be read" in opened.home.said
    assert told(save(opened.draft, opened.home)).code == "needs-a-copy"


EVERY_WORD = Path(__file__).parents[1] / "golden_patterns" / "form_1" / "every_word"
START = drafted(read_folder(EVERY_WORD), BENCH)
TYPED = st.one_of(
    st.sampled_from(["", "true", "false", "0", "1", "2", "3.5", "45", "3.2 mm", "8–9 oz"]),
    st.text(st.characters(exclude_categories=("Cs",)), max_size=8),
)


def _comments(text: str) -> list[str]:
    return [line for line in text.splitlines() if line.startswith("#")]


class EditMachine(RuleBasedStateMachine):
    """Any run of edits, undo, redo and saving; what is saved is read again as it was."""

    def __init__(self) -> None:
        super().__init__()
        self._place = tempfile.TemporaryDirectory()
        self.folder = Path(shutil.copytree(EVERY_WORD, Path(self._place.name) / "every_word"))
        self.draft = START
        self.home = Home(folder=self.folder, saved_texts=START.texts)
        self.behind: list[Draft] = []
        self.ahead: list[Draft] = []

    def teardown(self) -> None:
        self._place.cleanup()

    def _take(self, result) -> None:
        if isinstance(result, Draft) and result is not self.draft:
            self.behind.append(self.draft)
            self.ahead.clear()
            self.draft = result

    @rule(data=st.data(), typed=TYPED)
    def type_in(self, data, typed):
        groups = [group for group in group_rows(self.draft) if group.entries]
        group = data.draw(st.sampled_from(groups))
        entry = data.draw(st.sampled_from(group.entries))
        rows = field_rows(self.draft, entry.table, entry.id)
        self._take(typed_in(self.draft, data.draw(st.sampled_from(rows)), typed))

    @rule(name=st.text(min_size=1, max_size=6), minutes=st.integers(0, 90))
    def add_step(self, name, minutes):
        piece = next(iter(self.draft.entry("pieces", "")))
        told = {"name": name, "piece": piece, "minutes": str(minutes)}
        self._take(with_entry(self.draft, "own_steps", told)[0])

    @precondition(lambda self: self.draft.entry("own_steps", ""))
    @rule(data=st.data())
    def drop_step(self, data):
        entry = data.draw(st.sampled_from(sorted(self.draft.entry("own_steps", ""))))
        self._take(self.draft.drop_entry("own_steps", entry))

    @precondition(lambda self: self.behind)
    @rule()
    def undo(self):
        self.ahead.append(self.draft)
        self.draft = self.behind.pop()

    @precondition(lambda self: self.ahead)
    @rule()
    def redo(self):
        self.behind.append(self.draft)
        self.draft = self.ahead.pop()

    @rule()
    def save(self):
        self.home = at_home(save(self.draft, self.home))
        read = drafted(read_folder(self.folder), BENCH)
        assert read.texts == self.draft.texts
        assert read.values == self.draft.values

    @invariant()
    def it_can_be_built_and_read_again(self):
        assert self.draft.is_sound
        again = drafted(from_texts(self.draft.slug, dict(self.draft.texts)), BENCH)
        assert again == self.draft

    @invariant()
    def comments_stay(self):
        # Those right above a step that was taken out may go with it.
        own = set(START.entry("own_steps", "")) - set(self.draft.entry("own_steps", ""))
        if not own:
            now = self.draft.text.splitlines()
            assert [line for line in _comments(START.text) if line not in now] == []


EditMachine.TestCase.settings = settings(
    max_examples=2,
    stateful_step_count=7,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
TestEdits = EditMachine.TestCase
