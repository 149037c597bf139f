"""Trees of every form the reader knows, for the round trip.

The trees are those a reader can give: a stitch in a group goes into the place of the group, a join
stands behind stitches, words beside the work stand where they are read.
"""

from dataclasses import replace

from hypothesis import strategies as st

from stitchproof.language.formula import Arithmetic, Constant, Name
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.tree import (
    CHAIN,
    SPACE,
    STITCH,
    AsLong,
    Behind,
    Below,
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
    OppositeSide,
    Origin,
    Post,
    Remark,
    Repeat,
    Ring,
    RowEnds,
    Same,
    SeamPlace,
    SeamSides,
    SeamTops,
    Skip,
    Skipped,
    Step,
    Steps,
    Stitch,
    Thing,
    Times,
    To,
    ToLast,
    ToMarked,
    Turn,
)

TALL = ("sc", "hdc", "dc", "tr", "dtr", "trtr", "esc", "edc")
ALL = (*TALL, "ehdc", "fsc", "fhdc", "fdc", "ldc", "crab", "spike", "bobble", "popcorn", "puff")
TCH = Noun(Thing.TURNING_CHAIN)

# --------------------------------------------------------------------------- numbers


def lists(low: int, high: int) -> st.SearchStrategy[Number]:
    """Give one number for each of three sizes."""
    return st.tuples(st.integers(low, high - 1), st.integers(low, high), st.just(high)).map(
        lambda v: Number(value=v, spelling=f"{v[0]} ({v[1]}, {v[2]})")
    )


FORMULAS = st.builds(
    lambda name, op, by: Number(
        value=Arithmetic(op, Name(name), Constant(by)),
        spelling=f"{{{name} {op} {by}}}",
    ),
    st.sampled_from(("panel_sts", "neck_sts")),
    st.sampled_from("+-*/"),
    st.integers(2, 9),
)
FEW = st.integers(2, 9).map(plain)
COUNTS = st.one_of(st.integers(2, 150).map(plain), lists(2, 150), FORMULAS)
ONE_OR_MORE = st.one_of(st.just(ONE), COUNTS)

# --------------------------------------------------------------------------- stitches and nouns

LOOPED = st.builds(Stitch, st.sampled_from(TALL), st.sampled_from(Loop))
MADE = st.one_of(st.builds(Stitch, st.sampled_from(ALL)), LOOPED)
POSTED = st.builds(
    lambda kind, post: Stitch(kind, post=post),
    st.sampled_from(("sc", "hdc", "dc", "tr")),
    st.sampled_from((Post.FRONT, Post.BACK)),
)
GATHERED = st.builds(
    lambda kind, number: Stitch(kind, together=number),
    st.sampled_from(("sc", "hdc", "dc", "tr")),
    st.integers(2, 5),
)
KINDS = st.builds(lambda name: Noun(Thing.KIND, name), st.sampled_from(("sc", "hdc", "dc", "tr")))
SPACES = st.one_of(
    st.just(SPACE),
    st.just(Noun(Thing.CHAIN_SPACE)),
    st.integers(1, 9).map(lambda n: Noun(Thing.CHAIN_SPACE, chains=n)),
)
NOUNS = st.one_of(st.just(STITCH), st.just(STITCH), KINDS, SPACES, st.just(CHAIN))
ALL_PLACES = st.one_of(
    NOUNS,
    st.just(Noun(Thing.STITCH_OR_CHAIN)),
    st.just(Noun(Thing.STITCH_OR_CHAIN, "sc", 1)),
)

# --------------------------------------------------------------------------- places

