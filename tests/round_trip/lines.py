"""Lines of every form the reader knows, for the round trip: label, steps or rows again, counts."""

from dataclasses import replace
from typing import Any

from hypothesis import strategies as st

from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.read.statements import of_the_row
from stitchproof.language.tree import (
    CHAIN,
    SPACE,
    STITCH,
    Chain,
    Colour,
    Course,
    Evenly,
    FastenOff,
    JoinYarn,
    Label,
    Make,
    Mark,
    Next,
    Noun,
    Remark,
    RepeatRows,
    Shape,
    Skip,
    Stated,
    Statement,
    Steps,
    Stitch,
    Thing,
    Times,
    Turn,
)
from stitchproof.language.walk import nodes
from tests.round_trip.places import COUNTS, FEW, FORMULAS, LENGTHS, NOT_IN_ONE, lists
from tests.round_trip.strategies import RING_OF_CHAINS, SHAPES, SHORT, STEPS

# --------------------------------------------------------------------------- labels

ROW = st.integers(2, 90).map(plain)
SIDES = st.sampled_from(("", "RS", "WS"))


def _one(number: Number, side: str, *, rnd: bool) -> Label:
    noun = "Rnd" if rnd else "Row"
    return Label(f"{noun} {number.spelling}", number, number, round=rnd, side=side)


NUMBERED = st.deferred(
    lambda: st.one_of(
        st.builds(lambda number, side: _one(number, side, rnd=False), ROW, SIDES),
        st.builds(lambda number: _one(number, "", rnd=True), ROW),
        st.builds(
            lambda number, rnd: _one(number, "", rnd=rnd),
            st.one_of(st.just(ONE), FORMULAS, lists(2, 90), NOT_IN_ONE),
            st.booleans(),
        ),
        st.builds(
            lambda number: Label(f"{number.spelling}th row", number, number),
            st.integers(4, 9).map(plain),
        ),
        st.builds(lambda side: Label("Next row", span=ONE, side=side), SIDES),
        st.just(Label("Foundation Row", span=ONE)),
        st.just(Label("Dec Row", span=ONE)),
    )
)
MANY = st.deferred(
    lambda: st.one_of(
        st.builds(
            lambda number, more: Label(
                f"Rows {number}-{number + more}", plain(number), plain(number + more)
            ),
            st.integers(2, 40),
            st.integers(1, 9),
        ),
        st.builds(
            lambda number, to: Label(f"Rows {number}-{to.spelling}", plain(number), to),
            st.integers(2, 9),
            lists(10, 90),
        ),
        st.builds(
            lambda number: Label(
                f"Rows {number}, {number + 2} and {number + 4}",
                plain(number),
                plain(number + 4),
                (plain(number), plain(number + 2), plain(number + 4)),
            ),
            st.integers(2, 9),
        ),
        st.builds(
            lambda number: Label(f"Next {number.spelling} Rows", span=number),
            st.one_of(FEW, lists(2, 20), NOT_IN_ONE),
        ),
    )
)

# --------------------------------------------------------------------------- counts

