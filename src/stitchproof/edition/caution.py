"""Which cautions an edition carries: whom the piece is for, and what in it could hurt.

The words that call for a caution are looked for where they are telling. What a piece is (a hat, a
blanket) stands in its title and headings; "cap" in a row is the top of a sleeve.
"""

import re
from collections.abc import Iterator
from typing import Final

from stitchproof.edition import model
from stitchproof.edition.matter import Matter
from stitchproof.edition.model import Block, Paragraph, plain
from stitchproof.language.manuscript import BlockKind
from stitchproof.trade.cautions import Audience, cautions, deference

_AUDIENCES: Final[tuple[tuple[Audience, re.Pattern[str]], ...]] = (
    (
        "baby",
        re.compile(r"\b(?:bab(?:y|ies)|infants?|newborns?|preemies?|layette)\b", re.IGNORECASE),
    ),
    (
        "child",
        re.compile(
            r"\b(?:child(?:ren)?|kids?|toddlers?|youths?|girls?|boys?|teens?)(?:['’]s)?\b",
            re.IGNORECASE,
        ),
    ),
)
_TITLES: Final = tuple(
    (hazard, re.compile(rf"\b(?:{words})\b", re.IGNORECASE))
    for hazard, words in (
        ("toy", "toys?|dolls?|teddy|rattles?|comforters?|lovey|lovies"),
        ("blanket", "blankets?|afghans?|throws?"),
        ("hat", "hats?|bonnets?|beanies?|caps?|hoods?"),
        ("weighted", "weighted"),
        (
            "nightwear",
            "nightgowns?|nightdress(?:es)?|pyjamas?|pajamas?|sleepsuits?|dressing gowns?",
        ),
    )
)
_WORDS: Final = tuple(
    (hazard, re.compile(rf"\b(?:{words})\b", re.IGNORECASE))
    for hazard, words in (
        ("cords", "drawstrings?|cords?|ties|tie strings?"),
        ("buttons", "buttons?|beads?|toggles?|snap fasteners?|poppers?"),
        ("open lace", "lace|lacy|mesh|openwork|filet"),
    )
)
_FLUFFY: Final = re.compile(r"mohair|brushed|boucl|eyelash|faux fur|angora", re.IGNORECASE)


def caution(matter: Matter) -> Iterator[Block]:
    """Give the cautions of a pattern, and that local rules win over them."""
    manuscript = matter.manuscript
    headings = [
        manuscript.text[block.place.start : block.place.end]
        for block in manuscript.blocks
        if block.kind is BlockKind.HEADING
    ]
    named = "\n".join((matter.sizing.title, *headings))
    body = manuscript.text[manuscript.front.place.end if manuscript.front else 0 :]
    yarns = " ".join(f"{yarn.name} {yarn.fibre}" for yarn in matter.sizing.yarns)
    hazards = {
        *(hazard for hazard, words in _TITLES if words.search(named)),
        *(hazard for hazard, words in _WORDS if words.search(body)),
        *(["fluffy yarn"] if _FLUFFY.search(yarns) else []),
    }
    found = cautions(_audience(matter, named), hazards)
    for one in found:
        yield model.Caution(plain(one.text))
    if found:
        yield Paragraph(plain(deference()))


def _audience(matter: Matter, named: str) -> Audience:
    """Say whom a piece is for: by its title and headings first, then by its body table."""
    for told in (named, f"{matter.sizing.body} {' '.join(matter.sizing.sizes)}"):
        for audience, words in _AUDIENCES:
            if words.search(told):
                return audience
    return "adult"
