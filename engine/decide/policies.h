/* What comes next in a case: one table, read from the top. The first policy that holds makes the
 * step. docs/decision.md is drawn from it.
 *
 * A row: name · when it is looked at (ANY_CASE: also once the trouble is gone; TROUBLE: only
 * before) · its predicate · its maker · when it holds, and what then comes, in words for people. */
#ifndef TT_DECIDE_POLICIES_H
#define TT_DECIDE_POLICIES_H

#define POLICY_TABLE(X) \
    X(GATE, ANY_CASE, gate_is_not_open, danger_step, \
      "danger is not ruled out by whoever speaks, in this sitting", \
      "the question that rules it out; or, if it was answered in any other way than as safe, " \
      "stop and call") \
    X(EARLY, TROUBLE, early_fact_is_open, early_step, "a fact that is told early is not known", \
      "its question") \
    X(PIECE, TROUBLE, piece_is_not_said, piece_step, \
      "a complaint is about one of several pieces of equipment, and nobody said which", \
      "which piece it is") \
    X(UNSETTLED, ANY_CASE, something_is_unsettled, settle_step, \
      "people who did not know of each other said different things", "which of them is right") \
    X(WALK, TROUBLE, is_a_walk, walk_step, "it is a round, or a record of what is good", \
      "what of it nobody has looked at yet, place by place; then its end") \
    X(PUT_BACK, TROUBLE, something_is_to_be_put_back, put_back_step, \
      "a fix did not help, and what it changed is not as it was found", \
      "putting it back; or, if that can't be done to a setting, or whoever asks may not do it, " \
      "calling somebody") \
    X(ADJUSTING, TROUBLE, adjustment_is_under_way, adjusting_step, \
      "a setting is being changed step by step", \
      "what the last step may have changed; then the next step, or calling somebody where " \
      "whoever asks may not do it") \
    X(LOOK_AGAIN, TROUBLE, look_again_is_due, look_again_step, \
      "the last fix made it better or worse, and not all was looked at again", \
      "the next thing to be looked at again") \
    X(READING, TROUBLE, fix_waits_for_reading, reading_step, \
      "the fix that comes next waits for an answer", "the question for it") \
    X(COMPLAINT, TROUBLE, complaint_is_open, complaint_step, \
      "nobody said what is wrong, and whoever asks wants to", "what is wrong") \
    X(CLASH, TROUBLE, answers_clash, clash_step, \
      "two answers don't fit together, and one of them can be looked at again", \
      "a second look at the weaker of them") \
    X(BALANCED, TROUBLE, trouble_remains, balanced_step, "the trouble is not gone", \
      "the best question, the first fix, or calling somebody: whatever costs the fewest minutes " \
      "on the mean") \
    X(CLOSE, ANY_CASE, true_always, close_step, "the trouble is gone", "the end of the case")

#endif
