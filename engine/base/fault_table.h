/* Every diagnostic, once: the enum, `check`, the docs test and docs/faults.md all read this table.
 * T1xx bytes and YAML, T15x pictures · T2xx shape and names · T3xx conditions · T4xx numbers and
 * meaning · T5xx compiled tables · T6xx chaining · T7xx answers and worked cases · T8xx what is
 * heard · T9xx doubts: what a colleague would ask. A code never changes its meaning; retired codes
 * are not reused. */
#ifndef TT_BASE_FAULT_TABLE_H
#define TT_BASE_FAULT_TABLE_H

/* clang-format off */
#define FAULT_TABLE_LOAD(X) \
    X(NOT_UTF8, "T101", SEVERITY_ERROR, "The file is not UTF-8 text") \
    X(FILE_TOO_LARGE, "T102", SEVERITY_ERROR, "The file is too large") \
    X(TOO_MANY_FILES, "T103", SEVERITY_ERROR, "There are too many files") \
    X(TOO_DEEP, "T104", SEVERITY_ERROR, "Lists and maps stand too deep in each other") \
    X(TOO_MANY_NODES, "T105", SEVERITY_ERROR, "There are too many entries") \
    X(TEXT_TOO_LONG, "T106", SEVERITY_ERROR, "The text is too long") \
    X(UNSAFE_CHARACTER, "T107", SEVERITY_ERROR, "A character that must not stand in a file") \
    X(DIRECTIVE, "T108", SEVERITY_ERROR, "A line begins with %") \
    X(SECOND_DOCUMENT, "T109", SEVERITY_ERROR, "A second document in one file") \
    X(ANCHOR, "T110", SEVERITY_ERROR, "An anchor") \
    X(ALIAS, "T111", SEVERITY_ERROR, "An alias") \
    X(TAG, "T112", SEVERITY_ERROR, "A tag") \
    X(MERGE_KEY, "T113", SEVERITY_ERROR, "A merge key") \
    X(KEY_NOT_TEXT, "T114", SEVERITY_ERROR, "A key that is not a word") \
    X(KEY_TWICE, "T115", SEVERITY_ERROR, "The same key twice in one map") \
    X(KEY_WITHOUT_VALUE, "T116", SEVERITY_ERROR, "A key without a value") \
    X(ITEM_EMPTY, "T117", SEVERITY_ERROR, "A list item without a value") \
    X(FLOW_SENTENCE, "T118", SEVERITY_ERROR, "A comma splits a text inside { }") \
    X(TAB_INDENT, "T119", SEVERITY_ERROR, "A tab where spaces must stand") \
    X(MISSING_COLON, "T120", SEVERITY_ERROR, "A colon is missing, or the space after it") \
    X(COLON_IN_TEXT, "T121", SEVERITY_ERROR, "A colon inside a text") \
    X(QUOTE_OPEN, "T122", SEVERITY_ERROR, "A quote that is not closed") \
    X(BRACKET_OPEN, "T123", SEVERITY_ERROR, "A bracket that is not closed, or one too many") \
    X(MISSING_COMMA, "T124", SEVERITY_ERROR, "A comma is missing, or one too many") \
    X(BAD_INDENTATION, "T125", SEVERITY_ERROR, "A line is not indented like its neighbours") \
    X(TEXT_LIKE_MAP, "T126", SEVERITY_ERROR, "A text that begins with { or [") \
    X(LEADING_SIGN, "T127", SEVERITY_ERROR, "A text that begins with a sign") \
    X(BAD_ESCAPE, "T128", SEVERITY_ERROR, "A backslash in double quotes") \
    X(PATTERN_IN_QUOTES, "T129", SEVERITY_ERROR, "A pattern in double quotes") \
    X(TEXT_AFTER_QUOTE, "T130", SEVERITY_ERROR, "Text after a closing quote") \
    X(LIST_IN_TEXT, "T131", SEVERITY_ERROR, "A list that became part of a text") \
    X(LOST_WORDS, "T132", SEVERITY_WARNING, "Words lost after #") \
    X(NOT_YAML, "T133", SEVERITY_ERROR, "A line that can't be understood") \
    X(CURLY_QUOTES, "T134", SEVERITY_WARNING, "A text in curly quotes") \
    X(HARD_SPACE, "T135", SEVERITY_ERROR, "A no-break space in place of a plain one")

