"""The last stitch, told for itself: "working last sc in top of beg ch", "last 2 sts together"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.chains import read_counts_beside
from stitchproof.language.read.steps.colours import read_hook
from stitchproof.language.read.steps.leaving import read_rest
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.places import IN, read_target
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.remarks import starts_counts
from stitchproof.language.read.steps.spaces_ahead import CHAINS, SPACES
from stitchproof.language.read.steps.stitches import (
    StitchName,
    as_int,
    read_stitch,
    starts_stitch,
)
from stitchproof.language.tree import (
    STITCH,
    AsLong,
    Each,
    End,
    Last,
    Leave,
    Make,
    Mark,
    Marked,
    Next,
    Noun,
    Nth,
    Origin,
    Remark,
    Repeat,
    Steps,
    Thing,
    ToLast,
)


def read_the(reader: Reader, frame: Frame) -> Steps | None:
    """Read "the last one in the turning ch", "the larger hook"."""
    start = reader.at
    if starts_counts(reader):
        return read_counts_beside(reader, frame)
    reader.take()
    if reader.text() in {"larger", "smaller"}:
        return read_hook(reader, frame)
    if reader.text() in {"rest", "remaining", "rem", "other"}:
        return read_rest(reader, frame)
    if names_last(reader):
        return last_into_chain(reader, frame, start)
    return _says_what_it_is(reader, start)


def _says_what_it_is(reader: Reader, start: int) -> Steps | None:
    """Keep "the bobbles are the feet" as a remark: a sentence that only says what was made."""
    before = reader.tokens[start - 1].text if start else ""
    words: list[str] = []
    while reader.text(len(words)) and reader.text(len(words)) not in _SENTENCE_ENDS:
        ahead = len(words)
        how = reader.text(ahead) == "worked" and reader.text(ahead + 1) in _WORKED_HOW
        if reader.number(ahead) is not None or (reader.text(ahead) in _COUNTING and not how):
            return None
        words.append(reader.text(len(words)))
    said = [i for i, word in enumerate(words) if word in _BEING]
    if before not in _SENTENCE_ENDS or not said or not 0 < said[0] <= _MOST_NAMED:
        return None
    reader.take(len(words))
    if {"marker", "markers"} & set(words[: said[0]]):
        return (Mark("move", Marked(), place=reader.span(start)),)  # to where, is not known
    return (Remark(reader.words(start), reader.span(start)),)


_SENTENCE_ENDS: Final = frozenset((".", ";", "–", "—", "!", "", "(", ")"))
_BEING: Final = word_set("are is form forms make makes go goes stay stays move moves")
_COUNTING: Final = word_set("count counts counted not unworked worked work left once twice skipped")
_WORKED_HOW: Final = word_set("in flat sideways separately back")  # `is worked in rows`
_MOST_NAMED: Final = 3  # words of what is spoken of


def read_last(reader: Reader, frame: Frame) -> Steps | None:
    """Read "last dc in top of turning ch" behind "dc in each dc", "last st remains unworked"."""
    _ = frame
    start = reader.at
    if reader.text(1) in STITCHES and reader.text(2) in _REMAINS and reader.text(3) == "unworked":
        reader.take(4)
        return (Leave(None, reader.span(start)),)
    return last_into_chain(reader, frame, start) if names_last(reader) else None


_REMAINS: Final = word_set("remains remain is are stays stay")


def names_last(reader: Reader) -> bool:
    """Tell whether "last dc", "last one", "last st", "last 3-dc group" stands there."""
    if reader.text() not in {"last", "final"}:
        return False
    plain = reader.text(1) in STITCHES | {"one"} or starts_stitch(reader, 1)
    many = _many(reader, 1)
    return plain or (many > 0 and starts_stitch(reader, 1 + many))


def _many(reader: Reader, ahead: int) -> int:
    """Count the tokens of "3-" and "2" before a stitch: several in one place."""
    if reader.number(ahead) is None:
        return 0
    return 2 if reader.text(ahead + 1) == "-" else 1


def last_together(reader: Reader, frame: Frame) -> Steps | None:
    """Read "working last 2 sts together" behind a run to the end, which then ends before them."""
    number = reader.number(1)
    count = as_int(number)
    again = frame.again
    reader.take(2)
    reader.accept_any(STITCHES)
    if not reader.accept_any(word_set("tog together")) or number is None or count is None:
        return None
    last = frame.steps[-1] if frame.steps else None
    runs = (Each(STITCH), Each(STITCH, ToLast(number)))
    if not isinstance(again, Make) or last is not again or again.at not in runs:
        return None
    frame.steps[-1] = replace(again, at=Each(STITCH, ToLast(number)))
    return (replace(again, stitch=replace(again.stitch, together=count), at=Last()),)


def last_into_chain(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Keep "working last sc in top of beg ch" as a remark: the chain is the last place anyhow.

    Behind a repeat that goes into spaces "last sc in turning ch sp" is the end of its last time.
    """
    reader.take()
    many = _many(reader, 0)
    grouped = many > 0
    reader.take(many)
    if not reader.accept_any(STITCHES | {"one"}):
        grouped = _is_group(read_stitch(reader)) or grouped
    grouped = bool(reader.accept_any(word_set("group cluster"))) or grouped
    reader.pass_over(_GOES)
    if not reader.accept_any(IN):
        return None
    target = read_target(reader)
    turning = isinstance(target, Next) and (
        target.noun.thing is Thing.TURNING_CHAIN or (grouped and _of_turning(reader, target.noun))
    )
    if not turning and not (isinstance(target, Nth) and target.origin is Origin.TURNING_CHAIN):
        return None
    _pass_chain_itself(reader)
    step = frame.steps[-1] if frame.steps else None
    spaced = any(token.text in SPACES for token in reader.tokens[start : reader.at])
    if spaced and isinstance(step, Repeat) and step.often == AsLong(End()) and target is not None:
        made = step.body[-1]
        if isinstance(made, Make) and isinstance(made.at, Next) and made.at.noun.thing in _SPACES:
            frame.steps[-1] = replace(step, cut=len(step.body) - 1)
            return (replace(made, at=target, place=reader.span(start)),)
    return (Remark(reader.words(start), reader.span(start)),)


_SPACES: Final = (Thing.SPACE, Thing.CHAIN_SPACE)


def _pass_chain_itself(reader: Reader) -> None:
    """Go past "and in 3rd ch of turning ch" behind "last 2 sc in turning ch-4 sp"."""
    start = reader.at
    if reader.accept_any(frozenset(("and", "&"))) and reader.accept_any(IN):
        at = read_target(reader)
        if isinstance(at, Nth) and at.origin is Origin.TURNING_CHAIN:
            return
    reader.at = start


_GOES: Final = word_set(
    "goes go going falls fall is are will should must be being gets worked made put placed"
)


def _is_group(named: StitchName | None) -> bool:
    return named is not None and named.special is not None and named.special.body is not None


def _of_turning(reader: Reader, noun: Noun) -> bool:
    """Tell whether a space is named by all the chains that the line begins with: "ch-4 sp"."""
    chains = (reader.tokens[i : i + 2] for i in range(min(_FIRST, len(reader.tokens))))
    begun = (as_int(n.number) for c, n in (p for p in chains if len(p) > 1) if c.text in CHAINS)
    return (
        noun.thing is Thing.CHAIN_SPACE
        and noun.chains is not None
        and noun.chains == next(begun, None)
    )


_FIRST: Final = 4  # tokens: "turn, ch 4"
