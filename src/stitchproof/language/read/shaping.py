"""Shaping over many rows: `Dec 1 st at each end of every 4th row 3 (3, 4) times, then every row`.

Such a line says how many stitches go, at which ends, on which rows and how often, and leaves how a
row is worked to the fabric as it is. It is read clause by clause; what stands around the schedule
("keeping patt correct", "then work even until piece measures 30 cm") changes no count and becomes
a remark. A schedule whose end is not told ("every 6th row until piece measures 40 cm") stays
unread without a finding: it was understood, and nobody can count it.
"""

from dataclasses import field
from enum import Enum
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_manner import spoken
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor, Tokens
from stitchproof.language.read.row_repeats import ReadSteps
from stitchproof.language.read.row_schedules import (
    Phase,
    past_as_before,
    read_phase,
    read_rows_by_number,
    read_rows_of_these,
    read_times,
)
from stitchproof.language.read.shaping_ends import UNITS, count_ends, end_words
from stitchproof.language.read.shaping_sums import last_so_often, phases_of, with_rows
from stitchproof.language.read.shaping_until import count_at_end, rows_in_all
from stitchproof.language.read.stepping import read_steps_at_ends
from stitchproof.language.tree import Either, Remark, Shape, Step, Steps, Unread

_CHANGES: Final = {
    **dict.fromkeys(("dec", "decrease", "decreasing", "decreases", "decr"), "decreased"),
    **dict.fromkeys(("inc", "increase", "increasing", "increases", "incr"), "increased"),
}
_AND: Final = word_set("and & plus also")
_BETWEEN: Final = STOPS | _AND | {"then"}
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


@dataclass(slots=True)
class _Schedule:
    """A schedule in the making."""

    change: str
    each: Number
    ends: int = 0
    at: str = ""
    phases: list[Phase] = field(default_factory=list)
    until: Number | None = None
    rows: Number | None = None  # how many rows are shaped in all

    @property
    def told(self) -> bool:
        """Whether anything makes a schedule of it, rather than one decrease."""
        return bool(self.ends or self.phases or self.until)

    @property
    def endless(self) -> bool:
        """Whether nobody says how often the last phase is done."""
        return not self.phases or self.phases[-1].times is None


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
    before: _Schedule | None = None
    while cursor.at < len(tokens):
        link = _link(cursor)
        begin = cursor.at
        if begin >= len(tokens):
            break
        changes = cursor.text() in _CHANGES
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
    cursor.take_any(_BETWEEN)
    words = {token.text for token in cursor.tokens[start : cursor.at]}
    here = cursor.at
    together = cursor.take("at", "the", "same", "time") or cursor.take("at", "same", "time")
    if together or cursor.take_any(_MEANWHILE):
        cursor.take_any(_BETWEEN)
        if cursor.text() in _CHANGES:
            return _Link.MEANWHILE
        cursor.at = here
    if "then" in words:
        return _Link.THEN
    return _Link.AND if words & _AND else _Link.STOP


def _first_change(tokens: Tokens, begins_at: int) -> int | None:
    """Find the `dec 1 st at each end` of a line."""
    for i in range(min(len(tokens), _FURTHEST)):
        begins = i == 0 or tokens[i - 1].text in _BETWEEN | {"time"} or _goes_on(tokens, i)
        if not begins or tokens[i].text not in _CHANGES:
            continue
        found = _schedule(Cursor(tokens, i + 1, begins_at), _CHANGES[tokens[i].text])
        if found is not None and found.told:
            return i if i == 0 or found.ends or _changes_nothing(tokens[:i]) else None
    return None


def _goes_on(tokens: Tokens, i: int) -> bool:
    """Tell whether `continue to`, `keep` stands before a change."""
    at = i - 2 if tokens[i - 1].text == "to" else i - 1
    return at == 0 and tokens[at].text in {"cont", "continue", "keep"}


def _shape(
    cursor: Cursor, link: _Link, before: _Schedule | None, *, each_row: bool = False
) -> tuple[Steps, _Schedule] | None:
    """Read one verb and all that hangs on it; tell which schedule it ends with.

    Where a label covers several rows and `each_row` does it, `every rnd` is once on each of them.
    """
    change = _CHANGES[cursor.text()]
    cursor.at += 1
    start = cursor.at
    found = _schedule(cursor, change)
    if found is None or not found.told:
        return None
    if found.rows is not None:
        found.phases = last_so_often(found.phases, found.rows)
    if each_row and found.phases == [Phase(ONE)] and found.until is None:
        found.phases = [Phase(ONE, ONE)]
    steps = _made(cursor, found, start - 1, _beside(link, before, found), each_row=each_row)
    while True:  # `and 1 st at armhole edge every row twice`
        back = cursor.at
        link = _link(cursor)
        begin = cursor.at
        again = _schedule(cursor, change, found.each) if cursor.at > back else None
        if again is not None and again.rows is not None:
            again.phases = last_so_often(again.phases, again.rows, found.phases)
        if again is None or not again.ends or again.endless:
            cursor.at = back
            return steps, found
        steps += _made(cursor, again, begin, _beside(link, found, again))
        found = again


