#!/usr/bin/env python3
"""How long a turn takes, and how much memory a call has, with so many calls open in one process.

    many_calls.py TELLTALE BOOK [--open 50,1000] [--turns 400]

Each number of open calls is measured in a process of its own, with the cases kept in a new folder: every turn waits
for the disk. What a call has of memory is what the process has more with all of them open than with one.
"""
import argparse
import json
import random
import statistics
import subprocess
import tempfile
import time


def resident_kib(pid):
    with open(f"/proc/{pid}/status", encoding="utf-8") as file:
        return next(int(line.split()[1]) for line in file if line.startswith("VmRSS"))


class Calls:
    def __init__(self, program, book, cases):
        words = [program, "ask", book, "--practice", "--json", "--many"]
        words += ["--cases", cases] if cases else ["--unsaved"]
        self.ask = subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, encoding="utf-8")
        self.took = []

    def say(self, line):
        begun = time.perf_counter()
        self.ask.stdin.write(json.dumps(line) + "\n")
        self.ask.stdin.flush()
        turn = json.loads(self.ask.stdout.readline())
        self.took.append((time.perf_counter() - begun) * 1000)
        return turn


def reply_to(turn):
    if turn["kind"] == "danger":
        return {"choice": turn["choices"][-1]["number"] if "unsure" in turn["choices"][0]["name"] else 1}
    if turn["choices"]:
        return {"choice": 1}
    return {"word": "unsure"}


def measure(args, many, kept):
    with tempfile.TemporaryDirectory() as cases:
        calls = Calls(args.program, args.book, cases if kept else None)
        turns = {}
        for i in range(many):
            key = str(i)
            calls.say({"key": key, "open": {}})
            turns[key] = calls.say({"key": key, "choice": "safe"})
            if i == 0:
                first = resident_kib(calls.ask.pid)
        each = (resident_kib(calls.ask.pid) - first) / max(1, many - 1)
        calls.took = []
        draw = random.Random(1)
        for _ in range(args.turns):
            key = draw.choice(list(turns))
            turns[key] = calls.say({"key": key, **reply_to(turns[key])})
            if turns[key]["kind"] == "end":
                del turns[key]
        calls.ask.stdin.close()
        calls.ask.stdout.read()
        calls.ask.wait()
    took = sorted(calls.took)
    print(f"{many} open, {'kept' if kept else 'unsaved'}: a turn takes {statistics.median(took):.2f} ms (median), "
          f"{took[int(len(took) * .99)]:.2f} ms (99 of 100); a call has {each:.0f} KiB")


parser = argparse.ArgumentParser()
parser.add_argument("program")
parser.add_argument("book")
parser.add_argument("--open", default="50,1000")
parser.add_argument("--turns", type=int, default=400)
args = parser.parse_args()
for number in args.open.split(","):
    for kept in (False, True):
        measure(args, int(number), kept)
