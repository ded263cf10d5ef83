/* What must hold stops the module where it does not, as everywhere; but the page shows no words of
 * ours about it, so none are carried along. */
#undef assert
#define assert(holds) ((holds) ? (void)0 : __builtin_trap())
#ifndef static_assert
#define static_assert _Static_assert
#endif