def _beside(link: _Link, before: _Schedule | None, found: _Schedule) -> bool | None:
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
    found: _Schedule,
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


# --------------------------------------------------------------------------- one schedule


def _schedule(cursor: Cursor, change: str, each: Number | None = None) -> _Schedule | None:
    """Read `1 st at each end of every 4th row 3 times, then every row twice`.

    `each` is what a schedule before it changed a row, where this one may leave it out.
    """
    found = _amount(cursor, change, each)
    if found is None:
        return None
    before = -1
    while cursor.at > before or _another_phase(cursor, found):
        before = cursor.at
        if not found.phases or not found.ends:
            found.at = found.at or end_words(cursor)
            found.ends += count_ends(cursor)
        _past_a_remark(cursor)
        past_as_before(cursor)
        _phases(cursor, found)
        found.until = count_at_end(cursor) or found.until
        found.rows = rows_in_all(cursor) or found.rows
    if not found.phases and found.until is None and found.ends:
        found.phases.append(Phase(ONE, read_times(cursor) or ONE))
    past_as_before(cursor)
    return None if _trails(cursor) else found


def _phases(cursor: Cursor, found: _Schedule) -> None:
    """Read `every 4th row 3 times`, `on Rows 8 and 12`, `every alt row (Rows 47, 49 and 51)`."""
    named = read_rows_by_number(cursor) or read_rows_of_these(cursor)
    if named:
        found.phases = with_rows(found.phases, named)
    else:
        phase = read_phase(cursor)
        found.phases += [phase] if phase is not None else []


def _past_a_remark(cursor: Cursor) -> None:
    """Go past `(beg of RS rows)`, which says again what is said."""
    if cursor.text() != "(":
        return
    if cursor.take("(", "counting", "from") and cursor.take_any(ROWS):
        cursor.at += cursor.number() is not None  # from the row before: so the rows are counted
        cursor.take(")")
        return
    for ahead in range(1, 9):
        if cursor.text(ahead) == ")":
            cursor.at += ahead + 1
            return
        token = cursor.tokens[cursor.at + ahead : cursor.at + ahead + 1]
        if not token or token[0].number is not None:
            return


def _amount(cursor: Cursor, change: str, each: Number | None) -> _Schedule | None:
    """Read `1 st`, `5 x 1 st`."""
    number = cursor.number()
    if number is None:
        return _Schedule(change, each) if each is not None else None
    cursor.at += 1
    times: Number | None = None
    if cursor.take("x"):
        times, number = number, cursor.number()
        cursor.at += 1
    if number is None or not cursor.take_any(UNITS):
        return None
    found = _Schedule(change, number)
    if times is not None:
        found.ends = count_ends(cursor)
        phase = read_phase(cursor)
        found.phases.append(replace(phase or Phase(ONE), times=times))
    return found


def _another_phase(cursor: Cursor, found: _Schedule) -> bool:
    """Go past `, then` where another phase follows."""
    start = cursor.at
    if not found.phases or not cursor.take_any(_BETWEEN - {".", ";", ":"}):
        return False
    ahead = Cursor(cursor.tokens, cursor.at, cursor.begins)
    if read_rows_by_number(ahead) or read_rows_of_these(ahead) or read_phase(ahead) is not None:
        return True
    cursor.at = start
    return False


def _trails(cursor: Cursor) -> bool:
    """Whether words that nobody knows hang on the schedule."""
    word = cursor.text()
    if not word or word in _BETWEEN or word in _GOING_ON:
        return False
    return not (word == "in" and cursor.text(1) in _GOING_ON)


# --------------------------------------------------------------------------- around it

_GOING_ON: Final = word_set(
    "until till while keeping maintaining working taking as work cont continue ending end at beg"
    " beginning starting patt pattern same using by when evenly incorporating bringing"
)
_QUIET: Final = _GOING_ON | word_set(
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
    while kept and kept[-1].text in _BETWEEN:
        kept = kept[:-1]
    if not kept:
        return ()
    return (Remark(spoken(kept), kept[0].place.to(kept[-1].place)),)
