/* Texts that people read. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "read/reader.h"

/* The bytes [from, to) of a scalar's text, found again in its source; the whole scalar where
 * escapes or folding moved them. */
span span_in_text(const reader *r, const node *n, size_t from, size_t to)
{
    assert(from <= to && to <= n->text.n);
    if (n->at.file == NO_FILE || n->at.file >= r->book->files->count) return n->at;
    str bytes = r->book->files->items[n->at.file].bytes;
    if (n->at.end > bytes.n) return n->at;
    str raw = str_slice(bytes, n->at.start, n->at.end);
    size_t quote = n->style == STYLE_SINGLE || n->style == STYLE_DOUBLE ? 1 : 0;
    if (quote + to <= raw.n && memcmp(raw.p + quote, n->text.p, to) == 0)
        return (span){n->at.file, n->at.start + (uint32_t)(quote + from),
                      n->at.start + (uint32_t)(quote + to)};
    size_t found = from == to ? SIZE_MAX : str_find(raw, str_slice(n->text, from, to));
    if (found == SIZE_MAX) return n->at;
    return (span){n->at.file, n->at.start + (uint32_t)found,
                  n->at.start + (uint32_t)(found + to - from)};
}

/* ---- {name} in texts: answers, readings, pieces of equipment ---- */

/* "{cabinets}" is meant as the kind 'cabinet', however like a question it may be; empty if it is
 * like none. */
static str nearest_kind(reader *r, str name)
{
    str *names = ARENA_ARRAY(r->scratch, str, r->book->kind_count);
    for (uint32_t i = 0; i < r->book->kind_count; i++) names[i] = r->book->kinds[i].id.name;
    size_t nearest = nearest_name(r, name, names, r->book->kind_count);
    return nearest == SIZE_MAX ? STR("") : names[nearest];
}

static void no_such_insert(reader *r, str name, span at)
{
    const name_table *questions = &r->bases[SECTION_QUESTIONS];
    if (missing_before(r, WHERE_INSERT, name) ||
        may_be_lost(r, name, questions->names, questions->count))
        return;
    const char *elsewhere = name_elsewhere(r, name);
    fault *f = elsewhere != NULL
                   ? fault_add(r->list, FAULT_UNKNOWN_INSERT, at,
                               "'%.*s' is a %s; braces show the answer to a question.",
                               STR_ARG(name), elsewhere)
                   : fault_add(r->list, FAULT_UNKNOWN_INSERT, at,
                               "There is no question '%.*s' whose answer could be shown here.",
                               STR_ARG(name));
    str kind = nearest_kind(r, name);
    if (elsewhere == NULL && kind.n > 0)
        fault_help(r->list, f, "Did you mean '{%.*s}'?", STR_ARG(kind));
    else
        suggest_name(r, f, name, questions->names, questions->count);
}

/* The unit is read once all questions are. */
static void remember_unit(reader *r, uint32_t question, str unit, span at)
{
    unit_insert *one = ARENA_NEW(r->scratch, unit_insert);
    *one = (unit_insert){question, str_copy(r->scratch, unit), at, r->unit_inserts};
    r->unit_inserts = one;
}

/* Whether any fix adjusts it is known once all fixes are. */
static void remember_when(reader *r, uint32_t question, span at)
{
    when_insert *one = ARENA_NEW(r->keep, when_insert);
    *one = (when_insert){question, at, r->when_inserts};
    r->when_inserts = one;
}

static void bad_when(reader *r, str when, span at)
{
    fault *f = fault_add(r->list, FAULT_UNKNOWN_INSERT, at,
                         "'as %.*s' says nothing here; a reading can be shown as found or as left.",
                         STR_ARG(when));
    fault_help(r->list, f, "Write 'as found', 'as left', or the name alone.");
}

static void add_question_insert(reader *r, const node *n, const insert *in, span at,
                                text_builder *out)
{
    uint32_t id;
    r->in_text = n;
    look_up_state state = look_up_one(r, SECTION_QUESTIONS, in->name, at, &id);
    r->in_text = NULL;
    if (state == LOOK_UP_MISSING) no_such_insert(r, in->name, at);
    if (id == NO_ID) return;
    bool when = in->when.n > 0;
    if (when && !str_is(in->when, "found") && !str_is(in->when, "left"))
        bad_when(r, in->when, at);
    else if (when)
        remember_when(r, id, at);
    if (in->unit.n > 0) remember_unit(r, id, in->unit, at);
    text_addf(out, "{%.*s%s%.*s%s%.*s}", STR_ARG(r->tables[SECTION_QUESTIONS].items[id].id.name),
              when ? " as " : "", STR_ARG(in->when), in->unit.n > 0 ? ", " : "", STR_ARG(in->unit));
}

