"""Makes up manuscripts from a source of whole numbers: mostly sense, with nonsense in it."""

from collections.abc import Callable

Roll = Callable[[int], int]  # a whole number below another, by chance

HUGE: tuple[str, ...] = (
    "1000000",
    "1000000000",
    "9" * 18,
    "9" * 19,
    "9" * 400,
    "0",
    "00",
    "1.5",
    "1/2",
    "½",
    "-1",
)
STITCHES: tuple[str, ...] = (
    "sc",
    "dc",
    "hdc",
    "tr",
    "sl st",
    "FPdc",
    "BPtr",
    "sc2tog",
    "dc3tog",
    "inc",
    "shell",
)
STITCHES += ("dc2tog", "V-st", "picot", "5-dc cl", "bobble", "lsc", "fsc", "fdc", "esc", "wibble")
NOUNS: tuple[str, ...] = (
    "st",
    "sts",
    "ch",
    "ch-1 sp",
    "ch-2 sp",
    "sp",
    "dc",
    "sc",
    "shell",
    "row end",
    "marked st",
)
NOUNS += ("ring", "loop", "FPdc", "picot", "turning ch", "same st", "3rd ch", "corner sp")
ENDS: tuple[str, ...] = (
    "across",
    "around",
    "to end",
    "to last 3 sts",
    "to last st",
    "to marker",
    "to next sp",
    "",
)
MARKS: tuple[str, ...] = (
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    "*",
    "**",
    ";",
    ",",
    ".",
    ":",
    "—",
    "“",
    "\u00a0",
    "\u202e",
)
MARKS += ("\ufeff", "\x00", "\r", "\t", "<b>", "</script>", "#panic()", "$x$", "`", "\\", "|", "…")
PLACES = (
    "in next {noun}",
    "in next {number} {noun}",
    "in each {noun} {end}",
    "in same {noun}",
    "in first {noun}",
    "in last {number} {noun}",
    "in {number}th {noun} from hook",
    "around {noun} {number} rows below",
    "in {number}nd {noun}",
    "between next 2 {noun}",
    "along row ends",
    "on opposite side of foundation ch",
    "evenly {end}",
    "over next {number} {noun}",
)
STEPS = (
    "{stitch} {place}",
    "{number} {stitch} {place}",
    "ch {number}",
    "ch {number}, turn",
    "sk next {number} {noun}",
    "sk {noun}",
    "({steps}) {place}",
    "*{steps}; rep from * {end}",
    "*{steps}; rep from * {number} times",
    "*{steps}; rep from * {number} more times",
    "[{steps}] {number} times",
    "turn",
    "join",
    "join with sl st in first {noun}",
    "fasten off",
    "with A, {steps}",
    "leave {number} sts unworked",
    "place marker",
    "inc {number} sts evenly",
    "dec 1 st at each end",
    "{steps}, ending with {stitch} in last st",
    "insert hook in next {noun}, yo, pull up a loop, yo, draw through all loops",
    "repeat {end}",
    "{mark}",
)
LABELS = (
    "Row {n}:",
    "Rnd {n}:",
    "Row {n} (RS):",
    "Rows {n}-{m}:",
    "Rnds {n}–{m}:",
    "Next row:",
    "Row {number}:",
    "Rows {n}-{number}:",
    "Rows {n} and {m}:",
    "",
    "Ch {number}.",
    "Rnd {n}: {number} sc in magic ring.",
    "Rep Rows {n}-{m} {number} times.",
    "Rep last {number} rows {number} times.",
    "Rows {n}-{m}: Rep Row {n}.",
    "Work same as Front to end of Row {n}.",
    "Rep Rows {n}-{m} until piece measures {number} cm.",
    "Inc 1 st at each end of every {number}th row {number} times.",
    "Sizes {number} and {number} only:",
    "Work even for {number} rows.",
    "Shape: at the same time, dec 1 st at neck edge every row {number} times.",
)
HEADS: tuple[str, ...] = (
    "## Front",
    "## Back (make 2)",
    "### Sleeve",
    "# A thing",
    "## Notes",
    "## Special stitches",
)
HEADS += ("## Finishing", "## Edging", "## Abbreviations", "## Materials", "## Gauge", "---", "> q")
PROSE = (
    "The ch-3 counts as a dc.",
    "Ch-1 does not count as a st.",
    "Multiple of {number} + {number}.",
    "Sizes: S (M, L).",
    "sc = single crochet",
    "Shell: ({steps}) in same st.",
    "Cl (cluster): {steps}.",
    "US terms.",
    "UK terms are used.",
    "Sew shoulders, {number} sts each.",
    "Weave in ends.",
    "![it](<chart: Front, rows {number}-{number}>)",
    "| a | b |\n|---|---|\n| {number} | {mark} |",
)
VALUES = (
    '"S"', "1", "-1", "1.5", "true", "[]", "{}", '["S", "M", "L"]', "[1, 2]", '"4.5 mm"', '"10 cm"',
    "1e400", "nan", "inf", "1979-05-27", '""', '"a + b"', '"front_sts * 2"', '"body.chest / 0"',
    '["10 cm", "11 cm", "12 cm"]', '"XS-5X"', "{ a = { b = 1 } }",
    '"2 + 1"', "999999999999999999999",
    '"women"', '"nothing.csv"', '"' + "(" * 200 + '"', '"\\u0000"', '"#panic()"', "[[1], [2]]",
)  # fmt: skip
TABLES = (
    "", "yarn.main", "hooks", "swatch.texture", "sizes", "sample", "measures", "counts", "rules",
    "finished", "pieces", "bodies.own", "[accepted]", "wibble", "swatch", "yarn", "colours",
)  # fmt: skip
KEYS = (
    "title", "terms", "level", "weight", "fibre", "ball", "main", "stitches", "rows",
    "over", "body",
    "make", "point", "groups", "size", "fixed", "ease", "panel", "front_sts", "measure", "across",
    "finding", "at", "sizes", "reason", "mass", "after", "worked", "hook", "table", "is", "round",
)  # fmt: skip