UNTIL = st.one_of(
    st.just(End()),
    st.just(End()),
    st.builds(ToLast, ONE_OR_MORE, st.one_of(st.just(STITCH), KINDS, SPACES)),
    st.builds(To, st.one_of(KINDS, SPACES)),
    st.just(ToMarked()),
)
EACH = st.builds(Each, ALL_PLACES, UNTIL)
NEXT = st.builds(Next, ONE_OR_MORE, NOUNS)
FIRST = st.builds(First, ONE_OR_MORE, NOUNS)
LAST = st.builds(Last, ONE_OR_MORE, NOUNS)
SAME = st.builds(Same, st.one_of(st.just(STITCH), SPACES))
ORDINALS = st.lists(st.integers(2, 30), min_size=1, max_size=3, unique=True).map(
    lambda found: tuple(plain(one) for one in sorted(found))
)
NTH = st.one_of(
    st.builds(Nth, ORDINALS.map(lambda o: o[:1])),
    st.builds(Nth, ORDINALS, st.one_of(st.just(STITCH), KINDS), st.just(Origin.EDGE)),
    st.builds(
        Nth,
        ORDINALS.map(lambda o: o[:1]),
        st.one_of(st.just(STITCH), KINDS),
        st.just(Origin.HERE),
    ),
    st.builds(Nth, ORDINALS.map(lambda o: o[:1]), st.just(CHAIN), st.just(Origin.TURNING_CHAIN)),
)
SEAMS = st.sampled_from(("", "shoulder", "side", "other")).map(SeamPlace)
SKIPPED = st.builds(Skipped, st.one_of(st.just(ONE), FEW))
BETWEEN = st.builds(Between, st.builds(Next, FEW))
PLACES = st.one_of(
    EACH,
    NEXT,
    FIRST,
    LAST,
    SAME,
    NTH,
    SEAMS,
    BETWEEN,
    SKIPPED,
    st.sampled_from((Ring(), Marked(), Next(ONE, TCH), OppositeSide(Each()))),
)
BELOW = st.builds(
    Below,
    st.integers(1, 4).map(plain),
    st.one_of(st.just(Next()), st.just(Each())),
    st.one_of(st.just(STITCH), KINDS),
)
AROUND = st.one_of(
    st.builds(Next, ONE_OR_MORE, st.one_of(st.just(STITCH), KINDS)),
    st.builds(Each, st.one_of(st.just(STITCH), KINDS), UNTIL),
    BELOW,
)
OVER = st.one_of(
    st.builds(Next, ONE_OR_MORE),
    st.builds(First, st.one_of(st.just(ONE), FEW)),
    st.builds(Last, st.one_of(st.just(ONE), FEW)),
    st.builds(Each, st.just(STITCH), UNTIL),
)

# --------------------------------------------------------------------------- steps


def _has_that_loop(step: Make) -> bool:
    """Tell whether the place has a third loop, where that is asked for."""
    if step.stitch.loop is not Loop.THIRD or step.each == ONE:
        return step.stitch.loop is not Loop.THIRD or not isinstance(step.at, Between | OppositeSide)
    return not isinstance(step.at, Next | Between | OppositeSide)


