"""Sentences of instruction lines and the steps they are.

Forms are common practice in printed patterns, no source; every sentence is our own.
"""

from dataclasses import replace

import pytest

from stitchproof.base.place import Span
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.read.lex import lex
from stitchproof.language.read.steps.line import read_steps
from stitchproof.language.read.steps.reader import Context
from stitchproof.language.tree import (
    CHAIN,
    SPACE,
    STITCH,
    AsLong,
    Behind,
    Below,
    Between,
    Chain,
    Colour,
    Counts,
    Each,
    Either,
    Evenly,
    Facing,
    FastenOff,
    First,
    Group,
    Join,
    JoinYarn,
    Last,
    Leave,
    Loop,
    MagicRing,
    Make,
    Mark,
    Marked,
    Next,
    Noun,
    Nth,
    OppositeSide,
    Origin,
    Post,
    Remark,
    Repeat,
    Ring,
    RowEnds,
    Same,
    SeamPlace,
    SeamSides,
    SeamTops,
    Skip,
    Special,
    Step,
    Steps,
    Stitch,
    Target,
    Thing,
    Times,
    To,
    ToLast,
    ToMarked,
    Turn,
    Unread,
    Until,
    Within,
)


def n(*values: int) -> Number:
    return Number(value=values)


def kind(name: str) -> Noun:
    return Noun(Thing.KIND, name)


def space(chains: int | None = None) -> Noun:
    return Noun(Thing.CHAIN_SPACE, chains=chains)


def make(name: str, at: Target | None = None, each: int = 1) -> Make:
    return Make(Stitch(name), plain(each), at or Next())


def along(name: str, until: Until | None = None, noun: Noun = STITCH) -> Make:
    return make(name, Each(noun) if until is None else Each(noun, until))


def tog(name: str, number: int = 2, at: Target | None = None) -> Make:
    return Make(Stitch(name, together=number), ONE, at or Next())


def ch(count: int, counts: Counts | None = None) -> Chain:
    return Chain(plain(count), counts)


def sk(count: int = 1, noun: Noun = STITCH) -> Skip:
    return Skip(Next(plain(count), noun))


def same(name: str, each: int = 1) -> Make:
    return make(name, Same(), each)


def rep(*body: Step, until: Until | None = None, mark: str = "*") -> Repeat:
    return Repeat(body, AsLong() if until is None else AsLong(until), mark)


def times(number: int, *body: Step, mark: str = "(", more: bool = False) -> Repeat:
    return Repeat(body, Times(plain(number), more=more), mark)


TCH = Noun(Thing.TURNING_CHAIN)
CENTRE = Noun(Thing.STITCH, "centre")
IN_GROUP = Next(ONE, Noun(Thing.GROUP))
THERE = Origin.HERE
EITHER = Noun(Thing.STITCH_OR_CHAIN, "", 1)
TOP = Next(ONE, TCH)
VEE = Group((same("dc", 2), ch(2), same("dc", 2)), Next(ONE, space(2)))
FRONT_TREBLE = Make(Stitch("tr", post=Post.FRONT), ONE, Below(plain(2), Next(), kind("dc")))
FILET = rep(
    make("hdc", Next(ONE, kind("sc"))), ch(1), sk(1, kind("sc")), until=ToLast(ONE, kind("sc"))
)