#define FAULT_TABLE_DRAW(X) \
    X(DRAWING_CUT, "T151", SEVERITY_ERROR, "A picture that can't be read") \
    X(DRAWING_ELEMENT, "T152", SEVERITY_ERROR, "An element that a picture must not have") \
    X(DRAWING_ATTRIBUTE, "T153", SEVERITY_ERROR, "An attribute that a picture must not have") \
    X(DRAWING_VALUE, "T154", SEVERITY_ERROR, "A value that a picture can't have") \
    X(DRAWING_SIZE, "T155", SEVERITY_ERROR, "A picture that does not say how large it is") \
    X(DRAWING_LARGE, "T156", SEVERITY_ERROR, "A picture with too much in it")

#define FAULT_TABLE_MODEL(X) \
    X(WRONG_KIND, "T201", SEVERITY_ERROR, "A list, a map or a single value in the wrong place") \
    X(UNKNOWN_SECTION, "T202", SEVERITY_ERROR, "A section that does not exist") \
    X(UNKNOWN_KEY, "T203", SEVERITY_ERROR, "A key that does not exist") \
    X(MISSING_KEY, "T204", SEVERITY_ERROR, "Something that must be there is missing") \
    X(BAD_NAME, "T205", SEVERITY_ERROR, "A name that can't be used") \
    X(NAME_TWICE, "T206", SEVERITY_ERROR, "Two entries with one name") \
    X(NAME_CLASH, "T207", SEVERITY_ERROR, "One name for a question, a symptom or a conclusion") \
    X(UNKNOWN_NAME, "T208", SEVERITY_ERROR, "A name that nothing has") \
    X(UNKNOWN_ROLE, "T209", SEVERITY_ERROR, "A role that does not exist") \
    X(UNKNOWN_WORD, "T210", SEVERITY_ERROR, "A word that does not belong here") \
    X(ITEM_TWICE, "T211", SEVERITY_ERROR, "The same thing twice in one list") \
    X(EMPTY, "T212", SEVERITY_ERROR, "Nothing where something must stand") \
    X(SENTENCE_IN_FLOW, "T213", SEVERITY_ERROR, "A sentence inside braces or brackets") \
    X(UNKNOWN_INSERT, "T214", SEVERITY_ERROR, "Braces in a text with no question in them") \
    X(BRACE_ALONE, "T215", SEVERITY_ERROR, "A brace that stands alone") \
    X(MANIFEST_TWICE, "T216", SEVERITY_ERROR, "The section book twice") \
    X(MANIFEST_MISSING, "T217", SEVERITY_ERROR, "No section book") \
    X(BAD_LANGUAGE, "T218", SEVERITY_ERROR, "No language tag") \
    X(NO_CAUSE, "T219", SEVERITY_ERROR, "No cause to find") \
    X(SECTION_EMPTY, "T220", SEVERITY_WARNING, "A book without questions, symptoms or fixes") \
    X(MADE_NAME_TAKEN, "T221", SEVERITY_ERROR, "The name of a symptom that confirms makes") \
    X(BAD_PATTERN, "T222", SEVERITY_ERROR, "A pattern that can't be used") \
    X(ANSWER_COUNT, "T223", SEVERITY_ERROR, "Too few or too many answers") \
    X(TWO_KINDS, "T224", SEVERITY_ERROR, "A question of two kinds") \
    X(KEY_OUT_OF_PLACE, "T225", SEVERITY_ERROR, "A key that has no meaning here") \
    X(TOO_MANY, "T226", SEVERITY_ERROR, "More than fits") \
    X(PIECE_WANTED, "T241", SEVERITY_ERROR, "For which piece of equipment is not said") \
    X(UNKNOWN_PIECE, "T242", SEVERITY_ERROR, "A piece of equipment that the site does not have") \
    X(PIECE_OF_SHARED, "T243", SEVERITY_ERROR, "A piece of equipment named with what is there once") \
    X(UNKNOWN_KIND, "T244", SEVERITY_ERROR, "A kind of equipment that does not exist") \
    X(SEVERAL_FOR_ONE, "T245", SEVERITY_ERROR, "Several where one is wanted") \
    X(ORDER_LOOP, "T246", SEVERITY_ERROR, "A piece of equipment that comes before itself") \
    X(SITE_TWICE, "T247", SEVERITY_ERROR, "The section site twice") \
    X(SITE_FILE_HOLDS, "T248", SEVERITY_ERROR, "A site file with something else in it") \
    X(NO_SITE_FACT, "T249", SEVERITY_ERROR, "The site answers what is no fact of the site") \
    X(SITE_MISSING, "T250", SEVERITY_ERROR, "A site file without the section site") \
    X(KIND_WITHOUT_PIECE, "T251", SEVERITY_WARNING, "A kind of which the example site has none") \
    X(OLD_WORD, "T252", SEVERITY_ERROR, "A word of edition 1 of the language") \
    X(NO_PICTURE, "T253", SEVERITY_ERROR, "A picture whose file is not there") \
    X(BAD_AREA, "T254", SEVERITY_ERROR, "An area that does not lie in its picture") \
    X(PICTURE_UNUSED, "T255", SEVERITY_WARNING, "A file of a picture that nothing shows") \
    X(CUT_BY_COMMA, "T256", SEVERITY_WARNING, "A comma that may have cut a sentence in two") \
    X(NOT_A_DAY, "T257", SEVERITY_ERROR, "A day that is none") \
    X(HANGS_WRONG, "T258", SEVERITY_ERROR, "Equipment of which is not said what it hangs on, or that can't hang there") \
    X(BARE_LIST, "T301", SEVERITY_ERROR, "A condition that is a bare list") \
    X(CONDITION_EMPTY, "T302", SEVERITY_ERROR, "An empty condition") \
    X(UNKNOWN_IN_CONDITION, "T303", SEVERITY_ERROR, "A condition over something that does not exist") \
    X(NOT_AN_ANSWER, "T304", SEVERITY_ERROR, "No answer of this question") \
    X(SHOWN_OR_NOT, "T305", SEVERITY_ERROR, "A symptom is shown or not shown") \
    X(NEEDS_RANGE, "T306", SEVERITY_ERROR, "A reading is compared with a range") \
    X(RANGE_BACKWARDS, "T307", SEVERITY_ERROR, "A range that runs backwards") \
    X(MISPLACED_NOT, "T308", SEVERITY_ERROR, "A not in the wrong place") \
    X(AT_LEAST_COUNT, "T309", SEVERITY_ERROR, "A count that can't be reached") \
    X(CONDITION_TOO_DEEP, "T310", SEVERITY_ERROR, "Conditions too deep in one another") \
    X(FACTS_ALONE, "T311", SEVERITY_ERROR, "A symptom on facts alone") \
    X(KNOWN_IN_SYMPTOM, "T312", SEVERITY_ERROR, "A symptom on whether something is known") \
    X(EXCLUDES_ALL, "T313", SEVERITY_ERROR, "A condition that leaves no answer over") \
    X(NEVER_PLAUSIBLE, "T314", SEVERITY_WARNING, "A condition that no plausible reading meets") \
    X(SEVERAL_IN_SYMPTOM, "T321", SEVERITY_ERROR, "A symptom over every or any piece of equipment") \
    X(BAD_CHANCE, "T401", SEVERITY_ERROR, "Not a chance") \
    X(CHANCE_OUTSIDE, "T402", SEVERITY_ERROR, "A chance outside 0 to 100 %") \
    X(BAD_NUMBER, "T403", SEVERITY_ERROR, "Not a number") \
    X(WRONG_UNIT, "T404", SEVERITY_ERROR, "A unit that does not fit, or none") \
    X(BAD_MINUTES, "T405", SEVERITY_ERROR, "Not a time") \
    X(BAD_RANGE, "T406", SEVERITY_ERROR, "Not a range") \
    X(USUAL_IMPLAUSIBLE, "T407", SEVERITY_ERROR, "Usual readings outside the plausible ones") \
    X(BAD_SHARES, "T408", SEVERITY_ERROR, "Shares that do not make 100 %") \
    X(BAD_HOW_OFTEN, "T409", SEVERITY_ERROR, "Not how often a cause is met") \
    X(BAD_FACTOR, "T410", SEVERITY_ERROR, "Not how many times likelier") \
    X(FACTOR_TWICE, "T411", SEVERITY_ERROR, "One rule says two things about a cause") \
    X(WORDS_NOT_RISING, "T412", SEVERITY_ERROR, "Chance words out of their order") \
    X(WITH_ITSELF, "T413", SEVERITY_ERROR, "A cause named with itself") \
    X(CALL_WITHOUT_STOP, "T414", SEVERITY_ERROR, "Whom to call, but no stop") \
    X(CAUSE_NOT_SHOWN, "T415", SEVERITY_WARNING, "A cause without symptom") \
    X(CAUSE_NOT_CURED, "T416", SEVERITY_WARNING, "A cause without fix") \
    X(QUESTION_UNUSED, "T417", SEVERITY_WARNING, "A question that nothing uses") \
    X(CONCLUSION_NEVER_SET, "T418", SEVERITY_WARNING, "A conclusion that no rule sets") \
    X(NEVER_OFFERED, "T419", SEVERITY_WARNING, "A risk that stays High with protection") \
    X(PROTECTION_HARMS, "T422", SEVERITY_WARNING, "More danger with protection than without") \
    X(COUNTED_TWICE, "T423", SEVERITY_WARNING, "The same answer counted twice") \
    X(READS_AS_YES, "T424", SEVERITY_WARNING, "A symptom that reads as a bare yes or no") \
    X(GUARDED_WITHOUT_HARM, "T425", SEVERITY_ERROR, "Protection against no harm") \
    X(ADJUST_NO_READING, "T430", SEVERITY_ERROR, "An adjustment of what is no reading") \
    X(ADJUST_STEP, "T431", SEVERITY_ERROR, "A step of nothing, or larger than its limits") \
    X(ADJUST_IMPLAUSIBLE, "T432", SEVERITY_ERROR, "An adjustment beyond plausible readings") \
    X(ADJUST_COUNT, "T433", SEVERITY_ERROR, "Not how many steps") \
    X(ADJUST_NOT_PUT_BACK, "T434", SEVERITY_ERROR, "An adjustment that is not put back") \
    X(ADJUST_NO_ROLE, "T435", SEVERITY_WARNING, "Who may adjust may not read") \
    X(NOT_ADJUSTED, "T436", SEVERITY_ERROR, "As found or as left of what no fix adjusts") \
    X(UNKNOWN_UNIT, "T441", SEVERITY_ERROR, "A unit that does not exist") \
    X(UNCLEAR_NUMBER, "T442", SEVERITY_ERROR, "A number that could mean two things") \
    X(FORMULA_WRONG, "T443", SEVERITY_ERROR, "A formula that can't be reckoned") \
    X(FORMULA_UNIT, "T444", SEVERITY_ERROR, "A formula and its unit that do not agree") \
    X(FORMULA_LOOP, "T445", SEVERITY_ERROR, "A quantity that rests on itself") \
    X(FORMULA_CASES, "T446", SEVERITY_ERROR, "The cases of a formula are not in order") \
    X(JUDGED_TWICE, "T447", SEVERITY_WARNING, "A reading judged by a fixed limit and by a set point") \
    X(SHOWN_TWICE, "T448", SEVERITY_ERROR, "Two units to show for one dimension") \
    X(BAD_MOMENT, "T449", SEVERITY_ERROR, "Not a moment") \
    X(GATE_ONE_SIDED, "T450", SEVERITY_ERROR, "A gate question to which all answers are safe, or none") \
    X(GATE_NOT_FOR_ALL, "T451", SEVERITY_ERROR, "A gate question that can't be asked of everybody") \
    X(GATE_WAITS, "T452", SEVERITY_ERROR, "A gate question that waits for more than facts") \
    X(GATE_SKIPPED, "T453", SEVERITY_ERROR, "A rule skips a gate question") \
    X(EMERGENCY_OURS, "T454", SEVERITY_ERROR, "The name of an emergency that every book has") \
    X(EMERGENCY_LOST, "T455", SEVERITY_WARNING, "An emergency that leaves lines of ours out") \
    X(BAD_TELEPHONE, "T456", SEVERITY_ERROR, "Not a number to call") \
    X(BAD_WALK, "T460", SEVERITY_ERROR, "A walk that can't be, or is told twice") \
    X(NO_GOOD_VALUE, "T461", SEVERITY_ERROR, "A good value that is none") \
    X(BAD_MONEY, "T462", SEVERITY_ERROR, "Not a cost, or one in another currency") \
    X(PROCEDURE_INCOMPLETE, "T470", SEVERITY_ERROR, "A procedure without a part that it needs") \
    X(ENERGY_NOT_ISOLATED, "T471", SEVERITY_ERROR, "An energy that no procedure isolates") \
    X(HAZARD_UNPROTECTED, "T472", SEVERITY_ERROR, "A hazard without protection") \
    X(GRAVE_FOR_LOWEST, "T473", SEVERITY_ERROR, "Grave work for whoever asks for help") \
    X(CONFINED_SPACE, "T474", SEVERITY_WARNING, "Work in a confined space") \
    X(HARM_DOUBTED, "T475", SEVERITY_WARNING, "Harm none beside words of danger") \
    X(PROCEDURE_UNUSED, "T476", SEVERITY_WARNING, "A procedure that nothing uses") \
    X(ISOLATED_BY_HAND, "T477", SEVERITY_WARNING, "Isolated by hand where a procedure says the same") \
    X(NOBODY_AUTHORISED, "T478", SEVERITY_WARNING, "Work that isolates, and nobody is authorised") \
    X(FIXES_LOOP, "T479", SEVERITY_ERROR, "Fixes that come before themselves") \
    X(SET_UP_TOO_LONG, "T480", SEVERITY_ERROR, "A fix that takes less time than its lockout") \
    X(RISK_TURNED_ROUND, "T481", SEVERITY_ERROR, "A larger risk that counts for less")