UNITS = st.one_of(
    st.sampled_from(
        (
            (STITCH, ""),
            (STITCH, "st"),
            (Noun(Thing.KIND, "dc"), "dc"),
            (Noun(Thing.KIND, "sc2tog"), "sc2tog"),
            (Noun(Thing.KIND, "fpdc"), "fpdc"),
            (CHAIN, "ch"),
            (SPACE, "sp"),
            (SPACE, "lp"),
            (Noun(Thing.CHAIN_SPACE), "ch-sp"),
            (Noun(Thing.CHAIN_SPACE, chains=3), "ch-3 sp"),
            (Noun(Thing.GROUP, "shell"), "shell"),
            (Noun(Thing.GROUP, "v-st"), "v-st"),
            (Noun(Thing.GROUP, "knot"), "knot"),
            (Noun(Thing.GROUP, "petal"), "petal"),
            (Noun(Thing.GROUP, "3-dc group"), "3-dc group"),
            (Noun(Thing.GROUP, "corner"), "corner"),
            (Noun(Thing.SPACE, "corner"), "corner sp"),
        )
    )
)
TOTALS = st.builds(
    lambda number, unit: Statement(number, *unit), st.one_of(COUNTS, st.just(ONE)), UNITS
)
CHANGES = st.builds(
    lambda number, change: Statement(number, STITCH, "st", change),
    COUNTS,
    st.sampled_from(("increased", "decreased")),
)
NAMED_TOTALS = TOTALS.filter(lambda one: bool(one.unit))
STATED = st.deferred(
    lambda: st.one_of(
        TOTALS.map(lambda one: Stated((one,))),
        CHANGES.map(lambda one: Stated((one,))),
        st.lists(NAMED_TOTALS, min_size=2, max_size=3, unique_by=lambda one: one.noun)
        .filter(lambda some: of_the_row(tuple(some)) == tuple(some))  # "2 sts" beside 7 V-sts
        .map(lambda some: Stated(tuple(some))),
        st.lists(TOTALS, min_size=2, max_size=3).map(
            lambda some: Stated((some[-1],), tuple((one,) for one in some))
        ),
        st.builds(
            lambda one, out: Stated((one,), excluding=out),
            NAMED_TOTALS,
            st.sampled_from((("sl_st",), ("tch",), ("sl_st", "tch"))),
        ),
        st.builds(
            lambda one, other, part: Stated((one, replace(other, each=part))),
            NAMED_TOTALS,
            NAMED_TOTALS,
            st.sampled_from(("side", "petal")),
        ).filter(lambda stated: of_the_row(stated.statements) == stated.statements),
        st.builds(lambda one: Stated((replace(one, each="side"),)), NAMED_TOTALS),
        st.builds(lambda one: Stated((one,), including=("ch-1 sp",)), NAMED_TOTALS),
    )
)

# --------------------------------------------------------------------------- rows again

NAMED_ROWS = st.one_of(
    st.integers(1, 30).map(lambda n: RepeatRows(first=plain(n), last=plain(n))),
    st.builds(
        lambda n, more: RepeatRows(first=plain(n), last=plain(n + more)),
        st.integers(1, 30),
        st.integers(1, 9),
    ),
    st.integers(1, 9).map(
        lambda n: RepeatRows(
            first=plain(n), last=plain(n + 5), listed=(plain(n), plain(n + 2), plain(n + 5))
        )
    ),
    st.builds(lambda n: RepeatRows(back=n), st.one_of(st.just(ONE), FEW)),
    st.builds(lambda n: RepeatRows(first=n, last=n), st.one_of(FORMULAS, lists(2, 90))),
    st.integers(1, 30).map(lambda n: RepeatRows(first=plain(n), last=plain(n), chainless=True)),
)
PIECES = st.one_of(
    st.builds(
        lambda name, rows: RepeatRows(piece=name, first=plain(rows), last=plain(rows + 4)),
        st.sampled_from(("back", "left front")),
        st.integers(1, 30),
    ),
    st.builds(
        lambda name, rows: RepeatRows(piece=name, first=plain(1), last=rows),
        st.sampled_from(("back", "left front")),
        lists(2, 40),
    ),
    st.just(RepeatRows(piece="back")),
)
HOW_LONG: st.SearchStrategy[dict[str, Any]] = st.one_of(
    st.fixed_dictionaries({}),
    st.builds(
        lambda number, more: {"often": Times(number, more)},
        st.one_of(COUNTS, st.just(ONE)),
        st.booleans(),
    ),
    st.builds(lambda number: {"until_rows": number}, COUNTS),
    st.builds(lambda number: {"until_count": number}, COUNTS),
    st.builds(lambda number: {"until_length": number}, LENGTHS),
    st.just({"until_words": "desired length"}),
    st.builds(
        lambda number, said: {
            "until_length": number,
            "until_words": said.replace("{}", number.spelling),
        },
        LENGTHS,
        st.sampled_from(("armhole measures {}", "piece measures {} from underarm")),
    ),
)
ENDING: st.SearchStrategy[dict[str, Any]] = st.one_of(
    st.fixed_dictionaries({}),
    st.sampled_from(("RS", "WS")).map(lambda side: {"ending": side}),
    st.one_of(ROW, lists(2, 90)).map(lambda number: {"ending_row": number}),
    ROW.map(lambda number: {"then_to": number}),
)
EXTRA = st.sampled_from(
    (
        *((), (), (), (Colour("B"),), (FastenOff(),), (Colour("CC"), FastenOff())),
        (Remark("reversing all shaping"),),
        (FastenOff(do=False), Chain(plain(12))),
        (FastenOff(), Skip(Next(plain(12))), JoinYarn(Next())),
        *((Turn(),), (Turn(do=False),), (JoinYarn(),), (Colour("C"), JoinYarn())),
    )
)


