"""What a stated count counts: `sts`, `dc`, `ch-2 sps`, `V-sts`, `shells`."""

import re
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.tree import CHAIN, SPACE, STITCH, Noun, Post, Special, Stitch, Thing
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit, read.

    Attributes
    ----------
    noun : Noun
        Of what.
    words : str
        Singular, lower case: `st`, `ch-2 sp`, `shell`.
    end : int
        Index behind its last token.
    known : bool
        It is a unit of the trade or one the author defined; any other word may be one in brackets.
    """

    noun: Noun
    words: str
    end: int
    known: bool = True


_STITCHES: Final = frozenset(("st", "sts", "stitch", "stitches"))
_SPACES: Final = MappingProxyType(
    {
        **dict.fromkeys(("sp", "sps", "space", "spaces"), "sp"),
        **dict.fromkeys(("lp", "lps", "loop", "loops", "arch", "arches"), "lp"),
    }
)
_OPENINGS: Final = word_set(
    "corner corners buttonhole buttonholes eyelet eyelets gap gaps hole holes opening openings"
    " point points picot picots peak peaks tip tips underarm underarms"
)
_CHAINS: Final = frozenset(("ch", "chs", "chain", "chains"))
_UNDER: Final = word_set("underarm underarms armhole")
_HALVED: Final = word_set("shell fan scallop motif petal cluster")
_BRIDGES: Final = word_set("handle handles armhole armholes strap straps thumbhole thumbholes")
_GROUPS: Final = word_set(
    "block box point repeat rep group fan cross petal mesh star motif leaf scallop"
    " square pair corner x-st cable bar buttonhole eyelet wave diamond chevron ripple spoke bump"
    " ridge tile ray"
)
_SIZED: Final = word_set("large small big long short full whole complete finished new")
_OPEN: Final = word_set("mesh lace filet net open")
_NO_UNIT: Final = word_set(
    "in into to times time x more from of for on and or the next each around across"
    " row rows rnd rnds round rounds below over at with per skip sk turn join total"
    " ball balls twice once through tog together size sizes cm mm inches years first"
    " last same evenly up down along here now see as is"
)
_HOLDING: Final = frozenset(("group", "gr", "grp"))
_LONGEST: Final = 5  # tokens of a stitch name: `front post half double crochet`


def read_unit(
    tokens: Sequence[Token], at: int, terms: Terms, specials: Mapping[str, Special]
) -> Unit | None:
    """Read the unit that starts at a token."""
    if at >= len(tokens):
        return None
    if tokens[at].kind is TokenKind.NUMBER:
        return _counted_space(tokens, at) or _counted_group(tokens, at, terms)
    if tokens[at].kind is not TokenKind.WORD:
        return None
    word = tokens[at].text
    if word in _STITCHES:
        return Unit(STITCH, "st", at + 1)
    if word in _SPACES:
        return Unit(SPACE, _SPACES[word], at + 1)
    if word in _CHAINS:
        return _chain(tokens, at)
    if word in _SIZED and at + 1 < len(tokens):
        return read_unit(tokens, at + 1, terms, specials)  # `1 large buttonhole`
    return (
        _of_a_place(word, _text(tokens, at + 1), at)
        or _of_stitches(tokens, at, terms)
        or _named(tokens, at, terms, specials)
        or _other(tokens, at)
    )


def _of_a_place(word: str, after: str, at: int) -> Unit | None:
    """Read `mesh sps`, `underarm chs`, `corner sps`: chains by where they are."""
    if word in _OPEN and after in _SPACES:
        return Unit(SPACE, f"{word} {_SPACES[after]}", at + 2)
    if word in _UNDER and after in _CHAINS:
        return Unit(Noun(Thing.CHAIN, "underarm"), "underarm ch", at + 2)
    if word in _BRIDGES:
        return Unit(Noun(Thing.CHAIN, "handle"), word.removesuffix("s"), at + 1)
    if word == "corner" and after in _SPACES:
        return Unit(Noun(Thing.SPACE, "corner"), "corner sp", at + 2)
    if word == "half" and _singular(after) in _HALVED:
        words = f"half {_singular(after)}"  # `5 shells, 2 half shells`: counted apart
        return Unit(Noun(Thing.GROUP, words), words, at + 2, known=False)
    return None


def _of_stitches(tokens: Sequence[Token], at: int, terms: Terms) -> Unit | None:
    """Read `groups of 3 dc`, `pairs of hdc`, `petals of 9 sts`: named by what one holds."""
    if _text(tokens, at + 1) != "of" or at + 2 >= len(tokens):
        return None
    start = at + 2
    size = _as_int(tokens[start])
    if size is not None:
        start += 1
    elif _singular(tokens[at].text) == "pair":
        size = 2
    if size is None:
        return None
    for end in range(min(start + _LONGEST, len(tokens)), start, -1):
        words = " ".join(t.text for t in tokens[start:end])
        named = stitches.named(words, terms)
        if named is not None or words in _STITCHES:
            kind = "st" if named is None else _spelled(named)
            return _of_size(size, kind, end)
    return _of_size(size, "st", start)


def _of_size(size: int, kind: str, end: int) -> Unit:
    words = f"{size}-{kind} group"
    return Unit(Noun(Thing.GROUP, words), words, end)


def _spelled(named: stitches.Named) -> str:
    return Stitch(named.kind, post=Post(named.post), together=named.together).name


def _counted_space(tokens: Sequence[Token], at: int) -> Unit | None:
    """Read `1-ch sps`, `2ch-sps`."""
    chains = _as_int(tokens[at])
    end = at + 2 if _text(tokens, at + 1) == "-" else at + 1
    if chains is None or _text(tokens, end) not in _CHAINS:
        return None
    end += 2 if _text(tokens, end + 1) == "-" else 1
    space = _SPACES.get(_text(tokens, end))
    if space is None:
        return None
    return Unit(Noun(Thing.CHAIN_SPACE, chains=chains), f"ch-{chains} {space}", end + 1)


def _counted_group(tokens: Sequence[Token], at: int, terms: Terms) -> Unit | None:
    """Read `3-dc groups`, `5-double crochet group`: a group that is named by what it holds."""
    size = _as_int(tokens[at])
    start = at + 2 if _text(tokens, at + 1) == "-" else at + 1
    for end in range(min(start + _LONGEST, len(tokens)), start, -1):
        words = " ".join(t.text for t in tokens[start:end])
        named = stitches.named(words, terms)
        known = named is not None or words in _STITCHES
        after = end + 1 if _text(tokens, end) == "-" else end
        if size is not None and known and _singular(_text(tokens, after)) in _HOLDING:
            return _of_size(size, "st" if named is None else _spelled(named), after + 1)
    return None


def _as_int(token: Token) -> int | None:
    value = token.number.value if token.number else None
    one = value[0] if isinstance(value, tuple) and len(value) == 1 else None
    return one if isinstance(one, int) else None


def _chain(tokens: Sequence[Token], at: int) -> Unit:
    """Read `chs`, `ch sp`, `ch-2 sps`, `ch2 spaces`."""
    end = at + 1
    if _text(tokens, end) == "-":
        end += 1
    chains: int | None = None
    if end < len(tokens) and tokens[end].kind is TokenKind.NUMBER:
        chains = _as_int(tokens[end])
        end += 1
    if _text(tokens, end) == "-":
        end += 1
    end += _text(tokens, end) == "corner"
    space = _SPACES.get(_text(tokens, end))
    if chains is not None and _text(tokens, end) in _OPENINGS:
        space = "sp"
    if space is None:
        return Unit(CHAIN, "ch", at + 1)
    words = f"ch-{chains} {space}" if chains is not None else f"ch-{space}"
    return Unit(Noun(Thing.CHAIN_SPACE, chains=chains), words, end + 1)


def _named(
    tokens: Sequence[Token], at: int, terms: Terms, specials: Mapping[str, Special]
) -> Unit | None:
    """Read the longest stitch or group name of the trade or of the author."""
    spelled: list[tuple[str, int]] = []
    words = tokens[at].text
    spelled.append((words, at + 1))
    for i in range(at + 1, min(at + _LONGEST, len(tokens))):
        token = tokens[i]
        if token.text in {",", ".", ";", ")", "]", "}", "("}:
            break
        gap = token.place.start - tokens[i - 1].place.end
        words = f"{words}{' ' if gap else ''}{token.text}"
        spelled.append((words, i + 1))
    for words, end in reversed(spelled):
        found = _one_name(words, terms, specials)
        if found:
            # `dc sts` is a dc, `dc groups` is a group.
            after = _text(tokens, end)
            if _singular(after) == "group":
                return Unit(Noun(Thing.GROUP, f"{found[1]} group"), f"{found[1]} group", end + 1)
            if after in _SPACES and found[0].thing is not Thing.STITCH:  # `picot loops`
                name = f"{found[1]} {_SPACES[after]}"
                return Unit(Noun(Thing.GROUP, name), name, end + 1)
            return Unit(found[0], found[1], end)
    return None


_STITCH_WORD: Final = re.compile(r"\bst(?:s|itch|itches)$")


def _one_name(words: str, terms: Terms, specials: Mapping[str, Special]) -> tuple[Noun, str] | None:
    short = _STITCH_WORD.sub("st", words)
    for name in dict.fromkeys((words, _singular(words), short)):
        if name in specials:
            return _of_special(name, specials[name]), name
    named = stitches.named(words, terms)
    if named is None or len(words) < 2:  # noqa: PLR2004 - no stitch is one letter
        return None
    bare = words.removesuffix(" sts").removesuffix(" st").removesuffix(" stitches")
    name = short if bare in {"sl", "slip"} else _singular(bare)
    kind = stitches.stitches()[named.kind]
    if kind.group:
        return Noun(Thing.GROUP, named.kind), name
    stitch = Stitch(named.kind, post=Post(named.post), together=named.together)
    return Noun(Thing.KIND, stitch.name), name


def _of_special(name: str, special: Special) -> Noun:
    """Give the noun of a stitch the author defined: the stitch it is, or a group of that name."""
    made = special.stitch
    if made is None or made.kind not in stitches.stitches() or _is_group(made.kind):
        return Noun(Thing.GROUP, name if made is None else made.kind)
    return Noun(Thing.KIND, made.name)


def _is_group(kind: str) -> bool:
    return stitches.stitches()[kind].group


def _other(tokens: Sequence[Token], at: int) -> Unit | None:
    """Read a word the trade does not know: `petals`, `boxes`."""
    word = tokens[at].text
    if word not in _NO_UNIT and _text(tokens, at + 1) in _STITCHES:
        return Unit(STITCH, "st", at + 2)  # `heel sts`, `live sts`
    if word in _NO_UNIT or len(word) < 3:  # noqa: PLR2004 - no thing is named by two letters
        return None
    name = _singular(word)
    end = at + 1
    if _text(tokens, end) in _SPACES:  # `picot loops`
        name, end = f"{word} {_SPACES[tokens[end].text]}", end + 1
    return Unit(Noun(Thing.GROUP, name), name, end, known=name in _GROUPS)


def _singular(word: str) -> str:
    for tail, put in (
        ("boxes", "box"),
        ("crosses", "cross"),
        ("leaves", "leaf"),
        ("meshes", "mesh"),
    ):
        if word.endswith(tail):
            return word[: -len(tail)] + put
    if word.endswith("stitches"):
        return word[:-2]
    if word.endswith("ss") or not word.endswith("s"):
        return word
    return word[:-1]


def _text(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].text if at < len(tokens) else ""
