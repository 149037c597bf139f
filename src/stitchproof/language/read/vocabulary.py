"""Words for stitches, as tokens meet them, by the dialect of the text.

Names of several words ("half double crochet", "V-st", "sl st") are looked up word by word in a
tree; hyphens between the words do not matter. What comes out is in US stitches.
"""

from collections.abc import Mapping
from dataclasses import field
from functools import lru_cache
from operator import is_
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.language.tree import Loop, Post, Special, Stitch
from stitchproof.trade.stitches import named, stitches, words
from stitchproof.trade.tables import Terms

_POSTS: Final = MappingProxyType({"none": Post.NONE, "front": Post.FRONT, "back": Post.BACK})
# Both systems' words that no table of stitches holds, because they are no stitch of a row.
_ALSO: Final = MappingProxyType(
    {
        "slip": "sl_st",
        "slst": "sl_st",
        "s/s": "sl_st",
    }
)
# Abbreviations of the other system that mean one thing only, kept where the text mixes them.
_LENT: Final = MappingProxyType({"US": {"htr": "hdc"}, "UK": {"sc": "sc", "hdc": "hdc"}})
INCREASES: Final = frozenset(("inc", "incs", "increase", "increases"))
DECREASES: Final = frozenset(
    ("dec", "decs", "decrease", "decreases", "invdec", "invdecs", "idec", "invsc2tog")
)

_SHORTEST_SLIP: Final = 5  # letters


@dataclass(slots=True)
class Branch:
    """A place in the tree of names.

    Attributes
    ----------
    to : dict of str to Branch
        By the next word.
    name : str or None
        The name that ends here: a stitch id, or the lower-case name of an author's special.
    special : Special or None
        Set where the name is an author's.
    """

    to: dict[str, "Branch"] = field(default_factory=dict)
    name: str | None = None
    special: Special | None = None


def split_name(name: str) -> tuple[str, ...]:
    """Cut a name the way the lexer cuts text: at spaces, hyphens and between letter and digit."""
    parts: list[str] = []
    for word in name.lower().replace("-", " ").replace("_", " ").split():
        start = 0
        for i in range(1, len(word)):
            if word[i].isdigit() != word[i - 1].isdigit() or "/" in word[i - 1 : i + 1]:
                parts.append(word[start:i])
                start = i
        parts.append(word[start:])
    return tuple(parts)


def _add(root: Branch, name: str, means: str, special: Special | None = None) -> None:
    branch = root
    for part in split_name(name):
        branch = branch.to.setdefault(part, Branch())
    if branch is not root and (branch.name is None or special is not None):
        branch.name, branch.special = means, special


@lru_cache(maxsize=4)
def names(terms: Terms) -> Branch:
    """Give the tree of stitch names of a system; it must not be changed."""
    root = Branch()
    for table in (words(terms), _LENT[terms], _ALSO):
        for word, kind in table.items():
            _add(root, word, kind)
    return root


class _Own:
    """The author's stitches as a key: alike if they are the very same objects under the same names.

    Every line of a manuscript asks for the same tree; comparing definitions by value would cost
    more than building it.
    """

    __slots__ = ("_hash", "names", "values")

    def __init__(self, specials: Mapping[str, Special]) -> None:
        self.names = tuple(specials)
        self.values = tuple(specials.values())
        self._hash = hash((self.names, tuple(map(id, self.values))))

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, _Own) or self.names != other.names:
            return False
        return all(map(is_, self.values, other.values))


def special_names(specials: Mapping[str, Special]) -> Branch:
    """Give the tree of the names an author defined, with their plurals; it must not be changed."""
    return _special_names(_Own(specials))


@lru_cache(maxsize=8)
def _special_names(own: _Own) -> Branch:
    specials = dict(zip(own.names, own.values, strict=True))
    root = Branch()
    for name in sorted(specials):
        special = specials[name]
        _add(root, name, special.name, special)
    for name in sorted(specials):
        special = specials[name]
        plural = name if name.endswith("s") else f"{name}s"
        _add_plural(root, plural, special)
        for other in _spelled_otherwise(name):
            _add_plural(root, other, special)
            _add_plural(root, f"{other}s" if other[-1] not in "sh" else f"{other}es", special)
    return root


def _spelled_otherwise(name: str) -> list[str]:
    """Give a name with a word spelled out or cut short: "Beginning Shell" for "beg shell"."""
    parts = split_name(name)
    found = []
    for one, other in (*_SPELLED, *((long, short) for short, long in _SPELLED)):
        if one in parts and len(parts) > 1:
            found.append(" ".join(other if part == one else part for part in parts))
    return found


_SPELLED: Final = (("beg", "beginning"), ("st", "stitch"), ("cl", "cluster"))


def _add_plural(root: Branch, plural: str, special: Special) -> None:
    branch = root
    for part in split_name(plural):
        branch = branch.to.setdefault(part, Branch())
    if branch.name is None and branch is not root:
        branch.name, branch.special = special.name, special


@lru_cache(maxsize=4096)
def one_word(word: str, terms: Terms) -> Stitch | None:
    """Read a stitch name that is one word but no row of the table: `fptr`, `bpdc`, `rtrf`."""
    stitch = named(word, terms)
    if stitch is None:
        return _with_loop(word, terms)
    return Stitch(stitch.kind, post=_POSTS[stitch.post], together=stitch.together)


_GLUED: Final[Mapping[str, Loop]] = MappingProxyType(
    {"blo": Loop.BACK, "flo": Loop.FRONT, "bl": Loop.BACK, "fl": Loop.FRONT}
)


def _with_loop(word: str, terms: Terms) -> Stitch | None:
    """Read a stitch with its loop in one word: `scblo`, `flohdc`, `blsc`."""
    for short, loop in _GLUED.items():
        for rest in (word.removesuffix(short), word.removeprefix(short)):
            stitch = named(rest, terms) if rest != word else None
            if stitch is not None and stitch.post == "none" and not stitches()[stitch.kind].group:
                return Stitch(stitch.kind, loop=loop, together=stitch.together)
    return None


@lru_cache(maxsize=1024)
def near(word: str, terms: Terms) -> str:
    """Give the known name that a word most resembles, or nothing."""
    from difflib import get_close_matches

    if not 1 < len(word) <= 20:  # noqa: PLR2004 - longer words are no slip of a stitch name
        return ""
    swapped = [known for known in words(terms) if sorted(known) == sorted(word)]
    if swapped:
        return swapped[0]
    alike = [known for known in words(terms) if abs(len(known) - len(word)) <= 1]
    found = get_close_matches(word, alike, n=1, cutoff=0.8)
    return found[0] if found else ""


def misspelt(word: str, terms: Terms) -> str:
    """Give the long word of a stitch name that a word is a slip of ("duoble"), or nothing."""
    from difflib import get_close_matches

    if not _SHORTEST_SLIP <= len(word) <= 20:  # noqa: PLR2004 - longer words are no slip
        return ""
    parts = sorted({p for name in words(terms) for p in name.split() if len(p) >= _SHORTEST_SLIP})
    if word in parts:
        return ""
    swapped = [part for part in parts if sorted(part) == sorted(word)]
    found = swapped or get_close_matches(word, parts, n=1, cutoff=0.86)
    return found[0] if found else ""