def manuscript(roll: Roll) -> str:
    """Make up a manuscript."""
    lines: list[str] = []
    if roll(3) == 0:
        lines += ["+++", *(front_line(roll) for _ in range(roll(12))), "+++" if roll(8) else ""]
    for _ in range(1 + roll(9)):
        match roll(8):
            case 0:
                lines.append(f"\n{_one(roll, HEADS)}\n")
            case 1:
                lines.append("\n" + _filled(roll, _one(roll, PROSE), 2))
            case _:
                lines.append(("\n" if roll(4) else "") + instruction(roll))
    end = ("\n", "\n", "\n", "\r\n", "\r")[roll(5)]
    return end.join(lines)


def instruction(roll: Roll) -> str:
    """Make up one instruction line."""
    n = roll(6) + 1
    label = _one(roll, LABELS).replace("{n}", str(n)).replace("{m}", str(n + roll(4)))
    steps = _steps(roll, 3) if not label.endswith(".") else ""
    count = "" if roll(2) else f" ({_number(roll)} {_one(roll, NOUNS)})"
    return f"{_filled(roll, label, 2)} {steps}.{count}"


def front_line(roll: Roll) -> str:
    """Make up one line of a front matter, its types mostly wrong."""
    if roll(3) == 0:
        return f"[{_one(roll, TABLES)}]"
    return f"{_one(roll, KEYS)} = {_one(roll, VALUES)}"


def mutated(text: str, roll: Roll) -> str:
    """Change a text in a few places: take out, put twice, put in, or swap."""
    for _ in range(1 + roll(5)):
        start = roll(len(text) + 1)
        end = min(len(text), start + roll(40))
        match roll(5):
            case 0:
                text = text[:start] + text[end:]
            case 1:
                text = text[:end] + text[start:]
            case 2:
                text = text[:start] + _one(roll, MARKS) + text[start:]
            case 3:
                text = text[:start] + _number(roll) + text[end:]
            case _:
                to = roll(len(text) + 1)
                text = text[:to] + " " + text[start:end] + text[to:]
    return text


def _one(roll: Roll, of: tuple[str, ...]) -> str:
    return of[roll(len(of))]


def _number(roll: Roll) -> str:
    match roll(12):
        case 0:
            return _one(roll, HUGE)
        case 1:
            return f"{roll(90)} ({roll(90)}, {roll(90)})"
        case 2:
            return "{front_sts + 2}"
        case _:
            return str(roll(30))


def _steps(roll: Roll, depth: int) -> str:
    return ", ".join(_filled(roll, _one(roll, STEPS), depth) for _ in range(1 + roll(4)))


def _filled(roll: Roll, words: str, depth: int) -> str:
    """Fill in what stands between braces."""
    makers: dict[str, Callable[[], str]] = {
        "{steps}": lambda: _steps(roll, depth - 1) if depth > 0 else "sc in next st",
        "{place}": lambda: _filled(roll, _one(roll, PLACES), depth),
        "{number}": lambda: _number(roll),
        "{stitch}": lambda: _one(roll, STITCHES),
        "{noun}": lambda: _one(roll, NOUNS),
        "{end}": lambda: _one(roll, ENDS),
        "{mark}": lambda: _one(roll, MARKS),
    }
    for name, make in makers.items():
        while name in words:
            words = words.replace(name, make(), 1)
    return words
