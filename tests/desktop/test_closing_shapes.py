"""The lens of an open row: wide where it gapes, shut at what is set, kept off its neighbours."""

import pytest
from PySide6.QtCore import QPointF

from armorplan.desktop.closing_shapes import (
    LEAST_PX,
    MOST_PX,
    WIDE_MM,
    half_px,
    lens,
    widest_px,
)

ROW = tuple(QPointF(40.0 * n, 100.0) for n in range(4))


def test_a_gap_is_drawn_wider_the_wider_it_gapes():
    assert half_px(0.0) == 0.0
    assert LEAST_PX < half_px(10.0) < half_px(30.0) < half_px(WIDE_MM) == MOST_PX
    assert half_px(None) == half_px(10 * WIDE_MM) == MOST_PX


def test_a_lens_begins_shut_at_the_joint_that_is_set():
    path = lens(ROW, (0.0, 10.0, 20.0, 30.0))
    box = path.boundingRect()
    assert box.height() == pytest.approx(2 * half_px(30.0))
    assert (box.left(), box.right()) == (0.0, 120.0)
    assert not path.contains(QPointF(0.5, 101.5))
    assert path.contains(QPointF(119.0, 101.5))


def test_one_joint_has_no_lens():
    assert lens(ROW[:1], (None,)).isEmpty()


def test_a_lens_along_close_holes_is_narrow():
    close = tuple(QPointF(8.0 * n, 0.0) for n in range(4))
    assert widest_px(close) == pytest.approx(4.0)
    assert widest_px(ROW) == MOST_PX
    assert lens(close, (None,) * 4).boundingRect().height() == pytest.approx(8.0)
