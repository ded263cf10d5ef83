// The page for a phone, as a browser shows it: a case played by touch and by keys alone, every screen looked at by axe-core, html-validate, for room
// and for the red bar; nothing is requested; a page killed in mid-case goes on; a case goes out and in; where nothing is kept, or there is no room, it says so.
//
//   node phone.mjs TELLTALE SOURCE [FOLDER FOR PICTURES OF ALL SCREENS]; TT_PAGE_TOOLS is where package.json was installed.

import { spawnSync } from 'node:child_process';
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fail, faults, holds, launched, launchedIn, made, need, opened, pictures, program, scratch, skipWithoutTools, source, then, touch } from './phone_kit.mjs';

skipWithoutTools('the page for a phone in a browser');
const practice = made('practice'), site = made('site', '--site', join(source, 'tests/cli/foam-sites/two-arches.yaml')),
  stands = made('stands', '--site', join(source, 'rules/foam-line-two-stands.yaml'));
const { HtmlValidate } = need('html-validate');
const axe = readFileSync(need.resolve('axe-core/axe.min.js'), 'utf8');
const validator = new HtmlValidate({ extends: ['html-validate:recommended'], rules: { 'no-inline-style': 'off' } });

let screens = 0;

async function look(page, name) {
  screens++;
  if (pictures) await page.screenshot({ path: join(pictures, `${name.replace(/\W+/g, '-')}.png`) });
  const seen = await page.evaluate(() => ({
    wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    danger: (() => { const b = document.getElementById('danger').getBoundingClientRect(); return b.height >= 48 && b.bottom <= window.innerHeight + 1 && b.top >= 0; })(),
    small: [...document.querySelectorAll('button, a, summary, .tick, input[type=text]')].filter(e => e.offsetParent !== null && !e.closest('p, li'))
      .filter(e => e.getBoundingClientRect().height < 47.5).map(e => e.outerHTML.slice(0, 80)),
    font: parseFloat(getComputedStyle(document.querySelector('#turn')).fontSize),
    practice: document.getElementById('marks').textContent.includes('PRACTICE'),
  }));
  holds(name, seen.wide <= 0, `${seen.wide} px too wide`);
  holds(name, seen.danger, 'the red bar is not there whole');
  holds(name, seen.small.length === 0, `too small to touch: ${seen.small.join(' ')}`);
  holds(name, seen.font >= 18, `letters of ${seen.font} px`);
  await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
  for (const v of found.violations) fail(name, `${v.id}: ${v.help}: ${v.nodes[0].html.slice(0, 120)}`);
  return seen;
}

const choices = page => page.evaluate(() => [...document.querySelectorAll('#turn [data-choice]')].map(b => b.dataset.choice));

// A case to its end, each screen looked at. `say`: how one screen is answered.
async function play(page, size, say) {
  await touch(page, '#new');
  for (let step = 0; step < 40; step++) {
    const kind = await page.evaluate(() => window.telltaleTurn().kind);
    await look(page, `${size} ${step} ${kind}`);
    if (kind === 'end') return step;
    await say(page, kind);
  }
  fail(size, 'the case does not end');
  return 0;
}

async function byTouch(page, kind) {
  const offered = await choices(page);
  if (kind === 'complaint') return then(page, async () => {
    await page.fill('#own', 'the foam is too dry');
    await page.locator('.own button').click();
  });
  for (const tick of await page.locator('.tick input').all()) await tick.check();
  if (await page.locator('#number').count() > 0) {
    for (const digit of ['5', '5']) await page.locator('.pad button', { hasText: digit }).click();
    return touch(page, '#send');
  }
  const wanted = ['safe', 'foam-too-dry', 'yes', 'right', 'begin', 'done', 'gone', 'go-on'].find(c => offered.includes(c));
  if (wanted) return touch(page, `[data-choice="${wanted}"]`);
  return touch(page, await page.locator('[data-word=unsure]').count() > 0 ? '[data-word=unsure]' : '[data-choice]');
}

async function byKeys(page, kind) {
  if (kind === 'complaint') return then(page, async () => {
    await page.keyboard.press('Tab');
    for (let i = 0; i < 60 && await page.evaluate(() => document.activeElement.id) !== 'own'; i++) await page.keyboard.press('Tab');
    await page.keyboard.type('the foam is too dry');
    await page.keyboard.press('Enter');
  });
  const ticks = await page.locator('.tick input').count();
  for (let i = 0, done = 0; i < 80 && done < ticks; i++) {
    await page.keyboard.press('Tab');
    if (!await page.evaluate(() => document.activeElement.matches('.tick input'))) continue;
    await page.keyboard.press('Space');
    done++;
  }
  if (await page.locator('#number').count() > 0) return then(page, async () => {
    for (let i = 0; i < 60 && await page.evaluate(() => document.activeElement.id) !== 'number'; i++) await page.keyboard.press('Tab');
    await page.keyboard.type('55');
    await page.keyboard.press('Enter');
  });
  return then(page, () => page.keyboard.press('1'));
}