#define FAULT_TABLE_COMPILE(X) \
    X(NET_NO_WEIGHT, "T501", SEVERITY_ERROR, "No cause ever occurs") \
    X(NET_TOO_BIG, "T502", SEVERITY_ERROR, "Symptoms chain too many questions together") \
    X(NET_SUM_OFF, "T503", SEVERITY_WARNING, "Chances over the answers of one question do not add up") \
    X(NET_OTHERWISE_MUCH, "T504", SEVERITY_WARNING, "'otherwise' leaves little for the usual answer") \
    X(NET_CONTRADICTION, "T505", SEVERITY_WARNING, "Numbers contradict each other") \
    X(NET_UNLISTED_OFF, "T506", SEVERITY_WARNING, "A cause that is not listed shows the symptom all the same") \
    X(READING_TOO_FINE, "T507", SEVERITY_ERROR, "A reading is judged by too many different numbers") \
    X(SYMPTOM_TOO_LONG, "T508", SEVERITY_ERROR, "A symptom rests on too long a chain of rules") \
    X(NET_CONFIRMS_LITTLE, "T509", SEVERITY_WARNING, "An answer that confirms a cause and hardly does") \
    X(NET_PAIRS_LEFT_OUT, "T510", SEVERITY_WARNING, "Too many causes for two faults at once") \
    X(FACTS_TOO_MANY, "T511", SEVERITY_ERROR, "Rules read too many facts together")

