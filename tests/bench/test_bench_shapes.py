"""What the shapes tell of the largest sample, from cold and after one edit, and how it grows.

Goals on 2 cores: a sample from cold within 1 s, after one edit of its text within 100 ms; 300 parts
with 1,500 joints within 8 s. The baselines, in the same run: reading the sample's own files, and
shapely's buffers of all outlines with the distances between parts that lie near. The table is
printed with ``pytest -s``.
"""

from dataclasses import replace
from statistics import median

import pytest
from bench.cold import forget
from bench.stopwatch import busy_s
from bench.tiled import askew, tiled

from armorplan.app.draft import Bench, Draft, drafted
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import from_texts, read_folder
from armorplan.geometry.checking import shape_findings
from armorplan.geometry.gathering import TOPICS, measures
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.choosing import settled
from armorplan.workshop.shop import one_maker

pytestmark = pytest.mark.bench

SHELF = read_shelf()
COLD_S, EDIT_S, LARGE_S = 1.0, 0.1, 8.0
ROUNDS = 5


def shapes_s(pattern):
    """Return the seconds for all measures and all other findings of the shapes."""
    return busy_s(lambda: shape_findings(pattern, SHELF, measures(pattern, SHELF)))


def cold_s(pattern):
    forget()
    return shapes_s(pattern)


def buffers_s(pattern):
    """Return the seconds shapely takes for buffers of all outlines and distances of neighbours."""
    from shapely import Polygon, STRtree

    def work():
        flat = [Polygon(part.outline).buffer(6.0) for part in pattern.parts]
        one, other = STRtree(flat).query(flat)
        return [flat[a].distance(flat[b]) for a, b in zip(one, other, strict=True)]

    return median(busy_s(work) for _ in range(ROUNDS))


def say(capsys, *lines):
    with capsys.disabled():
        print("", *lines, sep="\n")  # noqa: T201 - the table that is asked for


def samples():
    folders = [p for p in sorted(samples_folder().iterdir()) if (p / "pattern.toml").exists()]
    return {folder.name: folder for folder in folders}


def edited(texts, pattern):
    """Yield a name and the texts of a pattern after one edit of each kind a maker makes."""
    shelf = Bench(shelf=SHELF, shop=one_maker("UTC"))
    draft = drafted(from_texts("p", texts), shelf)
    part, joint = pattern.parts[0], pattern.joints[0]
    hole = pattern.hole(joint.stack[0])
    nudge = {"name": "drawn too far left", "holes": [hole.id], "move_mm": [0.4, 0]}
    changes = {
        "a thickness": (("parts", part.id, "thickness_mm"), part.thickness_mm + 0.1),
        "a name": (("parts", part.id, "name"), "another name"),
        "a washer": (("joints", joint.id, "washer_mm"), 0.4),
        "a hole moved": (("corrections", hole.id), nudge),
    }
    for name, (path, value) in changes.items():
        made = (
            draft.add_entry(*path, value) if isinstance(value, dict) else draft.put((path, value))
        )
        assert isinstance(made, Draft), made.words
        yield name, dict(made.texts)


def read(texts):
    pattern = read_pattern(from_texts("p", texts), SHELF).pattern
    assert pattern is not None
    return settled(pattern)


@pytest.mark.parametrize("name", sorted(samples()))
def test_a_sample_from_cold_and_after_one_edit(name, capsys, benchmark):
    texts = read_folder(samples()[name]).as_texts()
    pattern = read(texts)
    read_s = median(busy_s(lambda: read(texts)) for _ in range(ROUNDS))
    flat_s = buffers_s(pattern)
    first_s = benchmark.pedantic(cold_s, args=(pattern,), rounds=3)
    first_s = min(first_s, cold_s(pattern))
    lines = [f"{name}: {len(pattern.parts)} parts, {len(pattern.joints)} joints"]
    lines += [_line("from cold", first_s, read_s, flat_s)]
    worst_s = 0.0
    for what, other in edited(texts, pattern):
        forget()
        shapes_s(pattern)
        again = read(other)
        took_s = min(_after(pattern, again) for _ in range(3))
        worst_s = max(worst_s, took_s)
        lines.append(_line(f"after {what}", took_s, read_s, flat_s))
    for topic in TOPICS:
        forget()
        lines.append(
            _line(topic.__name__, busy_s(lambda t=topic: list(t(pattern, SHELF))), read_s, flat_s)
        )
    say(capsys, *lines)
    benchmark.extra_info["ratio_to_reading"] = round(first_s / read_s, 2)
    assert first_s <= COLD_S
    assert worst_s <= EDIT_S


def _after(pattern, again):
    """Return the seconds for an edited pattern where only the former one is known."""
    forget()
    shapes_s(pattern)
    return shapes_s(again)


def _line(what, took_s, read_s, flat_s):
    return (
        f"  {what:24} {1000 * took_s:8.1f} ms   {took_s / read_s:6.2f} × reading   "
        f"{took_s / flat_s:7.2f} × buffers"
    )


def test_growth_to_three_hundred_parts_and_fifteen_hundred_joints(capsys):
    patterns = [read(read_folder(folder).as_texts()) for folder in samples().values()]
    pattern = max(patterns, key=lambda each: len(each.joints))
    most = max(-(-300 // len(pattern.parts)), -(-1500 // len(pattern.joints)))
    lines = ["the largest sample, laid several times beside itself: from cold, and after one edit"]
    worst_s = 0.0
    sizes = sorted({1, most // 4, most // 2, most})
    for times, askew_mm in (*((each, 0.0) for each in sizes), (most // 2, 4.0), (most, 4.0)):
        large = askew(tiled(pattern, times), askew_mm) if askew_mm else tiled(pattern, times)
        took_s = cold_s(large)
        worst_s = max(worst_s, took_s)
        thicker = replace(large.parts[0], thickness_mm=large.parts[0].thickness_mm + 0.1)
        again_s = shapes_s(replace(large, parts=(thicker, *large.parts[1:])))
        parts, joints = len(large.parts), len(large.joints)
        lines.append(
            f"  {parts:4} parts {joints:5} joints {took_s:6.2f} s {1000 * took_s / parts:5.1f} ms a part "
            f"{took_s / buffers_s(large):5.1f} × buffers, then {again_s:5.2f} s"
            f"{f'; every second pivot {askew_mm:g} mm askew' * bool(askew_mm)}"
        )
    say(capsys, *lines)
    assert worst_s <= LARGE_S
