// Ten calls on the page for a phone, by touch alone and each to an end, in windows of four sizes, English and Spanish, light and dark. On each screen:
// nothing is cut or hidden, nothing lies too close together, and one touch on the red bar says what to do in danger.
//
//   node phone_calls.mjs TELLTALE SOURCE [FOLDER FOR PICTURES OF ALL SCREENS]; TT_PAGE_TOOLS is where package.json was installed.

import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fail, faults, holds, launched, made, opened, pictures, skipWithoutTools, touch } from './phone_kit.mjs';

skipWithoutTools('ten calls on the page for a phone');
const page = made('practice');
const sizes = [[320, 568], [390, 844], [768, 1024], [1366, 768]];
const calls = Number(process.env.TT_CALLS ?? 10);
let screens = 0, dangers = 0;

// ---- chance, the same everywhere ----

function dice(seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state >>> 8) / 16777216;
  };
  return { chance: p => next() < p, of: list => list[Math.floor(next() * list.length)] };
}

// ---- what is seen ----

// In the browser: what stands between a person and this screen.
function troubles() {
  const found = [], root = document.documentElement, bar = document.getElementById('danger').getBoundingClientRect();
  const say = (words, element) => found.push(`${words}: ${element.outerHTML.replace(/<svg.*?<\/svg>/s, '').slice(0, 120)}`);
  const shown = element => element.checkVisibility() && element.getBoundingClientRect().width > 0;
  if (root.scrollWidth > root.clientWidth) found.push(`${root.scrollWidth - root.clientWidth} px too wide`);
  if (bar.height < 48 || bar.bottom > innerHeight + 1 || bar.top < 0) found.push('the red bar is not there whole');
  for (const element of document.querySelectorAll('#turn *, #head *, #foot *')) {
    if (!shown(element) || element.closest('svg')) continue;
    const box = element.getBoundingClientRect();
    if (box.right > innerWidth + 1 || box.left < -1) say('beyond the edge', element);
    if (element.scrollWidth > element.clientWidth + 1 && !element.matches('input, textarea') && getComputedStyle(element).display !== 'inline') say('cut', element);
  }
  const targets = [...document.querySelectorAll('button, a, summary, .tick, input[type=text], input[type=file], textarea')].filter(shown);
  for (const target of targets) {
    target.scrollIntoView({ block: 'nearest' });
    const box = target.getBoundingClientRect();
    const top = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    if (!target.contains(top) && !target.closest('label')?.contains(top)) say('covered', target);
    if (!target.closest('p, li') && (box.height < 47.5 || box.width < 47.5)) say(`too small to touch, ${box.width.toFixed(0)}×${box.height.toFixed(0)}`, target);
  }
  document.getElementById('columns').scrollTop = 0;
  return found;
}

async function look(window, name) {
  screens++;
  if (pictures) {
    mkdirSync(pictures, { recursive: true });
    await window.screenshot({ path: join(pictures, `${name.replace(/\W+/g, '-')}.png`) });
  }
  for (const trouble of await window.evaluate(troubles)) fail(name, trouble);
}

const turnOf = window => window.evaluate(() => window.telltaleTurn());

// One touch, and back again.
async function dangerFromHere(window, name) {
  const before = await turnOf(window);
  if (before.kind === 'stop') return;
  dangers++;
  await touch(window, '#danger');
  if (before.kind === 'end') await window.waitForFunction(() => window.telltaleTurn().kind !== 'danger'); // a new case has begun with it
  holds(name, (await turnOf(window)).kind === 'stop', 'one touch on the red bar is not enough');
  await touch(window, '[data-choice=mistaken]');
  holds(name, (await turnOf(window)).kind !== 'stop', 'there is no way back from danger');
}

// ---- what is done ----

const complaints = ['the foam is too dry', 'no foam comes out', 'the foam is too wet', 'the pump is loud', 'foam on one side only'];

async function answered(window, turn, d) {
  const offered = turn.choices.map(c => c.name);
  for (const tick of await window.locator('.tick input').all()) await tick.check();
  if (turn.takes.includes('reading') && d.chance(0.8)) {
    for (const digit of [d.of('123456789'), d.of('0123456789')]) await window.locator('.pad button', { hasText: digit }).click();
    return touch(window, '#send');
  }
  if (turn.takes.includes('options')) {
    await window.locator(`[data-choice="${d.of(offered)}"]`).click();
    return touch(window, '#turn button.main');
  }
  if (turn.kind === 'complaint' && await window.locator('.area').count() > 0 && d.chance(0.5)) return touch(window, '.area');
  if (turn.kind === 'complaint' && turn.takes.includes('answer') && d.chance(0.5)) {
    await window.fill('#own', d.of(complaints));
    return touch(window, '.own button');
  }
  if (turn.dangerous || ['danger', 'before-fix', 'fix-step'].includes(turn.kind)) {
    const on = ['safe', 'yes', 'begin', 'done'].find(c => offered.includes(c));
    if (on && d.chance(0.9)) return touch(window, `[data-choice="${on}"]`);
  }
  if (offered.length > 0) return touch(window, `[data-choice="${d.of(offered)}"]`);
  return touch(window, '[data-word]');
}

// A call to its end; false: it came to none.
async function call(window, name, d, seen) {
  await touch(window, '#new');
  for (let step = 0; step < 80; step++) {
    const turn = await turnOf(window), here = `${name} ${step} ${turn.kind}`;
    await look(window, here);
    if (!seen.has(turn.kind)) await dangerFromHere(window, here);
    seen.add(turn.kind);
    if (turn.kind === 'end') return true;
    await answered(window, await turnOf(window), d);
  }
  return false;
}

// What the page shows beside the conversation.
async function besides(window, name) {
  await touch(window, '#more');
  await look(window, `${name} more`);
  await dangerFromHere(window, `${name} more`);
  await touch(window, '#more');
  await touch(window, '#pass-on');
  await look(window, `${name} pass on`);
  await dangerFromHere(window, `${name} pass on`);
  await touch(window, '#more');
  await touch(window, '#all-cases');
  await window.locator('summary').click();
  await look(window, `${name} cases`);
  await touch(window, '.case .aside');
  await look(window, `${name} erase`);
  await touch(window, '#danger');
  await window.waitForFunction(() => window.telltaleTurn().kind === 'stop');
}

const browser = await launched(), kinds = new Map();
for (let i = 0; i < calls; i++) {
  const [width, height] = sizes[i % 4], language = (i + (i >> 2)) % 2 === 0 ? 'en' : 'es', dark = (i >> 1) % 2 === 1, d = dice(20261129 + i);
  const context = await browser.newContext({ viewport: { width, height }, locale: language, hasTouch: true, colorScheme: dark ? 'dark' : 'light', bypassCSP: true });
  const window = await opened(context, page), name = `${i} ${width}x${height} ${language} ${dark ? 'dark' : 'light'}`;
  const seen = kinds.get(width) ?? kinds.set(width, new Set()).get(width);
  await look(window, `${name} first`);
  holds(name, await call(window, name, d, seen), 'the call does not end');
  if (i < 4) await besides(window, name);
  holds(name, window.requests.length === 1, `requests: ${window.requests.join(' ')}`);
  await context.close();
}
await browser.close();
console.log(`${calls} calls, ${screens} screens, ${dangers} touches of the red bar, ${faults()} faults`);
process.exit(faults() === 0 ? 0 : 1);
