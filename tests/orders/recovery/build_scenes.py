"""The samples as ways back are looked for in them, derived once for all tests."""

from functools import cache

from armorplan.app.derived import Derived
from armorplan.app.opening import derive_folder
from armorplan.app.ways_back import recovery_scene
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.workshop.shop import one_maker

SAMPLES = ("elbow_cop", "three_lames", "collar", "arm_harness")


@cache
def derived_sample(name: str) -> Derived:
    return derive_folder(samples_folder() / name, read_shelf(), one_maker("UTC"))


@cache
def sample_scene(name: str) -> RecoveryScene:
    return recovery_scene(derived_sample(name))


def named(name: str, *tails: str) -> frozenset[str]:
    """Return the ids of steps that end so: ``rivet/boss_left``."""
    steps = derived_sample(name).work.steps
    found = frozenset(s.id for s in steps if any(s.id.endswith(f"/{tail}") for tail in tails))
    assert len(found) >= len(tails)
    return found


def row(name: str, seam: str) -> frozenset[str]:
    """Return the steps that set a row."""
    derived = derived_sample(name)
    joints = next(s.joints for s in derived.assembly.seams if s.id == seam)
    return frozenset(derived.work.setting(joint).id for joint in joints)
