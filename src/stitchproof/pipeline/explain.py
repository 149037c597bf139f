"""One row explained to the maker who is stuck.

What it does stitch by stitch, why its count is what it is, which reading was taken, and where
every number in it comes from.
"""

import textwrap
from collections.abc import Iterator
from types import MappingProxyType
from typing import Final

from stitchproof.base.diagnostics import Level, listed, shortened
from stitchproof.base.place import Lines
from stitchproof.base.records import replace
from stitchproof.fabric.memory import Memory
from stitchproof.fabric.told import ToldRow, settled_course, tell
from stitchproof.language.number import NONE, Resolved
from stitchproof.language.tree import (
    Chain,
    Loop,
    Nth,
    Origin,
    RepeatRows,
    Steps,
    Stitch,
    makes_stitches,
)
from stitchproof.language.walk import nodes, numbers_in
from stitchproof.language.write.aloud import write_aloud
from stitchproof.language.write.steps import write_steps
from stitchproof.language.write.unsaid import NoWordsFor, WordsKept
from stitchproof.language.write.wording import Wording, wording_of
from stitchproof.pipeline.counting import count_lines
from stitchproof.pipeline.desk import Unusable
from stitchproof.pipeline.origins import origin_lines
from stitchproof.pipeline.press import Pressed, row_gauges
from stitchproof.pipeline.rows_asked import Found, all_rows, find_rows
from stitchproof.pipeline.schedules import schedule_lines
from stitchproof.pipeline.telling import name_in, told_lines
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms

_WIDTH: Final = 96
_LONGEST: Final = 300  # characters of an address
_PLAIN: Final = frozenset({"sc", "ch", "sl_st"})


def explain(pressed: Pressed, memory: Memory, at: str, size: str | None = None) -> str:
    """Explain the row that an address names.

    Parameters
    ----------
    pressed : Pressed
        The manuscript, worked in every size.
    memory : Memory
        Courses worked before.
    at : str
        "Front, Row 12", "Row 12", "Front, rows 1-4", or a line's label: "Finishing, Shoulders".
    size : str, optional
        In which size; else the sample's, else the middle one.

    Raises
    ------
    Unusable
        When the address names nothing, or several rows, or there is no such size.
    """
    index = _size_index(pressed, size)
    gauges = row_gauges(pressed.manuscript, pressed.sizing)
    rows = tell(pressed.manuscript, pressed.sizing.resolved, memory, gauges)[index]
    lines = Lines.of(pressed.manuscript.text)
    found = find_rows(at.strip()[:_LONGEST], all_rows(pressed, rows), lines)
    return "\n".join(_explained(one, pressed, index) for one in found)


def _size_index(pressed: Pressed, size: str | None) -> int:
    names = pressed.proof.sizes
    if size is None:
        sample = pressed.sizing.sample
        return names.index(sample) if sample in names else len(names) // 2
    for index, name in enumerate(names):
        if name.casefold() == size.strip().casefold():
            return index
    msg = f"there is no size `{size}`; the sizes are {listed(names)}"
    raise Unusable(msg)


# --------------------------------------------------------------------------- the explanation


def _explained(found: Found, pressed: Pressed, index: int) -> str:
    size = pressed.proof.sizes[index]
    head = found.address() or found.course.label
    if len(pressed.proof.sizes) > 1:
        head += f", size {size}{' (the sample)' if size == pressed.sizing.sample else ''}"
    out = [head, "=" * len(head)]
    if found.alike:
        rows = listed(_ranges(found.alike))
        noun = "Rnds" if found.course.course.label.round else "Rows"
        out += textwrap.wrap(f"Worked just so again: {noun} {rows}.", _WIDTH)
    for title, lines in _parts(found, pressed, index):
        told = list(lines)
        if told:
            out += ["", title]
            for line in told:
                out += textwrap.wrap(
                    line, _WIDTH, initial_indent="  ", subsequent_indent="    "
                ) or [""]
    return "\n".join(out) + "\n"


