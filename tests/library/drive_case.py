#!/usr/bin/env python3
"""A whole case through the C interface, as a program in another language leads it: ctypes over libtelltale.so.

    drive_case.py LIBRARY BOOK-FOLDER HEADER-FOLDER

The structures below are those of telltale.h, telltale_records.h and telltale_talk.h, in their order; the headers are read
and compared first, for a field missing here would be memory read amiss. The case: the foam is
too dry, its air stands at 55 psi, the fix is done step by step, and the trouble is gone. Two more cases show that nothing
unknown goes on as if safe, and that what was kept can be taken up by another writer.
"""
import ctypes as c
import json
import pathlib
import re
import sys

TEXT, COUNT, NUMBER, TRUTH = c.c_char_p, c.c_uint32, c.c_double, c.c_bool
NONE = 0xFFFFFFFF


def structure(name, *fields):
    return type(name, (c.Structure,), {"_fields_": list(fields)})


Source = structure("tt_source", ("name", TEXT), ("bytes", TEXT), ("length", c.c_size_t))
Record = structure("tt_record", ("writer", TEXT), ("number", c.c_uint64), ("lamport", c.c_uint64), ("time", TEXT), ("seen", c.c_void_p),
                   ("kind", TEXT), ("data", c.c_void_p))
Options = structure("tt_talk_options", ("writer", TEXT), ("role", TEXT), ("language", TEXT), ("soonest", TRUTH), ("practice", TRUTH), ("kept", TRUTH),
                    ("telephone", TRUTH), ("look_only", TRUTH), ("number", TEXT), ("about", c.c_void_p), ("kind", c.c_int), ("every", c.c_int),
                    ("past", c.c_void_p), ("how", TEXT))
Choice = structure("tt_turn_choice", ("id", TEXT), ("text", TEXT), ("picture", c.c_void_p), ("said", TEXT))
Part = structure("tt_turn_part", ("kind", c.c_int), ("title", TEXT), ("items", c.POINTER(TEXT)), ("item_count", COUNT), ("numbered", TRUTH))
Progress = structure("Progress", ("asked", COUNT), ("minutes_left", NUMBER))
Takes = structure("Takes", ("reading", TRUTH), ("count", TRUTH), ("text", TRUTH), ("several", TRUTH), ("unit", TEXT), ("low", NUMBER), ("high", NUMBER))
Turn = structure("tt_turn", ("number", COUNT), ("kind", c.c_int), ("language", TEXT), ("subject", TEXT), ("title", TEXT), ("together", TEXT), ("prompt", TEXT), ("say", TEXT), ("place", TEXT), ("because", TEXT),
                 ("picture", c.c_void_p), ("progress", Progress), ("step", COUNT), ("steps", COUNT), ("choices", c.POINTER(Choice)), ("choice_count", COUNT),
                 ("words", c.POINTER(Choice)), ("word_count", COUNT), ("takes", Takes), ("parts", c.POINTER(Part)), ("part_count", COUNT),
                 ("news", c.POINTER(Part)), ("news_count", COUNT), ("wrong_code", TEXT), ("wrong", TEXT), ("leading", c.POINTER(Choice)),
                 ("leading_count", COUNT), ("contacts", c.c_void_p), ("contact_count", COUNT), ("measured", c.c_void_p), ("measured_count", COUNT), ("gate_open", TRUTH), ("kept", TRUTH),
                 ("practice", TRUTH), ("dangerous", TRUTH), ("how", TEXT))
Heard = structure("tt_heard", ("turn", COUNT), ("choice", TEXT), ("several", c.c_void_p), ("several_count", COUNT), ("words", TEXT), ("unread", TRUTH),
                  ("number", c.POINTER(NUMBER)), ("unit", TEXT), ("given", c.c_void_p), ("given_count", COUNT), ("language", TEXT), ("answers", c.POINTER(Source)))


def fields_in_header(headers, name):
    """The names of a structure's fields, in order. One of no name in it counts by the name of its member."""
    found = re.search(r"struct %s \{(.*?)\n\}" % name, headers, re.S)
    body = re.sub(r"struct \{[^}]*\}", "struct", found.group(1))
    return [re.search(r"(\w+)\s*$", part).group(1) for line in body.split(";") if line.strip() for part in line.split(",")]


def same_as_headers(folder):
    headers = "".join(path.read_text() for path in sorted(pathlib.Path(folder).glob("telltale*.h")))
    headers = re.sub(r"/\*.*?\*/", "", headers, flags=re.S)
    for kind in (Source, Record, Options, Choice, Part, Turn, Heard):
        expect([name for name, _ in kind._fields_], fields_in_header(headers, kind.__name__))


