"""How much is too much? Every bound on what an author may write, in one table, with its reason and its message.

All of them are counted, none is timed, so that a file is accepted or refused alike on every machine. They lie far
above what a method needs: the largest of the demo handbook stays below half of the nearest one.
`methodsheets limits` prints the table, and the page of the limits in the demo handbook is made of it.
"""

from __future__ import annotations


class Limit(int):
    """A number that something may reach, with what is counted, why, and what is said beyond it."""

    of: str
    why: str
    said: str

    def __new__(cls, most: int, of: str, why: str, said: str) -> Limit:
        """A limit.

        Parameters:
            of: what is counted: 'bytes of a file'
            why: what would go wrong beyond it
            said: what stands in the message
        """
        made = super().__new__(cls, most)
        made.of, made.why, made.said = of, why, said
        return made

    def __getnewargs__(self) -> tuple[int, str, str, str]:  # type: ignore[override]
        """So that it can be copied."""
        return int(self), self.of, self.why, self.said


# Files
FILE_BYTES = Limit(400_000, "bytes of a file", "reading it takes the build's time", "the file is too large")
LINES = Limit(10_000, "lines of a file", "a page of that length is of no use to anybody", "the file has too many lines")
LINE = Limit(4_000, "characters of a line", "a line is searched as a whole, again and again", "the line is too long")
ENTRIES = Limit(5_000, "entries of a block or a workshop", "each is read by itself", "has more than")
VALUE = Limit(8_000, "characters of one value", "a value is searched as a whole", "the value is too long")
LEVELS = Limit(8, "levels of lists and mappings in a block", "nothing that is meant goes deeper", "is nested too deep")
REFERENCES = Limit(
    100, "other methods that one names", "each is worked out before it", "names beyond it are passed over"
)
RECORD_LINES = Limit(50_000, "lines of a file of records", "a lifetime of parts", "the file has too many lines")
RECORD_FILES = Limit(200, "files of records of a method", "each is read", "there are too many files of records")
RESULTS = Limit(
    20_000,
    "methods times workshops",
    "each is worked out",
    "the handbook is worked out for the authors' own workshops only",
)
MADE_AT_ONCE = Limit(100_000, "parts made in one go", "times are added up for them", "`makes` is not a number of parts")
SIZES_OF_A_TOOL = Limit(2_000, "sizes of one row of tools", "each is a tool", "lists more than")

# The page that a method becomes
HEADINGS = Limit(400, "headings of a method", "each gets an address of its own", "the page has too many headings")
HEADING = Limit(
    300, "characters of a heading", "it becomes an address and a line of the menu", "the heading is too long"
)
INDENT = Limit(60, "blanks or tabs in front of a line", "lists within lists are read by a recursion", "is indented")
QUOTES = Limit(
    10,
    "signs `>` in front of a line",
    "quotations within quotations are read by a recursion",
    "quotations are nested too deep",
)
MARKS = Limit(
    400,
    "signs of one kind ([ ( * _ ` < ~ = ^ | \\ & ! {) in a paragraph",
    "Markdown tries each of them with every other",
    "the paragraph has too many",
)
MARKS_OF_A_PAGE = Limit(
    12_000, "signs of all these kinds in a page", "each may be an element", "the page has too many signs of markup"
)
FOOTNOTES = Limit(
    2_000, "footnotes of a page", "each mention is looked for among all of them", "the page has too many footnotes"
)
PARAGRAPH = Limit(20_000, "characters of a paragraph", "Markdown searches it as a whole", "the paragraph is too long")
DIGITS_IN_A_ROW = Limit(200, "digits in a row", "no number is that long", "a number has too many digits")
OPERATIONS = Limit(200, "operations of a method", "each cuts the solid and is drawn", "has too many operations")
SETUPS = Limit(100, "set-ups of a method", "each is drawn and proved", "has too many set-ups")
FEATURES = Limit(500, "features of the parts of a method", "each adds metal or cuts it", "has too many features")
CALCULATIONS = Limit(2_000, "lines of calculation", "each is worked out and typeset", "has too many calculations")

