"""Measure speed and memory; name the machine.

Run with `just bench`. Each figure is the least and the median of some runs, in seconds of the
processor, the commands that were started included: on a machine that does other things as well,
the least is nearer to what the program takes. Cold runs start a new Python each time; in-process
runs keep nothing from one run to the next, except where the line says so.
"""

import os
import platform
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from garments import blanket, doily, pullover, stripes

from stitchproof.fabric.laid import lay_down
from stitchproof.fabric.memory import Memory
from stitchproof.language.read.kept import KeptLines
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.pipeline.press import press
from stitchproof.sizing.size import size_manuscript

ROOT = Path(__file__).parents[1]
TEE = ROOT / "examples/marram-tee.md"
WORDS = "sc in next st, (ch 1, dc in next 2 sts) twice, "
MAIN = "import sys; from stitchproof.cli import main; sys.exit(main())"


@dataclass
class Table:
    """A desk in memory."""

    text: str
    memory: Memory = field(default_factory=Memory)
    lines: KeptLines = field(default_factory=KeptLines)

    def read(self, name: str) -> bytes:
        del name
        return self.text.encode()


def durations(work: Callable[[], object], times: int) -> list[float]:
    """Give what some runs take of the processor. [s]"""
    took = []
    for _ in range(times):
        start = processor()
        work()
        took.append(processor() - start)
    return took


def processor() -> float:
    """Tell what has been taken of the processor, by this process and by those it started. [s]"""
    started = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + started.ru_utime + started.ru_stime


def command(*arguments: str) -> Callable[[], object]:
    # as after an installation: compiled modules are kept
    environment = {**os.environ, "PYTHONDONTWRITEBYTECODE": ""}
    return lambda: subprocess.run(
        [sys.executable, "-c", MAIN, *arguments],
        check=True,
        capture_output=True,
        env=environment,
    )


def line(what: str, aim: float | None, took: list[float]) -> float:
    wanted = f"aim {aim:g} s" if aim is not None else ""
    print(f"{min(took):8.3f} s  {statistics.median(took):8.3f} s  {wanted:12}  {what}", flush=True)
    return min(took)


def pressing(text: str) -> Callable[[], object]:
    return lambda: press(Table(text), "text")


def commands() -> None:
    line("--help, cold", 0.15, durations(command("--help"), 9))
    line("proof of the tee in nine sizes, cold", 0.5, durations(command("proof", str(TEE)), 9))
    with tempfile.TemporaryDirectory() as folder:
        publish = command("publish", str(TEE), "--to", folder)
        line("publish the tee, cold", 2.0, durations(publish, 5))
    text = TEE.read_text("utf-8")
    line("read, size, work and check the tee", 0.05, durations(pressing(text), 11))


def garments() -> None:
    large = pullover()
    whole = line("(a) ten-size pullover", 0.3, durations(pressing(large), 5))
    line("    reading alone", None, durations(lambda: read_manuscript(large, "text"), 5))
    line("(b) blanket of 200,000 stitches", None, durations(pressing(blanket()), 5))
    line("(c) doily of sixty rounds", None, durations(pressing(doily()), 5))
    table = Table(large)
    press(table, "text")
    changed = [durations(pressed_again(table, row), 1)[0] for row in (40, 50, 61, 70, 90)]
    line("(d) one row changed in (a), on the same desk", 0.03, changed)
    slow_worker(large, whole)
    arrays(large)


def pressed_again(table: Table, row: int) -> Callable[[], object]:
    text = pullover(row)
    return lambda: press(Table(text, table.memory, table.lines), "text")


def slow_worker(text: str, whole: float) -> None:
    """Hold the time against the plain worker of the tests, which is only told the tree."""
    sys.path.insert(0, str(ROOT))
    from tests.second_opinion.loops import NotMine
    from tests.second_opinion.plain_worker import PieceMaker

    manuscript, _ = read_manuscript(text, "text")
    sizing, _ = size_manuscript(manuscript, no_file, None)

    def work() -> None:
        for size in range(len(sizing.resolved.names)):
            for section in manuscript.sections:
                maker = PieceMaker(sizing.resolved, size, manuscript.rules)
                try:
                    maker.work(section)
                except NotMine as words:
                    print(f"          the plain worker does not know: {words}")

    took = line("    the plain worker on (a), without reading", None, durations(work, 1))
    print(f"{took / whole:8.1f}    times as long as (a) with reading and checks (aim 10)")


def no_file(name: str) -> str:
    raise FileNotFoundError(name)


def arrays(text: str) -> None:
    """Hold laying down every stitch against merely writing arrays of that size."""
    manuscript, _ = read_manuscript(text, "text")
    sizing, _ = size_manuscript(manuscript, no_file, None)
    memory = Memory()
    worked = lay_down(manuscript, sizing.resolved, memory)
    stitches = sum(len(r.roles) for p in worked for size in p.rows for r in size)
    print(f"{stitches:8,}    stitches laid down in all sizes of (a)")
    line(
        "    laying them down, worked before",
        None,
        durations(lambda: lay_down(manuscript, sizing.resolved, memory), 3),
    )


def curves() -> None:
    print("    text to findings against stitches, and against different instructions:")
    for courses in (125, 250, 500, 1000):
        text = stripes(courses, 40)
        least = min(durations(pressing(text), 3))
        each = 1e3 * least / courses
        print(f"    {courses:6} rows of 100 stitches  {least:.3f} s  {each:.2f} ms a row")
    for width in (50, 200, 800, 3200):
        text = stripes(125, 40, width)
        least = min(durations(pressing(text), 3))
        print(f"    125 rows of {width:5} stitches  {least:.3f} s")
    for different in (1, 5, 45):
        least = min(durations(pressing(stripes(500, different)), 3))
        print(f"    500 rows, {different:3} different  {least:.3f} s")
    for times in (1, 2, 4, 8):
        text = "## Strip\n\nCh 20.\n\nRow 1: " + WORDS * (25 * times)
        least = min(durations(lambda text=text: read_manuscript(text, "t"), 3))  # type: ignore[misc]
        each = 1e6 * least / len(text)
        print(f"    one line of {len(text):7,} characters  {least:.3f} s  {each:.2f} µs each")


def processor_name() -> str:
    """Name the processor; on Linux its model, which the standard library does not know."""
    known = Path("/proc/cpuinfo")
    lines = known.read_text("utf-8").splitlines() if known.exists() else []
    models = [line.partition(":")[2].strip() for line in lines if line.startswith("model name")]
    return next(iter(models), "") or platform.processor() or platform.machine()


def main() -> None:
    print(f"Python {platform.python_version()} on {processor_name()}, {os.cpu_count()} cores, ")
    print(f"load {os.getloadavg()[0]:.1f} when this began\n")
    print("   least      median")
    commands()
    garments()
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{peak:8.0f} MB  peak memory of all of the above that ran in process (aim 300 MB)")
    curves()


if __name__ == "__main__":
    main()
