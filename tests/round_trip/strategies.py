"""Trees of every form the reader knows, for the round trip: the steps of a line.

The trees are those a reader can give: a stitch in a group goes into the place of the group, a join
stands behind stitches, words beside the work stand where they are read.
"""

from dataclasses import replace

from hypothesis import strategies as st

from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.tree import (
    CHAIN,
    MARKED,
    STITCH,
    AsLong,
    Behind,
    Between,
    Chain,
    Colour,
    Counts,
    Each,
    End,
    Evenly,
    Facing,
    FastenOff,
    First,
    Group,
    InPattern,
    Join,
    JoinYarn,
    Last,
    Leave,
    Loop,
    MagicRing,
    Make,
    Mark,
    Marked,
    Next,
    Noun,
    Nth,
    On,
    OppositeSide,
    Origin,
    Remark,
    Repeat,
    Ring,
    RowEnds,
    Same,
    SeamSides,
    SeamTops,
    Shape,
    Skip,
    Step,
    Steps,
    Stitch,
    Thing,
    Times,
    ToLast,
    Turn,
    Within,
)
from tests.round_trip.places import (
    APART,
    AROUND,
    BETWEEN,
    CENTRE,
    COUNTS,
    EACH,
    FEW,
    FIRST,
    FORMULAS,
    GATHERED,
    IN_GROUPS,
    KINDS,
    LAST,
    LENGTHS,
    MADE,
    NEXT,
    NEXT_STITCHES,
    NTH,
    NTH_OF_EDGE,
    ONE_BY_ONE,
    ONE_OR_MORE,
    OTHERS,
    OVER,
    PLACES,
    POSTED,
    SAME,
    SEAMS,
    SKIPPED,
    SPACES,
    TALL,
    TCH,
    TO_EDGE,
    UNTIL,
    lists,
)

# --------------------------------------------------------------------------- steps


def _has_that_loop(step: Make) -> bool:
    """Tell whether the place has a third loop, where that is asked for."""
    if step.stitch.loop is not Loop.THIRD or step.each == ONE:
        return step.stitch.loop is not Loop.THIRD or not isinstance(step.at, Between | OppositeSide)
    return not isinstance(step.at, Next | Between | OppositeSide)


