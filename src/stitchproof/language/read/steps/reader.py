"""The state of reading one line: a cursor over its tokens and what is known so far.

The cursor only goes forward. What follows is decided by looking at the next few tokens; a reader
that cannot go on gives up, and the words from where it began to the next stop become unread.
"""

from bisect import bisect_left
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import field
from typing import Final

from stitchproof.base.diagnostics import Diagnostic, Finding
from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.size_names import NO_SIZES, SizeNames
from stitchproof.language.read.vocabulary import Branch, names, special_names
from stitchproof.language.tree import Group, Loop, Make, Remark, Special, Step, Target
from stitchproof.trade.tables import Terms

OPENING: Final = {"(": ")", "[": "]", "{": "}"}
CLOSING: Final = frozenset(OPENING.values())
STOPS: Final = frozenset((",", ";", ".", ":", "–", "—", "-", "…", "+", "&", "/", "!"))
MARKS: Final = frozenset(("*", "**", "***", "#", "##", "†", "††", "‡", "^", "^^", "§", "°", "◊"))
JOINING: Final = word_set("and then plus but now")


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What is known around a line.

    Attributes
    ----------
    terms : str
        Whose stitch names the text uses.
    specials : mapping of str to Special
        Stitches the author defined, by lower-case name.
    rounds : bool or None
        Whether the line is a round; None: not known.
    main : str
        Stitch of a bare "inc" or "dec" where the line itself names none.
    several : bool
        Whether the label covers several rows: "for 4 rounds" says no more than it does.
    sizes : SizeNames
        What the sizes are called, where that is known.
    behind : bool
        Whether the words stand behind others of their line that say what is worked.
    """

    terms: Terms = "US"
    specials: Mapping[str, Special] = field(default_factory=dict)
    rounds: bool | None = None
    main: str = "sc"
    several: bool = False
    sizes: SizeNames = NO_SIZES
    behind: bool = False


@dataclass(slots=True, kw_only=True)
class Reader:
    """A cursor over the tokens of one line, and what reading has gathered.

    Attributes
    ----------
    tokens : sequence of Token
        The line.
    said : frozenset of str
        The folded characters of its tokens: what never stands there need not be looked for.
    at : int
        Index of the next token.
    partner : list of int
        For every bracket the index of its partner, -1 where it has none.
    known, special : Branch
        Names of the dialect, and of the author.
    one_place : bool
        Whether a bare "3 sc" is three in one place rather than one in each of three.
    open_bare : bool
        Whether that mattered somewhere.
    terse : bool
        Whether the line shows that it counts one in each: "sc, inc", "1 sc, 12 sc".
    loop : Loop
        Loop that the line works in unless a stitch says otherwise.
    opposite : bool
        Whether the line works along the other side of the foundation.
    ring : bool
        Whether the line works in the ring, unless a stitch says otherwise.
    bare : bool
        Whether the stitch read last named no place.
    pending : (Target, Remark) or None
        Where the next step begins, said before it, and the words that say so.
    part_end : int
        Index behind the last words that named a part of the piece ("of body").
    depth : int
        Brackets around the cursor.
    undefined : set of str
        Groups already told to be undefined.
    found : list of Diagnostic
        Findings so far.
    work : int
        Tokens taken so far, to prove that time grows in a line with text.
    inner : callable
        Reads the words to a token index, for brackets.
    """

    tokens: Sequence[Token]
    said: frozenset[str]
    context: Context
    at: int = 0
    partner: list[int] = field(default_factory=list)
    known: Branch = field(default_factory=Branch)
    special: Branch = field(default_factory=Branch)
    main: str = "sc"
    one_place: bool = False
    open_bare: bool = False
    terse: bool = False
    loop: Loop = Loop.BOTH
    opposite: bool = False
    ring: bool = False
    bare: bool = False
    pending: tuple[Target, Remark] | None = None
    part_end: int = -1
    depth: int = 0
    undefined: set[str] = field(default_factory=set)
    found: list[Diagnostic] = field(default_factory=list)
    work: int = 0
    inner: "Callable[[Reader, int], Frame]"

    # ------------------------------------------------------------------ looking

    def token(self, ahead: int = 0) -> Token | None:
        """Look at a token from here."""
        i = self.at + ahead
        return self.tokens[i] if i < len(self.tokens) else None

    def text(self, ahead: int = 0) -> str:
        """Look at the folded characters of a token from here; empty behind the end."""
        i = self.at + ahead
        return self.tokens[i].text if i < len(self.tokens) else ""

    def number(self, ahead: int = 0) -> Number | None:
        """Look at a count from here; None where the token is none."""
        token = self.token(ahead)
        if token is None or token.kind is not TokenKind.NUMBER or token.number is None:
            return None
        return token.number if token.number.kind is not NumberKind.LENGTH else None

    def ordinal(self, ahead: int = 0) -> Number | None:
        """Look at an ordinal from here."""
        token = self.token(ahead)
        return token.number if token is not None and token.kind is TokenKind.ORDINAL else None

    def sees(self, first: str, *others: str) -> bool:
        """Tell whether exactly these tokens come next."""
        return self.text() == first and self.sees_at(1, *others)

    def sees_at(self, ahead: int, *words: str) -> bool:
        """Tell whether exactly these tokens come some way ahead."""
        return all(self.text(i) == word for i, word in enumerate(words, ahead))

    def ended(self) -> bool:
        """Tell whether nothing is left, at this depth."""
        return self.at >= len(self.tokens) or self.text() in CLOSING

    def ended_after(self, end: int) -> bool:
        """Tell whether only stops come behind the next token, up to `end` or a few tokens on."""
        few = self.tokens[self.at + 1 : min(end, self.at + 5)]
        return all(token.text in STOPS for token in few)

    # ------------------------------------------------------------------ taking

    def take(self, count: int = 1) -> None:
        """Go past tokens."""
        self.at = min(self.at + count, len(self.tokens))
        self.work += count

    def accept(self, *words: str) -> bool:
        """Go past exactly these tokens if they come next."""
        if not self.sees(*words):
            return False
        self.take(len(words))
        return True

    def accept_any(self, words: frozenset[str]) -> str:
        """Go past the next token if it is one of these, and say which it was."""
        text = self.text()
        if not text or text not in words:
            return ""
        self.take()
        return text

    def pass_over(self, words: frozenset[str]) -> None:
        """Go past any run of these."""
        while self.text() and self.text() in words:
            self.take()

    def take_until(self, words: Collection[str]) -> None:
        """Go on to the first of these, or to where nothing is left at this depth."""
        while not self.ended() and self.text() not in words:
            self.take()

    # ------------------------------------------------------------------ places

    def first_of(self, place: Span) -> int:
        """Give the index of the first token of what stands at a place."""
        return bisect_left(self.tokens, place.start, key=lambda token: token.place.start)

    def texts_of(self, place: Span) -> list[str]:
        """Give the folded characters of the tokens at a place."""
        end = bisect_left(self.tokens, place.end, key=lambda token: token.place.start)
        return [token.text for token in self.tokens[self.first_of(place) : end]]

    def span(self, start: int, end: int | None = None) -> Span:
        """Give the place of the tokens from `start` to the cursor, or to before `end`."""
        end = self.at if end is None else end
        if not self.tokens:
            return NOWHERE
        start = min(start, len(self.tokens) - 1)
        last = max(min(end, len(self.tokens)) - 1, start)
        return self.tokens[start].place.to(self.tokens[last].place)

    def words(self, start: int, end: int | None = None) -> str:
        """Give the author's characters from `start` to the cursor, or to before `end`."""
        end = self.at if end is None else end
        parts: list[str] = []
        for i in range(start, min(end, len(self.tokens))):
            token = self.tokens[i]
            if i > start and token.place.start > self.tokens[i - 1].place.end:
                parts.append(" ")
            parts.append(token.written or token.text)
        return "".join(parts)

    def apart(self, i: int) -> bool:
        """Tell whether a space stands between a token and the one after it."""
        return self.tokens[i].place.end < self.tokens[i + 1].place.start

    def report(self, finding: Finding, place: Span) -> None:
        """Keep a finding."""
        self.found.append(Diagnostic(finding=finding, place=place))


