"""Measure speed; print medians and name the machine.

Run with `just bench`. Cold runs start a new Python each time; in-process runs keep nothing from
one run to the next (`Memory` is new), except where the line says so.
"""

import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from stitchproof.checks.seen import Seen
from stitchproof.checks.table import look
from stitchproof.fabric.prove import prove
from stitchproof.fabric.memory import Memory
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.sizing.size import size_manuscript

ROOT = Path(__file__).parents[1]
TEE = ROOT / "examples/marram-tee.md"
MAIN = "import sys; from stitchproof.cli import main; sys.exit(main())"


def median(work: Callable[[], object], times: int) -> float:
    """Give the median duration of some runs. [s]"""
    took = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        took.append(time.perf_counter() - start)
    return statistics.median(took)


def command(*arguments: str) -> Callable[[], object]:
    return lambda: subprocess.run(
        [sys.executable, "-c", MAIN, *arguments], check=True, capture_output=True
    )


def no_file(name: str) -> str:
    raise FileNotFoundError(name)


def proof_in_process(text: str) -> None:
    manuscript, _ = read_manuscript(text, "tee")
    sizing, _ = size_manuscript(manuscript, no_file, None)
    proof = prove(manuscript, sizing.resolved, Memory())
    list(look(Seen(manuscript, sizing.resolved, proof)))


def main() -> None:
    text = TEE.read_text("utf-8")
    proof_in_process(text)
    with tempfile.TemporaryDirectory() as folder:
        rows = [
            ("--help, cold", 0.15, median(command("--help"), 9)),
            ("proof of the tee in nine sizes, cold", 0.5, median(command("proof", str(TEE)), 9)),
            (
                "read, size, work and check the tee, in process",
                0.05,
                median(lambda: proof_in_process(text), 21),
            ),
            (
                "publish the tee, cold",
                2.0,
                median(command("publish", str(TEE), "--to", folder), 5),
            ),
        ]
    print(f"Python {platform.python_version()} on {platform.machine()}, {os.cpu_count()} cores")
    for what, aim, took in rows:
        print(f"{took:8.3f} s  (aim {aim} s)  {what}")


if __name__ == "__main__":
    main()
