"""Judges what the shapes of a pattern tell, however altered: numbers, words and ids that hold."""

import json
from collections import Counter
from math import isfinite

from schemas_cli import schema

from armorplan.app.reports import CheckReport, shape_report
from armorplan.app.shape_rows import shape_rows
from armorplan.app.snapshots import plain
from armorplan.app.spoken_of import SpokenOf
from armorplan.cli.shape_words import shape_lines

CHECK = schema("check")


def _known(pattern):
    """Every id that a measure may speak of."""
    tables = (
        pattern.parts, pattern.joints, pattern.seams, pattern.forms, pattern.threads,
        pattern.movements, pattern.hardware, pattern.strap_places, pattern.pieces,
    )  # fmt: skip
    named = {each.id for table in tables for each in table}
    inside = ((*part.holes, *part.slots) for part in pattern.parts)
    return named | {each.id for both in inside for each in both}


def judge_shapes(derived):
    """Hold the shapes of one build to what views and files rely on."""
    shapes, pattern = derived.shapes, derived.pattern
    known, parts = _known(pattern), {part.id for part in pattern.parts}
    assert [i for i, n in Counter(m.id for m in shapes).items() if n > 1] == []
    for measure in shapes:
        assert measure.title
        assert measure.verdict
        assert measure.text
        assert f"{measure.title}{measure.verdict}{measure.text}".isprintable()
        assert len(measure.text) < 1500
        assert set(measure.about) <= known, measure.about
        for figure in measure.figures:
            assert isfinite(figure.value), figure
            assert figure.name
            assert figure.formula
            assert figure.source
        for mark in measure.marks:
            assert mark.part in parts
            assert len(mark.spots) >= 2
            assert all(isfinite(x) and isfinite(y) for x, y in mark.spots)
    told = Counter((f.code, f.text, f.about) for f in derived.findings)
    assert [each for each, times in told.items() if times > 1] == []
    assert all(row.topic for row in shape_rows(derived, SpokenOf(derived)))
    assert max((len(line) for line in shape_lines(shapes)), default=0) <= 100
    report = CheckReport(pattern="p", findings=(), shapes=tuple(map(shape_report, shapes)))
    CHECK.validate(json.loads(json.dumps(plain(report), allow_nan=False)))
