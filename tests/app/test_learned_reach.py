"""What a trial at the bench tells of a tool's reach, held against a tube's lengths in closed form.

A tube of girth g has its strap in the middle of its length l: along the leather it lies l/2 from
either mouth, and a straight rod that enters at the far side of the round mouth (width g/π) needs
no less than l/2 - g/2π. Plane geometry.
"""

from dataclasses import replace
from datetime import date
from math import pi
from shutil import copytree
from tomllib import loads

import pytest
from samples.planted import SHELF
from samples.test_planted_reach import tube

from armorplan.app.former_trial import Trial, against_former, trial_source
from armorplan.app.kept_reach import keep_reach
from armorplan.app.learned_reach import learned_reach
from armorplan.app.opening import derive_folder
from armorplan.app.tried_reach import Tried
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.shelf import ToolEntry
from armorplan.workshop.shop import one_maker

GIRTH_MM = 280.0
DAY = date(2026, 11, 29)
COP = samples_folder() / "elbow_cop"


def derived(folder, shelf=SHELF):
    return derive_folder(folder, shelf, one_maker("UTC"))


@pytest.fixture(scope="module")
def cop():
    return derived(COP)


@pytest.fixture(scope="module")
def long_tube(tmp_path_factory):
    folder = tmp_path_factory.mktemp("long_tube")
    tube(660.0).read(folder)
    return folder


@pytest.fixture(scope="module")
def short_tube(tmp_path_factory):
    folder = tmp_path_factory.mktemp("short_tube")
    tube(480.0).read(folder)
    return folder


def tried(*, did_reach, tool="horn_anvil", after=("back",), joint="strap_on"):
    return Tried(joint=joint, did_reach=did_reach, tool=tool, after=after)


def test_a_tool_that_did_reach_has_at_least_what_a_straight_rod_needs(long_tube):
    found = learned_reach(derived(long_tube), tried(did_reach=True))
    needs_mm = 330.0 - GIRTH_MM / (2 * pi)
    assert found.reach_mm == 250
    assert found.becomes_mm == pytest.approx(needs_mm, rel=0.03)
    assert 0 <= found.becomes_mm - found.least_mm < 0.11
    assert f"at least {found.becomes_mm:g} mm, not 250 mm" in found.follows
    assert found.most_mm == pytest.approx(330.0, rel=0.005)
    assert "after 11 other joints" in found.held


def test_a_tool_that_did_not_reach_has_less_than_the_way_along_the_leather(short_tube):
    found = learned_reach(derived(short_tube), tried(did_reach=False))
    assert found.becomes_mm == pytest.approx(240.0, rel=0.005)
    assert 0 < found.most_mm - found.becomes_mm < 0.11


@pytest.mark.parametrize(
    ("long_mm", "did_reach", "says"),
    [
        (660.0, False, "up to 330.0 mm may be needed and it has 250 mm"),
        (480.0, True, "250 mm is no less than the 19"),
    ],
)
def test_what_the_model_held_already_teaches_nothing(tmp_path, long_mm, did_reach, says):
    tube(long_mm).read(tmp_path)
    found = learned_reach(derived(tmp_path), tried(did_reach=did_reach))
    assert found.becomes_mm is None
    assert "nothing follows" in found.follows
    assert says in found.follows


def test_while_the_leather_lies_flat_nothing_follows(long_tube):
    for did_reach in (True, False):
        found = learned_reach(derived(long_tube), tried(did_reach=did_reach, after=(), tool=""))
        assert (found.becomes_mm, found.made) == (None, ())
        assert "lies flat" in found.held
        assert "Nothing follows" in found.follows


def test_without_a_word_of_what_was_set_the_order_tells(cop):
    found = learned_reach(cop, tried(did_reach=True, joint="left_row_4", after=None))
    step = cop.work.setting("left_row_4")
    earlier = cop.order[: cop.place[step.id]]
    setting = {j.joint.id: cop.work.setting(j.id).id for j in cop.assembly.joints}
    assert set(found.made) == {joint for joint, by in setting.items() if by in earlier}


