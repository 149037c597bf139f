"""One schedule of shaping: `1 st at each end of every 4th row 3 times, then every row twice`."""

from dataclasses import field
from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor
from stitchproof.language.read.row_schedules import (
    Phase,
    past_as_before,
    read_phase,
    read_rows_by_number,
    read_rows_of_these,
    read_times,
)
from stitchproof.language.read.shaping_ends import UNITS, count_ends, end_words
from stitchproof.language.read.shaping_sums import with_rows
from stitchproof.language.read.shaping_until import count_at_end, rows_in_all

AND: Final = word_set("and & plus also")
BETWEEN: Final = STOPS | AND | {"then"}
GOING_ON: Final = word_set(
    "until till while keeping maintaining working taking as work cont continue ending end at beg"
    " beginning starting patt pattern same using by when evenly incorporating bringing"
)


@dataclass(slots=True)
class Schedule:
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


_CHANGES: Final = {
    **dict.fromkeys(("dec", "decrease", "decreasing", "decreases", "decr"), "decreased"),
    **dict.fromkeys(("inc", "increase", "increasing", "increases", "incr"), "increased"),
}
_WORK: Final = frozenset(("work", "working"))
_TOGETHER: Final = 4  # tokens of `working dc2tog`


def changes_here(cursor: Cursor) -> bool:
    """Tell whether `dec`, `increasing`, `working dc2tog` stands here."""
    return cursor.text() in _CHANGES or _drawn_together(cursor) > 0


def read_changing(cursor: Cursor) -> Schedule | None:
    """Read a verb and its schedule: `dec 1 st at neck edge`, `working dc2tog at each end`."""
    together = _drawn_together(cursor)
    if not together:
        change = _CHANGES.get(cursor.text())
        cursor.at += 1
        return None if change is None else read_schedule(cursor, change)
    start = cursor.at
    cursor.at += _TOGETHER
    ends = _over_ends(cursor)
    found = read_schedule(cursor, "decreased", plain(together - 1))
    if found is None:
        return None
    if ends:
        found.ends, found.at = ends, found.at or ("" if ends > 1 else _end_of(cursor))
    rows = any(token.text in ROWS for token in cursor.tokens[start : cursor.at])
    return found if rows and found.phases and found.ends else None


def _drawn_together(cursor: Cursor) -> int:
    """Count the stitches that `working dc2tog` draws together; 0 where it stands not there."""
    number = Cursor(cursor.tokens, cursor.at + 2).number()
    named = cursor.text() in _WORK and cursor.text(1) in UNITS and cursor.text(3) == "tog"
    match number.value if named and number is not None else None:
        case (int(together),) if together > 1:
            return together
        case _:
            return 0


def _over_ends(cursor: Cursor) -> int:
    """Go past `over last 2 sts of`, `over first and last 2 sts of`: how many ends those are."""
    start = cursor.at
    cursor.take_any(word_set("over in across"))
    cursor.take("the")
    ends = 0
    while cursor.at > start and cursor.text() in {"first", "last", "and"}:
        ends += cursor.text() != "and"
        cursor.at += 1
        if cursor.number() is not None and cursor.text(1) == "and":
            cursor.at += 1
    cursor.at += ends > 0 and cursor.number() is not None
    if not ends or not cursor.take_any(UNITS):
        cursor.at = start
        return 0
    cursor.take("of")
    return ends


def _end_of(cursor: Cursor) -> str:
    """Say which end the words before name."""
    words = [token.text for token in cursor.tokens[: cursor.at]]
    return "beg" if "first" in words else "end"


def read_schedule(cursor: Cursor, change: str, each: Number | None = None) -> Schedule | None:
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
        _past_how(cursor)
        found.until = count_at_end(cursor) or found.until
        found.rows = rows_in_all(cursor) or found.rows
    if not found.phases and found.until is None and found.ends:
        found.phases.append(Phase(ONE, read_times(cursor) or ONE))
    past_as_before(cursor)
    if found.endless and found.until is None:
        found.until = _until_behind(cursor)
    return None if _trails(cursor) else found


def _until_behind(cursor: Cursor) -> Number | None:
    """Read `. Continue in this way until 12 sts rem` behind a schedule without an end."""
    start = cursor.at
    if cursor.take_any(STOPS) and cursor.take_any(_GO_ON):
        cursor.take_any(frozenset(("to", "work", "working", "dec", "inc", "decreasing")))
        past_as_before(cursor)
        until = count_at_end(cursor)
        if until is not None:
            return until
    cursor.at = start
    return None


_GO_ON: Final = frozenset(("cont", "continue", "continuing"))


def _past_how(cursor: Cursor) -> None:
    """Go past `(by working htr2tog)`, which says how it is done."""
    if cursor.text() != "(" or cursor.text(1) not in {"by", "as"}:
        return
    for ahead in range(2, _FAR):
        if cursor.text(ahead) == ")":
            cursor.at += ahead + 1
            return


_FAR: Final = 16  # tokens of such a bracket


def _phases(cursor: Cursor, found: Schedule) -> None:
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


def _amount(cursor: Cursor, change: str, each: Number | None) -> Schedule | None:
    """Read `1 st`, `5 x 1 st`."""
    number = cursor.number()
    if number is None and each is None:
        here = cursor.at
        past_as_before(cursor)
        if cursor.at > here and count_ends(Cursor(cursor.tokens, cursor.at)):
            return Schedule(change, ONE)  # "inc in this way at each end of"
    if number is None:
        return Schedule(change, each) if each is not None else None
    cursor.at += 1
    times: Number | None = None
    if cursor.take("x"):
        times, number = number, cursor.number()
        cursor.at += 1
    if number is None or not cursor.take_any(UNITS):
        return None
    _past_how(cursor)
    found = Schedule(change, number)
    if times is not None:
        found.ends = count_ends(cursor)
        phase = read_phase(cursor)
        found.phases.append(replace(phase or Phase(ONE), times=times))
    return found


def _another_phase(cursor: Cursor, found: Schedule) -> bool:
    """Go past `, then` where another phase follows."""
    start = cursor.at
    if not found.phases or not cursor.take_any(BETWEEN - {".", ";", ":"}):
        return False
    ahead = Cursor(cursor.tokens, cursor.at, cursor.begins)
    if read_rows_by_number(ahead) or read_rows_of_these(ahead) or read_phase(ahead) is not None:
        return True
    cursor.at = start
    return False


def _trails(cursor: Cursor) -> bool:
    """Whether words that nobody knows hang on the schedule."""
    word = cursor.text()
    if not word or word in BETWEEN or word in GOING_ON:
        return False
    return not (word == "in" and cursor.text(1) in GOING_ON)
