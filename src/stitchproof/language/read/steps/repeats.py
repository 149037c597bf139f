"""Repeats from a mark: "*...; rep from * across", "*...* 4 times", "ending last rep at **"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.brackets import REPEAT, in_one_place, read_bracket
from stitchproof.language.read.steps.chains import read_to_stop
from stitchproof.language.read.steps.findings import RepeatMarkMissing
from stitchproof.language.read.steps.how_much import (
    around,
    maybe_more,
    maybe_outside,
    pass_these,
    unmarked,
)
from stitchproof.language.read.steps.often import HowOften, read_in_every, read_often, starts_often
from stitchproof.language.read.steps.omitting import fewer_at_last, read_omitted
from stitchproof.language.read.steps.once_more import once_more
from stitchproof.language.read.steps.places import EACH, IN, read_in
from stitchproof.language.read.steps.reader import MARKS, OPENING, Frame, Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import (
    AsLong,
    Chain,
    Either,
    Group,
    Make,
    Next,
    Repeat,
    Step,
    Steps,
    Times,
    Unread,
)

ENDING: Final = word_set("ending end ends finishing finish")
_LAST_REPEAT: Final = word_set("last final the each rep repeat on")
_TO_MARK: Final = word_set("to through - – and until")
_STARS: Final = word_set("asterisk asterisks star stars")


def read_mark(reader: Reader, frame: Frame) -> Steps | None:
    """Read a repeat mark: the start of a repeat, its end, or both."""
    mark = reader.text()
    start = reader.at
    reader.take()
    stands = frame.marks.get(mark)
    if not stands:
        frame.marks[mark] = [len(frame.steps)]
        return ()
    if reader.text() in {",", ";", "."} and _bare_repeat(reader, 1):
        reader.take()
    if reader.text() == "," and _times_ahead(reader):
        reader.take()  # "*...*, twice more"
    if reader.text() in IN and _all_bare(frame.steps[stands[0] :]):
        return _in_one_place(reader, frame, (stands[0], mark))
    named = reader.text() in REPEAT and _bare_repeat(reader, 0)
    if named:
        reader.take()
    if not named and not starts_often(reader):
        stands.append(len(frame.steps))
        return ()
    how = read_often(reader) if starts_often(reader) else HowOften(AsLong())
    if how is None:
        return None
    first = stands[0]
    body = tuple(frame.steps[first:])
    del frame.steps[first:]
    del frame.marks[mark]
    frame.tails = [i for i in frame.tails if i < first]
    repeat = Repeat(body, how.often, mark, None, around(reader, body, start))
    frame.steps.append(maybe_outside(repeat, frame))
    _ending(reader, frame, (first, mark))
    return ()


def _times_ahead(reader: Reader) -> bool:
    """Tell whether "twice more", "4 times" stands behind a comma, and closes the step."""
    counted = reader.text(1) in {"once", "twice", "thrice"} and reader.text(2) == "more"
    behind = 3 if counted else 0
    if reader.number(1) is not None and reader.text(2) in {"times", "more"}:
        behind = 4 if reader.text(2) == "more" else 3
    return behind > 0 and reader.text(behind) in {"", ".", ",", ";"}


def _all_bare(steps: list[Step]) -> bool:
    """Tell whether steps are stitches and chains that name no place."""
    made = [step for step in steps if isinstance(step, Make)]
    plain = all(isinstance(step, Make | Chain) for step in steps)
    return plain and len(made) > 1 and all(isinstance(step.at, Next) for step in made)


def _in_one_place(reader: Reader, frame: Frame, opened: tuple[int, str]) -> Steps | None:
    """Read "*2 dc, ch 3, 2 dc* in corner space": stars for brackets."""
    first, mark = opened
    start = reader.at
    body = in_one_place(tuple(frame.steps[first:]))
    reader.take()
    place = read_in(reader)
    if place is None:
        return None
    del frame.steps[first:]
    del frame.marks[mark]
    group = Group(body, place.at, "", around(reader, body, start))
    frame.steps.append(group)
    frame.again = group
    return ()


def _bare_repeat(reader: Reader, ahead: int) -> bool:
    """Tell whether "repeat" stands there without naming a mark."""
    if reader.text(ahead) not in REPEAT:
        return False
    follows = reader.text(ahead + 1)
    return follows not in MARKS | OPENING.keys() | {"from", "between", "row", "rows", "rnd", "rnds"}


def _is_elsewhere(reader: Reader) -> bool:
    """Tell whether "for second shoulder", "on the other side" is where all of it is made again."""
    if reader.text() not in _WHERE:
        return False
    ahead = 2 if reader.text(1) == "the" else 1
    return reader.text(ahead) in _OTHER_ONE and reader.text(ahead + 1) in _OTHER_PARTS


_WHERE: Final = word_set("for on at along down up across")
_OTHER_ONE: Final = word_set("other second opposite remaining rem 2nd each")
_OTHER_PARTS: Final = word_set(
    "side sides end ends edge corner corners shoulder sleeve front back half strap leg arm ear"
    " mitten mitt sock piece panel cup armhole pocket"
)


def read_repeat(reader: Reader, frame: Frame) -> Steps | None:
    """Read "rep from * ...", "repeat around", "rep (…) 3 times"."""
    start = reader.at
    reader.take()
    if reader.text() in IN and reader.text(1) in EACH and isinstance(frame.again, Make | Group):
        return once_more(reader, frame.again, start)
    if _is_elsewhere(reader):
        return read_to_stop(reader, start)
    if reader.text() in {"this", "these"} and reader.text(1) in _WORDING:
        reader.take()
    reader.pass_over(_WORDING | word_set("again everything"))
    if reader.text() in {"this", "that"} and starts_often(reader, 1):
        reader.take()
    pass_these(reader)
    if reader.text() in OPENING:
        return read_bracket(reader, frame)
    reader.accept_any(word_set("from between"))
    reader.pass_over(word_set("the first asterisk") if reader.text(1) in MARKS else frozenset())
    stars = reader.text() in _STARS and "*" in frame.marks
    if reader.text() not in MARKS and not stars:
        return unmarked(reader, frame, start)
    mark = "*" if stars else reader.text()
    reader.take()
    if mark == "**" and mark not in frame.marks and len(frame.marks.get("*", ())) > 1:
        mark = "*"  # "repeat **": what stands between the two
    reader.accept("s")
    until = ""
    if reader.text() in MARKS or (reader.text() in _TO_MARK and _second_mark(reader)):
        reader.accept_any(_TO_MARK)
        reader.accept("second")
        until = reader.text()
        reader.take()
        reader.accept("s")
    return _from_mark(reader, frame, (mark, until), start)


_WORDING: Final = word_set(
    "instructions directions pattern section sequence steps stitches sts process"
)


def _second_mark(reader: Reader) -> bool:
    return reader.text(1) in MARKS or (reader.text(1) == "second" and reader.text(2) in MARKS)


def _from_mark(reader: Reader, frame: Frame, marks: tuple[str, str], start: int) -> Steps | None:
    mark, until = marks
    reader.accept(",")
    every = None if starts_often(reader) else read_in_every(reader)
    said = every is not None or starts_often(reader)
    how = every or (read_often(reader) if said else HowOften(AsLong()))
    if how is None:
        return None
    starred = _between_stars(frame, mark) if until == mark and mark not in frame.marks else ()
    if starred and said:
        often = how.often
        often = replace(often, more=False) if isinstance(often, Times) else often
        return (Repeat(starred, often, mark, None, reader.span(start)),)
    stands = frame.marks.get(mark) or _repeated_from(frame, mark)
    if not stands:
        reader.report(RepeatMarkMissing(mark), reader.span(start))
        return (Unread(reader.words(start), reader.span(start)),)
    frame.marks[mark] = stands
    first = stands[0]
    last = _closed_at(frame, mark, until)
    body = tuple(frame.steps[first:last])
    between = frame.steps[last:]
    if between:  # worked once already, with other steps behind it: these are further times
        often = how.often if said else Times(plain(1))
        if isinstance(often, Times):
            often = replace(often, more=False)
        again = Repeat(body, often, mark, None, reader.span(start))
        return (again,)
    del frame.steps[first:]
    del frame.marks[mark]
    frame.tails = [i for i in frame.tails if i < first]
    span = around(reader, body, start)
    repeat = Repeat(body, how.often, mark, None, span)
    frame.steps.append(maybe_more(repeat, how))
    _ending(reader, frame, (first, mark))
    return ()


def _repeated_from(frame: Frame, mark: str) -> list[int]:
    """Find the repeat that began at a mark: "rep from * once more" takes it in once more."""
    for i in range(len(frame.steps) - 1, -1, -1):
        step = frame.steps[i]
        if isinstance(step, Repeat) and step.mark == mark and i + 1 < len(frame.steps):
            return [i]
    return []


def _between_stars(frame: Frame, mark: str) -> Steps:
    """Find what stood between two marks of a repeat that was read, to be worked once more there.

    `*sc in next st, 2 sc in next st*, rep from * to * once, sc in next 9, rep from * to * twice`
    """
    for step in reversed(frame.steps[:-1]):
        one = step.readings[0][0] if isinstance(step, Either) else step
        if isinstance(one, Repeat) and one.mark == mark:
            return one.body
    return ()


def _closed_at(frame: Frame, mark: str, until: str) -> int:
    """Find where the repeated stretch ends: at its closing mark, or here."""
    if until and until != mark and until in frame.marks:
        return frame.marks[until][-1]
    stands = frame.marks[mark]
    return stands[-1] if len(stands) > 1 else len(frame.steps)


# --------------------------------------------------------------------------- how the last one ends


def _ending(reader: Reader, frame: Frame, what: tuple[int, str]) -> None:
    """Read "ending last rep at **" and "ending with ..." behind a repeat."""
    first, _ = what
    step = frame.steps[-1]
    omitted = read_omitted(reader, step.body) if isinstance(step, Repeat) else None
    if omitted is not None and isinstance(step, Repeat):
        frame.steps[-1] = _with_cut(step, len(step.body) - omitted.steps)
        frame.steps += omitted.instead
        return
    if isinstance(step, Repeat) and fewer_at_last(reader, step.body):
        frame.steps[-1] = _with_cut(step, len(step.body) - 1)
        return
    ahead = 1 if reader.text() in {",", ";", "."} else 0
    ahead += reader.text(ahead) in {"but", "and"} and reader.text(ahead + 1) in ENDING
    if reader.text(ahead) not in ENDING:
        return
    cut = _cut(reader, ahead + 1)
    if cut is not None:
        mark, length = cut
        stands = frame.marks.pop(mark, [])
        step = frame.steps[-1]
        where = stands[0] - first if stands else None
        reader.take(length)
        if where is not None:
            frame.steps[-1] = _with_cut(step, where)
        else:
            reader.report(RepeatMarkMissing(mark), reader.span(reader.at - 1))
        return
    length = _with(reader, ahead + 1)
    if length:
        last = any(reader.text(i) in {"rep", "repeat"} for i in range(length))
        reader.take(length)
        reader.take(reader.text() in {"a", "an", "one", "the"} and starts_stitch(reader, 1))
        frame.tails.append(len(frame.steps) - 1)
        if last:
            frame.last_reps.append(len(frame.steps) - 1)


def _with_cut(step: Step, where: int) -> Step:
    if isinstance(step, Either):
        readings = tuple(tuple(_with_cut(s, where) for s in reading) for reading in step.readings)
        return replace(step, readings=readings)
    assert isinstance(step, Repeat)
    return replace(step, cut=where)


def _cut(reader: Reader, ahead: int) -> tuple[str, int] | None:
    """Find "last rep at **", "at ** on last rep": the mark and how many tokens it took."""
    while reader.text(ahead) in _LAST_REPEAT:
        ahead += 1
    if reader.text(ahead) not in {"at", "before", "with"} or reader.text(ahead + 1) not in MARKS:
        return None
    mark = reader.text(ahead + 1)
    ahead += 2
    while reader.text(ahead) in _LAST_REPEAT or reader.text(ahead) == "of":
        ahead += 1
    return mark, ahead


def _with(reader: Reader, ahead: int) -> int:
    """Find "with", "last rep with", "in": how many tokens; 0 for other endings."""
    while reader.text(ahead) in _LAST_REPEAT:
        ahead += 1
    if reader.text(ahead) == "with":
        return ahead + 1
    counted = reader.number(ahead) is not None and starts_stitch(reader, ahead + 1)
    plain = counted or starts_stitch(reader, ahead) or reader.text(ahead) in _SKIPS
    return ahead if plain and reader.text(ahead - 1) in _BEFORE_A_STITCH else 0


_SKIPS: Final = word_set("sk skip miss ch chain")
_BEFORE_A_STITCH: Final = word_set("ending end finishing finish rep repeat")
