"""The settled tree as prose: one phrase for each operation, in one house style.

What is written reads back as the same tree, apart from the marks of repeats, which decide nothing.
A step that the trade's words cannot say exactly is left as near as they come, with a finding.
"""

import re
from collections.abc import Sequence
from typing import Final, TypeGuard

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.records import replace
from stitchproof.language.number import ONE, plain
from stitchproof.language.tree import (
    Chain,
    Colour,
    Counts,
    Each,
    Either,
    End,
    Facing,
    FastenOff,
    First,
    Group,
    InPattern,
    Join,
    JoinYarn,
    Last,
    Leave,
    MagicRing,
    Make,
    Mark,
    Next,
    Nth,
    Origin,
    Remark,
    Repeat,
    Same,
    SeamSides,
    SeamTops,
    Shape,
    Skip,
    Step,
    Steps,
    Stitch,
    Times,
    To,
    ToMarked,
    Turn,
    Unread,
)
from stitchproof.language.write.finishing import (
    join_words,
    join_yarn_words,
    mark_words,
    seam_sides_words,
    seam_tops_words,
    shape_words,
)
from stitchproof.language.write.making import (
    chain_words,
    leave_words,
    make_words,
    pattern_words,
    skip_words,
    skipped_words,
)
from stitchproof.language.write.pen import Pen
from stitchproof.language.write.places import place_words, until_words
from stitchproof.language.write.repeating import group_words, repeat_words
from stitchproof.language.write.stitch_words import stitch_name
from stitchproof.language.write.unsaid import WordsKept
from stitchproof.language.write.wording import Wording


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
    pen = Pen(wording=wording or Wording(), inner=run_words, rounds=rounds)
    return begun(run_words(steps, pen)), pen.found


def begun(words: str) -> str:
    """Make a sentence of words: a capital, also behind a star, and a stop."""
    words = capital(words)
    return words if not words or words.endswith((".", "!")) else f"{words}."


def capital(words: str) -> str:
    """Begin words with a capital, also behind a star."""
    marks = len(words) - len(words.lstrip("*#†(["))
    return f"{words[:marks]}{words[marks : marks + 1].upper()}{words[marks + 1 :]}"


def run_words(steps: Sequence[Step], pen: Pen) -> str:
    """Write steps with the stops between them."""
    out = ""
    i = 0
    while i < len(steps):
        step = steps[i]
        if _comes_to_nothing(step, pen):
            i += 1
            continue
        used = _pair(steps, i, pen)
        words, taken = used or (_step(step, pen), 1)
        pen.begun = pen.begun or not isinstance(step, Colour | Facing | FastenOff)
        pen.worked = pen.worked or isinstance(step, Make | Group | Repeat)
        pen.remaining = pen.remaining or _goes_to_a_place(step)
        out = _append(out, words, steps[i - 1] if i else None, step)
        i += taken
    return out


def _goes_to_a_place(step: Step) -> bool:
    """Tell whether a step works towards a place, or again and again: what follows is the rest."""
    match step:
        case Repeat(often=Times()):
            return True
        case Make(at=Each(until=To() | ToMarked())) | Skip(at=Each(until=To() | ToMarked())):
            return True
        case _:
            return False


def _comes_to_nothing(step: Step, pen: Pen) -> bool:
    """Tell whether a step is not worked in any size that is printed: "0 times"."""
    match step:
        case Make(_, each, Next(number) | First(number) | Last(number)):
            return pen.wording.is_none(each) or pen.wording.is_none(number)
        case Make(_, each):
            return pen.wording.is_none(each)
        case Skip(Next(number)) | Repeat(often=Times(number)):
            return pen.wording.is_none(number)
        case _:
            return False


