"""The tables of the maker's own relations and overrulings.

Only their form is checked here: whether the steps they name exist is known once steps are made.
"""

import re
from dataclasses import replace

from armorplan.files.faults import brief
from armorplan.files.limits import WAIT_MIN, WORK
from armorplan.files.option_rows import read_only_with
from armorplan.files.references import Names, check_once
from armorplan.files.tables import Table
from armorplan.files.values import (
    maybe_choice,
    maybe_text,
    maybe_whole,
    number,
    text,
    texts,
    whole,
)
from armorplan.pattern.own_work import Overruling, OwnKind, OwnRelation
from armorplan.relations.model import Force
from armorplan.steps.model import StepKind
from armorplan.steps.naming import kind_slug

_STEP = re.compile(r"([a-z-]+)/([^\s/]+)")
_SLUGS = (*(kind_slug(kind) for kind in StepKind), "seam")
_SHAPES = {
    frozenset({"first", "then"}): OwnKind.BEFORE,
    frozenset({"first", "before_all_of"}): OwnKind.BEFORE_ALL,
    frozenset({"then", "after_any_of"}): OwnKind.AFTER_ANY,
    frozenset({"together"}): OwnKind.TOGETHER,
    frozenset({"apart", "on"}): OwnKind.APART,
}
_SHAPE_KEYS = ("first", "then", "before_all_of", "after_any_of", "together", "apart", "on")
_LISTS = {
    OwnKind.BEFORE_ALL: "before_all_of",
    OwnKind.AFTER_ANY: "after_any_of",
    OwnKind.TOGETHER: "together",
    OwnKind.APART: "apart",
}
_SIDE_BY_SIDE = (OwnKind.TOGETHER, OwnKind.APART)


def read_own_relations(top: Table, choices: Names) -> tuple[OwnRelation, ...]:
    """Return the relations the maker adds, in the order they are written."""
    found: list[OwnRelation] = []
    for key, row in top.table("relations").rows():
        relation = OwnRelation(
            id=key,
            kind=OwnKind.BEFORE,
            force=(maybe_choice(row, "force", Force) or Force.USUAL).value,
            why=maybe_text(row, "why") or "",
            price_min=number(row, "price_min", WORK, default=0.0),
            lag_min=whole(row, "lag_min", least=0, most=WAIT_MIN, default=0),
            max_lag_min=maybe_whole(row, "max_lag_min", least=0, most=WAIT_MIN),
            only_with=read_only_with(row, choices),
        )
        relation = _shaped(row, relation)
        _check_numbers(row, relation)
        row.finish()
        found.append(relation)
    return tuple(found)


def _shaped(row: Table, relation: OwnRelation) -> OwnRelation:
    """Return the relation with its kind and its steps."""
    written = [key for key in _SHAPE_KEYS if row.has(key)]
    ends = _step(row, "first"), _step(row, "then")
    lists = {key: _steps(row, key) for key in _LISTS.values()}
    on = text(row, "on", default="")
    kind = _SHAPES.get(frozenset(written))
    if kind is None:
        row.fault(
            None,
            "no-such-shape",
            f"The relation writes {' + '.join(written) or 'no step'}.",
            mend="Write one of: first + then; first + before_all_of; then + after_any_of; "
            "together; apart + on.",
        )
        return relation
    others = (ends[1],) if kind is OwnKind.BEFORE else lists[_LISTS[kind]]
    step = ends[kind is OwnKind.AFTER_ANY]
    if kind in _SIDE_BY_SIDE:
        _check_several(row, _LISTS[kind], others)
    if step and step in others:
        row.fault(
            None,
            "before-itself",
            f'The relation puts "{brief(step)}" before or after itself.',
            mend="Name another step.",
        )
    return replace(relation, kind=kind, step=step, others=others, on=on)


def _check_several(row: Table, key: str, steps: tuple[str, ...]) -> None:
    """Tell a single step; a name that stands for all of a kind or seam may stand alone."""
    if len(steps) == 1 and not steps[0].endswith("/*") and not steps[0].startswith("seam/"):
        row.fault(
            key,
            "one-step",
            f'{row.name_of(key)} names one step, "{brief(steps[0])}".',
            mend="Name two or more, or all of a kind as rivet/*.",
        )


def _check_numbers(row: Table, relation: OwnRelation) -> None:
    if relation.force != Force.EASIER.value:
        row.idle("price_min", because=f'the force is "{relation.force}", not "easier"')
    if relation.kind is not OwnKind.BEFORE:
        for key in ("lag_min", "max_lag_min"):
            row.idle(key, because="only first + then has minutes between")
    if relation.max_lag_min is not None and relation.max_lag_min < relation.lag_min:
        row.fault(
            "max_lag_min",
            "lag-turned-round",
            f"At least {relation.lag_min} and at most {relation.max_lag_min} minutes lie between.",
            mend="Make max_lag_min at least lag_min.",
        )


def read_overrulings(top: Table) -> tuple[Overruling, ...]:
    """Return what the maker sets aside, in the order it is written."""
    found: list[Overruling] = []
    for key, row in top.table("overruled").rows():
        overruling = Overruling(
            id=key,
            rule=text(row, "rule"),
            step=_step(row, "step"),
            other=_step(row, "other"),
            note=maybe_text(row, "note") or "",
        )
        row.finish()
        found.append(overruling)
    return tuple(found)


def _step(row: Table, key: str) -> str:
    name = text(row, key, default="")
    if name:
        _check_form(row, key, name)
    return name


def _steps(row: Table, key: str) -> tuple[str, ...]:
    names = texts(row, key, required=row.has(key))
    check_once(row, key, names)
    for name in dict.fromkeys(names):
        _check_form(row, key, name)
    return tuple(dict.fromkeys(names))


def _check_form(row: Table, key: str, name: str) -> None:
    found = _STEP.fullmatch(name)
    if found and found[1] in _SLUGS:
        return
    near = row.faults.nearest(name.partition("/")[0], _SLUGS) if "/" in name else None
    row.fault(
        key,
        "no-step-name",
        f'{row.name_of(key)} names "{brief(name)}", which is no name of a step.',
        mend=f'Perhaps "{near}/…" is meant.'
        if near
        else "Write its kind and what it works on, like rivet/left_row_1 or cut/cop.",
    )
