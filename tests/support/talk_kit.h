/* A talk as a test leads it: replies by choice, number or words; what is kept goes into a folder of
 * records, from which others take it. */
#ifndef TT_SUPPORT_TALK_KIT_H
#define TT_SUPPORT_TALK_KIT_H

#include "base/arena.h"
#include "telltale.h"

enum { TALK_RECORDS_MOST = 512 };

typedef struct record_folder {
    arena *keep;
    tt_record records[TALK_RECORDS_MOST];
    uint32_t count;
} record_folder;
record_folder *record_folder_new(void);
void record_folder_free(record_folder *f);
const tt_record *last_record(const record_folder *f, const char *kind); /* or null */

typedef struct told_talk {
    tt_talk *talk;
    record_folder *folder;
    const char *writer;
    uint32_t taken; /* records of the folder that the talk has been handed */
    char now[40];
} told_talk;
/* `how` null: the case begins. `now`: RFC 3339. */
told_talk talk_open(const tt_book *b, record_folder *f, const char *writer, const char *role,
                    const char *how, const char *now);
told_talk talk_open_with(const tt_book *b, record_folder *f, const tt_talk_options *options,
                         const char *now);
void talk_close(told_talk *t);
void talk_news_of_others(told_talk *t); /* hands it what others have kept meanwhile */

/* Each gives the turn after it. The test fails if the reply is refused as such; what is wrong with
 * it stands in the turn. */
const tt_turn *choose(told_talk *t, const char *id);
const tt_turn *type(told_talk *t, const char *words);
const tt_turn *read_off(told_talk *t, double number, const char *unit);
const tt_turn *hand_in(told_talk *t, const tt_heard *heard); /* whatever it be */
const tt_turn *turn_of(const told_talk *t);

bool turn_offers(const tt_turn *turn, const char *choice);
/* Some item of a part of this kind holds these words; kind TT_PART_KINDS: of any part. */
bool turn_tells(const tt_turn *turn, tt_part_kind kind, const char *words);
const char *turn_locked_title(const tt_turn *turn); /* above what is to stay as it is */
bool turn_offers_fix(const tt_turn *turn);
#define assert_turn(turn, wanted) \
    assert_string_equal(tt_turn_kind_name((turn)->kind), tt_turn_kind_name(wanted))

#endif
