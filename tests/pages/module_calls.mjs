// Seeded random calls through the page's module and through `ask --json`: the same turns and the same records, byte for byte.
//
//   node module_calls.mjs TELLTALE MODULE SOURCE FIRST COUNT

import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, realpathSync, rmSync, statSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { createInterface } from 'node:readline';
import vm from 'node:vm';

const [telltale, moduleFile, source, first, count] = process.argv.slice(2);
if (!existsSync(moduleFile)) {
  console.log('skipped: the page\'s engine beside the program\'s: it is not built here; ./tests/run --everything brings what it is built with');
  process.exit(0);
}
const here = vm.createContext({ WebAssembly, TextEncoder, TextDecoder });
vm.runInContext(readFileSync(join(source, 'cli/page/module.js'), 'utf8') + '\nthis.Engine = Engine;', here);

// ---- chance, the same everywhere ----

function dice(seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x9E3779B9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85EBCA6B) >>> 0;
    z = Math.imul(z ^ (z >>> 13), 0xC2B2AE35) >>> 0;
    return ((z ^ (z >>> 16)) >>> 0) / 4294967296;
  };
  return { next, chance: p => next() < p, below: n => Math.floor(next() * n), of: list => list[Math.floor(next() * list.length)] };
}

// ---- books and sites ----

function filesOf(folder) {
  const found = [];
  const walk = at => {
    for (const name of readdirSync(at)) {
      const path = join(at, name);
      if (statSync(path).isDirectory()) walk(path);
      else if (/\.(yaml|yml|svg)$/.test(name)) found.push({ name: relative(folder, path), text: readFileSync(path, 'utf8') });
    }
  };
  walk(folder);
  return found.sort((a, b) => (a.name < b.name ? -1 : 1));
}

const foam = join(source, 'rules/foam-line'), dosing = join(source, 'rules/dosing-and-pumping');
const settings = [
  { book: foam, practice: true },
  { book: foam, site: join(source, 'tests/cli/foam-sites/two-arches.yaml') },
  { book: dosing, practice: true },
];

// ---- what a caller may say ----

const spoken = ['the foam is stiff', 'no foam', 'foam thin, air 55 psi', 'nothing comes out', 'esta seca la espuma', 'the pump is loud',
  'it smells of gas', 'somebody is hurt', 'help', 'not dry', '40', 'no chlorine', 'water is cloudy', 'yes', 'no', '2', '🙂', '{"a":1}', ' '];

function reply(turn, d) {
  const takes = turn.takes ?? [], choices = turn.choices ?? [];
  if (d.chance(0.02)) return { choice: 'no-such-choice' };
  if (d.chance(0.02)) return { answer: d.of(spoken), extra: 1 };
  if (turn.kind === 'danger' || turn.kind === 'stop') {
    const no = choices.find(c => /^(no|safe|none)$/.test(c.name));
    if (no && d.chance(0.93)) return { choice: no.name };
  }
  if (takes.includes('reading') && d.chance(0.7)) return d.chance(0.7) ? { reading: Math.round(d.next() * 800) / 10 } : { answer: `${d.below(90)} psi` };
  if (takes.includes('options') && d.chance(0.5)) return { options: [d.of(choices).name] };
  if (takes.includes('word') && d.chance(0.14)) return { word: d.of(turn.words.filter(w => w !== 'stop' && w !== 'hold')) };
  if (turn.kind === 'complaint' ? d.chance(0.6) : d.chance(0.06)) return { answer: d.of(spoken) };
  if (choices.length > 0) return { choice: d.chance(0.5) ? d.of(choices).name : d.below(choices.length) + 1 };
  return { answer: d.of(spoken) };
}

// ---- one call, twice ----

const engines = new Map();
async function engineFor(setting, turn) {
  const key = JSON.stringify(setting);
  if (!engines.has(key)) {
    const site = setting.site ? { name: setting.site, path: realpathSync(setting.site), revision: turn.site.revision, text: readFileSync(setting.site, 'utf8') } : null;
    const setup = { folder: realpathSync(setting.book), revision: turn.book.revision, files: filesOf(setting.book), site, practice: setting.practice === true };
    engines.set(key, await here.Engine.open(readFileSync(moduleFile), new TextEncoder().encode(JSON.stringify(setup))));
  }
  return engines.get(key);
}

class Program {
  constructor(args) {
    this.child = spawn(telltale, args, { stdio: ['pipe', 'pipe', 'inherit'] });
    this.lines = createInterface({ input: this.child.stdout })[Symbol.asyncIterator]();
    this.ended = new Promise(done => this.child.on('close', done));
  }
  async read() {
    const { value, done } = await this.lines.next();
    if (done) throw new Error('the program ended without a turn');
    return value;
  }
  async say(value) {
    this.child.stdin.write(JSON.stringify(value) + '\n');
    return this.read();
  }
}

