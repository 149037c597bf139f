"""Shaping over many rows: `Dec 1 st at each end of every 4th row 3 (3, 4) times, then every row`.

Such a line says how many stitches go, at which ends, on which rows and how often, and leaves how a
row is worked to the fabric as it is. It is read clause by clause; what stands around the schedule
("keeping patt correct", "then work even until piece measures 30 cm") changes no count and becomes
a remark. A schedule whose end is not told ("every 6th row until piece measures 40 cm") stays
unread without a finding: it was understood, and nobody can count it.
"""

from enum import Enum
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_manner import spoken
from stitchproof.language.read.row_names import ROWS, Cursor, Tokens
from stitchproof.language.read.row_repeats import ReadSteps
from stitchproof.language.read.row_schedules import (
    Phase,
)
from stitchproof.language.read.shaping_schedule import (
    AND,
    BETWEEN,
    GOING_ON,
    Schedule,
    changes_here,
    read_changing,
    read_schedule,
)
from stitchproof.language.read.shaping_sums import last_so_often, phases_of
from stitchproof.language.read.stepping import read_steps_at_ends
from stitchproof.language.tree import Either, Remark, Shape, Step, Steps, Unread

_MEANWHILE: Final = word_set("while whilst meanwhile")
_FURTHEST: Final = 40  # tokens before the schedule that are looked at
_WHY: Final = "`next and every 4th row 3 times` may count the next row or not"
_NAMES: Final = ("more times after the first", "times in all")
_WHY_BESIDE: Final = "two schedules in one line may run side by side or one after the other"
_NAMES_BESIDE: Final = ("side by side", "one after the other")


class _Link(Enum):
    """How a schedule hangs on the one before it."""

    STOP = ","
    AND = "and"
    THEN = "then"
    MEANWHILE = "at the same time"


def read_shaping(
    tokens: Tokens, read_steps: ReadSteps, *, several: bool = False, begins: int = 0
) -> tuple[Steps, list[Diagnostic]] | None:
    """Read a line that shapes over several rows.

    Parameters
    ----------
    tokens : tuple of Token
        The instruction without its label and its stated count.
    read_steps : ReadSteps
        Reads what is done besides ("fasten off").
    several : bool
        Whether the label covers several rows: a schedule goes over all of them, and what is done
        once is done on each.
    begins : int
        Number of the first of these rows, where the line names rows by their numbers; else 0.

    Returns
    -------
    (tuple of Step, findings) or None
        None: the line gives steps of its own.
    """
    stepped = read_steps_at_ends(tokens)
    if stepped is not None and not several:
        return (stepped,), []
    start = _first_change(tokens, begins)
    if start is None:
        return None
    cursor = Cursor(tokens, start, begins)
    steps: list[Step] = [*_remark(tokens, 0, start)]
    found: list[Diagnostic] = []
    before: Schedule | None = None
    while cursor.at < len(tokens):
        link = _link(cursor)
        begin = cursor.at
        if begin >= len(tokens):
            break
        changes = changes_here(cursor)
        read = _shape(cursor, link, before, each_row=several) if changes else None
        if read is not None:
            made, before = read
            if _spelled_out(cursor, made):
                return None
            steps += made
            continue
        cursor.at = _clause_end(tokens, begin)
        clause = tokens[begin : cursor.at]
        if begin == start or not _changes_nothing(clause):
            return None
        if clause[0].text in _DONE:
            done, more = read_steps(clause)
            steps += done
            found += more
        else:
            steps += _remark(tokens, begin, cursor.at)
    return tuple(steps), found


def _spelled_out(cursor: Cursor, made: Steps) -> bool:
    """Whether the stitches of one shaping row stand behind it: `Dec 1 st each end: sc2tog, ...`."""
    one_row = all(isinstance(step, Shape) and step.phases == _ONE_ROW for step in made)
    return one_row and cursor.text() in {":", "(", "["} and cursor.at + 1 < len(cursor.tokens)


_ONE_ROW: Final = ((ONE, ONE),)


def _link(cursor: Cursor) -> _Link:
    """Go past what stands between two schedules: `, then`, `; and`, `. AT THE SAME TIME,`."""
    start = cursor.at
    cursor.take_any(BETWEEN)
    words = {token.text for token in cursor.tokens[start : cursor.at]}
    here = cursor.at
    together = cursor.take("at", "the", "same", "time") or cursor.take("at", "same", "time")
    if together or cursor.take_any(_MEANWHILE):
        cursor.take_any(BETWEEN)
        if changes_here(cursor):
            return _Link.MEANWHILE
        cursor.at = here
    if "then" in words:
        return _Link.THEN
    return _Link.AND if words & AND else _Link.STOP


def _first_change(tokens: Tokens, begins_at: int) -> int | None:
    """Find the `dec 1 st at each end` of a line."""
    for i in range(min(len(tokens), _FURTHEST)):
        begins = i == 0 or tokens[i - 1].text in BETWEEN | {"time"} or _goes_on(tokens, i)
        found = read_changing(Cursor(tokens, i, begins_at)) if begins else None
        if found is not None and found.told:
            titled = tokens[0].text in _TITLES
            known = i == 0 or found.ends or titled or _changes_nothing(tokens[:i])
            return i if known else None
    return None


