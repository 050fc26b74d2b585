"""A tool tried at the bench of the window: what it teaches is kept, and the build goes on with it."""

import json
from itertools import count

import pytest
from clocks import FakeClock
from samples.test_planted_reach import tube

from armorplan.app.opening import open_build, resume_build
from armorplan.app.rows import BenchState, Grouping
from armorplan.app.session import Session
from armorplan.app.trial_sheet import SetBefore
from armorplan.cli.trials import Trials
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.findings import Severity
from armorplan.relations.model import Force
from armorplan.rules.reaching import BY_REACH
from armorplan.steps.model import StepKind
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.shop import one_maker

SHOP = one_maker("UTC")
NOT_REACHED_MM = 250.0


class Room:
    """A workshop with a build of a tube whose strap no tool reaches once its row is shut."""

    def __init__(self, tmp_path):
        self.own = tmp_path / "mine"
        self.own.mkdir()
        folder = tmp_path / "long_tube"
        folder.mkdir()
        tube(660.0).read(folder)
        self.folder = folder
        self.clock = FakeClock()
        self.workshop = WorkshopFile.open(tmp_path / "w.sqlite", self.clock)
        self.numbers = count(1)
        self.trials = Trials(
            workshop_path=tmp_path / "w.sqlite",
            own_catalogues_dir=self.own,
            shelf=self.shelf,
            shop=lambda: SHOP,
            seat=self.seat,
            clock=self.clock,
        )
        self.session = self.opened()

    def shelf(self):
        return read_shelf(own=self.own)

    def seat(self, opened):
        new_id = lambda: f"press-{next(self.numbers)}"  # noqa: E731
        return Session(opened.build, opened.derived, self.workshop, self.clock, new_id)

    def opened(self):
        shelf = self.shelf()
        return self.seat(open_build(self.folder, self.workshop, shelf, SHOP, clock=self.clock))

    def strap(self, session=None):
        return (session or self.session).derived.work.setting("strap_on").id

    def taught(self, before=SetBefore.ALL, *, did_reach=True, tool="horn_anvil"):
        sheet = self.trials.sheet(self.session, self.strap())()
        return sheet.told("strap_on", tool, before, did_reach=did_reach)


@pytest.fixture
def room(tmp_path):
    made = Room(tmp_path)
    yield made
    made.workshop.close()


def barred(session):
    return [
        relation
        for relation in session.derived.relations
        if relation.reason.rule in BY_REACH and relation.reason.force is Force.CANNOT
    ]


def test_what_would_change_is_told_before_anything_is_written(room):
    told = room.taught()
    assert told.learned.becomes_mm > NOT_REACHED_MM
    value = f"reach_mm = {told.learned.becomes_mm:g} under [horn_anvil]"
    assert (
        told.change
        == f"Keeping it will write {value} in {room.own / 'tools.toml'}; it is 250 now."
    )
    assert told.flips[0].endswith("by reach would hold otherwise:")
    assert any(
        "'Rivet strap and plate'" in flip and "it binds (cannot)" in flip
        for flip in told.flips[1:]
    )
    assert list(room.own.iterdir()) == []


def test_kept_the_build_goes_on_with_it_and_nothing_ticked_is_lost(room):
    assert barred(room.session)
    cut = room.session.derived.order[:6]
    for step in cut:
        room.session.done((step,))
    room.session.start((room.session.derived.order[6],))
    said = room.trials.keep(room.taught().learned)()
    session = room.trials.go_on(room.session)()()
    assert said.startswith("Kept for Anvil on a horn or bar: reach_mm = 28")
    assert "it was 250. To take it back, write reach_mm = 250 there" in said
    assert not [r for r in barred(session) if "strap_on" in r.reason.about]
    tails = [step.partition("/")[2] for step in cut]
    assert [step.partition("/")[2] for step in session.done_order] == tails
    states = {row.id: row.state for row in session.checklist(Grouping.PIECE)}
    running = room.session.derived.order[6].partition("/")[2]
    assert states[f"{session.build_id}/{running}"] is BenchState.RUNNING
    assert not [f for f in session.findings if f.severity is Severity.ERROR]
    (told,) = (f for f in session.findings if "this is the new build" in f.text)
    assert told.text.startswith("The tools were changed since the build 'long_tube-1'")
    assert "6 ticks carried over, 1 under way" in told.text
    assert "they stay in the former build" not in told.text