/* The piece that "{applicator}", "{first}" or "{second}" stands for here, or NO_ID. */
static uint32_t piece_meant(const reader *r, str name)
{
    if (r->here.piece == NO_ID) return NO_ID;
    bool pair = r->here.second != NO_ID;
    if (pair && str_is(name, "first")) return r->here.piece;
    if (pair && str_is(name, "second")) return r->here.second;
    str kind = r->book->kinds[r->book->pieces[r->here.piece].kind].id.name;
    return !pair && str_eq(kind, name) ? r->here.piece : NO_ID;
}

static void add_named(reader *r, const texts *called, str language, text_builder *out)
{
    name_in_text(r->scratch, out, texts_for(called, language), language);
}

static void add_piece(reader *r, uint32_t piece, str language, text_builder *out)
{
    const book *b = r->book;
    r->piece_said = true;
    add_named(r, r->of_any ? &b->kinds[b->pieces[piece].kind].one : &b->pieces[piece].text,
              language, out);
}

/* Is this the kind of which the entry's piece is the lone one? */
static bool names_lone(const reader *r, str name)
{
    return r->here.lone > 0 && str_eq(r->book->kinds[r->here.lone - 1].id.name, name);
}

/* What it is called: by the site, or where that names none, by the book. */
static const texts *lone_text(const reader *r)
{
    const book *b = r->book;
    const uint32_t kind = r->here.lone - 1;
    for (uint32_t i = 0; i < b->piece_count; i++)
        if (b->pieces[i].kind == kind) return &b->pieces[i].text;
    return &b->kinds[kind].unnamed;
}

static bool is_pair_word(str name)
{
    return str_is(name, "first") || str_is(name, "second");
}

/* "{applicator}" and "{first}" where they stand for nothing. False: the name is none of these. */
static bool no_piece_meant(reader *r, str name, span at)
{
    bool kind = book_kind(r->book, name) != NO_ID;
    if (!kind && !is_pair_word(name)) return false;
    if (kind && r->here.second != NO_ID) {
        fault *f = fault_add(r->list, FAULT_PIECE_WANTED, at,
                             "'{%.*s}' could be either one of the pair.", STR_ARG(name));
        fault_help(r->list, f, "Write {first} or {second}.");
    } else if (kind) {
        fault *f = fault_add(r->list, FAULT_PIECE_WANTED, at,
                             "'{%.*s}' stands for one %.*s, but this is not written for each.",
                             STR_ARG(name), STR_ARG(name));
        fault_help(r->list, f, "Write this entry 'for-each: %.*s', or say in words which is meant.",
                   STR_ARG(name));
    } else if (!missing_before(r, WHERE_PAIR, r->here.base)) {
        fault *f = fault_add(r->list, FAULT_PIECE_WANTED, at,
                             "'{%.*s}' has a meaning only in a rule for each pair.", STR_ARG(name));
        fault_help(r->list, f, "Write the rule with 'for-each-pair' and a kind of equipment.");
    }
    return true;
}

static void add_insert(reader *r, const node *n, size_t from, size_t to, str language,
                       text_builder *out)
{
    assert(from + 2 <= to && n->text.p[from] == '{' && n->text.p[to - 1] == '}');
    insert in = insert_parts(str_slice(n->text, from + 1, to - 1));
    uint32_t piece = piece_meant(r, in.name);
    span at = span_in_text(r, n, from, to);
    if ((piece != NO_ID && !is_pair_word(in.name)) || names_lone(r, in.name))
        mention_add(r->book->mentions,
                    (mention){NAMED_KIND, MENTION_INSERT, in.name, STR(""), STR(""), n->at});
    if (piece != NO_ID)
        add_piece(r, piece, language, out);
    else if (names_lone(r, in.name))
        add_named(r, lone_text(r), language, out);
    else if (!no_piece_meant(r, in.name, at))
        add_question_insert(r, n, &in, at, out);
}

static void brace_alone(reader *r, const node *n, size_t at)
{
    assert(at < n->text.n);
    char brace = n->text.p[at];
    fault *f =
        fault_add(r->list, FAULT_BRACE_ALONE, span_in_text(r, n, at, at + 1),
                  "A '%c' stands alone; braces go in pairs round the name of a question.", brace);
    fault_help(r->list, f, "Write '%c%c' if the brace itself should be read.", brace, brace);
}

/* The text with pieces of equipment named and every other name in full. */
static str filled_in(reader *r, const node *n, str language)
{
    str text = n->text;
    text_builder out = {.keep = r->keep};
    for (size_t i = 0; i < text.n; i++) {
        char c = text.p[i];
        bool doubled = (c == '{' || c == '}') && i + 1 < text.n && text.p[i + 1] == c;
        if (doubled || (c != '{' && c != '}')) {
            text_add(&out, str_slice(text, i, i + (doubled ? 2 : 1)));
            i += doubled;
            continue;
        }
        size_t close = c == '{' ? str_find_byte(str_slice(text, i, text.n), '}') : SIZE_MAX;
        if (close == SIZE_MAX) {
            brace_alone(r, n, i);
            break;
        }
        add_insert(r, n, i, i + close + 1, language, &out);
        i += close;
    }
    return out.length == 0 ? STR("") : text_done(&out);
}