@dataclass(slots=True)
class Frame:
    """What is read so far between two brackets, or of the whole line.

    Attributes
    ----------
    steps : list of Step
        In the order of the words.
    marks : dict of str to list of int
        For every repeat mark: where it stands in `steps`, first to last.
    sentence : int
        Index of the first step of the sentence.
    before : int
        The same of the sentence before.
    again : Make or Group or None
        What "and in each ..." does once more.
    joined : bool
        Whether an "and" stands right before the cursor.
    tails : list of int
        Indices of repeats that what follows ends ("ending with sc in last st").
    last_reps : list of int
        Those of them of which the last time is said to end otherwise.
    edges : int
        Edges that the next row ends go along.
    run : int
        Index of the first of the steps before the cursor that name no place.
    plus : int
        Index of the first of the steps that a "+" binds to what follows; -1: none does.
    ends : list of Make
        Steps that are worked at both ends of the row.
    """

    steps: list[Step] = field(default_factory=list)
    marks: dict[str, list[int]] = field(default_factory=dict)
    sentence: int = 0
    before: int = 0
    again: Make | Group | None = None
    joined: bool = False
    tails: list[int] = field(default_factory=list)
    last_reps: list[int] = field(default_factory=list)
    edges: int = 1
    run: int = 0
    plus: int = -1
    ends: list[Make] = field(default_factory=list)


def open_reader(
    tokens: Sequence[Token], context: Context, inner: Callable[[Reader, int], Frame]
) -> Reader:
    """Set up a reader at the start of a line."""
    return Reader(
        inner=inner,
        tokens=tokens,
        said=frozenset(token.text for token in tokens),
        context=context,
        partner=partners(tokens),
        known=names(context.terms),
        special=special_names(context.specials),
        main=context.main,
    )


def partners(tokens: Sequence[Token]) -> list[int]:
    """Pair the brackets of a line; one that crosses another has no partner."""
    partner = [-1] * len(tokens)
    stack: list[int] = []
    for i, token in enumerate(tokens):
        if token.kind is not TokenKind.MARK:
            continue
        if token.text in OPENING:
            stack.append(i)
        elif token.text in CLOSING and stack and OPENING[tokens[stack[-1]].text] == token.text:
            partner[i] = stack.pop()
            partner[partner[i]] = i
    return partner
