"""Every reason that an exercise shows, reckoned once more from the shapes.

By hand, from the files as they are written: the sum of a post (a leather ounce is 1/64 inch; post
beyond the pinched stack as the catalogue has it); what of a head lies under a cover laid on it by
two shared holes (plane geometry, shapely); what a joint costs more inside a shape (the straight
line from the depth of a hand to the reach of the tool); the air by Magnus' formula (1844, constants
of WMO No. 8, from memory) with the psychrometer's equation, 66 Pa for each K (Penman 1948, from
memory); drying by thickness between Lewis' law (1921: as thick) and Crank's (1975: thickness
squared). All else: the pattern's text read anew, everything derived anew, the same rule, sentence
and numbers found.
"""

import re
import tomllib
from functools import cache
from math import exp, isclose

import pytest
from app.drills.drill_sources import NAMES, asked, source_of
from scipy.optimize import brentq
from shapely import Point, Polygon

from armorplan.app.drills.registry import KINDS
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.reach.gathered import reach_of
from armorplan.kernel.shipped import samples_folder
from armorplan.practice.drill import AnswerForm, DrillKind
from armorplan.practice.reason_names import POST_LENGTH
from armorplan.rules.reaching import ALONG
from armorplan.workshop.shop import one_maker

OUNCE_MM = 25.4 / 64
PINCH = 0.075
REFERENCE = (23.0, 50.0)
PSYCHROMETER_PA_K = 66.0
CATALOGUES = samples_folder().parent / "resources" / "catalogues"
HAND_MM, CURVED, INSIDE, END = 40.0, 1.25, 2.0, 3.0
"""Depth of a hand, and minutes on a shaped part, at full reach, at its end, to those on the bench
(common practice, no source)."""


@cache
def read_anew(name):
    """Return a sample read and derived once more, with nothing kept of what reach was before."""
    reach_of.cache_clear()
    shelf = read_shelf()
    return DrillSource(derived=derive_folder(samples_folder() / name, shelf, one_maker("UTC")))


@cache
def written(name):
    return tomllib.loads((samples_folder() / name / "pattern.toml").read_text("utf-8"))


@cache
def catalogue(name):
    return tomllib.loads((CATALOGUES / f"{name}.toml").read_text("utf-8"))


def shown(source, drill):
    """Yield every judgement of an exercise: of the right answer and of a wrong one, if it is short."""
    right = solved(source, drill)
    yield right.because, right
    found = judged(source, drill, right.answer)
    yield found.because, found
    if drill.form is AnswerForm.ONE:
        for choice in drill.choices:
            found = judged(source, drill, (choice.id,))
            yield found.because, found
    if drill.form is AnswerForm.ORDER:
        found = judged(source, drill, right.answer[::-1])
        yield found.because, found


def confirm(name, kind, seed):
    source, anew = source_of(name), read_anew(name)
    drill = drill_for(source, asked(kind, seed))
    if drill is None:
        return 0
    assert drill_for(anew, drill.asked) == drill
    told = 0
    for (reasons, found), (again, refound) in zip(
        shown(source, drill), shown(anew, drill), strict=True
    ):
        assert reasons == again
        assert found == refound
        for because in reasons:
            check(name, anew.derived, drill, because)
            told += 1
    return told


def check(name, derived, drill, because):
    """Hold one reason against what it says, by hand where that can be done."""
    numbers = {number.name: number.value for number in because.exact}
    relations = [r for r in derived.relations if r.reason.rule == because.rule]
    if because.rule == POST_LENGTH:
        by_layers(name, derived, drill, because)
    elif "needed at the reference" in numbers:
        by_air(derived, because, numbers)
    elif "least wait" in numbers:
        by_lag(derived, because, numbers, relations)
    elif relations:
        same = [r for r in relations if r.reason.text == because.text]
        assert any(r.reason.numbers == because.exact for r in same), because.text
        if "head covered" in numbers:
            by_cover(derived, same, numbers["head covered"])
        if "costs more" in numbers and ALONG in numbers:
            by_depth(derived, same, numbers)


def by_layers(name, derived, drill, because):
    told = written(name)
    joint = derived.assembly.joint(drill.choices[0].joints[0]).joint
    leathers = [
        {**told["materials"][table["material"]], **table}
        for table in (told["parts"][derived.pattern.hole(h).part] for h in joint.stack)
    ]
    layers = [each.get("thickness_mm") or each["weight_oz"] * OUNCE_MM for each in leathers]
    grip_mm = sum(layers) * (1 - PINCH) + joint.washer_mm
    found = {number.name: number.value for number in because.exact}
    assert found["stack"] == pytest.approx(sum(layers) + joint.washer_mm, abs=2e-3)
    assert found["pinched stack"] == pytest.approx(grip_mm, abs=2e-3)
    used = [
        entry
        for choice in drill.choices
        if choice.id.endswith(f":{found['post']:g}")
        and (entry := catalogue("fasteners")[choice.id.partition(":")[0]])
    ]
    windows = [[grip_mm + over for over in entry["over_stack_mm"]] for entry in used]
    told_mm = [found["shortest post that holds"], found["longest post that holds"]]
    assert any(told_mm == pytest.approx(window, abs=2e-3) for window in windows)
    holds = told_mm[0] <= found["post"] <= told_mm[1]
    assert holds == ("too short" not in because.text and "too long" not in because.text)


