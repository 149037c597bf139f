"""Whatever is in the file: a clear finding or one line, never a traceback, never without end."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stitchproof.base.diagnostics import Level
from stitchproof.fabric import meter
from stitchproof.pipeline.press import Pressed
from stitchproof.pipeline.words import proof_words
from tests.fuzz.hold import hold, hold_editions
from tests.fuzz.invented import KEYS, TABLES, VALUES, manuscript, mutated

ROOT = Path(__file__).parents[1]
SEEDS = sorted((Path(__file__).parent / "fuzz/seeds").glob("*.md"))
EXAMPLES = sorted((ROOT / "examples").glob("*.md"))
TEXTS = {path.stem: path.read_text("utf-8") for path in EXAMPLES}
SOME = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
FEW = settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))

# --------------------------------------------------------------------------- made up


@SOME
@given(st.text(max_size=400))
def test_any_text(text: str) -> None:
    hold(text.encode())


@SOME
@given(st.binary(max_size=400))
def test_any_bytes(raw: bytes) -> None:
    hold(raw)


@SOME
@given(st.data())
def test_made_up_manuscripts(data: st.DataObject) -> None:
    hold(manuscript(lambda n: data.draw(st.integers(0, n - 1))).encode("utf-8", "surrogatepass"))


@SOME
@given(st.sampled_from(sorted(TEXTS)), st.data())
def test_changed_examples(name: str, data: st.DataObject) -> None:
    hold(mutated(TEXTS[name], lambda n: data.draw(st.integers(0, n - 1))).encode())


@FEW
@given(st.data())
def test_editions_of_made_up_manuscripts(data: st.DataObject) -> None:
    hold_editions(manuscript(lambda n: data.draw(st.integers(0, n - 1))).encode())


@FEW
@given(st.sampled_from(sorted(TEXTS)), st.data())
def test_editions_of_changed_examples(name: str, data: st.DataObject) -> None:
    hold_editions(mutated(TEXTS[name], lambda n: data.draw(st.integers(0, n - 1))).encode())


@pytest.mark.parametrize("seed", SEEDS, ids=lambda p: p.stem)
def test_seeds(seed: Path) -> None:
    """Manuscripts that once broke something."""
    hold(seed.read_bytes())


# --------------------------------------------------------------------------- front matter


def with_front(front: str) -> bytes:
    return f"+++\n{front}\n+++\n\n## Front\n\nCh {{front_sts + 1}}.\n\nRow 1: Sc in each ch.\n".encode()  # noqa: E501


@pytest.mark.parametrize("value", VALUES)
def test_values_of_the_wrong_type_for_every_key(value: str) -> None:
    """Each value for each key at the top, and for every key an example uses in its table."""
    hold(with_front("\n".join(f"{key} = {value}" for key in KEYS)))
    for table in (t for t in TABLES if t):
        hold(with_front(f"[{table}]\n" + "\n".join(f"{key} = {value}" for key in KEYS)))
        hold(with_front(f"{table.strip('[]')} = {value}"))


@pytest.mark.parametrize("value", VALUES)
def test_wrong_types_in_a_whole_front_matter(value: str) -> None:
    """Each key of the tee takes a wrong value while all others keep theirs."""
    _, front, body = TEXTS["marram-tee"].split("+++\n")
    lines = front.splitlines()
    for i, line in enumerate(lines):
        if " = " in line:
            key = line.split(" = ")[0]
            changed = "\n".join([*lines[:i], f"{key} = {value}", *lines[i + 1 :]])
            hold(f"+++\n{changed}\n+++\n{body[:600]}".encode())


FORMULAS = (
    "9**9**9**9",
    "(" * 900 + "1" + ")" * 900,
    "1/0",
    "a / (a - a)",
    "max()",
    "min(" + "1," * 5000 + "1)",
    "__import__('os').system('true')",
    "a.__class__",
    "lambda: 0",
    "1e999999999 cm",
    "9" * 5000,
    "a" * 100_000,
    "-" * 2000 + "1",
    "round(1e308 * 1e308)",
    "a = b = c",
    "{a}",
    "\\u0000",
    "body.chest.chest.chest",
    "+".join(["a"] * 3000),
    "*".join(["a"] * 90),
)


@pytest.mark.parametrize("formula", FORMULAS, ids=range(len(FORMULAS)))
def test_hostile_formulas(formula: str) -> None:
    front = f'[measures]\na = "10 cm"\nm = "{formula}"\n[counts]\nfront_sts = {{ formula = "{formula}" }}'  # noqa: E501
    hold(with_front(front))
    hold(f"+++\n[measures]\na = '1 cm'\n+++\nCh {{{formula}}}.\n".encode())


def test_a_chain_of_squares_stays_small() -> None:
    squares = "".join(f"b{i} = 'b{i + 1} * b{i + 1} / a'\n" for i in range(300))
    pressed = hold(with_front(f"[measures]\na = '2 cm'\n{squares}b300 = '3 cm'"))
    assert pressed is not None
    assert pressed.found


# --------------------------------------------------------------------------- large and deep


def slugs(pressed: Pressed | None) -> set[str]:
    assert pressed is not None
    return {d.finding.code.slug for d in pressed.found}


def rows(first: str, *more: str) -> bytes:
    return ("## Front\n\n" + "\n\n".join((first, *more)) + "\n").encode()


LARGE = {
    "a chain of a thousand million": (rows("Ch 1000000000."), "too-large"),
    "a number too long": (rows(f"Ch 1{'0' * 400}."), "digits-too-many"),
    "a repeat without end": (
        rows(
            "Ch 20.", "Row 1: Sc in each ch across.", "Row 2: Ch 1, turn, (ch 2) 1000000000 times."
        ),
        "too-large",
    ),
    "twice as many each round": (
        rows("Ch 4, join.", *(f"Rnd {i}: 2 sc in each st around." for i in range(1, 60))),
        "too-large",
    ),
    "many in every place": (
        rows("Ch 4000, join.", "Rnd 1: (1000 sc, ch 1000) in each st around."),
        "too-large",
    ),
    "rows longer and longer": (
        rows(
            "Ch 20.",
            "Row 1: Sc in 2nd ch from hook and in each ch across.",
            "Rows 2-20000: Ch 1, turn, 2 sc in first st, sc in each st across.",
        ),
        "too-large",
    ),
    "repeats of repeats": (
        rows(
            "Ch 20.",
            "Row 1: Sc in 2nd ch from hook and in each ch across.",
            "Row 2: Ch 1, turn, sc in each st across.",
            *("Rep Rows 1-2 9000 times.",) * 30,
        ),
        "too-large",
    ),
    "brackets a thousand deep": (
        rows("Ch 20.", f"Row 1: {'(' * 1000}sc in next st{')' * 1000} 3 times."),
        "brackets-too-deep",
    ),
    "a line of a megabyte": (rows("Ch 20.", "Row 1: " + "sc in next st, " * 70_000), "text-too-long"),  # noqa: E501
    "a word of a megabyte": (rows("Ch 20.", "Row 1: " + "s" * 1_000_000), "text-too-long"),
    "a hundred thousand rows": (
        ("Ch 20.\n\n" + "".join(f"Row {i}: Ch 1, turn, sc in each st.\n" for i in range(100_000))).encode(),  # noqa: E501
        "text-too-long",
    ),
    "braces a thousand deep": (
        with_front("[measures]\na = '1 cm'\n[counts]\nfront_sts = { formula = '" + "(" * 1000 + "' }"),  # noqa: E501
        "formula-syntax",
    ),
    "arrays three thousand deep": (with_front("a = " + "[" * 3000 + "]" * 3000), "front-matter-syntax"),  # noqa: E501
    "a front matter that does not end": (b"+++\ntitle = 'x'\n", "front-matter-unclosed"),
}  # fmt: skip


@pytest.mark.parametrize("name", LARGE)
def test_large_and_deep(name: str) -> None:
    raw, slug = LARGE[name]
    assert slug in slugs(hold(raw))


def test_the_limit_of_a_proof_is_said_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(meter, "MOST_WORK", 3_000)
    raw = rows(
        "Ch 21.",
        "Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)",
        "Rows 2-200: Ch 1, turn, sc in each st across. (20 sc)",
        "Row 201: Ch 1, turn, sc in each st across. (21 sc)",
    )
    raw += b"\n## Back\n\nCh 5.\n\nRow 1: Sc in each ch across. (9 sc)\n"
    pressed = hold(raw)
    assert pressed is not None
    (one,) = (d for d in pressed.found if d.finding.code.slug == "too-large")
    assert "Rows 2-200" in one.message()
    assert "row-count-mismatch" not in slugs(pressed)


def test_trials_have_an_allowance_of_their_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """A mistake is found whether or not other settings could be tried to the end."""
    raw = rows(
        "Ch 22.",
        "Row 1: Dc in 4th ch from hook and in each ch across. (20 dc)",
        *(f"Row {i}: Ch 2, turn, dc in each st across. (20 dc)" for i in range(2, 30)),
        "Row 30: Ch 2, turn, dc in each st across. (23 dc)",
    )
    whole = slugs(hold(raw))
    assert "row-count-mismatch" in whole
    monkeypatch.setattr(meter.Meter, "out_of_trials", property(lambda _: True))
    assert "row-count-mismatch" in slugs(hold(raw))


TEE = TEXTS["marram-tee"]
SAME = {
    "CRLF": TEE.replace("\n", "\r\n"),
    "CR": TEE.replace("\n", "\r"),
    "a byte order mark": "\ufeff" + TEE,
}


@pytest.mark.parametrize("how", SAME)
def test_what_reads_the_same(how: str) -> None:
    plain, other = hold(TEE.encode()), hold(SAME[how].encode())
    assert plain is not None
    assert other is not None
    assert [d.message() for d in plain.found] == [d.message() for d in other.found]
    assert [c.worked for c in plain.proof.courses] == [c.worked for c in other.proof.courses]


@pytest.mark.parametrize(
    "mark",
    [
        "\x00",
        "\u202e",
        "\u200f",
        "\u2028",
        "\ufffe",
        "\U0010ffff",
        "\x1b[31m",
        "<script>",
        "#panic()",
    ],
)
def test_strange_characters_everywhere(mark: str) -> None:
    lines = TEE.splitlines()
    for i in range(0, len(lines), 8):
        changed = [*lines[:i], lines[i][:9] + mark + lines[i][9:], *lines[i + 1 :]]
        hold("\n".join(changed).encode())
    hold_editions("\n".join(line.replace(" in ", f" in {mark}") for line in lines).encode())


def test_half_a_surrogate_is_no_text() -> None:
    assert hold(b"Ch 20.\n\nRow 1: sc \xed\xa0\x80 in each ch.\n") is None


# --------------------------------------------------------------------------- command line

MAIN = "import sys; from stitchproof.cli import main; sys.exit(main())"
UNUSABLE = {
    "broken.md": b"# A\n\nCh 20\xff.\n",
    "utf-16.md": "Ch 20.".encode("utf-16"),
    "surrogate.md": b"Ch \xed\xa0\x80",
}
WRONG = {
    "unclosed.md": b"+++\ntitle = 'x'\n",
    "types.md": with_front("title = 3\nsizes = 4\nmeasures = [1]"),
    "body.md": with_front("[sizes]\nbody = 'selkies'\nmake = 'XS-5X'"),
    "circle.md": with_front("[measures]\na = 'b'\nb = 'a'"),
    "hostile.md": with_front("[counts]\nfront_sts = { formula = '9**9**9' }"),
    "chain.md": b"Ch 1000000000.\n",
    "count.md": b"Ch 5.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (9 sc)\n",
}


def stitchproof(
    *arguments: str, folder: Path, seed: str = "0"
) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-c", MAIN, *arguments],
        check=False,
        capture_output=True,
        cwd=folder,
        timeout=120,
        env={**os.environ, "PYTHONPATH": str(ROOT / "src"), "PYTHONHASHSEED": seed},  # noqa: TID251
    )


def clear(done: subprocess.CompletedProcess[bytes], status: int) -> None:
    assert done.returncode == status, done.stderr.decode()
    assert b"Traceback" not in done.stderr + done.stdout
    if status == 2:
        assert done.stderr.strip().count(b"\n") == 0
        assert not done.stdout or done.stdout.startswith(b"{")


@pytest.mark.parametrize("command", ["proof", "grade", "publish"])
def test_bad_files(command: str, tmp_path: Path) -> None:
    for name, raw in {**UNUSABLE, **WRONG}.items():
        (tmp_path / name).write_bytes(raw)
    (tmp_path / "a-folder.md").mkdir()
    for name in (*UNUSABLE, "a-folder.md", "absent.md", "unclosed.md/x", "", "n" * 5000):
        clear(stitchproof(command, name, folder=tmp_path), 2)
    for name in WRONG:
        done = stitchproof(command, name, folder=tmp_path)
        clear(done, 1)
        assert done.stdout
    assert not list(tmp_path.rglob("*.pdf"))


def test_json_is_printed_whatever_the_status(tmp_path: Path) -> None:
    import json

    for name, raw in WRONG.items():
        (tmp_path / name).write_bytes(raw)
        done = stitchproof("proof", name, "--json", folder=tmp_path)
        clear(done, 1)
        assert json.loads(done.stdout)["findings"]


FINDING = {
    "code", "slug", "level", "line", "column", "end_line", "end_column", "section", "label",
    "sizes", "message", "help", "also", "fix", "accepted",
}  # fmt: skip


@pytest.mark.parametrize(
    ("command", "keys"),
    [
        ("proof", {"manuscript": None, "sizes": [], "sections": []}),
        ("grade", {"sizes": [], "measures": [], "counts": []}),
    ],
)
def test_json_of_a_file_that_cannot_be_used(
    command: str, keys: dict[str, object], tmp_path: Path
) -> None:
    import json

    (tmp_path / "latin.md").write_bytes(
        "Ch 5.\r\n\r\nRow 1: né, \N{COPYRIGHT SIGN} ".encode() + b"\xe9."
    )
    (tmp_path / "a-folder.md").mkdir()
    for name, slug, place in (
        ("latin.md", "not-unicode", (3, 14, 3, 15)),
        ("a-folder.md", "file-not-read", (1, 1, 1, 1)),
        ("absent.md", "file-not-read", (1, 1, 1, 1)),
        ("", "file-not-read", (1, 1, 1, 1)),
    ):
        done = stitchproof(command, name, "--json", folder=tmp_path)
        clear(done, 2)
        told = json.loads(done.stdout)
        (finding,) = told.pop("findings")
        wanted = {**keys, **({"manuscript": name} if command == "proof" else {})}
        assert told == wanted
        assert set(finding) == FINDING
        assert (finding["slug"], finding["level"]) == (slug, "error")
        where = ("line", "column", "end_line", "end_column")
        assert tuple(finding[key] for key in where) == place
        assert (finding["section"], finding["label"], finding["fix"], finding["accepted"]) == (
            (None,) * 4
        )
        assert (finding["sizes"], finding["also"]) == ([], [])
        assert finding["message"]


@pytest.mark.skipif(
    os.name != "posix" or os.geteuid() == 0, reason="the superuser reads everything"
)
def test_a_file_that_may_not_be_read(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_text("Ch 20.\n")
    (tmp_path / "a.md").chmod(0)
    clear(stitchproof("proof", "a.md", folder=tmp_path), 2)


def test_a_folder_that_cannot_be_written(tmp_path: Path) -> None:
    (tmp_path / "hat.md").write_text(TEXTS["skerry-scarf"], "utf-8")
    (tmp_path / "taken").write_text("a file")
    for to in ("taken", "taken/below", "\x7f" * 300, "/proc/nothing"):
        clear(stitchproof("publish", "hat.md", "--to", to, folder=tmp_path), 2)


@pytest.mark.parametrize(
    "text",
    [
        "Ch {}.",
        "Ch 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. ({} sc)",
        "Ch 11.\n\nRow 1: {}sc in each ch across.",
        "+++\n[counts]\nn = {}\n+++\nCh 5.",
        "+++\n[counts]\nn = '{}'\n+++\nCh {{n}}.",
        "+++\n[sizes]\nmake = ['S']\nmeasure{} = 2\n+++\nCh 5.",
        "## {}\n\nCh 1000000000.",
        "{}: Ch 1000000000.",
        "Ch 5. Frobnicate{} in next st.",
    ],
)
def test_no_message_echoes_a_word_without_end(text: str) -> None:
    made = hold(text.replace("{}", "1" * 6000).replace("{{", "{").replace("}}", "}").encode())
    assert made is not None
    for one in made.found:
        assert max(map(len, one.message().split())) <= 62
        assert max(map(len, (one.help() or "-").split())) <= 62


@pytest.mark.parametrize("digits", [10, 18, 19, 40, 6000])
def test_an_absurd_count_is_an_error(digits: int) -> None:
    made = hold(f"Ch {'1' * digits}.\n\nRow 1: Sc in each ch across.\n".encode())
    assert made is not None
    assert {one.finding.code.level for one in made.found} >= {Level.ERROR}
    assert "No error" not in proof_words(made)


@pytest.mark.parametrize(
    ("sizes", "told"),
    [
        ("", "no size is asked for; the sizes are `XS`, `S`, `M`"),
        (",", "no size is asked for; the sizes are `XS`, `S`, `M`"),
        ("nonsense", "no size is called `nonsense`; the sizes are `XS`, `S`"),
        ("S,nonsense,Q", "no size is called `nonsense` or `Q`; the sizes are `XS`"),
        ("-", "no size is called `-`; the sizes are"),
        ("M;S", "no size is called `M;S`; the sizes are"),
        ("9" * 4000, f"no size is called `{'9' * 59}…`; the sizes are"),
    ],
)
def test_sizes_that_are_not_there(sizes: str, told: str, tmp_path: Path) -> None:
    import json

    (tmp_path / "tee.md").write_text(TEE, "utf-8")
    for command in ("proof", "grade", "publish"):
        done = stitchproof(command, "tee.md", f"--sizes={sizes}", folder=tmp_path)
        clear(done, 2)
        assert not done.stdout
        assert done.stderr.decode().startswith(f"stitchproof: {told}")
    done = stitchproof("proof", "tee.md", f"--sizes={sizes}", "--json", folder=tmp_path)
    clear(done, 2)
    (finding,) = json.loads(done.stdout)["findings"]
    assert finding["slug"] == "size-not-there"
    assert finding["message"].startswith(told)
    assert not list(tmp_path.rglob("*.pdf"))


def test_sizes_asked_for_twice_or_in_small_letters(tmp_path: Path) -> None:
    (tmp_path / "tee.md").write_text(TEE, "utf-8")
    done = stitchproof("proof", "tee.md", "--sizes= m,M ,", folder=tmp_path)
    clear(done, 0)
    assert b"worked in size M" in done.stdout


def test_notes_say_once_what_to_do(tmp_path: Path) -> None:
    text = (
        "+++\n[sizes]\nbody = 'women'\nmake = 'S-L'\n[measures]\na = 'body.head'\n+++\n"
        "Ch 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n\n"
        "Row 2: Ch 2, hdc in each st across. (10 sc)\n\nRow 3: Ch 2, hdc in each st across. (10 sc)"
    )
    (tmp_path / "a.md").write_text(text, "utf-8")
    done = stitchproof("proof", "a.md", folder=tmp_path)
    clear(done, 0)
    told = " ".join(done.stdout.decode().split())
    assert "line 3: `body.head` is not in the body table: 56 cm / 22 in, taken from" in told
    assert told.count("What to do: give your own under [body] head if this one does not suit") == 1
    assert told.count("states sc, but makes none") == 2
    assert told.count("What to do: name the stitch that is made, or write sts.") == 1


def test_an_empty_manuscript_has_nothing_to_prove(tmp_path: Path) -> None:
    for raw in (b"", b"\n \n", b"\xef\xbb\xbf"):
        (tmp_path / "empty.md").write_bytes(raw)
        done = stitchproof("proof", "empty.md", folder=tmp_path)
        clear(done, 0)
        assert b"there is nothing to prove: the manuscript is empty" in done.stdout
        assert b"No error, 1 warning found." in done.stdout


def test_a_reader_that_went_away(tmp_path: Path) -> None:
    (tmp_path / "tee.md").write_text(TEE, "utf-8")
    for arguments in (("proof", "--json"), ("grade",), ("proof",)):
        read, write = os.pipe()
        os.close(read)
        done = subprocess.run(
            [sys.executable, "-c", MAIN, arguments[0], "tee.md", *arguments[1:]],
            check=False,
            stdout=write,
            stderr=subprocess.PIPE,
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(ROOT / "src")},  # noqa: TID251
        )
        os.close(write)
        assert b"Traceback" not in done.stderr
        assert done.returncode in (0, 1)


# --------------------------------------------------------------------------- the same bytes


def test_the_same_input_gives_the_same_bytes(tmp_path: Path) -> None:
    (tmp_path / "tee.md").write_text(TEE, "utf-8")
    made = []
    for seed in ("0", "1", "4242"):
        told = [
            stitchproof(*arguments, folder=tmp_path, seed=seed).stdout
            for arguments in (
                ("proof", "tee.md", "--json"),
                ("proof", "tee.md"),
                ("grade", "tee.md"),
            )
        ]
        to = tmp_path / seed
        clear(stitchproof("publish", "tee.md", "--to", str(to), folder=tmp_path, seed=seed), 0)
        made.append((told, {p.name: p.read_bytes() for p in sorted(to.iterdir())}))
    assert len(made[0][1]) == 3
    assert made[0] == made[1] == made[2]


@pytest.mark.parametrize("seed", range(12))
def test_a_warm_memory_finds_the_same(seed: int) -> None:
    """What is kept from one proof to the next changes nothing that is found."""
    import random  # noqa: TID251

    from stitchproof.pipeline.press import press
    from stitchproof.pipeline.report import proof_object
    from tests.desks import Paper

    source = random.Random(seed)  # noqa: S311 - the same texts every time
    before = mutated(TEE, source.randrange)
    after = mutated(before, source.randrange)
    desk = Paper(before)
    press(desk, "x.md")
    warm = press(Paper(after, memory=desk.memory, lines=desk.lines), "x.md")
    assert proof_object(warm) == proof_object(press(Paper(after), "x.md"))
