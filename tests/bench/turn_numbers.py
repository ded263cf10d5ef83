#!/usr/bin/env python3
"""Turns one number of a book round at a time and asks whether anything notices: a worked case that
fails, or something that `check` says.

    turn_numbers.py TELLTALE BOOK [--seed 1] [--count 40] [--all] [--far]

Chances are mirrored: words in the table below, numbers p to 1 - p, how often a cause comes from its
one end to the other. A number near the middle has no other side and is passed over. With --far they
become never or always, rare or very common, as `try --held` turns them. A book that is not noticed
in 34 of 40 needs worked cases; which numbers escaped is listed.
"""
import argparse
import collections
import json
import pathlib
import random
import re
import shutil
import subprocess
import tempfile

WORDS = {"never": "always", "rarely": "usually", "seldom": "often", "sometimes": "often",
         "often": "seldom", "usually": "rarely", "almost always": "rarely", "always": "never"}
OFTEN = {"very common": "rare", "common": "uncommon", "uncommon": "common", "rare": "very common"}
HIGH = {"often", "usually", "almost always", "always"}


def share(text):
    """p of '40 %', '0.4' or '2 of 5'; None of a word."""
    of = re.fullmatch(r"([\d.]+) of ([\d.]+)", text)
    if of:
        return float(of[1]) / float(of[2])
    percent = re.fullmatch(r"([\d.]+) ?%", text)
    if percent:
        return float(percent[1]) / 100
    return float(text) if re.fullmatch(r"[\d.]+", text) else None


def turned(kind, text, far):
    if kind == "how-often":
        if far and text in OFTEN:
            return "rare" if text in ("very common", "common") else "very common"
        return OFTEN.get(text)
    p = share(text)
    if far:
        middle = text == "about half the time" or (p is not None and 0.45 <= p <= 0.55)
        high = text in HIGH or (p is not None and p > 0.5)
        return None if middle else "never" if high else "always"
    if p is None:
        return WORDS.get(text)
    return None if 0.45 <= p <= 0.55 else f"{round(100 * (1 - p), 3):g} %"


def run(*words):
    return subprocess.run(words, capture_output=True, text=True)


def notices(program, folder):
    check = run(program, "check", folder)
    said = sorted(set(re.findall(r"\bT\d{3}\b", check.stdout + check.stderr)))
    if said:
        return "check " + " ".join(said)
    tried = run(program, "try", folder)
    return "try" if tried.returncode != 0 else None


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("program")
    ask.add_argument("book", type=pathlib.Path)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--count", type=int, default=40)
    ask.add_argument("--all", action="store_true")
    ask.add_argument("--far", action="store_true")
    given = ask.parse_args()
    numbers = json.loads(run(given.program, "try", str(given.book), "--held", "--json").stdout)["numbers"]
    able = [(n, t) for n in numbers if (t := turned(n["kind"], n["written"], given.far))]
    some = able if given.all else random.Random(given.seed).sample(able, given.count)
    by, escaped = collections.Counter(), []
    with tempfile.TemporaryDirectory() as folder:
        copy = pathlib.Path(folder) / "book"
        shutil.copytree(given.book, copy)
        for n, text in some:
            at, path = n["place"], copy / n["place"]["file"]
            before = path.read_bytes()
            assert before[at["start"]:at["end"]].decode() == n["written"], n
            path.write_bytes(before[:at["start"]] + text.encode() + before[at["end"]:])
            how = notices(given.program, str(copy))
            path.write_bytes(before)
            by[how or "nobody"] += 1
            if how is None:
                escaped.append(f"  {n['kind']} {', '.join(n['names'])}: {n['written']} to {text} ({at['at']})")
    print(f"{len(some) - len(escaped)} of {len(some)} noticed (of {len(numbers)} numbers {len(able)} have another side)")
    for how, count in by.most_common():
        print(f"  {count:4} {how}")
    print(*escaped, sep="\n")


if __name__ == "__main__":
    main()