def by_cover(derived, relations, covered_pct):
    """Lay the cover by two round holes that it shares with what it lies on, and measure the disc."""
    cover, joint = relations[0].reason.about
    hidden = derived.assembly.joint(joint)
    sides = {part.id: part.part for part in derived.assembly.parts}
    for beneath, hole in hidden.stack:
        shared = [
            {part: derived.pattern.hole(h) for part, h in each.stack}
            for each in derived.assembly.joints
            if each.id != joint and {cover, beneath} <= {part for part, _ in each.stack}
        ]
        pairs = [
            (h[cover], h[beneath]) for h in shared if not any(x.travel_mm for x in h.values())
        ]
        if len(pairs) != 2 or sides[cover].drawn_from_inside != sides[beneath].drawn_from_inside:
            continue
        (a, at_a), (b, at_b) = [tuple(complex(*each.centre) for each in pair) for pair in pairs]
        turn = (at_b - at_a) / (b - a)
        turn /= abs(turn)
        middle, at = (a + b) / 2, (at_a + at_b) / 2
        laid = [(complex(*spot) - middle) * turn + at for spot in sides[cover].outline]
        ring = Polygon([(spot.real, spot.imag) for spot in laid])
        fastener = derived.shelf.fastener(hidden.joint.fastener)
        head = Point(derived.pattern.hole(hole).centre).buffer(fastener.head_mm / 2, 64)
        pct = 100 * head.intersection(ring).area / head.area
        assert pct == pytest.approx(covered_pct, abs=3.0)
        return True
    return False


def test_the_boss_hides_heads_by_plane_geometry():
    derived = source_of("elbow_cop").derived
    rule = "hidden-before-cover"
    found = [r for r in derived.relations if r.reason.rule == rule]
    laid = [by_cover(derived, [r], r.reason.numbers[0].value) for r in found]
    assert len(laid) == 2
    assert all(laid)


def by_depth(derived, relations, numbers):
    """The price of a joint inside: what its minutes grow by, on the line from hand to full reach."""
    minutes = derived.flat_work.step(relations[0].first).minutes
    along, reach = numbers[ALONG], numbers["reach"]
    after = {CURVED, END}
    for from_mm in (0.0, HAND_MM):
        share = min(max((along - from_mm) / (reach - from_mm), 0.0), 1.0)
        after.add(CURVED + (INSIDE - CURVED) * share)
    every = (minutes * (then - now) for then in after for now in (1.0, CURVED, *after))
    assert any(isclose(numbers["costs more"], more, abs_tol=1e-6) for more in every)
    assert numbers["costs more"] >= 0.2


def by_lag(derived, because, numbers, relations):
    """The wait of a plan: what the relation counts, or what dries by itself between the two."""
    first, then = because.steps
    told = [r for r in relations if because.text.endswith(r.reason.text)]
    assert told, because.text
    least = [r.lag_min for r in told if (r.first, r.then) == (first, then)]
    least += [
        derived.work.step(r.first).minutes
        for r in told
        if r.then == then and derived.work.step(r.first).after == first
    ]
    assert numbers["least wait"] in least
    if "most wait" in numbers:
        assert numbers["most wait"] in {r.max_lag_min for r in told}


def by_air(derived, because, numbers):
    needed = numbers["catalogue"] * numbers["times for the thickness"]
    assert numbers["needed at the reference"] == pytest.approx(
        needed * numbers["times for this shop"]
    )
    if "passed" in numbers and "passed at the reference" in numbers:
        passed = numbers["passed"] * numbers["pace of this air"]
        assert numbers["passed at the reference"] == pytest.approx(passed, rel=1e-3)
    thick = re.search(r"Leather of ([\d.]+) mm takes .* the catalogue's ([\d.]+) mm", because.text)
    if thick:
        by_one, by_two = ((float(thick[1]) / float(thick[2])) ** power for power in (1, 2))
        low, high = sorted((by_one, by_two))
        assert low - 0.01 <= numbers["times for the thickness"] <= high + 0.01
    taken = numbers.get("the catalogue's air takes up")
    if taken is not None:
        assert taken == pytest.approx(wet_bulb_deficit_pa(*REFERENCE), rel=0.04)
        if "moving air" not in because.text:
            still = numbers["this air takes up"] / taken
            assert numbers["pace of this air"] == pytest.approx(still, rel=0.01)


def saturated_pa(celsius):
    return 611.2 * exp(17.62 * celsius / (243.12 + celsius))


def wet_bulb_deficit_pa(celsius, humidity_pct):
    vapour_pa = saturated_pa(celsius) * humidity_pct / 100
    return PSYCHROMETER_PA_K * (
        celsius
        - brentq(
            lambda wet: saturated_pa(wet) - vapour_pa - PSYCHROMETER_PA_K * (celsius - wet),
            -20.0,
            celsius,
        )
    )


SEEDS = {"elbow_cop": 2, "three_lames": 1, "collar": 1, "arm_harness": 1}
QUICK = (DrillKind.FIRST, DrillKind.FASTENER)
SHORT = [(n, k) for n in NAMES for k in KINDS if n != "arm_harness" or k in QUICK]
"""Of the largest sample the quick kinds; all of them with the long runs."""


@pytest.mark.parametrize(("name", "kind"), SHORT)
def test_every_reason_shown_is_reckoned_again(name, kind):
    assert sum(confirm(name, kind, seed) for seed in range(SEEDS[name]))


@pytest.mark.long
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", NAMES)
def test_every_reason_of_many_exercises_is_reckoned_again(name, kind):
    assert sum(confirm(name, kind, seed) for seed in range(12))