/* ---- one text ---- */

/* Inside { } and [ ] YAML gives commas, colons and braces meanings of their own and would cut a
 * sentence to pieces. */
static bool splits_in_flow(str text, text_place where)
{
    static const char marks[] = ",.:;?!{}";
    for (size_t i = 0; i < text.n; i++) {
        char c = text.p[i];
        if (c == '\n' || (c == ' ' && where == TEXT_SENTENCE) ||
            (c != '\0' && strchr(marks, c) != NULL))
            return true;
    }
    return false;
}

static bool has_brace(str text)
{
    return str_find_byte(text, '{') != SIZE_MAX || str_find_byte(text, '}') != SIZE_MAX;
}

/* "The friction stand: How does the foam look?" */
static str with_head(reader *r, str text, str language)
{
    const piece *p = &r->book->pieces[r->here.piece];
    const str head = unicode_capital(r->scratch, texts_for(&p->text, language));
    return str_printf(r->keep, "%.*s: %.*s", STR_ARG(head), STR_ARG(text));
}

/* What ends where the node's text does has a NUL behind it as it is. */
static str kept_of(reader *r, const node *n, str part)
{
    return part.p + part.n == n->text.p + n->text.n ? part : str_copy(r->keep, part);
}

static bool read_one(reader *r, const node *n, const char *what, text_place where, str language,
                     str *out)
{
    if (n->kind != NODE_TEXT) {
        wrong_kind(r, n, what, "a text");
        return false;
    }
    str text = str_trim(n->text);
    if (text.n == 0) {
        fault *f = fault_add(r->list, FAULT_EMPTY, n->at,
                             "This text is empty; somebody will have to read it.");
        fault_help(r->list, f, "Write the sentence, or leave the key out if it may be left out.");
        return false;
    }
    const bool quoted = n->style == STYLE_DOUBLE || n->style == STYLE_SINGLE;
    if (n->in_flow && !quoted && splits_in_flow(text, where)) {
        fault *f = fault_add(
            r->list, FAULT_SENTENCE_IN_FLOW, n->at,
            "A sentence stands inside { } or [ ]; there a comma or a colon would cut it in two.");
        if (str_find_byte(text, '"') == SIZE_MAX && str_find_byte(text, '\\') == SIZE_MAX) {
            fault_help(r->list, f, "Put it in quotes: \"%.*s\". Or give it a line of its own.",
                       STR_ARG(text));
            fault_mend(r->list, f, text, str_printf(r->scratch, "\"%.*s\"", STR_ARG(text)));
        } else
            fault_help(r->list, f, "Give '%.*s' a line of its own, without the brackets.",
                       STR_ARG(text));
        return false;
    }
    r->piece_said = false;
    *out = has_brace(text) ? str_trim(filled_in(r, n, language)) : kept_of(r, n, text);
    if (r->to_be_headed && !r->piece_said) *out = with_head(r, *out, language);
    return true;
}

