/* Who works on the case, and where: what its records say of that. */
#include <pwd.h>
#include <unistd.h>

#include "call/conversation.h"
#include "cases/case_about.h"
#include "host/clock.h"

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
    case_reader r = {.name = who_works(line), .in = tongue_of(line->values[OPTION_LANGUAGE])};
    clock_now(clock);
    tt_moment_read(clock, &r.now);
    return r;
}

const tt_value *about_case(conversation *c)
{
    char machine[256] = "";
    if (gethostname(machine, sizeof machine - 1) != 0) machine[0] = 0;
    const case_about about = {.book = c->book.book,
                              .number = c->store != NULL ? case_store_number(c->store) : NULL,
                              .folder = c->book.folder,
                              .revision = c->book.revision,
                              .site_path = c->site_path,
                              .site_revision = c->book.site_revision,
                              .site_text = c->book.site_text,
                              .person = who_works(c->line),
                              .place = machine,
                              .practice = c->practice,
                              .telephone = c->telephone};
    return case_about_value(c->keep, &about);
}
