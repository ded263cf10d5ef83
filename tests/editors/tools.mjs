// What the tests of this folder share: the program, a scratch folder, and what npm brought, or skipping without it.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

export const [program, source] = process.argv.slice(2);
export const tools = join(process.env.TT_PAGE_TOOLS ?? '', 'node_modules');
export const need = createRequire(resolve(tools, 'any.js'));

export function skipWithout(what, ...packages) {
  for (const name of packages) {
    if (existsSync(join(tools, name))) continue;
    console.log(`skipped: ${what}: ${join(tools, name)} is not here; ./tests/run --everything brings it`);
    process.exit(77);
  }
}

export const scratch = mkdtempSync(join(tmpdir(), 'telltale-editors-'));
process.on('exit', () => rmSync(scratch, { recursive: true, force: true }));

// What the program says; its status may be any of those.
export function telltale(words, ...statuses) {
  const ended = spawnSync(program, words, { encoding: 'utf8', maxBuffer: 1 << 28 });
  if (!statuses.includes(ended.status)) throw new Error(`telltale ${words.join(' ')} ended with ${ended.status}: ${ended.stderr}`);
  return ended.stdout;
}

let failures = 0, checks = 0;
export function expect(good, words) {
  checks++;
  if (good) return;
  failures++;
  console.error(words);
}

export function finish() {
  console.log(`${checks - failures} passed, ${failures} failed`);
  process.exit(failures === 0 && checks > 0 ? 0 : 1);
}