HOW_MANY = st.one_of(st.just(ONE), st.just(ONE), FEW, lists(1, 4), FORMULAS)
MAKES = st.deferred(
    lambda: st.one_of(
        st.builds(Make, MADE, HOW_MANY, PLACES).filter(_has_that_loop),
        st.builds(Make, POSTED, st.just(ONE), AROUND),
        st.builds(Make, GATHERED, st.just(ONE), OVER),
        st.builds(Make, GATHERED, st.just(ONE), st.just(Same(begins=True))),
        st.builds(
            lambda kinds, each, at: Make(Stitch(kinds[0]), each, at, choice=kinds[1:]),
            st.sampled_from(
                (
                    (Stitch("sc"), Stitch("hdc")),
                    (Stitch("hdc"), Stitch("dc")),
                    (Stitch("dc"), Stitch("tr"), Stitch("dtr")),
                )
            ).map(lambda some: (some[0].kind, *some[1:])),
            HOW_MANY,
            st.one_of(NEXT, EACH, FIRST, LAST),
        ),
    )
)
COUNTED_AS = st.builds(
    Counts, st.sampled_from(("", "st", "hdc", "dc", "tr")), st.just(0), st.booleans()
)
CHAIN_AND = st.builds(Counts, st.sampled_from(("hdc", "dc")), st.integers(1, 3))
CHAINS = st.builds(Chain, ONE_OR_MORE, st.one_of(st.none(), st.none(), COUNTED_AS, CHAIN_AND))
SPACE_CHAINS = st.builds(Chain, st.integers(1, 6).map(plain))
PASSED = st.builds(Each, st.just(STITCH), UNTIL)
SKIPS = st.builds(
    Skip,
    st.one_of(
        *(NEXT, FIRST, LAST, PASSED, FEW.map(Behind), st.just(Behind()), st.just(Same(CHAIN))),
        st.builds(lambda many, row: On(Next(many), row), FEW, lists(2, 90)),
        st.builds(First, COUNTS, st.just(Noun(Thing.ROW_END))),
    ),
)
IN_ONE_PLACE = (
    st.lists(
        st.one_of(
            st.builds(Make, st.builds(Stitch, st.sampled_from(TALL)), HOW_MANY, st.just(Same())),
            SPACE_CHAINS,
        ),
        min_size=2,
        max_size=5,
    )
    .filter(lambda body: any(isinstance(one, Make) for one in body))
    .map(tuple)
)
AGAIN_IN_ONE = st.builds(
    lambda body, times: (Repeat(body, Times(times)),), IN_ONE_PLACE, st.one_of(FEW, lists(2, 9))
)
IN_PLACE = st.one_of(
    st.just(Marked()),
    *(st.just(Next()), st.builds(Next, FEW, SPACES), NEXT, EACH, FIRST, LAST, SAME, NTH, BETWEEN),
)
SHELL = (Make(Stitch("dc"), plain(5), Same()),)
V_STITCH = (Make(Stitch("dc"), ONE, Same()), Chain(ONE), Make(Stitch("dc"), ONE, Same()))
NAMED = st.deferred(
    lambda: st.builds(
        lambda special, copies, at: Group(special[0] * copies, at, special[1]),
        st.sampled_from(((SHELL, "shell"), (V_STITCH, "v-st"))),
        st.integers(1, 3),
        IN_PLACE,
    )
)
NAMED_AND = st.deferred(  # "(V-st, dc) in top of ch-3"
    lambda: st.builds(
        lambda special, tall, at: Group(
            (Group(special[0], Same(), special[1]), Make(Stitch(tall), ONE, Same())), at
        ),
        st.sampled_from(((SHELL, "shell"), (V_STITCH, "v-st"))),
        st.sampled_from(TALL),
        st.just(Next()),
    )
)
GROUPS = st.deferred(
    lambda: st.one_of(
        st.builds(Group, IN_ONE_PLACE, IN_PLACE),
        st.builds(Group, IN_ONE_PLACE, IN_PLACE),
        st.builds(Group, AGAIN_IN_ONE, IN_PLACE),
        st.builds(Group, IN_ONE_PLACE, IN_GROUPS),
        NAMED,
        NAMED_AND,
    )
)
PLAIN = st.deferred(
    lambda: st.one_of(
        st.builds(Make, MADE, HOW_MANY, NEXT).filter(_has_that_loop),
        st.builds(Make, POSTED, st.just(ONE), AROUND),
        st.builds(Make, GATHERED, st.just(ONE), st.builds(Next, ONE_OR_MORE)),
        SPACE_CHAINS,
        SKIPS,
        GROUPS,
    )
)
TIMES = st.builds(Times, st.one_of(COUNTS, st.just(ONE)), st.booleans())
OFTEN = st.one_of(TIMES, st.builds(AsLong, UNTIL))


def _repeats(inside: st.SearchStrategy[Step]) -> st.SearchStrategy[Step]:
    bodies = st.lists(inside, min_size=1, max_size=4).filter(_makes).filter(_stands).map(tuple)
    return st.builds(Repeat, bodies, OFTEN)


def _stands(body: list[Step]) -> bool:
    """Tell whether no chain is what foundation stitches stand on, which is read as no step."""
    made = next((one for one in body if not isinstance(one, Chain | Remark)), body[0])
    return made is body[0] or not _is_foundation(made)


def _makes(body: list[Step]) -> bool:
    return any(isinstance(one, Make | Group | Repeat) for one in body)


CUT = st.builds(
    lambda first, last, until: Repeat((*first, *last), AsLong(until), cut=len(first)),
    st.lists(PLAIN, min_size=1, max_size=3).filter(_makes).filter(_stands),
    st.lists(PLAIN, min_size=1, max_size=2),
    st.one_of(st.just(End()), st.builds(ToLast, ONE_OR_MORE)),
)


def _is_named_there(body: Steps) -> bool:
    """Tell whether a group has its name right behind it, and so is read with it."""
    return isinstance(body[0], Group) and body[1] == Remark("(picot made)")


