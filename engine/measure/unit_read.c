/* Units read from text: composed of the spellings of the table. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "measure/number.h"
#include "measure/unit_find.h"

enum {
    MOST_POWER = 60, /* far beyond any unit; one more piece (at most 9 × 3) stays within int8_t */
    LONGEST_UNIT = 200, /* bytes; what is longer is no unit, and is not tried piece by piece */
};

typedef struct unit_reader {
    str text; /* cleaned */
    size_t at;
    uint32_t meaning; /* which meaning of spellings that have several */
    bool lone;        /* nothing but one piece, so that a temperature is on its scale */
    bool divided;     /* a "/" or "per" came before */
    str *bad;
} unit_reader;

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* Bytes of the mark at the start of `rest`, 0 if it is another. */
static size_t mark(str rest, const char *wanted)
{
    return str_starts(rest, wanted) ? str_of(wanted).n : 0;
}

/* One space for every run of blanks, none at the ends; without the full stops of "gal." and "sq.
 * in.". */
static str cleaned(arena *keep, str text)
{
    char *out = arena_take(keep, text.n + 1);
    size_t n = 0;
    for (size_t i = 0; i < text.n;) {
        size_t skip = blank_length(str_slice(text, i, text.n));
        if (skip == 0 && text.p[i] == '.' && n > 0 && is_letter(out[n - 1]))
            skip = 1;
        else if (skip > 0 && n > 0 && out[n - 1] != ' ')
            out[n++] = ' ';
        if (skip == 0) out[n++] = text.p[i++];
        i += skip;
    }
    assert(n <= text.n);
    return str_trim((str){out, n});
}

/* In any case; bytes of the word at the start, 0 if it is another. The word ends there. */
static size_t word(str rest, const char *wanted)
{
    str w = str_of(wanted);
    if (rest.n < w.n) return 0;
    for (size_t i = 0; i < w.n; i++)
        if ((rest.p[i] | 0x20) != w.p[i]) return 0;
    return rest.n == w.n || !is_letter(rest.p[w.n]) ? w.n : 0;
}

static size_t divides(str text, size_t at)
{
    assert(at <= text.n);
    str rest = str_slice(text, at, text.n);
    if (rest.n > 0 && rest.p[0] == '/') return 1;
    return at == 0 || text.p[at - 1] == ' ' ? word(rest, "per") : 0;
}

static size_t multiplies(str text, size_t at)
{
    str rest = str_slice(text, at, text.n);
    if (rest.n > 0 && rest.p[0] == '*') return 1;
    size_t length = mark(rest, "\u00B7");
    return length > 0 ? length : mark(rest, "\u22C5");
}

static unit of_row(const unit_row *row)
{
    return (unit){.dim = row->dim, .factor = row->factor, .offset = row->offset, .form = row->form};
}

static bool known(const unit_reader *r, str spelling, unit *out)
{
    unit_row row;
    if (spelling.n == 0) return false;
    if (!unit_find(spelling, r->meaning, &row) && !unit_find(spelling, 0, &row)) return false;
    *out = of_row(&row);
    return true;
}

static void to_interval(unit *u)
{
    if (u->form != UNIT_SCALE) return;
    u->form = UNIT_PLAIN;
    u->offset = 0;
}

static void raise(unit *u, int power)
{
    assert(abs(power) <= 9);
    double factor = 1;
    for (int i = 0; i < abs(power); i++) factor *= u->factor;
    u->factor = power < 0 ? 1 / factor : factor;
    for (int i = 0; i < BASE_COUNT; i++) u->dim.power[i] = (int8_t)(u->dim.power[i] * power);
    to_interval(u);
}

static bool is_length(const unit *u)
{
    dimension length = {.power[BASE_LENGTH] = 1};
    return dimension_same(u->dim, length);
}

