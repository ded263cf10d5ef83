#include "verb/verbs.h"

const verb_entry verb_table[] = {
    {"ask", FOR_ASK, "BOOK", 0, 1, "find out what is wrong, question by question",
     "Hears the complaint, asks what tells most, ranks the likely causes and leads through fixes, "
     "the safe ones first. "
     "Every answer is kept the moment it is given: stop whenever you like and take the case up "
     "again by its number. Where the rules need to know what equipment there is, you are asked "
     "once, or "
     "name a file with --site. Without BOOK, a person at a terminal chooses among those that come "
     "along; a script gets the folder foam-line, which a person gets too where one is right here.",
     "telltale ask foam-line", verb_ask},
    {"round", FOR_ROUND, "BOOK", 0, 1, "look at what is looked at regularly, place by place",
     "Rules out danger, then asks what the book marks with 'round', in the order of the way: a few "
     "minutes. It ends in order, or with what has drifted from its good value and how fast, and "
     "can go on as a case of the fault. Weekly and monthly rounds come when they are due; days "
     "without one are told. Exit status 0: in order; 1: not.",
     "telltale round foam-line --site north.yaml", verb_round},
    {"record", FOR_RECORD, "BOOK", 1, 1, "write down what good looks like here",
     "Walks the site once while everything runs well, and asks the readings that have a good "
     "value. They go into the site's file with the day, the role and how they were measured; "
     "everything else in it stays as it is. Later readings are held against them. Not for the "
     "lowest role: name yours with --as.",
     "telltale record foam-line --site north.yaml --as technician", verb_record},
    {"drill", FOR_DRILL, "BOOK", 0, 1, "learn on a made-up call, and see what each look was worth",
     "Draws a call from the book's own numbers, and another's answers: you choose what to look at "
     "and what to try, or send somebody. Danger where you are is asked first, and is real, as it "
     "is "
     "whenever you say so. Afterwards: what was wrong and what that is, what each look was worth, "
     "your minutes against the program's on the same call, and which danger was missed. Nothing of "
     "it lies among the cases; your scores stay on this machine.",
     "telltale drill foam-line --seed 7", verb_drill},
    {"history", FOR_HISTORY, "BOOK", 0, 1,
     "see how a site has gone: readings, faults, what came back, rounds",
     "From the cases that are kept of a site: its readings over time, each with what is good and "
     "what was done, what is worked out from them (such as the product for each car), its faults "
     "and what helped, what came back, and the days without a round. Where a number is missing it "
     "says what would have to be told. With --into as a page with pictures.",
     "telltale history foam-line --site north.yaml", verb_history},
    {"rank", FOR_RANK, "BOOK ANSWERS", 2, 2, "rank causes and fixes for answers in a file",
     "ANSWERS is a file in YAML or JSON that gives each question its answer; - reads it from "
     "standard input.",
     "telltale rank foam-line answers.yaml --json", verb_rank},
    {"new", FOR_NEW, "FOLDER", 1, 1, "write a small book to learn from",
     "Makes the folder, if it is not there, and writes a small book into it: about a proving "
     "cabinet in a bakery, "
     "with comments that say what everything is for. It can be checked, tried and asked as it "
     "stands; change it "
     "into a book of your own. A folder that has something in it is left alone.",
     "telltale new my-book", verb_new},
    {"check", FOR_CHECK, "BOOK", 1, 1, "report every fault of a book",
     "Reads all .yaml and .yml files of the folder and says what is wrong, where, and what to "
     "write instead.",
     "telltale check my-book", verb_check},
    {"bench", FOR_BENCH, "BOOK", 1, 1, "watch a book while it is written, and answer each save",
     "Says what check says, how the worked cases come out, and what has moved since the save "
     "before: another leading "
     "cause, another chance. Keep it open in a window beside the editor; with --into, a page for a "
     "browser is written "
     "anew with each save, too; with --schema, what your editor completes and marks names by. "
     "Changes nothing in the book; Ctrl-C ends it.",
     "telltale bench my-book --into bench.html", verb_bench},
    {"try", FOR_TRY, "BOOK CASE", 1, 2, "run the worked cases of a book",
     "Says of every worked case whether it came out as expected, why one did not, and which rules, "
     "causes and "
     "fixes no case touches. With CASE, the name of one: why the cause that it expects came out as "
     "it did, answer "
     "by answer against its strongest rival, and what would turn it.",
     "telltale try my-book", verb_try},
    {"rehearse", FOR_REHEARSE, "BOOK", 1, 10000, "play made-up calls to see how good a book is",
     "Draws calls from the book's own numbers and plays them as a case would go: how often the "
     "right cause leads, in how many questions and minutes, how far the chances can be believed, "
     "and which causes are taken for which. The same seed gives the same result. Many calls can be "
     "played in pieces: --calls 1..5000 writes "
     "a part, and --add FILE FILE adds such parts.",
     "telltale rehearse foam-line --calls 5000 --misread 5", verb_rehearse},
    {"compare", FOR_COMPARE, "OLD NEW", 2, 2,
     "see whom a change of the rules moves, and which change it was",
     "OLD and NEW are two editions of a book. Worked cases of both, cases that were kept (--cases) "
     "and made-up calls are played with either: "
     "where cautions, the cause that leads, the fixes or the path are others, both are shown, what "
     "matters most first, with the entries "
     "that did it.",
     "telltale compare my-book-of-last-week my-book --cases ~/cases", verb_compare},
    {"learn", FOR_LEARN, "BOOK FOLDER", 1, 2, "compare a book's numbers with confirmed cases",
     "Counts the closed cases in FOLDER whose cause somebody confirmed, and says how often each "
     "cause and "
     "symptom was met against what the book has, and what would change. Changes nothing: --patch "
     "prints a "
     "patch to read and to apply. Without FOLDER: where ask keeps cases.",
     "telltale learn my-book ~/cases --patch", verb_learn},
    {"table", FOR_TABLE, "BOOK", 1, 1, "show causes and signs together, and edit their numbers",
     "Each cause with its signs, by part: the number as it is written, and how strongly the sign "
     "speaks for the cause, in decibels. With --csv as a table for a "
     "spreadsheet, causes down and signs across; what was changed there comes back with --from, as "
     "a patch of the book's files that touches nothing else.",
     "telltale table my-book --csv >numbers.csv", verb_show_table},
    {"schema", FOR_SCHEMA, "BOOK", 1, 1, "write a schema of this book for an editor",
     "Prints a JSON Schema of this very book. An editor with a YAML language server then completes "
     "its names, answers and units, shows what they mean, and marks "
     "those that don't exist.",
     "telltale schema my-book >my-book.schema.json", verb_schema},
    {"rename", FOR_RENAME, "BOOK OLD NEW", 3, 3, "give something in a book another name",
     "Prints a patch that writes NEW wherever OLD stands: in rules, texts, formulas, worked cases "
     "and the site; nothing else changes. OLD is the name of anything "
     "in the book; where several things have it, write which, as in \"cause drop\" or \"question: "
     "answer\". A name that is taken is refused. With --site the "
     "patch is for that site's file too, and for the folder above both, which is told.",
     "telltale rename my-book door-leaks seal-torn | patch -p1 -d my-book", verb_rename},
    {"sheet", FOR_SHEET, "CASE", 1, 2, "put a case on paper for whoever goes on with it",
     "CASE is a number, the folder of a case or a file in it, or a file that a case came in. The "
     "first page "
     "is for whoever goes on: what is wrong, what comes next, whom to call, what is not as it was "
     "found, "
     "likely causes, parts to bring, what was tried with the readings before and after, dangers "
     "and "
     "cautions; the appendix holds the steps, answers and records. As Markdown, as a page "
     "(--html), as "
     "plain text (--plain) or for programs (--json). Nothing in the case is changed. The book is "
     "the one "
     "that the case names; a second word names another.",
     "telltale sheet 569491H --into sheet.html", verb_sheet},
    {"handbook", FOR_HANDBOOK, "BOOK", 1, 1,
     "print a whole book: one page to read, sign and hang up",
     "One page for a browser or a printer, on A4: cautions, what to do in danger, how signs point "
     "to causes (a "
     "picture, and tables with the fixes), each fix step by step with what makes it safe, what to "
     "look at and what is "
     "usual, and room to sign. --site prints it for a site, with whom to call there.",
     "telltale handbook foam-line --into handbook.html", verb_handbook},
    {"page", FOR_PAGE, "BOOK", 1, 1,
     "write a book as one page that leads the case on a phone, without a network",
     "One file for any browser: the engine, the book, its pictures and the site. It is opened from "
     "a "
     "mail, a stick or a folder, asks what `ask` asks, and keeps the case on the phone. Without "
     "--site it is for practice, and says so. A case goes between the page and `ask` as one file.",
     "telltale page foam-line --into foam.html", verb_page},
    {"cases", FOR_CASES, "FOLDER", 0, 1, "list cases, find some of them, and count",
     "Lists the cases of the folder, or of the usual one: those to go on with, and those that "
     "ended. Options say which; all that are "
     "given must fit. Then it counts: states, causes, and the time until the trouble was gone. No "
     "book is needed. With --json, one "
     "object a line for each case, or with --count one for all.",
     "telltale cases --state open,on-hold --at north", verb_cases},
    {"desk", FOR_DESK, "BOOK", 0, 1,
     "all open cases on one board: take one up, put it down, take the next",
     "Shows each open case in a line: those left for you, yours, nobody's, those that wait, and "
     "those of others. A number opens one, and it goes on where it was; the word board puts it "
     "down, kept, "
     "and shows the board again. BOOK is for new calls; a case that is there names its own.",
     "telltale desk foam-line --name east --telephone", verb_desk},
    {"settings", FOR_SETTINGS, "", 0, 0,
     "show what holds where an option is not given, and who says so",
     "Who asks, under which name, in which language and where cases are kept can be settled once: "
     "in the environment, in the file "
     "telltale.settings of the folder where you are (not who asks), in your own file or in the "
     "system's. The lines that are shown are "
     "written as such a file is.",
     "telltale settings", verb_settings},
    {"complete", FOR_COMPLETE, "WORDS", 0, 10000,
     "say what may stand next on a command line, for a shell",
     "Behind -- stand the words that were typed after telltale, the one that is being typed last. "
     "Each line is a "
     "candidate, a tab, and what it is. What makes bash, zsh and fish ask for it is installed with "
     "the program.",
     "telltale complete -- ask foam-line --co", verb_complete},
    {"help", FOR_HELP, "VERB", 0, 1, "show how a verb is used", "Without a verb: the overview.",
     "telltale help ask", verb_help},
};
const unsigned verb_count = sizeof verb_table / sizeof verb_table[0];