// ---- what is tried ----

async function severalSizes(browser) {
  for (const [width, height, how] of [[390, 844, byTouch], [1366, 768, byKeys]]) {
    const context = await browser.newContext({ viewport: { width, height }, bypassCSP: true, colorScheme: width === 390 ? 'dark' : 'light' });
    const page = await opened(context, practice), size = `${width}x${height}`;
    await look(page, `${size} cases`);
    const steps = await play(page, size, how);
    holds(size, steps >= 6, `over after ${steps} turns`);
    holds(size, (await page.evaluate(() => document.getElementById('marks').textContent)).includes('PRACTICE'), 'does not say that it is practice');
    await touch(page, '#more');
    await look(page, `${size} more`);
    for (const result of (await validator.validateString(await page.content())).results)
      for (const m of result.messages) if (!/raw-text|script/.test(m.ruleId)) fail(size, `${m.line}:${m.column} ${m.message} [${m.ruleId}]`);
    holds(size, page.requests.length === 1, `requests: ${page.requests.join(' ')}`);
    await context.close();
  }
}

// Somebody is caught, and it smokes: that whoever helps is safe, and what to do at once, of both, stands before any telephone, and the emergency number before the others; so after a reload.
async function inTwoDangers(browser) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'es-MX' }), page = await opened(context, stands);
  await touch(page, '#new');
  await touch(page, '[data-choice=safe]');
  await then(page, async () => {
    await page.fill('#own', 'hay humo y mi compañero está atrapado en el cepillo');
    await page.locator('.own button').click();
  });
  await look(page, 'two dangers');
  const told = () => page.evaluate(() => [...document.querySelectorAll('#turn [data-part], #turn a.call')].map(e => e.dataset.part ?? e.getAttribute('href')));
  const first = await told();
  holds('two dangers', first.slice(0, 4).join(' ') === 'do do do tel:911', `in this order: ${first.join(' ')}`);
  await page.reload();
  await page.waitForFunction(() => document.body.dataset.ready);
  await touch(page, '[data-case]');
  holds('two dangers', (await told()).join() === first.join(), `after a reload: ${(await told()).join(' ')}`);
  await context.close();
}

// As written, with its policy in force.
async function pointed(browser) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } }), page = await opened(context, practice);
  await touch(page, '#new');
  await touch(page, '[data-choice=safe]');
  holds('picture', await page.locator('.area').count() >= 5, 'no areas to touch');
  await touch(page, '.area');
  holds('picture', (await page.evaluate(() => window.telltaleTurn().kind)) !== 'complaint', 'a touched area says nothing');
  await touch(page, '#danger');
  holds('danger', (await page.evaluate(() => window.telltaleTurn().dangerous)) === true, 'one touch on the red bar is not enough');
  holds('policy', page.requests.length === 1, `requests: ${page.requests.join(' ')}`);
  await context.close();
}

async function killed() {
  const folder = join(scratch, 'profile'), options = { viewport: { width: 390, height: 844 }, bypassCSP: true };
  let context = await launchedIn(folder, options);
  let page = await opened(context, site);
  holds('site', !(await page.evaluate(() => document.getElementById('marks').textContent)).includes('PRACTICE'), 'says that it is practice');
  await touch(page, '#new');
  await touch(page, '[data-choice=safe]');
  await then(page, async () => {
    await page.fill('#own', 'no foam comes out');
    await page.keyboard.press('Enter');
  });
  const before = await page.evaluate(() => window.telltaleLines());
  await page.goto('chrome://crash').catch(() => {}); // the renderer dies in mid-case
  await context.close();
  context = await launchedIn(folder, options);
  page = await opened(context, site);
  await look(page, 'reopened');
  await touch(page, '[data-case]');
  const after = await page.evaluate(() => window.telltaleLines());
  holds('killed', before.length > 1 && before.every((line, i) => line === after[i]), 'something of the case is lost');

  // out, and in again; what a desk does with the file is tried in tests/cli/test_case_file.c
  const file = join(scratch, 'case.jsonl');
  await touch(page, '#more');
  await page.locator('#pass-on').click();
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('#save').click()]);
  await download.saveAs(file);
  holds('passed on', readFileSync(file, 'utf8') === after.join('\n') + '\n', 'the file is not the case');
  await page.reload();
  await page.waitForFunction(() => document.body.dataset.ready);
  await page.locator('summary').click();
  await look(page, 'take in');
  await then(page, () => page.setInputFiles('#file', file));
  await touch(page, '[data-case]');
  holds('taken in', (await page.evaluate(() => window.telltaleLines())).length >= after.length, 'something of it is not there');
  await context.close();
}

