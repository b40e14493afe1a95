"""Frozen values that cross a border between rooms."""
