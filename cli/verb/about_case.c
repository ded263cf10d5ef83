/* What a case's record says of the case: which book and site, who, where, and how it is talked
 * about. */
#include <pwd.h>
#include <unistd.h>

#include "base/unicode.h"
#include "host/clock.h"
#include "verb/conversation.h"

static void put_clean(conversation *c, value_builder *b, const char *key, const char *text)
{
    value_put(b, key, value_of_str(c->keep, unicode_clean(c->keep, str_of(text))));
}

const char *who_works(const command_line *line)
{
    const char *name = line->values[OPTION_NAME];
    if (name != NULL && *name != 0) return name;
    const struct passwd *user = getpwuid(getuid());
    return user != NULL ? user->pw_name : "somebody";
}

case_reader reader_now(const command_line *line)
{
    char clock[TT_MOMENT_SIZE];
    case_reader r = {.name = who_works(line)};
    clock_now(clock);
    tt_moment_read(clock, &r.now);
    return r;
}

static void put_person(conversation *c, value_builder *b)
{
    char machine[256] = "";
    if (gethostname(machine, sizeof machine - 1) != 0) machine[0] = 0;
    put_clean(c, b, "by", who_works(c->line));
    put_clean(c, b, "on", machine);
}

/* {"path", "revision", "text"}; null: none that was said or is in a file. */
static tt_value site_value(conversation *c)
{
    if (c->book.site_text == NULL) return value_null;
    value_builder site = value_map(c->keep);
    value_put_text(&site, "path", c->site_path);
    value_put_text(&site, "revision", c->book.site_revision);
    value_put(&site, "text", value_of_str(c->keep, str_of(c->book.site_text)));
    return value_done(&site);
}

const tt_value *about_case(conversation *c)
{
    const tt_book_info info = tt_book_describe(c->book.book);
    value_builder b = value_map(c->keep);
    if (c->store != NULL) value_put_text(&b, "number", case_store_number(c->store));
    value_put_text(&b, "rulebook", c->book.folder);
    value_put_text(&b, "title", info.title);
    value_put_text(&b, "edition", info.edition);
    value_put(&b, "revision", value_of_str(c->keep, str_of(c->book.revision)));
    value_put(&b, "site", site_value(c));
    if (!c->practice) value_put_some(&b, "site_title", info.site_title);
    value_put_bool(&b, "practice", c->practice);
    value_put_bool(&b, "telephone", c->telephone);
    value_put_text(&b, "program", TELLTALE_VERSION);
    put_person(c, &b);
    return value_keep(&b);
}
