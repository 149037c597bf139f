"""Words whose meaning is not known: kept as they are, with one finding."""

from collections.abc import Container
from typing import Final

from stitchproof.language.read.asides import goes_on_to_part, is_aside, makes_nothing
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import TIMES, word_set
from stitchproof.language.read.steps.findings import UnknownAbbreviation, UnreadWords
from stitchproof.language.read.steps.places import IN
from stitchproof.language.read.steps.reader import (
    CLOSING,
    JOINING,
    MARKS,
    OPENING,
    STOPS,
    Frame,
    Reader,
)
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.read.vocabulary import misspelt, near
from stitchproof.language.tree import FastenOff, Group, Make, Remark, Unread


def trails(reader: Reader, end: int, commands: Container[str]) -> bool:
    """Tell whether words that nobody knows hang on a step; they may change all of it."""
    text = reader.text()
    if reader.at >= end or text in STOPS | JOINING | CLOSING or text in commands or text == "x":
        return False
    return reader.number() is None and not starts_stitch(reader)


def keep_unread(
    reader: Reader, frame: Frame, start: int, end: int, commands: Container[str]
) -> None:
    """Keep the words from the start of a step to the next stop as they are, with one finding."""
    if _keep_aside(reader, frame, start, end) or _keep_talk(reader, frame, start, end):
        return
    begun = reader.at > start
    reader.at = max(reader.at, start + 1)
    known = begun or set(reader.tokens[start].text) & set("aeiouy")  # `pass the yarn`
    wrong = reader.at if known and trails(reader, end, commands) else start
    while reader.at < end:
        text = reader.text()
        if text in {",", ";", ".", "!", "–", "—"} or text in CLOSING or text in MARKS:
            break
        if text in JOINING and _is_command(reader, commands):
            break
        partner = reader.partner[reader.at] if text in OPENING else -1
        reader.take(max(partner + 1 - reader.at, 1))
    reader.at = min(reader.at, end)
    words = reader.words(start)
    place = reader.span(start)
    if _is_finishing(reader, frame, start) or _names_what_was_made(reader, frame, start):
        frame.steps.append(Remark(words, place))
        return
    frame.steps.append(Unread(words, place))
    frame.again = None
    _report(reader, wrong, commands)


_CLAUSE_ENDS: Final = frozenset((".", ";", "–", "—", "!"))


def _keep_aside(reader: Reader, frame: Frame, start: int, end: int) -> bool:
    """Keep a whole sentence or clause as a remark where it makes no stitch: "Pull tight."."""
    before = reader.tokens[start - 1].text if start else "."
    terms = reader.context.terms
    talked = before in {",", "(", "-"} and _is_talk(reader, start)
    if before == "," and reader.tokens[start].written[:1].isupper():
        before = "."  # a sentence that was put behind a comma
    if before == "-" and start > 1 and reader.apart(start - 2):
        before = "–"
    ended = before == "," and bool(frame.steps) and isinstance(frame.steps[-1], FastenOff)
    if before in JOINING | {"go", "move", "carry"}:
        ended = goes_on_to_part(reader.words(start, end).rstrip(" .;!"), terms)
    closed = before in _CLAUSE_ENDS | CLOSING or talked or ended
    spoken = bool(frame.steps) or reader.context.behind
    spoken = spoken or reader.tokens[start].text in _SPEAKERS | _EXCLAIMING
    if not closed or (reader.depth and not talked):
        return False
    ends = _CLAUSE_ENDS | CLOSING | ({","} if talked else set())
    stop = start
    while stop < end and reader.tokens[stop].text not in ends:
        stop += 1
    words = reader.words(start, stop)
    exclaimed = stop < end and reader.tokens[stop].text == "!" and makes_nothing(words, terms)
    told = talked and makes_nothing(words, terms)
    if not exclaimed and not (spoken and (told or is_aside(words, terms))):
        return False
    reader.at = stop
    frame.steps.append(Remark(reader.words(start), reader.span(start)))
    frame.again = None
    return True


_TALKING: Final = word_set(
    "so you your you'll it its it's it'll them themselves they they'll that's there's this these"
    " really very nice nicely gently loosely tightly neatly if while without don't doesn't isn't"
    " won't can't no not because until keep keeping like just hooray phew well easy ok yes great"
)


def _is_talk(reader: Reader, start: int) -> bool:
    """Tell whether words up to a comma are said to the maker: "staying really loose"."""
    stop = start
    last = min(start + _LONGEST_TALK, len(reader.tokens))
    while stop < last and reader.tokens[stop].text not in _CLAUSE_ENDS | CLOSING | {","}:
        token = reader.tokens[stop]
        if token.kind is not TokenKind.WORD and token.text not in {"&", "'"}:
            return False
        stop += 1
    words = {token.text for token in reader.tokens[start:stop]}
    return bool(words & _TALKING) and not words & _STITCH_WORDS


