"""Headings: which hold work and which hold prose, how many pieces, and lines about sizes."""

import re
from enum import Enum
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.language.number import Number, plain
from stitchproof.language.read.label_numbers import Source
from stitchproof.language.read.names_listed import LIST, NAME, cut_names


class Region(Enum):
    """What may stand below a heading.

    INTRO is what stands before the first piece; FINISHING holds advice between its instructions.
    """

    INTRO = "intro"
    PIECE = "piece"
    FINISHING = "finishing"
    NARRATIVE = "narrative"
    SPECIAL = "special"

    __hash__ = object.__hash__  # there is one object of each; that of `Enum` takes a call


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading, read.

    Attributes
    ----------
    name, title : str
        Verbatim, and without "(make 2)".
    copies : Number
        How many are made.
    region : Region
        What may stand below it.
    """

    name: str
    title: str
    copies: Number
    region: Region


_NARRATIVE: Final = re.compile(
    r"(?:(?:pattern|designer'?s?|general|special|important|yarn|hook|stitch|size|sizing|finished|final"
    r"|skill|difficulty|about|how|project|garment|key|main|other|blocking|care|colou?r|construction"
    r"|reading|working|before)\b\s*)*"
    r"(?:notes?|materials?|supplies|yarns?|hooks?|gauge|tension|abbreviations?|terms|terminology|sizes?"
    r"|sizing|measurements?|dimensions|schematics?|guide|glossary|explanations?|techniques?|level"
    r"|difficulty|introduction|intro|start(?:ing|ed)?|begin(?:ning)?|need|tools|notions|copyright"
    r"|errata|credits|care|washing|blocking|charts?|tips?|faq|construction|overview|description|fit"
    r"|ease|legend|key|thanks|contact|support|licen[cs]e|equipment|requirements|information|info"
    r"|about|story|use|to read)\b"
    r"(?:\s*(?:[:&,/(–—-]|and\b|on\b|for\b|used\b|needed\b|about\b|the\b|required\b|of\b|this\b).*)?",
    re.IGNORECASE,
)
_ENDS_NARRATIVE: Final = re.compile(
    r".*\b(?:notes|abbreviations|measurements|materials)\s*:?", re.IGNORECASE
)
_REACH: Final = 160  # characters of a heading that are looked at
_SPECIAL: Final = re.compile(
    r"(?:special|stitch|pattern|unusual)\s+(?:stitch(?:es)?|definitions?|patterns?|techniques?"
    r"|guide|glossary|abbreviations?|explanations?|instructions for stitches)\b.*|stitches"
    r"(?: used)?\s*:?"
    r"|abbreviations?\b.*|glossary\b.*",
    re.IGNORECASE,
)
_FINISHING: Final = re.compile(
    r"(?:finishing|assembly|assembling|making up|make up|to finish|to make up|seaming|sewing"
    r"(?: up)?"
    r"|final touches|putting (?:it )?together)\b.*",
    re.IGNORECASE,
)
_AMOUNT: Final = (
    r"(?:\{[^{}]{1,200}\}|\d{1,4}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)"
)
_COPIES: Final = re.compile(
    rf"\s{{0,4}}(?:[,:–—-]\s{{0,4}})?[(\[]?\s*\b(?:make|work|crochet)\s+(?P<first>{_AMOUNT})"
    rf"(?:\s+(?:alike|the same|pieces?|of each))?\s*[)\]]?"
    rf"|\s{{0,4}}[(\[]\s*(?P<second>{_AMOUNT})\s+(?:pieces?|times|alike)\s*[)\]]"
    rf"|\s{{0,4}}[(\[]\s*(?:make|x|×)\s*(?P<third>{_AMOUNT})\s*[)\]]",
    re.IGNORECASE,
)
MAKE_LINE: Final = re.compile(
    rf"\s*[(\[]?\s*make\s+(?P<amount>{_AMOUNT})(?:\s+(?:alike|the same"
    rf"|pieces?))?\s*[)\]]?\s*\.?\s*",
    re.IGNORECASE,
)
ONE_PIECE: Final = plain(1)


def read_heading(source: Source, start: int, end: int) -> Heading:
    """Read a heading: what it names, how many are made, what may stand below it."""
    name = source.text[start:end]
    words = name.strip("*_ ")
    found = _COPIES.search(name[:_REACH])
    copies = ONE_PIECE
    title = words
    if found:
        group = next(key for key in ("first", "second", "third") if found[key])
        number = source.number_at(start + found.start(group), start + found.end(group))
        copies = number or copies
        rest = f"{name[: found.start()]} {name[found.end() :]}".strip("*_ ")
        title = " ".join(rest.split()) if number else words
    return Heading(name, title, copies, heading_region(words))


def heading_region(words: str) -> Region:
    """Say what may stand below a heading of these words."""
    words = words[:_REACH].strip(" :*_.").replace("’", "'")
    if _SPECIAL.fullmatch(words):
        return Region.SPECIAL
    if _NARRATIVE.fullmatch(words) or _ENDS_NARRATIVE.fullmatch(words):
        return Region.NARRATIVE
    if _FINISHING.fullmatch(words):
        return Region.FINISHING
    return Region.PIECE


# --------------------------------------------------------------------------- sizes

_SIZES_LINE: Final = re.compile(
    r"(?:(?:women|men|girl|boy|lad(?:y|ies)|child(?:ren)?|adult|bab(?:y|ies))['’]?s?['’]?\s+"
    r"|finished\s+|(?:u\.?k\.?|u\.?s\.?|eu(?:ropean)?)\s+|to fit\s+"
    r"(?:(?:shoe|hat|foot|hand|head|dress|u\.?k\.?|u\.?s\.?|eu)\s+)?"
    r"|shoe\s+|hat\s+|available in\s+|(?:two|three|four|five|six|seven|eight|nine|\d)\s+)?"
    r"(?:sizes?(?:,\s[\w'’ ]{2,20}(?=\s*:)|\s*\([^()\d]{2,30}\)(?=\s*:))?"
    r"|(?:to fit )?ages?(?:\s*:|(?=\s+\d))|to fit(?: ages?)?\s*:"
    r"|to make(?=\s*:\s*[A-Za-z][\w ]{1,20}[(\[])"
    r"|to fit(?=\s+\d[^.;]{2,60}(?:years|months)))"
    r"(?:\s+(?:are|included|available))?\s*[:=–—-]?\s*(?P<list>[^\n.;]{3,160})",
    re.IGNORECASE,
)
# A name, the others in brackets, and then something else: `S (M, L) - foot 8 (9, 9) in around`.
_WHOLE_LIST: Final = re.compile(
    r"(?P<all>[^\s()\[\],]{1,10}\s*(?:\([^()]{1,80}\)|\[[^\[\]]{1,80}\])(?:\s*\([^()]{1,60}\))?)"
    r"(?P<rest>\s*$|\s*[,–—-]\s.*|\s+(?:for|to|cups?|bust|chest|hips?|waist|head|foot|feet)\b.*|\s*(?:months?|mo?ths?|years?|yrs?)\b.*)"
)
_WRITTEN_FOR: Final = re.compile(
    r"[^\n]{0,160}?\b(?:written|given|instructions are|directions are)\s+(?:out\s+)?for\s+"
    r"(?:the\s+)?(?:smallest\s+)?(?:sizes?\s+)?"
    rf"(?P<first>{NAME})(?:\s+size)?\s*[,.;]?\s*"
    r"(?:(?:(?:with\s+)?(?:the\s+)?changes\s+for|followed\s+by|with)\s+)?(?:the\s+)?"
    rf"(?:larger\s+)?(?:sizes?\s+)?[(\[]?(?P<list>{LIST})\s+(?:(?:are|is)\s+)?(?:given\s+)?in\s+"
    r"(?:parenthes[ei]s|brackets)",
    re.IGNORECASE,
)
_ALONE: Final = re.compile(r"(?:finished\s+)?sizes?\s*:?", re.IGNORECASE)
_NO_SIZE: Final = re.compile(
    r"\b(?:cm|mm|in|inch|inches|by|sizes?|larger|smallest|others?|only|continue|end|of|is|to|with|for|yarn|hook"
    r"|threads?|cotton|wool|needles?|balls?|skeins?)\b|\"|”"
    r"|\d\s*x\s*\d",
    re.IGNORECASE,
)


def stands_alone(line: str) -> bool:
    """Whether a line is `SIZES` and no more, so that the next one names them."""
    return bool(_ALONE.fullmatch(line.strip("#*_ •-")))


def read_sizes_line(line: str) -> tuple[str, ...]:
    """Read `Sizes: S (M, L)`; empty when it is no list of sizes."""
    line = line.strip("*_ •-")
    told = _WRITTEN_FOR.match(line)
    if told is not None:
        return _sized(f"{told['first']}, {told['list']}")
    match = _SIZES_LINE.match(line)
    return _sized(match["list"].replace("**", "").strip().lstrip(":=–—- ")) if match else ()


# What a list of sizes is for, or how it is written, behind it: `S (M, L) to fit foot of 21 cm`,
# `32, 34, 36 inch bust`, `S, M, L – written S (M, L)`.
_OF_BODY: Final = re.compile(
    r"(?<=[\w)\]}])\s*(?:[-–—]\s*)?(?:to fit|for an?)\b.*$"
    r"|\s*[-–—,(]\s*(?:numbers|counts|instructions|figures|always|where|in that order|written|given"
    r"|shown|printed)\b.*$"
    r"|\s*(?:inch(?:es)?|in|ins|cms?|\"|”)\.?\s+(?:bust|chest|hips?|head|foot|waist)\b.*$",
    re.IGNORECASE,
)


_UNIT: Final = r"(?:cm|mm|in|inch(?:es)?|\"|”)"
_SAME_UNIT: Final = r"\d{1,3}(?:\.\d)?\s?(?P=unit)"
_BY_MEASURE: Final = re.compile(  # `35 cm (45 cm) square`: each by its measure
    rf"(?P<all>\d{{1,3}}(?:\.\d)?\s?(?P<unit>{_UNIT})\s*"
    rf"(?:\(\s*{_SAME_UNIT}(?:\s*[,:;]\s*{_SAME_UNIT})*\s*\)"
    rf"|\[\s*{_SAME_UNIT}(?:\s*[,:;]\s*{_SAME_UNIT})*\s*\]))"
)
_WHOSE: Final = re.compile(
    r"^\s*(?:(?:women|men|ladies|adult|child(?:ren)?|kid)['’]?s?['’]?\s+(?=\w)"
    r"|(?:uk|us|eu)\s+(?=\d))",
    re.IGNORECASE,
)


def _sized(words: str) -> tuple[str, ...]:
    measured = _BY_MEASURE.match(words)
    if measured is not None:
        return cut_names(measured["all"])
    whole = _WHOLE_LIST.match(words)
    words = whole["all"] if whole else _OF_BODY.sub("", words)
    if _NO_SIZE.search(words):
        return ()
    words = _WHOSE.sub("", words)
    names = cut_names(words) if re.search(r"[(\[,]", words) else _parted(words)
    fits = len(names) > 1 and all(len(n) <= 14 and len(n.split()) <= 2 for n in names)  # noqa: PLR2004
    return names if fits and len(set(names)) == len(names) else ()


_PARTED: Final = re.compile(r"\s*\|\s*|\s+[-–—/·•]\s+")
_LETTERS: Final = re.compile(
    r"(?:\d{0,2}X{0,4}[SML]|[1-9]X)(?:[-–/](?:\d{0,2}X{0,4}[SML]|[1-9]X))+"
    r"|[A-H](?:/[A-H]){2,}|\d{1,3}(?:/\d{1,3}){2,}"
)


def _parted(words: str) -> tuple[str, ...]:
    """Cut `Child | Woman | Man`, `S - M - L`, `S-M-L`; empty where nothing parts the names."""
    plain = words.strip(" .:*_")
    if _LETTERS.fullmatch(plain) and len(plain) > len("XS-S"):
        return tuple(re.split("[-–/]", plain))
    names = tuple(name for name in _PARTED.split(plain) if name)
    return names if len(names) > 1 else ()