CHANGES = st.builds(
    lambda first, yarn, last, often: Repeat((first, yarn, last), often),
    PLAIN.filter(lambda one: _makes([one])),
    st.sampled_from(
        (
            *(Colour("A"), Colour("CC"), Remark("(picot made)"), Remark("(see Notes)")),
            *(Mark("move"), Mark("place")),
        )
    ),
    PLAIN,
    OFTEN,
).filter(lambda one: not _is_named_there(one.body))
REPEATS = st.deferred(
    lambda: st.one_of(CHANGES, _repeats(PLAIN), _repeats(st.one_of(PLAIN, _repeats(PLAIN))), CUT)
)
BODY = st.deferred(lambda: st.one_of(MAKES, SKIPS, GROUPS, REPEATS, SPACE_CHAINS))
IN_SPACE_OF_GROUP = Within(
    None, Noun(Thing.CHAIN_SPACE, chains=1), Next(ONE, Noun(Thing.GROUP, "v-st"))
)
JOINED_YARN = st.deferred(
    lambda: st.one_of(
        *(st.just(JoinYarn()), st.just(JoinYarn(None, of="underarm"))),
        st.builds(
            JoinYarn,
            st.one_of(NEXT, FIRST, LAST, NTH_OF_EDGE, SEAMS, st.just(OppositeSide(Next()))),
        ),
        st.builds(JoinYarn, st.sampled_from((Marked(), Same(), IN_SPACE_OF_GROUP))),
        st.builds(JoinYarn, st.one_of(BETWEEN, OTHERS, SKIPPED)),
    )
)
OPENINGS = st.deferred(
    lambda: st.one_of(
        st.just(()),
        CHAINS.map(lambda one: (one,)),
        CHAINS.map(lambda one: (one, Turn())),
        st.sampled_from(("RS", "WS")).map(lambda side: (Facing(side),)),
        st.sampled_from((("A", False), ("CC", False), ("larger", True), ("smaller", True))).map(
            lambda one: (Colour(*one),)
        ),
        JOINED_YARN.map(lambda one: (one,)),
        st.builds(
            lambda counts, kind, nth: (
                Chain(plain(0), counts),
                Make(Stitch(kind), ONE, Nth((plain(nth),))),
            ),
            COUNTED_AS,
            st.sampled_from(TALL),
            st.integers(2, 6),
        ),
    )
)
JOINS = st.one_of(
    st.just(Join()),
    st.just(Join(do=False)),
    st.builds(Join, st.builds(First, st.just(ONE), st.one_of(st.just(STITCH), KINDS))),
    st.just(Join(Next(ONE, TCH))),
    st.builds(
        lambda noun, row: Join(On(First(ONE, noun), plain(row))),
        st.one_of(st.just(STITCH), KINDS),
        st.integers(1, 40),
    ),
    st.integers(2, 4).map(lambda n: Join(Nth((plain(n),), CHAIN, Origin.TURNING_CHAIN))),
)
MARKS = st.deferred(
    lambda: st.one_of(
        st.builds(Mark, st.sampled_from(("place", "move", "slip", "remove"))),
        st.builds(lambda at: Mark("place", at), st.one_of(FIRST, LAST, NEXT, NTH_OF_EDGE)),
        st.just(Mark("place", Same())),
        st.builds(Mark, st.sampled_from(("place", "move")), st.just(Same(CENTRE))),
        st.just(Mark("place", Each(CENTRE))),
        st.builds(Mark, st.sampled_from(("place", "move")), st.just(Marked())),
        st.builds(
            lambda row, edges: Mark("place", None, "", plain(row), edges),
            st.integers(4, 60),
            st.sampled_from((1, 2)),
        ),
        FORMULAS.map(lambda row: Mark("place", None, "", row, 2)),
    )
)
ENDINGS = st.one_of(
    st.just(()),
    st.just((Turn(),)),
    st.just((Turn(do=False),)),
    JOINS.map(lambda one: (one,)),
    JOINS.map(lambda one: (one, Turn())),
    st.just((FastenOff(),)),
    st.just((FastenOff(of="the first leg"),)),
    st.just((Turn(), FastenOff(do=False))),
    st.just((FastenOff(do=False, of="second leg"), Remark("continue with the Body"))),
    st.just((Leave(), Turn())),
    ONE_OR_MORE.map(lambda n: (Leave(n), Turn())),
    ONE_OR_MORE.map(lambda n: (Leave(n, noun=Noun(Thing.GROUP, "shell")), Turn())),
    MARKS.map(lambda one: (one,)),
    st.sampled_from(
        (
            Remark("being careful not to twist"),
            Remark("(see Notes)"),
            Remark("RS together"),
            Remark("weave in ends"),
            Remark("Pull tight"),
            Remark("leaving a long tail"),
        )
    ).map(lambda one: (one,)),
)


