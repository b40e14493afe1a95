"""Route: in which order and direction a hooping's lines are sewn, and where thread is cut."""

from stitchpath.route.order import order_runs

__all__ = ["order_runs"]
