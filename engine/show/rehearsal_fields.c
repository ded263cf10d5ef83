/* A rehearsal for programs: its tables of fields lie over what the engine counts. */
#include "show/rehearsal_fields.h"

#include <assert.h>

#include "show/book_fields.h"

enum { REHEARSE_VERSION = 2, BINS = 10 };

/* ---- shares and means ---- */

static const field share_fields[] = {
    FIELD(tt_share, count, FIELD_TALLY, ALWAYS, 1, ""),
    FIELD(tt_share, of, FIELD_TALLY, ALWAYS, 1, ""),
    FIELD_COUNTED(tt_share, share, ZERO_TO_ONE, of, 1, 1, ""),
    FIELD_COUNTED(tt_share, low, ZERO_TO_ONE, of, 1, 1, ""),
    FIELD_COUNTED(tt_share, high, ZERO_TO_ONE, of, 1, 1, ""),
};
static const shape share_shape = SHAPE("share", tt_share, share_fields,
                                       "`count` of `of`, with the 95 % confidence interval of "
                                       "Wilson (1927); nulls if there was no such call.");

static const field mean_fields[] = {
    FIELD(tt_mean, of, FIELD_TALLY, ALWAYS, 1, ""),
    FIELD_COUNTED(tt_mean, mean, ANY_NUMBER, of, 1, 1, ""),
    FIELD_COUNTED(tt_mean, plus_minus, FROM_ZERO, of, 2, 1, ""),
};
static const shape mean_shape =
    SHAPE("mean", tt_mean, mean_fields,
          "Mean over `of` calls, and 1.96 standard errors; nulls if there were too few.");

#define SHARE(thing, member, doc) FIELD_WITHIN(thing, member, #member, 1, &share_shape, doc)
#define MEAN(thing, member, doc)  FIELD_WITHIN(thing, member, #member, 1, &mean_shape, doc)

/* ---- calls, by what was wrong ---- */

static const field kind_fields[] = {
    SHARE(tt_rehearsed_kind, calls, "Of all calls."),
    SHARE(tt_rehearsed_kind, leads,
          "The right cause (one of two; something not listed, if that is the truth) leads when the "
          "first fix is begun, or when the call ends without one. Of "
          "the calls that did not stop for danger before."),
    SHARE(tt_rehearsed_kind, among_three, "It is among the first three then."),
    SHARE(tt_rehearsed_kind, cured, "Calls that end with all that was wrong cured."),
    MEAN(tt_rehearsed_kind, questions, "Questions asked in a call."),
    MEAN(tt_rehearsed_kind, minutes,
         "Minutes of a call: questions, fixes, and the call-out if somebody has to come."),
};
static const shape kind_shape = SHAPE("kind", tt_rehearsed_kind, kind_fields, "");

/* A member of an array, named. */
#define NTH(name_, item, index, shape_, doc_) \
    { \
        .name = name_, .type = FIELD_PART, .since = 1, .at = (index) * sizeof(item), .of = shape_, \
        .doc = doc_ \
    }
#define SHAPE_OF_ARRAY(name_, item, fields_) \
    { \
        name_, "", sizeof(item[sizeof(fields_) / sizeof((fields_)[0])]), fields_, \
            sizeof(fields_) / sizeof((fields_)[0]) \
    }

static const field kinds_fields[] = {
    NTH("one_cause", tt_rehearsed_kind, TT_ONE_CAUSE, &kind_shape, "One listed cause."),
    NTH("two_causes", tt_rehearsed_kind, TT_TWO_CAUSES, &kind_shape, "Two listed causes."),
    NTH("not_listed", tt_rehearsed_kind, TT_NOT_LISTED, &kind_shape,
        "Something that the book does not list."),
};
static const shape kinds_shape = SHAPE_OF_ARRAY("kinds", tt_rehearsed_kind, kinds_fields);

/* ---- ways to play ---- */

static const field level_fields[] = {
    NTH("low", tt_mean, 0, &mean_shape, "Low risk."),
    NTH("medium", tt_mean, 1, &mean_shape, "Medium risk."),
    NTH("serious", tt_mean, 2, &mean_shape, "Serious risk."),
};
static const shape levels_shape = SHAPE_OF_ARRAY("levels", tt_mean, level_fields);

