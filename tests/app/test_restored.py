"""A build goes on from a backup that was put in place, and from what stood there before it."""

from armorplan.app.session import Session
from armorplan.store.backing_up import back_up
from armorplan.store.backups import BackupKind, backups_of
from armorplan.store.restoring import restore


def opened_anew(bench, begun):
    """The same build over the same open file, as the window reads it anew."""
    _, opened = begun
    return Session(opened.build, opened.derived, bench.workshop, bench.clock, bench.new_id)


def test_it_goes_on_from_what_was_ticked_then_and_all_that_was_lost_comes_back(bench, begun):
    first, second, third = bench.session.derived.order[:3]
    bench.session.done((first,))
    back_up(bench.path, BackupKind.DAILY, bench.clock)
    bench.session.done((second,))
    lost = bench.session.entries()
    restore(bench.path, backups_of(bench.path)[0], bench.clock)
    session = opened_anew(bench, begun)
    assert session.done_order == (first,)
    # A number that was given before is given anew; nothing of it mixes.
    session.done((third,))
    assert session.done_order == (first, third)
    assert session.entries()[-1].seq == lost[-1].seq
    before = next(b for b in backups_of(bench.path) if b.kind is BackupKind.RESTORING)
    restore(bench.path, before, bench.clock)
    again = opened_anew(bench, begun)
    assert again.entries() == lost
    assert again.done_order == (first, second)
    assert again.undo()
    assert opened_anew(bench, begun).done_order == (first,)
    # Also what was ticked in between stands in a backup.
    assert len([b for b in backups_of(bench.path) if b.kind is BackupKind.RESTORING]) == 2
