/* How the ranking stands to the truth. */
#ifndef TT_REHEARSE_JUDGE_H
#define TT_REHEARSE_JUDGE_H

#include "rehearse/play.h"

/* `v`: the case as it was just looked at. */
judgement judge(arena *scratch, const tt_case *c, const tt_view *v, const made_call *call);

#endif
