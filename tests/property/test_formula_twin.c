/* Random formulas, in any mix of units, against a plain reading of the same text: two stacks, no
 * types, long numbers, factors of its own. The twin carries a bound of the error beside each value,
 * worked out in another way than the engine's scale, and the two must agree on that as well. */
#include "testing.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "formula_kit.h"
#include "luck.h"

enum { FORMULAS = 12000, TEXT_ROOM = 1600, STACK = 256, DEPTH = 4 };

static uint64_t seed;

/* ---- what there is ---- */

typedef enum kind { PLAIN, PRESSURE, LENGTH, TIME, SPEED, VOLUME, STEP, SCALE, KINDS } kind;

/* Factors from the definitions: inch 0.0254 m, pound 0.45359237 kg, gravity 9.80665 m/s2, US gallon
 * 231 in3. */
typedef struct twin_unit {
    const char *text;
    kind kind;
    long double factor, offset;
} twin_unit;

/* A text that begins as another does stands before it. */
static const twin_unit units[] = {
    {"psi", PRESSURE, 0.45359237L * 9.80665L / (0.0254L * 0.0254L), 0},
    {"bar", PRESSURE, 100000, 0},
    {"kPa", PRESSURE, 1000, 0},
    {"ft/min", SPEED, 0.3048L / 60, 0},
    {"m/s", SPEED, 1, 0},
    {"fl oz", VOLUME, 231 * 0.0254L * 0.0254L * 0.0254L / 128, 0},
    {"ft", LENGTH, 0.3048L, 0},
    {"min", TIME, 60, 0},
    {"in", LENGTH, 0.0254L, 0},
    {"s", TIME, 1, 0},
    {"h", TIME, 3600, 0},
    {"gal", VOLUME, 231 * 0.0254L * 0.0254L * 0.0254L, 0},
    {"L", VOLUME, 0.001L, 0},
    {"%", PLAIN, 0.01L, 0},
    {"degF interval", STEP, 5 / 9.0L, 0},
    {"degC interval", STEP, 1, 0},
    {"degF", SCALE, 5 / 9.0L, 459.67L * 5 / 9.0L},
    {"degC", SCALE, 1, 273.15L},
    {"m", LENGTH, 1, 0},
};
enum { UNITS = sizeof units / sizeof *units };

/* Names: a letter for the kind, and one for which of them. */
typedef struct twin_name {
    char text[24];
    kind kind;
    uint32_t unit; /* UNITS: none */
    double number;
    bool known;
} twin_name;

enum { NAMES_EACH = 3, NAMES = KINDS * NAMES_EACH };

typedef struct world {
    formula_kit kit;
    twin_name names[NAMES];
} world;

static const double numbers[] = {0, 1, 2, 3, 4, 9, 0.5, 0.1, 0.3, 1.25, 30, 47, 100, 1000, 62.5};

static double random_number(void)
{
    double n = numbers[luck_below(&seed, sizeof numbers / sizeof *numbers)];
    return luck_below(&seed, 8) == 0 ? -n : n;
}

static uint32_t random_unit(kind k)
{
    for (;;) {
        uint32_t u = luck_below(&seed, UNITS);
        if (k == PLAIN && luck_below(&seed, 3) > 0) return UNITS;
        if (units[u].kind == k) return u;
    }
}

static world random_world(void)
{
    world w = {.kit = formula_kit_new()};
    static const char *const of[NAMES_EACH] = {"-x", " of left", " of right"};
    for (uint32_t i = 0; i < NAMES; i++) {
        twin_name *n = &w.names[i];
        n->kind = (kind)(i / NAMES_EACH);
        n->unit = random_unit(n->kind);
        n->number = random_number();
        n->known = luck_below(&seed, 12) > 0;
        snprintf(n->text, sizeof n->text, "q%c%s", 'a' + (char)n->kind, of[i % NAMES_EACH]);
    }
    return w;
}

static void tell_names(world *w)
{
    for (uint32_t i = 0; i < NAMES; i++) {
        const twin_name *n = &w->names[i];
        uint32_t s = formula_kit_name(&w->kit, n->text, n->number,
                                      n->unit == UNITS ? "" : units[n->unit].text);
        w->kit.known[s] = n->known;
    }
    for (uint32_t k = 0; k < KINDS; k++) {
        char *every = arena_take(w->kit.keep, 24);
        snprintf(every, 24, "q%c of every k", 'a' + (char)k);
        formula_kit_every(&w->kit, every, k * NAMES_EACH + 1, NAMES_EACH - 1, "");
    }
}