def _ranges(numbers: tuple[int, ...]) -> tuple[str, ...]:
    """Name rows by their numbers, those that follow one another together: `5 to 9`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    most = 2  # "3 and 4" needs no range
    return tuple(
        words
        for run in runs
        for words in (map(str, run) if len(run) <= most else (f"{run[0]} to {run[-1]}",))
    )


def _parts(found: Found, pressed: Pressed, index: int) -> Iterator[tuple[str, Iterator[str]]]:
    place = found.course.place
    text = pressed.manuscript.text[place.start : place.end]
    yield "As written", iter((" ".join(text.split()),))
    if pressed.proof.sizes[index] in found.course.absent:
        yield "In this size", _absent(found, pressed, index)
        return
    yield "In plain words", _plain_words(found, pressed, index)
    yield "What it does", _does(found, pressed, index)
    yield "Why the count is what it is", _count(found, pressed, index)
    yield "How it was read", _reading(found, pressed)
    yield "Where the numbers come from", _numbers(found, pressed, index)
    yield "How the stitches are made", _stitches(found, pressed)
    yield "What is wrong here", _wrong(found, pressed)


def _absent(found: Found, pressed: Pressed, index: int) -> Iterator[str]:
    """Say for which sizes a line is that is not worked in this one."""
    others = tuple(name for name in pressed.proof.sizes if name not in found.course.absent)
    noun = "size" if len(others) == 1 else "sizes"
    only = f": it is for {noun} {listed(others)} only" if others else ""
    yield f"It is not worked in size {pressed.proof.sizes[index]}{only}. Go on with the next line."


def _one_size(pressed: Pressed, index: int) -> Resolved:
    resolved = pressed.sizing.resolved
    return replace(resolved, chosen=(resolved.chosen[index],))


def _wording(pressed: Pressed, index: int) -> Wording:
    return replace(
        wording_of(pressed.manuscript),
        resolved=_one_size(pressed, index),
        spelled={one.spelling: one for one in pressed.manuscript.numbers},
        lengths=frozenset(one.name for one in pressed.sizing.measures),
    )


def _plain_words(found: Found, pressed: Pressed, index: int) -> Iterator[str]:
    wording = _wording(pressed, index)
    course = settled_course(pressed.manuscript, found.course)
    row = found.row
    if row is not None and row.ring and not isinstance(course.does, RepeatRows):
        course = replace(course, label=replace(course.label, round=True))
    words, unsaid = write_aloud(course, wording)
    if any(one.finding == WordsKept("") or isinstance(one.finding, NoWordsFor) for one in unsaid):
        yield "This cannot be said exactly in other words; go by the words as written."
        return
    several = isinstance(course.does, RepeatRows) and not _is_last(found, pressed)
    yield words.replace(". You have ", ". At the end you have ") if several else words
    if isinstance(course.does, RepeatRows) and row is not None:
        full = replace(wording, full=True, aloud=True)
        words, _ = write_steps(row.steps, full, rounds=course.label.round or row.ring)
        yield f"This {'round' if course.label.round else 'row'} is: {words}"


def _steps(found: Found) -> Steps:
    if found.row is not None:
        return found.row.steps
    does = found.course.course.does
    return does.extra if isinstance(does, RepeatRows) else does


def _does(found: Found, pressed: Pressed, index: int) -> Iterator[str]:
    row = found.row
    if row is None or not makes_stitches(row.steps):
        size = _one_size(pressed, index)
        told = () if row else tuple(schedule_lines(pressed.proof.courses, found.line, size, index))
        yield from told
        if not told and row is None and makes_stitches(_steps(found)):
            yield _untold(found, pressed)
        return
    if row.side:
        facing = {"RS": "right", "WS": "wrong"}.get(row.side, row.side)
        yield f"The {facing} side faces you."
    yield from told_lines(row, pressed.manuscript.terms)
    yield from _loops(row.steps, pressed.manuscript.terms)


def _untold(found: Found, pressed: Pressed) -> str:
    """Say why a row is not told stitch by stitch."""
    if not any(True for _ in _wrong(found, pressed)):
        return "Each stitch goes on as the pattern stands below it; they are not told one by one."
    return "It could not be worked here; see what is wrong."


_LOOPS: Final = MappingProxyType(
    {
        Loop.BACK: "the back loop only",
        Loop.FRONT: "the front loop only",
        Loop.THIRD: "the third loop, behind the two at the top",
    }
)


def _loops(steps: Steps, terms: Terms) -> Iterator[str]:
    """Say which stitches go into one loop of the stitch below."""
    kinds: dict[Loop, dict[str, None]] = {}
    for node in nodes(steps):
        if isinstance(node, Stitch) and node.kind not in {"ch", "sl_st"}:
            kinds.setdefault(node.loop, {})[name_in(node.name, terms)] = None
    for loop, names in kinds.items():
        if loop is not Loop.BOTH:
            which = "All stitches go" if len(kinds) == 1 else f"{listed(tuple(names))}: this goes"
            yield f"{which} into {_LOOPS[loop]}."


def _count(found: Found, pressed: Pressed, index: int) -> Iterator[str]:
    course, row = found.course, found.row
    if row is not None and makes_stitches(row.steps) and (row.into or not _is_foundation(row)):
        yield from count_lines(row)
    for one in course.counts:
        worked = one.worked[index] if index < len(one.worked) else None
        stated = one.stated[index] if one.stated is not None and index < len(one.stated) else None
        if worked is not None and stated is not None and _is_last(found, pressed):
            agrees = "the same" if worked == stated else "not the same"
            unit = _unit(one.kind, stated, pressed.manuscript.terms)
            yield f"The pattern says {stated} {unit}; worked, there are {worked}: {agrees}."


def _unit(kind: str, number: int, terms: Terms) -> str:
    """Name what is counted, one of it or many: `ch-5 sps`, `sts`, `dc`."""
    named = stitches.named(kind, terms)
    if named is not None and not stitches.stitches()[named.kind].group:
        return stitches.abbreviation(named.kind, named.post, named.together, terms)
    kind = f"V{kind[1:]}" if kind[:2] == "v-" else kind  # V-st
    return kind if number == 1 or kind.endswith("s") else f"{kind}s"


def _is_last(found: Found, pressed: Pressed) -> bool:
    """Tell whether the row is the one that its line states the count of: the last."""
    row = found.row
    if row is None or row.number is None:
        return True
    last = found.course.course.label.last
    if last is None:
        return True
    values = pressed.sizing.resolved.of(last)
    return values is None or row.number in values


def _is_foundation(row: ToldRow) -> bool:
    return set(row.roles) <= {"F"}


def _reading(found: Found, pressed: Pressed) -> Iterator[str]:
    course = found.course
    for doubt, name in course.taken:
        if doubt in course.open:
            yield f"{doubt.why}; taken as {name}, the usual way: nothing decides."
        else:
            yield f"{doubt.why}; taken as {name}: that is what comes out even."
    row = found.row
    if row is None or not row.into or row.roles[:1] not in {"K", "T"}:
        return
    chains = [node for node in nodes(_steps(found)) if isinstance(node, Chain)]
    if "F" in row.into_roles and _is_hooked(row.steps):
        said = any(one.counts is not None and one.count == NONE for one in chains)
        verb = "count as a stitch" if row.roles[0] == "K" else "do not count as a stitch"
        why = "the row says so" if said else "that is where the first stitch goes"
        yield f"The chains left at the hook {verb}: {why}."
    elif chains:
        yield from _turning(chains[0], row.roles[0], found, pressed)


def _is_hooked(steps: Steps) -> bool:
    """Tell whether the first stitch goes into a chain counted from the hook."""
    return any(isinstance(node, Nth) and node.origin is Origin.HOOK for node in nodes(steps))


def _turning(chain: Chain, role: str, found: Found, pressed: Pressed) -> Iterator[str]:
    """Say whether the chain at the beginning counts, and who says so."""
    values = pressed.sizing.resolved.of(chain.count)
    length = values[0] if values else None
    if not isinstance(length, int) or found.row is None:
        return
    counts = "counts as a stitch" if role == "K" else "does not count as a stitch"
    if chain.counts is not None:
        why = "the row says so"
    elif found.row.conventions.said(length) is not None:
        why = "the pattern says so once for its rows"
    else:
        decided = [one for one in pressed.proof.assumed if one.switch[1] == length]
        by_count = any(one.by_count for one in decided)
        why = "the stated counts only come out so" if by_count else "that is common practice"
    yield f"The ch-{length} at the beginning {counts}: {why}."


def _numbers(found: Found, pressed: Pressed, index: int) -> Iterator[str]:
    course = found.course.course
    held = (course.label, course.does, course.stated)
    chosen = pressed.sizing.resolved.chosen[index]
    yield from origin_lines(numbers_in(held), pressed.sizing, chosen)


def _stitches(found: Found, pressed: Pressed) -> Iterator[str]:
    """Say how each stitch is made that is more than the plainest, and how the author makes it."""
    terms = pressed.manuscript.terms
    own = {one.stitch.name: one for one in pressed.manuscript.specials if one.stitch is not None}
    own |= {one.name: one for one in pressed.manuscript.specials}
    for name in dict.fromkeys(
        node.name for node in nodes(_steps(found)) if isinstance(node, Stitch)
    ):
        if name in _PLAIN:
            continue
        if name in own:
            words = " ".join(own[name].words.split())
            yield words if words.startswith(own[name].written) else f"{own[name].written}: {words}"
            continue
        named = stitches.named(name.replace("_", " "), "US")
        if named is None:
            continue
        told = stitches.definition(named.kind, named.post, named.together, terms)
        yield f"{name_in(name, terms)}: {told}"


def _wrong(found: Found, pressed: Pressed) -> Iterator[str]:
    place = found.course.place
    for one in pressed.found:
        inside = place.start <= one.place.start < place.end
        if inside and one.accepted is None and one.finding.code.level is not Level.NOTE:
            yield f"{shortened(one.finding.message())}."