HOW_MANY = st.one_of(st.just(ONE), st.just(ONE), FEW, lists(1, 4))
MAKES = st.one_of(
    st.builds(Make, MADE, HOW_MANY, PLACES).filter(_has_that_loop),
    st.builds(Make, POSTED, st.just(ONE), AROUND),
    st.builds(Make, GATHERED, st.just(ONE), OVER),
)
COUNTED_AS = st.builds(
    Counts, st.sampled_from(("", "st", "hdc", "dc", "tr")), st.just(0), st.booleans()
)
CHAIN_AND = st.builds(Counts, st.sampled_from(("hdc", "dc")), st.integers(1, 3))
CHAINS = st.builds(Chain, ONE_OR_MORE, st.one_of(st.none(), st.none(), COUNTED_AS, CHAIN_AND))
SPACE_CHAINS = st.builds(Chain, st.integers(1, 6).map(plain))
SKIPS = st.builds(
    Skip, st.one_of(NEXT, st.builds(First, ONE_OR_MORE), FEW.map(Behind), st.just(Behind()))
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
GROUPS = st.builds(
    Group, IN_ONE_PLACE, st.one_of(st.just(Next()), st.builds(Next, FEW, SPACES), EACH, SAME)
)
PLAIN = st.one_of(
    st.builds(Make, MADE, HOW_MANY, NEXT).filter(_has_that_loop),
    st.builds(Make, POSTED, st.just(ONE), AROUND),
    st.builds(Make, GATHERED, st.just(ONE), st.builds(Next, ONE_OR_MORE)),
    SPACE_CHAINS,
    SKIPS,
    GROUPS,
)
TIMES = st.builds(Times, COUNTS, st.booleans())
OFTEN = st.one_of(TIMES, st.builds(AsLong, UNTIL))


def _repeats(inside: st.SearchStrategy[Step]) -> st.SearchStrategy[Step]:
    bodies = st.lists(inside, min_size=1, max_size=4).filter(_makes).map(tuple)
    return st.builds(Repeat, bodies, OFTEN)


def _makes(body: list[Step]) -> bool:
    return any(isinstance(one, Make | Group | Repeat) for one in body)


CUT = st.builds(
    lambda first, last, until: Repeat((*first, *last), AsLong(until), cut=len(first)),
    st.lists(PLAIN, min_size=1, max_size=3).filter(_makes),
    st.lists(PLAIN, min_size=1, max_size=2),
    st.one_of(st.just(End()), st.builds(ToLast, ONE_OR_MORE)),
)
REPEATS = st.one_of(_repeats(PLAIN), _repeats(st.one_of(PLAIN, _repeats(PLAIN))), CUT)
BODY = st.one_of(MAKES, SKIPS, GROUPS, REPEATS, SPACE_CHAINS)
OPENINGS = st.one_of(
    st.just(()),
    CHAINS.map(lambda one: (one,)),
    CHAINS.map(lambda one: (one, Turn())),
    st.sampled_from(("RS", "WS")).map(lambda side: (Facing(side),)),
    st.sampled_from((("A", False), ("CC", False), ("larger", True), ("smaller", True))).map(
        lambda one: (Colour(*one),)
    ),
    st.sampled_from(
        (JoinYarn(), JoinYarn(First()), JoinYarn(Next()), JoinYarn(SeamPlace("shoulder")))
    ).map(lambda one: (one,)),
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
JOINS = st.one_of(
    st.just(Join()),
    st.just(Join(do=False)),
    st.builds(Join, st.builds(First, st.just(ONE), st.one_of(st.just(STITCH), KINDS))),
    st.just(Join(Next(ONE, TCH))),
    st.integers(2, 4).map(lambda n: Join(Nth((plain(n),), CHAIN, Origin.TURNING_CHAIN))),
)
ENDINGS = st.one_of(
    st.just(()),
    st.just((Turn(),)),
    st.just((Turn(do=False),)),
    JOINS.map(lambda one: (one,)),
    JOINS.map(lambda one: (one, Turn())),
    st.just((FastenOff(),)),
    st.just((Turn(), FastenOff(do=False))),
    st.one_of(st.none(), ONE_OR_MORE).map(lambda n: (Leave(n), Turn())),
    st.sampled_from(
        (
            Mark("place"),
            Mark("move"),
            Mark("remove"),
            Mark("place", First()),
            Mark("place", Same()),
            Mark("place", None, "", plain(12), 2),
            Remark("being careful not to twist"),
            Remark("(see Notes)"),
            Remark("weave in ends"),
        )
    ).map(lambda one: (one,)),
)


def _line(opening: Steps, body: list[Step], ending: Steps) -> Steps:
    """Put a line together; what is left at its end is what its last stitches stop before."""
    last = body[-1]
    match ending:
        case (Leave(Number() as number), *_) if isinstance(last, Make) and last.at == Each():
            body = [*body[:-1], replace(last, at=Each(STITCH, ToLast(number)))]
        case _:
            pass
    return (*opening, *body, *ending)


LINES = st.builds(
    _line,
    OPENINGS,
    st.lists(BODY, min_size=1, max_size=4).filter(_makes),
    ENDINGS,
)
FINISHING = st.one_of(
    st.builds(SeamTops, COUNTS, st.one_of(st.none(), COUNTS)),
    st.builds(SeamSides, st.one_of(st.none(), COUNTS)),
    st.builds(
        lambda rates, edges, stated: Make(Stitch("sc"), ONE, RowEnds(rates, edges, stated)),
        st.lists(
            st.tuples(KINDS, st.one_of(st.just(ONE), FEW)),
            min_size=1,
            max_size=3,
            unique_by=lambda one: one[0].kind,
        ).map(tuple),
        st.sampled_from((1, 2)),
        st.one_of(st.none(), COUNTS),
    ),
    st.builds(lambda count: Make(Stitch("sc"), ONE, Evenly(count, "along lower edge")), COUNTS),
).map(lambda one: (one,))
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
STEPS = st.one_of(RING_LINES, LINES, LINES, LINES, LINES, FINISHING)
