"""A program that holds many calls at once through `ask --json --many`. All that it knows of the protocol it reads from the
schema: what a turn has, how one replies, how a call is opened.

    many_client.py SCHEMA CALLS LINES PROGRAM WORDS...

Writes every line that came into LINES, and prints for each call how it ended.
"""
import json
import subprocess
import sys

schema_path, calls, lines_path, *command = sys.argv[1:]
with open(schema_path, encoding="utf-8") as file:
    schema = json.load(file)
replies = schema["definitions"]["reply"]["properties"]
opening = schema["definitions"]["opening"]["properties"]
kinds = schema["properties"]["kind"]["enum"]
ask = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, encoding="utf-8")
lines = open(lines_path, "w", encoding="utf-8")


def say(line):
    ask.stdin.write(json.dumps(line) + "\n")
    ask.stdin.flush()
    answer = ask.stdout.readline()
    lines.write(answer)
    turn = json.loads(answer)
    assert all(key in turn for key in schema["required"]), turn
    assert turn["kind"] in kinds and turn["key"] == line["key"], turn
    return turn


def reply_to(turn):
    ways = [way for way in turn["takes"] if way in replies]
    assert ways, turn
    if "choice" in ways and turn["choices"]:
        return {"choice": turn["choices"][0]["number"]}
    if "reading" in ways:
        return {"reading": turn["question"]["low"] or 1}
    return {"word": "unsure"}


assert set(opening) == {"key", "open"}
turns = {f"call {i}": say({"key": f"call {i}", "open": {}}) for i in range(int(calls))}
ended = {}
for _ in range(200):
    for key in [k for k in turns if k not in ended]:
        turns[key] = say({"key": key, **reply_to(turns[key])})
        assert turns[key]["wrong"] is None, turns[key]
        if turns[key]["kind"] == "end":
            ended[key] = turns[key]
ask.stdin.close()
for key in turns:
    print(key, ended[key]["how"], ended[key]["status"])
sys.exit(ask.wait())
