"""Names and signs on the drawing table: every part has its name, and nothing covers a word."""

from itertools import combinations

import pytest
from desktop.drafts import BENCH
from PySide6.QtGui import QImage, QPainter

from armorplan.app.draft import drafted
from armorplan.desktop.colours import LIGHT
from armorplan.desktop.shape_edit_over import Mark
from armorplan.desktop.shape_edit_scene import middle, scene_of
from armorplan.desktop.widgets.shape_edit_items import TablePart
from armorplan.desktop.widgets.shape_edit_labels import TableLabels
from armorplan.files.source import read_folder
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder

SCALE, OFF_MM, MARGIN_PX = 1.4, 3.0, 60


@pytest.fixture(scope="module")
def parts():
    return scene_of(
        drafted(read_folder(samples_folder() / "elbow_cop"), BENCH, is_hasty=True)
    ).pattern.parts


@pytest.fixture
def items(qapp, parts):
    return [TablePart(part, frozenset()) for part in parts]


@pytest.fixture
def labels(qapp):
    image = QImage(800, 620, QImage.Format.Format_ARGB32)
    painter = QPainter(image)
    painter.translate(MARGIN_PX, MARGIN_PX)
    painter.scale(SCALE, SCALE)
    yield TableLabels(painter, LIGHT)
    painter.end()


def test_every_part_has_its_name_and_none_covers_another(labels, items):
    labels.names(items)
    assert len(labels._taken) == len(items)
    inside = [any(labels._map.mapRect(i.edge).contains(b) for i in items) for b in labels._taken]
    assert not all(inside)  # some stand beside their parts
    assert not any(one.intersects(other) for one, other in combinations(labels._taken, 2))


def test_a_part_with_arrows_in_it_is_named_beside_it(labels, items):
    (cop,) = (item for item in items if item.part.id == "petal_middle")
    labels.names([cop], ("petal_middle",))
    (name,) = labels._taken
    assert not name.intersects(labels._map.mapRect(cop.edge))


def test_signs_stand_off_names_and_off_each_other(labels, items):
    labels.names(items)
    names = list(labels._taken)
    spots = [middle(item.part.outline) for item in items for _ in range(2)]
    labels.marks([Mark(at=at, severity=Severity.WARNING) for at in spots], items)
    signs = labels._taken[len(names) :]
    assert len(signs) == len(spots)
    assert not any(sign.intersects(name) for sign in signs for name in names)
    assert not any(one.intersects(other) for one, other in combinations(signs, 2))