ALONG = st.builds(Make, MADE.filter(lambda stitch: stitch.loop is Loop.BOTH), st.just(ONE))
THERE = st.builds(lambda step, number: replace(step, at=OppositeSide(Next(number))), ALONG, COUNTS)
# What is worked along the other side of the foundation is the last of a line.
OTHER_SIDE = st.one_of(
    st.just(()),
    st.just(()),
    THERE.map(lambda one: (one,)),
    st.lists(THERE, min_size=1, max_size=3).map(
        lambda some: (Remark("rotate to work along opposite side of foundation ch"), *some)
    ),
)


def _line(opening: Steps, body: list[Step], beyond: Steps, ending: Steps) -> Steps:
    """Put a line together; what is left at its end is what its last stitches stop before."""
    if opening and isinstance(opening[-1], Chain) and _is_foundation(body[0]):
        opening = ()  # such a chain is what the foundation stitches stand on, and no step
    last = body[-1]
    match ending:
        case (Leave(), *_) if beyond:
            ending = ()
        case (Leave(Number() as number, noun=noun), *_) if (
            isinstance(last, Make) and last.at == Each()
        ):
            body = [*body[:-1], replace(last, at=Each(STITCH, ToLast(number, noun)))]
        case _:
            pass
    return (*opening, *body, *beyond, *ending)


def _is_foundation(step: Step) -> bool:
    return isinstance(step, Make) and step.stitch.kind in {"fsc", "fhdc", "fdc"}