static const field way_fields[] = {
    SHARE(tt_rehearsed_way, cured, "Calls that end cured."),
    SHARE(tt_rehearsed_way, called, "Calls that end with somebody to call."),
    SHARE(tt_rehearsed_way, stopped, "Calls that stop for danger."),
    SHARE(tt_rehearsed_way, leads, "As in `all`."),
    SHARE(tt_rehearsed_way, among_three, "As in `all`."),
    MEAN(tt_rehearsed_way, questions, "Questions asked in a call."),
    MEAN(tt_rehearsed_way, fixes, "Fixes tried in a call."),
    MEAN(tt_rehearsed_way, minutes, "Minutes of a call, as in `all`."),
    MEAN(tt_rehearsed_way, minutes_more, "Minutes more than safest first, call by call."),
    FIELD_WITHIN(
        tt_rehearsed_way, needless, "needless", 1, &levels_shape,
        "Fixes a call that could not have helped, by their risk with the named protection."),
    FIELD_WITHIN(tt_rehearsed_way, needless_more, "needless_more", 1, &levels_shape,
                 "The same: more than safest first, call by call."),
    MEAN(tt_rehearsed_way, place_changes,
         "How often in a call the next thing was at another place than the one before."),
};
static const shape way_shape = SHAPE("way", tt_rehearsed_way, way_fields, "");

static const field ways_fields[] = {
    NTH("safest_first", tt_rehearsed_way, TT_SAFEST_FIRST, &way_shape,
        "As telltale asks and orders fixes."),
    NTH("soonest", tt_rehearsed_way, TT_SOONEST, &way_shape,
        "As with --soonest: the quickest fixes first."),
    NTH("in_order", tt_rehearsed_way, TT_IN_ORDER, &way_shape,
        "Questions in the order of their names until telltale would fix or call."),
    NTH("everything", tt_rehearsed_way, TT_EVERYTHING, &way_shape,
        "Every question that applies, then fixes."),
    NTH("all_known", tt_rehearsed_way, TT_ALL_KNOWN, &way_shape,
        "The same, with every answer known before, at no minutes."),
    NTH("clairvoyant", tt_rehearsed_way, TT_CLAIRVOYANT, &way_shape,
        "What is wrong is known as well: the fixes that cost least for it, within the same role, "
        "gate and hazards, or calling at once; thresholds and prices aside."),
};
static const shape ways_shape = SHAPE_OF_ARRAY("ways", tt_rehearsed_way, ways_fields);

/* ---- how far chances can be believed, and what is taken for what ---- */

static const field floor_fields[] = {
    FIELD_IN(tt_floor, mean, FIELD_FIGURE, FROM_ZERO, 2, "Over 100 such programs."),
    FIELD_IN(tt_floor, high, FIELD_FIGURE, FROM_ZERO, 2, "95 of 100 stay within it."),
};
static const shape floor_shape =
    SHAPE("floor", tt_floor, floor_fields,
          "What a program whose every chance is exactly right would show by luck alone, in so many "
          "calls: drawn from the chances that were said.");

static const field set_fields[] = {
    SHARE(tt_rehearsed_set, held, "Calls in which some of what was wrong was in the set."),
    FIELD_COUNTED(tt_rehearsed_set, said, ZERO_TO_ONE, held.of, 1, 2,
                  "Mean chance that it is, as said."),
    FIELD_WITHIN(tt_rehearsed_set, floor, "floor", 2, &floor_shape,
                 "Of the distance between the share and `said`."),
    MEAN(tt_rehearsed_set, causes, "Causes in the set."),
};
static const shape set_shape =
    SHAPE("set", tt_rehearsed_set, set_fields,
          "The fewest causes from the top of the list that hold 90 %, at the first fix.");

/* ---- against what could be done at best; with whoever was called ---- */

