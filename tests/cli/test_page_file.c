/* The page for a phone as one file: what it carries comes out of it again, and what is missing is
 * said. That it runs in a browser is tests/pages. */
#include <jansson.h>
#include <lzma.h>

#include "page/letter_texts.h"
#include "run_telltale.h"

static const char module[] = "the engine\0 as bytes", unpack[] = "what unpacks";

static void put(const char *path, const void *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    fclose(file);
}

static int fresh(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf engine well* page* && mkdir engine && cp -r $WELL well"), 0);
    put("engine/telltale.wasm", module, sizeof module);
    put("engine/unpack.wasm", unpack, sizeof unpack - 1);
    return setenv("TELLTALE_PAGE_DIR", "engine", 1);
}

/* What stands in the element with this id, freed by the caller. */
static char *element(const char *page, const char *id)
{
    char begins[64];
    snprintf(begins, sizeof begins, "id=\"%s\">", id);
    const char *from = strstr(page, begins);
    assert_non_null(from);
    from += strlen(begins);
    return strndup(from, (size_t)(strchr(from, '<') - from));
}

static uint32_t length_at(const uint8_t *bytes)
{
    return bytes[0] | (uint32_t)bytes[1] << 8 | (uint32_t)bytes[2] << 16 | (uint32_t)bytes[3] << 24;
}

typedef struct carried {
    uint8_t bytes[2 << 20];
    uint32_t module, script;
    json_t *setup;
} carried;

/* Back from letters and out of LZMA, by liblzma itself. */
static void take_apart(const char *path, carried *c)
{
    char *page = contents(path), *load = element(page, "load");
    uint8_t *packed = malloc(strlen(load) + 8);
    const size_t length = bytes_of_letters((const uint8_t *)load, strlen(load), packed);
    lzma_stream stream = LZMA_STREAM_INIT;
    assert_int_equal(lzma_alone_decoder(&stream, UINT64_MAX), LZMA_OK);
    stream.next_in = packed;
    stream.avail_in = length;
    stream.next_out = c->bytes;
    stream.avail_out = sizeof c->bytes;
    assert_int_equal(lzma_code(&stream, LZMA_RUN), LZMA_STREAM_END);
    const size_t all = sizeof c->bytes - stream.avail_out;
    lzma_end(&stream);
    c->module = length_at(c->bytes);
    c->script = length_at(c->bytes + 4);
    const char *setup = (const char *)c->bytes + 8 + c->module + c->script;
    c->setup = json_loadb(setup, all - 8 - c->module - c->script, 0, NULL);
    assert_non_null(c->setup);
    free(packed);
    free(load);
    free(page);
}

static const char *text_of(const json_t *map, const char *key)
{
    const char *text = json_string_value(json_object_get(map, key));
    return text != NULL ? text : "";
}

static bool has_file(const json_t *setup, const char *name)
{
    bool found = false;
    size_t at;
    json_t *file;
    json_array_foreach(json_object_get(setup, "files"), at, file) found =
        found || strcmp(text_of(file, "name"), name) == 0;
    return found;
}

static void what_it_carries_comes_out_again(void **state)
{
    static carried c;
    (void)state;
    assert_int_equal(sh("$T page well >page.html 2>err"), 0);
    take_apart("page.html", &c);
    assert_int_equal(c.module, sizeof module);
    assert_memory_equal(c.bytes + 8, module, sizeof module);
    char *script = strndup((const char *)c.bytes + 8 + c.module, c.script);
    assert_non_null(strstr(script, "class Engine"));
    assert_non_null(strstr(script, "class Keeping"));
    free(script);
    assert_string_equal(text_of(c.setup, "folder"), "well");
    assert_true(json_is_true(json_object_get(c.setup, "practice")));
    assert_true(json_is_null(json_object_get(c.setup, "site")));
    assert_true(has_file(c.setup, "book.yaml"));
    json_decref(c.setup);
    char *page = contents("page.html"), *opener = element(page, "opener");
    assert_string_equal(opener, "d2hhdCB1bnBhY2tz"); /* RFC 4648, by another program */
    free(opener);
    free(page);
}