/* ---- texts ---- */

typedef struct writing {
    char text[TEXT_ROOM];
    size_t used;
} writing;

static void put(writing *t, const char *piece)
{
    size_t n = strlen(piece);
    assert_true(t->used + n < sizeof t->text);
    memcpy(t->text + t->used, piece, n + 1);
    t->used += n;
}

/* How tightly what is written holds together: what stands in something tighter gets brackets. */
typedef enum hold { LOOSE, FACTORS, TIGHT } hold;

static void write_kind(writing *t, kind k, hold h, uint32_t depth);

static void put_amount(writing *t, kind k)
{
    static const char *const plain[] = {"1/2", "1 1/2", "1:50", "1 in 50", "\xC2\xBE", "1:9"};
    char number[64];
    uint32_t u = random_unit(k);
    snprintf(number, sizeof number, "%.12g", random_number());
    if (k == PLAIN && luck_below(&seed, 4) == 0) {
        put(t, plain[luck_below(&seed, 6)]);
        return;
    }
    put(t, number);
    if (u == UNITS) return;
    if (luck_below(&seed, 4) > 0) put(t, " ");
    put(t, units[u].text);
}

static void put_leaf(writing *t, kind k)
{
    char name[24];
    static const char *const of[NAMES_EACH] = {"-x", " of left", " of right"};
    snprintf(name, sizeof name, "q%c%s", 'a' + (char)k, of[luck_below(&seed, NAMES_EACH)]);
    if (luck_below(&seed, 2) == 0)
        put_amount(t, k);
    else
        put(t, name);
}

static void put_two(writing *t, kind a, hold ha, const char *sign, kind b, hold hb, uint32_t depth)
{
    write_kind(t, a, ha, depth);
    put(t, sign);
    write_kind(t, b, hb, depth);
}

static void put_sum(writing *t, kind k, uint32_t depth)
{
    bool minus = luck_below(&seed, 2) == 0;
    const char *sign = minus ? " - " : " + ";
    if (k == STEP && minus && luck_below(&seed, 2) == 0)
        put_two(t, SCALE, LOOSE, sign, SCALE, FACTORS, depth);
    else
        put_two(t, k, LOOSE, sign, k == SCALE ? STEP : k, FACTORS, depth);
}

static void put_product(writing *t, kind k, uint32_t depth)
{
    kind any = (kind)luck_below(&seed, SCALE);
    uint32_t way = luck_below(&seed, 4);
    if (way == 0 && k == PLAIN)
        put_two(t, any, FACTORS, " / ", any, TIGHT, depth);
    else if (way == 0 && k == SPEED)
        put_two(t, LENGTH, FACTORS, " / ", TIME, TIGHT, depth);
    else if (way == 0 && k == LENGTH)
        put_two(t, SPEED, FACTORS, "*", TIME, TIGHT, depth);
    else if (way == 0 && k == TIME)
        put_two(t, LENGTH, FACTORS, " / ", SPEED, TIGHT, depth);
    else if (way == 1)
        put_two(t, PLAIN, FACTORS, " * ", k, TIGHT, depth);
    else
        put_two(t, k, FACTORS, way == 2 ? " / " : " * ", PLAIN, TIGHT, depth);
}

static void put_list(writing *t, kind k, uint32_t depth)
{
    static const char *const lists[] = {"min(", "max(", "mean(", "sum("};
    put(t, lists[luck_below(&seed, k == SCALE ? 3 : 4)]);
    for (uint32_t i = 0, count = 1 + luck_below(&seed, 3); i < count; i++) {
        char every[24];
        snprintf(every, sizeof every, "q%c of every k", 'a' + (char)k);
        if (i > 0) put(t, ", ");
        if (luck_below(&seed, 4) == 0)
            put(t, every);
        else
            write_kind(t, k, LOOSE, depth);
    }
    put(t, ")");
}