/* "sq in", "square feet", "cuft", "cubic metres". */
static bool read_square(const unit_reader *r, str piece, unit *out)
{
    static const struct {
        const char *word;
        int power;
    } words[] = {{"square", 2}, {"sq", 2}, {"cubic", 3}, {"cu", 3}};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        size_t length = str_of(words[i].word).n;
        if (piece.n <= length || word(str_slice(piece, 0, length), words[i].word) == 0) continue;
        if (!known(r, str_trim(str_slice(piece, length, piece.n)), out) || !is_length(out))
            continue;
        raise(out, words[i].power);
        return true;
    }
    return false;
}

/* The power at the end of a piece, 0 if there is none; *base is what it is the power of. "in2"
 * counts with lengths and times only. */
static int power_at_end(str piece, str *base, bool *bare)
{
    static const struct {
        const char *mark;
        int power;
    } raised[] = {{"⁻¹", -1}, {"⁻²", -2}, {"⁻³", -3}, {"¹", 1}, {"²", 2}, {"³", 3}};
    *bare = false;
    for (size_t i = 0; i < sizeof raised / sizeof *raised; i++) {
        if (!str_ends(piece, raised[i].mark)) continue;
        *base = str_slice(piece, 0, piece.n - str_of(raised[i].mark).n);
        return raised[i].power;
    }
    size_t end = piece.n - 1;
    if (piece.n < 2 || !is_digit(piece.p[end]) || piece.p[end] == '0') return 0;
    int power = piece.p[end] - '0';
    bool minus = piece.p[end - 1] == '-';
    size_t caret = minus && end > 1 ? end - 2 : end - 1;
    *bare = piece.p[caret] != '^';
    *base = *bare ? str_slice(piece, 0, end) : str_trim(str_slice(piece, 0, caret));
    if (*bare && !is_letter(piece.p[end - 1])) return 0;
    if (*bare) return power == 2 || power == 3 ? power : 0;
    return minus ? -power : power;
}

static bool read_power(const unit_reader *r, str piece, unit *out)
{
    str base;
    bool bare;
    int power = power_at_end(piece, &base, &bare);
    if (power == 0 || str_find_byte(base, ' ') != SIZE_MAX || !known(r, base, out)) return false;
    dimension time = {.power[BASE_TIME] = 1};
    if (bare && !is_length(out) && !dimension_same(out->dim, time)) return false;
    raise(out, power);
    return true;
}

/* "degF interval", "°C difference". */
static bool read_interval(const unit_reader *r, str piece, unit *out)
{
    static const char *const words[] = {"interval", "difference"};
    for (size_t i = 0; i < 2; i++) {
        size_t length = str_of(words[i]).n;
        if (piece.n <= length + 1 ||
            word(str_slice(piece, piece.n - length, piece.n), words[i]) == 0)
            continue;
        if (!known(r, str_trim(str_slice(piece, 0, piece.n - length)), out)) continue;
        if (out->form != UNIT_SCALE) continue;
        to_interval(out);
        return true;
    }
    return false;
}

/* The 100 of "gal per 100 ft2"; 1 if there is none. False if it can't be a number to divide by. */
static bool read_times(const unit_reader *r, str *piece, double *times)
{
    *times = 1;
    size_t n = 0;
    while (n < piece->n && (is_digit(piece->p[n]) || (n > 0 && piece->p[n] == '.'))) n++;
    if (n == 0) return true;
    if (!r->divided || !str_to_double(str_slice(*piece, 0, n), times) || *times <= 0) return false;
    assert(isfinite(*times));
    *piece = str_trim(str_slice(*piece, n, piece->n));
    return true;
}

static bool read_piece(const unit_reader *r, str piece, unit *out)
{
    double times;
    if (!read_times(r, &piece, &times)) return false;
    bool found = known(r, piece, out) || read_square(r, piece, out) || read_power(r, piece, out) ||
                 read_interval(r, piece, out);
    if (!found) return false;
    if (!r->lone) to_interval(out);
    out->factor *= times;
    return true;
}