def _append(out: str, words: str, before: Step | None, step: Step) -> str:
    if not out or not words:
        return out or words
    beside = isinstance(step, Remark) and words.startswith(("(", "["))
    purpose = isinstance(step, Remark) and words[:4] == "for "
    if beside or (purpose and isinstance(before, Skip | Leave | Make | Group | Chain)):
        return f"{out} {words}"
    if isinstance(step, Mark) and step.rows is not None:
        return f"{out.removesuffix(';')}{'' if out.endswith('.') else '.'} {capital(words)}"
    if _is_sentence(step) or (before is not None and _is_sentence(before) and out != before.words):
        stop = "" if out.endswith((".", "!")) else "."
        return f"{out.removesuffix(';')}{stop} {capital(words)}"
    if isinstance(step, Remark) and step.words[:1] in {"(", "["}:
        return f"{out}, {words}"  # said aloud without its brackets
    if isinstance(step, Remark) and _is_clause(step.words) and not out.endswith((".", ";")):
        return f"{out}; {words}"
    if out.endswith((".", ";", ":")):
        return f"{out} {words}"
    if before is not None and _shares_the_edge(before, step):
        # "dc in each dc and 3 dc in each ch-2 sp around": one after the other as they come.
        whole = _TO_THE_END.sub("", out)
        return f"{whole} and {words}"
    apart = isinstance(before, SeamSides) and isinstance(step, Remark)
    # "do not join, turn" would be to do neither.
    apart = apart or (isinstance(before, Join | Turn) and not before.do)
    return f"{out}{';' if apart else ','} {words}"


_TO_THE_END: Final = re.compile(r" (?:around|across|to the end of the (?:row|round))$")
# Words by which a phrase hangs on what stands before it.
_HANGING: Final = frozenset(
    ("for", "to", "on", "with", "in", "at", "from", "by", "as", "the", "one", "none", "no", "do")
)


def _is_clause(words: str) -> bool:
    """Tell whether a remark says something to do by itself: "pull tight", not "leaving a tail"."""
    first, _, rest = words.lower().partition(" ")
    hangs = first.endswith("ing") or (first in _HANGING and not words.startswith("Do not "))
    return bool(rest) and words[1:2].islower() and not hangs


def _is_sentence(step: Step) -> TypeGuard[Remark]:
    """Tell whether a remark was a sentence of its own: "Pull tight."."""
    return isinstance(step, Remark) and step.words[:1].isupper() and _is_clause(step.words)


def _shares_the_edge(before: Step, step: Step) -> bool:
    """Tell whether two steps go each into places of its own along the whole edge."""
    match before, step:
        case (
            Make(at=Each(one, End())) | Group(at=Each(one, End())),
            Make(at=Each(other, End())) | Group(at=Each(other, End())),
        ):
            return one != other
        case _:
            return False


def _pair(steps: Sequence[Step], i: int, pen: Pen) -> tuple[str, int] | None:
    """Write two or three steps that are one phrase; None where the step stands alone."""
    step = steps[i]
    after = steps[i + 1] if i + 1 < len(steps) else None
    if isinstance(step, Chain) and _is_skipped(step) and _is_from_hook(after):
        assert isinstance(after, Make)
        words = f"{make_words(after, pen)} {skipped_words(step.counts or Counts(''), pen)}"
        more = _and_each(after, steps[i + 2] if i + 2 < len(steps) else None, pen)
        return f"{words}{more}", 3 if more else 2
    if isinstance(step, Group) and _named_behind(step, after):
        match step.body:
            case (Make() as alone,) if alone.at == Same():
                return make_words(replace(alone, at=step.at), pen), 1
            case _:
                return group_words(replace(step, name=""), pen), 1
    if isinstance(step, Colour) and isinstance(after, Facing) and not pen.begun:
        return f"{_step(step, pen)} and {pen.wording.word(after.side)} facing", 2
    if isinstance(step, JoinYarn) and step.at is not None and _stands_there(after):
        where = place_words(step.at, pen.way())
        return f"join with {stitch_name(after.stitch, pen.wording)} {where}", 2
    if isinstance(step, Make) and isinstance(after, Make) and _names_exceptions(step, after):
        words = make_words(after, pen).removesuffix(until_words(End(), pen.way())).rstrip()
        return f"{make_words(step, pen)}, working {words}", 2
    if _is_from_hook(step) or _slips_on(step, after):
        assert isinstance(step, Make)
        more = _and_each(step, after, pen)
        return (f"{make_words(step, pen)}{more}", 2) if more else None
    return None


