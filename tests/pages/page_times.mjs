// How long the page for a phone takes, by its own clock: until its first screen, until the first question is there, and for each answer; as fast as this
// machine is, and at a sixth of that. It says what it measured, and asserts nothing.
//
//   node page_times.mjs TELLTALE SOURCE; TT_PAGE_TOOLS is where package.json was installed.

import { loadavg } from 'node:os';
import { launched, made, opened, skipWithoutTools, touch } from './phone_kit.mjs';

skipWithoutTools('how long the page for a phone takes');
const page = made('practice'), browser = await launched();
const median = list => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

async function answer(window) {
  for (const tick of await window.locator('.tick input').all()) await tick.check();
  const turn = await window.evaluate(() => window.telltaleTurn());
  if (turn.takes.includes('reading')) {
    await window.fill('#number', '55');
    return touch(window, '#send');
  }
  const wanted = ['safe', 'foam-too-dry', 'yes', 'right', 'begin', 'done', 'same'].find(c => turn.choices.some(choice => choice.name === c));
  return touch(window, wanted ? `[data-choice="${wanted}"]` : '[data-choice]');
}

// What the page does from a touch until the next turn is drawn, by marks around its own function.
async function timed(window) {
  await window.evaluate(() => {
    window.took = [];
    const inner = follow;
    follow = async said => {
      await inner(said);
      window.took.push(performance.now() - window.touched);
    };
    document.addEventListener('click', () => { window.touched = performance.now(); }, true);
    document.addEventListener('keydown', () => { window.touched = performance.now(); }, true);
  });
}

async function measured(slower) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'en', bypassCSP: true });
  const window = await opened(context, page, slower);
  const first = await window.evaluate(() => performance.now());
  await timed(window);
  await touch(window, '#new');
  for (let i = 0; i < 25 && await window.evaluate(() => window.telltaleTurn().kind) !== 'end'; i++) await answer(window);
  const took = await window.evaluate(() => window.took);
  await context.close();
  return { first, question: took[0], turns: took.slice(1) };
}

for (const slower of [1, 6]) {
  const runs = [];
  for (let i = 0; i < 3; i++) runs.push(await measured(slower));
  const turns = runs.flatMap(run => run.turns), first = median(runs.map(run => run.first)), question = median(runs.map(run => run.question));
  console.log(`at 1/${slower} of the speed: first screen ${first.toFixed(0)} ms, first question ${(first + question).toFixed(0)} ms; ` +
    `an answer ${median(turns).toFixed(0)} ms, at most ${Math.max(...turns).toFixed(0)} ms (${turns.length} answers; load ${loadavg()[0].toFixed(1)})`);
}
await browser.close();
