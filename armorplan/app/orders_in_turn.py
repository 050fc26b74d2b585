"""Orders of a shop file in the turn in which they are begun: what others wait for before them."""

from armorplan.workshop.orders import Order


def with_formers(wanted: Order, orders: tuple[Order, ...]) -> tuple[Order, ...]:
    """Return an order with all that it waits for."""
    by_id = {order.id: order for order in orders}
    found: dict[str, Order] = {}
    waiting = [wanted.id]
    while waiting:
        order = by_id.get(waiting.pop())
        if order is not None and order.id not in found:
            found[order.id] = order
            waiting.extend(order.after)
    return tuple(found.values())


def formers_first(orders: tuple[Order, ...]) -> list[Order]:
    """Return orders with those that others wait for before them; of a ring as they stand."""
    waiting, found = list(orders), list[Order]()
    ids = {order.id for order in orders}
    while waiting:
        placed = {order.id for order in found} | {i for o in waiting for i in o.after} - ids
        free = [order for order in waiting if set(order.after) <= placed]
        found += free or waiting
        waiting = [order for order in waiting if order not in found]
    return found


def due_by_file(order: Order) -> tuple[bool, float]:
    """Return a key by which the order due the soonest comes first."""
    return order.due_at is None, order.due_at.timestamp() if order.due_at else 0.0
