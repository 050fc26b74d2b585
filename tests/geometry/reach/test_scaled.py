"""The same shape drawn larger is told in the same words: lengths grow with it, verdicts do not."""

from dataclasses import replace
from math import cos, pi, sin

import pytest
from geometry.reach.net_sketches import sector, tube
from geometry.reach.stake_cuts import gores
from geometry.reach.test_curving import arcs, chance
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.reach.bench import bench_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.net import reach_net
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.choosing import settled

SHELF = read_shelf()
SHARE, EDGE_MM = 0.005, 0.5
"""By so little a corner of a lap may look nearer to a mouth or further from it."""

MESH = 0.02
"""Girths are read off triangles that are no finer than some 9 mm, whatever the size."""


def sample(name):
    return settled(read_pattern(read_folder(samples_folder() / name), SHELF).pattern)


SHAPES = {
    "elbow cop": lambda: sample("elbow_cop"),
    "half collars": lambda: sample("collar"),
    "tube": lambda: tube(240.0, 460.0, 9.0, extra={"seat": (120.0, 230.0)}),
    "cone": lambda: sector(0.0, 260.0, 2.0, extra={"seat": (150.0, 60.0)}),
    "saddle": lambda: arcs(12.0),
    "plates that bulge": lambda: arcs(-12.0),
    "cup": lambda: gores(
        chance(), [(80 * cos(t / 50), 80 * sin(t / 50)) for t in range(65)], count=8, lid=True
    ).pattern(),
    "waist": lambda: gores(
        chance(), [(60 + 20 * cos(pi * z / 90), float(z)) for z in range(181)], count=8, lid=True
    ).pattern(),
}
QUICK = ("elbow cop", "half collars", "tube", "cone", "saddle", "plates that bulge")


def drawn_larger(pattern, scale):
    """Return a pattern as its drawing scaled gives it, with bends and dishes as much wider."""

    def by(spot):
        return spot[0] * scale, spot[1] * scale

    return replace(
        pattern,
        parts=tuple(
            replace(
                part,
                outline=tuple(map(by, part.outline)),
                holes=tuple(replace(hole, centre=by(hole.centre)) for hole in part.holes),
                slots=tuple(
                    replace(slot, outline=tuple(map(by, slot.outline))) for slot in part.slots
                ),
            )
            for part in pattern.parts
        ),
        forms=tuple(
            replace(
                form,
                radius_mm=form.radius_mm and form.radius_mm * scale,
                axis=form.axis and tuple(map(by, form.axis)),
            )
            for form in pattern.forms
        ),
    )


def with_longer_tools(bench, scale):
    """Return a bench whose tools reach and gape as much further, and whose hand does."""
    tools = {
        joint: tuple(
            replace(t, reach_mm=t.reach_mm * scale, opening_mm=t.opening_mm * scale) for t in held
        )
        for joint, held in bench.tools.items()
    }
    return replace(bench, tools=tools, hand_depth_mm=bench.hand_depth_mm * scale)


def lengths_of(net):
    """Return the lengths of all mouths of a net, and of the shortest ways to its joints.

    From what spacing on a row gapes for good goes by the size of tools, so such ways are left out.
    """
    shells = net.shells.values()
    mouths = {(shell.id, rim.id): rim.length_mm for shell in shells for rim in shell.rims}
    ways = (
        (joint, [way for way in each.ways if way.gap is None])
        for joint, each in net.access.items()
    )
    return mouths | {joint: found[0].along_mm for joint, found in ways if found}


def girths_of(net):
    """Return the girth of each shell from each of its mouths."""
    shells = net.shells.values()
    return {(shell.id, rim): mm for shell in shells for rim, mm in shell.girth_mm.items()}


def words_of(net, bench):
    """Return what is said of a net, by what it is said of."""
    words = {}
    for shell in net.shells.values():
        words[shell.id] = shell.hollow, len(shell.rims), [row.links for row in shell.rows]
    for joint, access in net.access.items():
        rows = {each for row in net.shells[access.shell].rows for each in row.joints} - {joint}
        for made in (frozenset(), frozenset(rows)):
            words[joint, len(made)] = margin(net, joint, made, bench).standing
    return words


def alike(name, scale):
    """Hold a shape against itself drawn larger; what just reaches or just not is left out."""
    pattern = SHAPES[name]()
    net, larger = reach_net(pattern), reach_net(drawn_larger(pattern, scale))
    lengths = {key: mm / scale for key, mm in lengths_of(larger).items()}
    assert lengths == pytest.approx(lengths_of(net), rel=SHARE, abs=EDGE_MM)
    girths = {key: mm / scale for key, mm in girths_of(larger).items()}
    assert girths == pytest.approx(girths_of(net), rel=MESH)
    bench = bench_of(pattern, SHELF)
    few, words, more = (
        words_of(net, with_longer_tools(bench, share)) for share in (1 - SHARE, 1.0, 1 + SHARE)
    )
    firm = {key for key, said in words.items() if said == few[key] == more[key]}
    assert len(firm) >= 0.75 * len(words)
    said = words_of(larger, with_longer_tools(bench, scale))
    assert {key: said[key] for key in firm} == {key: words[key] for key in firm}


@pytest.mark.parametrize(
    ("name", "scale"),
    [(name, 1.25 + 0.15 * at) for at, name in enumerate(QUICK)] + [(QUICK[0], 2)],
)
def test_a_shape_drawn_larger_is_told_alike(name, scale):
    alike(name, scale)


@pytest.mark.long
@given(st.sampled_from(sorted(SHAPES)), st.floats(0.8, 4.0))
@settings(max_examples=30, deadline=None)
def test_every_shape_is_told_alike_at_any_scale(name, scale):
    alike(name, scale)