def test_a_shell_that_curves_inwards_teaches_nothing_by_a_miss():
    collar = derived(samples_folder() / "collar")
    joint = collar.pattern.seams[0].joints[0]
    found = learned_reach(collar, tried(did_reach=False, joint=joint, after=None))
    assert found.becomes_mm is None
    assert found.reach_mm > found.most_mm
    assert "curves inwards" in found.follows


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"joint": "left_rw_4"}, "Near to it: left_row_4"),
        ({"joint": "left_row"}, "'left_row' is a row, not a joint"),
        ({"joint": "buckle_fold"}, "sits in no shell"),
        ({"tool": "horn_anvl"}, "There is no tool 'horn_anvl'. Perhaps 'horn_anvil' is meant."),
        ({"tool": "ruler"}, "does not set joint 'left_row_4'. Tools that do: held_block"),
        ({"tool": "drill"}, "No reach is known of 'drill'"),
        ({"tool": "burr_setter"}, "does not close the fastener of 'left_row_4'"),
        ({"after": ("rihgt_row",)}, "Near to it: right_row"),
    ],
)
def test_what_is_named_wrongly_is_told(cop, changes, says):
    with pytest.raises(ArmorplanError) as told:
        learned_reach(
            cop, tried(**({"joint": "left_row_4", "did_reach": True, "after": None} | changes))
        )
    assert says in str(told.value)


# --- what teaches nothing --------------------------------------------------------------------


def with_tools(**changes):
    """Return the shelf with the anvil on a horn changed."""
    tools = (replace(t, **changes) if t.id == "horn_anvil" else t for t in SHELF.tools)
    return replace(SHELF, tools=tuple(tools))


def changed(folder, tmp_path, old, new):
    """Return a copy of a pattern with some of its text written otherwise."""
    copytree(folder, tmp_path / "copy")
    file = tmp_path / "copy" / "pattern.toml"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")
    return tmp_path / "copy"


@pytest.mark.parametrize("did_reach", [True, False])
@pytest.mark.parametrize("tool", ["", "horn_anvil"])
def test_a_tool_that_works_from_outside_teaches_nothing_of_reach(long_tube, did_reach, tool):
    outside = derived(long_tube, with_tools(outside=True, reach_mm=None))
    found = learned_reach(outside, tried(did_reach=did_reach, tool=tool))
    assert (found.becomes_mm, found.tool) == (None, tool)
    assert "from outside, however deep" in found.held
    assert found.follows == "Nothing follows for the reach of a tool."


ON_STRAP = 'stack = ["strap_hole", "plate_middle"]'


def test_a_joint_whose_place_is_found_on_the_wearer_teaches_nothing(long_tube, tmp_path):
    unsure = changed(long_tube, tmp_path, ON_STRAP, f"{ON_STRAP}\nplaced_on_wearer = true")
    found = learned_reach(derived(unsure), tried(did_reach=True))
    assert found.becomes_mm is None
    assert "found on the wearer only" in found.held
    assert found.follows == "Nothing follows for the reach of a tool."


def test_a_joint_whose_fastener_is_not_on_the_shelf_teaches_nothing(long_tube):
    unsure = replace(derived(long_tube), shelf=replace(SHELF, fasteners=()))
    found = learned_reach(unsure, tried(did_reach=True))
    assert found.becomes_mm is None
    assert "which fastener it takes is not known" in found.held


def test_beside_a_tool_of_unknown_reach_only_the_tool_named_is_taught(long_tube):
    mallet = ToolEntry(id="mallet", name="Mallet", serves=("rivet",), source="common practice")
    beside = derived(long_tube, replace(SHELF, tools=(*SHELF.tools, mallet)))
    found = learned_reach(beside, tried(did_reach=True, tool=""))
    assert (found.becomes_mm, found.tool) == (None, "")
    assert "name the one that was used" in found.held
    assert learned_reach(beside, tried(did_reach=True)).becomes_mm > 250


def test_a_joint_that_teaches_nothing_still_tells_of_a_tool_there_is_not(long_tube):
    outside = derived(long_tube, with_tools(outside=True, reach_mm=None))
    with pytest.raises(ArmorplanError, match=r"no tool 'horn_anvl'\. Perhaps 'horn_anvil'"):
        learned_reach(outside, tried(did_reach=True, tool="horn_anvl"))


# --- kept ------------------------------------------------------------------------------------


def test_kept_it_is_reckoned_with_and_teaches_no_more(long_tube, tmp_path):
    own = tmp_path / "mine"
    learned = learned_reach(derived(long_tube), tried(did_reach=True))
    kept = keep_reach(own, learned, DAY)
    assert (kept.former_mm, kept.value_mm) == (250, learned.becomes_mm)
    again = learned_reach(derived(long_tube, read_shelf(own=own)), tried(did_reach=True))
    assert (again.reach_mm, again.becomes_mm) == (learned.becomes_mm, None)
    written = loads(kept.path.read_text(encoding="utf-8"))["horn_anvil"]
    slug = derived(long_tube).pattern.slug
    assert written["source"] == (
        f"learned at the bench on 2026-11-29 at {slug}/strap_on: it did reach, 11 others set; 250 mm "
        "before; otherwise: common practice, no source"
    )