FORMS: tuple[tuple[str, Steps], ...] = (
    # foundations and first rows
    ("Ch 97 (129).", (Chain(n(97, 129)),)),
    ("With larger hook, ch 97.", (Colour("larger", hook=True), ch(97))),
    ("Chain loosely 40.", (ch(40),)),
    ("ch. 3, turn", (ch(3), Turn())),
    ("Fsc 72 (78, 84).", (make("fsc", Next(n(72, 78, 84))),)),
    ("Start 6 sc in a magic circle.", (make("sc", Ring(), 6),)),
    ("MR, sc 6", (MagicRing(), make("sc", Ring(), 6))),
    (
        "MR, ch 3, 2 dc, ch 2, 3 dc",
        (MagicRing(), ch(3), make("dc", Ring(), 2), ch(2), make("dc", Ring(), 3)),
    ),
    ("Start with a magic ring, ch 1", (MagicRing(), ch(1))),
    (
        "3 sc in last ch, on the other side: sc 6",
        (
            make("sc", Last(ONE, CHAIN), 3),
            Remark("on the other side"),
            make("sc", OppositeSide(Next(plain(6)))),
        ),
    ),
    ("6 sc in magic ring.", (make("sc", Ring(), 6),)),
    ("Make a magic ring, ch 1, 12 dc in ring.", (MagicRing(), ch(1), make("dc", Ring(), 12))),
    (
        "Ch 5, sl st in first ch to form a ring.",
        (ch(5), Join(First(ONE, CHAIN), ring=True)),
    ),
    (
        "Ch 80, being careful not to twist, join with sl st in first ch.",
        (ch(80), Remark("being careful not to twist"), Join(First(ONE, CHAIN), ring=True)),
    ),
    (
        "Sc in 2nd ch from hook and in each ch across, turn.",
        (make("sc", Nth((plain(2),))), along("sc", noun=CHAIN), Turn()),
    ),
    (
        "Dc in 3rd ch from hook (skipped chs do not count) and in each ch across.",
        (ch(0, Counts("")), make("dc", Nth((plain(3),))), along("dc", noun=CHAIN)),
    ),
    (
        "Dc in 4th ch from hook (skipped 3 ch count as first dc), dc in each ch to end.",
        (ch(0, Counts("dc")), make("dc", Nth((plain(4),))), along("dc", noun=CHAIN)),
    ),
    (
        "3 sc in last ch, rotate, sc along opposite side of ch.",
        (make("sc", Last(ONE, CHAIN), 3), Remark("rotate"), make("sc", OppositeSide(Each()))),
    ),
    # row starts and turning chains
    ("Ch 1, turn, hdc in each st across.", (ch(1), Turn(), along("hdc"))),
    ("Ch 1. Turn. Hdc in each st. Turn.", (ch(1), Turn(), along("hdc"), Turn())),
    ("3ch, hdc across", (ch(3), along("hdc"))),
    ("sc in last st, ch-1, turn.", (make("sc", Last()), ch(1), Turn())),
    ("Ch 3 (counts as dc), turn.", (ch(3, Counts("dc")), Turn())),
    ("Ch 3 (counts as hdc and ch 1)", (ch(3, Counts("hdc", 1)),)),
    ("Ch 4 (counts as dc, ch 1)", (ch(4, Counts("dc", 1)),)),
    ("Ch 2 (counts as hdc here and throughout)", (ch(2, Counts("hdc", throughout=True)),)),
    ("Ch 2 (does not count as a st), hdc in first st", (ch(2, Counts("")), make("hdc", First()))),
    ("ch 3 counts as dc, dc in next st", (ch(3, Counts("dc")), make("dc"))),
    (
        "Ch 2, sk first hdc, hdc in next hdc",
        (ch(2), Skip(First(ONE, kind("hdc"))), make("hdc", Next(ONE, kind("hdc")))),
    ),
    ("dc in top of turning ch", (make("dc", TOP),)),
    ("dc in top of beg ch-3", (make("dc", TOP),)),
    (
        "sc in next st, dc in 3rd ch of turning ch",
        (make("sc"), make("dc", Nth((plain(3),), CHAIN, Origin.TURNING_CHAIN))),
    ),
    ("Ch 3, dc in same st as joining", (ch(3), make("dc", Same()))),
    ("Chainless dc in first st, dc across", (make("dc", First()), along("dc"))),
    ("Turn, no chain.", (Turn(), Remark("no chain"))),
    # places
    ("2 dc in first st", (make("dc", First(), 2),)),
    ("dc in first 2 sts", (make("dc", First(plain(2))),)),
    ("sc in each of next 5 sts", (make("sc", Next(plain(5))),)),
    ("2 sc in each of next 3 sts", (make("sc", Next(plain(3)), 2),)),
    ("Sc 12", (make("sc", Next(plain(12))),)),
    ("sc in next 4", (make("sc", Next(plain(4))),)),
    ("sc in each st to last 3 sts", (along("sc", ToLast(plain(3))),)),
    ("sc in each st to marked st", (along("sc", ToMarked()),)),
    ("dc in each dc to next ch-2 sp", (along("dc", To(space(2)), kind("dc")),)),
    ("sc in each sc and ch-1 sp across", (along("sc", noun=Noun(Thing.STITCH_OR_CHAIN, "sc", 1)),)),
    ("sc in each st and ch across", (along("sc", noun=Noun(Thing.STITCH_OR_CHAIN)),)),
    ("sc in each sc and ch around", (along("sc", noun=Noun(Thing.STITCH_OR_CHAIN, "sc")),)),
    ("sc in each ch and each st", (along("sc", noun=Noun(Thing.STITCH_OR_CHAIN)),)),
    ("hdc in each hdc and in top of tch", (along("hdc", noun=kind("hdc")), make("hdc", TOP))),
    ("dc in each st across, including tch", (along("dc"), make("dc", TOP))),
    ("3 dc in next sp", (make("dc", Next(ONE, SPACE), 3),)),
    ("dc in 3-ch sp", (make("dc", Next(ONE, space(3))),)),
    ("dc in next 3 ch-1 sps", (make("dc", Next(plain(3), space(1))),)),
    ("2 dc between next 2 sts", (make("dc", Between(Next(plain(2))), 2),)),
    ("3 sc in marked st", (make("sc", Marked(), 3),)),
    ("dc in 6th and 12th st", (make("dc", Nth((plain(6), plain(12)), STITCH, Origin.EDGE)),)),
    ("dc in next 4th st", (make("dc", Nth((plain(4),), STITCH, Origin.HERE)),)),
    ("sc in seam, sc in other seam", (make("sc", SeamPlace()), make("sc", SeamPlace("other")))),
    ("hdc BLO in each st", (Make(Stitch("hdc", Loop.BACK), ONE, Each()),)),
    ("sc in front loop only of each st", (Make(Stitch("sc", Loop.FRONT), ONE, Each()),)),
    ("Working in back loops only, sc across", (Make(Stitch("sc", Loop.BACK), ONE, Each()),)),
    ("hdc in 3rd loop of each st", (Make(Stitch("hdc", Loop.THIRD), ONE, Each()),)),
    ("FPdc around next st", (Make(Stitch("dc", post=Post.FRONT)),)),
    ("dc around the back post of next st", (Make(Stitch("dc", post=Post.BACK)),)),
    ("FPtr around dc 2 rows below next st, sk st behind FPtr", (FRONT_TREBLE, Skip(Behind()))),
    (
        "FPtr around next st 2 rows below, sk st behind it",
        (Make(Stitch("tr", post=Post.FRONT), ONE, Below(plain(2), Next())), Skip(Behind())),
    ),
    ("Sc 42 (46) evenly along lower edge", (make("sc", Evenly(n(42, 46), "along lower edge")),)),
    (
        (
            "up one edge and down the other 2 sc in each dc row end and 1 sc in each sc row end,"
            " none in the shoulder seam (36 (48) sc per edge)"
        ),
        (
            make(
                "sc",
                RowEnds(((kind("dc"), plain(2)), (kind("sc"), ONE)), 2, n(36, 48)),
            ),
            Remark("none in the shoulder seam"),
        ),
    ),
    ("sc in 3rd dc of next 5-dc group", (make("sc", Within(plain(3), kind("dc"), IN_GROUP)),)),
    ("sc in centre dc of next 3-dc group", (make("sc", Next(ONE, CENTRE)),)),
    ("2 dc in ch-1 sp of next dc", (make("dc", Next(ONE, space(1)), 2),)),
    ("Ch 3, sk st at base of ch", (ch(3), Skip(First()))),
    ("sc in sp just made", (make("sc", Same(SPACE)),)),
    ("22 sc across", (make("sc", Next(plain(22))),)),
    ("sc in each front loop around", (Make(Stitch("sc", Loop.FRONT), ONE, Each()),)),
    ("sc in each st and in ch-1 sp across", (along("sc", noun=EITHER),)),
    (
        "sc around, increasing 6 sts evenly",
        (make("sc", Evenly(n(6), "increasing 6 sts evenly", "increased")),),
    ),
    (
        "sc across, dec 6 (8) sts evenly spaced",
        (make("sc", Evenly(n(6, 8), "dec 6 (8) sts evenly spaced", "decreased")),),
    ),
    (
        "inc 12 sts evenly around",
        (make("sc", Evenly(n(12), "inc 12 sts evenly around", "increased")),),
    ),
    ("Sew shoulder seams.", (Remark("Sew shoulder seams"),)),
    ("sc in each row end along the side", (make("sc", RowEnds(((STITCH, ONE),))),)),
    # groups in one place
    ("(2 dc, ch 2, 2 dc) in next ch-2 sp", (VEE,)),
    ("In next ch-2 sp work (2 dc, ch 2, 2 dc)", (VEE,)),
    ("in next ch-2 sp, work 2 dc, ch 2, 2 dc", (VEE,)),
    (
        "(sc, ch 1) in same sp and in each sp around; join",
        (
            Group((same("sc"), ch(1)), Same(SPACE)),
            Group((same("sc"), ch(1)), Each(SPACE)),
            Join(),
        ),
    ),
    (
        "(dc, ch 1) 5 times in next sp",
        (Group((times(5, same("dc"), ch(1)),), Next(ONE, SPACE)),),
    ),
    # increases and decreases
    ("sc in next 3 sts, inc", (make("sc", Next(plain(3))), make("sc", each=2))),
    ("hdc inc in next st", (make("hdc", each=2),)),
    ("inc x 6", (make("sc", Next(plain(6)), 2),)),
    ("dc twice in next st", (make("dc", each=2),)),
    ("dc twice in each of next two", (make("dc", Next(plain(2)), 2),)),
    ("sc2tog over next 2 sts", (tog("sc"),)),
    ("sc2tog over next 4 sts", (tog("sc", at=Next(plain(2))),)),
    ("sc2tog twice", (tog("sc", at=Next(plain(2))),)),
    ("dc3tog over last 3 sts", (tog("dc", 3, Last()),)),
    ("dec over next 2 sts, hdc across", (tog("hdc"), along("hdc"))),
    ("sc dec, inv dec", (tog("sc"), tog("sc"))),
    ("sc next 2 sts together", (tog("sc"),)),
    ("sc across, leave last 5 sts unworked", (along("sc", ToLast(plain(5))), Leave(plain(5)))),
    ("1 (2, 1) hdc in first st", (Make(Stitch("hdc"), n(1, 2, 1), First()),)),
    ("2 sc tog", (tog("sc"),)),
    ("tr2tog worked over next 2 sts", (tog("tr"),)),
    ("5-dc cl in next st", (make("cluster"),)),
    ("3-dc bobble in next st, 2 puffs in next st", (make("bobble"), make("puff", each=2))),
    ("5-dc shell in next st", (make("dc", each=5),)),
    ("Skip remaining sts", (Leave(),)),
    ("Do not work last 3 sts", (Leave(plain(3)),)),
    ("sc in remaining sts across", (along("sc"),)),
    ("ch 8, sl st to first ch to form ring", (ch(8), Join(First(ONE, CHAIN), ring=True))),
    (
        "FPtr around FPtr 2 rows below",
        (Make(Stitch("tr", post=Post.FRONT), ONE, Below(plain(2), Next(), kind("fptr"))),),
    ),
    ("1 FPtr around the dc 2 rows below next st", (FRONT_TREBLE,)),
    # repeats
    (
        "*Sc in next 4 sts, 2 sc in next st; rep from * around.",
        (rep(make("sc", Next(plain(4))), make("sc", each=2)),),
    ),
    (
        "*hdc in next sc, ch 1, sk next sc; rep from * to last sc, hdc in last sc",
        (FILET, make("hdc", Last(ONE, kind("sc")))),
    ),
    ("*Hdc, ch 1, sk 1 st*; rep from * to * across", (rep(make("hdc"), ch(1), sk()),)),
    ("*Sc in next 2 sts, inc* around", (rep(make("sc", Next(plain(2))), make("sc", each=2)),)),
    ("*sc, inc* 4 times", (times(4, make("sc"), make("sc", each=2), mark="*"),)),
    ("*dc, ch 1; rep from * 4 more times", (times(4, make("dc"), ch(1), mark="*", more=True),)),
    ("*dc, ch 1; rep from * 4 times more", (times(4, make("dc"), ch(1), mark="*", more=True),)),
    ("*dc, ch 1; rep from * another 4 times", (times(4, make("dc"), ch(1), mark="*", more=True),)),
    ("*dc, ch 1; rep from * once", (times(1, make("dc"), ch(1), mark="*", more=True),)),
    ("*dc, ch 1; rep from * for a total of 4 times", (times(4, make("dc"), ch(1), mark="*"),)),
    (
        "*dc in next st, ch 1, sk next st; rep from * across, ending with dc in last st",
        (rep(make("dc"), ch(1), sk(), until=ToLast()), make("dc", Last())),
    ),
    (
        "*Dc in next 3 sts, ch 2,** sk 2 sts; rep from * across, ending last rep at **.",
        (Repeat((make("dc", Next(plain(3))), ch(2), sk(2)), AsLong(), "*", 2),),
    ),
    ("(Sc, inc) 6 times", (times(6, make("sc"), make("sc", each=2)),)),
    ("(2 sc, inc) x 6", (times(6, make("sc", Next(plain(2))), make("sc", each=2)),)),
    ("[Ch 1, sk 1 st, dc in next st] 11 times", (times(11, ch(1), sk(), make("dc"), mark="["),)),
    (
        "[dc, ch 1] zero (one, two) time(s)",
        (Repeat((make("dc"), ch(1)), Times(n(0, 1, 2)), "["),),
    ),
    (
        "[Sc2tog, ch 1] across to last st, sc in last st",
        (rep(tog("sc"), ch(1), until=ToLast(), mark="["), make("sc", Last())),
    ),
    (
        "repeat {2 dc in next st, dc in next st} to end",
        (rep(make("dc", each=2), make("dc"), mark="{"),),
    ),
    ("Ch 1, 2 sc in next st. Repeat around.", (ch(1), rep(make("sc", each=2), mark=""))),
    (
        "*Ch 1, (dc in next sp, ch 1) 3 times; rep from * around",
        (rep(ch(1), times(3, make("dc", Next(ONE, SPACE)), ch(1))),),
    ),
    (
        "#(dc, ch 1) twice#, sc, work from # to #",
        (
            times(2, make("dc"), ch(1)),
            make("sc"),
            Repeat((times(2, make("dc"), ch(1)),), Times(ONE), "#"),
        ),
    ),
    # rounds, joins, ends
    ("Join with sl st to first hdc.", (Join(First(ONE, kind("hdc"))),)),
    ("hdc around, sl st in first hdc", (along("hdc"), Join(First(ONE, kind("hdc"))))),
    ("join in 2nd ch", (Join(Nth((plain(2),), CHAIN, Origin.TURNING_CHAIN)),)),
    ("Ch 30, join to work in the round", (ch(30), Join(ring=True))),
    ("2 sc in same ch as first 2 sc", (make("sc", Same(CHAIN), 2),)),
    (
        "72 sc evenly along row ends (1 sc in each row)",
        (
            make("sc", Evenly(plain(72), "along row ends")),
            Remark("(1 sc in each row)"),
        ),
    ),
    ("join with sl st in top of beg ch-3", (Join(TOP),)),
    ("sc around, sl st top beg sc, turn", (along("sc"), Join(First(ONE, kind("sc"))), Turn())),
    ("ss to join", (Join(),)),
    ("Work in a spiral; do not join.", (Remark("Work in a spiral"), Join(do=False))),
    ("do not turn", (Turn(do=False),)),
    ("Do not fasten off.", (FastenOff(do=False),)),
    ("Fasten off, leaving a long tail.", (FastenOff(), Remark("leaving a long tail"))),
    ("(sc, dec) x 6. Stuff firmly.", (times(6, make("sc"), tog("sc")), Remark("Stuff firmly"))),
    ("Cut yarn.", (FastenOff(),)),
    (
        "With RS facing, join yarn in next unworked st.",
        (Facing("RS"), JoinYarn(Next())),
    ),
    ("join yarn at neck edge", (JoinYarn(None, of="neck edge"),)),
    ("join at a shoulder seam", (JoinYarn(SeamPlace("shoulder")),)),
    ("Join B with sl st in first st", (Colour("B"), JoinYarn(First()))),
    (
        "Skip next 14 (16) sts for neck, dc in next st",
        (Skip(Next(n(14, 16))), Remark("for neck"), make("dc")),
    ),
    # colours, markers, seams, advice
    ("Sc in last st, changing to B.", (make("sc", Last()), Colour("B"))),
    ("With A, ch 2", (Colour("A"), ch(2))),
    ("With 2 strands held together, ch 40", (Remark("With 2 strands held together"), ch(40))),
    ("With RS facing and smaller hook, ch 1", (Facing("RS"), Colour("smaller", hook=True), ch(1))),
    ("With 4.5 mm hook, ch 3", (Colour("4.5 mm", hook=True), ch(3))),
    ("Place marker in last st made.", (Mark("place", Same()),)),
    ("move marker up", (Mark("move"),)),
    ("Mark both edges at the top of Row 42 (38).", (Mark("place", rows=n(42, 38), edges=2),)),
    (
        (
            "RS together, whipstitch 20 (35) sts from each outer edge of the last row;"
            " the centre 55 (57) stay open."
        ),
        (Remark("RS together"), SeamTops(n(20, 35), n(55, 57))),
    ),
    ("Whipstitch row ends from hem to marker, 42 rows", (SeamSides(plain(42)),)),
    ("5 dc in next st (shell made), sk 2 sts", (make("dc", each=5), Remark("(shell made)"), sk(2))),
    ("Sc across (24 sc), turn", (along("sc"), Remark("(24 sc)"), Turn())),
    (
        "hdc across (40 hdc and 4 ch-2 sps), ch 1, turn",
        (along("hdc"), Remark("(40 hdc and 4 ch-2 sps)"), ch(1), Turn()),
    ),
    ("36 sc in next 36 sts", (make("sc", Next(plain(36))),)),
    ("Ch 3 (see Notes), dc", (ch(3), Remark("(see Notes)"), make("dc"))),
    (
        "sc in same st and in each st (see Notes)",
        (make("sc", Same()), along("sc"), Remark("(see Notes)")),
    ),
    (
        "sc in next st and in next sp (dc, ch 1)",
        (make("sc"), Group((same("dc"), ch(1)), Next(ONE, SPACE))),
    ),
    ("inc (2 sc in next st)", (make("sc", each=2), Remark("(2 sc in next st)"))),
    ("dc (you may want to mark it)", (make("dc"), Remark("(you may want to mark it)"))),
    (
        "Sc 20, ch 14 (34 sts in all), turn",
        (make("sc", Next(plain(20))), ch(14), Remark("(34 sts in all)"), Turn()),
    ),
    ("SK 1, CH 2, DC across", (sk(), ch(2), along("dc"))),
    ("work 1 double crochet in next chain", (make("dc", Next(ONE, CHAIN)),)),
    ("double crochet the last 2 stitches together", (tog("dc", at=Last()),)),
    ("dc the next 3 sts tog", (tog("dc", 3),)),
    ("make a foundation chain of 40", (ch(40),)),
    ("ch 40 (a multiple of 8)", (ch(40), Remark("(a multiple of 8)"))),
    ("sc in 3rd ch of next ch-5 sp", (make("sc", Within(plain(3), CHAIN, Next(ONE, space(5)))),)),
    (
        "sc in marked st and in each st up to and including next marked st",
        (make("sc", Marked()), along("sc", ToMarked()), make("sc", Marked())),
    ),
    (
        "hdc in each st to next marker, remove marker, 3 hdc in same st",
        (along("hdc", ToMarked()), Mark("remove"), make("hdc", Marked(), 3)),
    ),
    (
        "working this row in back loops only, sc in each st",
        (Make(Stitch("sc", loop=Loop.BACK), ONE, Each()),),
    ),
    (
        "sc in each st across, working (sc, ch 3, sc) in center dc of each 7-dc fan",
        (along("sc"), Group((same("sc"), ch(3), same("sc")), Each(CENTRE))),
    ),
)  # fmt: skip