static void put_root(writing *t, kind k, uint32_t depth)
{
    put(t, "sqrt(");
    if (k == PLAIN && luck_below(&seed, 2) == 0)
        write_kind(t, PLAIN, LOOSE, depth);
    else
        put_two(t, k, FACTORS, " * ", k, TIGHT, depth);
    put(t, ")");
}

static void put_one(writing *t, kind k, uint32_t depth)
{
    uint32_t way = k == SCALE ? 0 : luck_below(&seed, 4);
    if (way == 0) {
        put_list(t, k, depth);
    } else if (way == 1) {
        put_root(t, k, depth);
    } else if (way == 2) {
        put(t, "abs(");
        write_kind(t, k, LOOSE, depth);
        put(t, ")");
    } else {
        put(t, "-(");
        write_kind(t, k, LOOSE, depth);
        put(t, ")");
    }
}

static void write_kind(writing *t, kind k, hold h, uint32_t depth)
{
    uint32_t way = depth == 0 ? 0 : luck_below(&seed, 5);
    hold own = way == 1 || way == 2 ? LOOSE : way == 3 && k != SCALE ? FACTORS : TIGHT;
    bool brackets = own < h || luck_below(&seed, 12) == 0;
    if (brackets) put(t, "(");
    if (own == LOOSE)
        put_sum(t, k, depth - 1);
    else if (own == FACTORS)
        put_product(t, k, depth - 1);
    else if (way == 0)
        put_leaf(t, k);
    else
        put_one(t, k, depth - 1);
    if (brackets) put(t, ")");
}

/* ---- the twin ---- */

typedef struct twin_value {
    formula_state state;
    long double value, error; /* error: of a share FORMULA_ROUNDING in every number */
    bool doubtful; /* so near to zero, or two so near to each other, that rounding decides */
    bool loose;    /* a root near zero makes much of what doubles round */
} twin_value;

typedef struct twin {
    const world *w;
    const char *at;
    twin_value values[STACK];
    uint32_t value_count;
    char signs[STACK]; /* + - * / ( , and ~ for a minus before a value, f for a function */
    uint32_t functions[STACK], bases[STACK];
    uint32_t sign_count;
    uint32_t leaves;
} twin;

static const char *const function_names[] = {"min(", "max(", "abs(", "sqrt(", "sum(", "mean("};

static void push(twin *t, twin_value v)
{
    assert_true(t->value_count < STACK);
    t->values[t->value_count++] = v;
}

static twin_value exact(long double number, const twin_unit *u)
{
    long double plain = number * (u == NULL ? 1 : u->factor), offset = u == NULL ? 0 : u->offset;
    twin_value v = {.value = plain + offset};
    v.error = (fabsl(plain) + fabsl(offset) + fabsl(v.value)) * FORMULA_ROUNDING / 2;
    if (offset == 0) v.error = fabsl(plain) * FORMULA_ROUNDING;
    return v;
}

static twin_value worse(twin_value a, twin_value b)
{
    twin_value v = a.state >= b.state ? a : b;
    v.doubtful = a.doubtful || b.doubtful;
    v.loose = a.loose || b.loose;
    return v;
}

/* Zero, or not? Between is doubt. */
static bool is_zero(twin_value *v, long double from)
{
    if (fabsl(from) < 200 * v->error && fabsl(from) > v->error / 200) v->doubtful = true;
    return fabsl(from) <= v->error;
}

static twin_value divided(twin_value a, twin_value b)
{
    twin_value v = {.doubtful = a.doubtful || b.doubtful, .loose = a.loose || b.loose};
    v.state = is_zero(&b, b.value) ? FORMULA_UNDEFINED : FORMULA_VALUE;
    v.doubtful = v.doubtful || b.doubtful;
    if (v.state == FORMULA_UNDEFINED) return v;
    v.value = a.value / b.value;
    v.error = a.error / fabsl(b.value) + fabsl(v.value) * b.error / fabsl(b.value);
    return v;
}

/* What is undefined goes before what waits; so does a divisor of zero. */
static twin_value combined(char sign, twin_value a, twin_value b)
{
    if (sign == '/' && b.state == FORMULA_VALUE) {
        twin_value v = divided(a, b);
        return a.state == FORMULA_VALUE ? v : worse(a, v);
    }
    if (a.state != FORMULA_VALUE || b.state != FORMULA_VALUE) return worse(a, b);
    twin_value v = {.doubtful = a.doubtful || b.doubtful, .loose = a.loose || b.loose};
    v.value = sign == '+' ? a.value + b.value : sign == '-' ? a.value - b.value : a.value * b.value;
    v.error = a.error + b.error;
    if (sign == '*') v.error = a.error * fabsl(b.value) + b.error * fabsl(a.value);
    return v;
}

