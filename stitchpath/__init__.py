"""Stitchpath plans the sewing of a quilt on a computerised, hooped machine."""

__version__ = "0.1.0"