// A case that was begun here, and goes on in the other language, is taken over at a desk, and comes back with what was done there.
async function handedBack(browser) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'en' });
  const page = await opened(context, practice), file = join(scratch, 'handed.jsonl'), cases = join(scratch, 'desk');
  await touch(page, '#new');
  await touch(page, '[data-choice=safe]');
  await then(page, async () => {
    await page.fill('#own', 'the foam is too dry');
    await page.keyboard.press('Enter');
  });
  await touch(page, '#more');
  await touch(page, '[data-language=es]');
  await page.waitForFunction(() => window.telltaleTurn().language === 'es');
  const ours = await page.evaluate(() => window.telltaleLines());
  writeFileSync(file, ours.join('\n') + '\n');
  const desk = spawnSync(program, ['ask', '--case', file, '--cases', cases, '--name', 'desk', '--plain'], { input: '3\n1\nstop\n', encoding: 'utf8' });
  holds('at the desk', desk.status === 3, `it ends with ${desk.status}: ${desk.stderr}`);
  const theirs = readFileSync(file, 'utf8').trimEnd().split('\n');
  holds('at the desk', ours.every((line, i) => theirs[i] === line), 'what the page wrote is not as it was');
  holds('at the desk', theirs.slice(ours.length).map(line => JSON.parse(line).kind).join(' ') === 'resume answer stop', 'what was done there is not in the file');

  await page.reload();
  await page.waitForFunction(() => document.body.dataset.ready);
  await page.locator('summary').click();
  await then(page, () => page.setInputFiles('#file', file));
  await touch(page, '[data-case]');
  const after = await page.evaluate(() => window.telltaleLines());
  const other = await opened(context, site); // the page of a site beside it, which keeps its cases in the same place
  holds('another page', await other.locator('[data-case]').count() === 0, 'it shows a case of practice');
  await other.locator('summary').click();
  await then(other, () => other.setInputFiles('#file', file));
  holds('another page', await other.locator('[role=alert]').count() === 1 && await other.locator('[data-case]').count() === 0, 'it takes in a case of practice');
  holds('handed back', theirs.every(line => after.includes(line)), 'the page lacks what the desk did');
  holds('handed back', (await page.evaluate(() => window.telltaleTurn().language)) === 'es', 'it has forgotten its language');
  holds('handed back', await page.evaluate(() => document.getElementById('marks').textContent.includes('PRÁCTICA')), 'it does not say so');
  await context.close();
}

async function nowhereToKeep(browser) {
  const context = await browser.newContext({ viewport: { width: 320, height: 568 } });
  await context.addInitScript(() => { Object.defineProperty(window, 'indexedDB', { value: undefined }); });
  const page = await opened(context, practice);
  const said = () => page.evaluate(() => document.getElementById('marks').textContent);
  holds('nothing kept', (await said()).includes('NOT KEPT'), 'it does not say so');
  await touch(page, '#new');
  await touch(page, '[data-choice=safe]');
  holds('nothing kept', (await said()).includes('NOT KEPT'), 'it does not say so on each screen');
  await context.close();

  const full = await browser.newContext({ viewport: { width: 320, height: 568 } });
  const other = await opened(full, practice);
  await touch(other, '#new');
  await other.evaluate(() => {
    IDBObjectStore.prototype.add = function () { throw new DOMException('no room', 'QuotaExceededError'); };
  });
  await touch(other, '[data-choice=safe]');
  holds('no room', (await other.evaluate(() => document.getElementById('marks').textContent)).includes('no room left'), 'it does not say so');
  await full.close();
}

// The browser's language is the page's; a touch changes it where the case stands, and it stays so.
async function inTwoLanguages(browser) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'es-MX' });
  const page = await opened(context, practice);
  const says = words => page.evaluate(text => document.body.innerText.includes(text), words);
  holds('in Spanish', await says('PELIGRO') && !await says('DANGER'), 'the page is not in the browser\'s language');
  await touch(page, '#new');
  await touch(page, '[data-choice=safe]');
  await look(page, 'in Spanish, complaint');
  holds('in Spanish', await says('El frente queda sin espuma'), 'the book is not');
  await touch(page, '#more');
  await look(page, 'in Spanish, more');
  await touch(page, '[data-language=en]');
  await page.waitForFunction(() => document.documentElement.lang === 'en');
  await look(page, 'changed to English');
  holds('changed to English', await says('DANGER') && !await says('PELIGRO'), 'it still speaks Spanish');
  holds('changed to English', (await page.evaluate(() => window.telltaleTurn().language)) === 'en', 'the case does');
  await page.reload();
  await page.waitForFunction(() => document.body.dataset.ready);
  holds('opened again', await says('DANGER'), 'the language that was chosen is forgotten');
  await context.close();
}

const browser = await launched();
await severalSizes(browser);
await pointed(browser);
await inTwoDangers(browser);
await handedBack(browser);
await nowhereToKeep(browser);
await inTwoLanguages(browser);
await browser.close();
await killed();
for (const path of [practice, site]) holds(path, statSync(path).size <= 700 * 1024, `${statSync(path).size} bytes are more than a mail takes`);
console.log(`${screens} screens, ${faults()} faults; the page is ${statSync(practice).size} bytes`);
process.exit(faults() === 0 ? 0 : 1);
