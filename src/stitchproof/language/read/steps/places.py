"""Where a stitch goes: the words after "in", "into", "around", "between" and "over".

Each reader stands behind the preposition. It gives None for words it does not know, and the whole
step is then unread: a place is exact or it is nothing.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import ONE, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.gaps import read_gap
from stitchproof.language.read.steps.left_open import read_skipped
from stitchproof.language.read.steps.marks import marked, seam
from stitchproof.language.read.steps.named_places import RINGS, in_words, ring
from stitchproof.language.read.steps.nouns import (
    BEGINNING,
    STITCHES,
    TURNING_CHAIN,
    chain_space_ahead,
    length_first,
    read_noun,
    read_nouns,
    turning_chain_ahead,
)
from stitchproof.language.read.steps.ordinals import MIDDLE, group_of, read_middle, read_nth
from stitchproof.language.read.steps.others import (
    BUT,
    all_others,
    any_left,
    apart_from,
    but_last,
    that_place,
)
from stitchproof.language.read.steps.place_parts import (
    accept_across,
    counted_noun,
    is_single,
    joined_by_and,
    of_noun,
    spread,
)
from stitchproof.language.read.steps.previous import below, pass_previous
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.remaining import until_there_are
from stitchproof.language.read.steps.rings import is_space, ring_length
from stitchproof.language.read.steps.rows_below import read_on
from stitchproof.language.read.steps.same import (
    at_base,
    joined_place,
    just_made,
    read_same,
    stops_here,
)
from stitchproof.language.read.steps.sides import (
    accept_row_end,
    begun,
    first_edge,
    on_foundation,
    outer_edge,
    read_opposite,
    read_row_ends,
    rows_of_stitch,
)
from stitchproof.language.read.steps.space_of_chain import space_of_chain
from stitchproof.language.read.steps.spaces_ahead import CHAINS, SPACES
from stitchproof.language.read.steps.stitches import loop_length, read_loop, starts_stitch
from stitchproof.language.read.steps.unnamed_groups import UNNAMED, pass_between
from stitchproof.language.read.steps.whose_space import block_of, of_group, of_space, within_each
from stitchproof.language.tree import (
    CHAIN,
    SPACE,
    STITCH,
    Below,
    Each,
    End,
    First,
    Last,
    Loop,
    Marked,
    Next,
    Noun,
    Nth,
    OppositeSide,
    Origin,
    Post,
    Same,
    SeamPlace,
    Skipped,
    Target,
    Thing,
    Until,
    Within,
)

IN: Final = word_set("in into")
EACH: Final = word_set("each every ea")
_WHICH: Final = word_set("next first last same each")
_FROM_HERE: Final = word_set("next following foll fol")
_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE))


@dataclass(frozen=True, slots=True)
class Place:
    """Where a stitch goes, with what the words for it say about loop and post."""

    at: Target
    loop: Loop | None = None
    post: Post = Post.NONE


def read_in(reader: Reader, made: bool = True) -> Place | None:  # noqa: FBT001, FBT002
    """Read what follows "in" or "into"; `made`: stitches of the line stand before it."""
    if reader.text() in EACH and loop_length(reader, 1):
        reader.take()  # "each front loop" is the front loop of each stitch
        loop = read_loop(reader)
        until = read_until(reader) if starts_until(reader) else End()
        return None if until is None else Place(Each(STITCH, until), loop)
    bump = 1 if reader.text() == "the" else 0
    if reader.text(bump) in {"back", "bottom"} and reader.text(bump + 1) in _BUMPS:
        reader.take(bump + 2)  # of a chain: which of its threads is taken makes no other stitch
    beside = reader.text(bump) in {"back", "side"} and reader.text(bump + 1) == "of"
    if (
        beside
        and not rows_of_stitch(reader, bump + 2)
        and (reader.text(bump + 2) in _WHICH or starts_stitch(reader, bump + 2))
    ):
        reader.take(bump + 2)  # behind it, or in its side: the same place
    loop = read_loop(reader)
    if loop is not None:
        reader.accept("of")
        if starts_until(reader):
            until = read_until(reader)
            return None if until is None else Place(Each(STITCH, until), loop)
        if stops_here(reader):
            return Place(Next(), loop)
        reader.accept_any(IN)
    reader.accept("of")
    target = read_target(reader, made=made)
    if isinstance(target, Next | Each | First | Last) and target.noun == UNNAMED:
        return None  # into which stitch of it is not said
    return None if target is None else Place(target, loop)


def read_target(reader: Reader, *, made: bool = True) -> Target | None:
    """Read a place without its preposition."""
    target = _target(reader, made)
    if target is None:
        return None
    if isinstance(target, Next | Each | Same | First | Last):
        pass_between(reader, target.noun)
        on = read_on(reader, target)
        if on != target:
            return on
        pass_previous(reader)
        return below(reader, target)
    pass_previous(reader)
    return target


def _target(reader: Reader, made: bool) -> Target | None:  # noqa: FBT001 - by what is seen
    known = any_left(reader, _each) or that_place(reader) or _skipped(reader)
    known = known or outer_edge(reader) or joined_place(reader) or space_of_chain(reader)
    if known is not None:
        return known
    text = reader.text()
    if text in {"base", "foot"} and at_base(reader):
        return First()  # "dc in base of ch-3"
    if text in EACH or text in {"all", "remaining", "rem"}:
        if all_others(reader):
            return Each()
        reader.take()
        return _each(reader)
    if text in BEGINNING and reader.text(1) not in CHAINS and starts_stitch(reader, 1):
        reader.take()
        noun = read_noun(reader)
        return None if noun is None or noun.thing is Thing.CHAIN else First(ONE, noun)
    if text in _FROM_HERE:
        reader.take()
        return _next(reader)
    if text == "both" and not loop_length(reader, 0):
        reader.take()
        noun = STITCH if stops_here(reader) else read_noun(reader)
        return None if noun is None else Next(plain(2), noun)
    read = _BY_WORD.get(text)
    if read is not None:
        reader.take()
        return read(reader)
    if reader.ordinal() is not None:
        return read_nth(reader, made=made)
    return _other(reader)


_BUMPS: Final = word_set("bump bumps ridge ridges hump humps bar bars")


def _skipped(reader: Reader) -> Skipped | Below | None:
    reader.pass_over(_ARTICLES)
    return read_skipped(reader)


_ARTICLES: Final = word_set("the a an this that these those your top any very")


def _other(reader: Reader) -> Target | None:
    if reader.text() in SPACES and reader.text(1) in {"between", "before", "after"}:
        return read_gap(reader, read_target)
    if reader.accept("of"):
        return _top(reader)
    words = in_words(reader)
    if words is not None:
        return words
    if reader.text() in MIDDLE:
        return read_middle(reader)
    if ring_length(reader) or (reader.text() in RINGS | {"loop"} and not is_space(reader)):
        return ring(reader)
    if reader.sees("marked") or reader.sees("marker"):
        return marked(reader)
    reader.take(reader.text() == "other" and (reader.number(1) is not None or is_single(reader)))
    number = reader.number()
    if number is not None and not chain_space_ahead(reader):
        reader.take()
        if stops_here(reader):  # "sc in 2, inc"
            return Next(number)
        noun = read_nouns(reader)
        return None if noun is None else spread(reader, Next(number, noun))
    other = seam(reader) or read_opposite(reader)
    if other is not None:
        return other
    noun = read_noun(reader)
    return None if noun is None else _named(reader, noun)


def _named(reader: Reader, noun: Noun) -> Target | None:
    """Read what may follow a noun alone: "sp just made", "ch-1 sp of each V-st"."""
    made = just_made(reader, noun)
    if made is not None:
        return made
    if noun.thing in _SPACES and accept_across(reader):
        return Each(noun)  # "sc in each dc and 2 sc in ch-2 sp across"
    if noun == SPACE and joined_by_and(reader) and starts_until(reader):
        until = read_until(reader)  # "sc in each st and sp to corner"
        return None if until is None else Each(noun, until)
    group = of_group(reader, noun) if noun.thing in _SPACES | {Thing.KIND} else None
    if group is not None:
        return group
    of_each = reader.text() == "of" and reader.text(1) in EACH | _FROM_HERE
    if noun.thing not in _SPACES or not of_each:
        return of_noun(reader, noun)
    reader.take()
    of = _target(reader, made=True)
    if isinstance(of, Each | Next) and of.noun.thing in {Thing.GROUP, Thing.KIND}:
        return replace(of, noun=noun)  # a group has one such space
    return None


def _top(reader: Reader) -> Target | None:
    """Read behind "top of": "beg ch-3", "3 ch", or a stitch, whose top is meant anyhow."""
    ahead = int(reader.text() in _ARTICLES)
    if counted := length_first(reader, ahead):
        reader.take(ahead + counted)
        return Next(ONE, TURNING_CHAIN)
    target = _target(reader, made=True)
    return Next(ONE, TURNING_CHAIN) if target == Next(ONE, CHAIN) else target


def _each(reader: Reader) -> Target | None:
    """Read behind "each": "of next 3 sts", "st across", "ch-1 sp to last 3 sts"."""
    reader.accept("of")
    reader.accept_any(word_set("the these those"))
    reader.take(reader.text() in {"remaining", "rem", "other"} and reader.number(1) is not None)
    if starts_until(reader):
        until = read_until(reader)
        return None if until is None else Each(STITCH, until)
    if reader.text() in SPACES and reader.text(1) == "between":
        return read_gap(reader, read_target, each=True)
    if reader.text() in _FROM_HERE | {"first", "1st", "last", "same"}:
        return _each_of_these(reader)
    number = reader.number()
    if number is not None and not chain_space_ahead(reader):
        reader.take()
        noun = STITCH if stops_here(reader) else read_nouns(reader)
        return None if noun is None else spread(reader, Next(number, noun))
    if stops_here(reader):
        return Each()  # "hdc in each"
    apart = apart_from(reader)
    noun = read_nouns(reader)
    if noun is None:
        return None
    if apart is not None:
        until = read_until(reader) if starts_until(reader) else End()
        return None if until is None else Each(noun, until, apart)
    pass_previous(reader)
    if noun.thing is Thing.ROW_END:
        return read_row_ends(reader, STITCH)
    if noun.thing is Thing.KIND and accept_row_end(reader):
        return read_row_ends(reader, noun)
    return within_each(reader, noun, _every) or _every(reader, noun)


def _each_of_these(reader: Reader) -> Target | None:
    """Read behind "each": "of next 3 sts", "foll ch-1 sp to end"."""
    if reader.text() in MIDDLE and reader.number(1) is not None and reader.text(2) in STITCHES:
        return read_middle(reader)  # "in each of center 2 sts", which come next
    following = reader.text() in _FROM_HERE - {"next"}
    target = _target(reader, made=True)
    if following and isinstance(target, Next) and target.number == ONE:
        return _every(reader, target.noun)
    return target


def _every(reader: Reader, noun: Noun) -> Target | None:
    """Read how far "each st" goes, and whether along the other side of the foundation."""
    other_side = on_foundation(reader) or (noun == CHAIN and first_edge(reader))
    until: Until | None = End()
    if reader.text() == "for" and reader.number(1) is not None and reader.text(2) in STITCHES:
        number = reader.number(1) or ONE
        reader.take(3)
        return Next(number, noun)
    many = until_there_are(reader)
    if many is not None:
        return Next(many, noun)
    if starts_until(reader):
        until = read_until(reader)
    if until == End() and reader.text() in BUT:
        until = but_last(reader)
    if until is None:
        return None
    if other_side or on_foundation(reader):
        return OppositeSide(Each(STITCH, until))
    return Each(noun, until)


def _next(reader: Reader) -> Target | None:
    if reader.text() in SPACES and reader.text(1) in {"between", "before", "after"}:
        return read_gap(reader, read_target)
    if reader.ordinal() is not None:
        ordinal = reader.ordinal()
        assert ordinal is not None
        reader.take()
        noun = read_noun(reader)
        return None if noun is None else Nth((ordinal,), noun, Origin.HERE)
    if reader.sees("seam"):
        reader.take()
        return SeamPlace("next")
    counted = counted_noun(reader)
    if counted is None:
        return None
    number, noun = counted
    if noun.thing is Thing.MARKED:
        return Marked()
    if noun.thing is Thing.CHAIN and reader.text() == "of" and turning_chain_ahead(reader):
        reader.accept("of")
        reader.accept("the")
        return Next(number, TURNING_CHAIN) if read_noun(reader) is not None else None
    if noun.thing is Thing.CHAIN:
        of_space(reader)
    elif noun.thing in _SPACES and block_of(reader, noun) is None:
        stands = reader.at
        if isinstance(group_of(reader), Nth):  # the next space is that of the next group
            reader.at = stands
    return spread(reader, Next(number, noun))


def _first(reader: Reader) -> Target | None:
    counted = counted_noun(reader)
    if counted is None:
        return None
    number, noun = counted
    single = number == ONE and noun.thing in _SPACES | {Thing.STITCH, Thing.KIND}
    if single and (group := group_of(reader)) is not None:
        return Within(ONE, noun, group)  # "first dc of next shell"
    if noun.thing is Thing.CHAIN and of_space(reader):
        return Next(number, noun)
    if noun.thing is Thing.CHAIN and begun(reader):
        reader.opposite = True
        return OppositeSide(Next(number))
    return First(number, noun)


def _last(reader: Reader) -> Target | None:
    if reader.text() in {"made", "worked"}:
        return None
    counted = counted_noun(reader)
    if counted is None:
        return None
    number, noun = counted
    if reader.accept_any(word_set("made worked")):
        return Same(noun) if number == ONE else None
    return Last(number, noun)


_BY_WORD: Final[Mapping[str, Callable[[Reader], Target | None]]] = MappingProxyType(
    dict.fromkeys(("first", "1st"), _first)
    | dict.fromkeys(("last", "final"), _last)
    | {"same": read_same}
)