#define FAULT_TABLE_CHAIN(X) \
    X(LOOP_THROUGH_NOT, "T601", SEVERITY_ERROR, "Rules depend on their own opposite") \
    X(VALUES_CLASH, "T602", SEVERITY_ERROR, "Rules set two values at once") \
    X(CLASH_UNDECIDED, "T603", SEVERITY_WARNING, "Whether two values can meet was not decided")

#define FAULT_TABLE_ANSWERS(X) \
    X(REPLY_NO_QUESTION, "T701", SEVERITY_ERROR, "An answer to a question that does not exist") \
    X(REPLY_NO_ANSWER, "T702", SEVERITY_ERROR, "Not one of the answers") \
    X(REPLY_NO_NUMBER, "T703", SEVERITY_ERROR, "Not a reading or count") \
    X(REPLY_UNIT, "T704", SEVERITY_ERROR, "A reading in another unit, or without one") \
    X(REPLY_IMPLAUSIBLE, "T705", SEVERITY_ERROR, "A reading that can hardly be") \
    X(REPLY_FORM, "T706", SEVERITY_ERROR, "An answer in a form that does not fit") \
    X(REPLY_NONE_LEFT, "T707", SEVERITY_ERROR, "An answer that leaves nothing over") \
    X(REPLY_WEIGHT, "T708", SEVERITY_ERROR, "Not a chance of an answer") \
    X(REPLIES_NO_MAP, "T709", SEVERITY_ERROR, "Answers that are no map") \
    X(CASE_NO_NAME, "T710", SEVERITY_ERROR, "A case names what is not there") \
    X(CASE_COUNT, "T711", SEVERITY_ERROR, "Not a number of places") \
    X(CASE_EXPECTS_NOTHING, "T712", SEVERITY_ERROR, "A case that expects nothing") \
    X(CASE_RULE_SILENT, "T713", SEVERITY_ERROR, "A case expects words that a rule does not say") \
    X(CASE_COMPLAINT, "T714", SEVERITY_ERROR, "A case begins with what nobody says") \
    X(CASE_CHANCE, "T715", SEVERITY_ERROR, "Not how sure a case must be")

