/* What the files of this room share while a book is being read. Two passes: first the names
 * of every section over all files, then the bodies, so that no entry depends on standing before or
 * after another.
 *
 * Every read_… function reports what is wrong and goes on. It returns false or null when its result
 * can't be used; an entry whose body could not be understood is marked broken, and what refers to
 * it is then not checked against it. */
#ifndef TT_READ_READER_H
#define TT_READ_READER_H

#include "measure/amount.h"
#include "measure/formula.h"
#include "model/book.h"
#include "model/mentions.h"
#include "read/book_read.h"
#include "read/keys.h"

typedef struct named { /* an entry of a section, for one piece if it is written for each */
    label id;
    owner of;
    const node *body; /* null for a symptom made from `confirms` */
    bool broken;
    bool meant;             /* something names it */
    bool quantity;          /* in the table of questions: computed, not asked */
    uint32_t made_question; /* symptoms made from `confirms`; else NO_ID */
    str made_answer;
    const node *made_cause;
} named;

typedef struct name_table { /* in name order, each name once */
    named *items;
    const str *names;
    const uint64_t *heads; /* of the names (str_head.h) */
    uint32_t count;
} name_table;

/* A name as written, before it is multiplied by the pieces of its kind. */
typedef struct base_name {
    str name;
    span at;
    uint32_t kind;    /* NO_ID: shared */
    bool pair;        /* once for each two pieces of the kind, one after the other */
    const node *body; /* null for a symptom made from `confirms` */
} base_name;
typedef struct base_table { /* in name order, each name once */
    base_name *items;
    const str *names;
    const uint64_t *heads;
    uint32_t count;
} base_table;

typedef struct missing_name { /* reported once is enough */
    int where;
    str name;
    struct missing_name *next;
} missing_name;

enum {
    ANSWERS_MAX = 64, /* a condition holds a question's answers as bits */
    NAME_LENGTH_MAX = 64,
    SECTION_ENTRIES_MAX = 20000,
    KINDS_MAX = 100,
    PIECES_MAX = 500,
    GROUND_BYTES_MAX = 8 * 1024 * 1024, /* of what is written for each piece, times the pieces */
    GROUND_NAMES_MAX =
        300000, /* meant by "of any" and "of every" in all; readings beneath quantities in all */
    QUANTITIES_DEEPEST = 250, /* each resting on the next; what walks down them calls itself */
    GATE_FACTS_MAX = 20000,   /* before all gate questions together */
    LIST_ITEMS_MAX = 250,
    SUGGESTIONS_MAX = 200000, /* names compared for suggestions in all, so that a million wrong
                                 names take no hours */
    MISSING_BUCKETS = 4096,
    CONDITION_DEPTH_MAX = 12, /* within what the loader's own depth lets through */
};

typedef struct unit_insert { /* "{foam-air, bar}": does the unit fit the reading? */
    uint32_t question;
    str unit;
    span at;
    struct unit_insert *next;
} unit_insert;

typedef struct when_insert { /* "{foam-air as found}": does any fix adjust the reading? */
    uint32_t question;
    span at;
    struct when_insert *next;
} when_insert;
typedef struct made_cond {
    cond *c;
    struct made_cond *next;
} made_cond;

typedef enum shared_kind { SHARED_TEXTS, SHARED_STEPS, SHARED_HEARD, SHARED_ANSWERS } shared_kind;
typedef struct shared_read { /* what came of a node for the piece before */
    const node *from;
    shared_kind kind;
    const void *items; /* texts, heard, or one option_list */
    uint32_t count;
} shared_read;
enum { SHARED_READS = 64 };

typedef struct option_list {
    answer_option *options;
    uint32_t count;
    const uint32_t *shown_order;
} option_list;

