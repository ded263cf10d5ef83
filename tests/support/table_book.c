#include "table_book.h"

#include <assert.h>

#include "open_gate.h"
#include "small_book.h"
#include "testing.h"

/* ---- names ---- */

/* The word with hyphens for all that can't stand in a name. What begins with a digit, or could be a
 * word of the language, gets a beginning of its own. */
static str name_of(arena *keep, str word)
{
    static const char *const words[] = {"none", "other", "first", "second", "unsure"};
    text_builder b = {.keep = keep};
    bool digit = word.n > 0 && word.p[0] >= '0' && word.p[0] <= '9', reserved = false;
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) reserved |= str_is(word, words[i]);
    if (digit || reserved) text_add(&b, STR("is-"));
    for (size_t i = 0; i < word.n; i++) {
        char c = word.p[i];
        if (c >= 'A' && c <= 'Z') c = (char)(c - 'A' + 'a');
        bool fits = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        text_add(&b, fits ? (str){&c, 1} : STR("-"));
    }
    return text_done(&b);
}

typedef struct writer {
    arena *keep;
    const table_counts *k;
    text_builder out;
} writer;

static str column_name(const writer *w, uint32_t c)
{
    return name_of(w->keep, w->k->of->columns[c].name);
}

static str value_name(const writer *w, uint32_t c, uint32_t v)
{
    return name_of(w->keep, w->k->of->columns[c].values[v]);
}

static str class_name(const writer *w, uint32_t class)
{
    return value_name(w, w->k->of->column_count, class);
}

/* ---- the text ---- */

static void write_question(writer *w, uint32_t c)
{
    const table_column *column = &w->k->of->columns[c];
    text_addf(&w->out, "  %s:\n    ask: \"%.*s?\"\n    answers:\n", column_name(w, c).p,
              STR_ARG(column->name));
    for (uint32_t v = 0; v < column->value_count; v++)
        text_addf(&w->out, "      %s: \"%.*s\"\n", value_name(w, c, v).p,
                  STR_ARG(column->values[v]));
    text_addf(&w->out, "    read-right: 100 %%\n");
}

static void write_symptom(writer *w, uint32_t c, uint32_t v)
{
    const table_counts *k = w->k;
    uint32_t width = k->of->columns[c].value_count;
    text_addf(&w->out, "  %s-is-%s:\n    when: {%s: %s}\n    shown-by:\n", column_name(w, c).p,
              value_name(w, c, v).p, column_name(w, c).p, value_name(w, c, v).p);
    for (uint32_t class = 0; class < table_class_count(k->of); class ++)
        text_addf(&w->out, "      %s: %u of %u\n", class_name(w, class).p,
                  k->values[c][class * width + v] + k->added,
                  k->known[c][class] + k->added * width);
}

/* How often each answer comes. */
static void write_shares(writer *w, uint32_t c)
{
    uint32_t width = w->k->of->columns[c].value_count, all = 0;
    for (uint32_t class = 0; class < table_class_count(w->k->of); class ++)
        all += w->k->known[c][class];
    text_addf(&w->out, "    about: today\n    shares:\n");
    for (uint32_t v = 0; v < width; v++) {
        uint32_t seen = 0;
        for (uint32_t class = 0; class < table_class_count(w->k->of); class ++)
            seen += w->k->values[c][class * width + v];
        text_addf(&w->out, "      %s: %u of %u\n", value_name(w, c, v).p, seen, all);
    }
}

static double highest_rate(const writer *w, uint32_t c, uint32_t v)
{
    double highest = 0;
    for (uint32_t class = 0; class < table_class_count(w->k->of); class ++)
        if (counted_rate(w->k, c, class, v) > highest) highest = counted_rate(w->k, c, class, v);
    return highest;
}

/* P(answer | class) for all classes, in proportion to the highest. */
static void write_rule(writer *w, uint32_t c, uint32_t v)
{
    double highest = highest_rate(w, c, v);
    text_builder less = {.keep = w->keep}, out = {.keep = w->keep};
    for (uint32_t class = 0; class < table_class_count(w->k->of); class ++) {
        double rate = counted_rate(w->k, c, class, v);
        if (!(rate > 0))
            text_addf(&out, "%s%s", out.length > 0 ? ", " : "", class_name(w, class).p);
        else if (rate < highest)
            text_addf(&less, "        %s: %.17g times\n", class_name(w, class).p, highest / rate);
    }
    if (less.length == 0 && out.length == 0) return;
    text_addf(&w->out, "  when-%s-is-%s:\n    when: {%s: %s}\n    then:\n", column_name(w, c).p,
              value_name(w, c, v).p, column_name(w, c).p, value_name(w, c, v).p);
    if (out.length > 0) text_addf(&w->out, "      rule-out: [%s]\n", text_done(&out).p);
    if (less.length > 0) text_addf(&w->out, "      less-likely:\n%s", text_done(&less).p);
}

static void for_each_answer(writer *w, void (*write)(writer *, uint32_t, uint32_t))
{
    for (uint32_t c = 0; c < w->k->of->column_count; c++)
        for (uint32_t v = 0; v < w->k->of->columns[c].value_count; v++) write(w, c, v);
}

