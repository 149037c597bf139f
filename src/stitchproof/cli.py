"""The command line: arguments and printing, nothing else."""

import argparse
import gc
import os
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from stitchproof.base.diagnostics import Diagnostic
    from stitchproof.pipeline.press import Pressed

_ABOUT: Final = """\
Proves a crochet pattern stitch by stitch in every size, and publishes it from one manuscript."""
_AFTER: Final = """\
Start with `stitchproof proof FILE`: it works every row as a maker would and says where the words,
the numbers and the fabric disagree. The exit status is 0 when no error was found, 1 when errors
were found, 2 when the file cannot be used at all."""


class Disk:
    """A Desk on the file system; other files are looked for beside the manuscript."""

    def __init__(self, manuscript: Path) -> None:
        from stitchproof.fabric.memory import Memory
        from stitchproof.language.read.kept import KeptLines

        self.memory: Memory = Memory()
        self.lines: KeptLines = KeptLines()
        self._manuscript = manuscript

    def read(self, name: str) -> bytes:
        """Give the bytes of the manuscript, or of a file beside it."""
        from stitchproof.pipeline.desk import Unusable

        path = self._manuscript if name == str(self._manuscript) else self._beside(name)
        try:
            return path.read_bytes()
        except OSError as wrong:
            msg = f"{path}: {wrong.strerror or 'cannot be read'}"
            raise Unusable(msg) from None
        except ValueError:
            msg = f"{path}: no such file"
            raise Unusable(msg) from None

    def _beside(self, name: str) -> Path:
        return self._manuscript.parent / name


def main() -> int:
    """Run one command and give its exit status."""
    # one manuscript, then the end: looking for garbage all the time costs a tenth of it
    gc.set_threshold(200_000, 50, 50)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    asked = _parser().parse_args()
    try:
        status = _run(asked)
        sys.stdout.flush()
    except BrokenPipeError:
        # the reader went away: what is left to print goes nowhere
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    return status


def _run(asked: argparse.Namespace) -> int:
    from stitchproof.pipeline.desk import Unusable

    try:
        match asked.command:
            case "proof":
                return _proof(asked)
            case "grade":
                return _grade(asked)
            case "reword":
                return _reword(asked)
            case "explain":
                return _explain(asked)
            case _:
                return _publish(asked)
    except Unusable as wrong:
        if asked.json:
            from stitchproof.pipeline.report import unusable_grade, unusable_proof

            grade = asked.command == "grade"
            _print_json(unusable_grade(wrong) if grade else unusable_proof(wrong, asked.file))
        print(f"stitchproof: {wrong}", file=sys.stderr)
        return 2


