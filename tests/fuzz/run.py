"""Feeds targets with inputs that reach code not reached before, and keeps what does harm.

    python -m tests.fuzz.run --seconds 450 --out FOLDER [TARGET...]

Wants `pip install -e '.[fuzz]'`. Each kind of harm is told and its smallest input kept in the
folder, beside a report; an input that did harm once becomes a test beside what is mended.
"""

import argparse
import contextlib
import importlib
import os
import random
import resource
import signal
import sys
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING, Any, Final

from tests.fuzz.mutate import changed_text

if TYPE_CHECKING:
    from tests.fuzz.targets import Target

_PACKAGES: Final = ["stitchpath", "pyembroidery", "svgelements", "tomllib", "defusedxml"]
HANG_S: Final = 5.0
_ROUND_S: Final = 120
_BY_WORDS: Final = 0.7
_OF_GOOD: Final = 0.7
_GOOD: Final = 300
_MUCH_MB: Final = 50
"""An input for which the process grew by so much is kept."""
_MEMORY: Final = 3 * 2**30
_OPTIONS: Final = (
    "-max_len=6000",
    "-timeout=120",  # of what hangs in C
    "-rss_limit_mb=0",  # the system's limit is set in its place
    "-verbosity=0",
    "-print_final_stats=0",
)


def _peak_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


class HangError(BaseException):
    """An input took longer than it may; no handler of an Exception answers it."""


@dataclass(slots=True)
class Watch:
    """Runs a target's check and keeps account of the harm.

    Attributes:
        check: The target's.
        out: Where harmful inputs are kept.
        found: The size of the smallest input by what it does.
        worst_s: Processor seconds of the slowest input.
        peak_mb: The most memory that the process has had.
        runs: How many inputs there were.
        read: How many of them were read; the others were refused.
        good: Some of those, the last ones.
    """

    check: Callable[[bytes], object]
    out: Path
    found: dict[str, int] = field(default_factory=dict)
    worst_s: float = 0.0
    peak_mb: float = field(default_factory=_peak_mb)
    runs: int = 0
    read: int = 0
    good: list[bytes] = field(default_factory=list)

    def __call__(self, data: bytes) -> None:
        """Give an input to the check."""
        self.runs += 1
        before = time.process_time()
        signal.setitimer(signal.ITIMER_PROF, HANG_S)
        try:
            is_read = self.check(data) is not None
        except (Exception, HangError) as harm:  # noqa: BLE001 - all of it is harm
            signal.setitimer(signal.ITIMER_PROF, 0)
            is_read = False
            self._keep(data, harm)
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
        took = time.process_time() - before
        if is_read:
            self.good[self.read % _GOOD : self.read % _GOOD + 1] = [data]
            self.read += 1
        if took > self.worst_s:
            self.worst_s = took
            (self.out / "slowest").write_bytes(data)
        peak = _peak_mb()
        if peak > self.peak_mb + _MUCH_MB:
            self.peak_mb = peak
            (self.out / "largest").write_bytes(data)

    def _keep(self, data: bytes, harm: BaseException) -> None:
        frames = traceback.extract_tb(harm.__traceback__)
        where = frames[-2 if isinstance(harm, HangError) else -1]  # before its handler
        name = f"{type(harm).__name__}-{Path(where.filename).stem}-{where.lineno}"
        kept = self.out / name
        least = kept.stat().st_size if kept.exists() else sys.maxsize  # of a round before, too
        self.found[name] = min(least, len(data))
        if len(data) < least:
            kept.write_bytes(data)
            trace = "".join(traceback.format_exception(harm))
            (self.out / f"{name}.txt").write_text(trace, encoding="utf-8", errors="replace")


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """One process of a target: which, and how long it runs."""

    number: int
    seconds: int


def main() -> None:
    """Run the targets named, or all, one after the other."""
    parser = argparse.ArgumentParser()
    parser.add_argument("targets", nargs="*")
    parser.add_argument("--seconds", type=int, default=450, help="of each target")
    parser.add_argument("--out", type=Path, required=True)
    asked = parser.parse_args()
    atheris: Any = importlib.import_module("atheris")
    # layouts are imported when they are first asked for, so all of it happens inside
    with atheris.instrument_imports(include=_PACKAGES, enable_loader_override=False):
        targets = importlib.import_module("tests.fuzz.targets").TARGETS
        for name in asked.targets or targets:
            for number, seconds in enumerate(rounds(asked.seconds), 1):
                child = os.fork()  # what is imported is slow to import
                if not child:
                    out = asked.out / name
                    _fuzz(atheris, targets[name], out, Round(number=number, seconds=seconds))
                os.waitpid(child, 0)


