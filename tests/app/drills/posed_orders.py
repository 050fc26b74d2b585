"""Exercises about relations that are thought up: on a sample's steps, judged as any other."""

from dataclasses import replace

from app.drills.drill_sources import asked, source_of

from armorplan.app.derived import waits_among
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.step_words import choices_of
from armorplan.orders.sequence import one_order
from armorplan.practice.drill import AnswerForm, Drill, DrillKind
from armorplan.relations.index import index_relations

SAMPLE = "elbow_cop"


class Posed:
    """An exercise 'put in order' about steps named by letters, or by whatever they are called."""

    def __init__(self, names, relations_of):
        """Take names, and a function from a step's id by its name to the relations."""
        derived = source_of(SAMPLE).derived
        self.id_of = dict(zip(names, derived.order, strict=False))
        steps = tuple(self.id_of[name] for name in names)
        relations = tuple(relations_of(self.id_of))
        sequence = one_order(derived.order, relations, key=derived.place.__getitem__)
        index = index_relations(derived.order, relations)
        self.source = DrillSource(
            derived=replace(
                derived,
                relations=relations,
                index=index,
                sequence=sequence,
                place={step: at for at, step in enumerate(sequence.order)},
                waits=waits_among(index),
            )
        )
        self.drill = Drill(
            asked=asked(DrillKind.ORDER, 1),
            title="thought up",
            question="In what order?",
            choices=choices_of(derived, steps),
            form=AnswerForm.ORDER,
            rules=("test-rule",),
        )

    def answer(self, names):
        return tuple(self.id_of[name] for name in names)


def renamed(relation, id_of):
    """Return a relation between steps of a build, for one between their names."""
    changed = {
        field: id_of[getattr(relation, field)]
        for field in ("first", "then")
        if hasattr(relation, field)
    }
    if hasattr(relation, "of"):
        changed["of"] = frozenset(map(id_of.__getitem__, relation.of))
    return replace(relation, **changed)


def posed(names, relations):
    return Posed(names, lambda id_of: [renamed(each, id_of) for each in relations])