def _again(
    rows: RepeatRows, how_long: dict[str, Any], ending: dict[str, Any], extra: Steps
) -> RepeatRows:
    if "then_to" in ending and ("often" not in how_long or rows.first is None):
        ending = {}  # a turn is begun behind whole ones
    return replace(rows, **how_long, **ending, extra=extra)


EVEN = st.one_of(
    st.just(RepeatRows()),
    st.builds(  # "Rep Rows 2-7 nine times, then Rows 2 and 3 once more"
        lambda first, more, times: RepeatRows(
            first=plain(first),
            last=plain(first + more + 1),
            often=Times(times, more=True),
            then_to=plain(first + more),
        ),
        st.integers(2, 30),
        st.integers(1, 5),
        COUNTS,
    ),
    st.builds(  # "Rep Row 2, increasing 8 sts in each row"
        lambda row, change, many: RepeatRows(
            first=row, last=row, extra=(Shape(change, many, ((ONE, ONE),)),)
        ),
        ROW,
        st.sampled_from(("increased", "decreased")),
        COUNTS,
    ),
    st.builds(
        lambda by, row: RepeatRows(first=row, last=row, back=None if row else ONE, between=by),
        st.sampled_from((1, 2, -1)),
        st.one_of(st.none(), st.integers(1, 30).map(plain)),
    ),
    st.builds(
        lambda by, row: RepeatRows(
            first=row, last=row, back=None if row else ONE, between=by, groups=True
        ),
        st.sampled_from((1, 2)),
        st.one_of(st.none(), st.integers(1, 30).map(plain)),
    ),
    st.builds(  # "Rep Row 7 every 6th row 4 times, then every 4th row twice"
        lambda row, phases: RepeatRows(first=row, last=row, phases=tuple(phases)),
        st.integers(1, 30).map(plain),
        st.lists(st.tuples(st.integers(2, 8).map(plain), COUNTS), min_size=1, max_size=2),
    ),
    st.builds(  # "[Row 7, work 3 rows even] 4 times"
        lambda row, every, times: RepeatRows(
            first=row, last=row, phases=((every, times),), leading=True
        ),
        st.integers(1, 30).map(plain),
        st.integers(2, 8).map(plain),
        COUNTS,
    ),
    st.builds(lambda number: RepeatRows(often=Times(number, more=True)), COUNTS),
    st.builds(lambda length: RepeatRows(until_length=length), LENGTHS),
    st.builds(
        lambda number, change: RepeatRows(
            extra=(Make(Stitch("hdc"), ONE, Evenly(number, "", change)),)
        ),
        COUNTS,
        st.sampled_from(("increased", "decreased")),
    ),
)
ROWS_AGAIN = st.deferred(
    lambda: st.one_of(st.builds(_again, NAMED_ROWS, HOW_LONG, ENDING, EXTRA), PIECES, EVEN)
)

# --------------------------------------------------------------------------- whole lines

ONLY = st.sampled_from(((), (), (), ("M",), ("S", "L")))
UNLABELLED = Label("")
PLAIN_STEPS = st.deferred(
    lambda: STEPS.filter(lambda steps: not any(isinstance(step, Shape) for step in steps))
)


def _one_way_of_marking(course: Course) -> bool:
    """Leave out lines that slip markers and place some, which then hang between stitches."""
    marks = [node for node in nodes(course) if isinstance(node, Mark)]
    placed = any(mark.action == "place" and mark.at is None for mark in marks)
    return not (placed and any(mark.action == "slip" for mark in marks))


LINES = st.deferred(
    lambda: st.one_of(
        st.builds(Course, NUMBERED, SHORT, st.none()),
        st.builds(Course, NUMBERED, SHORT, st.one_of(st.none(), STATED)),
        st.builds(Course, NUMBERED, STEPS, st.one_of(st.none(), STATED), ONLY),
        st.builds(Course, NUMBERED, STEPS, st.one_of(st.none(), STATED), ONLY),
        st.builds(Course, MANY, PLAIN_STEPS, st.one_of(st.none(), STATED), ONLY),
        st.builds(Course, st.one_of(MANY, st.just(UNLABELLED)), ROWS_AGAIN, st.none(), ONLY),
        st.builds(Course, st.just(UNLABELLED), st.one_of(RING_OF_CHAINS, SHAPES), st.none(), ONLY),
    ).filter(_one_way_of_marking)
)
