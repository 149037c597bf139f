"""Stitches as they are made, and the nouns that places are counted in."""

from enum import Enum

from stitchproof.base.records import dataclass


class Loop(Enum):
    """Which loops of the stitch below the hook takes."""

    BOTH = "both"
    BACK = "back"
    FRONT = "front"
    THIRD = "third"

    __hash__ = object.__hash__  # there is one object of each; that of `Enum` takes a call


class Post(Enum):
    """Around which side of a post the hook goes."""

    NONE = "none"
    FRONT = "front"
    BACK = "back"

    __hash__ = object.__hash__  # there is one object of each; that of `Enum` takes a call


@dataclass(frozen=True, slots=True)
class Stitch:
    """A stitch as it is made.

    Attributes
    ----------
    kind : str
        Key of `trade.stitches` ("sc", "hdc", "dc", "tr", "sl_st" ...), or the name of a stitch the
        author defined, lower case.
    loop : Loop
        Loops taken.
    post : Post
        Post side, for FPdc and BPdc; `kind` stays the plain stitch.
    together : int
        How many stitches below are drawn together into one (dc2tog: 2); 1 for a plain stitch.
    """

    kind: str
    loop: Loop = Loop.BOTH
    post: Post = Post.NONE
    together: int = 1

    @property
    def name(self) -> str:
        """Name on the edge and in tallies: `dc`, `fpdc`, `dc2tog`; loops make no other stitch."""
        if self.post is Post.NONE and self.together == 1:
            return self.kind
        post = {Post.NONE: "", Post.FRONT: "fp", Post.BACK: "bp"}[self.post]
        return f"{post}{self.kind}{f'{self.together}tog' if self.together > 1 else ''}"


class Thing(Enum):
    """What kind of place a noun names."""

    STITCH = "st"  # any stitch: "st"
    KIND = "kind"  # stitches of one kind: "dc", "FPtr"; `kind` says which
    CHAIN = "ch"  # single chains: "each ch"
    STITCH_OR_CHAIN = "st or ch"  # "each st and ch"
    SPACE = "sp"  # any space: "next sp", "next lp"
    CHAIN_SPACE = "ch-sp"  # "ch-2 sp", `chains` says how many; None: "ch-sp"
    GROUP = "group"  # a named group of the author's: "shell", "V-st"; `kind` says which
    RING = "ring"  # the centre ring, or a space used as one
    TURNING_CHAIN = "tch"  # "top of turning ch", "top of beg ch-3"
    ROW_END = "row end"
    SEAM = "seam"
    MARKED = "marked st"

    __hash__ = object.__hash__  # there is one object of each; that of `Enum` takes a call


@dataclass(frozen=True, slots=True)
class Noun:
    """The things a place is counted in.

    Attributes
    ----------
    thing : Thing
        What it is.
    kind : str
        Stitch name for KIND ("dc", "fptr"), group name for GROUP ("shell"); what the
        row was worked in for a ROW_END, where that is told; "corner" for a STITCH or a SPACE at
        a corner; "underarm" for a CHAIN that bridges one; else empty.
    chains : int or None
        Number of chains of a CHAIN_SPACE, where said.
    """

    thing: Thing
    kind: str = ""
    chains: int | None = None


STITCH = Noun(Thing.STITCH)
CHAIN = Noun(Thing.CHAIN)
SPACE = Noun(Thing.SPACE)
TURNING_CHAIN = Noun(Thing.TURNING_CHAIN)
MARKED = Noun(Thing.MARKED)