static const field ratio_fields[] = {
    FIELD(tt_ratio, of, FIELD_TALLY, ALWAYS, 2, ""),
    FIELD_COUNTED(tt_ratio, ratio, FROM_ZERO, of, 1, 2, ""),
    FIELD_COUNTED(tt_ratio, plus_minus, FROM_ZERO, of, 2, 2, ""),
};
static const shape ratio_shape =
    SHAPE("ratio", tt_ratio, ratio_fields,
          "Minutes over minutes of the same `of` calls, and 1.96 standard errors. Calls that stop "
          "for danger before there is advice "
          "are left out: they are alike for everybody.");

static const field ceiling_fields[] = {
    SHARE(tt_ceiling, ours, "The right cause leads at the first fix, as telltale asks."),
    SHARE(tt_ceiling, known, "It leads there with every answer known before."),
    MEAN(tt_ceiling, missed, "The latter less the former, call by call."),
};
static const shape ceiling_shape =
    SHAPE("ceiling", tt_ceiling, ceiling_fields,
          "Nobody who knows no more than the answers does better on the mean than `known`.");

static const field over_fields[] = {
    SHARE(tt_handed_over, calls, "Of all calls."),
    SHARE(tt_handed_over, cured, "Of these: cured in the end."),
    SHARE(tt_handed_over, nobody, "Nobody is left to be called."),
    SHARE(tt_handed_over, stopped, "Stopped for danger by whoever was called."),
    MEAN(tt_handed_over, before, "Minutes worked by who asked, waiting aside."),
    MEAN(tt_handed_over, after, "Minutes worked by whoever was called."),
    MEAN(tt_handed_over, both, "Minutes worked by both."),
    MEAN(tt_handed_over, waited, "Minutes of waiting for whoever was called."),
};
static const shape over_shape =
    SHAPE("handed_over", tt_handed_over, over_fields,
          "Calls handed over, played on to the end: whoever is called goes on with all that was "
          "told.");

static const field worked_fields[] = {
    FIELD(tt_worked, role, FIELD_TEXT, ALWAYS, 2, ""),
    SHARE(tt_worked, calls, "Of all calls: those in which somebody of this role worked."),
    MEAN(tt_worked, minutes, "Minutes worked in these."),
};
static const shape worked_shape = SHAPE("worked", tt_worked, worked_fields, "");

typedef struct shown_calibration {
    double error;
    tt_floor floor;
    const tt_calibration *bins;
    uint32_t bins_count;
} shown_calibration;

