"""What a manuscript is made of, in the order of the text, before its words are read."""

from stitchproof.base.records import dataclass, replace
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.number import Number
from stitchproof.language.read.sections import Heading, Region
from stitchproof.language.tree import Label
from stitchproof.language.walk import moved


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A part of the document.

    Attributes
    ----------
    kind : BlockKind
        What it is.
    start, end : int
        Its text, without marks of its own.
    level : int
        Of a heading.
    heading : Heading or None
        Of a heading.
    region : Region
        Where it stands.
    label : Label or None
        Of an instruction that has one; its places are told from where the instruction begins.
    rest : int
        Of an instruction: where the words after the label begin.
    only : tuple of str
        Sizes an instruction is for.
    """

    kind: BlockKind
    start: int
    end: int
    level: int = 0
    heading: Heading | None = None
    region: Region = Region.INTRO
    label: Label | None = None
    rest: int = 0
    only: tuple[str, ...] = ()

    def further_down(self, by: int) -> "Item":
        """Give the same item where it stands when its words stand further down."""
        rest = self.rest + by if self.kind is BlockKind.INSTRUCTION else 0
        return Item(
            kind=self.kind,
            start=self.start + by,
            end=self.end + by,
            level=self.level,
            heading=self.heading,
            region=self.region,
            label=self.label,
            rest=rest,
            only=self.only,
        )


def with_own_label(item: Item) -> Item:
    """Give an item whose label has its places told from where the item begins."""
    label, start = item.label, item.start
    if label is None:
        return item

    def there(number: Number | None) -> Number | None:
        return number and number.further_on(-start)

    first = there(label.first)
    own = replace(
        label,
        first=first,
        last=first if label.last is label.first else there(label.last),
        listed=tuple(moved(number, -start) for number in label.listed),
        span=there(label.span),
        place=label.place.shifted(-start),
    )
    return replace(item, label=own)
