"""Which of two comes first in the invented build: by what its steps need."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from desktop.fake_scenario import FakeStep

from armorplan.app.asking_between import BetweenTold, WorkName
from armorplan.app.between_links import BetweenLink
from armorplan.app.between_rows import BetweenRow
from armorplan.kernel.errors import ArmorplanError

LINK = BetweenLink(
    first="",
    of=(),
    order="",
    text="Once both rows are <shut>, no tool gets there.",
    force="cannot",
    rule="reach-before-closed",
    rule_name="Reach before it is closed",
    source="common practice, no source",
    numbers=("reach 250 mm", "way in 290 mm"),
    exact=(),
    price_min=0.0,
    overruled=False,
    note="",
)


@dataclass(frozen=True)
class FakeBetween:
    """Answers ``Between``; a step that another needs comes first, the rest is free."""

    steps: tuple[FakeStep, ...]
    delay: Callable[[], None] = lambda: None

    def names(self) -> tuple[WorkName, ...]:
        made = tuple(
            WorkName(written=f"step:{s.id}", shown=self.shown(s), step=s.id) for s in self.steps
        )
        return (*made, WorkName(written="part:whistle", shown="Harbour whistle – part"))

    def shown(self, step: FakeStep) -> str:
        alike = [s for s in self.steps if s.title == step.title]
        return step.title if len(alike) == 1 else f"{step.title} ({step.id})"

    def told(self, one: str, other: str) -> BetweenTold:
        by_id = {f"step:{s.id}": s for s in self.steps}
        if one not in by_id or other not in by_id:
            message = f"Nothing in this pattern is called '{other if one in by_id else one}'."
            raise ArmorplanError(message)
        self.delay()
        first, then = by_id[one], by_id[other]
        needed = first.id in then.needs
        titles = {s.id: s.title for s in (first, then)}
        link = _link(first, then, overruled=not needed)
        row = BetweenRow(
            first=first.id,
            first_title=first.title,
            then=(then.id,),
            then_titles=(then.title,),
            side="single",
            answer="it has to come first" if needed else "either may come first",
            sentence=f"{'Yes' if needed else 'Nothing forces it'}: '{first.title}' before '{then.title}'.",
            force="cannot" if needed else "",
            price_min=0.0,
            chain=(link,) if needed else (),
            aside=() if needed else (link,),
            other_order=(f"'{first.title}' by reach. Set after it: out of reach.",),
        )
        setting = next((s.id for s in (first, then) if s.joints), "")
        return BetweenTold(row=row, titles=titles, setting=setting)


def _link(first: FakeStep, then: FakeStep, *, overruled: bool) -> BetweenLink:
    return replace(
        LINK,
        first=first.id,
        of=(then.id,),
        order=f"'{first.title}' before '{then.title}'",
        overruled=overruled,
        note="Overruled: a rod was made." if overruled else "",
    )