def read(text: str, context: Context | None = None) -> tuple[Steps, list[str]]:
    tokens, _ = lex(text, Span("t", 0, len(text)), frozenset())
    steps, found = read_steps(tokens, context)
    return steps, [f"{one.finding.code.slug}: {one.finding.message()}" for one in found]


@pytest.mark.parametrize(("text", "steps"), FORMS, ids=[text for text, _ in FORMS])
def test_form(text: str, steps: Steps) -> None:
    assert read(text) == (steps, [])


@pytest.mark.parametrize(("text", "steps"), FORMS, ids=[text for text, _ in FORMS])
def test_the_same_in_capitals_and_without_spare_spaces(text: str, steps: Steps) -> None:
    del steps
    shouted, found = read(text.upper().replace(" (S)", ""))
    quiet, _ = read(text)
    assert found == []
    assert [type(step) for step in shouted] == [type(step) for step in quiet]


@pytest.mark.parametrize(
    ("text", "steps"),
    [
        ("1 htr in each st to end", (along("hdc"),)),
        ("dc in next st", (make("sc"),)),
        ("miss 1 st, 2 tr in next dc", (sk(), make("dc", Next(ONE, kind("sc")), 2))),
        ("rtrf around next st", (Make(Stitch("dc", post=Post.FRONT)),)),
        ("raised tr front around next st", (Make(Stitch("dc", post=Post.FRONT)),)),
        ("dc2tog", (tog("sc"),)),
        ("3ch (counts as 1 tr)", (ch(3, Counts("dc")),)),
        ("1ch, 4dc, turn", (ch(1), make("sc", Next(plain(4))), Turn())),
        ("1 dc to end, ss in top of 3ch", (along("sc"), Join(TOP))),
        (
            "join with ss in 3rd of 3ch",
            (Join(Nth((plain(3),), CHAIN, Origin.TURNING_CHAIN)),),
        ),
    ],
)
def test_uk_words_are_us_stitches(text: str, steps: Steps) -> None:
    assert read(text, Context(terms="UK")) == (steps, [])