/* Callers need no worked cases; a file in which anything else stands comes with it. */
static void worked_cases_stay_at_home(void **state)
{
    static carried c;
    (void)state;
    assert_int_equal(sh("printf '# only a remark\\n' >well/remark.yaml && "
                        "printf 'cases: {}\\nrules: {}\\n' >well/both.yaml"),
                     0);
    assert_int_equal(sh("$T page well >page.html 2>err"), 0);
    take_apart("page.html", &c);
    assert_true(has_file(c.setup, "book.yaml"));
    assert_false(has_file(c.setup, "parts/cases.yaml"));
    assert_true(has_file(c.setup, "remark.yaml"));
    assert_true(has_file(c.setup, "both.yaml"));
    json_decref(c.setup);
}

/* Where a site's file lies on the machine on which the page was made is not told. */
static void a_site_comes_with_its_text_and_not_its_path(void **state)
{
    static carried c;
    (void)state;
    assert_int_equal(
        sh("$T page %s/tests/cli/filtered-well --site "
           "%s/tests/cli/filtered-well-sites/cottage.yaml --language es >page.html 2>err",
           TT_SOURCE_DIR, TT_SOURCE_DIR),
        0);
    take_apart("page.html", &c);
    const json_t *site = json_object_get(c.setup, "site");
    assert_string_equal(text_of(site, "name"), "cottage.yaml");
    assert_true(json_is_null(json_object_get(site, "path")));
    assert_non_null(strstr(text_of(site, "text"), "The cottage"));
    assert_int_equal(strlen(text_of(site, "revision")), 64);
    assert_true(json_is_false(json_object_get(c.setup, "practice")));
    assert_string_equal(text_of(c.setup, "language"), "es");
    char *setup = json_dumps(c.setup, 0);
    assert_null(strstr(setup, TT_SOURCE_DIR));
    free(setup);
    json_decref(c.setup);
}

static void a_title_is_text_in_it(void **state)
{
    (void)state;
    assert_int_equal(
        sh("sed -i 's/title: House well/title: \"Wells \\& <pumps>\"/' well/book.yaml"), 0);
    assert_int_equal(sh("$T page well >page.html 2>err"), 0);
    assert_holds("page.html", "<title>Wells &amp; &lt;pumps></title>");
}

static void without_its_engine_it_says_what_brings_it(void **state)
{
    (void)state;
    assert_int_equal(sh("rm engine/telltale.wasm; $T page well >page.html 2>err"), 66);
    assert_holds("err", "engine/telltale.wasm");
    assert_holds("err", "./cli/start");
    assert_int_equal(sh("test -s page.html"), 1);
    put("engine/telltale.wasm", module, sizeof module);
    assert_int_equal(sh("rm engine/unpack.wasm; $T page well >page.html 2>err"), 66);
    assert_holds("err", "unpack.wasm");
    assert_int_equal(sh("test -s page.html"), 1);
}

static void what_is_wrong_is_said_before_it_is_written(void **state)
{
    (void)state;
    assert_int_equal(sh("$T page well --language '?' --into page.html 2>err"), 2);
    assert_int_equal(sh("$T page nowhere --into page.html 2>err"), 66);
    assert_int_equal(sh("$T page well --site nowhere.yaml --into page.html 2>err"), 66);
    assert_int_equal(sh("$T page well --overwrite >page.html 2>err"), 2);
    assert_holds("err", "--into");
    assert_int_equal(sh("rm page.html; $T page well --into page.html 2>err"), 0);
    assert_int_equal(sh("cp page.html page2.html; $T page well --into page.html 2>err"), 0);
    assert_int_equal(sh("cmp page.html page2.html"), 0); /* a page of ours may be made anew */
    assert_int_equal(sh("echo mine >page.html; $T page well --into page.html 2>err"), 73);
    assert_int_equal(sh("$T page well --into page.html --overwrite 2>err"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(what_it_carries_comes_out_again, fresh),
        cmocka_unit_test_setup(worked_cases_stay_at_home, fresh),
        cmocka_unit_test_setup(a_site_comes_with_its_text_and_not_its_path, fresh),
        cmocka_unit_test_setup(a_title_is_text_in_it, fresh),
        cmocka_unit_test_setup(without_its_engine_it_says_what_brings_it, fresh),
        cmocka_unit_test_setup(what_is_wrong_is_said_before_it_is_written, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
