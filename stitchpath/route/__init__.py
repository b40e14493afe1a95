"""Route: in which order and direction a hooping's lines are sewn, and where thread is cut."""

from stitchpath.route.costs import find_costs
from stitchpath.route.order import order_runs

__all__ = ["find_costs", "order_runs"]