SHELL = Special("shell", "Shell", (same("dc", 5),))
SHELLS = Group((same("dc", 5),), Next(), "shell")
KNOT = Special("kst", "Kst", None, Stitch("kst"))


@pytest.mark.parametrize(
    ("text", "steps"),
    [
        ("Shell in next st", (SHELLS,)),
        ("*sk 2 sts, shell; rep from * across", (rep(sk(2), SHELLS),)),
        ("shell in each shell", (replace(SHELLS, at=Each(Noun(Thing.GROUP, "shell"))),)),
        ("Kst in next 3 sts", (make("kst", Next(plain(3))),)),
    ],
)  # fmt: skip
def test_stitches_of_the_author(text: str, steps: Steps) -> None:
    assert read(text, Context(specials={"shell": SHELL, "kst": KNOT})) == (steps, [])


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("*dc in next st, ch 1; rep from * 3 times", ("3 more", "3 in all")),
        ("sc in next st, 3 dc, sc in next st", ("one in each", "all in one place")),
        ("3 hdc in next 3 sts", ("3 in all", "3 in each")),
        ("2 sc - 1 inc x6", ("the whole line", "the last")),
        ("Sc in next st. Dc in next st, ch 1. Rep around.", ("the last sentence", "the whole row")),
    ],
)
def test_what_words_leave_open_is_left_open(text: str, names: tuple[str, ...]) -> None:
    steps, found = read(text)
    assert found == []
    assert [step.names for step in steps if isinstance(step, Either)] == [names]


