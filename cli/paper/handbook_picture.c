/* How signs point to causes: complaints on the left, what shows them on the right, and a line
 * between, the thicker the more often. A few signs to a picture, so that it can be read on paper
 * and on a small screen. */
#include "base/sorted.h"
#include "paper/drawing.h"
#include "paper/handbook.h"
#include "show/figures.h"

static const double worth_a_line = 0.3;
enum { SIGNS_SHOWN = 4, CAUSES_OF_SIGN = 5, CAUSES_SHOWN = SIGNS_SHOWN * CAUSES_OF_SIGN };
enum { CELLS = 18, LINES = 4, GAP = 9, LEFT_END = 128, RIGHT_BEGIN = 192 };

typedef struct placed {
    uint32_t which;   /* in its list */
    double top, pull; /* pull: the mean height of what it hangs on */
    uint32_t lines, pulled;
} placed;

typedef struct plan {
    const handbook *h;
    placed signs[SIGNS_SHOWN], causes[CAUSES_SHOWN];
    uint32_t sign_count, cause_count;
} plan;

static const tt_listed *sign_at(const plan *x, uint32_t i)
{
    return &x->h->all.symptoms.items[x->signs[i].which];
}

static bool is_drawn(const tt_listed *sign, uint32_t point)
{
    return point < CAUSES_OF_SIGN && point < sign->point_count &&
           (point == 0 || sign->points[point].chance >= worth_a_line);
}

static placed *cause_of(plan *x, uint32_t which)
{
    for (uint32_t i = 0; i < x->cause_count; i++)
        if (x->causes[i].which == which) return &x->causes[i];
    x->causes[x->cause_count] = (placed){.which = which};
    return &x->causes[x->cause_count++];
}

static double middle(const placed *p)
{
    return p->top + p->lines * DRAWING_LINE / 2.0;
}

/* One below the other; where the last one ends. */
static double stack(placed *all, uint32_t count, const tt_list *texts)
{
    double top = 0;
    for (uint32_t i = 0; i < count; i++) {
        all[i].lines = wrapped_lines(texts->items[all[i].which].text, CELLS, LINES);
        all[i].top = top;
        top += all[i].lines * DRAWING_LINE + GAP;
    }
    return top - GAP;
}

/* The shorter column gets more room between its entries. */
static void spread(placed *all, uint32_t count, double room)
{
    for (uint32_t i = 0; i < count; i++)
        all[i].top += count == 1 ? room / 2 : room * i / (count - 1);
}

static int by_pull(const void *a, const void *b)
{
    const placed *x = a, *y = b;
    return x->pull != y->pull ? THREE_WAY(x->pull, y->pull) : THREE_WAY(x->which, y->which);
}

/* Each cause at about the height of the signs that point to it, so that few lines cross. */
static void order_causes(plan *x)
{
    for (uint32_t i = 0; i < x->sign_count; i++)
        for (uint32_t k = 0; is_drawn(sign_at(x, i), k); k++) {
            placed *cause = cause_of(x, sign_at(x, i)->points[k].to);
            cause->pull =
                (cause->pull * cause->pulled + middle(&x->signs[i])) / (cause->pulled + 1);
            cause->pulled++;
        }
    SORT(x->causes, x->cause_count, by_pull);
}

static void draw_column(drawing *d, const placed *all, uint32_t count, const tt_list *texts,
                        bool left)
{
    for (uint32_t i = 0; i < count; i++)
        draw_wrapped(d, left ? LEFT_END : RIGHT_BEGIN, all[i].top + DRAWING_LINE - 4,
                     left ? UP_TO_END : FROM_START,
                     (piece_of_text){.kind = RULE_TEXT, .text = texts->items[all[i].which].text},
                     CELLS, LINES);
}

static void draw_lines(drawing *d, plan *x)
{
    for (uint32_t i = 0; i < x->sign_count; i++)
        for (uint32_t k = 0; is_drawn(sign_at(x, i), k); k++) {
            const tt_pointer *to = &sign_at(x, i)->points[k];
            draw_line(d, "way", LEFT_END + 4, middle(&x->signs[i]), RIGHT_BEGIN - 4,
                      middle(cause_of(x, to->to)), 0.5 + 4 * to->chance);
        }
}

static drawing draw_plan(plan *x)
{
    const tt_list *signs = &x->h->all.symptoms, *causes = &x->h->all.causes;
    drawing d = {.keep = x->h->keep};
    const double left = stack(x->signs, x->sign_count, signs);
    order_causes(x);
    const double right = stack(x->causes, x->cause_count, causes);
    d.height = left > right ? left : right;
    spread(x->signs, x->sign_count, d.height - left);
    spread(x->causes, x->cause_count, d.height - right);
    draw_lines(&d, x);
    draw_column(&d, x->signs, x->sign_count, signs, true);
    draw_column(&d, x->causes, x->cause_count, causes, false);
    d.height += 4; /* below the feet of the letters */
    return d;
}

/* Complaints; of a book that has none, all its signs. */
static uint32_t signs_to_draw(const handbook *h, uint32_t *out)
{
    uint32_t count = 0;
    for (unsigned any = 0; any < 2 && count == 0; any++)
        for (uint32_t i = 0; i < h->all.symptoms.count; i++)
            if ((any == 1 || h->all.symptoms.items[i].complaint) &&
                h->all.symptoms.items[i].point_count > 0)
                out[count++] = i;
    return count;
}

void put_pictures(const handbook *h)
{
    uint32_t *signs = ARENA_ARRAY(h->keep, uint32_t, h->all.symptoms.count + 1);
    const uint32_t count = signs_to_draw(h, signs),
                   pictures = (count + SIGNS_SHOWN - 1) / SIGNS_SHOWN;
    h->p->kind->paragraph(h->p, our_text(FILL(h->keep, h->p->in, HANDBOOK_PICTURE_SAYS,
                                              percent_words(h->keep, h->p->in, worth_a_line))));
    for (uint32_t n = 0; n < pictures; n++) {
        plan x = {.h = h};
        for (uint32_t i = n * count / pictures; i < (n + 1) * count / pictures; i++)
            x.signs[x.sign_count++].which = signs[i];
        const drawing d = draw_plan(&x);
        h->p->kind->picture(h->p,
                            FILL(h->keep, h->p->in, HANDBOOK_PICTURE_TITLE,
                                 count_words(h->keep, n + 1), count_words(h->keep, pictures)),
                            &d);
    }
}
