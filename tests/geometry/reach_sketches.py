"""Nets of reach made by hand and by chance, with benches to judge them."""

from hypothesis import strategies as st

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.model import Access, ReachNet, Rim, Row, Shell, Through, Way
from armorplan.workshop.shelf import ToolEntry


def tool(id_, reach_mm, opening_mm=20.0, **more):
    return ToolEntry(
        id=id_,
        name=id_,
        serves=("rivet",),
        source="made up",
        reach_mm=reach_mm,
        opening_mm=opening_mm,
        **more,
    )


def rim_way(name, along_mm, *, least_mm=None, opening_mm=90.0):
    return Way(
        through=Through.RIM,
        name=name,
        along_mm=along_mm,
        least_mm=along_mm if least_mm is None else least_mm,
        opening_mm=opening_mm,
    )


def row_way(joint, row, along_mm, *, least_mm=None):
    return Way(
        through=Through.ROW,
        name=joint,
        row=row,
        along_mm=along_mm,
        least_mm=along_mm if least_mm is None else least_mm,
    )


def row(id_, parts, *, joints=3, spacing_mm=25.0):
    return Row(
        id=id_,
        name=f"row {id_}",
        joints=tuple(f"{id_}{at}" for at in range(joints)),
        at_mm=tuple(at * spacing_mm for at in range(joints)),
        parts=tuple(parts),
    )


def net_of(rows, ways, *, seats=None, formed=(), hollow=False, closures=()):
    """Return a net of one shell; ``ways`` by joint, ``seats`` the parts each sits on."""
    seats = seats or {}
    parts = sorted(
        {part for each in rows for part in each.parts} | {p for s in seats.values() for p in s}
    )
    rims = {
        way.name: way.opening_mm
        for each in ways.values()
        for way in each
        if way.through is Through.RIM
    }
    shell = Shell(
        id="shell",
        parts=tuple(parts),
        rims=tuple(
            Rim(id=id_, length_mm=3.14 * wide, spots=()) for id_, wide in sorted(rims.items())
        ),
        rows=tuple(rows),
        seats=tuple(sorted(ways)),
        girth_mm={},
        formed=frozenset(formed),
        hollow=hollow,
        closures=tuple(map(frozenset, closures)),
    )
    held = {joint: each.parts for each in rows for joint in each.joints}
    access = {
        joint: Access(
            joint=joint,
            shell=shell.id,
            ways=tuple(sorted(each, key=lambda way: way.along_mm)),
            parts=tuple(seats.get(joint, held.get(joint, ()))),
        )
        for joint, each in sorted(ways.items())
    }
    return ReachNet(shells={"shell": shell}, access=access)


def bench_with(net, *tools, **numbers):
    return Bench(tools={joint: tuple(tools) for joint in net.access}, **numbers)


def tube(*, joints=8, spacing_mm=20.0, width_mm=60.0):
    """Return a plate closed on itself by one row, open at both ends: a tube."""
    seam = row("s", ["p"], joints=joints, spacing_mm=spacing_mm)
    length_mm = (joints - 1) * spacing_mm
    return net_of(
        [seam],
        {joint: _along(seam, at, length_mm, width_mm) for at, joint in enumerate(seam.joints)},
    )


def cup(*, joints=8, spacing_mm=20.0, width_mm=60.0):
    """Return a plate closed on itself by a row that runs from its one mouth into a dead end."""
    seam = row("s", ["p"], joints=joints, spacing_mm=spacing_mm)
    return net_of(
        [seam],
        {joint: _along(seam, at, None, width_mm) for at, joint in enumerate(seam.joints)},
    )


def _along(seam, at, length_mm, width_mm):
    here = seam.at_mm[at]
    rims = [rim_way("rim-1", here, opening_mm=width_mm)]
    if length_mm is not None:
        rims.append(rim_way("rim-2", length_mm - here, opening_mm=width_mm))
    return rims + [
        row_way(joint, seam.id, abs(there - here))
        for joint, there in zip(seam.joints, seam.at_mm, strict=True)
        if there != here
    ]


@st.composite
def nets(draw, *, rows=4, joints=3, seats=2, most_ways=6):
    """Draw a net of one shell; its lengths are whole mm, so that ties happen."""
    plates = [f"p{at}" for at in range(draw(st.integers(1, 4)))]
    some = st.lists(st.sampled_from(plates), min_size=1, max_size=3, unique=True)
    made = [
        row(
            f"r{at}",
            draw(some),
            joints=draw(st.integers(1, joints)),
            spacing_mm=draw(st.integers(10, 120)),
        )
        for at in range(draw(st.integers(1, rows)))
    ]
    where = {f"seat{at}": draw(some) for at in range(draw(st.integers(0, seats)))}
    ways = {
        joint: draw(_ways(made, joint, most_ways))
        for joint in [*(each for one in made for each in one.joints), *where]
    }
    formed = draw(st.lists(st.sampled_from(plates), max_size=1))
    ids = st.sampled_from([one.id for one in made])
    closures = draw(st.lists(st.sets(ids, min_size=1, max_size=3), max_size=2))
    hollow = draw(st.booleans())
    return net_of(made, ways, seats=where, formed=formed, hollow=hollow, closures=closures)


@st.composite
def _ways(draw, made, joint, most):
    spots = [(each, one.id) for one in made for each in one.joints if each != joint]
    found = []
    for at in range(draw(st.integers(0, 2))):
        along, least = draw(_lengths())
        found.append(
            rim_way(f"rim-{at}", along, least_mm=least, opening_mm=draw(st.integers(5, 90)))
        )
    for each, one in (
        draw(st.lists(st.sampled_from(spots), max_size=most, unique=True)) if spots else ()
    ):
        along, least = draw(_lengths())
        found.append(row_way(each, one, along, least_mm=least))
    return found


@st.composite
def _lengths(draw):
    along = draw(st.integers(0, 200))
    return float(along), float(draw(st.integers(0, along)))


tool_lists = st.lists(
    st.tuples(st.integers(0, 180), st.integers(0, 60)), max_size=3, unique=True
).map(lambda pairs: [tool(f"t{at}", float(r), float(o)) for at, (r, o) in enumerate(pairs)])
