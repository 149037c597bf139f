"""Brackets that hold no steps: a name, advice, a count for one edge."""

from typing import Final

from stitchproof.language.number import ONE
from stitchproof.language.read.asides import is_aside, makes_nothing
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.colours import colour_behind, named_colour
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.places import IN, read_target
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.read.vocabulary import near
from stitchproof.language.tree import Evenly, Make, Steps


def is_advice(reader: Reader, close: int) -> bool:
    """Tell whether a bracket holds words that make no stitch: "(leg hole)"."""
    tokens = reader.tokens[reader.at : close]
    plain = all(token.kind in {TokenKind.WORD, TokenKind.ORDINAL} for token in tokens)
    words = reader.words(reader.at, close)
    if len(tokens) == 1 and plain:
        return _names_a_thing(words, reader)
    return plain and is_aside(words, reader.context.terms)


_SYSTEMS: Final = word_set("us uk usa")


_SHORTEST_NAME: Final = 3  # letters


def _names_a_thing(word: str, reader: Reader) -> bool:
    """Tell whether "(buttonhole)", "(corner)", "(UK)" stands there: no stitch, only a name."""
    if word.lower() in _SYSTEMS:
        return True
    known = len(word) <= _SHORTEST_NAME or starts_stitch(reader) or near(word, reader.context.terms)
    return (
        not known
        and set(word.lower()) & set("aeiouy") != set()
        and makes_nothing(word, reader.context.terms)
    )


def bracketed_colour(reader: Reader, frame: Frame, start: int, close: int) -> Steps | None:
    """Read a bracket that only names a yarn, before the stitches or behind them."""
    colour = named_colour(reader, start, close)
    behind = colour is None and colour_behind(reader, frame, start, close)
    if colour is None and not behind:
        return None
    reader.take(3)
    return () if colour is None else (colour,)


def one_in_each(reader: Reader, frame: Frame, close: int) -> bool:
    """Tell whether "(one in each row end)" says how stitches whose number was told are spread."""
    last = frame.steps[-1] if frame.steps else None
    if not isinstance(last, Make) or not isinstance(last.at, Evenly) or last.at.count is None:
        return False
    words = [token.text for token in reader.tokens[reader.at : close]]
    short = reader.number() == ONE and len(words) > 1 and words[1] in IN | {"per"}
    return short and "end" in words[-1]


def tells_of_others(reader: Reader, close: int) -> bool:
    """Tell whether "(the other 21 sts form the front edge)" says what is made of those left."""
    ahead = 2 if reader.text() == "the" else 1
    other = reader.text(ahead - 1) in {"other", "remaining", "rem"}
    counted = reader.number(ahead) is not None and reader.text(ahead + 1) in STITCHES
    ends = reader.at + ahead + 2 < close
    return other and counted and ends and reader.text(ahead + 2) in _BECOME


_BECOME: Final = word_set("form make become will are stay remain wait")


def placed_behind(reader: Reader, close: int) -> bool:
    """Tell whether what stands behind the bracket makes steps of what is in it."""
    after = reader.tokens[close + 1].text if close + 1 < len(reader.tokens) else ""
    return after in IN or after in {"x", "times", "twice", "once", "thrice"}


_LONGEST_PLACE: Final = 12  # tokens
_OF: Final = word_set("center centre middle top last first")


def names_a_place(reader: Reader, close: int) -> bool:
    """Tell whether "(center dc of shell)", "(top of ch 3)" says again which place was named."""
    start = reader.at
    words = [token.text for token in reader.tokens[start : min(close, start + _LONGEST_PLACE)]]
    if close - start > _LONGEST_PLACE or "of" not in words[1:] or words[0] not in _OF:
        return False
    found = len(reader.found)
    named = read_target(reader) is not None and reader.at == close
    del reader.found[found:]
    reader.at = start
    return named