static twin_value root(twin_value a)
{
    if (a.state != FORMULA_VALUE) return a;
    bool zero = is_zero(&a, a.value);
    twin_value v = {.doubtful = a.doubtful, .loose = a.loose || (zero && a.error > 0)};
    if (a.value < 0 && !zero) v.state = FORMULA_UNDEFINED;
    if (a.value < 0) a.value = 0;
    v.value = sqrtl(a.value);
    v.error = zero ? sqrtl(a.error) : a.error / v.value;
    return v;
}

/* Which of two, unless they are so near that rounding decides. */
static twin_value chosen(bool smaller, twin_value a, twin_value b)
{
    if (a.state != FORMULA_VALUE || b.state != FORMULA_VALUE) return worse(a, b);
    twin_value v = (b.value < a.value) == smaller ? b : a;
    bool near = fabsl(a.value - b.value) <= 1e-6L * (a.error + b.error);
    v.doubtful = a.doubtful || b.doubtful || (near && a.error != b.error);
    v.loose = a.loose || b.loose;
    return v;
}

static twin_value of_list(uint32_t function, const twin_value *list, uint32_t count)
{
    twin_value v = list[0];
    for (uint32_t i = 1; i < count; i++)
        v = function < 2 ? chosen(function == 0, v, list[i]) : combined('+', v, list[i]);
    if (function == 2) v.value = fabsl(v.value);
    if (function == 3) v = root(v);
    if (function == 5) v.value /= count; /* the error is not: the engine keeps the largest */
    return v;
}

/* ---- two stacks ---- */

static int binding(char sign)
{
    return sign == '~' ? 3 : sign == '*' || sign == '/' ? 2 : sign == '+' || sign == '-' ? 1 : 0;
}

static void apply(twin *t)
{
    char sign = t->signs[--t->sign_count];
    assert_true(t->value_count > 0);
    twin_value *last = &t->values[t->value_count - 1];
    if (sign == '~') {
        last->value = -last->value;
        return;
    }
    assert_true(t->value_count > 1);
    t->value_count--;
    last[-1] = combined(sign, last[-1], last[0]);
}

static void apply_down_to(twin *t, int least)
{
    while (t->sign_count > 0 && binding(t->signs[t->sign_count - 1]) >= least) apply(t);
}

static void push_sign(twin *t, char sign, uint32_t function)
{
    assert_true(t->sign_count < STACK);
    t->functions[t->sign_count] = function;
    t->bases[t->sign_count] = t->value_count;
    t->signs[t->sign_count++] = sign;
}

static void close_bracket(twin *t)
{
    apply_down_to(t, 1);
    assert_true(t->sign_count > 0);
    uint32_t open = --t->sign_count;
    if (t->signs[open] == '(') return;
    uint32_t base = t->bases[open];
    assert_true(t->value_count > base);
    t->values[base] = of_list(t->functions[open], &t->values[base], t->value_count - base);
    t->value_count = base + 1;
}

static bool starts(const twin *t, const char *text)
{
    return strncmp(t->at, text, strlen(text)) == 0;
}

static void push_name(twin *t, const twin_name *n)
{
    twin_value v = exact((long double)n->number, n->unit == UNITS ? NULL : &units[n->unit]);
    if (!n->known) v = (twin_value){.state = FORMULA_WAITS};
    push(t, v);
    t->leaves++;
}

/* A name, or all that "of every k" stands for. */
static void read_name(twin *t)
{
    uint32_t first = (uint32_t)(t->at[1] - 'a') * NAMES_EACH;
    t->at += 2;
    if (starts(t, " of every k")) {
        t->at += strlen(" of every k");
        for (uint32_t i = 1; i < NAMES_EACH; i++) push_name(t, &t->w->names[first + i]);
        return;
    }
    for (uint32_t i = 0; i < NAMES_EACH; i++) {
        const char *rest = t->w->names[first + i].text + 2;
        if (!starts(t, rest)) continue;
        t->at += strlen(rest);
        push_name(t, &t->w->names[first + i]);
        return;
    }
    fail_msg("the twin can't read '%s'", t->at);
}

