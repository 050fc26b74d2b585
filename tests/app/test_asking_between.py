"""What can be named when it is asked which of two comes first, and the answer to a pair."""

import pytest

from armorplan.app.asking_between import AskingBetween
from armorplan.app.between_rows import between_row
from armorplan.app.named_work import WorkKind, named_work
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.shop import one_maker


@pytest.fixture(scope="module", params=["elbow_cop", "arm_harness"])
def derived(request):
    return derive_folder(samples_folder() / request.param, read_shelf(), one_maker("UTC"))


def test_every_step_row_part_joint_and_form_can_be_named_once(derived):
    names = AskingBetween(derived=derived).names()
    assert [name.step for name in names if name.step] == list(derived.order)
    kinds = {name.written.partition(":")[0] for name in names}
    assert kinds == {kind.value for kind in WorkKind}
    for alike in ("shown", "written"):
        values = [getattr(name, alike) for name in names]
        assert len(set(values)) == len(values)


def test_what_is_written_for_a_name_means_it_and_nothing_else(derived):
    names = AskingBetween(derived=derived).names()
    for name in names[:: max(1, len(names) // 60)]:
        kind, _, written = name.written.partition(":")
        try:
            found = named_work(derived, name.written)
        except ArmorplanError as error:
            assert "No step of this build sets or shapes" in str(error)  # noqa: PT017 - the one case
            continue
        assert (found.kind, found.id) == (kind, written)


def test_the_answer_is_that_of_the_command_line_with_every_title_it_names(derived):
    order = [s for s in derived.order if derived.work.sets(derived.work.step(s))]
    side = derived.work.step(order[0]).side
    last = next(s for s in reversed(order) if derived.work.step(s).side is side)
    one, other = f"step:{order[0]}", f"step:{last}"
    told = AskingBetween(derived=derived).told(one, other)
    assert told.row == between_row(derived, one, other)
    named = {told.row.first, *told.row.then}
    for link in (*told.row.chain, *told.row.aside):
        named |= {link.first, *link.of} - {""}
    assert told.titles.keys() == named
    assert told.setting == order[0]


def test_what_sets_nothing_leads_to_no_trial(derived):
    cut = [s for s in derived.order if not derived.work.sets(derived.work.step(s))][:2]
    told = AskingBetween(derived=derived).told(f"step:{cut[0]}", f"step:{cut[1]}")
    assert told.setting == ""
