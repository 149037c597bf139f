"""Words behind a step that change nothing: "for neck and other shoulder", "for first sleeve"."""

from collections.abc import Container
from typing import Final

from stitchproof.language.read.asides import makes_nothing
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.parts import at_edge, at_edge_from, part_length
from stitchproof.language.read.steps.reader import CLOSING, JOINING, OPENING, Frame, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import Remark, Steps

_COUNTING: Final = word_set("every each row rows rnd rnds round rounds times time turning")


def keep_purpose(reader: Reader, frame: Frame, length: int) -> None:
    """Keep the tokens of a purpose as a remark."""
    start = reader.at
    if reader.sees("instead", "of"):
        frame.last_reps += [i for i in frame.tails[-1:] if i not in frame.last_reps]
    told = _told_of_row(reader, len(reader.tokens)) == length
    reader.take(length)
    if told:
        return  # the row says it by itself
    frame.steps.append(Remark(reader.words(start), reader.span(start)))


def read_purpose(reader: Reader, commands: Container[str]) -> Steps | None:
    """Read "for first shoulder" as a clause of its own; None where it counts something."""
    start = reader.at
    length = starts_purpose(reader, len(reader.tokens), commands)
    if not length:
        return None
    reader.take(length)
    return (Remark(reader.words(start), reader.span(start)),)


def starts_purpose(reader: Reader, end: int, commands: Container[str]) -> int:
    """Count the tokens of "for neck and other shoulder", which counts nothing; 0 otherwise."""
    told = 3 if reader.sees("as", "you", "go") else _told_of_row(reader, end)
    if told:
        return told
    if reader.text() in _REASONS or (reader.text() in _CARE and reader.text(1) in _CAREFUL):
        return _reason(reader, end)
    if reader.text() == "to" and reader.text(1) in _GOING_ON:
        return _in_rounds(reader, end)
    if reader.text() == "at":
        return at_edge(reader)
    if reader.text() in _ALONG:
        along = _along_part(reader)
        if along:
            return along
    if reader.text() == "to" and reader.text(1) in _SHAPING:
        ahead = 2 if reader.text(2) != "at" else 2 + at_edge_from(reader, 2)
        return ahead if reader.text(ahead) in _REASON_ENDS | CLOSING | {""} else 0
    if reader.text() != "for" or reader.at + 1 >= end:
        return 0
    if reader.context.several and reader.number(1) is not None and reader.text(2) in ROWS:
        return 3  # "for 4 rounds": the label covers them
    return _purpose(reader, end, commands)


def _along_part(reader: Reader) -> int:
    """Count the tokens of "up right front edge", "down to lower corner" behind counted places."""
    before = reader.tokens[reader.at - 1].text if reader.at else ""
    if before not in ROWS | STITCHES | CHAINS | _ROW_ENDS:
        return 0
    first = 2 if reader.text() != "to" and reader.text(1) == "to" else 1
    ahead = first
    while reader.text(ahead) in _CORNERS:
        ahead += 1
    part = part_length(reader, ahead)
    closed = reader.text(ahead + part) in _REASON_ENDS | CLOSING | {"", "and"}
    return ahead + part if (part or ahead > first) and closed else 0


_ALONG: Final = word_set("up down along to toward towards")
_ROW_ENDS: Final = word_set("end ends")
_CORNERS: Final = word_set("the lower upper top bottom corner of left right center centre")
_SHAPING: Final = word_set("dec decrease inc increase shape complete finish end close")


def _purpose(reader: Reader, end: int, commands: Container[str]) -> int:
    """Count the tokens of "for first shoulder"; 0 where it counts something."""
    named = 1 + part_length(reader, 1)
    if named > 1 and reader.text(named) in CHAINS and reader.number(named + 1) is not None:
        return named  # "for the thumb opening ch 6"
    length = 1
    while reader.at + length < end:
        token = reader.tokens[reader.at + length]
        if token.text in {",", ";", ".", ":", "–", "—"} or token.text in CLOSING | OPENING.keys():
            break
        follows = length + 1
        part = part_length(reader, follows)
        ended = reader.text(follows + part) in _REASON_ENDS | CLOSING | {""}
        if token.text in JOINING and reader.text(follows) in commands and not (part and ended):
            break
        counts = token.kind is TokenKind.NUMBER or token.text in _COUNTING | CHAINS
        if counts or starts_stitch(reader, length):
            return 0
        length += 1
    return length if length > 1 else 0


_LEVELLING: Final = word_set("level even smooth hide disguise soften ease")
_GOING_ON: Final = word_set("work begin start continue") | _LEVELLING
_ENDINGS: Final = word_set("step jog join edge end line")
_ROUNDS: Final = word_set("round rounds rnds rnd spiral spirals")


def _told_of_row(reader: Reader, end: int) -> int:
    """Count the tokens of "instead of a shell" at the end of a row, "once more" of a whole one."""
    if reader.sees("instead", "of") and _ends_otherwise(reader):
        return _instead(reader, end)
    before = reader.tokens[reader.at - 1].text if reader.at else ""
    if before not in {"around", "across"} or reader.text() not in {"once", "once more"}:
        return 0
    length = 2 if reader.text(1) in {"more", "again"} else 1
    closed = reader.at + length >= end or reader.text(length) in _REASON_ENDS | CLOSING
    return length if closed else 0


def _ends_otherwise(reader: Reader) -> bool:
    """Tell whether "ending with" stands before, in the same sentence."""
    at = reader.at
    while at > 0 and reader.tokens[at - 1].text not in {".", ";", "*"}:
        at -= 1
        if reader.tokens[at].text in {"ending", "end", "finishing"}:
            return True
    return False


def _instead(reader: Reader, end: int) -> int:
    """Count the tokens of "instead of a shell", the last stitches that a repeat would make."""
    length = 2
    while reader.at + length < end and length < _LONGEST_INSTEAD:
        text = reader.text(length)
        if text in _REASON_ENDS or text in CLOSING | OPENING.keys():
            break
        length += 1
    return length


_LONGEST_INSTEAD: Final = 8  # tokens


def _words_end(reader: Reader, end: int) -> int:
    """Find where a clause of nothing but words ends: where the reader stands if there is none."""
    stop = reader.at
    while stop < min(end, reader.at + _LONGEST_REASON):
        token = reader.tokens[stop]
        if token.text in _REASON_ENDS or token.text in CLOSING | OPENING.keys():
            break
        if token.kind is not TokenKind.WORD:
            return reader.at
        stop += 1
    return stop


def _in_rounds(reader: Reader, end: int) -> int:
    """Count the tokens of "to work in rounds from now on", "to level the round"; 0 otherwise."""
    stop = _words_end(reader, end)
    words = {token.text for token in reader.tokens[reader.at : stop]}
    ends = _ROUNDS | _ENDINGS if reader.text(1) in _LEVELLING else _ROUNDS
    return stop - reader.at if words & ends else 0


_REASONS: Final = word_set("so because while without whichever wherever whenever if as though")
_CARE: Final = word_set("making taking being ensuring keeping")
_CAREFUL: Final = word_set("sure care careful that")
_LONGEST_REASON: Final = 24  # tokens


def _reason(reader: Reader, end: int) -> int:
    """Count the tokens of "so you don't lose your place", which makes no stitch; 0 otherwise."""
    stop = _words_end(reader, end)
    words = reader.words(reader.at, stop)
    few = stop - reader.at < _FEWEST
    return 0 if few or not makes_nothing(words, reader.context.terms) else stop - reader.at


_FEWEST: Final = 3
_REASON_ENDS: Final = frozenset((",", ";", ".", "!", "–", "—"))