class Library:
    def __init__(self, path):
        self.lib = c.CDLL(path)
        self.lib.tt_turn_kind_name.restype = TEXT
        self.lib.tt_talk_turn.restype = c.POINTER(Turn)
        self.lib.tt_report_text.restype = TEXT
        self.libc = c.CDLL(None)

    def call(self, name, *arguments):
        status = getattr(self.lib, name)(*arguments)
        if status != 0:
            raise RuntimeError(f"{name}: status {status}")

    def load(self, folder):
        files = sorted(f for f in pathlib.Path(folder).iterdir() if f.suffix in (".yaml", ".svg"))
        texts = [f.read_bytes() for f in files]
        sources = (Source * len(files))(*[Source(f.name.encode(), t, len(t)) for f, t in zip(files, texts)])
        book, report = c.c_void_p(), c.c_void_p()
        status = self.lib.tt_book_load(sources, c.c_size_t(len(files)), c.byref(book), c.byref(report))
        if status != 0:
            raise RuntimeError(self.lib.tt_report_text(report).decode())
        self.lib.tt_report_free(report)
        return book

    def json(self, value):
        text = c.c_void_p()
        self.call("tt_value_json", c.c_void_p(value), 17, c.byref(text))
        parsed = json.loads(c.string_at(text))
        self.libc.free(text)
        return parsed


class Talk:
    """Keeps what is to be kept in a list, as a host would in a file."""

    def __init__(self, library, book, writer):
        self.library, self.kept, self.talk = library, [], c.c_void_p()
        self.options = Options(writer=writer, kept=True, number=b"", how=None)
        library.call("tt_talk_new", book, c.byref(self.options), c.byref(self.talk))
        self.give("tt_talk_begin", b"2026-11-29T09:00:00Z")

    def give(self, name, *arguments):
        records, count = c.POINTER(Record)(), COUNT()
        self.library.call(name, self.talk, *arguments, c.byref(records), c.byref(count))
        for i in range(count.value):
            self.kept.append((records[i].kind.decode(), self.library.json(records[i].data)))
        if count.value > 0:
            self.library.call("tt_talk_kept", self.talk, True)

    @property
    def turn(self):
        return self.library.lib.tt_talk_turn(self.talk).contents

    @property
    def kind(self):
        return self.library.lib.tt_turn_kind_name(self.turn.kind).decode()

    def choices(self):
        return [self.turn.choices[i].id.decode() for i in range(self.turn.choice_count)]

    def hear(self, **reply):
        self.give("tt_talk_hear", c.byref(Heard(turn=self.turn.number, **reply)), b"2026-11-29T09:01:00Z")

    def choose(self, choice):
        self.hear(choice=choice.encode())

    def free(self):
        self.library.lib.tt_talk_free(self.talk)


def expect(got, wanted):
    if got != wanted:
        raise AssertionError(f"{got!r} where {wanted!r} was expected")


def whole_case(library, book):
    talk = Talk(library, book, b"python")
    expect(talk.kind, "danger")
    talk.choose("safe")
    expect(talk.kind, "complaint")
    talk.hear(words=b"foam is dry today")
    expect(talk.kind, "confirm")
    talk.choose("foam-too-dry")
    talk.choose("hiss")
    talk.choose("even")
    talk.hear(number=c.pointer(NUMBER(55.0)), unit=b"psi")
    expect(talk.kind, "before-fix")
    talk.choose("begin")
    steps = 0
    while talk.kind == "fix-step":
        talk.choose("done")
        steps += 1
    talk.hear(number=c.pointer(NUMBER(30.0)))
    expect(talk.kind, "fix")
    talk.choose("gone")
    talk.choose("yes")
    expect((talk.kind, talk.turn.how), ("end", b"gone"))
    kinds = [kind for kind, _ in talk.kept]
    expect(kinds[0], "begin")
    expect(kinds.count("step"), steps)
    expect(dict(talk.kept)["confirm"]["cause"], "foam-air-high")
    talk.free()
    return len(kinds)


def not_knowing_stops(library, book):
    talk = Talk(library, book, b"python")
    talk.choose("unsure")
    expect((talk.kind, talk.turn.gate_open), ("stop", False))
    talk.hear(words=b"the foam is too dry")
    expect((talk.kind, "close" in talk.choices()), ("stop", False))
    talk.free()


def main():
    same_as_headers(sys.argv[3])
    library = Library(sys.argv[1])
    book = library.load(sys.argv[2])
    records = whole_case(library, book)
    not_knowing_stops(library, book)
    library.lib.tt_book_free(book)
    print(f"a whole case from Python: {records} records kept")


main()