_STITCH_WORDS: Final = word_set(
    "st sts stitch stitches sp sps space spaces lp lps loop loops v bar"
)
_EXCLAIMING: Final = word_set("the keep here time almost yay great good well done now last shape")
_SPEAKERS: Final = word_set("you we you'll we'll i i'm we're you're let's")
_LONGEST_TALK: Final = 16  # tokens


def _keep_talk(reader: Reader, frame: Frame, start: int, end: int) -> bool:
    """Keep "in this round you will increase again:" as a remark: what is done stands behind it."""
    stop = start
    while stop < min(end, start + _LONGEST_TALK) and reader.tokens[stop].text != ":":
        token = reader.tokens[stop]
        if token.kind is not TokenKind.WORD:
            return False
        stop += 1
    words = {token.text for token in reader.tokens[start:stop]}
    if stop >= end or reader.tokens[stop].text != ":" or not words & _SPEAKERS:
        return False
    reader.at = stop
    frame.steps.append(Remark(reader.words(start), reader.span(start)))
    frame.again = None
    return True


def _is_finishing(reader: Reader, frame: Frame, start: int) -> bool:
    """Tell whether words stand behind the fastening off and name no stitch: nothing is made."""
    made = [step for step in frame.steps if not isinstance(step, Remark)]
    if not made or not isinstance(made[-1], FastenOff) or not made[-1].do:
        return False
    words = {token.text for token in reader.tokens[start : reader.at]}
    if reader.tokens[start].text in _DRAWN and "through" in words and not words & _MAKING:
        return True  # "thread the tail through the last 6 sts"
    here = reader.at
    names = False
    for i in range(start, here):
        reader.at = i
        counted = reader.number() is not None and reader.text() not in TIMES  # "twist once"
        names = names or counted or starts_stitch(reader)
    reader.at = here
    return not names


def _names_what_was_made(reader: Reader, frame: Frame, start: int) -> bool:
    """Tell whether "shell made" stands behind the stitches that it names."""
    words = [token.text for token in reader.tokens[start : reader.at]]
    plain = all(token.kind is TokenKind.WORD for token in reader.tokens[start : reader.at])
    named = plain and len(words) == 2 and words[1] in {"made", "formed", "completed"}  # noqa: PLR2004
    return named and bool(frame.steps) and isinstance(frame.steps[-1], Make | Group)


_DRAWN: Final = word_set("thread weave run pass take draw pull use sew insert slide feed")
_MAKING: Final = word_set("ch chain sc dc hdc tr work make loop lp hook yo")


def _is_command(reader: Reader, commands: Container[str]) -> bool:
    return reader.text(1) in commands and reader.text(1) not in IN


_ENGLISH: Final = word_set(
    "in into on at to of the a an and or for from with by as is are be it its this that these"
    " those each every next last first same all both other around across over under between work"
    " working stitch stitches row rows round rounds side end ends top bottom edge piece times time"
    " more until then when while if you your not no do so than only also along through up down"
    " back front left right one two using make place loop loops space spaces chain chains hook"
    " yarn color colour join turn repeat skip rep sk st sts sp sps rnd rnds lp lps pm rs ws beg"
    " rd nd th rem even pattern patt as for increasing decreasing evenly sewing long"
)
_LONGEST_ABBREVIATION: Final = 6  # letters
_LONGEST_NAME: Final = 12
_FIRST_WORDS: Final = 6


def _report(reader: Reader, start: int, commands: Container[str]) -> None:
    """Name the one word that no table knows, where there is one; else all the words."""
    for i in range(start, min(reader.at, start + _FIRST_WORDS)):
        token = reader.tokens[i]
        if token.kind is not TokenKind.WORD or token.text in _ENGLISH:
            continue
        if _is_name(reader, i, commands, first=i == start):
            alike = near(token.text, reader.context.terms)
            finding = UnknownAbbreviation(token.written, reader.context.terms, alike)
            reader.report(finding, token.place)
            return
    for token in reader.tokens[start : min(reader.at, start + _FIRST_WORDS)]:
        if token.kind is TokenKind.WORD and token.text not in _ENGLISH:
            alike = misspelt(token.text, reader.context.terms)
            if alike:
                finding = UnknownAbbreviation(token.written, reader.context.terms, alike)
                reader.report(finding, token.place)
                return
    reader.report(UnreadWords(reader.words(start)), reader.span(start))


def _is_name(reader: Reader, i: int, commands: Container[str], *, first: bool) -> bool:
    """Tell whether a word stands where the name of a stitch does, and can be one."""
    token = reader.tokens[i]
    here = reader.at
    reader.at = i
    known = starts_stitch(reader) or token.text in commands
    reader.at = here
    before = reader.tokens[i - 1] if i else None
    counted = before is not None and before.kind is TokenKind.NUMBER
    if known or not (first or counted) or len(token.text) > _LONGEST_NAME:
        return False
    if len(token.text) == 1:
        return False  # half a word
    short = len(token.text) <= _LONGEST_ABBREVIATION and not set(token.text) & set("aeiouy")
    return short or bool(near(token.text, reader.context.terms))
