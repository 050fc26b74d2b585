"""Pages of the bench view: shared out where they do not fit, counted, numbered in the picture."""

from desktop.bench_fit_scene import fit_of
from PySide6.QtCore import QPoint, QPointF, QRectF, QSizeF

from armorplan.desktop.bench_asking import around
from armorplan.desktop.bench_walk import Walk, WalkPage, fit_pages, paged, reading_pages
from armorplan.desktop.bench_words import more_text, unbroken
from armorplan.desktop.widgets.bench_numbers import plates


def few_and_more(most):
    """Room for lines, and for one that counts the others."""
    return lambda page: len([line for line in page.lines if "more" not in line]) <= most


def few(most):
    return lambda page: len(page.lines) <= most


def test_lines_are_shared_out_among_as_many_pages_as_they_need():
    page = WalkPage(title="t", lines=tuple("abcdefg"))
    more = [more_text(count, below=True) for count in range(7)]
    assert [p.lines for p in paged(page, few(4))] == [
        ("a", "b", "c", more[4]),
        ("d", "e", "f", "g"),
    ]
    assert more[4] == "▼\N{NO-BREAK SPACE}4 more"
    assert [p.lines for p in paged(page, few(3))] == [
        ("a", "b", more[5]),
        ("c", "d", more[3]),
        ("e", "f", "g"),
    ]
    five = WalkPage(title="t", lines=tuple("abcde"))
    assert [p.lines for p in paged(five, few(4))] == [("a", "b", "c", more[2]), ("d", "e")]
    eight = WalkPage(title="t", lines=tuple("abcdefgh"))
    assert [p.lines for p in paged(eight, few(8))] == [tuple("abcdefgh")]
    last_is_alone = WalkPage(title="t", lines=tuple("abcd"))
    assert [p.lines for p in paged(last_is_alone, few_and_more(3))] == [
        ("a", "b", more[2]),
        ("c", "d"),
    ]
    assert [p.lines for p in paged(WalkPage(title="t"), few(4))] == [()]


def test_a_walk_ends_at_its_ends():
    walk = Walk("s", fit_pages(fit_of("s")))
    assert not walk.back()
    assert [walk.on() for _ in walk.pages] == [True] * (len(walk.pages) - 1) + [False]
    assert walk.page.is_last


def test_answers_out_of_sight_are_counted_above_and_below():
    lines = tuple("abcdefghi")
    assert around(lines[:6], 5) == lines[:6]
    assert around(lines, 0) == ("a", "b", "c", "d", more_text(5, below=True))
    middle = (more_text(2, below=False), "c", "d", "e", "f", more_text(3, below=True))
    assert around(lines, 4) == middle
    assert around(lines, 8) == (more_text(5, below=False), "f", "g", "h", "i")


def test_numbers_lie_over_no_other_and_over_no_joint():
    room, size = QRectF(0, 0, 300, 200), QSizeF(16, 14)
    spots = {n: QPoint(100 + 12 * (n % 3), 80 + 14 * (n // 3)) for n in range(1, 9)}
    found = plates(spots, size, room)
    boxes = list(found.values())
    for at, box in enumerate(boxes):
        assert room.contains(box)
        assert not any(box.contains(QPointF(spot)) for spot in spots.values())
        assert not any(box.intersects(other) for other in boxes[at + 1 :])


def test_reading_tells_nothing_twice(session):
    card = session.bench_card(next(s.id for s in session.steps if s.kind == "rivet"))
    (page,) = reading_pages(card, ("Nothing is closed off by this.",))
    assert len(page.lines) == len(set(page.lines))


def test_no_line_ends_within_a_count_or_a_size():
    told = unbroken("5 × Bolt M3 × 12 with wing nut").split(" ")
    assert [word.replace("\N{NO-BREAK SPACE}", " ") for word in told] == [
        "5 × Bolt",
        "M3 × 12",
        "with",
        "wing",
        "nut",
    ]