static void write_causes(writer *w)
{
    const example_table *t = w->k->of;
    text_addf(&w->out, "causes:\n");
    for (uint32_t class = 0; class < table_class_count(t); class ++)
        text_addf(&w->out, "  %s:\n    text: \"%.*s\"\n    how-often: %u\n", class_name(w, class).p,
                  STR_ARG(t->columns[t->column_count].values[class]), w->k->classes[class]);
}

str table_book_text(arena *keep, const table_counts *k, book_form form)
{
    writer w = {keep, k, {.keep = keep}};
    text_addf(&w.out,
              "book:\n  title: \"%.*s\"\n  roles: [anybody]\n  not-listed: 0 %%\n"
              "  two-faults: 0 %%\nquestions:\n",
              STR_ARG(k->of->name));
    for (uint32_t c = 0; c < k->of->column_count; c++) {
        write_question(&w, c);
        if (form == BOOK_OF_FACTS) write_shares(&w, c);
    }
    text_addf(&w.out, form == BOOK_OF_FACTS ? "rules:\n" : "symptoms:\n");
    for_each_answer(&w, form == BOOK_OF_FACTS ? write_rule : write_symptom);
    write_causes(&w);
    return text_done(&w.out);
}

/* ---- asking it ---- */

static table_book book_of_text(arena *keep, const table_counts *k, str text)
{
    writer names = {keep, k, {0}};
    const example_table *t = k->of;
    uint32_t *question = ARENA_ARRAY(keep, uint32_t, t->column_count);
    const char **cause = ARENA_ARRAY(keep, const char *, table_class_count(t));
    table_book b = {t, small_book(text.p), question, cause};
    for (uint32_t c = 0; c < t->column_count; c++) {
        question[c] = tt_question_find(b.rules, column_name(&names, c).p);
        assert_true(question[c] != TT_NONE);
    }
    for (uint32_t class = 0; class < table_class_count(t); class ++)
        cause[class] = class_name(&names, class).p;
    return b;
}

table_book table_book_new(arena *keep, const table_counts *k, book_form form)
{
    return book_of_text(keep, k, table_book_text(keep, k, form));
}

table_book table_book_counting(arena *keep, const table_counts *k, double power)
{
    const str text = table_book_text(keep, k, BOOK_OF_SYMPTOMS), first = STR("book:\n");
    assert_true(str_starts(text, "book:\n"));
    return book_of_text(keep, k,
                        str_printf(keep, "book:\n  answers-count: %.10g %%\n%.*s", 100 * power,
                                   STR_ARG(str_slice(text, first.n, text.n))));
}

void table_book_free(table_book *b)
{
    tt_book_free(b->rules);
    b->rules = NULL;
}

void table_answer(const table_book *b, tt_case *c, uint32_t column, uint32_t value)
{
    tt_reply said = {.kind = value == VALUE_MISSING ? TT_UNSURE : TT_ANSWER};
    if (value != VALUE_MISSING) said.option = value;
    assert_int_equal(tt_answer(c, b->question[column], &said), TT_OK);
}

tt_case *table_case(const table_book *b, const uint32_t *answers)
{
    tt_case *c;
    assert_int_equal(tt_case_new(b->rules, &(tt_options){.role = TT_NONE}, &c), TT_OK);
    open_gate(c);
    for (uint32_t i = 0; answers != NULL && i < b->of->column_count; i++)
        if (answers[i] != VALUE_MISSING) table_answer(b, c, i, answers[i]);
    return c;
}

static const tt_view *look(tt_case *c)
{
    const tt_view *view;
    assert_int_equal(tt_look(c, &view), TT_OK);
    return view;
}

static uint32_t class_called(const table_book *b, const char *name)
{
    for (uint32_t class = 0; name != NULL && class < table_class_count(b->of); class ++)
        if (strcmp(b->cause[class], name) == 0) return class;
    return UINT32_MAX;
}

void table_chances(const table_book *b, tt_case *c, double *out)
{
    const tt_view *view = look(c);
    for (uint32_t class = 0; class < table_class_count(b->of); class ++) out[class] = 0;
    for (uint32_t i = 0; i < view->cause_count; i++) {
        uint32_t class = class_called(b, view->causes[i].name);
        if (class != UINT32_MAX)
            out[class] = view->causes[i].chance;
        else
            assert_true(view->causes[i].chance == 0); /* something not listed */
    }
}

uint32_t table_leader(const table_book *b, tt_case *c)
{
    const tt_view *view = look(c);
    assert_true(view->cause_count > 0);
    return class_called(b, view->causes[0].name);
}

uint32_t table_next(const table_book *b, tt_case *c, double *bits)
{
    const tt_view *view = look(c);
    *bits = view->next.bits;
    for (uint32_t column = 0; column < b->of->column_count; column++)
        if (b->question[column] == view->next.question) return column;
    return UINT32_MAX;
}

double table_bits(const table_book *b, const uint32_t *answers, uint32_t column)
{
    tt_case *c = table_case(b, answers);
    double bits;
    for (uint32_t i = 0; i < b->of->column_count; i++)
        if (i != column && (answers == NULL || answers[i] == VALUE_MISSING))
            assert_int_equal(tt_answer(c, b->question[i], &(tt_reply){.kind = TT_CANNOT}), TT_OK);
    uint32_t next = table_next(b, c, &bits);
    if (next != UINT32_MAX && next != column)
        fail_msg("question %u is asked, though only %u is open", next, column);
    tt_case_free(c);
    return next == column ? bits : 0;
}
