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
    "P102": Code(level=BOOK, why="this is no ordinary file, so it is not opened", fix="put the workbook itself here"),
    "P103": Code(level=BOOK, why="this workbook is locked with a password", fix="save a copy without a password"),
    "P104": Code(level=BOOK, why="this can't be read as a workbook: it is {reason}", fix="save it as .xlsx, .xlsm or .ods in office software"),
    "P105": Code(level=BOOK, why="this file is too large to be read ({reason})", fix="copy your rows into a new blank book"),
    "P106": Code(level=BOOK, why='two sheets are called "{seen}" and can\'t be told apart, so neither is read', fix="rename or delete one of them"),
    "P107": Code(level=BOOK, why="no row with the headings of {sheet} can be found here", fix="put back the headings as the blank book has them, e.g. {headings}"),
    "P108": Code(level=BOOK, why="the column {heading} is missing", fix="{hint}add a column with this heading"),
    "P109": Code(level=BOOK, why="the heading {heading} is here twice, in {other} too", fix="rename or delete one of the two columns"),
    "P110": Code(level=HOLD, why='the heading says "{unit}", which is no unit {heading} can have', fix="put back the heading as the blank book has it, e.g. {example}"),
    "P111": Code(level=NOTE, why='"{seen}" is no heading of this sheet, so the column is not read', fix="did you mean {heading}?"),
    "P112": Code(level=NOTE, why='"{seen}" is no sheet of the book, so it is not read', fix="did you mean {sheet}?"),
    "P113": Code(level=BOOK, why="the setting {heading} is here twice, in {other} too", fix="keep one of the two rows"),
    "P114": Code(level=HOLD, why='this stands under "{typed}", which is no heading of this sheet', fix="did you mean {heading}? Rename the heading, or clear the cell"),
    "P115": Code(level=BOOK, why='"{typed}" is no setting', fix="did you mean {heading}? Rename it, or clear its value"),
    "P116": Code(level=NOTE, why='"{seen}" is merged across the table, so it is taken for a title between rows', fix="unmerge the cells if they hold values"),
    "P120": Code(level=BOOK, why="this folder has no workbook in it", fix="name the folder that holds your books (.xlsx, .xlsm or .ods)"),
    "P121": Code(level=BOOK, why="there is no such file or folder", fix="check the name"),
    "P122": Code(level=BOOK, why="another book of this name is read already ({other})", fix="give one of the two another name"),
    # --- P2: single cells -----------------------------------------------------------
    "P201": Code(level=HOLD, why="{heading} shows the error {seen}", fix="mend the formula, or type the value itself"),
    "P202": Code(level=HOLD, why="{heading} is a formula whose result was never worked out", fix="open the book in office software and save it, or type the value itself"),
    "P203": Code(level=HOLD, why="{heading} is the date or time {seen}, where a name or text belongs", fix="format the cell as text, then type it again"),
    "P204": Code(level=HOLD, why='{heading} is "{seen}"', fix="type one length, e.g. 8 ft or 2.44 m"),
    "P205": Code(level=HOLD, why='{heading} is "{seen}", without a unit', fix="{fix}"),
    "P206": Code(level=HOLD, why='{heading} is "{seen}", which can be read as {first} or as {second}', fix="type it so that it has one meaning: {better}"),
    "P207": Code(level=HOLD, why='{heading} is "{seen}", which is no number', fix="{fix}"),
    "P208": Code(level=HOLD, why='{heading} is "{seen}", which is no whole number', fix="{fix}"),
    "P209": Code(level=HOLD, why='{heading} is "{seen}", which can be read as {first} or as {second}', fix="type it with its percent sign"),
    "P210": Code(level=HOLD, why='{heading} is "{seen}", which is no percent', fix="{fix}"),
    "P211": Code(level=HOLD, why='{heading} is "{seen}", which is no amount of money', fix="{fix}"),
    "P212": Code(level=HOLD, why='{heading} is "{seen}", which is no date', fix="type a date, e.g. 14 May 2031 or 2031-05-14"),
    "P214": Code(level=HOLD, why='{heading} is "{seen}", without the four figures of its year', fix="type the whole year, e.g. 14 May 2031"),
    "P215": Code(level=HOLD, why='{heading} is the number {seen}, where a date belongs', fix="format the cell as a date, or type the date as text, e.g. 14 May 2031"),
    "P216": Code(level=HOLD, why="{heading} is the date or time {seen}, where a number belongs", fix="format the cell as a number, then type it again"),
    "P217": Code(level=HOLD, why="{heading} is a ticked or unticked box ({seen})", fix="{fix}"),
    "P218": Code(level=HOLD, why="{heading} is {seen}, a number too large to be meant", fix="{fix}"),
    "P219": Code(level=HOLD, why='{heading} is "{seen}", which is no time of day', fix="type a time, e.g. 14:30 or 2:30 pm"),
    "P220": Code(level=HOLD, why="{heading} is {seen}, a percent", fix="format the cell as a number, then type it again"),
    "P221": Code(level=HOLD, why='{heading} is "{seen}", neither yes nor no', fix="type yes or no"),
    "P222": Code(level=HOLD, why='{heading} is "{seen}", with nothing between two commas', fix="take one of the commas out, or type what is missing"),
    "P223": Code(level=HOLD, why='{heading} is "{seen}"', fix="type names with commas between, with how many, e.g. 3 x Foil star, Paper fan"),
    "P224": Code(level=HOLD, why='{heading} is "{seen}", which is no distance', fix="type one distance, e.g. 12 mi or 20 km"),
    "P225": Code(level=HOLD, why='{heading} is "{seen}", which is no weight', fix="type one weight, e.g. 9 lb or 4 kg"),
    "P226": Code(level=HOLD, why='{heading} is "{seen}", where a comma may part two numbers or be a decimal mark', fix="type semicolons between the numbers, and a point for a decimal"),
    "P227": Code(level=HOLD, why="{heading} is a list of more than {most}", fix="type fewer"),
    "P228": Code(level=HOLD, why='in {heading}, "{entry}" is no length', fix="{fix}"),
    # --- P3: rows -------------------------------------------------------------------
    "P301": Code(level=HOLD, why="{heading} is blank", fix="{fix}"),
    "P302": Code(level=HOLD, why='{heading} is "{seen}", which is not in its list', fix="{fix}"),
    "P303": Code(level=HOLD, why='{heading} is "{seen}"; it must be {rule}', fix="{fix}"),
    "P304": Code(level=HOLD, why='{heading} is "{seen}"; it must be {rule}', fix="{fix}"),
    "P305": Code(level=HOLD, why='{heading} is "{seen}", which it can\'t be', fix="{fix}"),
    "P306": Code(level=HOLD, why="{heading} is too long ({length} signs; at most {most})", fix="shorten it"),
    "P307": Code(level=HOLD, why="a {form} needs {heading}, and it is blank", fix="{fix}"),
    "P308": Code(level=NOTE, why="a {form} does not use {heading}", fix="clear the cell, or choose the form you meant"),
    "P309": Code(level=HOLD, why='{heading} is "{seen}", which names one thing twice', fix="name each once"),
    "P310": Code(level=BOOK, why="the setting {heading} is blank or missing", fix="{fix}"),
    # --- P4: across sheets ----------------------------------------------------------
    "P401": Code(level=BOOK, why="none of the books has a sheet {sheet} that can be used", fix="add the sheet {sheet} as the blank book has it"),
    "P402": Code(level=BOOK, why='{heading} is "{seen}" here and "{other}" in {book}', fix="give the setting in one book only, or the same in both"),
    "P403": Code(level=BOOK, why="this book's layout is version {seen}; this program reads version {version}", fix="{fix}"),
    "P404": Code(level=BOOK, why="no job can be quoted while {heading} can't be understood", fix="mend this cell first"),
    "P410": Code(level=HOLD, why='job "{seen}" is in {other} already', fix="give each job a code of its own, or leave out one of the two rows"),
    "P411": Code(level=HOLD, why="this piece names no job; it may belong to job {job_code}", fix="type the job's code"),
    "P412": Code(level=HOLD, why='no job has the code "{seen}"', fix="{hint}type a code from the Jobs sheet"),
    "P413": Code(level=HOLD, why='job {job_code} has a piece "{seen}" already, in {other}', fix="give each piece of a job a letter or number of its own"),
    "P414": Code(level=HOLD, why="the job has no pieces", fix="add its pieces on the Pieces sheet, with this code"),
    "P415": Code(level=HOLD, why="the install ({seen}) is after the event ({event})", fix="put the dates and times in order: install, event, strike"),
    "P416": Code(level=HOLD, why="the strike ({seen}) is before the event ({event})", fix="put the dates and times in order: install, event, strike"),
    "P417": Code(level=HOLD, why="the event ({event}) is before the quote's date ({quoted})", fix="correct the date, or leave out the row if the event is over"),
    "P418": Code(level=NOTE, why="no rate of the tax {tax} holds on {event}, so that tax is not charged", fix="add the rate for that time to the Tax sheet, if there is one"),
    "P420": Code(level=HOLD, why='"{name}" is not on the {sheets} sheet', fix="{hint}type the name as the sheet has it, or add it there"),
    "P421": Code(level=HOLD, why='"{name}" can\'t be used: something is wrong with it at {other}', fix="mend that row, or name another"),
    "P422": Code(level=HOLD, why="the usual {part} can't be told: something is wrong at {other}", fix="mend that row, or name the one to use here"),
    "P423": Code(level=HOLD, why="a fill of {seen} is above the nominal size, {size} in", fix="type a smaller fill or a larger size"),
    "P424": Code(level=HOLD, why="the job is delivered, but the distance is blank", fix="type the distance to the venue, e.g. 12 mi, or choose client collects"),
    "P425": Code(level=HOLD, why="delivery can't be charged: something is wrong at {other}", fix="mend the Delivery sheet"),
    "P430": Code(level=HOLD, why='no job has the code "{seen}"', fix="{hint}type a code from the Jobs sheet, or leave it blank for every job"),
    "P431": Code(level=HOLD, why='job {job_code} has no piece "{seen}"', fix="{hint}type the letter or number of one of its pieces, or leave it blank for the whole order"),
    "P432": Code(level=BOOK, why='it is for piece "{seen}", but names no job', fix="type the job's code, or clear the piece"),
    "P433": Code(level=HOLD, why="it has {found} a percent and an amount", fix="give a percent or an amount, one of the two"),
    "P434": Code(level=HOLD, why="{until_heading} ({seen}) is before {from_heading} ({start})", fix="put the two dates in order"),
    "P440": Code(level=HOLD, why='{heading} is "{seen}", but all prices are in {currency}', fix="type the amount in {currency}"),
    "P451": Code(level=HOLD, why='{heading} is "{seen}" here and "{other}" in {where} for the same item', fix="make the rows of one item agree, or give them two names"),
    "P452": Code(level=HOLD, why="this pack has another price at the same time, in {other}", fix="end one price before the other begins, name two suppliers, or leave out a row"),
    "P453": Code(level=HOLD, why="the usual fill, {seen}, is above the nominal size, {size} in", fix="type a fill at or below the size"),
    "P454": Code(level=NOTE, why="every price of {item} has run out; the last held until {seen}", fix="type the new price, and clear this date or type a later one"),
    "P455": Code(level=HOLD, why="{item} is the same shape, size, finish and colour as {other}", fix="keep one name for both, with a row per pack"),
    "P456": Code(level=HOLD, why="{item} is on the Balloons sheet too, in {other}", fix="give one of the two another name"),
    "P457": Code(level=HOLD, why="{item} has a row already, in {other}", fix="keep one row per item"),
    "P458": Code(level=HOLD, why='an item can\'t be called "{seen}": that word says that a piece goes without', fix="give the item another name"),
    "P460": Code(level=BOOK, why="two rates of the tax {tax} hold at the same time, here and in {other}", fix="end one before the other begins"),
    "P461": Code(level=BOOK, why='"{name}" is no tax of this sheet', fix="{hint}type codes from the Code column"),
    "P462": Code(level=BOOK, why="the taxes {taxes} are each on top of the other", fix="let one of them come first"),
    "P463": Code(level=HOLD, why="{seen} is not farther than the row before it ({other})", fix="put the rows in order of distance, each farther than the one before"),
    "P464": Code(level=HOLD, why="only the last row may have no limit", fix="type a distance, or move the row to the end"),
    "P465": Code(level=HOLD, why="{activity} has another rate for this size, in {other}", fix="keep one rate per activity and size"),
    "P466": Code(level=NOTE, why="{activity} has no rate", fix="{hint}add a row for it, or pieces that need it can't be quoted"),
    "P467": Code(level=HOLD, why="a row for {what} needs {needs}", fix="{fix}"),
    "P470": Code(level=NOTE, why="the phrase {phrase} has a row already, in {other}; that one is used", fix="keep one row per phrase"),
    "P471": Code(level=NOTE, why="the phrase {phrase} {trouble}; the standard text is used", fix="keep its words in braces as they are: {names}"),
    "P472": Code(level=NOTE, why='no piece asks for the build "{name}", which is one sign away from {meant}', fix="if {meant} is meant, type it so: its other rows go without this one"),
    "P473": Code(level=NOTE, why='nothing asks for the activity "{name}", which is one sign away from {meant}', fix="if {meant} is meant, type it so: this rate is not used"),
    "P474": Code(level=BOOK, why='"{name}" is called {tax}, as is {meant}, one sign away', fix="type {meant}, or give this tax a name of its own"),
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
    "P529": Code(level=HOLD, why="the build asks for colour number {number}, the piece has {count}", fix="type at least {number} colours"),
    "P530": Code(level=HOLD, why="row {row} of the build can't be worked out: {reason}", fix="mend that row of the Builds sheet"),
    "P531": Code(level=HOLD, why="{item} is bought, not hired", fix="set its use to hire in the Hardware sheet, or put it on another piece as an accent"),
    "P532": Code(level=HOLD, why="a service needs a fixed price", fix="type its price, e.g. 120.00"),
    "P533": Code(level=HOLD, why="a wrap needs the number of its turns", fix="type a number, e.g. 3"),
    "P534": Code(level=HOLD, why="{item} can't be wound round a piece: it is no twister and no bought hardware with a length", fix="type a twister, or give the hardware a length"),
    "P535": Code(level=NOTE, why="{heading} is not used {when}", fix="leave it blank"),
    "P536": Code(level=HOLD, why="a wrap needs {heading} of the piece", fix="type it, or leave the wrap blank"),
    "P537": Code(level=HOLD, why="a piece of more than {most} {what} is taken for a slip", fix="check the amounts and lengths of this piece"),
    "P538": Code(level=HOLD, why="{heading} is missing", fix="fill it in"),
    "P539": Code(level=HOLD, why="{heading} is {typed}, but {rule}", fix="leave one of them blank, or correct it"),
    "P540": Code(level=HOLD, why="balloons are never let go: many places forbid it, and everywhere they come down as litter that harms animals", fix="offer a drop from a net, or take the piece out"),
    "P541": Code(level=HOLD, why="an opening {opening} {way} leaves nothing of a wall {wall} {way}", fix="type a smaller opening, or a larger wall"),
    "P542": Code(level=HOLD, why="an opening needs its width and its height, and {heading} is blank", fix="type both, or clear the other"),
    "P543": Code(level=HOLD, why="blocks of {blocks} rows make {total}, the wall has {rows} rows", fix="{hint}"),
    "P544": Code(level=HOLD, why="neither the number of balloons nor a whole net (length, width and depth) is given", fix="type a count, or all three measures of the net"),
    "P545": Code(level=HOLD, why="a net {net} holds {holds} balloons of {fill}, not {count}", fix="type a smaller count or a larger net, or leave one of its measures blank"),
    "P546": Code(level=HOLD, why='there is no outline of "{sign}"', fix="type capitals, figures or {signs}"),
    "P547": Code(level=HOLD, why="{count} × {fill} don't go into a balloon of {outer}", fix="type a smaller count or fill, or a larger outer balloon"),
    "P548": Code(level=HOLD, why="{counts} numbers of twisters are given for {colours} colours", fix="type one number per colour, e.g. 3, 1"),
    "P549": Code(level=HOLD, why="a {form} can't have the pattern {pattern}", fix="choose {choices}"),
    "P560": Code(level=HOLD, why="a garland {length} long can't hang between points {width} apart", fix="type a larger length, or a smaller width"),
    "P561": Code(level=HOLD, why="a garland that goes {route} needs {needs}", fix="type it, e.g. {example}"),
    "P562": Code(level=HOLD, why="the balloons of {size} in have no one usual fill, and a filler takes its usual fill", fix="give them one in the Balloons sheet, or name another size"),
    # --- P6: stock, labour, delivery, price -----------------------------------------
    "P601": Code(level=HOLD, why="no pack of {item} has a price on {day}", fix="give one of its packs a price that holds on that day, or use another item"),
    "P602": Code(level=HOLD, why="no number of spares is enough for {item}: its chance of breaking or the shop's service level is 100 % or more", fix="type a chance and a service level below 100 %"),
    "P603": Code(level=HOLD, why="{item} has no price on {day}", fix="give it a price in the Hardware sheet that holds on that day, or use another item"),
    "P604": Code(level=HOLD, why="the Labour sheet has no rate for {activity}{size}", fix="add a row with the seconds it takes"),
    "P605": Code(level=HOLD, why="a job we deliver needs its distance", fix="type it, e.g. 12 mi or 20 km, or choose that the client collects"),
    "P606": Code(level=HOLD, why="no delivery band goes as far as {distance}", fix="add a band to the Delivery sheet, or one without a limit"),
    "P607": Code(level=HOLD, why="{name} takes {amount} off piece {piece}, which comes to {most}", fix="type a smaller amount or percent"),
    "P608": Code(level=HOLD, why="the discounts on the whole order come to {amount}, the order to {most}", fix="type smaller amounts or percents"),
    "P609": Code(level=NOTE, why="the margin is {margin} %, below the floor of {floor} %", fix="look at its prices once more, or lower the floor in the Shop sheet"),
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
