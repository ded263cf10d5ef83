/* What the files of this room share while a book is being read. Two passes: first the names
 * of every section over all files, then the bodies, so that no entry depends on standing before or
 * after another.
 *
 * Every read_… function reports what is wrong and goes on. It returns false or null when its result
 * can't be used; an entry whose body could not be understood is marked broken, and what refers to
 * it is then not checked against it. */
#ifndef TT_READ_READER_H
#define TT_READ_READER_H

#include "read/reader_names.h"

/* Whether a list or text of an entry reads the same for each piece. */
bool is_same_for_all(const node *n);
/* ---- shared_reads.c ---- */
const shared_read *shared_before(reader *r, const node *n, shared_kind kind); /* or null */
void share_read(reader *r, const node *n, shared_kind kind, const void *items, uint32_t count);
/* What is ours, and so the same for all pieces whatever stands in n. */
void share_ours(reader *r, const node *n, shared_kind kind, const void *items, uint32_t count);
/* ---- collect.c ---- */
void read_fines(reader *r, const node *const *roots); /* read_fine.c */
void collect_names(reader *r, const node *const *roots);
/* ---- read_keys.c ---- */
/* A map, every key of which is in its table. */
bool check_map(reader *r, const node *n, key_map_id which);
/* A map, every key of which is in the list that NULL ends. */
bool check_words(reader *r, const node *n, const char *what, const char *const *words);
/* The key, if it is there, is reported: it has no meaning in this map. */
bool wrong_together(reader *r, const node *map, const char *key, const char *why,
                    const char *remedy);
/* The value of a key that must be there; its table has an example. */
const node *need(reader *r, const node *map, label owner, key_map_id which, const char *name);
/* All keys of the map but those that the section reads by itself, into the entry, by r->read_key.
 */
void read_keys(reader *r, const node *map, label owner, key_map_id which, void *entry);
key_reader read_key_value; /* key_kinds.c */
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

/* ---- name_in_text.c: a name, as it stands behind what the text says so far ---- */
void name_in_text(arena *scratch, text_builder *out, str name, str language);

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
void read_harms(reader *r);
void read_safety(reader *r, const node *map, label owner, key_map_id which, safety *out);
void read_hazards(reader *r, const node *n, safety *out);
bool read_put_back(reader *r, const node *n, put_back *out);
bool harm_is_high(harm_worst worst, harm_chance chance);

/* ---- read_adjust.c ---- */
void read_adjust(reader *r, const node *n, fix *f);
void check_adjusted(reader *r); /* once every section is read */

/* ---- case_names.c, read_expect.c ---- */
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

/* ---- formula_text.c ---- */
/* The formula's text is part of a node's text, or has something put before it. */
typedef struct formula_place {
    reader *r;
    const node *n;
    size_t skip;   /* bytes of the formula that don't stand in the node */
    size_t begins; /* where the rest stands in the node's text */
} formula_place;
/* Null after a fault. */
const formula *formula_in_text(const formula_place *p, str text);

/* ---- quantities.c, settle.c ---- */
bool read_quantity(reader *r, const node *map, question *q); /* all but its formula */
void read_quantities(reader *r); /* the formulas, once every unit is known */
void join_quantities(reader *r); /* once every condition is read */
void settle_quantities(reader *r);
void check_judged_twice(reader *r);

/* ---- made.c ---- */
unit difference_unit(reader *r, const unit *u);
uint32_t quantity_of_difference(reader *r, uint32_t reading, const node *n, size_t begins,
                                str right);
uint32_t trend_of(reader *r, uint32_t reading, span at); /* the quantity that is its trend */
void remember_made(reader *r, cond *c);

/* ---- ranges.c ---- */
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
