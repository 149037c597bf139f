"""Names of stitches, with loops, post and gathering: "FPdc", "sc2tog", "hdc BLO", "dc dec"."""

from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import Number
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.vocabulary import (
    DECREASES,
    INCREASES,
    Branch,
    one_word,
)
from stitchproof.language.tree import Loop, Post, Special, Stitch

SHORT_LOOPS: Final = {"blo": Loop.BACK, "flo": Loop.FRONT, "bl": Loop.BACK, "fl": Loop.FRONT}
_SHORT_LOOPS_AFTER: Final = SHORT_LOOPS | {"tbl": Loop.BACK, "tfl": Loop.FRONT}
_LOOP_SIDES: Final = {"back": Loop.BACK, "front": Loop.FRONT, "both": Loop.BOTH}
_LOOP_WORDS: Final = word_set("loop loops lp lps")
_POST_SIDES: Final = {"front": Post.FRONT, "back": Post.BACK}
_SHORT_POSTS: Final = {"fp": Post.FRONT, "bp": Post.BACK}
_STARTING: Final = word_set("chainless standing stacked starting")
_LONG: Final = word_set("long elongated dropped deep")
_BEGINNING: Final = word_set("beg beginning")
_CHANGES: Final = INCREASES | DECREASES
_BEFORE_A_NAME: Final = _STARTING | _BEGINNING | _LONG
_CHAINS: Final = word_set("ch chs chain chains")
_TOGETHER: Final = word_set("tog together togs")
_STITCH_WORDS: Final = word_set("st sts stitch stitches")
_LEGS: Final = frozenset(("sc", "hdc", "dc", "tr", "dtr"))
_OF_LEGS: Final = frozenset(("cluster", "bobble", "popcorn", "puff"))
_MOST_INTO_ONE: Final = 9
_SHORT_CHANGES: Final = word_set("inc dec")
_FANS: Final = word_set("shell shells fan fans group groups")


@dataclass(frozen=True, slots=True)
class StitchName:
    """A stitch as named.

    Attributes
    ----------
    stitch : Stitch
        What it is.
    special : Special or None
        The author's definition, where the name is the author's.
    change : str
        "inc", "dec" or empty.
    legs : bool
        A number before it is that of its legs: "5-dc cluster" is one cluster.
    fan : bool
        A number before it goes into one place: "5-dc shell" is five dc.
    into : int
        Stitches that an increase makes in one place.
    written : str
        As the author wrote it, where it is a group's.
    """

    stitch: Stitch
    special: Special | None = None
    change: str = ""
    legs: bool = False
    fan: bool = False
    into: int = 2
    written: str = ""


def longest(branch: Branch, reader: Reader, ahead: int = 0) -> tuple[Branch, int] | None:
    """Find the longest name that begins `ahead` of the cursor, and how many tokens it has."""
    if not branch.to:
        return None
    best: tuple[Branch, int] | None = None
    i = ahead
    while True:
        text = reader.text(i)
        if text == "-" and i > ahead:
            i += 1
            text = reader.text(i)
        below = branch.to.get(text)
        if below is None:
            return best
        branch = below
        i += 1
        if branch.name is not None:
            best = branch, i - ahead


def starts_stitch(reader: Reader, ahead: int = 0) -> bool:
    """Tell whether the name of a stitch begins `ahead` of the cursor."""
    text = reader.text(ahead)
    if longest(reader.special, reader, ahead) or longest(reader.known, reader, ahead):
        return True
    if text == "starting":
        return False
    if text in INCREASES or text in DECREASES or text in _STARTING or text in _SHORT_POSTS:
        return True
    if text in _BEGINNING:
        after = ahead + 2 if reader.text(ahead + 1) == "-" else ahead + 1
        return reader.text(after) not in _CHAINS and starts_stitch(reader, after)
    if text in _POST_SIDES and reader.text(ahead + 1) == "post":
        return True
    if text in {"inv", "invisible", "raised"} or text in SHORT_LOOPS:
        return True
    if text in _LONG:
        return reader.text(ahead + 1) not in _LONG and starts_stitch(reader, ahead + 1)
    token = reader.token(ahead)
    if token is None or token.kind is not TokenKind.WORD:
        return False
    return one_word(text, reader.context.terms) is not None


