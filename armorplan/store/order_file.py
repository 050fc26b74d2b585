"""Orders in the workshop file: what was agreed about each build, and the plans that were promised."""

import json
from datetime import datetime

from armorplan.kernel.clock import Clock
from armorplan.ledger.build_orders import BuildOrder
from armorplan.store.columns import Row, instant_text
from armorplan.store.tables import Tables

_KEEP = """
    INSERT INTO orders (build, due_at, ready_at, weight, in_hand, wearer, after_json, source, key,
        told, saved_at)
    VALUES (:build, :due_at, :ready_at, :weight, :in_hand, :wearer, :after_json, :source, :key,
        :told, :saved_at)
    ON CONFLICT (build) DO UPDATE SET due_at = excluded.due_at, ready_at = excluded.ready_at,
        weight = excluded.weight, in_hand = excluded.in_hand, wearer = excluded.wearer,
        after_json = excluded.after_json, source = excluded.source, key = excluded.key,
        told = excluded.told, saved_at = excluded.saved_at
"""
_HAND_ON = """
    UPDATE orders SET
        build = CASE build WHEN :former THEN :build ELSE build END,
        after_json = replace(after_json, :former_quoted, :build_quoted),
        saved_at = :saved_at
    WHERE build = :former OR instr(after_json, :former_quoted)
"""
"""Also of those that wait for the former build: they wait for the one that goes on from it."""
_ALL = """
    SELECT build, due_at, ready_at, weight, in_hand, wearer, after_json, source, key, told
    FROM orders ORDER BY build
"""
_PROMISE = "INSERT INTO promises (at, plan_json) VALUES (:at, :plan_json)"
_PROMISED = "SELECT seq, at, plan_json FROM promises ORDER BY seq DESC LIMIT 1"


class OrderFile:
    """Keeps orders and promises; WorkshopError where the file cannot be read or written."""

    def __init__(self, tables: Tables, clock: Clock) -> None:
        self._tables = tables
        self._clock = clock

    def all(self) -> tuple[BuildOrder, ...]:
        """Return what was agreed about each build, by its id."""
        return self._tables.read(_order_of, _ALL, {})

    def keep(self, *orders: BuildOrder) -> None:
        """Keep these, in place of what was agreed before about the same builds: all or none.

        Raises:
            WorkshopError: a build is not there, another build has this order of its shop file
                already, or the file cannot be written.
        """
        self._tables.write(*(self.keeping(order) for order in orders))

    def keeping(self, order: BuildOrder) -> tuple[str, Row]:
        """Return the statement of ``keep``, to be run together with others."""
        return _KEEP, {
            "build": order.build,
            "due_at": None if order.due_at is None else instant_text(order.due_at),
            "ready_at": None if order.ready_at is None else instant_text(order.ready_at),
            "weight": order.weight,
            "in_hand": int(order.in_hand),
            "wearer": order.wearer,
            "after_json": json.dumps(order.after, ensure_ascii=False),
            "source": order.source,
            "key": order.key,
            "told": order.told,
            "saved_at": self._now(),
        }

    def handing_on(self, former: str, build_id: str) -> tuple[str, Row]:
        """Return the statement by which a build takes over what was agreed about a former one."""
        return _HAND_ON, {
            "build": build_id,
            "former": former,
            "build_quoted": json.dumps(build_id, ensure_ascii=False),
            "former_quoted": json.dumps(former, ensure_ascii=False),
            "saved_at": self._now(),
        }

    def promise(self, plan_json: str) -> int:
        """Keep a plan as the one that was promised; return its number. Former ones stay below it."""
        (number,) = self._tables.write((_PROMISE, {"at": self._now(), "plan_json": plan_json}))
        return number

    def promised(self) -> tuple[int, datetime, str] | None:
        """Return number, instant and text of the plan that was promised last; ``None``: none was."""
        found = self._tables.read(_promise_of, _PROMISED, {})
        return found[0] if found else None

    def _now(self) -> str:
        return instant_text(self._clock.now())


def _order_of(row: Row) -> BuildOrder:
    values = dict(row)
    after = json.loads(values.pop("after_json"))
    return BuildOrder(
        **{
            **values,
            "after": tuple(str(build) for build in after),
            "due_at": _instant(row["due_at"]),
            "ready_at": _instant(row["ready_at"]),
            "in_hand": bool(row["in_hand"]),
        }
    )


def _instant(text: str | None) -> datetime | None:
    return None if text is None else datetime.fromisoformat(text)


def _promise_of(row: Row) -> tuple[int, datetime, str]:
    return int(row["seq"]), datetime.fromisoformat(row["at"]), str(row["plan_json"])
