"""What is to be seen in the bench view now: the step in hand, a page of it, or what lies over it."""

from dataclasses import replace

from armorplan.app.rows import Selection
from armorplan.desktop.bench_commits import BenchCommits
from armorplan.desktop.bench_content import BenchContent, Commit, rest_content, step_content
from armorplan.desktop.bench_desk import BenchDesk
from armorplan.desktop.bench_plan import BenchPlan
from armorplan.desktop.bench_verbs import Verb
from armorplan.desktop.bench_walk import WalkPage
from armorplan.desktop.bridge import Bridge


class BenchShown:
    """Makes the content of the view from where its desk stands."""

    def __init__(
        self, bridge: Bridge, desk: BenchDesk, commits: BenchCommits, plan: BenchPlan
    ) -> None:
        self._bridge, self._desk, self._commits, self._plan = bridge, desk, commits, plan

    def content(self) -> BenchContent:
        """Return what is to be seen now."""
        return replace(self._content(), plan=self._plan.words())

    def _content(self) -> BenchContent:
        desk, leaf, walk = self._desk, self._desk.leaf, self._desk.walk
        page = leaf.page() if leaf else walk.page if walk else None
        found = self._step() if page is None else self.with_page(page)
        if found is None:
            found = rest_content(desk.place.rest_text(), self._bridge.session.title)
        if leaf is not None:
            # What comes next has nothing to do with a question.
            return replace(found, words=leaf.words(), is_going=False, coming="")
        if walk is not None:
            found = replace(found, progress=walk.words, share=walk.share)
        if desk.can_take_back:
            return found
        words = dict(found.words)
        words.pop(Verb.TAKE_BACK, None)
        return replace(found, words=words)

    def _step(self) -> BenchContent | None:
        """Return what is shown of the step in hand; ``None``: there is none."""
        card = self._desk.card
        if card is None:
            return None
        lit = self._bridge.session.choose_steps((card.step,))
        line, now = self._commits.line(card), self._bridge.clock.now()
        return step_content(card, lit, line, now, self._bridge.zone)

    def with_page(self, page: WalkPage) -> BenchContent | None:
        """Return what is shown of the step in hand with a page of it turned to."""
        shown = self._step()
        if shown is None:
            return None
        shown = replace(shown, plan=self._plan.words())
        lit = self._bridge.session.choose_spoken_of(page.about) if page.about else Selection()
        return replace(
            shown,
            title=page.title,
            facts=page.lines,
            kept=len(page.lines),
            caution="",
            commit=shown.commit if page.is_last else Commit(),
            row=(),
            lit=lit if page.about else shown.lit,
            numbers=page.numbers,
            is_whole=page.is_whole,
            is_steady=True,
        )