# Expressions
EXPRESSION = Limit(2_000, "characters of an expression", "it is parsed by a recursion", "the expression is too long")
NESTING = Limit(40, "levels of brackets in an expression", "it is parsed by a recursion", "is nested too deep")
DIGITS = Limit(30, "digits of a number", "more than double precision holds", "the number has too many digits")
EXPONENT = Limit(30, "exponent of a number", "no quantity of a workshop is near it", "the number is out of reach")
POWER = Limit(100, "exponent of a power", "the result would be out of reach", "the exponent is too large")
WORDS = Limit(200, "characters in quotation marks", "they are names", "the words are too long")
NAME = Limit(60, "characters of a name", "it stands in the working", "the name is too long")
ARGUMENTS = Limit(200, "values in a list or a call", "each is worked out", "too many values")
FIELDS = Limit(8, "fields of fields", "results hold results only so deep", "too many fields of fields")
STEPS = Limit(20_000, "steps of an expression", "a step is a part of it worked out", "this is too much to work out")
STEPS_OF_A_METHOD = Limit(
    400_000, "steps of all expressions of a method", "the same for the whole file", "this is too much to work out"
)
LEAVES = Limit(2_000, "values in a list of lists", "lists of lists double from line to line", "the list is too large")
LIST_LEVELS = Limit(8, "lists within lists", "lists of lists double from line to line", "the list is too large")

# Calculations of the handbook; the rooms of the trade know nothing of files, so the numbers are theirs too
CALCULATION_LINES = Limit(
    500_000, "lines of program in one calculation", "it says its work before it begins", "would go on too long"
)
CALCULATION_ITEMS = Limit(1_000, "values in a list for a calculation", "each is looked at", "is out of range")

TAGS = Limit(4_000, "signs `<` of a page", "tags that are left open are carried on", "the page has too many signs")

# Cuts and pictures
HOLES = Limit(400, "places of one operation", "each is a cut of its own", "too many cuts in one operation")
PASSES = Limit(1_000, "passes of one operation", "each is worked out and listed", "the cut cannot be made")
OVERLAPS = Limit(
    600,
    "pairs of cuts of one operation that meet, of all operations of a method",
    "the kernel joins each with each",
    "too many cuts meet",
)
BODIES = Limit(
    60, "bodies of all pieces of a method", "each that is put in is looked at with the others", "too many bodies"
)
BODIES_MET = Limit(
    60, "pairs of pieces put in by one operation that meet", "each is looked at with each", "too many pieces meet"
)
STOCK = Limit(2_000, "millimetres of stock", "drawings and tables are made for small machines", "of the stock is")
FACETS = Limit(50_000, "facets of the work", "lines that hide one another are looked for", "the work would have")
FACETS_JOINED = Limit(
    100_000, "facets of the work with what is put in", "every body is drawn in its place", "the joined work would have"
)
FACETS_IN_ALL = Limit(
    200_000, "facets of the work after each operation, added up", "each state is cut and drawn", "all operations have"
)
REACH = Limit(10_000, "millimetres of any length of an operation", "no machine reaches so far", "a length of")


def all_limits() -> tuple[tuple[str, Limit], ...]:
    """Every limit by its name, in the order of the table."""
    return tuple((name, value) for name, value in globals().items() if isinstance(value, Limit))


def limits_page() -> str:
    """The table as Markdown, for the guide."""
    lines = [
        "# Limits",
        "",
        "What an author may write is bounded, so that a file of a stranger, or a slip of the pen, cannot stop the",
        "build. Everything is counted, nothing is timed: a file that builds here builds everywhere.",
        "",
        "| At most | of what | why | the message says |",
        "|--:|---|---|---|",
    ]
    for _, limit in all_limits():
        of, said = (
            words.replace("|", "\\|").replace("[", "\\[").replace("*", "\\*").replace("_", "\\_")
            for words in (limit.of, limit.said)
        )
        lines.append(f"| {int(limit):,} | {_coded(of)} | {limit.why} | … {said} … |")
    return "\n".join((*lines, "", *GROWTH)) + "\n"


GROWTH = (
    "What is read, worked out and drawn of a file grows no faster than its length times the logarithm of it. One path",
    "is known to grow faster, in the library that makes pages of Markdown: it looks for each mention of a footnote",
    "among all footnotes. Their number is bounded, so that this costs seconds and not more.",
)


def _coded(words: str) -> str:
    return words.replace("`", "\\`").replace("<", "&lt;").replace("~", "\\~").replace("^", "\\^")
