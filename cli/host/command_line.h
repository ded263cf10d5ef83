/* Every option, once: parsing, help and the manual's list follow this table. The same name means
 * the same everywhere. */
#ifndef TT_CLI_COMMAND_LINE_H
#define TT_CLI_COMMAND_LINE_H

#include <stdbool.h>
#include <stddef.h>

#include "host/exits.h"

/* Verbs as bits, for the table. */
enum {
    FOR_ASK = 1,
    FOR_RANK = 2,
    FOR_CHECK = 4,
    FOR_TRY = 8,
    FOR_HELP = 16,
    FOR_REHEARSE = 32,
    FOR_CASES = 64,
    FOR_LEARN = 256,
    FOR_SHEET = 512,
    FOR_RENAME = 1024,
    FOR_COMPARE = 2048,
    FOR_NEW = 1 << 12,
    FOR_HANDBOOK = 1 << 13,
    FOR_BENCH = 1 << 14,
    FOR_TABLE = 1 << 15,
    FOR_SCHEMA = 1 << 16,
    FOR_DESK = 1 << 24,
    FOR_COMPLETE = 1 << 25,
    FOR_SETTINGS = 1 << 26,
    FOR_PAGE = 1 << 22,
    FOR_ROUND = 1 << 20,
    FOR_RECORD = 1 << 21,
    FOR_HISTORY = 1 << 17,
    FOR_DRILL = 1 << 18,
    FOR_TALKS = FOR_ASK | FOR_ROUND | FOR_RECORD,
    FOR_ALL = 0x7FFFFFFF
};

