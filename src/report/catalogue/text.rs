//! What is said of the text itself: words, names, units, files.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    SYNTAX_EXPECTED = mistake(
        "syntax/expected",
        "a word or sign is missing, or another is in its place",
        "Up to here the line could be read; what comes next does not go on from it. The message lists \
         what would have fitted at that place. Only this statement is set aside: the rest of the file \
         has been read, so other messages can be trusted.",
    );
    SYNTAX_UNKNOWN_STATEMENT = mistake(
        "syntax/unknown-statement",
        "a line that begins with no word Fustian knows",
        "Every line says what it is with its first word: piece, seam, lengthen, finish and so on. A line \
         that begins otherwise cannot be given a meaning, and guessing one could cost cloth. Look for a \
         slip in the first word, or for a line above that was meant to go on: a statement goes on to the \
         next line only after a comma or inside round brackets.",
    );
    SYNTAX_TRAILING = mistake(
        "syntax/trailing",
        "there is something after a statement that is already complete",
        "A statement ends at the end of its line. The words after it would have been lost, so they are \
         shown instead. Put them on a line of their own, or look for a comma that was left out before \
         them.",
    );
    SYNTAX_UNCLOSED = mistake(
        "syntax/unclosed",
        "a block or bracket is opened and never closed",
        "A piece, a seam's block or a bracket that is not closed swallows what comes after it, as an \
         unfastened pin lets the layers slide. The message points at the opening; put the closing sign \
         where its contents end.",
    );
    SYNTAX_STRAY_BRACE = mistake(
        "syntax/stray-brace",
        "a closing brace that closes nothing",
        "There is one } more than there are { before it. Often a block above was closed too early, so \
         that its last lines are outside it; compare the indentation.",
    );
    SYNTAX_TOO_DEEP = mistake(
        "syntax/too-deep",
        "brackets or blocks are nested too deep",
        "No garment needs so many brackets within brackets; it is nearly always a bracket that was typed \
         over and over, or text pasted twice. Name a part of the sum with a let of its own and use the \
         name.",
    );
    SYNTAX_CHARACTER = mistake(
        "syntax/character",
        "a character that cannot be used here",
        "Pasted text may carry signs that look like others or cannot be seen at all. Type the sign again.",
    );
    SYNTAX_NAME_TOO_LONG = mistake(
        "syntax/name-too-long",
        "a name longer than anything could print",
        "Names are printed on pieces and in cut lists, and must fit there. Shorten the name; a long \
         description belongs in the quoted title after it.",
    );
    LOST_UNREPORTED = mistake(
        "lost/unreported",
        "something is missing that no other message accounts for",
        "Whatever cannot be worked out has a message that says why; the compiler holds itself to it, and \
         says so where it cannot keep its word. The garment is not whole without what is named, so do not \
         cut from it. The fault is the program's: please report it, with the file. Written another way, \
         the same garment may well work out.",
    );
    TEXT_SLIP = mistake(
        "text/slip",
        "a slip of the pen that could be read two ways",
        "6-1/2in is six and a half inches to one maker and six inches less a half to a reader of sums; \
         40 +0.6 may be a graded row or an addition. Where two readings would cut differently, neither \
         is chosen: the message shows how to write what was meant.",
    );
    TEXT_EMPTY = mistake(
        "text/empty",
        "words for people that say nothing",
        "What stands between quotation marks is printed on the pieces, in the cut list and over the steps. Empty, \
         it leaves a blank there, and a wearer or a step without a name is found nowhere. Leave the quotation \
         marks out where they may be left out.",
    );
    NAME_UNKNOWN = mistake(
        "name/unknown",
        "a name that is not declared",
        "Something is named that this garment does not have: a piece, an edge, a measure. Usually it is \
         spelled differently where it is declared, or an alteration has taken it away. The nearest names \
         are offered.",
    );
    NAME_ALIKE = warning(
        "name/alike",
        "two names that look the same",
        "A Cyrillic а and a Latin a are two letters to every program and one to the eye. Two things whose \
         names differ in such a letter alone cannot be told apart on the table, and one is easily sewn for the \
         other. Which letters look alike is taken from Unicode Technical Standard 39.",
    );
    NAME_DECLARED_TWICE = mistake(
        "name/declared-twice",
        "two things of the same name",
        "If two pieces are called front, no one at the table can tell which one a seam means. Both places \
         are shown. In a variation, write replace before the one that takes the other's place.",
    );
    NAME_KEPT = mistake(
        "name/kept",
        "a name that already means something",
        "Words like up, grade and the names of the functions are read as themselves wherever a value may \
         be, so a value of that name could never be used. Take another name.",
    );
    NAME_ARGUMENTS = mistake(
        "name/arguments",
        "a function with more or fewer values than it takes",
        "Each function takes a certain number of values in its bracket: width takes a piece, distance two points. The \
         message shows the form.",
    );
    NAME_CIRCLE = mistake(
        "name/circle",
        "values that wait for one another",
        "The first needs the second, and the second needs the first, directly or through others: there is no \
         place to begin, as with two pieces each drawn from the other. The whole circle is shown; break it by \
         giving one of them a measure of its own, or let one be found with between … so that.",
    );
    UNIT_MIXED = mistake(
        "unit/mixed",
        "two amounts that cannot be added or compared",
        "A length and an angle, or a length and an area, do not make a sum. Each side is shown with what \
         it is, so that the odd one can be found; a missing multiplication or division is the usual \
         cause.",
    );
    UNIT_BARE = mistake(
        "unit/bare",
        "a number without a unit where it matters",
        "A bare number takes the file's unit only where a length must stand. Here it could be centimetres, \
         a count or a share, and each would give another garment. Put the unit to the number: 2cm, 45deg, \
         15%.",
    );
    UNIT_INHERITED = advice(
        "unit/inherited",
        "numbers in the unit of another file",
        "A variation that names no unit writes in the unit of its base, and so does what is combined with it. Where \
         that is not centimetres, the message says once in which unit the numbers of the file are read. Written \
         before, for a base in inches, they may have been meant as centimetres: say units in the file.",
    );
    VALUE_NOT_FINITE = mistake(
        "value/not-finite",
        "a value that has no finite number",
        "A division by 0, the root of a negative number or a number that is too large gives no amount \
         that could be cut. The message shows which part of the sum does it and in which sizes.",
    );
    VALUE_NEGATIVE = mistake(
        "value/negative",
        "a negative amount where there can be none",
        "A width, an allowance or a tolerance is an amount of cloth, and cannot be below 0. A sign \
         was set in front of it, or a subtraction came out the wrong way round.",
    );
    VALUE_CONSTANT = mistake(
        "value/constant",
        "a value that must be the same in every size",
        "Some facts belong to the garment or its cloth, not to a size: the tolerance, the wearer, the \
         number of buttons in stock. They cannot be worked out from measures; write the amount itself.",
    );
    TABLE_LENGTH = mistake(
        "table/length",
        "a row that does not have one value for each size",
        "Each value of a row belongs to one size by its place. With one too few or too many, every size \
         after the gap would get its neighbour's measure, and it would not be seen until the fitting. \
         Compare the row with the sizes line.",
    );
    REQUIRE_UNMET = mistake(
        "require/unmet",
        "the maker's own requirement is not met",
        "A require line holds what the maker knows must be true of this garment, whatever is changed. \
         Both sides are shown with their values; change the garment, or the requirement if it no longer \
         holds.",
    );
    FILE_MISSING = mistake(
        "file/missing",
        "a file that is named but not there",
        "A variation is made from its base and a library lends its fabrics and sizes; without them the \
         garment is not whole. Paths are written from the folder of the file that names them.",
    );
    FILE_UNREADABLE = mistake(
        "file/unreadable",
        "a file that cannot be read",
        "The file is there but the computer does not let it be read, or it is not an ordinary file. Check its \
         permissions.",
    );
    FILE_CIRCLE = mistake(
        "file/circle",
        "a file that is made from itself, directly or through others",
        "A variation of a variation of itself has no first pattern to begin with. The chain of files is \
         shown; make one of them a garment of its own.",
    );
    FILE_TWICE = mistake(
        "file/twice",
        "a file that is combined twice",
        "Each file stands once in a garment, however many ways lead to it. A heading that names the same file \
         twice was most likely meant to name another.",
    );
    FILE_OUTSIDE = mistake(
        "file/outside",
        "a file outside the folder of the first one",
        "A garment may be sent to someone else, and is then read with only its own folder. Files outside \
         are not opened, not even through a link. Copy the file into the folder, or let a wider \
         folder be read.",
    );
    FILE_CHANGED = warning(
        "file/changed",
        "the base has changed since it was pinned",
        "The variation says which state of its base it was drawn for. The base says something else now, so \
         lengths that once matched may not. Look at what changed, then put the new mark after as of.",
    );
    FILE_TOO_LARGE = mistake(
        "file/too-large",
        "a file larger than any pattern",
        "Files are read whole, so there is a limit to their size, which the message names. A pattern of \
         some hundred pieces is far below it; perhaps the wrong file was named.",
    );
    FILE_TOO_MANY = mistake(
        "file/too-many",
        "more files than one garment may be made from",
        "A chain of variations and libraries has a limit, which the message names. Merge some of the \
         variations into one.",
    );
    FILE_NOT_TEXT = mistake(
        "file/not-text",
        "a file that is not text",
        "A .fus file is plain text in UTF-8. This one holds something else: a picture, a file of another \
         program, or text saved in another encoding. Save it again as UTF-8.",
    );
    FILE_UNMERGED = mistake(
        "file/unmerged",
        "a merge that was left unresolved",
        "Version control could not put two versions of the file together, and wrote both into it between marks: \
         <<<<<<< before the one, ======= between them, >>>>>>> after the other. Only who knows the garment can say \
         what of them is right. Nothing is worked out of such a file, since it would be made of both.",
    );
    FILE_HEADING = mistake(
        "file/heading",
        "a file without its heading, or with the heading elsewhere",
        "The first line says what the file is: garment \"…\", variation \"…\" of \"….fus\", or \
         library \"…\". One garment a file, and its heading before everything else.",
    );
    FILE_KIND = mistake(
        "file/kind",
        "a file of another kind than is needed here",
        "A variation is made of a garment or of another variation; use takes a library, of which fabrics, size \
         tables, notions, values and pieces are at hand. Whatever else a library holds comes as a whole, to a \
         variation that is combined with it.",
    );
    LIMIT_SIZES = mistake(
        "limit/sizes",
        "more sizes than one garment may have",
        "The message names the limit. A table of that length is nearly always pasted from elsewhere; split \
         the range into several variations.",
    );
    LIMIT_PIECES = mistake(
        "limit/pieces",
        "more pieces than one garment may have",
        "The message names the limit. Put parts of so large a work into garments of their own.",
    );
    LIMIT_EDGES = mistake(
        "limit/edges",
        "more edges than one piece, or one garment, may have",
        "The message names the limit. A curve through several points is one edge; it need not be drawn as \
         many short ones. A copy, and each part of a split, has every edge and line of its piece once more.",
    );
    LIMIT_ALTERATIONS = mistake(
        "limit/alterations",
        "a piece that is altered more often than any is",
        "The message names the limit. So many small steps come from a program: say the sum of them, or draw the piece \
         anew.",
    );
    LIMIT_PLEATS = mistake(
        "limit/pleats",
        "more pleats than one row, or one piece, may have",
        "The message names the limit. So many folds are no pleats any more: a width is gathered, or cloth is bought \
         that is pleated already.",
    );
    LIMIT_LENGTH = mistake(
        "limit/length",
        "a length that no cloth has",
        "The message names the limit. A wrong unit is the usual cause: metres for millimetres.",
    );
}
