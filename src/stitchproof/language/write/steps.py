"""The settled tree as prose: one phrase for each operation, in one house style.

What is written reads back as the same tree, apart from the marks of repeats, which decide nothing.
A step that the trade's words cannot say exactly is left as near as they come, with a finding.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from stitchproof.base.diagnostics import Diagnostic, Finding
from stitchproof.base.place import Span
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.stitch import STITCH
from stitchproof.language.tree import (
    AsLong,
    Behind,
    Chain,
    Colour,
    Counts,
    Each,
    Either,
    Evenly,
    Facing,
    FastenOff,
    First,
    Group,
    Join,
    JoinYarn,
    Last,
    Leave,
    MagicRing,
    Make,
    Mark,
    Next,
    Nth,
    OppositeSide,
    Origin,
    Post,
    Remark,
    Repeat,
    RowEnds,
    Same,
    SeamSides,
    SeamTops,
    Skip,
    Step,
    Steps,
    Stitch,
    Thing,
    Times,
    Turn,
    Unread,
)
from stitchproof.language.write.places import (
    Way,
    evenly_words,
    nth_words,
    place_words,
    plain_place,
    row_ends_words,
    until_words,
)
from stitchproof.language.write.stitch_words import (
    kind_name,
    loop_before_place,
    loop_behind,
    noun_words,
    stitch_name,
)
from stitchproof.language.write.unsaid import NoWordsFor, WordsKept
from stitchproof.language.write.wording import Wording

_BRACKETS: Final = (("(", ")"), ("[", "]"))
_MARKS: Final = ("*", "#", "†")
_TWO: Final = 2


@dataclass(slots=True, kw_only=True)
class Pen:
    """Where the writing stands in a line.

    Attributes
    ----------
    wording : Wording
        Whose words.
    rounds : bool
        The line is a round.
    brackets, marks : int
        How many repeats stand around.
    opposite : bool
        The line works along the other side of the foundation.
    last : str
        Name of the stitch written last.
    found : list of Diagnostic
        What had no words.
    """

    wording: Wording
    rounds: bool = False
    brackets: int = 0
    marks: int = 0
    opposite: bool = False
    last: str = ""
    found: list[Diagnostic] = field(default_factory=list)

    def report(self, finding: Finding, place: Span) -> None:
        """Keep a finding."""
        self.found.append(Diagnostic(finding=finding, place=place))

    def way(self, stitch: Stitch | None = None, *, many: bool = False) -> Way:
        """Give the way to a place for a stitch."""
        around = stitch is not None and stitch.post is not Post.NONE
        loop = "" if stitch is None else loop_before_place(stitch, self.wording)
        return Way(
            wording=self.wording,
            around=around,
            loop=loop,
            many=many,
            rounds=self.rounds,
            opposite=self.opposite,
        )


def write_steps(
    steps: Steps, wording: Wording | None = None, *, rounds: bool = False
) -> tuple[str, list[Diagnostic]]:
    """Write the steps of an instruction as a sentence.

    Parameters
    ----------
    steps : tuple of Step
        Settled; of a doubt left open, the likeliest reading is written.
    wording : Wording
        Whose terms, how short, which sizes.
    rounds : bool
        The line is a round: "around" and not "across".

    Returns
    -------
    words, found
        A sentence with its capital and its stop, empty for no steps; `found` says what could not
        be said in these terms.
    """
    pen = Pen(wording=wording or Wording(), rounds=rounds)
    return _sentence(run_words(steps, pen)), pen.found


def _sentence(words: str) -> str:
    if not words:
        return ""
    for index, char in enumerate(words):
        if char.isalpha():
            if index == 0 or words[:index] in {"*", "#", "†"} or not index:
                words = f"{words[:index]}{char.upper()}{words[index + 1 :]}"
            break
        if char not in "*#†":
            break
    return words if words.endswith((".", "!")) else f"{words}."


def run_words(steps: Sequence[Step], pen: Pen) -> str:
    """Write steps with the stops between them."""
    out = ""
    i = 0
    while i < len(steps):
        step = steps[i]
        used = _pair(steps, i, pen)
        words, taken = used or (_step(step, pen), 1)
        out = _append(out, words, steps[i - 1] if i else None, step)
        i += taken
    return out


def _append(out: str, words: str, before: Step | None, step: Step) -> str:
    if not out or not words:
        return out or words
    beside = isinstance(step, Remark) and words.startswith(("(", "["))
    if beside or (isinstance(before, Skip) and isinstance(step, Remark) and words[:4] == "for "):
        return f"{out} {words}"
    if out.endswith((".", ";")):
        return f"{out} {words}"
    seam = isinstance(before, SeamSides) and isinstance(step, Remark)
    return f"{out}{';' if seam else ','} {words}"


def _pair(steps: Sequence[Step], i: int, pen: Pen) -> tuple[str, int] | None:
    """Write two or three steps that are one phrase; None where the step stands alone."""
    step = steps[i]
    after = steps[i + 1] if i + 1 < len(steps) else None
    if isinstance(step, Chain) and _is_skipped(step) and _is_from_hook(after):
        assert isinstance(after, Make)
        words = f"{_make(after, pen)} {_skipped_words(step.counts or Counts(''), pen)}"
        more = _and_each(after, steps[i + 2] if i + 2 < len(steps) else None, pen)
        return f"{words}{more}", 3 if more else 2
    if _is_from_hook(step):
        assert isinstance(step, Make)
        more = _and_each(step, after, pen)
        return (f"{_make(step, pen)}{more}", 2) if more else None
    return None


def _is_skipped(step: Chain) -> bool:
    """Tell whether a chain stands for those that the first stitch leaves at the hook."""
    return step.count == plain(0) and step.counts is not None


def _is_from_hook(step: Step | None) -> bool:
    return isinstance(step, Make) and isinstance(step.at, Nth) and step.at.origin is Origin.HOOK


def _and_each(step: Make, after: Step | None, pen: Pen) -> str:
    """Write "and in each ch across" behind the first stitch into the foundation."""
    if not isinstance(after, Make) or (after.stitch, after.each) != (step.stitch, step.each):
        return ""
    if not isinstance(after.at, Each | Next) or step.stitch.together != 1:
        return ""
    if step.stitch.kind == "sl_st" or pen.opposite:
        return ""
    many = not pen.wording.is_one(after.each)
    return f" and {place_words(after.at, pen.way(step.stitch, many=many))}"


def _skipped_words(counts: Counts, pen: Pen) -> str:
    chains = pen.wording.word("chs")
    if not counts.stitch and not counts.chains:
        return f"(skipped {chains} do not count{_throughout(counts)})"
    return f"(skipped {chains} count as {_counts_as(counts, pen)}{_throughout(counts)})"


def _counts_as(counts: Counts, pen: Pen) -> str:
    parts = []
    if counts.stitch == "st":
        parts.append(f"a {pen.wording.word('st')}")
    elif counts.stitch:
        parts.append(kind_name(counts.stitch, pen.wording))
    if counts.chains:
        parts.append(f"{pen.wording.word('ch')} {counts.chains}")
    return " and ".join(parts)


def _throughout(counts: Counts) -> str:
    return " here and throughout" if counts.throughout else ""


# --------------------------------------------------------------------------- one step


def _step(step: Step, pen: Pen) -> str:  # noqa: C901, PLR0912 - one line a kind of step
    match step:
        case Make():
            return _make(step, pen)
        case Chain():
            return _chain(step, pen)
        case MagicRing():
            return "make a magic ring"
        case Skip():
            return _skip(step, pen)
        case Leave(number):
            return _leave(number, pen)
        case Group():
            return _group(step, pen)
        case Repeat():
            return _repeat(step, pen)
        case Turn(do):
            return "turn" if do else "do not turn"
        case Join():
            return _join(step, pen)
        case FastenOff(do):
            return "fasten off" if do else "do not fasten off"
        case JoinYarn():
            return _join_yarn(step, pen)
        case Facing(side):
            return f"with {pen.wording.word(side)} facing"
        case Mark():
            return _mark(step, pen)
        case Colour(name, hook):
            return f"with {name} hook" if hook else f"with {name}"
        case SeamTops():
            return _seam_tops(step, pen)
        case SeamSides():
            return _seam_sides(step, pen)
        case Remark(words):
            pen.opposite = pen.opposite or _turns_to_other_side(words)
            return words
        case Unread(words, place):
            pen.report(WordsKept(words), place)
            return words
        case Either(readings):
            return run_words(readings[0], pen)


def _turns_to_other_side(words: str) -> bool:
    said = words.lower()
    return any(w in said for w in ("opposite side", "other side", "free loops"))


def _make(step: Make, pen: Pen) -> str:
    name = stitch_name(step.stitch, pen.wording)
    called = f"{name}{loop_behind(step.stitch, pen.wording)}"
    pen.last = name
    many = not pen.wording.is_one(step.each)
    way = pen.way(step.stitch, many=many)
    match step.at:
        case RowEnds():
            return row_ends_words(step.at, called, way)
        case Evenly():
            return evenly_words(step.at, called, way)
        case Same() if step.at == Same() and pen.brackets and step.stitch.post is Post.NONE:
            return f"{_count(step.each, pen)}{called}"
        case _ if step.stitch.together > 1:
            return _gathered(step, called, way, pen)
        case Next(number) if many and pen.wording.values(number) == pen.wording.values(step.each):
            # "3 dc in each of next 3 sts" is said by many who mean one in each.
            return f"{place_words(step.at, way)} work {_count(step.each, pen)}{called}"
        case _:
            where = place_words(step.at, way)
    if where is None:
        pen.report(NoWordsFor(name, pen.wording.terms), step.place)
        where = ""
    return f"{_count(step.each, pen)}{called} {where}".rstrip()


def _count(number: Number, pen: Pen) -> str:
    return "" if pen.wording.is_one(number) else f"{pen.wording.number(number)} "


def _gathered(step: Make, called: str, way: Way, pen: Pen) -> str:
    """Write stitches drawn together: a number of places is that of the stitches below."""
    by = step.stitch.together
    match step.at:
        case Next(number, noun) if not pen.wording.is_one(number) and noun == STITCH:
            return f"{called} {times_words(number, pen)}"
        case Next(number) | First(number) | Last(number):
            below = _times(number, by)
            if below is None:
                pen.report(NoWordsFor(called, pen.wording.terms), step.place)
                below = number
            over = replace(step.at, number=below)
            words = plain_place(over, replace(way, loop=""))
            return f"{called} {'around' if way.around else 'over'} {way.loop}{words}"
        case Each(noun, until) if noun == STITCH:
            return f"{called} {until_words(until, way)}"
        case _:
            return f"{called} {place_words(step.at, way) or ''}".rstrip()


def _times(number: Number, by: int) -> Number | None:
    if not isinstance(number.value, tuple):
        return None
    values = tuple(None if value is None else value * by for value in number.value)
    return replace(number, value=values, spelling="")


def times_words(number: Number, pen: Pen, more: str = "") -> str:
    """Say how often: `twice`, `6 times`, `3 more times`."""
    values = pen.wording.values(number)
    if not more and values is not None and set(values) == {_TWO}:
        return (
            "twice"
            if len(number.value if isinstance(number.value, tuple) else ()) == 1
            else (f"{pen.wording.number(number)} times")
        )
    if pen.wording.is_one(number):
        return f"{pen.wording.number(number)}{more} time"
    return f"{pen.wording.number(number)}{more} times"


def _chain(step: Chain, pen: Pen) -> str:
    words = f"{pen.wording.word('ch')} {pen.wording.number(step.count)}"
    if step.counts is None:
        return words
    if not step.counts.stitch and not step.counts.chains:
        verb = f"does not count as a {pen.wording.word('st')}"
    else:
        verb = f"counts as {_counts_as(step.counts, pen)}"
    return f"{words} ({verb}{_throughout(step.counts)})"


def _skip(step: Skip, pen: Pen) -> str:
    verb = pen.wording.word("sk")
    match step.at:
        case Behind(number):
            one = pen.wording.is_one(number)
            many = pen.wording.word("st") if one else pen.wording.word("sts")
            count = "" if one else f"{pen.wording.number(number)} "
            return f"{verb} {count}{many} behind {pen.last or 'it'}"
        case Next() | Each() | Same() | First() | Last():
            return f"{verb} {plain_place(step.at, pen.way())}"
        case Nth():
            return f"{verb} {nth_words(step.at, pen.way()) or ''}".rstrip()
        case _:
            where = place_words(step.at, pen.way())
            if where is None:
                pen.report(NoWordsFor(verb, pen.wording.terms), step.place)
            return f"{verb} {(where or '').removeprefix('in ')}".rstrip()


def _leave(number: Number | None, pen: Pen) -> str:
    if number is None:
        return f"leave remaining {pen.wording.word('sts')} unworked"
    if pen.wording.is_one(number):
        return f"leave last {pen.wording.word('st')} unworked"
    return f"leave last {pen.wording.number(number)} {pen.wording.word('sts')} unworked"


# --------------------------------------------------------------------------- groups and repeats


def _group(step: Group, pen: Pen) -> str:
    way = pen.way(many=True)
    if step.name:
        return _named_group(step, way, pen)
    match step.body:
        case (Repeat(often=Times()) as repeat,):
            inside = _bracketed(repeat, pen)
        case _:
            inside = _in_brackets(step.body, pen)
    where = place_words(step.at, way)
    if where is None:
        pen.report(NoWordsFor(inside, pen.wording.terms), step.place)
    return f"{inside} {where or ''}".rstrip()


def _named_group(step: Group, way: Way, pen: Pen) -> str:
    special = pen.wording.specials.get(step.name)
    name = step.name if special is None else special.written
    copies = _copies(step, special.body if special is not None else None)
    if special is None or special.body is None or not copies:
        pen.report(NoWordsFor(step.name, pen.wording.terms), step.place)
    pen.last = name
    many = f"{copies} " if copies > 1 else ""
    if pen.brackets and step.at == Same():
        return f"{many}{name}"
    return f"{many}{name} {place_words(step.at, replace(way, many=copies > 1)) or ''}".rstrip()


def _copies(step: Group, body: Steps | None) -> int:
    if not body or len(step.body) % len(body):
        return 0
    copies = len(step.body) // len(body)
    return copies if step.body == body * copies else 0


def _in_brackets(body: Steps, pen: Pen) -> str:
    opening, closing = _BRACKETS[pen.brackets % len(_BRACKETS)]
    pen.brackets += 1
    words = run_words(body, pen)
    pen.brackets -= 1
    return f"{opening}{words}{closing}"


def _bracketed(step: Repeat, pen: Pen) -> str:
    inside = _in_brackets(step.body, pen)
    match step.often:
        case Times(number, more):
            return f"{inside} {times_words(number, pen, ' more' if more else '')}"
        case AsLong(until):
            return f"{inside} {until_words(until, pen.way())}"


def _repeat(step: Repeat, pen: Pen) -> str:
    if step.cut is None and (pen.brackets or pen.marks or _is_total(step)):
        return _bracketed(step, pen)
    mark = _MARKS[min(pen.marks, len(_MARKS) - 1)]
    pen.marks += 1
    if step.cut is None:
        words = run_words(step.body, pen)
    else:
        first = run_words(step.body[: step.cut], pen)
        words = f"{first},{mark}{mark} {run_words(step.body[step.cut :], pen)}"
    pen.marks -= 1
    rep = pen.wording.word("rep")
    match step.often:
        case Times(number, more):
            total = "" if more else "a total of "
            often = f"{total}{times_words(number, pen, ' more' if more else '')}"
        case AsLong(until):
            often = until_words(until, pen.way())
    ending = "" if step.cut is None else f", ending last {rep} at {mark}{mark}"
    return f"{mark}{words}; {rep} from {mark} {often}{ending}"


def _is_total(step: Repeat) -> bool:
    return isinstance(step.often, Times) and not step.often.more


# --------------------------------------------------------------------------- joins, yarn, markers


def _join(step: Join, pen: Pen) -> str:
    if not step.do:
        return "do not join"
    if step.at is None:
        return "join to form a ring" if step.ring else "join"
    slip = stitch_name(Stitch("sl_st"), pen.wording)
    where = place_words(step.at, pen.way()) or ""
    return f"join with {slip} {where}{' to form a ring' if step.ring else ''}"


def _join_yarn(step: JoinYarn, pen: Pen) -> str:
    facing = f"with {pen.wording.word(step.facing)} facing, " if step.facing else ""
    if step.at is not None:
        return f"{facing}join yarn {place_words(step.at, pen.way()) or ''}".rstrip()
    return f"{facing}join yarn at {step.of}" if step.of else f"{facing}join yarn"


def _mark(step: Mark, pen: Pen) -> str:
    if step.rows is not None:
        edges = "both edges" if step.edges == _TWO else "one edge"
        return f"mark {edges} at the top of Row {pen.wording.number(step.rows)}"
    verb = {"move": "move marker up", "remove": "remove marker"}.get(step.action, "place marker")
    match step.at:
        case None:
            return verb
        case Same(noun):
            return f"{verb} in last {noun_words(noun, pen.wording)} made"
        case _:
            return f"{verb} {place_words(step.at, pen.way()) or ''}".rstrip()


def _seam_tops(step: SeamTops, pen: Pen) -> str:
    sts = pen.wording.word("sts")
    words = (
        f"whipstitch {pen.wording.number(step.count)} {sts} from each outer edge of the last row"
    )
    if step.open is None:
        return words
    return f"{words}; the centre {pen.wording.number(step.open)} {sts} stay open"


def _seam_sides(step: SeamSides, pen: Pen) -> str:
    words = "whipstitch row ends from hem to marker"
    if step.rows is not None:
        words += f", {pen.wording.number(step.rows)} rows"
    if step.length is not None:
        words += f" = {pen.wording.number(step.length)}"
    return words