static bool join(unit *whole, const unit *piece, bool divide)
{
    assert(piece->factor > 0 && whole->factor > 0);
    whole->dim = (divide ? dimension_over : dimension_times)(whole->dim, piece->dim);
    whole->factor = divide ? whole->factor / piece->factor : whole->factor * piece->factor;
    whole->form = piece->form; /* of the only piece, or else plain */
    whole->offset = piece->offset;
    for (int i = 0; i < BASE_COUNT; i++)
        if (abs(whole->dim.power[i]) > MOST_POWER) return false;
    /* Far beyond any unit that is used, and far enough inside a double's range that no number typed
     * can overflow. */
    return whole->factor > 1e-100 && whole->factor < 1e100;
}

static unit_found stop(unit_reader *r, unit_found found, str bad)
{
    assert(found != UNIT_FOUND);
    *r->bad = bad;
    return found;
}

static str next_piece(unit_reader *r)
{
    assert(r->at <= r->text.n);
    size_t from = r->at;
    while (r->at < r->text.n && divides(r->text, r->at) == 0 && multiplies(r->text, r->at) == 0)
        r->at++;
    return str_trim(str_slice(r->text, from, r->at));
}

static unit_found read_pieces(unit_reader *r, unit *out)
{
    assert(r->text.n > 0);
    *out = unit_none;
    bool divide = false;
    size_t sign = 0, from = 0;
    if ((sign = divides(r->text, 0)) > 0) divide = r->divided = true;
    r->at = sign;
    for (;;) {
        unit one;
        str piece = next_piece(r);
        if (piece.n == 0) return stop(r, UNIT_MALFORMED, str_slice(r->text, from, r->text.n));
        r->lone = sign == 0 && r->at == r->text.n;
        if (!read_piece(r, piece, &one)) return stop(r, UNIT_NOT_FOUND, piece);
        if (!join(out, &one, divide)) return stop(r, UNIT_MALFORMED, r->text);
        if (r->at == r->text.n) return UNIT_FOUND;
        from = r->at;
        sign = divides(r->text, r->at);
        divide = sign > 0;
        if (!divide) sign = multiplies(r->text, r->at);
        /* Is a/b*c (a/b)*c or a/(b*c)? Nobody can tell. */
        if (!divide && r->divided)
            return stop(r, UNIT_MALFORMED, str_slice(r->text, from, r->text.n));
        r->divided = r->divided || divide;
        r->at += sign;
    }
}

static unit_found read_meaning(str text, uint32_t meaning, unit *out, str *bad)
{
    unit_reader r = {.text = text, .meaning = meaning, .bad = bad};
    if (known(&r, text, out)) return UNIT_FOUND; /* "per cent", "kW h" */
    return read_pieces(&r, out);
}

/* "1:N", "1 : n", "1 in N". */
static bool read_ratio_form(str text, unit *out)
{
    if (text.n < 3 || text.p[0] != '1' || (text.p[text.n - 1] | 0x20) != 'n') return false;
    str between = str_trim(str_slice(text, 1, text.n - 1));
    if (!str_is(between, ":") && word(between, "in") != between.n) return false;
    *out = unit_none;
    out->form = str_is(between, ":") ? UNIT_PARTS : UNIT_ONE_IN;
    return true;
}

unit_found unit_read(arena *keep, str text, const dimension *wanted, unit *out, str *bad)
{
    assert(out != NULL);
    str ignored = STR("");
    if (bad == NULL) bad = &ignored;
    *out = unit_none;
    text = blanks_trimmed(text);
    if (text.n > LONGEST_UNIT) {
        *bad = beginning(text, LONGEST_UNIT);
        return UNIT_NOT_FOUND;
    }
    str clean = cleaned(keep, text);
    if (clean.n == 0) return UNIT_FOUND;
    unit_found found = UNIT_FOUND;
    if (!read_ratio_form(clean, out)) {
        found = read_meaning(clean, 0, out, bad);
        unit other;
        if (found == UNIT_FOUND && wanted != NULL && !dimension_same(out->dim, *wanted) &&
            read_meaning(clean, 1, &other, &ignored) == UNIT_FOUND &&
            dimension_same(other.dim, *wanted))
            *out = other;
    }
    assert(found != UNIT_FOUND || out->factor > 0);
    out->text = text;
    return found;
}