def _goes_on(tokens: Tokens, i: int) -> bool:
    """Tell whether `continue to`, `keep`, `Shape sides by` stands before a change."""
    at = i - 2 if tokens[i - 1].text == "to" else i - 1
    if tokens[i - 1].text == "by" and tokens[0].text in _TITLES:
        return i <= _LONGEST_TITLE
    return at == 0 and tokens[at].text in {"cont", "continue", "keep"}


_TITLES: Final = frozenset(("shape", "shaping"))
_LONGEST_TITLE: Final = 6  # tokens of `Shape sides by`


def _shape(
    cursor: Cursor, link: _Link, before: Schedule | None, *, each_row: bool = False
) -> tuple[Steps, Schedule] | None:
    """Read one verb and all that hangs on it; tell which schedule it ends with.

    Where a label covers several rows and `each_row` does it, `every rnd` is once on each of them.
    """
    start = cursor.at
    found = read_changing(cursor)
    if found is None or not found.told:
        return None
    change = found.change
    if found.endless and found.until is None and not each_row:
        _over_rows(found, cursor.tokens[:start])
    if found.rows is not None:
        found.phases = last_so_often(found.phases, found.rows)
    if each_row and found.phases == [Phase(ONE)] and found.until is None:
        found.phases = [Phase(ONE, ONE)]
    steps = _made(cursor, found, start, _beside(link, before, found), each_row=each_row)
    while True:  # `and 1 st at armhole edge every row twice`
        back = cursor.at
        link = _link(cursor)
        begin = cursor.at
        again = read_schedule(cursor, change, found.each) if cursor.at > back else None
        if again is not None and again.rows is not None:
            again.phases = last_so_often(again.phases, again.rows, found.phases)
        if again is None or not again.ends or again.endless:
            cursor.at = back
            return steps, found
        steps += _made(cursor, again, begin, _beside(link, found, again))
        found = again


def _over_rows(found: Schedule, lead: Tokens) -> None:
    """Let a schedule go over `Work a further 4 rows,` before it, where that says how many."""
    cursor = Cursor(lead)
    cursor.take_any(_WORK)
    number = cursor.number()
    cursor.at += 1
    cursor.take("more")
    if number is not None and cursor.take_any(ROWS) and found.phases[:-1] == []:
        every = found.phases[-1] if found.phases else None
        if every is not None and every.every == ONE and every.first is None:
            found.phases = [Phase(ONE, number)]


_WORK: Final = word_set("work working cont continue a another further for next the")


def _beside(link: _Link, before: Schedule | None, found: Schedule) -> bool | None:
    """Tell whether a schedule runs beside the one before it; None where nobody says."""
    if before is None or link is _Link.THEN:
        return False
    if link is _Link.MEANWHILE:
        return True
    if (before.at, before.ends) == (found.at, found.ends):
        return False  # at the same end one comes after the other
    return True if link is _Link.AND else None


def _made(
    cursor: Cursor,
    found: Schedule,
    start: int,
    beside: bool | None,  # noqa: FBT001 - not a switch: what was found out
    *,
    each_row: bool = False,
) -> Steps:
    words = cursor.tokens[start : cursor.at]
    place = words[0].place.to(words[-1].place)
    as_long_as_the_rows = each_row and bool(found.phases)
    if found.endless and found.until is None and not as_long_as_the_rows:
        return (Unread(spoken(words), place),)
    shape = Shape(
        found.change,
        found.each,
        phases_of(found.phases, more=True),
        found.until,
        found.at,
        max(found.ends, 1),
        bool(beside),
        place=place,
    )
    doubtful = any(p.first is not None and p.times and not p.told for p in found.phases)
    if doubtful and found.until is None:
        other = replace(shape, phases=phases_of(found.phases, more=False))
        return (Either(((shape,), (other,)), _WHY, _NAMES, place),)
    if beside is None:
        aside = replace(shape, beside=True)
        return (Either(((aside,), (shape,)), _WHY_BESIDE, _NAMES_BESIDE, place),)
    return (shape,)


# --------------------------------------------------------------------------- around it

_QUIET: Final = GOING_ON | word_set(
    "ch chain turn sc dc hdc tr rep repeat in to from with across even and fasten rs ws keep"
    " maintain for incorporate bring take note rows rnds row place make then also"
)


def _changes_nothing(clause: Tokens) -> bool:
    """Whether words beside a schedule leave the count alone, whatever else they say."""
    words = {token.text for token in clause}
    others = {"other", "even"} <= words or {"other", "plain"} <= words  # `All other rows even.`
    quiet = not clause or clause[0].text in _QUIET or (others and words <= _OTHERS_EVEN)
    return quiet and not words & _COUNTED


_OTHERS_EVEN: Final = word_set("all the other rows rnds rounds row even plain are is work in .")
_DONE: Final = word_set("fasten turn cut place")
_COUNTED: Final = word_set("dec inc decrease increase decreasing increasing sk skip join rejoin")


def _clause_end(tokens: Tokens, at: int) -> int:
    while at < len(tokens) and tokens[at].text not in {";", "."}:
        if tokens[at].text == "," and tokens[at - 1].kind is not TokenKind.MARK:
            return at
        at += 1
    return at


def _remark(tokens: Tokens, start: int, end: int) -> Steps:
    kept = tokens[start:end]
    while kept and kept[-1].text in BETWEEN:
        kept = kept[:-1]
    if not kept:
        return ()
    return (Remark(spoken(kept), kept[0].place.to(kept[-1].place)),)
