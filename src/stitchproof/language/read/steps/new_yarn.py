"""New yarn: "join yarn in next st", "rejoin B at underarm", "attach yarn with sl st"."""

from typing import Final

from stitchproof.language.number import ONE
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.read.steps.colours import is_yarn
from stitchproof.language.read.steps.gaps import read_between
from stitchproof.language.read.steps.left_open import unworked_before
from stitchproof.language.read.steps.ordinals import MIDDLE
from stitchproof.language.read.steps.places import IN, read_in, read_target
from stitchproof.language.read.steps.reader import OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS, SPACES
from stitchproof.language.read.steps.stitches import longest, read_stitch, starts_stitch
from stitchproof.language.read.steps.yarn_names import yarn_name
from stitchproof.language.tree import (
    CHAIN,
    Between,
    Colour,
    Facing,
    FastenOff,
    First,
    Group,
    Join,
    JoinYarn,
    Make,
    Next,
    Nth,
    OppositeSide,
    Origin,
    Remark,
    Repeat,
    Same,
    Skip,
    Skipped,
    Step,
    Steps,
    Stitch,
    Thing,
    Turn,
)

TO: Final = IN | {"to", "at", "on"}


YARN: Final = word_set("yarn wool thread ball skein")


JOINERS: Final = word_set("join joining joined")


_NAMES_OF_SLIP: Final = "sl_st"


_LONGEST_NAME: Final = 3  # words of a colour


def is_slip(reader: Reader) -> bool:
    """Tell whether a slip stitch is named at the cursor."""
    known = longest(reader.known, reader)
    slips = known is not None and known[0].name == _NAMES_OF_SLIP
    return slips and not _MARKERS & {reader.text(i) for i in (1, 2, 3)}


_MARKERS: Final = word_set("marker markers")


def slip_name(reader: Reader) -> bool:
    """Read "sl st", "invisible join" behind "with a"."""
    if reader.text() in _UNSEEN and reader.text(1) in JOINERS:
        reader.take(2)
        return True
    if not is_slip(reader):
        return False
    read_stitch(reader)
    return True


_UNSEEN: Final = word_set("invisible inv needle seamless")


def stops(reader: Reader) -> bool:
    """Tell whether no place follows a join or new yarn."""
    text = reader.text()
    return reader.ended() or text in STOPS or text in OPENING or text in {"and", "then", "turn"}


def standing(reader: Reader, start: int) -> Steps | None:
    """Join with a stitch: the yarn begins there and the stitch goes into that place."""
    named = read_stitch(reader)
    if named is None:
        return None
    looped = reader.tokens[reader.at - 1].text == "of"  # "sc in BLO of any st"
    if not looped and not reader.accept_any(TO):
        return None
    place = read_in(reader)
    if place is None:
        return None
    loop = place.loop or named.stitch.loop
    span = reader.span(start)
    stitch = Stitch(named.stitch.kind, loop=loop)
    return (JoinYarn(place.at, place=span), Make(stitch, ONE, Same(), span))


def as_yarn(steps: Steps, frame: Frame, *, left: bool = False) -> Steps:
    """Take "join with sl st in any sp" before anything is made for new yarn joined there.

    `left`: it goes into a stitch that was left, "in first free st".
    """
    step = steps[0]
    fresh = all(isinstance(s, Colour | Remark | Facing | Skip) for s in frame.steps)
    coloured = any(isinstance(s, Colour | Facing) for s in frame.steps) or _in_space(step)
    if not isinstance(step, Join) or step.ring or not fresh:
        return steps
    # `sk next 27 dc for neck, join in next dc`: nothing is closed beyond stitches passed over
    skipped = any(isinstance(s, Skip) for s in frame.steps)
    beyond = skipped and (step.at is None or isinstance(step.at, Next))
    if not beyond and (step.at is None or not (coloured or left)):
        return steps
    return (JoinYarn(step.at, place=step.place),)


def _in_space(step: Step) -> bool:
    """Tell whether a join goes into a space: no round is closed there before it is worked."""
    at = step.at if isinstance(step, Join) else None
    if isinstance(at, Between):
        return True
    return isinstance(at, Next) and at.noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}