#define FAULT_TABLE_LISTEN(X) X(GRAVE_WORD, "T801", SEVERITY_ERROR, "Words of a grave danger called harmless")

#define FAULT_TABLE_DOUBTS(X) \
    X(FINE_NO_DOUBT, "T901", SEVERITY_ERROR, "No doubt that could be called fine") \
    X(FINE_FOR_NOTHING, "T902", SEVERITY_WARNING, "A doubt called fine that is not there") \
    X(NEVER_HOLDS, "T903", SEVERITY_WARNING, "A condition that can never hold") \
    X(ALWAYS_HOLDS, "T904", SEVERITY_WARNING, "A condition that always holds") \
    X(SIGN_EXCLUDED, "T905", SEVERITY_WARNING, "A sign of a cause that is out by then") \
    X(CURE_EXCLUDED, "T906", SEVERITY_WARNING, "A fix that is never offered where its cause is") \
    X(FACTOR_EXCLUDED, "T907", SEVERITY_WARNING, "A rule about a cause that is out by then") \
    X(WAITS_FOR_ITSELF, "T908", SEVERITY_WARNING, "A question that waits for itself") \
    X(TWIN_CAUSES, "T910", SEVERITY_WARNING, "Two causes with the same signs") \
    X(NO_SIGN, "T911", SEVERITY_WARNING, "A sign no likelier than with other faults") \
    X(CERTAIN_SIGN, "T912", SEVERITY_WARNING, "A chance of 0 or 100 %") \
    X(WEAK_SIGNS, "T913", SEVERITY_WARNING, "A cause that no answer speaks for") \
    X(OUT_OF_ORDER, "T914", SEVERITY_WARNING, "A chance out of its order") \
    X(SIGN_TWICE, "T915", SEVERITY_WARNING, "One sign under two names") \
    X(CONFIRMS_USUAL, "T916", SEVERITY_WARNING, "What is usual confirms a cause") \
    X(READ_AMISS, "T917", SEVERITY_WARNING, "Mostly read amiss") \
    X(MOSTLY_OTHER, "T918", SEVERITY_WARNING, "Most calls about what is not listed, or two faults") \
    X(SIGN_DROWNED, "T919", SEVERITY_WARNING, "A sign that mostly comes without its causes") \
    X(USUAL_IS_FAULT, "T920", SEVERITY_WARNING, "What is usual counts as a sign of a fault") \
    X(GAP, "T921", SEVERITY_WARNING, "A gap between ranges") \
    X(ADJUST_AWAY, "T922", SEVERITY_WARNING, "A step in the wrong direction") \
    X(ADJUST_SHORT, "T923", SEVERITY_WARNING, "An adjustment that can't reach what is usual") \
    X(ADJUST_WIDE, "T924", SEVERITY_WARNING, "A step over all that is usual") \
    X(GOOD_UNUSUAL, "T925", SEVERITY_WARNING, "A good value that is not usual") \
    X(HEARD_TWICE, "T930", SEVERITY_WARNING, "One phrase for two things") \
    X(PATTERN_SLOW, "T931", SEVERITY_WARNING, "A pattern that gives up") \
    X(PATTERN_NEVER, "T932", SEVERITY_WARNING, "A pattern that never matches") \
    X(PATTERN_TOO_MUCH, "T933", SEVERITY_WARNING, "A pattern that matches something else") \
    X(WORDS_STRANGE, "T934", SEVERITY_WARNING, "Phrases of words that nothing else knows") \
    X(HEARD_AS_DANGER, "T935", SEVERITY_WARNING, "Words of danger among harmless ones") \
    X(SAFE_IN_DANGER, "T936", SEVERITY_WARNING, "A safe answer that tells of danger") \
    X(HEARD_AS_ANOTHER, "T937", SEVERITY_WARNING, "A complaint in the words of another answer") \
    X(ASKS_NOTHING, "T940", SEVERITY_WARNING, "A question without a question mark") \
    X(SAME_TEXT, "T941", SEVERITY_WARNING, "Two things that read the same") \
    X(UNFINISHED, "T942", SEVERITY_WARNING, "A text that is not written yet") \
    X(TOO_LONG, "T943", SEVERITY_WARNING, "A text too long for a small screen") \
    X(NOT_TRANSLATED, "T944", SEVERITY_WARNING, "A text that is missing in a language") \
    X(LOOKS_ELSEWHERE, "T950", SEVERITY_WARNING, "Looking again where nothing shows") \
    X(HARDLY_CURES, "T951", SEVERITY_WARNING, "A fix that hardly cures") \
    X(BEHIND_ANOTHER, "T952", SEVERITY_WARNING, "A fix that another one is always before") \
    X(ODD_TIME, "T953", SEVERITY_WARNING, "A time that can hardly be") \
    X(CALLS_CALLER, "T954", SEVERITY_WARNING, "Whoever calls is called") \
    X(NO_CONTACT, "T955", SEVERITY_WARNING, "Somebody to call, and no number") \
    X(MOSTLY_STAYS, "T956", SEVERITY_WARNING, "A cause that is mostly still there after its fixes") \
    X(AFTER_ABOVE, "T957", SEVERITY_WARNING, "A fix that waits for a higher role's") \
    X(AFTER_APART, "T958", SEVERITY_WARNING, "A fix that waits for one of another fault") \
    X(NOT_PUT_BACK, "T959", SEVERITY_WARNING, "Written down, and not put back") \
    X(CONCLUSION_UNREAD, "T960", SEVERITY_WARNING, "A conclusion that nothing reads") \
    X(KIND_UNUSED, "T961", SEVERITY_WARNING, "A kind of equipment of which nothing is written") \
    X(ROLE_UNUSED, "T962", SEVERITY_WARNING, "A role without work") \
    X(ANSWER_IDLE, "T963", SEVERITY_WARNING, "An answer that means nothing") \
    X(SHARE_NEVER, "T964", SEVERITY_WARNING, "A share of nothing or all") \
    X(WAITS_ABOVE, "T965", SEVERITY_WARNING, "A fix that waits for an answer above its role") \
    X(RULE_TWICE, "T966", SEVERITY_WARNING, "Two rules that say the same at once") \
    X(CASE_TWICE, "T967", SEVERITY_WARNING, "The same call twice") \
    X(SETS_ITS_OWN, "T968", SEVERITY_WARNING, "A rule that sets what it needs") \
    X(NEVER_NAMED, "T969", SEVERITY_WARNING, "A place, instrument, protection or harm that nothing names") \
    X(STOPS_AT_SAFE, "T970", SEVERITY_WARNING, "A rule stops at a safe answer") \
    X(NO_STOP, "T971", SEVERITY_WARNING, "An unsafe answer after which nobody is told what to do") \
    X(STOP_CALLS_NOBODY, "T972", SEVERITY_WARNING, "A stop that calls nobody") \
    X(RUNS_WHILE_LOCKED, "T973", SEVERITY_WARNING, "Running and locked at once") \
    X(RUNS_IN_STEPS, "T974", SEVERITY_WARNING, "A step that needs what is locked") \
    X(LOCKED_BY_LOWER, "T975", SEVERITY_WARNING, "Locking by a role that may not") \
    X(LOCK_UNSAID, "T976", SEVERITY_WARNING, "A procedure that puts no lock on, or leaves it there") \
    X(PROTECTION_IDLE, "T977", SEVERITY_WARNING, "Protection that changes nothing") \
    X(HAZARD_UNNAMED, "T978", SEVERITY_WARNING, "A hazard that is only in the words") \
    X(ODD_ROLE, "T979", SEVERITY_WARNING, "Work on wires by a role below the electrician") \
    X(AGAINST_CAUTION, "T980", SEVERITY_WARNING, "A fix and what a caution speaks of") \
    X(RULES_OUT_SHOWN, "T981", SEVERITY_WARNING, "A rule against the cause that its condition shows") \
    X(SKIPS_ITS_OWN, "T982", SEVERITY_WARNING, "A rule skips what it needs") \
    X(BROUGHT_ON_ROUND, "T983", SEVERITY_WARNING, "Causes that bring each other on") \
    X(CASE_NOT_ASKED, "T984", SEVERITY_WARNING, "A case answers what is not asked in it") \
    X(CASE_ABOVE_ROLE, "T985", SEVERITY_WARNING, "A case answers what is above its role") \
    X(CASE_OTHER_FIX, "T986", SEVERITY_WARNING, "A case expects a fix that can't come") \
    X(TRIED_TOO_SOON, "T987", SEVERITY_WARNING, "A start that is tried before all is let go") \
    X(ADJUST_SHUT_OUT, "T988", SEVERITY_WARNING, "An adjustment that begins where nothing is wrong") \
    X(LONGER_THAN_CALL, "T989", SEVERITY_WARNING, "A fix that takes longer than calling somebody")