def kept(folder, own, *, did_reach, after=("back",)):
    """Keep a trial and return what the shelf then holds."""
    shelf = read_shelf(own=own if own.is_dir() else None)
    keep_reach(
        own, learned_reach(derived(folder, shelf), tried(did_reach=did_reach, after=after)), DAY
    )
    return read_shelf(own=own)


def test_a_trial_that_goes_against_the_one_kept_at_the_same_joint_is_told(short_tube, tmp_path):
    """Kept as a miss, then told as reached, with as much set: both cannot be, and how to change it."""
    shelf = kept(short_tube, tmp_path / "mine", did_reach=False)
    again = learned_reach(derived(short_tube, shelf), tried(did_reach=True))
    assert again.becomes_mm is None
    assert again.against.startswith(
        "On 29 Nov 2026 you said that it did not reach here, with 8 other joints set, and its reach "
        f"was taken as {again.reach_mm:g} mm instead of 250 mm."
    )
    assert "write reach_mm = 250 back under [horn_anvil] in tools.toml" in again.against
    # The same answer again goes against nothing, nor does one of another joint.
    for other in (tried(did_reach=False), tried(did_reach=True, joint="back_4", after=())):
        assert not learned_reach(derived(short_tube, shelf), other).against


def test_what_reached_while_the_row_stood_open_goes_against_no_later_miss(long_tube, tmp_path):
    """Each joint set narrows the way in: it may reach before and not afterwards, but not otherwise."""
    open_row = ("back_1",)
    shelf = kept(long_tube, tmp_path / "mine", did_reach=True)
    assert not learned_reach(derived(long_tube, shelf), tried(did_reach=True)).against
    missed = tried(did_reach=False, after=open_row)
    assert (
        "you said that it did reach here"
        in learned_reach(derived(long_tube, shelf), missed).against
    )
    trial = Trial(joint="cuff/strap_on", did_reach=False, after=12, former_mm=250.0)
    source = trial_source(replace(trial, did_reach=True, after=3), DAY)
    assert not against_former(source, trial, "horn_anvil", follows=True)
    assert against_former(source, replace(trial, after=3), "horn_anvil", follows=True).endswith(
        "keep it: it takes the place of that one."
    )


def test_comments_and_other_values_stay_and_the_source_is_told_once(long_tube, tmp_path):
    text = "# By the quay.\n[horn_anvil] # old\nreach_mm = 200 # by eye\n\n[mallet]\nname = 'Mallet'\nserves = ['rivet']\n"
    file = tmp_path / "tools.toml"
    file.write_text(text, encoding="utf-8")
    for _ in range(2):
        shelf = read_shelf(own=tmp_path)
        keep_reach(tmp_path, learned_reach(derived(long_tube, shelf), tried(did_reach=True)), DAY)
        now = file.read_text(encoding="utf-8")
        assert now.count("learned at the bench") == 1
        assert "# By the quay.\n[horn_anvil] # old\nreach_mm = 28" in now
        assert "# by eye\n" in now
        assert now.endswith(text[text.index("\n[mallet]") :])
        file.write_text(now.replace("reach_mm = 28", "reach_mm = 18"), encoding="utf-8")


def test_what_was_reckoned_with_another_reach_is_not_kept(long_tube, tmp_path):
    learned = learned_reach(derived(long_tube), tried(did_reach=True))
    text = "[horn_anvil]\nreach_mm = 300.0\n"
    (tmp_path / "tools.toml").write_text(text, encoding="utf-8")
    with pytest.raises(ArmorplanError, match="no longer what this was reckoned with"):
        keep_reach(tmp_path, learned, DAY)
    assert (tmp_path / "tools.toml").read_text(encoding="utf-8") == text


def test_nothing_learned_is_nothing_kept(short_tube, tmp_path):
    learned = learned_reach(derived(short_tube), tried(did_reach=True))
    with pytest.raises(ArmorplanError, match="Nothing was kept"):
        keep_reach(tmp_path / "mine", learned, DAY)
    assert not (tmp_path / "mine").exists()


def test_a_broken_file_is_left_as_it_is(long_tube, tmp_path):
    learned = learned_reach(derived(long_tube), tried(did_reach=True))
    (tmp_path / "tools.toml").write_text("[horn_anvil", encoding="utf-8")
    with pytest.raises(UnreadableError):
        keep_reach(tmp_path, learned, DAY)
    assert (tmp_path / "tools.toml").read_text(encoding="utf-8") == "[horn_anvil"