static const struct {
    const char *text;
    long double value;
} written[] = {{"1/2", 0.5L},      {"1 1/2", 1.5L},     {"1:50", 1 / 51.0L},
               {"1 in 50", 0.02L}, {"\xC2\xBE", 0.75L}, {"1:9", 0.1L}};

static void read_amount(twin *t, bool negative)
{
    long double number = 0;
    char *end = NULL;
    t->leaves++;
    for (size_t i = 0; i < sizeof written / sizeof *written; i++) {
        if (!starts(t, written[i].text)) continue;
        t->at += strlen(written[i].text);
        push(t, exact(negative ? -written[i].value : written[i].value, NULL));
        return;
    }
    number = strtold(t->at, &end);
    assert_true(end != t->at);
    t->at = end;
    if (negative) number = -number;
    const char *unit_at = t->at + (*t->at == ' ');
    for (size_t i = 0; i < UNITS; i++) {
        if (strncmp(unit_at, units[i].text, strlen(units[i].text)) != 0) continue;
        t->at = unit_at + strlen(units[i].text);
        push(t, exact(number, &units[i]));
        return;
    }
    push(t, exact(number, NULL));
}

static bool digit_at(const char *p)
{
    return (*p >= '0' && *p <= '9') || *p == '\xC2';
}

/* Where a value must stand; false where one is complete. */
static bool read_before_value(twin *t)
{
    for (uint32_t i = 0; i < sizeof function_names / sizeof *function_names; i++) {
        if (!starts(t, function_names[i])) continue;
        push_sign(t, 'f', i);
        t->at += strlen(function_names[i]);
        return true;
    }
    if (*t->at == '(') {
        push_sign(t, '(', 0);
    } else if (*t->at == '-' && !digit_at(t->at + 1)) {
        push_sign(t, '~', 0);
    } else {
        bool negative = *t->at == '-';
        t->at += negative;
        if (digit_at(t->at))
            read_amount(t, negative);
        else
            read_name(t);
        return false;
    }
    t->at++;
    return true;
}

/* Behind a value; true if a value must follow. */
static bool read_behind_value(twin *t)
{
    while (*t->at == ' ') t->at++;
    char sign = *t->at++;
    if (sign == ')') {
        close_bracket(t);
        return false;
    }
    apply_down_to(t, sign == ',' ? 1 : binding(sign));
    if (sign != ',') push_sign(t, sign, 0);
    while (*t->at == ' ') t->at++;
    return true;
}

static twin_value twin_read(const world *w, const char *text, uint32_t *leaves)
{
    twin t = {.w = w, .at = text};
    bool before = true;
    while (*t.at != 0) before = before ? read_before_value(&t) : read_behind_value(&t);
    apply_down_to(&t, 1);
    assert_int_equal(t.value_count, 1);
    assert_int_equal(t.sign_count, 0);
    *leaves = t.leaves;
    return t.values[0];
}

/* ---- the two compared ---- */

typedef struct tally {
    uint32_t values, waits, undefined, doubtful, rounded;
} tally;

static void compare(world *w, const char *text, kind k, tally *seen)
{
    uint32_t leaves;
    const formula *f = formula_kit_good(&w->kit, text);
    twin_value wanted = twin_read(w, text, &leaves);
    formula_result got = formula_kit_value(&w->kit, f);
    assert_int_equal(formula_type(f).scale, k == SCALE);
    if (wanted.doubtful) {
        seen->doubtful++;
        return;
    }
    if (got.state != wanted.state)
        fail_msg("'%s': state %d (%d), wanted %d", text, (int)got.state, (int)got.why,
                 (int)wanted.state);
    seen->values += got.state == FORMULA_VALUE;
    seen->waits += got.state == FORMULA_WAITS;
    seen->undefined += got.state == FORMULA_UNDEFINED;
    if (got.state != FORMULA_VALUE) return;
    long double error = FORMULA_ROUNDING * (long double)got.scale;
    long double apart = fabsl((long double)got.base - wanted.value);
    seen->rounded += apart > 0;
    if (apart > (wanted.loose ? 1 : 1e-5L) * error)
        fail_msg("'%s': %.17g, wanted %.17Lg, scale %g", text, got.base, wanted.value, got.scale);
    if (error > wanted.error * 1.0001L || error * leaves * 4 < wanted.error)
        fail_msg("'%s': scale %g, but the error is %Lg of %Lg (%u)", text, got.scale, wanted.error,
                 wanted.value, leaves);
}