@pytest.mark.parametrize(
    ("text", "unread", "told"),
    [
        (
            "sc in next st, wibble in next st, turn",
            "wibble in next st",
            "unread-words: `wibble in next st` could not be read, so what it makes is not proved",
        ),
        (
            "Xdc in next st",
            "Xdc in next st",
            (
                "unknown-abbreviation: `Xdc` is no stitch or abbreviation in US terms;"
                " `exdc` looks much like it"
            ),
        ),
        (
            "sc in next st, sc through both layers, turn",
            "sc through both layers",
            "unread-words: `through both layers` could not be read, so what it makes is not proved",
        ),
        (
            "1 sc; 3 hdc; 1 dc; 3 hdc …. 1 sc",
            "…",
            "unread-words: `…` could not be read, so what it makes is not proved",
        ),
        (
            "Rep from * across",
            "Rep from * across",
            "repeat-mark-missing: it repeats from `*`, but no `*` stands before it",
        ),
    ],
)
def test_unread_words_are_told_once(text: str, unread: str, told: str) -> None:
    steps, found = read(text)
    assert [step.words for step in steps if isinstance(step, Unread)] == [unread]
    assert found == [told]


def test_brackets_without_a_partner_are_told() -> None:
    assert read("(sc, ch 1 in next st, dc. Turn.") == (
        (Unread("(sc, ch 1 in next st, dc"), Turn()),
        ["bracket-not-closed: nothing closes the `(`"],
    )
    assert read("sc) in next st, turn") == (
        (make("sc"), Unread(") in next st"), Turn()),
        ["bracket-not-closed: nothing opens the `)`"],
    )


def test_places_are_those_of_the_words() -> None:
    text = "Ch 2, *dc in next  st; rep from * across, Turn."
    steps, _ = read(text)
    assert [text[step.place.start : step.place.end] for step in steps] == [
        "Ch 2",
        "dc in next  st; rep from * across",
        "Turn",
    ]


def test_another_definition_of_the_same_name_is_taken_up() -> None:
    fan = Special("shell", "Shell", (same("dc", 7),))
    for special in (SHELL, fan, SHELL):
        steps, _ = read("shell in next st", Context(specials={"shell": special}))
        assert [step.body for step in steps if isinstance(step, Group)] == [special.body]
