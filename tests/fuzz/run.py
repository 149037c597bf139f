"""Presses a fixed number of made-up manuscripts; keeps each that breaks something as a seed.

Run by hand: `python -m tests.fuzz.run 20000` (the number of manuscripts), with a second number for
another beginning. With `--guided` the search is led by the code that is reached; that needs
atheris, which the project does not depend on. Seeds are replayed by `tests/test_robustness.py`.
"""

import hashlib
import random  # noqa: TID251 - numbered sources: the same manuscripts every time
import sys
import time
from pathlib import Path

from tests.fuzz.hold import hold
from tests.fuzz.invented import Roll, manuscript, mutated

HERE = Path(__file__).parent
SEEDS = HERE / "seeds"
EXAMPLES = sorted((HERE.parents[1] / "examples").glob("*.md"))
SLOW = 5.0  # seconds; no manuscript as small as these may take as long


def from_numbers(roll: Roll) -> bytes:
    """Make up a manuscript, or change an example."""
    if roll(4):
        text = manuscript(roll)
        if roll(3) == 0:
            text = mutated(text, roll)
    else:
        whole = EXAMPLES[roll(len(EXAMPLES))].read_text("utf-8")
        text = mutated(whole, roll)
    return text.encode("utf-8", "surrogatepass")


def tried(raw: bytes) -> str:
    """Press a manuscript; give what broke, or nothing."""
    start = time.perf_counter()
    try:
        hold(raw)
    except Exception as broken:  # noqa: BLE001 - whatever it is, it is kept
        trace = broken.__traceback__
        where = ""
        while trace is not None:
            where = f"{Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}"
            trace = trace.tb_next
        return f"{type(broken).__name__} at {where}"
    took = time.perf_counter() - start
    return f"took {took:.1f} s" if took > SLOW else ""


def keep(raw: bytes, why: str, known: set[str]) -> None:
    """Keep a manuscript that broke something, once for each way to break."""
    if why in known:
        return
    known.add(why)
    name = hashlib.blake2b(raw, digest_size=6).hexdigest()
    (SEEDS / f"{name}.md").write_bytes(raw)
    print(f"{name}.md: {why}", flush=True)  # noqa: T201 - run by hand


def by_chance(runs: int, first: int) -> None:
    known: set[str] = set()
    for n in range(first, first + runs):
        source = random.Random(n)  # noqa: S311 - the same manuscripts every time
        raw = from_numbers(source.randrange)
        why = tried(raw)
        if why:
            keep(raw, why, known)
    print(f"{runs} manuscripts, {len(known)} ways to break")  # noqa: T201


def guided(runs: int) -> None:
    import atheris  # type: ignore[import-untyped, import-not-found, unused-ignore]

    known: set[str] = set()

    def one(data: bytes) -> None:
        given = atheris.FuzzedDataProvider(data)
        if given.ConsumeBool():
            raw = from_numbers(lambda n: given.ConsumeIntInRange(0, n - 1))
        else:
            raw = given.ConsumeBytes(4000)
        why = tried(raw)
        if why:
            keep(raw, why, known)

    atheris.instrument_all()
    atheris.Setup(
        [sys.argv[0], f"-runs={runs}", "-max_len=4000", "-len_control=0", "-timeout=60"], one
    )
    atheris.Fuzz()


def main() -> None:
    numbers = [int(a) for a in sys.argv[1:] if a.isdigit()] or [2000]
    SEEDS.mkdir(exist_ok=True)
    if "--guided" in sys.argv:
        guided(numbers[0])
    else:
        by_chance(numbers[0], numbers[1] if len(numbers) > 1 else 0)


if __name__ == "__main__":
    main()