typedef struct reader {
    arena *keep, *scratch;
    faults *list;
    book *book; /* being built */
    const node *manifest;
    span manifest_at;
    name_table tables[SECTION_COUNT];
    base_table bases[SECTION_COUNT];
    const node *site; /* the section, or null */
    span site_at;
    /* file that stands in its place, NO_FILE: none does, NO_SITE: it is left out */
    uint32_t site_file;
    const node *const *kind_nodes;  /* [kind] */
    const node *const *piece_nodes; /* [piece], or null */
    owner here;                     /* the entry that is being read */
    bool of_any;                    /* …and texts name its kind, not its piece */
    bool to_be_headed;              /* …and a text that does not name its piece begins with it */
    bool piece_said;                /* the text that was read last names it, in its language */
    bool bare_will_do;   /* the site is read: of what a lone one has, the bare name is enough */
    bool one_wanted;     /* …and the name looked up must mean one entry */
    const node *in_text; /* names in the braces of this text are looked up */
    bool in_cases;       /* worked cases are read, which have no 'for-each' */
    ids case_at;         /* …and the pieces that this one is about */
    bool in_symptom;     /* …and it is the condition of a symptom */
    bool numbers_only;   /* a range is read that must be the same at every site: no formula */
    bool gate_wanted;    /* no gate question is asked in every call: the engine adds its own */
    str gate_name;       /* …under this name */
    const node *strange; /* the map in which a key was unknown last */
    bool names_lost;     /* a file could not be read: names may be missing for that reason */
    bool roles_lost;
    bool pieces_lost; /* what the site has could not be read to its end */
    bool order_lost;  /* nor could 'comes-before', or it runs in a circle: pairs may be missing */
    double word_chance[CHANCE_WORDS];
    missing_name **missing; /* [MISSING_BUCKETS] */
    unit_insert *unit_inserts;
    when_insert *when_inserts;
    question *made; /* quantities that comparisons make, as they come; numbered after the named
                       questions */
    uint32_t made_count, made_room;
    made_cond *made_conds;      /* conditions on them, to be renumbered */
    const str *condition_names; /* all that may stand in a condition; made when first wanted */
    uint32_t condition_name_count;
    uint32_t compared;
    /* [file], of those that pictures have named so far; made when first wanted */
    svg_drawing *drawings;
    question *questions; /* the book's, while they are being read */
    shared_read shared[SHARED_READS];
    formula_input *inputs; /* what the name that was looked up last stands for in a formula */
    uint32_t input_room;
    uint64_t ground_bytes;
    uint32_t ground_names;
} reader;

/* ---- shared_reads.c ---- */
const shared_read *shared_before(reader *r, const node *n, shared_kind kind); /* or null */
void share_read(reader *r, const node *n, shared_kind kind, const void *items, uint32_t count);
/* ---- collect.c ---- */
void read_fines(reader *r, const node *const *roots); /* read_fine.c */
void collect_names(reader *r, const node *const *roots);
/* From here on entry `e` is being read: bare names mean its piece's. */
void enter(reader *r, const named *e);
/* ---- names.c, resolve.c ---- */
uint32_t table_find(const name_table *t, str name);
/* Index of the entry, or NO_ID with a fault. */
uint32_t resolve(reader *r, section s, str name, span at);
uint32_t resolve_role(reader *r, const node *n);
/* Where a name was looked for: a section, or one of these. */
enum {
    WHERE_ROLE = SECTION_COUNT,
    WHERE_INSERT,
    WHERE_CONDITION,
    WHERE_KIND,
    WHERE_PIECE,
    WHERE_PAIR, /* the name of the entry that says "of first", but is written for no pairs */
};
/* Whether this was said already of this name there; from now on it counts as said. */
bool missing_before(reader *r, int where, str name);
/* An entry of the section has a name that can't be used ("Fan_Stuck"): whoever asks for what it
 * should be called ("fan-stuck") is not told besides that there is none. */