def _names_exceptions(step: Make, after: Make) -> bool:
    """Tell whether every so many of the stitches just told are worked otherwise."""
    match step.at, after.at:
        case Each(one, End(), first), Each(other, End(), apart):
            return one == other and first == ONE and apart != ONE
        case _:
            return False


def _named_behind(step: Group, after: Step | None) -> bool:
    """Tell whether a group is named where it is made first: "5 dc in next ch (fan made)"."""
    if not step.name or not isinstance(after, Remark):
        return False
    return after.words.lower().strip("()[] ").endswith((f"{step.name} made", f"{step.name} formed"))


def _is_skipped(step: Chain) -> bool:
    """Tell whether a chain stands for those that the first stitch leaves at the hook."""
    return step.count == plain(0) and step.counts is not None


def _is_from_hook(step: Step | None) -> bool:
    return isinstance(step, Make) and isinstance(step.at, Nth) and step.at.origin is Origin.HOOK


def _stands_there(step: Step | None) -> TypeGuard[Make]:
    """Tell whether a plain stitch goes where the yarn was joined: "join with sc in first st"."""
    if not isinstance(step, Make) or step.at != Same() or step.each != ONE:
        return False
    return step.stitch == Stitch(step.stitch.kind) and step.stitch.kind != "sl_st"


def _slips_on(step: Step, after: Step | None) -> bool:
    """Tell whether slip stitches go on into a first place: said alone, that would be a join."""
    if not isinstance(step, Make) or not isinstance(after, Make):
        return False
    return step.stitch.kind == "sl_st" and isinstance(after.at, First)


def _and_each(step: Make, after: Step | None, pen: Pen) -> str:
    """Write "and in each ch across" behind the first stitch into the foundation."""
    if not isinstance(after, Make) or (after.stitch, after.each) != (step.stitch, step.each):
        return ""
    if not isinstance(after.at, Each | Next | First) or step.stitch.together != 1 or pen.opposite:
        return ""
    many = not pen.wording.is_one(after.each)
    return f" and {place_words(after.at, pen.way(step.stitch, many=many))}"


def _step(step: Step, pen: Pen) -> str:  # noqa: C901, PLR0911, PLR0912 - a line a kind of step
    match step:
        case Make():
            return make_words(step, pen)
        case Chain():
            return chain_words(step, pen)
        case MagicRing():
            return "make a magic ring"
        case Skip():
            return skip_words(step, pen)
        case Leave():
            return leave_words(step, pen)
        case Group():
            return group_words(step, pen)
        case InPattern(at):
            return pattern_words(at, pen)
        case Repeat():
            return repeat_words(step, pen)
        case Turn(do):
            return "turn" if do else "do not turn"
        case Join():
            return join_words(step, pen)
        case FastenOff(do, of):
            of = pen.wording.told(of)
            return f"{'' if do else 'do not '}fasten off {of}".rstrip()
        case JoinYarn():
            return join_yarn_words(step, pen)
        case Facing(side):
            return f"with {pen.wording.word(side)} facing"
        case Mark():
            return mark_words(step, pen)
        case Colour(name, hook):
            name = pen.wording.yarn(name)
            lead = "change to" if pen.begun else "with"
            return f"{lead} {name} hook" if hook else f"{lead} {name}"
        case SeamTops():
            return seam_tops_words(step, pen)
        case SeamSides():
            return seam_sides_words(step, pen)
        case Shape():
            return shape_words(step, pen)
        case Remark(words):
            pen.opposite = pen.opposite or _turns_to_other_side(words)
            words = pen.wording.told(words)
            return words.strip("()[]{}") if pen.wording.aloud else words
        case Unread(words, place):
            pen.report(WordsKept(words), place)
            return words
        case Either(readings):
            return run_words(readings[0], pen)


def _turns_to_other_side(words: str) -> bool:
    said = words.lower()
    return any(w in said for w in ("opposite side", "other side", "free loops"))