/* X(id, long name, short letter or 0, name of its value or null, verbs, help) */
#define OPTION_TABLE(X) \
    X(OPTION_AS, "as", 0, "ROLE", FOR_DRILL | FOR_TALKS | FOR_RANK | FOR_REHEARSE | FOR_DESK, \
      "who asks: a role of the book (left out: the lowest)") \
    X(OPTION_ANSWERS, "answers", 0, "FILE", FOR_ASK, \
      "begin with these answers; - reads standard input") \
    X(OPTION_SITE, "site", 0, "FILE", \
      FOR_DRILL | FOR_TALKS | FOR_DESK | FOR_RANK | FOR_CHECK | FOR_TRY | FOR_REHEARSE | \
          FOR_RENAME | FOR_HANDBOOK | FOR_PAGE | FOR_HISTORY, \
      "what equipment there is, and what is known of it") \
    X(OPTION_CASE, "case", 0, "NUMBER", FOR_ASK | FOR_CASES, \
      "the case with this number; ask also takes its folder, or a file that a page has handed " \
      "out") \
    X(OPTION_CASES, "cases", 0, "FOLDER", \
      FOR_TALKS | FOR_LEARN | FOR_SHEET | FOR_CASES | FOR_COMPARE | FOR_DESK | FOR_HISTORY, \
      "cases are kept here instead of in your data folder; postgresql://HOST/DATABASE is a " \
      "database") \
    X(OPTION_EVERY, "every", 0, "TIME", FOR_ROUND, \
      "which round: daily, weekly or monthly (left out: what is due)") \
    X(OPTION_UNSAVED, "unsaved", 0, NULL, FOR_DRILL | FOR_TALKS, \
      "keep nothing; the case can't be taken up again") \
    X(OPTION_NO_INPUT, "no-input", 0, NULL, FOR_ASK, \
      "ask nothing: say where the case stands, and end") \
    X(OPTION_NAME, "name", 0, "NAME", FOR_TALKS | FOR_DESK | FOR_CASES, \
      "who works on the case, as others see it (left out: your login name)") \
    X(OPTION_CALLER, "caller", 0, "NAME", FOR_ASK | FOR_DESK | FOR_CASES, \
      "who calls: kept beside the case, shown only where it is asked for, and can be erased") \
    X(OPTION_CALL_BACK, "call-back", 0, "NUMBER", FOR_ASK | FOR_DESK | FOR_CASES, \
      "how the caller is called back; kept as --caller is") \
    X(OPTION_TICKET, "ticket", 0, "NUMBER", FOR_ASK | FOR_DESK | FOR_CASES, \
      "what another system calls this case; kept as --caller is") \
    X(OPTION_TELEPHONE, "telephone", 0, NULL, FOR_TALKS | FOR_DESK, \
      "with a caller on the line: words to read aloud, several answers in one line") \
    X(OPTION_PRACTICE, "practice", 0, NULL, FOR_TALKS | FOR_DESK, \
      "practise on the example in the book; every page says so") \
    X(OPTION_PLAIN, "plain", 0, NULL, FOR_DRILL | FOR_TALKS | FOR_DESK | FOR_SHEET | FOR_HISTORY, \
      "running lines instead of pages, one thing a line: for screen readers; of a sheet: plain " \
      "text") \
    X(OPTION_COLOR, "color", 0, "WHEN", FOR_DRILL | FOR_TALKS | FOR_DESK, \
      "auto, always or never (left out: auto)") \
    X(OPTION_NO_COLOR, "no-color", 0, NULL, FOR_DRILL | FOR_TALKS | FOR_DESK, \
      "no colour, whatever the environment says") \
    X(OPTION_LANGUAGE, "language", 0, "TAG", \
      FOR_DRILL | FOR_TALKS | FOR_RANK | FOR_SHEET | FOR_HANDBOOK | FOR_DESK | FOR_PAGE | \
          FOR_HISTORY, \
      "language of the texts, such as en or de-CH") \
    X(OPTION_SOONEST, "soonest", 0, NULL, FOR_ASK | FOR_RANK | FOR_DESK, \
      "among the fixes allowed, the quickest first") \
    X(OPTION_WHY, "why", 0, NULL, FOR_RANK, \
      "why the first cause rather than its strongest rival, and what would turn it") \
    X(OPTION_HELD, "held", 0, NULL, FOR_TRY, \
      "turn each number of the book round, and say which of them no worked case holds") \
    X(OPTION_CALLS, "calls", 0, "NUMBER", FOR_REHEARSE | FOR_COMPARE, \
      "play so many made-up calls (left out: 500; compare: 50); rehearse: A..B plays a part, to " \
      "be kept") \
    X(OPTION_SEED, "seed", 0, "NUMBER", FOR_DRILL | FOR_REHEARSE | FOR_COMPARE, \
      "draw other calls (left out: 1; drill: another each time)") \
    X(OPTION_MISREAD, "misread", 0, "PERCENT", FOR_REHEARSE, \
      "so many more answers are wrong than the book says") \
    X(OPTION_NUMBERS_OFF, "numbers-off", 0, "PERCENT", FOR_REHEARSE, \
      "the book's chances are off by up to so much") \
    X(OPTION_SENSITIVITY, "sensitivity", 0, NULL, FOR_REHEARSE, \
      "say also which ten numbers of the book move the minutes of a call most") \
    X(OPTION_THREADS, "threads", 0, "NUMBER", FOR_REHEARSE, \
      "play on so many processors (left out: all); changes nothing else") \
    X(OPTION_ADD, "add", 0, NULL, FOR_REHEARSE, \
      "play nothing: add the parts that were written with --calls A..B") \
    X(OPTION_STATE, "state", 0, "STATE", FOR_CASES, \
      "only these: open, on-hold, waiting, closed, called, stopped, made-safe, elsewhere; " \
      "several with commas") \
    X(OPTION_KIND, "kind", 0, "KIND", FOR_CASES, \
      "only these: fault, round, record; several with commas (left out: fault; with --case: any)") \
    X(OPTION_AT, "at", 0, "SITE", FOR_CASES | FOR_DESK, \
      "only at a site whose name has this in it") \
    X(OPTION_TO, "for", 0, "WHOM", FOR_CASES | FOR_DESK, \
      "only those that were left for somebody whose name has this in it") \
    X(OPTION_TEXT, "text", 0, "WORDS", FOR_CASES, \
      "only with all these words in the complaint, answers or notes") \
    X(OPTION_CAUSE, "cause", 0, "TEXT", FOR_CASES, "only those whose cause has this in it") \
    X(OPTION_SINCE, "since", 0, "DAY", FOR_CASES | FOR_HISTORY, \
      "only those that began on this day or later") \
    X(OPTION_UNTIL, "until", 0, "DAY", FOR_CASES | FOR_HISTORY, \
      "only those that began on this day or earlier") \
    X(OPTION_SORT, "sort", 0, "ORDER", FOR_CASES, \
      "began, moved, site, state or until (left out: ended ones, then open ones, as they began)") \
    X(OPTION_LIMIT, "limit", 0, "NUMBER", FOR_CASES, \
      "only so many, the last of the list; the counts are of all") \
    X(OPTION_FULL, "full", 0, NULL, FOR_CASES, \
      "all that is known of each, one thing a line (left out: one case a line)") \
    X(OPTION_CONTACT, "contact", 0, NULL, FOR_CASES | FOR_SHEET, \
      "show the caller, the number and the ticket too") \
    X(OPTION_ERASE, "erase", 0, NULL, FOR_CASES, \
      "erase caller, number and ticket of all cases that fit; the cases stay") \
    X(OPTION_ENDED_FOR, "ended-for", 0, "DAYS", FOR_CASES, \
      "only those that ended so many days ago or longer") \
    X(OPTION_SET_UP, "set-up", 0, "FOLDER", FOR_CASES, \
      "make this folder one that a group shares, with all that is in it; see --group") \
    X(OPTION_GROUP, "group", 0, "GROUP", FOR_CASES, \
      "with --set-up: the group whose logins read and write there") \
    X(OPTION_NO_PAGER, "no-pager", 0, NULL, \
      FOR_CASES | FOR_CHECK | FOR_TRY | FOR_RANK | FOR_TABLE | FOR_HISTORY | FOR_SHEET | \
          FOR_COMPARE | FOR_LEARN | FOR_HELP, \
      "not through the program that PAGER names, which what is long goes through on a terminal") \
    X(OPTION_COPY_TO, "copy-to", 0, "WHERE", FOR_CASES, \
      "copy all cases into another folder or database: what is there stays, nothing comes twice") \
    X(OPTION_BY, "by", 0, "MONTH", FOR_CASES, \
      "month: how often each cause came at each site, month by month; no list") \
    X(OPTION_COUNT_ONLY, "count", 0, NULL, FOR_CASES, "only the counts, not the cases") \
    X(OPTION_JSON, "json", 0, NULL, \
      FOR_DRILL | FOR_TALKS | FOR_RANK | FOR_CHECK | FOR_TRY | FOR_REHEARSE | FOR_LEARN | \
          FOR_SHEET | FOR_CASES | FOR_COMPARE | FOR_DESK | FOR_HISTORY, \
      "print JSON for programs") \
    X(OPTION_MANY, "many", 0, NULL, FOR_ASK, \
      "with --json: many calls in one process, each with a key") \
    X(OPTION_LINES, "lines", 0, NULL, FOR_CHECK, \
      "print one line for each fault, with its file's path, as editors read it") \
    X(OPTION_SARIF, "sarif", 0, NULL, FOR_CHECK, \
      "print a log in SARIF 2.1.0, the OASIS standard for what checks find") \
    X(OPTION_JUNIT, "junit", 0, NULL, FOR_TRY, \
      "print a report in JUnit XML, as servers that build software read it") \
    X(OPTION_STRICT, "strict", 0, NULL, FOR_CHECK, "warnings count as errors do: status 1") \
    X(OPTION_PATCH, "patch", 0, NULL, FOR_LEARN, \
      "print a patch of the book's files, for patch -p1 in its folder") \
    X(OPTION_CSV, "csv", 0, NULL, FOR_TABLE, "write the table for a spreadsheet") \
    X(OPTION_FROM, "from", 0, "FILE", FOR_TABLE, \
      "print a patch that makes the book's numbers those of this table") \
    X(OPTION_HTML, "html", 0, NULL, FOR_SHEET | FOR_TABLE, \
      "write a page for a browser or a printer") \
    X(OPTION_MARKDOWN, "markdown", 0, NULL, FOR_SHEET, "write Markdown (left out: this)") \
    X(OPTION_INTO, "into", 0, "FILE", \
      FOR_SHEET | FOR_HANDBOOK | FOR_REHEARSE | FOR_BENCH | FOR_PAGE | FOR_HISTORY, \
      "write into this file; one that ends in .html, .json or .txt in that form") \
    X(OPTION_SCHEMA, "schema", 0, "FILE", FOR_BENCH, \
      "keep the book's schema, for editors, in this file") \
    X(OPTION_OVERWRITE, "overwrite", 0, NULL, \
      FOR_SHEET | FOR_HANDBOOK | FOR_REHEARSE | FOR_BENCH | FOR_PAGE | FOR_HISTORY, \
      "with --into: also in the place of a file that is none of ours") \
    X(OPTION_HELP, "help", 'h', NULL, FOR_ALL, "show this help") \
    X(OPTION_VERSION, "version", 'V', NULL, FOR_ALL, "show the version")

#define OPTION_ENUM_ENTRY(id, name, letter, value, verbs, help) id,
typedef enum option_id { OPTION_TABLE(OPTION_ENUM_ENTRY) OPTION_COUNT } option_id;
#undef OPTION_ENUM_ENTRY

typedef struct option_entry {
    const char *name;
    char letter;
    const char *value; /* null: takes none */
    unsigned verbs;
    const char *help;
} option_entry;
extern const option_entry option_table[OPTION_COUNT];

typedef struct command_line {
    const char *program;              /* as it was called, for commands that can be pasted */
    const char *values[OPTION_COUNT]; /* null: not given; options without value hold "" */
    const char **words;               /* the verb and what follows it; count words, then a null */
    size_t count;
} command_line;

/* EXIT_DONE, or EXIT_USAGE after saying what was wrong. `out` points into argv and is freed by
 * command_line_free. */
exit_status command_line_read(int argc, char **argv, command_line *out);
void command_line_free(command_line *line);
bool is_given(const command_line *line, option_id option);
/* The folder of cases: the word with this index, or --cases, or null. False after saying that two
 * are named. */
bool cases_folder_named(const command_line *line, size_t word, const char **named);

#endif