void name_told_already(reader *r, section s, str wrong);
/* Index of a name near enough to be meant, or SIZE_MAX. */
size_t nearest_name(reader *r, str wrong, const str *names, uint32_t count);
/* Adds "write 'nearest'" or the list of what there is. */
void suggest(reader *r, fault *f, str wrong, const str *names, uint32_t count);
/* …of the names that the language has: these stand in no file that could be lost. */
void suggest_key(reader *r, fault *f, str wrong, const str *names, uint32_t count);
/* The same for a name of a section's entry, perhaps with "of …" behind it. */
void suggest_name(reader *r, fault *f, str wrong, const str *bases, uint32_t count);
/* Nothing here is like it, and it may stand in what could not be read. */
bool may_be_lost(reader *r, str name, const str *bases, uint32_t count);
/* Where else the name stands, for "'x' is a cause, not a fix"; null if nowhere. */
const char *name_elsewhere(const reader *r, str name);
bool check_name(reader *r, str name, span at, const char *what);
/* "fan-stuck" for "Fan_Stuck": what check_name says to write instead. */
str name_meant(arena *scratch, str wrong);

/* ---- kinds.c: which kinds and pieces of equipment there are ---- */
/* First the names alone, since other names are multiplied by them; then, once the manifest says the
 * language, the texts. */
void collect_kinds(reader *r, const node_entry *const *entries, uint32_t count);
void collect_pieces(reader *r);
void read_kinds(reader *r);
uint32_t resolve_kind(reader *r, str name, span at);
str name_of_piece(const reader *r, arena *keep, str base, uint32_t piece, uint32_t second);
uint32_t piece_of_kind(const reader *r, uint32_t kind, str name); /* or NO_ID */

/* comes_before.c: fills in what comes after each piece, through others too */
void read_order(reader *r, piece *pieces);
/* What hangs on what, and of which kinds there is a lone piece. */
void read_hanging(reader *r, piece *pieces);
/* The piece of this kind on which that one hangs, or NO_ID. */
uint32_t carrier_of_kind(const book *b, uint32_t piece, uint32_t kind);
/* It hangs on one, but on which can't be known: that was told already. */
bool carrier_is_lost(const reader *r, uint32_t piece, uint32_t kind);
/* It hangs on one, and the site has none: tells it. */
bool hangs_on_none(reader *r, uint32_t piece, uint32_t kind);

/* `at: [floor-left]` */
ids pieces_named(reader *r, const node *n);
/* The piece among these that is alone of its kind, or NO_ID. */
uint32_t only_piece_of(const book *b, const ids *pieces, uint32_t kind);

/* ---- look_up.c: names with and without "of …" ---- */
typedef enum names_how { NAMES_ONE, NAMES_ANY, NAMES_EVERY } names_how;
typedef struct names_found {
    names_how how;
    const uint32_t *ids;
    uint32_t count;
} names_found;
typedef enum look_up_state {
    LOOK_UP_FOUND,
    LOOK_UP_MISSING, /* nothing has this name; the caller says so */
    LOOK_UP_REPORTED,
} look_up_state;
/* "foam-look", "foam-look of floor-left", "… of first", "… of any applicator", "… of every
 * applicator". */
/* A rule for each pair is "dirt-passes of coarse and fine". */
look_up_state look_up(reader *r, section s, str name, span at, names_found *out);
/* The same where one is wanted. */
look_up_state look_up_one(reader *r, section s, str name, span at, uint32_t *id);
str base_of_name(str name); /* what stands before " of " */
const base_name *base_find(const reader *r, section s, str base);
void suggest_pieces(reader *r, fault *f, str wrong, uint32_t kind);
/* Like resolve, several at once: "x of any K" and "x of every K" mean each. False: a fault was
 * added. */
bool resolve_many(reader *r, section s, str name, span at, names_found *out);