def _parser() -> argparse.ArgumentParser:
    whole = argparse.ArgumentParser(
        prog="stitchproof",
        description=_ABOUT,
        epilog=_AFTER,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = whole.add_subparsers(dest="command", required=True, metavar="COMMAND")
    proof = commands.add_parser(
        "proof",
        help="work every row in every size and list what is wrong",
        description="Works every row in every size, stitch by stitch, and lists what is wrong.",
    )
    grade = commands.add_parser(
        "grade",
        help="show every measure and count in every size",
        description="Shows body, ease, measures, counts and finished measurements in every size, "
        "and the rule that gave each.",
    )
    publish = commands.add_parser(
        "publish",
        help="write the PDF, the web page and the plain text",
        description="Writes the pattern as PDF, web page and plain text. With errors in the proof "
        "it writes nothing, unless --draft is given, which marks every page.",
    )
    reword = commands.add_parser(
        "reword",
        help="put the manuscript into US or UK terms",
        description="Gives the same manuscript in the other terms: only the words that are stitch "
        "names change, every other byte stays.",
    )
    reword.add_argument(
        "--terms", required=True, choices=("US", "UK"), help="the terms to put it into"
    )
    reword.add_argument(
        "--from",
        dest="written_in",
        choices=("US", "UK"),
        help="the terms it is in, where the manuscript does not say",
    )
    reword.add_argument("--to", metavar="FILE", help="the file to write; else it is printed")
    explain = commands.add_parser(
        "explain",
        help="explain one row: what it does, and why its count is what it is",
        description="Explains one row to the maker who is stuck.",
    )
    explain.add_argument(
        "--at", required=True, metavar="ADDRESS", help='such as "Front, Row 12" or "Row 12"'
    )
    explain.add_argument("--size", metavar="M", help="in which size; else that of the sample")
    for one in (publish, reword, explain):
        one.set_defaults(json=False)
    explain.set_defaults(sizes=None)
    reword.add_argument("file", metavar="FILE", help="the manuscript")
    explain.add_argument("file", metavar="FILE", help="the manuscript")
    for one in (proof, grade, publish):
        one.add_argument("file", metavar="FILE", help="the manuscript")
        one.add_argument(
            "--sizes", metavar="S,M", help="only these sizes, by name, with commas between"
        )
    for one in (proof, grade):
        one.add_argument(
            "--json", action="store_true", help="print one JSON object instead, for programs"
        )
    publish.add_argument(
        "--to", metavar="DIR", help="the folder to write into; else one named like the manuscript"
    )
    publish.add_argument(
        "--draft", action="store_true", help="publish in spite of errors, every page marked"
    )
    return whole


def _pressed(asked: argparse.Namespace, *, shapes: bool = False) -> "Pressed":
    from stitchproof.pipeline.press import press

    sizes = None
    if asked.sizes is not None:
        sizes = tuple(s.strip() for s in asked.sizes.split(",") if s.strip())
    return press(Disk(Path(asked.file)), asked.file, sizes, shapes=shapes)


# --------------------------------------------------------------------------- proof, grade


def _proof(asked: argparse.Namespace) -> int:
    pressed = _pressed(asked)
    if asked.json:
        from stitchproof.pipeline.report import proof_object

        _print_json(proof_object(pressed))
    else:
        from stitchproof.pipeline.words import proof_words

        print(proof_words(pressed), end="")
    return _status(pressed.found)


def _grade(asked: argparse.Namespace) -> int:
    from stitchproof.pipeline.grade import grade_json, grade_text

    pressed = _pressed(asked)
    if asked.json:
        from stitchproof.pipeline.report import findings_object

        _print_json(grade_json(pressed.sizing, findings_object(pressed)))
    else:
        from stitchproof.pipeline.words import finding_words

        print(grade_text(pressed.sizing), end="")
        print(finding_words(pressed), end="")
    return _status(pressed.found)


def _print_json(found: object) -> None:
    import json

    print(json.dumps(found, ensure_ascii=False, indent=1))


def _status(found: "Iterable[Diagnostic]") -> int:
    from stitchproof.base.diagnostics import Level

    return int(any(d.finding.code.level is Level.ERROR and d.accepted is None for d in found))


# --------------------------------------------------------------------------- publish


def _publish(asked: argparse.Namespace) -> int:
    from stitchproof.pipeline.words import before_publishing, proof_words

    pressed = _pressed(asked, shapes=True)
    wrong = _status(pressed.found)
    if wrong and not asked.draft:
        print(proof_words(pressed), end="")
        print("Nothing was written. Mend the errors, or add --draft to see the pages as they are.")
        return 1
    from stitchproof.pipeline.publish import editions

    files = editions(pressed, Path(asked.file).stem, draft=asked.draft)
    folder = Path(asked.to) if asked.to else Path(Path(asked.file).stem.replace(" ", "-"))
    _write(folder, files.items())
    print(before_publishing(pressed), end="")
    return wrong


def _write(folder: Path, files: Iterable[tuple[str, bytes]]) -> None:
    from stitchproof.pipeline.desk import Unusable

    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, content in files:
            (folder / name).write_bytes(content)
            print(f"wrote {folder / name}")
    except OSError as wrong:
        msg = f"{wrong.filename or folder}: {wrong.strerror or 'cannot be written'}"
        raise Unusable(msg) from None


# --------------------------------------------------------------------------- reword, explain


def _reword(asked: argparse.Namespace) -> int:
    from stitchproof.pipeline.desk import decoded
    from stitchproof.pipeline.reword import reword
    from stitchproof.pipeline.words import listing

    text = decoded(Disk(Path(asked.file)).read(asked.file), asked.file)
    made = reword(text, asked.file, asked.terms, asked.written_in)
    print(listing(made.found, text), end="", file=sys.stderr)
    if asked.to is None:
        sys.stdout.flush()
        sys.stdout.buffer.write(made.text.encode())
    else:
        path = Path(asked.to)
        _write(path.parent, [(path.name, made.text.encode())])
    return _status(made.found)


def _explain(asked: argparse.Namespace) -> int:
    from stitchproof.pipeline.explain import explain
    from stitchproof.pipeline.press import press

    disk = Disk(Path(asked.file))
    print(explain(press(disk, asked.file), disk.memory, asked.at, asked.size), end="")
    return 0