def rounds(seconds: int) -> list[int]:
    """Return how long each process of a target runs; what they reach, the next begins with.

    The fuzzer keeps the outcome of every comparison of arrays (seen with atheris 3.0.0): a
    process of many minutes would grow out of its limit.
    """
    whole, rest = divmod(seconds, _ROUND_S)
    return [*[_ROUND_S] * whole, *([rest] if rest else [])]


def _fuzz(atheris: Any, target: "Target", out: Path, round_: Round) -> None:  # noqa: ANN401
    """Feed one target for a round; does not return."""
    options = [f"-max_total_time={round_.seconds}", *_OPTIONS, *_given(target, out)]
    signal.signal(signal.SIGPROF, hang)
    most = resource.getrlimit(resource.RLIMIT_AS)[1]
    resource.setrlimit(resource.RLIMIT_AS, (_MEMORY, most))
    watch = Watch(target.check, out)
    change = _changer(atheris, target.words, watch.good)
    more = {"custom_mutator": change} if target.words else {}
    atheris.Setup([sys.argv[0], *options], _reporting(watch, round_), **more)
    atheris.Fuzz()


def _changer(
    atheris: Any,  # noqa: ANN401
    words: tuple[bytes, ...],
    good: list[bytes],
) -> Callable[[bytes, int, int], bytes]:
    """Return what changes text: now by its words, now by its bytes.

    By words rather such as was read: what is refused has its own ways through the code, so many
    that the fuzzer would begin with hardly anything else.
    """

    def change(data: bytes, most: int, seed: int) -> bytes:
        chance = random.Random(seed)  # noqa: S311 - no secret
        if chance.random() < _BY_WORDS:
            if good and chance.random() < _OF_GOOD:
                data = chance.choice(good)
            return changed_text(data, words, chance)[:most]
        changed: bytes = atheris.Mutate(data, most)
        return changed

    return change


def _given(target: "Target", out: Path) -> list[str]:
    """Write what a target begins with; return the options that name it."""
    corpus, words = out / "corpus", out / "words"
    corpus.mkdir(parents=True, exist_ok=True)
    for number, data in enumerate(target.first):
        (corpus / f"first-{number}").write_bytes(data)
    words.write_text("".join(f"{_quoted(word)}\n" for word in target.words), encoding="ascii")
    # what changes text by its words says by itself how often
    of_text = [f"-dict={words}", "-mutate_depth=1"] if target.words else []
    return [*of_text, str(corpus)]


def hang(_signal: int, _frame: FrameType | None) -> None:
    """Raise `HangError`; a signal handler for SIGPROF."""
    raise HangError


def _reporting(watch: Watch, round_: Round) -> Callable[[bytes], None]:
    """Return the watch with a report now and then: the fuzzer leaves without a word."""
    last = begun = time.monotonic()

    def run(data: bytes) -> None:
        nonlocal last
        watch(data)
        now = time.monotonic()
        if now - last > 1:
            last = now
            _report(watch, now - begun, round_)

    return run


def _report(watch: Watch, passed: float, round_: Round) -> None:
    used = time.process_time()
    lines = [
        f"{watch.runs:,} inputs in {passed:.0f} of {round_.seconds} s",
        f"{watch.read:,} of them read, {used:.0f} s of the processor",
        f"the slowest took {watch.worst_s:.2f} s, the most memory {_peak_mb():.0f} MB",
        *(f"{name}: {size} bytes" for name, size in sorted(watch.found.items())),
    ]
    with contextlib.suppress(OSError):
        (watch.out / f"report-{round_.number}.txt").write_text(
            "\n".join(lines) + "\n", encoding="utf-8"
        )


def _quoted(word: bytes) -> str:
    """Return a word as the fuzzer's list of words has it."""
    plain = "".join(
        chr(byte) if chr(byte).isalnum() or chr(byte) in " =.-" else f"\\x{byte:02x}"
        for byte in word
    )
    return f'"{plain}"'


if __name__ == "__main__":
    main()