/* ---- read_keys.c ---- */
/* A map, every key of which is in its table. */
bool check_map(reader *r, const node *n, key_map_id which);
/* A map, every key of which is in the list that NULL ends. */
bool check_words(reader *r, const node *n, const char *what, const char *const *words);
/* The value of a key that must be there; its table has an example. */
const node *need(reader *r, const node *map, label owner, key_map_id which, const char *name);
/* All keys of the map but those that the section reads by itself, into the entry. */
void read_keys(reader *r, const node *map, label owner, key_map_id which, void *entry);
void unknown_section(reader *r, const node_entry *e);
/* A key of edition 1 of the language is reported; false: it is none. */
bool old_key(reader *r, const node_entry *e, key_map_id which);

/* ---- shapes.c ---- */
const char *node_says(const node *n); /* "a list" */
fault *wrong_kind(reader *r, const node *n, const char *what, const char *wanted);
bool read_word(reader *r, const node *n, const char *what, str *word);
/* Index in the list of words that NULL ends, or NO_ID with a fault. */
uint32_t read_choice(reader *r, const node *n, const char *what, const char *const *words);
bool read_yes(reader *r, const node *n, const char *what, bool *yes);
ids read_ids(reader *r, section s, const node *n, const char *what);
typedef struct ids_draft {
    uint32_t *items, count, room;
} ids_draft;
void ids_add(reader *r, ids_draft *all, const names_found *more);
/* Sorts them and leaves out what stands twice. */
ids ids_of(uint32_t *items, uint32_t count);
label label_kept(reader *r, str name, span at);
bool item_twice(reader *r, const node *list, uint32_t i);
/* The entries of a map in the order of their keys. */
const node_entry **entries_by_key(reader *r, const node *map);

/* ---- texts.c ---- */
typedef enum text_place {
    TEXT_SENTENCE,
    TEXT_PHRASE
} text_place; /* a phrase may stand in [ ] if it has no punctuation */
bool read_texts(reader *r, const node *n, const char *what, text_place where, texts *out);
/* A sentence of an entry that is there for each piece. Where its kind may go unnamed the author
 * need not name the piece in it; at a site that has several it is put at its head. */
void read_headed(reader *r, const node *n, const char *what, texts *out);
/* Such a text is shown within others, and in lists of what there is, where no case is open: nothing
 * in braces. */
void read_fixed_texts(reader *r, const node *n, const char *what, text_place where, texts *out);
/* Item i of a list in brackets reads like the rest of the one before: a comma may have cut a
 * sentence. */
void check_cut(reader *r, const node *list, uint32_t i);
void read_texts_list(reader *r, const node *n, const char *what, text_place where, texts_list *out);
/* The value of a key that may be left out. */
void read_texts_at(reader *r, const node *map, const char *key, texts *out);
span span_in_text(const reader *r, const node *n, size_t from, size_t to);
bool is_language(str tag);
void check_insert_units(reader *r); /* once every reading's unit is known */

/* ---- heard.c ---- */
void read_heard(reader *r, const node *n, heard_list *out);

/* ---- amounts.c, chances.c ---- */
typedef struct amount_slip { /* what was wrong with an amount */
    amount_found found;
    str part, bad; /* the amount; what in it could not be used */
    unit written;  /* the unit it was written in, if that could be read */
} amount_slip;
/* "20 psi", "1.4 bar" in the wanted unit; no fault is added. */
bool amount_in(reader *r, str text, const unit *wanted, double *number, amount_slip *slip);
void amount_fault(reader *r, const node *n, const amount_slip *slip, const unit *wanted);
/* Both in one: false with a fault. */
bool read_amount(reader *r, const node *n, str part, const unit *wanted, double *number);
typedef enum range_state { RANGE_READ, RANGE_NONE, RANGE_BAD_AMOUNT, RANGE_BACKWARDS } range_state;
/* "20 to 40 psi". */
range_state range_of(reader *r, str text, const unit *wanted, double *low, double *high,
                     amount_slip *slip);