static bool alnum(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

/* The shape of BCP 47 tags: parts of 1 to 8 letters or digits, the first of 2 or 3 letters. */
bool is_language(str tag)
{
    size_t part = 0, parts = 0;
    for (size_t i = 0; i <= tag.n; i++) {
        if (i < tag.n && alnum(tag.p[i])) {
            if (parts == 0 && tag.p[i] <= '9') return false;
            part++;
            continue;
        }
        if ((i < tag.n && tag.p[i] != '-') || part == 0 || part > (parts == 0 ? 3 : 8) ||
            (parts == 0 && part < 2))
            return false;
        parts++;
        part = 0;
    }
    return true;
}

static bool check_language(reader *r, const node_entry *e)
{
    if (is_language(e->key)) return true;
    fault *f =
        fault_add(r->list, FAULT_BAD_LANGUAGE, e->key_at,
                  "'%.*s' is no language tag; a text is one sentence, or one for each language.",
                  STR_ARG(e->key));
    fault_help(r->list, f,
               "Write one sentence, or tags such as 'en', 'de' or 'pt-BR'; what is no text stands "
               "beside it, not in it.");
    return false;
}

static int language_rank(str tag, str first)
{
    return str_eq(tag, first) ? 0 : 1;
}

static bool read_languages(reader *r, const node *n, const char *what, text_place where, texts *out)
{
    assert(n->kind == NODE_MAP);
    const node_entry **sorted = entries_by_key(r, n);
    text_item *items = ARENA_ARRAY(r->keep, text_item, n->count);
    bool good = true;
    uint32_t count = 0;
    for (int rank = 0; rank <= 1; rank++)
        for (uint32_t i = 0; i < n->count; i++) {
            const node_entry *e = sorted[i];
            if (language_rank(e->key, r->book->language) != rank) continue;
            str text;
            good &= check_language(r, e) && read_one(r, e->value, what, where, e->key, &text);
            if (good) items[count++] = (text_item){str_copy(r->keep, e->key), text};
        }
    if (n->count == 0) {
        fault_add(r->list, FAULT_EMPTY, n->at,
                  "This text is empty; somebody will have to read it.");
        return false;
    }
    *out = (texts){.items = items, .count = count, .at = n->at};
    return good;
}

bool read_texts(reader *r, const node *n, const char *what, text_place where, texts *out)
{
    assert(r->book->language.n > 0); /* the manifest is read first */
    *out = (texts){.at = n->at};
    if (n->kind == NODE_MAP) return read_languages(r, n, what, where, out);
    str text;
    if (!read_one(r, n, what, where, r->book->language, &text)) return false;
    text_item *item = ARENA_NEW(r->keep, text_item);
    *item = (text_item){r->book->language, text};
    *out = (texts){.items = item, .count = 1, .at = n->at};
    return true;
}

/* ---- lists ---- */

void read_texts_list(reader *r, const node *n, const char *what, text_place where, texts_list *out)
{
    const shared_read *before = shared_before(r, n, SHARED_TEXTS);
    if (before != NULL) {
        *out = (texts_list){before->items, before->count};
        return;
    }
    bool list = n->kind == NODE_LIST;
    uint32_t count = list ? n->count : 1, used = 0;
    texts *items = ARENA_ARRAY(r->keep, texts, count);
    if (count == 0)
        fault_add(r->list, FAULT_EMPTY, n->at, "This list is empty. Leave the key out instead.");
    for (uint32_t i = 0; i < count; i++) {
        const node *item = list ? n->items[i] : n;
        if (list && item->kind == NODE_TEXT && item_twice(r, n, i)) continue;
        if (list) check_cut(r, n, i);
        if (read_texts(r, item, what, where, &items[used])) used++;
    }
    *out = (texts_list){items, used};
    share_read(r, n, SHARED_TEXTS, items, used);
}

void read_headed(reader *r, const node *n, const char *what, texts *out)
{
    const bool one = r->here.piece != NO_ID && r->here.second == NO_ID;
    r->to_be_headed = one && r->book->kinds[r->book->pieces[r->here.piece].kind].unnamed.count > 0;
    read_texts(r, n, what, TEXT_SENTENCE, out);
    r->to_be_headed = false;
}

void read_texts_at(reader *r, const node *map, const char *key, texts *out)
{
    const node *n = node_get(map, key);
    *out = (texts){.at = span_nowhere()};
    if (n != NULL) read_texts(r, n, key, TEXT_SENTENCE, out);
}

/* ---- units in braces ---- */

static bool unit_is_for(reader *r, const question *q, const unit_insert *i, const unit *u)
{
    if (q->kind != QUESTION_CHOICE && unit_fits(u, &q->in)) return true;
    fault *f = fault_add(r->list, FAULT_WRONG_UNIT, i->at, "'%.*s' can't be shown in '%.*s'.",
                         STR_ARG(q->id.name), STR_ARG(i->unit));
    str some = q->kind == QUESTION_CHOICE ? STR("") : unit_examples(r->scratch, q->in.dim, 3);
    if (some.n > 0)
        fault_help(r->list, f, "Write a unit such as %.*s, or leave it out.", STR_ARG(some));
    else
        fault_help(r->list, f, "Leave the comma and the unit out.");
    return false;
}

void check_insert_units(reader *r)
{
    for (const unit_insert *i = r->unit_inserts; i != NULL; i = i->next) {
        const question *q = &r->book->questions[i->question];
        unit u;
        if (r->tables[SECTION_QUESTIONS].items[i->question].broken) continue;
        if (read_unit(r, i->unit, i->at, &q->in.dim, &u)) unit_is_for(r, q, i, &u);
    }
}

void read_fixed_texts(reader *r, const node *n, const char *what, text_place where, texts *out)
{
    texts read;
    if (!read_texts(r, n, what, where, &read)) return;
    for (uint32_t i = 0; i < read.count; i++) {
        if (str_find_byte(read.items[i].text, '{') == SIZE_MAX &&
            str_find_byte(read.items[i].text, '}') == SIZE_MAX)
            continue;
        fault *f =
            fault_add(r->list, FAULT_UNKNOWN_INSERT, n->at,
                      "%s names a thing or a place, so nothing in braces can stand in it.", what);
        fault_help(r->list, f, "Write it without braces.");
    }
    *out = read;
}