def read_stitch(reader: Reader) -> StitchName | None:
    """Read the name of a stitch at the cursor; None if none stands there."""
    loop = SHORT_LOOPS.get(reader.text())
    if loop is not None and longest(reader.special, reader) is not None:
        loop = None  # "bl" may be a block
    if loop is not None:
        reader.take()
        reader.accept("-")
    if reader.text() in _BEGINNING and (
        reader.text(1) in _CHAINS or (reader.text(1) == "-" and reader.text(2) in _CHAINS)
    ):
        return None
    if reader.text() in _BEGINNING and reader.text(1) == "-":
        reader.take(2)
    if reader.text() not in _BEGINNING or longest(reader.special, reader) is None:
        reader.pass_over(_BEFORE_A_NAME)  # but "Beg Block" may be defined as such
    post = _post_before(reader)
    named = _core(reader)
    if named is None:
        return None
    named = _after(reader, named)
    stitch = named.stitch
    if post is not Post.NONE:
        stitch = replace(stitch, post=post)
    loop = loop or read_short_loop(reader)
    if loop is not None:
        stitch = replace(stitch, loop=loop)
    return named if stitch is named.stitch else replace(named, stitch=stitch)


def _post_before(reader: Reader) -> Post:
    if reader.text() in _SHORT_POSTS:
        post = _SHORT_POSTS[reader.text()]
        reader.take()
        reader.accept("-")
        return post
    if reader.text() in _POST_SIDES and reader.text(1) == "post":
        post = _POST_SIDES[reader.text()]
        reader.take(2)
        reader.accept("-")
        return post
    return Post.NONE


def _core(reader: Reader) -> StitchName | None:
    own = longest(reader.special, reader)
    if own is not None:
        branch, length = own
        reader.take(length)
        assert branch.special is not None
        return _special(branch.special, reader)
    reader.accept_any(word_set("inv invisible"))
    if reader.text() in _CHANGES:
        change = "inc" if reader.text() in INCREASES else "dec"
        reader.take()
        if as_int(reader.number()) == 1 and reader.text(1) in {"st", "stitch"}:
            reader.take(2)
        return _changed(Stitch(reader.main), change)
    if reader.accept("raised"):
        return _raised(reader)
    known = longest(reader.known, reader)
    if known is not None:
        branch, length = known
        reader.take(length)
        assert branch.name is not None
        return StitchName(Stitch(branch.name), written=reader.words(reader.at - length))
    return _one_word(reader)


def _one_word(reader: Reader) -> StitchName | None:
    token = reader.token()
    if token is None or token.kind is not TokenKind.WORD:
        return None
    stitch = one_word(token.text, reader.context.terms)
    if stitch is None:
        return None
    reader.take()
    return StitchName(stitch)


def _raised(reader: Reader) -> StitchName | None:
    """Read behind "raised": "tr front", "front tr", "tr round front of next st"."""
    before = _POST_SIDES.get(reader.text())
    reader.take(before is not None)
    named = _core(reader)
    side = before or _POST_SIDES.get(reader.text())
    if named is None:
        return None
    if side is None:  # the side is told with the place
        told = reader.text() in _ROUND and {reader.text(1), reader.text(2)} & set(_POST_SIDES)
        return named if told else None
    reader.take(before is None)
    return replace(named, stitch=replace(named.stitch, post=side))


_ROUND: Final = word_set("round around")


def _special(special: Special, reader: Reader) -> StitchName:
    stitch = special.stitch
    if stitch is None:
        stitch = one_word(special.name, reader.context.terms) or Stitch(special.name)
    return StitchName(stitch, special)


def _changed(stitch: Stitch, change: str) -> StitchName:
    if change == "dec":
        return StitchName(replace(stitch, together=2), change="dec")
    return StitchName(stitch, change="inc")


_RAISED: Final = {"rf": Post.FRONT, "rb": Post.BACK}