/* What is written again is the same formula. */
static void compare_words(world *w, const char *text)
{
    const formula *f = formula_kit_good(&w->kit, text);
    str once = formula_kit_words(&w->kit, f);
    if (once.n > FORMULA_LONGEST) return;
    const formula *again = formula_kit_good(&w->kit, once.p);
    assert_true(str_eq(formula_kit_words(&w->kit, again), once));
    formula_result a = formula_kit_value(&w->kit, f), b = formula_kit_value(&w->kit, again);
    assert_int_equal(a.state, b.state);
    if (a.base != b.base || a.scale != b.scale)
        fail_msg("'%s' is %.17g, '%s' %.17g", text, a.base, once.p, b.base);
}

static void formulas_agree(void **state)
{
    (void)state;
    tally seen = {0};
    seed = UINT64_C(0x9E3779B97F4A7C15);
    for (uint32_t i = 0; i < FORMULAS; i++) {
        world w = random_world();
        writing t = {.used = 0};
        kind k = (kind)luck_below(&seed, KINDS);
        tell_names(&w);
        write_kind(&t, k, LOOSE, 1 + luck_below(&seed, DEPTH));
        compare(&w, t.text, k, &seen);
        compare_words(&w, t.text);
        formula_kit_free(&w.kit);
    }
    print_message("%u values (%u rounded), %u wait, %u undefined, %u doubtful\n", seen.values,
                  seen.rounded, seen.waits, seen.undefined, seen.doubtful);
    assert_true(seen.values > FORMULAS / 3);
    assert_true(seen.rounded > FORMULAS / 20);
    assert_true(seen.waits > FORMULAS / 20);
    assert_true(seen.undefined > FORMULAS / 50);
    assert_true(seen.doubtful < FORMULAS / 20);
}

/* Any bytes: read or refused, with a place inside the text. */
static void any_text_is_taken_well(void **state)
{
    (void)state;
    static const char *const pieces[] = {
        "qa-x", "qb of left", "qb of every k", "3",  "1/2",   "psi",      "degF", " ", "  ",
        " - ",  "-",          " / ",           "/",  "*",     "+",        "(",    ")", ",",
        "max(", "sqrt(",      "min",           "of", "every", "\xC3\x97", "\xFF", ".", "1:",
        "in",   "1,5",        "9e9",           "%",  "^2",    "\n",       "per",  "'", "0",
        "any",
    };
    uint32_t taken = 0, refused = 0;
    seed = UINT64_C(0xD1B54A32D192ED03);
    world w = random_world();
    tell_names(&w);
    for (uint32_t i = 0; i < FORMULAS; i++) {
        writing t = {.used = 0};
        arena_mark mark = arena_here(w.kit.keep);
        for (uint32_t n = 1 + luck_below(&seed, 9); n > 0; n--)
            put(&t, pieces[luck_below(&seed, sizeof pieces / sizeof *pieces)]);
        const formula *f = formula_kit_parse(&w.kit, t.text);
        const formula_error *e = &w.kit.error;
        if (f != NULL) formula_kit_value(&w.kit, f);
        if (f == NULL && e->what == NULL) assert_true(w.kit.refused.n > 0);
        if (e->what != NULL) {
            assert_true(e->from <= e->to && e->to <= t.used);
            assert_true(strlen(e->what) > 10 && e->help != NULL && strlen(e->help) > 5);
        }
        taken += f != NULL;
        refused += f == NULL;
        arena_back_to(w.kit.keep, mark);
    }
    assert_true(taken > FORMULAS / 200);
    assert_true(refused > FORMULAS / 2);
    formula_kit_free(&w.kit);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(formulas_agree),
        cmocka_unit_test(any_text_is_taken_well),
    };
    return cmocka_run_group_tests_name("formulas and their twin", tests, NULL, NULL);
}