#define FAULT_TABLE_REVISE(X) \
    X(CSV_TEXT, "T881", SEVERITY_ERROR, "A table that is no UTF-8 text") \
    X(CSV_QUOTE, "T882", SEVERITY_ERROR, "A quoted cell without an end") \
    X(CSV_HEAD, "T883", SEVERITY_ERROR, "No table of causes and signs") \
    X(CSV_ROW, "T884", SEVERITY_ERROR, "A row of no cause") \
    X(CSV_COLUMN, "T885", SEVERITY_ERROR, "A column of no sign") \
    X(CSV_TWICE, "T886", SEVERITY_ERROR, "A row or column that stands twice") \
    X(CSV_MISSING, "T887", SEVERITY_ERROR, "A row, a column or a cell that is missing") \
    X(CSV_NUMBER, "T888", SEVERITY_ERROR, "A cell that is no chance") \
    X(CSV_FIXED, "T889", SEVERITY_ERROR, "A cell that can't be changed in the table")
/* clang-format on */

/* clang-format off */
#define FAULT_TABLE(X) \
    FAULT_TABLE_LOAD(X) \
    FAULT_TABLE_DRAW(X) \
    FAULT_TABLE_MODEL(X) \
    FAULT_TABLE_COMPILE(X) \
    FAULT_TABLE_CHAIN(X) \
    FAULT_TABLE_ANSWERS(X) \
    FAULT_TABLE_LISTEN(X) \
    FAULT_TABLE_REVISE(X) \
    FAULT_TABLE_DOUBTS(X)
/* clang-format on */

#endif