def _after(reader: Reader, named: StitchName) -> StitchName:
    """Read what makes another stitch of it: "2tog", "next 2 sts together", "dec", "cluster"."""
    if reader.text() == "/" and reader.text(1) in _RAISED and named.special is None:
        post = _RAISED[reader.text(1)]  # "tr/rf", raised at the front
        reader.take(2)
        return replace(named, stitch=replace(named.stitch, post=post))
    number = together(reader)
    if number:
        return replace(named, stitch=replace(named.stitch, together=number))
    into = _into_one(reader)
    if into and named.special is None and not named.change:
        return replace(named, change="inc", into=into)
    if reader.text() == "-" and reader.text(1) in _SHORT_CHANGES and named.special is None:
        reader.take()
    reader_sees_change = reader.text() in _CHANGES and named.special is None
    if reader_sees_change and not named.change:
        change = "inc" if reader.text() in INCREASES else "dec"
        reader.take()
        return _changed(named.stitch, change)
    if named.special is None and not named.change:
        return _of_legs(reader, named)
    return named


def _of_legs(reader: Reader, named: StitchName) -> StitchName:
    """Read "cluster", "popcorn" or "shell" behind the stitch that it is made of."""
    if named.stitch.kind not in _LEGS:
        return named
    if reader.accept_any(_FANS):
        return replace(named, fan=True)
    known = longest(reader.known, reader)
    if known is None or known[0].name not in _OF_LEGS:
        return named
    reader.take(known[1])
    return StitchName(Stitch(known[0].name or ""), legs=True)


def together(reader: Reader) -> int:
    """Read "2tog", "3 sts together", "next 2 sts tog"; 0 if nothing of it stands there."""
    ahead = 1 if reader.text() in {"-", "next"} else 0
    count = as_int(reader.number(ahead))
    after = ahead + 1
    if reader.text(after) in _STITCH_WORDS:
        after += 1
    if reader.text(after) == "-":
        after += 1
    if count is None or count < 2 or reader.text(after) not in _TOGETHER:  # noqa: PLR2004
        return 0
    reader.take(after + 1)
    return count


def _into_one(reader: Reader) -> int:
    """Read the "2inc" of "dc2inc": so many in one stitch; 0 if it does not stand there."""
    count = as_int(reader.number())
    if count is None or not 1 < count <= _MOST_INTO_ONE or reader.text(1) not in INCREASES:
        return 0
    reader.take(2)
    return count


def read_short_loop(reader: Reader) -> Loop | None:
    """Read "BLO" behind a stitch, in brackets too, or "back loop only" without an "in"."""
    ahead = 1 if reader.text() == "-" else 0
    loop = _SHORT_LOOPS_AFTER.get(reader.text(ahead))
    if loop is not None:
        reader.take(ahead + 1)
        reader.accept("only")
        return loop
    loop = _SHORT_LOOPS_AFTER.get(reader.text(1))
    if loop is not None and reader.text() in {"in", "("} and _short_ends(reader):
        reader.take(3 if reader.text() == "(" else 2)
        reader.accept("only")
        reader.accept("of")
        return loop
    return read_loop(reader) if reader.text() in _LOOP_SIDES else None


def _short_ends(reader: Reader) -> bool:
    return reader.text() == "in" or reader.text(2) == ")"


def read_loop(reader: Reader) -> Loop | None:
    """Read "the back loops only", "both loops", "3rd loop"; None if they do not stand there."""
    length = loop_length(reader, 0)
    if not length:
        return None
    ahead = 1 if reader.text() in {"the", "a"} else 0
    word = reader.text(ahead)
    third = reader.ordinal(ahead) is not None
    reader.take(length)
    if third:
        return Loop.THIRD
    return _SHORT_LOOPS_AFTER.get(word) or _LOOP_SIDES[word]


def loop_length(reader: Reader, ahead: int) -> int:
    """Count the tokens of "the back loops only" from some way ahead; 0 if it is not there."""
    start = ahead
    if reader.text(ahead) in {"the", "a"}:
        ahead += 1
    third = reader.ordinal(ahead)
    if reader.text(ahead) in _SHORT_LOOPS_AFTER:
        ahead += 1
    elif reader.text(ahead) in _LOOP_SIDES or (third is not None and third.value == (3,)):
        ahead += 2 if reader.text(ahead + 1) == "-" else 1
        if reader.text(ahead) not in _LOOP_WORDS:
            return 0
        ahead += 1
    else:
        return 0
    return ahead + (1 if reader.text(ahead) == "only" else 0) - start


def as_int(number: Number | None) -> int | None:
    """Give a number that is the same whole number in every size."""
    if number is None or not isinstance(number.value, tuple) or len(number.value) != 1:
        return None
    value = number.value[0]
    return value if isinstance(value, int) else None