def test_the_build_is_the_one_that_is_opened_from_then_on(room):
    room.trials.keep(room.taught().learned)()
    session = room.trials.go_on(room.session)()()
    assert session.build_id != room.session.build_id
    assert room.opened().build_id == session.build_id
    resumed = resume_build(session.build, SHOP).derived
    tools = {tool.id: tool.reach_mm for tool in resumed.shelf.tools}
    assert tools["horn_anvil"] > NOT_REACHED_MM
    assert resumed.pattern.content_hash == room.session.derived.pattern.content_hash


def test_the_former_build_stays_as_it_was(room):
    room.session.done(room.session.derived.order[:3])
    former = room.session.build
    before = room.workshop.events(former.id)
    room.trials.keep(room.taught().learned)()
    room.trials.go_on(room.session)()
    assert room.workshop.events(former.id) == before
    assert json.loads(former.constants_json)["tools"] != []
    assert former in room.workshop.builds()


def test_what_is_ticked_while_it_is_made_ready_goes_over(room):
    room.trials.keep(room.taught().learned)()
    start = room.trials.go_on(room.session)()
    (first, *_) = room.session.derived.order
    room.session.done((first,))
    session = start()
    tails = [step.partition("/")[2] for step in session.done_order]
    assert tails == [first.partition("/")[2]]


def test_nothing_is_in_the_workshop_until_it_is_laid_on_the_bench(room):
    builds = room.workshop.builds()
    start = room.trials.go_on(room.session)()
    assert room.workshop.builds() == builds
    start()
    assert len(room.workshop.builds()) == len(builds) + 1


def test_prices_and_leathers_stay_those_of_the_build(room):
    text = "[shell_plate]\nneutral = 0.31\n"
    (room.own / "leathers.toml").write_text(text, encoding="utf-8")
    room.trials.keep(room.taught().learned)()
    session = room.trials.go_on(room.session)()()
    former = {leather.id: leather for leather in room.session.derived.shelf.leathers}
    assert {e.id: e for e in session.derived.shelf.leathers} == former


def test_what_another_build_taught_meanwhile_is_reckoned_with(room):
    (room.own / "tools.toml").write_text("[horn_anvil]\nreach_mm = 400.0\n", encoding="utf-8")
    told = room.taught()
    assert told.learned.reach_mm == 400
    assert told.learned.becomes_mm is None
    assert told.change == ""
    assert told.flips == ()


def test_ticks_tell_what_was_set_before(room):
    sheet = room.trials.sheet(room.session, room.strap())()
    assert dict(sheet.counts("strap_on")).keys() == {SetBefore.ORDER, SetBefore.ALL}
    rivets = room.session.derived.work.of_kind(StepKind.RIVET)
    others = tuple(step.id for step in rivets if step.id != room.strap())
    room.session.done(others[:4])
    room.session.done((room.strap(),))
    room.session.done(others[4:])
    ticked = room.trials.sheet(room.session, room.strap())()
    assert ticked.counts("strap_on")[0] == (SetBefore.TICKED, 4)


def test_only_tools_that_close_it_are_offered(room):
    sheet = room.trials.sheet(room.session, room.strap())()
    offered = {tool.id for tool in sheet.tools("strap_on")}
    assert {"horn_anvil", "held_block"} <= offered
    assert "burr_setter" not in offered


def test_a_step_that_sets_nothing_offers_all_joints_in_order_by_their_names(room):
    work = room.session.derived.work
    (cut, *_) = work.of_kind(StepKind.CUT)
    for step in (cut.id, ""):
        sheet = room.trials.sheet(room.session, step)()
        assert (sheet.step, sheet.title) == ("", "")
        set_in_order = [j for s in room.session.derived.order for j in work.sets(work.step(s))]
        assert [one.id for one in sheet.joints] == set_in_order
        names = [one.name for one in sheet.joints]
        assert len(set(names)) == len(names)
        assert all(one.name.startswith(work.setting(one.id).title) for one in sheet.joints)


def test_the_best_tool_is_the_one_that_is_taken_where_none_is_named(room):
    sheet = room.trials.sheet(room.session, "")()
    for one in sheet.joints[:6]:
        for before in (SetBefore.ORDER, SetBefore.ALL):
            tool = sheet.best(one.id, before)
            told = sheet.told(one.id, "", before, did_reach=True)
            assert tool
            assert told.learned.tool in (tool, "")
            assert tool in {offered.id for offered in sheet.tools(one.id)}


def test_a_trial_is_told_by_the_name_of_the_joint_not_its_id(room):
    told = room.taught()
    title = room.session.derived.work.step(room.strap()).title
    assert told.sentences[0].startswith(f"'{title}', after ")
    assert "Joint 'strap_on'" not in told.sentences[0]
