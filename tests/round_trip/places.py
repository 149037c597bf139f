"""Numbers, stitches, nouns and places of every form the reader knows, for the round trip."""

from typing import TypeAlias

from hypothesis import strategies as st

from stitchproof.language.formula import Arithmetic, Constant, Name
from stitchproof.language.number import ONE, Number, NumberKind, plain
from stitchproof.language.tree import (
    CHAIN,
    MARKED,
    SPACE,
    STITCH,
    Below,
    Between,
    Each,
    End,
    First,
    Last,
    Loop,
    Marked,
    Next,
    Noun,
    Nth,
    On,
    OppositeSide,
    Origin,
    Post,
    Ring,
    Same,
    SeamPlace,
    Skipped,
    Stitch,
    Thing,
    To,
    ToLast,
    ToMarked,
    Within,
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


# "- (12, 14)" and "0 (12, 14)": not in the smallest size.
NOT_IN_ONE = st.tuples(st.sampled_from((None, 0)), st.integers(2, 99), st.integers(2, 99)).map(
    lambda v: Number(value=v, spelling=f"{'-' if v[0] is None else 0} ({v[1]}, {v[2]})")
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
COUNTS = st.one_of(
    *(st.integers(2, 150).map(plain), lists(2, 150), lists(2, 150), FORMULAS), NOT_IN_ONE
)
LENGTHS = st.one_of(
    st.integers(2, 60).map(
        lambda cm: Number(value=(cm * 10,), kind=NumberKind.LENGTH, spelling=f"{cm} cm")
    ),
    st.integers(2, 60).map(
        lambda cm: Number(
            value=(cm * 10, cm * 10 + 20, cm * 10 + 40),
            kind=NumberKind.LENGTH,
            spelling=f"{cm} ({cm + 2}, {cm + 4}) cm",
        )
    ),
)
ONE_OR_MORE = st.one_of(st.just(ONE), COUNTS)

# --------------------------------------------------------------------------- stitches and nouns

LOOPED = st.builds(Stitch, st.sampled_from(TALL), st.sampled_from(Loop))
MADE = st.one_of(st.builds(Stitch, st.sampled_from((*ALL, "knot"))), LOOPED)
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
KINDS = st.builds(
    lambda name: Noun(Thing.KIND, name), st.sampled_from(("sc", "hdc", "dc", "tr", "fpdc", "knot"))
)
SHELLS = st.builds(lambda name: Noun(Thing.GROUP, name), st.sampled_from(("shell", "v-st")))
UNNAMED = Noun(Thing.GROUP)
CHAIN_SPACES = st.one_of(
    st.just(Noun(Thing.CHAIN_SPACE)),
    st.integers(1, 9).map(lambda n: Noun(Thing.CHAIN_SPACE, chains=n)),
)
SPACES = st.one_of(st.just(SPACE), CHAIN_SPACES)
CORNER = Noun(Thing.SPACE, "corner")
CORNER_STITCH = Noun(Thing.STITCH, "corner")
CENTRE = Noun(Thing.STITCH, "centre")
CORNERS = st.sampled_from((CORNER, CORNER_STITCH))
GAP = Noun(Thing.SPACE, "gap")
NOUNS = st.one_of(
    st.just(STITCH), st.just(STITCH), KINDS, SPACES, st.just(CHAIN), st.just(GAP), SHELLS, CORNERS
)
ALL_PLACES = st.one_of(
    NOUNS,
    st.just(Noun(Thing.STITCH_OR_CHAIN)),
    st.just(Noun(Thing.STITCH_OR_CHAIN, "sc")),
    st.just(Noun(Thing.STITCH_OR_CHAIN, "sc", 1)),
)

# --------------------------------------------------------------------------- places

UNTIL = st.deferred(
    lambda: st.one_of(
        st.just(End()),
        st.just(End()),
        st.builds(ToLast, ONE_OR_MORE, NOUNS),
        st.just(ToLast(ONE, TCH)),
        st.just(ToLast(plain(0))),
        st.builds(To, st.one_of(KINDS, SPACES, SHELLS, CORNERS, st.just(CENTRE))),
        st.builds(To, st.one_of(KINDS, SPACES), ONE_OR_MORE),
        st.builds(
            lambda noun, nth: To(noun, nth=nth),
            st.one_of(KINDS, SPACES, SHELLS),
            st.one_of(st.integers(2, 30).map(plain), lists(2, 9)),
        ),
        st.just(ToMarked()),
        st.builds(ToMarked, st.just(""), ONE_OR_MORE),
    )
)
EACH = st.deferred(
    lambda: st.one_of(
        st.builds(Each, ALL_PLACES, UNTIL),
        st.builds(Each, st.one_of(st.just(CENTRE), CORNERS), st.just(End())),
    )
)
NEXT = st.deferred(
    lambda: st.one_of(
        st.builds(Next, ONE_OR_MORE, NOUNS),
        st.builds(Next, ONE_OR_MORE, NOUNS),
        st.just(Next(ONE, CENTRE)),
        st.builds(Next, COUNTS, st.just(Noun(Thing.ROW_END))),
    )
)
FIRST = st.builds(First, ONE_OR_MORE, NOUNS)
LAST = st.builds(Last, ONE_OR_MORE, NOUNS)
SAME = st.builds(Same, st.one_of(NOUNS, st.just(Noun(Thing.SEAM))), st.booleans())
ORDINALS = st.lists(st.integers(2, 30), min_size=1, max_size=3, unique=True).map(
    lambda found: tuple(plain(one) for one in sorted(found))
)
ORDINAL = st.one_of(ORDINALS.map(lambda o: o[:1]), lists(2, 9).map(lambda o: (o,)))
NTH_OF_EDGE = st.builds(
    Nth, ORDINALS, st.one_of(st.just(STITCH), KINDS, SPACES, SHELLS), st.just(Origin.EDGE)
)
NTH = st.deferred(
    lambda: st.one_of(
        st.builds(Nth, ORDINAL),
        NTH_OF_EDGE,
        st.builds(Nth, ORDINAL, st.one_of(st.just(STITCH), KINDS, SPACES), st.just(Origin.HERE)),
        st.builds(Nth, ORDINAL, st.just(CHAIN), st.just(Origin.TURNING_CHAIN)),
    )
)
SEAMS = st.sampled_from(("", "shoulder", "side", "other", "next", "underarm")).map(SeamPlace)
SKIPPED = st.one_of(
    st.builds(
        Skipped, st.one_of(st.just(ONE), FEW, lists(2, 9)), st.one_of(st.just(STITCH), KINDS)
    ),
    st.builds(Skipped, st.just(ONE), st.one_of(st.just(STITCH), KINDS), FEW),
    st.builds(
        lambda noun, row: Skipped(noun=noun, row=row),
        st.one_of(st.just(STITCH), KINDS),
        st.one_of(st.just(ONE), FEW),
    ),
)
APART = st.builds(Each, NOUNS, UNTIL, FEW)
NEXT_STITCHES = st.builds(Next, ONE_OR_MORE)
TO_EDGE = st.builds(Next, ONE_OR_MORE, st.just(Noun(Thing.STITCH, "edge")))


Groups: TypeAlias = Next | First | Last | Each | Same


def _inside(groups: st.SearchStrategy[Noun]) -> st.SearchStrategy[Groups]:
    """Give the groups of a name that a place inside them is of."""
    return st.one_of(
        st.builds(Next, st.just(ONE), groups),
        st.builds(First, st.just(ONE), groups),
        st.builds(Last, st.just(ONE), groups),
        st.builds(Each, groups, UNTIL),
        st.builds(Same, groups),
    )


IN_GROUPS = st.deferred(
    lambda: st.one_of(
        st.builds(
            Within,
            st.integers(1, 9).map(plain),
            st.one_of(st.just(STITCH), KINDS, CHAIN_SPACES),
            _inside(st.one_of(SHELLS, st.just(UNNAMED))),
        ),
        st.builds(
            Within,
            st.just(ONE),
            st.one_of(st.just(STITCH), KINDS),
            _inside(st.one_of(SHELLS, st.just(UNNAMED))),
        ),
        st.builds(
            Within,
            st.none(),
            st.one_of(KINDS, CHAIN_SPACES, st.just(SPACE)),
            st.one_of(_inside(SHELLS), st.builds(Nth, ORDINAL, SHELLS, st.just(Origin.EDGE))),
        ),
        st.builds(Within, st.none(), st.just(STITCH), _inside(st.one_of(SHELLS, st.just(UNNAMED)))),
    )
)
STOOD = st.one_of(st.just(STITCH), KINDS)
BETWEEN = st.deferred(
    lambda: st.builds(
        Between,
        st.one_of(
            st.builds(Next, FEW, st.one_of(STOOD, st.just(UNNAMED), SHELLS)),
            st.builds(Next, st.just(ONE), STOOD),
            st.builds(First, FEW, STOOD),
            st.just(First(ONE, UNNAMED)),
            st.just(Last(ONE, UNNAMED)),
            st.builds(First, st.just(ONE), SHELLS),
            st.builds(Last, st.just(ONE), SHELLS),
            st.builds(Each, st.one_of(STOOD, st.just(UNNAMED), SHELLS), UNTIL),
        ),
    )
)
NEXT_STOOD = st.one_of(
    st.builds(Next, ONE_OR_MORE, STOOD),
    st.builds(First, ONE_OR_MORE, STOOD),
    st.builds(Last, ONE_OR_MORE, STOOD),
    st.builds(Same, STOOD),
)
EACH_STOOD = st.builds(Each, STOOD, st.just(End()))
OTHERS = st.deferred(
    lambda: st.one_of(
        st.builds(On, st.one_of(NEXT_STOOD, EACH_STOOD), st.integers(1, 40).map(plain)),
        st.builds(
            On, st.one_of(NEXT_STOOD, EACH_STOOD), st.none(), st.sampled_from(("first leg", "arm"))
        ),
        st.builds(
            On, st.just(Next()), st.none(), st.sampled_from(("side of opening", "corner of cuff"))
        ),
    )
)
OPPOSITE = st.builds(lambda until: OppositeSide(Each(STITCH, until)), UNTIL)
ONE_BY_ONE = (
    *(EACH, NEXT, FIRST, LAST, SAME, NTH, SEAMS, BETWEEN, SKIPPED, OPPOSITE, IN_GROUPS, OTHERS),
    st.sampled_from((Ring(), Ring(magic=True), Marked(), Each(MARKED), Next(ONE, TCH))),
)
PLACES = st.deferred(lambda: st.one_of(*ONE_BY_ONE))
BELOW = st.deferred(
    lambda: st.one_of(
        st.builds(
            Below,
            st.integers(1, 4).map(plain),
            st.one_of(
                st.just(Next()), st.just(Each()), st.just(Same()), st.just(First()), st.just(Last())
            ),
            STOOD,
        ),
        st.builds(
            lambda rows, number, noun: Below(rows, Next(number, SPACE), noun),
            st.integers(1, 4).map(plain),
            st.just(ONE),
            STOOD,
        ),
    )
)
AROUND = st.deferred(
    lambda: st.one_of(
        st.builds(Next, ONE_OR_MORE, STOOD),
        st.builds(Each, STOOD, UNTIL),
        st.builds(Same, STOOD),
        st.builds(First, ONE_OR_MORE, STOOD),
        st.builds(Last, ONE_OR_MORE, STOOD),
        BELOW,
    )
)
OVER = st.deferred(
    lambda: st.one_of(
        st.builds(Next, ONE_OR_MORE),
        st.builds(Next, st.one_of(st.just(ONE), FEW, lists(2, 50)), STOOD),
        st.builds(First, st.one_of(st.just(ONE), FEW)),
        st.builds(Last, st.one_of(st.just(ONE), FEW)),
        st.builds(Each, st.just(STITCH), UNTIL),
    )
)
