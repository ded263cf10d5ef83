/* The history on a sheet. */
#include "verb/sheet_case.h"

static void put_steps(arena *keep, const tt_history *history, shown_sheet *sheet)
{
    sheet_step *steps = ARENA_ARRAY(keep, sheet_step, history->count);
    for (uint32_t i = 0; i < history->count; i++) {
        const tt_told *told = &history->items[i];
        steps[i] = (sheet_step){.time = sheet_clean(keep, told->record->time),
                                .by = sheet_clean(keep, told->person),
                                .writer = sheet_clean(keep, told->record->writer),
                                .kind = sheet_clean(keep, told->record->kind),
                                .about = sheet_clean(keep, told->about),
                                .text = sheet_clean(keep, told->text),
                                .result = sheet_clean(keep, told->result),
                                .typed = sheet_clean(keep, told->typed),
                                .setting = sheet_clean(keep, told->setting),
                                .from = sheet_clean(keep, told->from),
                                .to = sheet_clean(keep, told->to),
                                .taken_back = told->taken_back,
                                .left_out = told->left_out};
    }
    sheet->steps = steps;
    sheet->steps_count = history->count;
}

static void put_cautions(arena *keep, const tt_history *history, shown_sheet *sheet)
{
    sheet_caution *cautions = ARENA_ARRAY(keep, sheet_caution, history->caution_count);
    for (uint32_t i = 0; i < history->caution_count; i++) {
        const tt_told_caution *told = &history->cautions[i];
        cautions[i] = (sheet_caution){sheet_clean(keep, told->signal), sheet_clean(keep, told->text), sheet_clean(keep, told->time)};
    }
    sheet->cautions = cautions;
    sheet->cautions_count = history->caution_count;
}

void sheet_put_history(arena *keep, const tt_history *history, shown_sheet *sheet)
{
    put_steps(keep, history, sheet);
    put_cautions(keep, history, sheet);
}