bool read_unit(reader *r, str text, span at, const dimension *wanted, unit *out);
void unit_unknown(reader *r, span at, str bad, const dimension *wanted);
const char *unit_gap(const unit *u);                         /* between a number and the unit */
str amount_example(reader *r, double number, const unit *u); /* "20 psi" */
str range_example(reader *r, double low, double high, const unit *u); /* "20 to 40 psi" */
/* What to write instead of a range that is none, or the wrong way round. */
str range_mended(reader *r, str text, const unit *u, double low, double high);
bool chance_of(str text, double *chance); /* "70 %", "0.7", "7 of 10" */
bool read_chance(reader *r, const node *n, const char *what, double *chance);
bool read_plain_chance(reader *r, const node *n, const char *what, double *chance); /* no words */
bool read_minutes(reader *r, const node *n, double *minutes); /* a plain number will do */
bool read_time(reader *r, const node *n, double *minutes);    /* with its unit */
bool read_times(reader *r, const node *n, double *factor);
bool read_how_often(reader *r, const node *n, double *often);
bool read_whole(str text, uint32_t *number);
void set_word_chances(reader *r, const node *map);
void default_word_chances(reader *r);
double chance_always(const reader *r);
double chance_rarely(const reader *r);

/* ---- read_procedures.c: what is written once of procedures, protection and harm ---- */
void read_procedures(reader *r);
void read_protection(reader *r);
void read_harms(reader *r);
/* `procedure: name`, or several in order. */
void read_procedure_names(reader *r, const node *n, safety *out);
/* What to wear: texts, and names of `protection` whose texts stand in their place. */
void read_wear(reader *r, const node *n, const char *what, texts_list *out);
void texts_join(reader *r, texts_list *to, const texts_list *more); /* none twice */

/* ---- fix_sequence.c: `after`, `before` ---- */
void read_fix_sequence(reader *r, fix *fixes);

/* ---- check_safety.c ---- */
void check_safety(reader *r); /* once every section is read */
void check_typed_lines(reader *r, const texts_list *own, span at, str name);

/* ---- read_safety.c ---- */
/* an entry of `harms` */
void read_harm_profile(reader *r, const node *n, label owner, safety *out);
void read_safety(reader *r, const node *map, label owner, key_map_id which, safety *out);
void read_hazards(reader *r, const node *n, safety *out);
bool read_put_back(reader *r, const node *n, put_back *out);
bool harm_is_high(harm_worst worst, harm_chance chance);

/* ---- read_adjust.c ---- */
void read_adjust(reader *r, const node *n, fix *f);
void check_adjusted(reader *r); /* once every section is read */

/* ---- read_cases.c, read_expect.c ---- */
/* or NO_ID, reported as of a case */
uint32_t case_name(reader *r, section s, const node *n, span *at);
uint32_t case_cause(reader *r, const node *n, span *at);
uint32_t case_question(reader *r, const node *n, span *at);
void read_expect(reader *r, const node *n, worked_case *c);

/* ---- read_replies.c ---- */
/* Into question order; a question that is answered twice is reported. */
void sort_replies(reader *r, const book *b, reply *all, uint32_t count);

/* ---- read_answers.c: what may be answered ---- */
bool read_answer_options(reader *r, const node *n, label owner, answer_option **answers,
                         uint32_t *count, const uint32_t **shown_order);
void yes_no_options(reader *r, span at, bool both, answer_option **answers, uint32_t *count);
uint32_t option_find(const answer_option *answers, uint32_t count, str id);
const str *option_names(arena *scratch, const answer_option *answers, uint32_t count);
/* An answer of a question or conclusion; NO_ID with a fault. */
uint32_t read_option(reader *r, const node *n, str owner, const answer_option *answers,
                     uint32_t count);

/* ---- read_questions.c ---- */
/* The key, if it is there, is reported: it has no meaning in this map. */
bool wrong_together(reader *r, const node *map, const char *key, const char *why,
                    const char *remedy);

/* ---- read_gate.c: `safe`, `early` ---- */
/* Whether the engine adds its own gate question, and by which name; once all names are known. */
void want_our_gate(reader *r);
void read_gate(reader *r, const node *map, question *q);
void check_gates(reader *r); /* once everything is read and quantities are settled */