LINES = st.builds(
    _line,
    OPENINGS,
    st.lists(BODY, min_size=1, max_size=4).filter(_makes),
    OTHER_SIDE,
    ENDINGS,
)
SHORT = st.deferred(
    lambda: st.one_of(
        *(MAKES, SKIPS, GROUPS, REPEATS, SPACE_CHAINS, JOINED_YARN, MARKS),
        *[st.builds(Make, MADE, HOW_MANY, at).filter(_has_that_loop) for at in ONE_BY_ONE],
        st.builds(Make, MADE, HOW_MANY, APART).filter(_has_that_loop),
        st.builds(InPattern, st.one_of(st.builds(Each, st.just(STITCH), UNTIL), NEXT_STITCHES)),
        st.builds(Make, st.just(Stitch("sl_st")), st.just(ONE), TO_EDGE),
        st.builds(Make, MADE, st.just(ONE), st.just(Last(ONE, MARKED))).filter(_has_that_loop),
    ).map(lambda one: (one,))
)
SEWN_BY = st.sampled_from(("", "", "sl_st", "sc"))
FINISHING = st.deferred(
    lambda: st.one_of(
        st.builds(SeamTops, COUNTS, st.one_of(st.none(), COUNTS), by=SEWN_BY),
        st.builds(SeamTops, st.none(), st.one_of(st.none(), COUNTS), by=st.just("sl_st")),
        st.builds(
            SeamSides, st.one_of(st.none(), COUNTS), st.one_of(st.none(), LENGTHS), by=SEWN_BY
        ),
        st.just(SeamSides(by="sc", whole=True)),
        st.builds(
            lambda rates, edges, stated: Make(Stitch("sc"), ONE, RowEnds(rates, edges, stated)),
            st.lists(
                st.tuples(st.one_of(KINDS, st.just(STITCH)), st.one_of(st.just(ONE), FEW)),
                min_size=1,
                max_size=3,
                unique_by=lambda one: one[0],
            ).map(tuple),
            st.sampled_from((1, 2)),
            st.one_of(st.none(), COUNTS),
        ),
        st.builds(
            lambda count, along: Make(Stitch("sc"), ONE, Evenly(count, along)),
            st.one_of(st.none(), COUNTS),
            st.sampled_from(("along lower edge", "")),
        ),
        st.builds(
            lambda count, along, parts: Make(
                Stitch("sc"), ONE, Evenly(count, along, parts=tuple(parts))
            ),
            COUNTS,
            st.sampled_from(("around neck", "")),
            st.lists(
                st.tuples(
                    COUNTS,
                    st.sampled_from(("up right front", "across back neck", "down left front")),
                ),
                min_size=2,
                max_size=3,
            ),
        ),
        st.builds(
            lambda count: Make(
                Stitch("sc"), ONE, Next(count, Noun(Thing.STITCH_OR_CHAIN, "sc", 1))
            ),
            lists(2, 50),
        ),
        st.builds(
            lambda rate, over: Make(Stitch("sc"), ONE, RowEnds(((STITCH, rate),), over=over)),
            FEW,
            FEW,
        ),
        st.builds(
            lambda count: Make(Stitch("sc"), ONE, Evenly(count, "in row ends", "in all")), COUNTS
        ),
        st.builds(
            lambda count, change: Make(Stitch("sc"), ONE, Evenly(count, "", change)),
            COUNTS,
            st.sampled_from(("increased", "decreased")),
        ),
    ).map(lambda one: (one,))
)
RING_OF_CHAINS = st.builds(
    lambda number, join: (Chain(number), *join),
    COUNTS,
    st.sampled_from(
        (
            (Join(First(ONE, CHAIN), ring=True),),
            (Join(ring=True),),
            (Remark("being careful not to twist"), Join(First(ONE, CHAIN), ring=True)),
        )
    ),
)
PHASES = st.lists(
    st.tuples(st.integers(1, 12).map(plain), st.one_of(st.just(ONE), FEW, lists(1, 9), FORMULAS)),
    min_size=1,
    max_size=3,
).map(tuple)
WHERE_SHAPED = st.sampled_from(
    (
        *((1, "", 1), (1, "", 2), (2, "", 2), (3, "", 1), (1, "neck edge", 1)),
        *((2, "armhole edge", 1), (1, "armhole edge", 2), (1, "beg", 1), (1, "end", 1)),
        (1, "side of center st", 2),
    )
)
SCHEDULE = st.builds(
    lambda change, each, phases: Shape(change, plain(each[0]), phases, None, each[1], each[2]),
    st.sampled_from(("increased", "decreased")),
    WHERE_SHAPED,
    PHASES,
)
# "Every 4th row until 40 sts remain": nobody counts how often.
TO_A_COUNT = st.builds(
    lambda shape, every, until: replace(
        shape, phases=(*shape.phases[:1], (every, None)), until=until
    ),
    SCHEDULE,
    st.integers(1, 12).map(plain),
    COUNTS,
)
AT_ENDS = st.builds(
    lambda number, rows, ends, way: Shape(
        "decreased", number, ((ONE, rows),), None, "beg" if ends == 1 else "", ends, way=way
    ),
    st.one_of(FEW, lists(2, 9), FORMULAS),
    st.integers(2, 6).map(plain),
    st.sampled_from((1, 2)),
    st.sampled_from(("slip", "leave")),
)
SHAPES = st.one_of(
    SCHEDULE.map(lambda one: (one,)),
    TO_A_COUNT.map(lambda one: (one,)),
    AT_ENDS.map(lambda one: (one,)),
    st.builds(
        lambda change, stitches, ends, until: (Shape(change, stitches, (), until, "", ends),),
        st.sampled_from(("increased", "decreased")),
        st.sampled_from((1, 2, 3, 4)).map(plain),
        st.sampled_from((1, 2)),
        COUNTS,
    ),
    st.builds(
        lambda first, rest: (first, *(replace(one, beside=beside) for one, beside in rest)),
        SCHEDULE,
        st.lists(st.tuples(st.one_of(SCHEDULE, TO_A_COUNT), st.booleans()), min_size=1, max_size=2),
    ),
)
RING_LINES = st.builds(
    lambda number, many, chains, ending: (
        MagicRing(),
        *chains,
        Make(Stitch("dc"), number, Ring()),
        *many,
        *ending,
    ),
    HOW_MANY,
    st.lists(st.builds(Group, IN_ONE_PLACE, st.just(Ring())), max_size=2),
    st.lists(CHAINS, max_size=1),
    ENDINGS,
)
STEPS = st.deferred(
    lambda: st.one_of(RING_LINES, LINES, LINES, LINES, LINES, FINISHING, RING_OF_CHAINS, SHAPES)
)