const hex = (number, digits) => number.toString(16).padStart(digits, '0');
const moment = (seed, step) => new Date(Date.UTC(2026, 10, 29, 9, 0, 0) + seed * 60000 + step * 20000).toISOString();

// How to go on stands on the program's last page, as a command; the page has no commands.
function withoutCommand(line) {
  const turn = JSON.parse(line);
  if (!turn.parts.some(p => p.kind === 'command')) return line;
  turn.parts = turn.parts.filter(p => p.kind !== 'command');
  delete turn.text;
  return JSON.stringify(turn);
}
function withoutText(line) {
  const turn = JSON.parse(line);
  delete turn.text;
  return JSON.stringify(turn);
}

// The program had shown its cautions once before it heard as what the case begins.
function asIfFirst(line) {
  const turn = JSON.parse(line);
  for (const caution of turn.cautions) caution.new = true;
  return JSON.stringify(turn);
}

// Whether what was said of the site goes into its file is asked by the program, after the case: the page has no such file.
async function pastItsOwnQuestion(program, line, now) {
  const turn = JSON.parse(line);
  if (turn.kind !== 'keep-facts') return line;
  return (await program.say({ choice: 'no', now })).replace(/"turn":\d+/, `"turn":${turn.turn}`);
}

let turns = 0, records = 0, worst = 0, total = 0;

async function play(seed) {
  const d = dice(seed), setting = d.of(settings), cases = mkdtempSync(join(tmpdir(), 'module-calls-'));
  const program = new Program(['ask', setting.book, '--json', '--cases', cases, '--name', 'a tester',
    ...(setting.practice ? ['--practice'] : ['--site', setting.site])]);
  const engine = await engineFor(setting, JSON.parse(await program.read()));
  const id = `019b1b48-9420-7e45-8172-${hex(seed, 12)}`, begin = { case: id, writer: 'a-tester', now: moment(seed, 0) };
  const kept = [];
  const through = said => {
    if (said.wrong) throw new Error(said.wrong);
    kept.push(...said.keep);
    return said.turn ?? engine.kept(true).turn;
  };
  let theirs = await program.say({ begin }), ours = through(engine.begin({ ...begin, by: 'a tester', on: hostname(), kept: true, records: [] }));
  for (let step = 1; ; step++) {
    turns++;
    const turn = JSON.parse(theirs), over = turn.kind === 'end';
    if (step === 1) theirs = asIfFirst(theirs);
    const [a, b] = over ? [withoutCommand(theirs), theirs === withoutCommand(theirs) ? ours : withoutText(ours)] : [theirs, ours];
    if (a !== b) {
      let at = 0;
      while (a[at] === b[at]) at++;
      throw new Error(`call ${seed}, turn ${turn.turn} (${turn.kind}):\n  ${a.slice(Math.max(0, at - 200), at + 200)}\n  ${b.slice(Math.max(0, at - 200), at + 200)}`);
    }
    if (over) break;
    const said = { ...(step > 45 ? { word: 'stop' } : reply(turn, d)), now: moment(seed, step) };
    if (step > 60) break;
    theirs = await pastItsOwnQuestion(program, await program.say(said), said.now);
    const before = performance.now();
    ours = through(engine.hear(said));
    const took = performance.now() - before;
    total += took;
    worst = Math.max(worst, took);
  }
  program.child.stdin.end();
  await program.ended;
  const folder = filesOfCases(cases);
  const written = folder.length > 0 ? readFileSync(folder[0], 'utf8').trimEnd().split('\n') : [];
  records += written.length;
  // a call that was not ended by a word is left by the program itself, with a record more
  const differs = kept.findIndex((line, i) => line !== written[i]);
  if (differs >= 0 || written.length - kept.length > 1) throw new Error(`call ${seed}, record ${differs + 1} of ${kept.length} and ${written.length}:\n  ${written[differs]}\n  ${kept[differs]}`);
  rmSync(cases, { recursive: true });
}

function filesOfCases(at) {
  return readdirSync(at).flatMap(name => (statSync(join(at, name)).isDirectory() ? filesOfCases(join(at, name)) : name.endsWith('.jsonl') ? [join(at, name)] : []));
}

for (let seed = Number(first); seed < Number(first) + Number(count); seed++) await play(seed);
console.log(`${count} calls, ${turns} turns and ${records} records: the same through the module and the program`);
if (process.env.TT_TIMES) console.log(`a reply through the module: ${(total / turns).toFixed(1)} ms, at most ${worst.toFixed(1)} ms`);
if (turns < 3 * count) throw new Error('these calls were too short to show anything');