/* ---- ours.c: what the engine brings into a book of its own accord ---- */
question our_gate(reader *r);
texts our_stop_text(reader *r);

/* ---- read_emergencies.c ---- */
void read_emergencies(reader *r);

/* ---- read_places.c ---- */
void read_places(reader *r);

/* ---- read_looking.c: with what, how regularly and against which good value a question is answered
 * ---- */
void read_instruments(reader *r);
void read_round(reader *r, const node *n, question *q);
void read_good(reader *r, const node *n, question *q); /* once every question's kind is known */

/* ---- read_pictures.c ---- */
void read_picture(reader *r, const node *n, const picture **out);
/* A list of what to do in order; one alone may stand without the list. */
void read_steps(reader *r, const node *n, const char *what, texts_list *out);
void check_pictures_used(reader *r);

/* ---- read_money.c ---- */
bool read_money(reader *r, const node *n, money *out);
void read_minute_costs(reader *r, const node *n);
void check_one_currency(reader *r);

/* ---- read_concepts.c: words that mean the same ---- */
void read_concepts(reader *r);
/* Plain words or phrases, each with a letter or digit in it: a list, or one alone. */
void read_plain_words(reader *r, const node *n, const char *what, phrases *out);

/* ---- read_contacts.c ---- */
void read_contacts(reader *r, const node *site);

/* ---- read_conditions.c, compare.c ---- */
/* One answer or a list of them, as a mask. */
bool read_mask(reader *r, const node *n, str owner, const answer_option *answers, uint32_t count,
               uint64_t *mask);
uint64_t all_answers(uint32_t count);
const cond *read_condition(reader *r, const node *n);
const cond *read_condition_at(reader *r, const node *map, const char *key); /* null if left out */
/* read_trend.c */
const cond *read_trend_condition(reader *r, uint32_t reading, const node *n, cond *c);
const cond *read_reading_condition(reader *r, uint32_t reading, const node *n, cond *c);

/* ---- quantities.c, settle.c ---- */
bool read_quantity(reader *r, const node *map, question *q); /* all but its formula */
void read_quantities(reader *r); /* the formulas, once every unit is known */
unit difference_unit(reader *r, const unit *u);
uint32_t quantity_of_difference(reader *r, uint32_t reading, const node *n, size_t begins,
                                str right);
uint32_t trend_of(reader *r, uint32_t reading, span at); /* the quantity that is its trend */
void remember_made(reader *r, cond *c);
void join_quantities(reader *r); /* once every condition is read */
void settle_quantities(reader *r);
void check_judged_twice(reader *r);
str range_of_plausible(reader *r, const question *q); /* "0 to 150 psi" */
bool read_range_in(reader *r, const question *q, const node *n, const char *what, double *low,
                   double *high);

/* ---- the sections ---- */
void read_manifest(reader *r);
void read_cautions(reader *r, const node *n); /* the manifest's */
void read_questions(reader *r);
void read_question_conditions(reader *r); /* once every question's answers are known */
void read_conclusions(reader *r);
void read_site(reader *r);
void read_shown(reader *r, const node *n); /* units preferred: first the manifest's, then the
                                              site's, which come before them */
void read_causes(reader *r);
void read_symptoms(reader *r);
/* Where the map says it, and where that stands; else the share is left as it is, and it stands
 * nowhere. */
void read_done_wrongly(reader *r, const node *map, double *share, span *said);
void read_comes_back(reader *r, const node *map, double *share, span *said);
void read_fixes(reader *r);
void read_rules(reader *r);
void read_cases(reader *r);
/* `shown-by` and `cures`: {cause: chance}, in cause order. */
const rate *read_rates(reader *r, const node *n, const char *what, uint32_t *count);

/* ---- checks.c, usage.c: what only the whole shows ---- */
void check_symptom_conditions(reader *r);
void check_counted_twice(reader *r);
void check_usage(reader *r);

#endif
