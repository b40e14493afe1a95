"""Output folders: what a make hands over, what is there afterwards, and faults on the way."""

import hashlib
import json
import os
from pathlib import Path

import pytest


def made_files(**contents: str) -> dict[str, bytes]:
    """Return what a make hands over: files, and the plan that lists them."""
    files = {name.replace("__", "/").replace("_", "."): text for name, text in contents.items()}
    return with_plan({name: text.encode() for name, text in files.items()})


def with_plan(files: dict[str, bytes]) -> dict[str, bytes]:
    """Add a plan that lists the files by hash."""
    hashes = {name: hashlib.sha256(data).hexdigest() for name, data in files.items()}
    return {**files, "plan.json": json.dumps({"files": hashes}).encode()}


FIRST = made_files(quilt__01_dst="one", quilt__02_dst="two", booklet_html="first")
SECOND = made_files(quilt__01_dst="ONE", pocket__01_dst="three", booklet_html="second")


def read_folder(folder: Path) -> dict[str, bytes]:
    """Return all files below a folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def hidden_places(folder: Path) -> list[str]:
    """Return the names of places that were left behind."""
    return [path.name for path in folder.rglob(".stitchpath-*")]


def fail_at(monkeypatch: pytest.MonkeyPatch, name: str, nth: int, fault: BaseException) -> None:
    """Make the nth call of a function of `os` raise."""
    real, calls = getattr(os, name), 0

    def call(*args: object, **kwargs: object) -> object:
        nonlocal calls
        calls += 1
        if calls == nth:
            raise fault
        return real(*args, **kwargs)

    monkeypatch.setattr(os, name, call)


def cannot_exchange(_one: Path, _other: Path) -> bool:
    """Stand in for a system where two folders cannot change places in one step."""
    return False
