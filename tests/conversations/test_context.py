"""What a turn may know."""

from __future__ import annotations

from datetime import UTC, datetime

from conversations.context import Context, OrderView
from sizing.workshop import default_figures

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


def test_an_order_is_found_by_its_number_and_only_by_that() -> None:
    """Of several the right one; of none or another person's, nothing."""
    orders = tuple(OrderView(number, 1, "handed-in", NOW) for number in ("48291742", "48291839"))
    context = Context(now=NOW, figures=default_figures(), next_number="1", orders=orders)
    assert context.order("48291839") is orders[1]
    assert context.order("48291700") is None
    assert context.order("") is None
