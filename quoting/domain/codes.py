"""Every problem code there is, with its level and its words, in one table.

Codes are stable: P1.. files and sheets, P2.. single cells, P3.. rows, P4.. across
sheets, P5.. forms, P6.. stock, labour, delivery and price, P7.. site. A code that is no longer
used is not given to something else.
"""

from __future__ import annotations

from dataclasses import dataclass

from quoting.domain.places import Place
from quoting.domain.problems import Level, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """A kind of problem. `why` and `fix` may name facts in braces; {seen} is the cell's own text."""

    level: Level
    why: str
    fix: str


NOTE, HOLD, BOOK = Level.NOTE, Level.HOLD, Level.BOOK

CODES: dict[str, Code] = {
    # --- P1: files and sheets -------------------------------------------------------
    "P101": Code(level=BOOK, why="this file can't be read as a workbook ({reason})", fix="save it again as .xlsx"),
    "P120": Code(level=BOOK, why="this folder has no workbook in it", fix="name the folder that holds your books (.xlsx, .xlsm or .ods)"),
    "P121": Code(level=BOOK, why="there is no such file or folder", fix="check the name"),
    "P122": Code(level=BOOK, why="another book of this name is read already ({other})", fix="give one of the two another name"),
    # --- P2: single cells -----------------------------------------------------------
    "P204": Code(level=HOLD, why='{heading} is "{seen}"', fix="type one length, e.g. 8 ft or 2.44 m"),
    # --- P3: rows -------------------------------------------------------------------
    # --- P4: across sheets ----------------------------------------------------------
    # --- P5: forms ------------------------------------------------------------------
    "P501": Code(level=HOLD, why="neither a fill nor a size is given", fix="type a fill, e.g. 9.5 in, or a size, e.g. 11"),
    "P502": Code(level=HOLD, why="a fill of {fill} is more than {size} in balloons take", fix="type a fill of at most {size} in, or a larger size"),
    "P503": Code(level=HOLD, why="no round balloon in the Balloons sheet takes a fill of {fill}; the largest is {largest}", fix="type a smaller fill, or add the balloon to the Balloons sheet"),
    "P504": Code(level=HOLD, why="{colour} is not stocked as {what}; stocked so: {stocked}", fix="{hint}"),
    "P505": Code(level=HOLD, why="{colour} is stocked in more than one finish as {what}", fix="type one of: {choices}"),
    "P506": Code(level=HOLD, why="{count} colours, but no pattern that says how they go", fix="choose spiral, bands, blocks or mix"),
    "P507": Code(level=HOLD, why="a solid piece has one colour, here are {count}", fix="type one colour, or choose another pattern"),
    "P508": Code(level=HOLD, why="{count} colours don't go evenly round a ring of {per_ring}", fix="type as many colours as go into {per_ring} without rest, or choose bands or mix"),
    "P509": Code(level=HOLD, why="blocks of {blocks} rings make {total}, the piece has {rings} rings", fix="{hint}"),
    "P510": Code(level=HOLD, why="{blocks} blocks are given for {colours} colours", fix="type one number of rings per colour; leave the last out and it takes the rest"),
    "P511": Code(level=HOLD, why="{why}", fix="type one percent per colour that come to 100 %, or leave blank for equal shares"),
    "P512": Code(level=HOLD, why="neither a height nor a number of rings is given", fix="type one of the two"),
    "P513": Code(level=HOLD, why="{heading} is given beside {other}, which fixes it already", fix="leave one of the two blank"),
    "P514": Code(level=HOLD, why="rings of {first} and {second} can't stand on each other: the small ring drops through the big one", fix="type fills nearer to each other"),
    "P515": Code(level=HOLD, why="{what} needs a height", fix="type the height, e.g. 8 ft"),
    "P516": Code(level=HOLD, why="no pole in the Hardware sheet is at least {needed} long and thinner than {room}", fix="type a pole, add one to the Hardware sheet, or type none"),
    "P517": Code(level=HOLD, why="{item} is {is_what}, {needs}", fix="type another one, or none"),
    "P518": Code(level=HOLD, why="{item} is no {part} but a {is_part}", fix="type a {part} as the Hardware sheet names it, or none"),
    "P519": Code(level=HOLD, why="the Hardware sheet has no {part} to take", fix="add one and mark it usual, or type none"),
    "P520": Code(level=HOLD, why="{item} is in none of the price sheets, or its row there can't be used", fix="type an item as its sheet names it{hint}"),
    "P521": Code(level=HOLD, why="the balloons of {size} in have {usual}", fix="type the fill, e.g. 9.5 in"),
    "P522": Code(level=HOLD, why="the two ends alone come to {ends}, more than the {height} wanted", fix="type a larger height, or fewer fills at each end"),
    "P523": Code(level=HOLD, why="a middle of {what} needs {heading}", fix="type {example}"),
    "P524": Code(level=HOLD, why="{rings} rings leave none between ends of {ends}", fix="type more rings, or fewer fills at each end"),
    "P525": Code(level=HOLD, why="no round balloon of {size} in is stocked; sizes stocked: {sizes}", fix="type one of the sizes stocked"),
    "P526": Code(level=HOLD, why="a {curve} {width} wide is {fixed} high, not {height}", fix="leave the height blank, or choose another curve"),
    "P527": Code(level=HOLD, why="rings {ring} wide leave no room in an arch of this size", fix="type a larger width and height, or a smaller fill"),
    "P528": Code(level=HOLD, why="the build counts per {per}, and no {heading} is given", fix="type the {heading}"),
    "P529": Code(level=HOLD, why="the build asks for colour number {place}, the piece has {count}", fix="type at least {place} colours"),
    "P530": Code(level=HOLD, why="row {row} of the build can't be worked out: {reason}", fix="mend that row of the Builds sheet"),
    "P531": Code(level=HOLD, why="{item} is bought, not hired", fix="set its use to hire in the Hardware sheet, or put it on another piece as an accent"),
    "P532": Code(level=HOLD, why="a service needs a fixed price", fix="type its price, e.g. 120.00"),
    "P533": Code(level=HOLD, why="a wrap needs the number of its turns", fix="type a number, e.g. 3"),
    "P534": Code(level=HOLD, why="{item} can't be wound round a piece: it is no twister and no bought hardware with a length", fix="type a twister, or give the hardware a length"),
    "P535": Code(level=NOTE, why="{heading} is not used {when}", fix="leave it blank"),
    "P536": Code(level=HOLD, why="a wrap needs {heading} of the piece", fix="type it, or leave the wrap blank"),
    "P537": Code(level=HOLD, why="a piece of more than {most} rings can't be worked out here", fix="check the lengths and fills"),
    # --- P6: stock, labour, delivery, price -----------------------------------------
    # --- P7: site -------------------------------------------------------------------
    # --- P9: the program itself -----------------------------------------------------
    "P901": Code(level=HOLD, why="the program itself failed on this job ({error})", fix="this is our mistake, not yours: please send us this line"),
}


def problem(code: str, place: Place, *, seen: str = "", job: str = "", level: Level | None = None, **facts: object) -> Problem:
    """The problem of a code at a place, its words filled in with `facts`.

    `level` overrides the table's (a missing price is a hold for the job that needs it,
    a note for a price sheet nobody uses). KeyError for an unknown code or a fact left out.
    """
    entry = CODES[code]
    words = {"seen": seen, **facts}
    return Problem(
        code=code,
        level=entry.level if level is None else level,
        place=place,
        why=entry.why.format_map(words),
        fix=entry.fix.format_map(words),
        seen=seen,
        job=job,
    )