def join_colour(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read "join B in first st", "join White"."""
    token = reader.token()
    if token is None or token.kind is not TokenKind.WORD:
        return None
    named = reader.token(1)
    if reader.text() in _COLOUR and named is not None and named.written[:1].isupper():
        reader.take()  # "color B"
    at = reader.at
    while reader.text() not in TO | {"with", "behind"} and not stops(reader):
        if reader.at - at >= _LONGEST_NAME:
            return None
        if reader.number() is not None and not _numbers_yarn(reader, at):
            return None
        reader.take()
    colour = Colour(yarn_name(reader.words(at)), place=reader.span(at))
    joined = read_join_yarn(reader, frame, start)
    if joined and _closes_round(joined[0], frame):
        assert isinstance(joined[0], JoinYarn)
        return (colour, Join(joined[0].at, place=joined[0].place))
    return None if joined is None else (colour, *joined)


def _numbers_yarn(reader: Reader, first: int) -> bool:
    """Tell whether a number is part of a name that begins at `first`: "CC2", "color 3"."""
    if reader.at == first:
        return False
    before = reader.tokens[reader.at - 1]
    return not reader.apart(reader.at - 1) or before.text in _NUMBERED


_COLOUR: Final = word_set("color colour shade")
_NUMBERED: Final = word_set("color colour shade cc")


def _closes_round(step: Step, frame: Frame) -> bool:
    """Tell whether "join B with sl st to first sc" behind a round closes it with the new yarn."""
    made = [s for s in frame.steps if isinstance(s, Make | Group | Repeat)]
    ended = any(isinstance(s, FastenOff | Join | Turn) for s in frame.steps)
    if not isinstance(step, JoinYarn) or not made or ended:
        return False
    match step.at:
        case First() | Nth(origin=Origin.TURNING_CHAIN):
            return True
        case Next(noun=noun):
            return noun.thing is Thing.TURNING_CHAIN
        case _:
            return False


def read_join_yarn(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read behind "join yarn", "rejoin", "attach"."""
    unworked_before(frame)
    if reader.text() in YARN and _names_yarn(reader):
        reader.take()
        return join_colour(reader, frame, start)
    reader.pass_over(YARN | word_set("new the main color colour again a another second of"))
    if reader.ordinal() is not None and reader.text(1) in YARN:
        reader.take(2)
        reader.accept("of")
        reader.accept_any(YARN)
    side = _side_first(reader)
    if side:
        facing = Facing(side, reader.span(start))
        steps = _joined_at(reader, start)
        return None if steps is None else (facing, *steps)
    if reader.accept("with"):
        reader.accept("a")
        if not starts_stitch(reader):
            return None
        if not is_slip(reader):
            return standing(reader, start)
        read_stitch(reader)
    return _joined_at(reader, start)


def _side_first(reader: Reader) -> str:
    """Read "with RS facing" between "rejoin yarn" and its place: the side; empty: none stands."""
    ahead = 2 if reader.text(1) == "the" else 1
    side = {"rs": "RS", "ws": "WS", "right": "RS", "wrong": "WS"}.get(reader.text(ahead), "")
    ahead += 2 if reader.text(ahead + 1) == "side" else 1
    if reader.text() != "with" or not side or reader.text(ahead) != "facing":
        return ""
    reader.take(ahead + 1)
    reader.accept_any(word_set("you up out"))
    return side


def _joined_at(reader: Reader, start: int) -> Steps | None:
    """Read where the yarn is joined."""
    _pass_behind(reader)
    if stops(reader):
        return (JoinYarn(place=reader.span(start)),)
    if reader.accept("between"):
        gap = read_between(reader, read_target)
        return None if gap is None else (JoinYarn(gap, place=reader.span(start)),)
    if not reader.accept_any(TO):
        return None
    return yarn_at(reader, start)


def _names_yarn(reader: Reader) -> bool:
    """Tell whether "B", "MC" stands behind "yarn"."""
    name = reader.token(1)
    if name is None or name.kind is not TokenKind.WORD or not name.written[:1].isupper():
        return False
    ahead = 3 if reader.number(2) is not None and not reader.apart(reader.at + 1) else 2
    behind = reader.text(ahead)
    return behind in TO | STOPS | {"with"} or reader.ended_after(reader.at + ahead)


def _pass_behind(reader: Reader) -> None:
    """Go past "behind any petal": on which side of the work the yarn begins."""
    reader.pass_over(word_set("behind any petal a the") if reader.text() == "behind" else YARN)


def read_rejoin(reader: Reader, frame: Frame) -> Steps | None:
    """Read "rejoin yarn in next st", "rejoin B at underarm", "attach B with sl st in first st"."""
    start = reader.at
    reader.take()
    pass_in(reader)
    plain = reader.text() in YARN | TO | word_set("new the main color colour with")
    plain = plain and not (reader.text() in _COLOUR and reader.number(1) is not None)
    if plain or stops(reader):
        return read_join_yarn(reader, frame, start)
    return join_colour(reader, frame, start)


def pass_in(reader: Reader) -> None:
    """Go past "in" of "join in yarn B", "in new colour", "in B": what is joined, not where."""
    token = reader.token(1)
    if reader.text() != "in" or token is None:
        return
    named = is_yarn(token) and reader.text(2) in STOPS | {"", "with"}
    if named or token.text in YARN | _COLOUR | {"new", "another"}:
        reader.take()


def yarn_at(reader: Reader, start: int) -> Steps | None:
    """Read where the yarn begins; words for an edge that is no stitch are kept as they are."""
    where = reader.at
    here = _where_it_stands(reader)
    if here:
        reader.take(here)
        return (JoinYarn(place=reader.span(start)),)
    if _is_named_place(reader) and not _under_arm(reader):
        target = read_target(reader)
        if target is not None and reader.accept("with"):
            reader.accept("a")
            slip_name(reader)
        earlier = reader.tokens[reader.at - 1].number is not None  # "skipped st of Rnd 8"
        founded = any(token.text in _FOUNDATION for token in reader.tokens[where : reader.at])
        opposite = reader.opposite or founded  # "to first foundation ch"
        if opposite and isinstance(target, First | Next) and target.noun == CHAIN:
            target = OppositeSide(Next(target.number))
        if target is not None and stops(reader) and not (isinstance(target, Skipped) and earlier):
            return (JoinYarn(target, place=reader.span(start)),)
    reader.take_until({",", ";", ".", "(", "["})
    of = reader.words(where)
    return (JoinYarn(None, of=of, place=reader.span(start)),) if of else None


_FOUNDATION: Final = word_set("foundation base original")


def _under_arm(reader: Reader) -> bool:
    """Tell whether "first underarm ch" stands there: it lies below the edge that is worked on."""
    ahead = 0
    while reader.text(ahead) in _WHICH or reader.ordinal(ahead) is not None:
        ahead += 1
    return reader.text(ahead) in _UNDER and reader.text(ahead + 1) in CHAINS


_WHICH: Final = word_set("the a any first last next middle centre center of same")
_UNDER: Final = word_set("underarm armhole")


def _where_it_stands(reader: Reader) -> int:
    """Count the tokens of "end of last rnd", "beg of next row": where the hook is; 0: elsewhere."""
    ahead = 1 if reader.text() in {"the", "very"} else 0
    which = _ENDED if reader.text(ahead) == "end" else _BEGUN
    if reader.text(ahead) not in _ROW_ENDS or reader.text(ahead + 1) != "of":
        return 0
    ahead += 2
    while reader.text(ahead) in which:
        ahead += 1
    ahead += 1
    if reader.text(ahead - 1) not in ROWS:
        return 0
    return ahead if not reader.text(ahead) or reader.text(ahead) in STOPS | OPENING.keys() else 0


_ROW_ENDS: Final = word_set("end beg beginning start")
_ENDED: Final = word_set("the this that last previous each every")
_BEGUN: Final = word_set("the this next each every")


def _is_named_place(reader: Reader) -> bool:
    """Tell whether a stitch, a space, a seam or a marker is named before the next stop."""
    ahead = 0
    while reader.text(ahead) in {"the", "a", "any", "one"}:
        ahead += 1
    if reader.text(ahead) in MIDDLE or reader.text(ahead + 1) == "seam":
        return True
    if reader.text(ahead) in _NAMED | CHAINS | SPACES or reader.ordinal(ahead) is not None:
        return True
    counted = reader.number(ahead) is not None
    return counted or (ahead > 0 and starts_stitch(reader, ahead))


_NAMED: Final = word_set(
    "next following foll first last same each marked seam shoulder ring skipped missed st top"
    " corner stitch underside"
)