static const field bin_fields[] = {
    FIELD_IN(tt_calibration, low, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
    FIELD_IN(tt_calibration, high, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
    FIELD_COUNTED(tt_calibration, said, ZERO_TO_ONE, right.of, 1, 1, "Mean chance."),
    SHARE(tt_calibration, right, "Calls in which the leading cause was there."),
};
static const shape bin_shape = SHAPE("bin", tt_calibration, bin_fields, "");

static const field calibration_fields[] = {
    FIELD_IN(shown_calibration, error, FIELD_FIGURE, ZERO_TO_ONE, 1,
             "Expected calibration error: mean distance between `said` and the share that was "
             "right, weighted by calls. With few calls it comes out too "
             "large."),
    FIELD_WITHIN(shown_calibration, floor, "floor", 2, &floor_shape,
                 "Of `error`. Only what is above it says something of the book."),
    FIELD_ALL(shown_calibration, bins, FIELD_LIST, ALWAYS, 1, &bin_shape,
              "Calls by the chance of the leading cause at the first fix: low <= chance < high, "
              "the last one up to 1."),
};
static const shape calibration_shape =
    SHAPE("calibration", shown_calibration, calibration_fields, "");

static const field confused_fields[] = {
    FIELD_NAMED(tt_confused, name, "cause", FIELD_MAYBE, ALWAYS, 1,
                "What was wrong; null: something not listed."),
    FIELD(tt_confused, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_NAMED(tt_confused, blamed_name, "blamed", FIELD_MAYBE, ALWAYS, 1,
                "What led; null: something not listed."),
    FIELD(tt_confused, blamed_text, FIELD_TEXT, ALWAYS, 1, ""),
    SHARE(tt_confused, calls, "Of the calls in which `cause` was wrong."),
    FIELD(tt_confused, question, FIELD_MAYBE, ALWAYS, 1,
          "The question that tells the two apart best, among those that the role may answer; null: "
          "none does."),
    FIELD(tt_confused, ask, FIELD_MAYBE, ALWAYS, 1, ""),
    FIELD_IN(tt_confused, overlap, FIELD_NUMBER, ZERO_TO_ONE, 1,
             "Bhattacharyya coefficient over all questions of the role; 1: no question tells them "
             "apart. Null where something is not listed."),
    FIELD(tt_confused, one_fix, FIELD_TRUTH, ALWAYS, 1, "Some fix serves both."),
};
static const shape confused_shape = SHAPE("confused", tt_confused, confused_fields, "");

static const field moving_fields[] = {
    FIELD(tt_moving, kind, FIELD_TEXT, ALWAYS, 2, "how-often, shown-by, otherwise or cures."),
    FIELD(tt_moving, cause, FIELD_MAYBE, ALWAYS, 2, ""),
    FIELD(tt_moving, of, FIELD_MAYBE, ALWAYS, 2, "The symptom, or the fix."),
    FIELD(tt_moving, written, FIELD_TEXT, ALWAYS, 2, "As it stands in the book."),
    FIELD(tt_moving, at, FIELD_TEXT, ALWAYS, 2, "File and line."),
    MEAN(tt_moving, above, "Minutes that a call would take more if the truth were 30 % above."),
    MEAN(tt_moving, below, "The same, 30 % below."),
};
static const shape moving_shape = SHAPE("moving", tt_moving, moving_fields, "");

/* ---- all of it ---- */

typedef struct shown_options {
    uint64_t calls, seed;
    const char *role;
    double misread, numbers_off;
    bool sensitivity;
} shown_options;
typedef struct shown_rehearsal {
    uint32_t version;
    shown_book rulebook;
    const shown_site *site;
    shown_options options;
    double call_minutes;
    const tt_rehearsed_kind *all, *kinds;
    const tt_rehearsed_way *ways;
    shown_calibration calibration;
    tt_rehearsed_set set;
    tt_ceiling ceiling;
    tt_ratio over_clairvoyant, known_over_clairvoyant;
    tt_handed_over handed_over;
    const tt_worked *worked;
    uint32_t worked_count;
    tt_mean surprise_bits;
    tt_share not_listed_blamed, not_listed_blamed_surely;
    const tt_moving *moving;
    uint32_t moving_count;
    const tt_confused *confused;
    uint32_t confused_count;
} shown_rehearsal;

static const field options_fields[] = {
    FIELD(shown_options, calls, FIELD_TALLY, ALWAYS, 1, ""),
    FIELD(shown_options, seed, FIELD_TALLY, ALWAYS, 1, ""),
    FIELD(shown_options, role, FIELD_TEXT, ALWAYS, 1, "Who asks."),
    FIELD_IN(shown_options, misread, FIELD_FIGURE, ZERO_TO_ONE, 1,
             "So much more often than the book says an answer is wrong."),
    FIELD_IN(shown_options, numbers_off, FIELD_FIGURE, ZERO_TO_ONE, 1,
             "The book's numbers are off by up to this share."),
    FIELD(shown_options, sensitivity, FIELD_TRUTH, ALWAYS, 2, "`moving` was asked for."),
};
static const shape options_shape = SHAPE("options", shown_options, options_fields, "");

static const field rehearsal_fields[] = {
    FIELD_VERSION(shown_rehearsal, version, REHEARSE_VERSION),
    FIELD_WITHIN(shown_rehearsal, rulebook, "rulebook", 1, &book_shape, ""),
    FIELD_THING(shown_rehearsal, site, ALWAYS, 1, &site_shape,
                "The site that the book was read for; null if there is none."),
    FIELD_WITHIN(shown_rehearsal, options, "options", 1, &options_shape, ""),
    FIELD_IN(shown_rehearsal, call_minutes, FIELD_FIGURE, FROM_ZERO, 1,
             "What a call-out counts as."),
    FIELD_BEHIND(shown_rehearsal, all, 1, &kind_shape, "All calls."),
    FIELD_BEHIND(shown_rehearsal, kinds, 1, &kinds_shape, "Calls by what was wrong."),
    FIELD_BEHIND(shown_rehearsal, ways, 1, &ways_shape,
                 "The same calls, played in six ways with the same luck; `soonest`, "
                 "`in_order` and `everything` only every fifth call."),
    FIELD_WITHIN(shown_rehearsal, calibration, "calibration", 1, &calibration_shape, ""),
    FIELD_WITHIN(shown_rehearsal, set, "set", 2, &set_shape, ""),
    FIELD_WITHIN(shown_rehearsal, ceiling, "ceiling", 2, &ceiling_shape, ""),
    FIELD_WITHIN(shown_rehearsal, over_clairvoyant, "over_clairvoyant", 2, &ratio_shape,
                 "Minutes as telltale asks over those of `clairvoyant`."),
    FIELD_WITHIN(shown_rehearsal, known_over_clairvoyant, "known_over_clairvoyant", 2, &ratio_shape,
                 "Minutes of `all_known` over those of `clairvoyant`."),
    FIELD_WITHIN(shown_rehearsal, handed_over, "handed_over", 2, &over_shape, ""),
    FIELD_ALL(shown_rehearsal, worked, FIELD_LIST, ALWAYS, 2, &worked_shape,
              "Who asks, and everybody who was called, in the order of the roles."),
    MEAN(shown_rehearsal, surprise_bits,
         "Minus log2 of the chance that what was wrong had at the first fix, over calls with one "
         "cause or something not listed."),
    SHARE(shown_rehearsal, not_listed_blamed,
          "Of the calls with something not listed: a listed cause led at the first fix."),
    SHARE(shown_rehearsal, not_listed_blamed_surely, "The same, with a chance of 90 % or more."),
    FIELD_ALL(shown_rehearsal, moving, FIELD_LIST, ALWAYS, 2, &moving_shape,
              "The numbers of the book that move the minutes of a call most, of those of which so "
              "many calls can tell, at most 10; empty if it was not asked for."),
    FIELD_ALL(shown_rehearsal, confused, FIELD_LIST, ALWAYS, 1, &confused_shape,
              "What led at the first fix in place of what was wrong: the pairs that came most "
              "often, at most 20. Calls with one cause or something not listed."),
};
static const shape rehearsal_shape = SHAPE("rehearsal", shown_rehearsal, rehearsal_fields, "");

tt_value rehearsal_value(arena *keep, const tt_origin *origin, const tt_rehearsal_options *options,
                         const tt_rehearsed *r)
{
    assert((double)options->seed <= VALUE_WHOLE_MOST);
    const shown_rehearsal shown = {
        .version = REHEARSE_VERSION,
        .rulebook = book_of(origin),
        .site = site_of(keep, origin),
        .options = {r->calls, options->seed, r->role, options->misread, options->numbers_off,
                    options->sensitivity},
        .call_minutes = r->call_minutes,
        .all = &r->all,
        .kinds = r->kinds,
        .ways = r->ways,
        .calibration = {r->calibration_error, r->calibration_floor, r->bins, BINS},
        .set = r->set,
        .ceiling = r->ceiling,
        .over_clairvoyant = r->over_clairvoyant,
        .known_over_clairvoyant = r->known_over_clairvoyant,
        .handed_over = r->over,
        .worked = r->worked,
        .worked_count = r->worked_count,
        .surprise_bits = r->surprise,
        .not_listed_blamed = r->not_listed_blamed,
        .not_listed_blamed_surely = r->not_listed_blamed_surely,
        .moving = r->moving,
        .moving_count = r->moving_count,
        .confused = r->confused,
        .confused_count = r->confused_count};
    return shape_value(keep, &rehearsal_shape, &shown);
}

static const char schema_doc[] =
    "Version 2. Keys may be added, and then the version stays; a key never changes its meaning or "
    "goes away without a new version. Numbers have 10 "
    "significant digits. The same book and options give the same bytes, whatever the number of "
    "threads.";

tt_value rehearsal_schema(arena *keep)
{
    return whole_schema(keep, &rehearsal_shape, "What `telltale rehearse --json` prints",
                        schema_doc);
}
