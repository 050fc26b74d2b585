"""Relations as reasons: the rule's own name, the numbers as reckoned and as said, the cautions."""

from dataclasses import replace

from app.drills.drill_sources import source_of
from relations.relation_cases import after_any, before, before_all, together

from armorplan.app.drills.reasons import (
    because_all,
    because_of,
    fault_words,
    hint_of,
    met_by,
    rule_words,
    rules_of,
)
from armorplan.app.reason_rows import number_words
from armorplan.relations.index import named_steps
from armorplan.relations.weighing import binding
from armorplan.rules.registry import rule_named

SOURCE = source_of("elbow_cop")
ORDER = SOURCE.derived.order


def test_each_reason_of_the_build_is_told_whole():
    derived = SOURCE.derived
    for relation in binding(derived.relations)[::7]:
        told = because_of(derived, relation)
        reason = relation.reason
        assert told.name == rule_named(reason.rule).name
        assert (told.rule, told.text, told.source) == (reason.rule, reason.text, reason.source)
        assert told.exact == reason.numbers
        assert told.numbers == tuple(number_words(number) for number in reason.numbers)
        assert set(told.steps) == named_steps(relation)
        assert list(told.steps) == sorted(told.steps, key=derived.place.__getitem__)
        cautions = {one for step in told.steps for one in derived.work.step(step).cautions}
        assert set(told.cautions) == cautions
        assert len(told.cautions) == len(cautions)


def test_a_hint_says_why_and_names_no_step():
    titles = [step.title for step in SOURCE.derived.work.steps]
    for relation in binding(SOURCE.derived.relations):
        hint = hint_of(relation)
        assert hint.endswith(".")
        assert not any(title in hint for title in titles)


def test_an_own_relation_has_its_own_words():
    own = before(*ORDER[:2], text="The stamp wants it flat.")
    own = replace(own, reason=replace(own.reason, rule="own:flat"))
    assert rule_words("own:flat") == "The maker's own"
    assert hint_of(own) == "The stamp wants it flat."


def test_what_reads_alike_is_told_once():
    one, other = before(*ORDER[:2]), before(*ORDER[1:3])
    assert len(because_all(SOURCE.derived, (one, other))) == 1
    assert rules_of((one, other)) == ("test-rule",)


def test_a_rule_is_kept_only_if_all_of_it_is():
    one, other = before(*ORDER[:2]), before(*ORDER[1:3])
    assert [met.kept for met in met_by((one, other), ())] == [True]
    assert [met.kept for met in met_by((one,), (other,))] == [False]


def said(relation, step):
    titles = {SOURCE.derived.work.step(one).title: f"T{n}" for n, one in enumerate(ORDER[:4])}
    words = fault_words(SOURCE.derived, relation, step)
    for title, short in titles.items():
        words = words.replace(f"'{title}'", short)
    return words


def test_each_kind_is_told_in_its_own_words():
    a, b, c, d = ORDER[:4]
    assert said(before(a, b), b) == "T1 comes too early: T0 has to be done first. a reason"
    assert said(before_all(a, (b, c)), c) == (
        "T2 comes too early: T0 has to be done before the last of T1 and T2. a reason"
    )
    assert said(after_any(d, (a, b)), d) == (
        "T3 comes too early: T0 or T1 has to be done first. a reason"
    )
    assert said(together((a, b)), d) == (
        "T3 comes between T0 and T1, which are done in one go. a reason"
    )
