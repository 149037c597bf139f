"""One stitch abbreviated in two ways."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.glossary import terms_of
from stitchproof.checks.seen import Seen
from stitchproof.trade import stitches

if TYPE_CHECKING:
    from stitchproof.base.place import Span

_SHORT: Final = 8  # characters; longer words are names, and stand beside abbreviations by right


@facts
class TwoSpellings:
    """Both spellings, and what they stand for."""

    code: ClassVar[Code] = Code("C424", "two-spellings", Level.NOTE)
    word: str
    other: str
    meaning: str

    def message(self) -> str:
        """Give both."""
        return f"`{self.word}` and `{self.other}` both stand for {self.meaning}"

    def help(self) -> str:
        """Say what to do."""
        return "use one of them throughout"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find stitches that the instructions abbreviate in two ways."""
    terms = terms_of(seen.manuscript)
    own = {special.name for special in seen.manuscript.specials}
    first: dict[stitches.Named, tuple[str, Span]] = {}
    told: set[stitches.Named] = set()
    for word, place in seen.manuscript.words:
        named = stitches.named(word, terms) if len(word) <= _SHORT and word not in own else None
        if named is None or named in told or stitches.stitches()[named.kind].group:
            continue
        meaning = stitches.long_name(named.kind, named.post, named.together, terms)
        if word in meaning:
            continue
        other, before = first.setdefault(named, (_base(word), place))
        if _base(word) != other:
            told.add(named)
            yield Diagnostic(
                finding=TwoSpellings(_base(word), other, meaning),
                place=place,
                also=((before, f"`{other}` is used here"),),
            )


def _base(word: str) -> str:
    """Give a word without its plural, and with the hyphens and spaces that all spell alike."""
    plain = word.replace("-", " ").removesuffix(" sts").removesuffix(" st")
    if plain in {"sl", "v", "x", "y"}:
        plain = f"{plain} st"
    return plain if plain == "ss" else plain.removesuffix("s")
