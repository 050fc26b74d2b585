"""A sample that is opened, ticked, changed and opened again."""

from pathlib import Path

from armorplan.app.opening import open_build
from armorplan.app.session import Session
from armorplan.files.catalogue import read_shelf
from armorplan.ledger.state import derive
from armorplan.workshop.shop import one_maker

SHOP = one_maker("UTC")


def rewrite(
    folder: Path, old: str, new: str, count: int = 1, *, name: str = "pattern.toml"
) -> None:
    file = folder / name
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, count), encoding="utf-8")


def opened(folder, workshop, clock):
    return open_build(folder, workshop, read_shelf(), SHOP, clock=clock)


def seated(found, workshop, clock):
    numbers = iter(range(10_000))
    return Session(
        found.build, found.derived, workshop, clock, lambda: f"{found.build.id}-{next(numbers)}"
    )


def of_kind(found, *kinds):
    return [step.id for step in found.derived.work.of_kind(*kinds)]


def state_of(found, workshop):
    return derive(workshop.events(found.build.id))


def finding_of(found, code: str):
    (finding,) = (f for f in found.derived.findings if f.code == code)
    return finding
