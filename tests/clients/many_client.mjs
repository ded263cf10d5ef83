// The same as many_client.py, in another language: all that it knows of the protocol stands in the schema.
//
//     many_client.mjs SCHEMA CALLS LINES PROGRAM WORDS...
import { spawn } from "node:child_process";
import { createWriteStream, readFileSync } from "node:fs";
import { createInterface } from "node:readline";

const [schemaPath, calls, linesPath, program, ...words] = process.argv.slice(2);
const schema = JSON.parse(readFileSync(schemaPath, "utf8"));
const replies = schema.definitions.reply.properties;
const ask = spawn(program, words, { stdio: ["pipe", "pipe", "inherit"] });
const came = createInterface({ input: ask.stdout })[Symbol.asyncIterator]();
const lines = createWriteStream(linesPath);

function must(holds, turn) {
  if (!holds) throw new Error(JSON.stringify(turn));
}

async function say(line) {
  ask.stdin.write(`${JSON.stringify(line)}\n`);
  const { value } = await came.next();
  lines.write(`${value}\n`);
  const turn = JSON.parse(value);
  must(schema.required.every((key) => key in turn), turn);
  must(schema.properties.kind.enum.includes(turn.kind) && turn.key === line.key, turn);
  return turn;
}

function replyTo(turn) {
  const ways = turn.takes.filter((way) => way in replies);
  must(ways.length > 0, turn);
  if (ways.includes("choice") && turn.choices.length > 0) return { choice: turn.choices[0].number };
  if (ways.includes("reading")) return { reading: turn.question.low ?? 1 };
  return { word: "unsure" };
}

const turns = new Map();
const ended = new Map();
for (let i = 0; i < Number(calls); i++) turns.set(`call ${i}`, await say({ key: `call ${i}`, open: {} }));
for (let round = 0; round < 200; round++) {
  for (const [key, turn] of turns) {
    if (ended.has(key)) continue;
    const next = await say({ key, ...replyTo(turn) });
    must(next.wrong === null, next);
    turns.set(key, next);
    if (next.kind === "end") ended.set(key, next);
  }
}
ask.stdin.end();
for (const key of turns.keys()) console.log(key, ended.get(key).how, ended.get(key).status);
const [status] = await new Promise((done) => ask.on("exit", (...how) => done(how)));
lines.end(() => process.exit(status));
