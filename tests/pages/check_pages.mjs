// Pages as a browser shows them: valid HTML, axe-core's rules, contrast as it is drawn, nothing loaded, nothing run, and room on
// a small screen. Called with the program and the top of the checkout; TT_PAGE_TOOLS is where package.json was installed.
// Ends with 77 (skipped) where there is no browser or no tools.
import { execFileSync, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [program, source] = process.argv.slice(2);
const tools = join(process.env.TT_PAGE_TOOLS ?? '', 'node_modules');
const browser = process.env.TT_CHROMIUM ?? '/usr/bin/chromium';
for (const needed of [browser, join(tools, 'playwright-core'), join(tools, 'html-validate'), join(tools, 'axe-core')]) {
  if (existsSync(needed)) continue;
  console.log(`skipped: pages as a browser draws them: ${needed} is not here; ./tests/run --everything brings it`);
  process.exit(77);
}
const need = createRequire(join(tools, 'any.js'));
const { chromium } = need('playwright-core');
const { HtmlValidate } = need('html-validate');
const axe = readFileSync(need.resolve('axe-core/axe.min.js'), 'utf8');

let failures = 0;
const fail = (page, words) => {
  failures++;
  console.error(`${page}: ${words}`);
};

// ---- the pages ----

const scratch = mkdtempSync(join(tmpdir(), 'telltale-pages-'));
process.on('exit', () => rmSync(scratch, { recursive: true, force: true }));

// A session with these lines, and the folder of the case that it made.
function session(name, book, lines, more = []) {
  const cases = join(scratch, name);
  try {
    execFileSync(program, ['ask', book, '--cases', cases, ...more], { input: lines.join('\n') + '\n', stdio: ['pipe', 'ignore', 'ignore'] });
  } catch (ended) {
    if (ended.status !== 3 && ended.status !== 1) throw ended; // left open, or handed to somebody
  }
  const [year] = readdirSync(cases);
  const [month] = readdirSync(join(cases, year));
  const [number] = readdirSync(join(cases, year, month));
  return join(cases, year, month, number);
}

function sheet(name, folder) {
  const path = join(scratch, `${name}.html`);
  execFileSync(program, ['sheet', folder, '--into', path]);
  return path;
}

// Anything else that the program writes as a page.
function made(name, words) {
  const path = join(scratch, `${name}.html`);
  execFileSync(program, [...words, '--into', path], { stdio: ['ignore', 'ignore', 'pipe'] });
  return path;
}

// The first page of a bench, which then waits for a save and is ended.
async function bench(name, book) {
  const path = join(scratch, `${name}.html`);
  const running = spawn(program, ['bench', book, '--into', path], { stdio: ['ignore', 'pipe', 'inherit'] });
  let shown = '';
  for await (const part of running.stdout) {
    shown += part;
    if (shown.includes('Waiting for the next save')) break;
  }
  running.kill('SIGKILL');
  return path;
}

const hostile = `</title></style></script><script>document.title = "taken"</script><img src=x onerror="document.title = 1"> & "x`;

// The same rules with texts that try to be more than texts, in another language.
function hostileBook() {
  const book = join(scratch, 'book');
  cpSync(join(source, 'tests/cli/well'), book, { recursive: true });
  for (const file of readdirSync(book, { recursive: true }).filter((f) => /\.ya?ml$/.test(f))) {
    const path = join(book, file);
    const text = readFileSync(path, 'utf8')
      .replace('The tank has lost its air cushion', `'${hostile}'`)
      .replace('edition: 3', 'edition: 3\n  language: de');
    writeFileSync(path, text);
  }
  return book;
}

// The history of a site whose file tries to be more than texts: two calls, and a record of what is good.
const turned = '\u05d0\u05d1\u05d2 5'; // read from the right; marks that turn the rest are refused
function historyOf(name, title, more = []) {
  const site = join(scratch, `${name}.yaml`), cases = join(scratch, `${name}-cases`);
  writeFileSync(site, readFileSync(join(source, 'rules/foam-line/site.yaml'), 'utf8').replace(/title:\n( {4}.*\n)+/, `title: ${JSON.stringify(title)}\n`));
  for (const [verb, lines, options] of [['record', ['no', '30', '42', '9', '4'], ['--as', 'technician']], ['ask', ['1', 'foam too wet', '1', '22 psi', 'known', '', 'stop'], []]])
    try {
      execFileSync(program, [verb, join(source, 'rules/foam-line'), '--site', site, '--cases', cases, ...options], { input: lines.join('\n') + '\n', stdio: ['pipe', 'ignore', 'ignore'] });
    } catch (ended) {
      if (ended.status !== 3 && ended.status !== 1) throw ended;
    }
  return made(name, ['history', join(source, 'rules/foam-line'), '--site', site, '--cases', cases, ...more]);
}

// A page of another kind: what a verb prints.
function printed(name, words) {
  const path = join(scratch, `${name}.html`);
  writeFileSync(path, execFileSync(program, words, { maxBuffer: 1 << 28 }));
  return path;
}

// Through the procedure and the steps, nine lines in all.
const toRecharge = ['no', 'it goes on and off', '1', 'unsure', 'right', 'begin', ...Array(9).fill('done'), 'unsure'];
const setTwice = ['no', 'stiff foam', '1', '52', 'begin', 'done', 'done', 'better', '1', 'no', 'begin', 'done', 'better', '2'];
const pages = {
  stopped: sheet('stopped', session('a', join(source, 'tests/cli/regulator'), [...setTwice, 'yes', 'stop'])),
  cured: sheet('cured', session('b', join(source, 'tests/cli/well'), [...toRecharge, 'gone', 'yes'])),
  putBack: sheet('putBack', session('e', join(source, 'tests/cli/well'), [...toRecharge, 'no change', 'hold', hostile])),
  halfDone: sheet('halfDone', session('f', join(source, 'tests/cli/well'), [...toRecharge.slice(0, 10), 'there is smoke', 'stop'])),
  foam: sheet('foam', session('c', join(source, 'rules/foam-line'), ['1', 'foam too wet', '1', '30 psi', 'known', '', 'stop'],
    ['--site', join(source, 'tests/cli/foam-sites/two-arches.yaml')])),
  table: printed('table', ['table', join(source, 'rules/dosing-and-pumping'), '--html']),
  hostileTable: printed('hostileTable', ['table', hostileBook(), '--html']),
  hostile: sheet('hostile', session('d', hostileBook(), ['no', hostile, '2', 'unsure', 'stop'])),
  handbook: made('handbook', ['handbook', join(source, 'cli/sample')]),
  handbookOfSite: made('handbookOfSite', ['handbook', join(source, 'rules/foam-line'), '--site', join(source, 'tests/cli/foam-sites/two-arches.yaml')]),
  rehearsal: made('rehearsal', ['rehearse', join(source, 'rules/dosing-and-pumping'), '--calls', '200']),
  rehearsalHostile: made('rehearsalHostile', ['rehearse', hostileBook(), '--calls', '200']),
  bench: await bench('bench', join(source, 'cli/sample')),
  history: historyOf('history', 'Our tunnel'),
  historySpanish: historyOf('historySpanish', 'Our tunnel', ['--language', 'es']),
  historyHostile: historyOf('historyHostile', `</title><b>&"x ${turned}`),
  handbookHostile: made('handbookHostile', ['handbook', hostileBook()]),
};
const titles = { table: /^Dosing and pumping$/, hostileTable: /^House well$/, bench: /^Bench: Proving cabinet$/, rehearsal: /^Rehearsal: Dosing and pumping$/, rehearsalHostile: /^Rehearsal: House well$/,
  handbook: /^Handbook: Proving cabinet$/, handbookOfSite: /^Handbook: Foam application/, handbookHostile: /^Handbook: House well$/,
  history: /^Our tunnel: what it was like over time$/, historySpanish: /^Our tunnel: cómo estuvo con el tiempo$/, historyHostile: /^<\/title>.*\u05d2 5: what it was like over time$/ };

// What was typed has led to the page that is meant.
const told = { stopped: 'Shut the air off and keep away', cured: 'Nothing: the trouble is gone.', putBack: 'Put back before anything else:',
  halfDone: 'Told of danger', foam: 'The foam is too wet', table: 'Signs and their causes', hostileTable: '&lt;script&gt;document.title', hostile: '&lt;script&gt;document.title',
  bench: 'No faults.', rehearsal: 'by luck alone', rehearsalHostile: '&lt;script&gt;document.title', handbook: 'The water pan is empty', handbookOfSite: 'Read and understood', handbookHostile: '&lt;script&gt;document.title',
  history: '<svg class="course"', historySpanish: 'Lecturas con el tiempo', historyHostile: '&lt;/title&gt;&lt;b&gt;&amp;' };
for (const [name, path] of Object.entries(pages)) if (!readFileSync(path, 'utf8').includes(told[name])) fail(name, `does not say: ${told[name]}`);

// Their texts are long on purpose.
const hostileSheets = ['hostile', 'putBack'];

// ---- what each must hold ----

const validator = new HtmlValidate({ extends: ['html-validate:recommended'] });

async function checkMarkup(name, path) {
  const report = await validator.validateFile(path);
  for (const result of report.results)
    for (const m of result.messages) fail(name, `${m.line}:${m.column} ${m.message} [${m.ruleId}]`);
}

// Runs in the page: the smallest contrast of any text with what is drawn behind it (WCAG 2.2, relative luminance).
function smallestContrast() {
  const channels = (colour) => (colour.match(/[\d.]+/g) ?? []).map(Number);
  const linear = (c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4);
  const luminance = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const behind = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const c = channels(getComputedStyle(at).backgroundColor);
      if (c.length === 3 || c[3] === 1) return c;
    }
    return [255, 255, 255];
  };
  let smallest = { ratio: 21, text: '' }, texts = 0;
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (node.data.trim() === '' || element.closest('title') || element.getClientRects().length === 0) continue;
    const style = getComputedStyle(element);
    const front = luminance(channels(element.closest('svg') ? style.fill : style.color)), back = luminance(behind(element));
    const ratio = (Math.max(front, back) + 0.05) / (Math.min(front, back) + 0.05);
    texts++;
    if (ratio < smallest.ratio) smallest = { ratio, text: node.data.slice(0, 40) };
  }
  return { ...smallest, texts };
}

async function checkContrast(name, page) {
  const { ratio, text, texts } = await page.evaluate(smallestContrast);
  if (texts < 20) fail(name, `only ${texts} texts are shown`);
  if (ratio < 7) fail(name, `contrast ${ratio.toFixed(2)} to 1 at "${text}"`);
}

async function checkAxe(name, page) {
  await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run(document, {
    runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag2aaa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] } }));
  if (found.passes.length < 10) fail(name, `axe-core looked at ${found.passes.length} rules only`);
  for (const v of found.violations) fail(name, `${v.id}: ${v.help}: ${v.nodes.map((n) => n.html).slice(0, 2).join(' ')}`);
}

async function checkRoom(name, page) {
  const { inner, scroll, smallest } = await page.evaluate(() => ({
    inner: innerWidth, scroll: document.documentElement.scrollWidth,
    smallest: Math.min(...[...document.querySelectorAll('svg text')].map((t) => t.getBoundingClientRect().height)) }));
  if (scroll > inner) fail(name, `${scroll} pixels wide on a screen of ${inner}`);
  if (smallest < 10) fail(name, `letters of ${smallest.toFixed(1)} pixels in the picture`);
}

// In a browser that obeys the page's policy.
async function checkPolicy(chrome, name, path) {
  const page = await chrome.newPage();
  const requests = [], said = [];
  page.on('request', (r) => requests.push(r.url()));
  page.on('console', (m) => said.push(m.text()));
  page.on('dialog', () => fail(name, 'a dialog opened'));
  await page.goto(pathToFileURL(path).href);
  if (requests.length !== 1) fail(name, `it asked for ${requests.join(', ')}`);
  for (const words of said) fail(name, `the browser says: ${words}`);
  if (!(titles[name] ?? /^Case \d{6}[A-Z]$/).test(await page.title())) fail(name, `its title became ${await page.title()}`);
  if ((await page.locator('script, img, iframe, a:not([href^="#chapter-"]), link, [onerror], [style]').count()) > 0) fail(name, 'texts became elements');
  const styled = await page.evaluate(() => getComputedStyle(document.body).maxWidth === '832px');
  if (!styled) fail(name, 'its own style is not used');
  const blocked = await page.evaluate(() => {
    const added = document.createElement('style');
    added.textContent = 'h1 { display: none }';
    document.head.append(added);
    return getComputedStyle(document.querySelector('h1')).display !== 'none';
  });
  if (!blocked) fail(name, 'another style is used');
  await page.close();
}

async function checkDrawn(chrome, name, path) {
  for (const colorScheme of ['light', 'dark'])
    for (const width of [1000, 320]) {
      const where = `${name}, ${colorScheme}, ${width} pixels`;
      const context = await chrome.newContext({ bypassCSP: true, colorScheme, viewport: { width, height: 800 } });
      const page = await context.newPage();
      await page.goto(pathToFileURL(path).href);
      await checkRoom(where, page);
      await checkContrast(where, page);
      if ((width === 1000) === (colorScheme === 'dark')) await checkAxe(where, page); // the slowest
      if (width === 1000 && colorScheme === 'dark') await checkPaper(`${name}, on paper`, page);
      await context.close();
    }
}

// On paper there is no dark.
async function checkPaper(where, page) {
  await page.emulateMedia({ media: 'print' });
  await checkContrast(where, page);
  const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  if (paper !== 'rgb(255, 255, 255)') fail(where, `the paper is ${paper}`);
  const pdf = await page.pdf({ format: 'A4' });
  if (pdf.subarray(0, 5).toString() !== '%PDF-') fail(where, 'it can not be printed');
  await checkFirstPage(where, page);
}

// What is for whoever goes on with a case is one page: printed without its appendix.
async function checkFirstPage(where, page) {
  const isSheet = await page.evaluate(() => {
    const apart = document.querySelector('h2.apart');
    while (apart?.nextSibling) apart.nextSibling.remove();
    apart?.remove();
    return apart !== null;
  });
  if (!isSheet || hostileSheets.some((name) => where.startsWith(`${name},`))) return;
  const pages = (await page.pdf({ format: 'A4' })).toString('latin1').match(/\/Type \/Page\b/g) ?? [];
  if (pages.length !== 1) fail(where, `its first page takes ${pages.length}`);
}

// ---- the checks themselves: each must see a fault of its own ----

async function checkChecks(chrome) {
  const bad = join(scratch, 'bad.html');
  writeFileSync(bad, '<!DOCTYPE html><html><head><title>x</title></head><body style="color:#999;background:#fff"><p>' +
    '<b>pale</b> <svg viewBox="0 0 9 9"><text y="9" fill="#ccc">x</text></svg><img src="x"></p>' +
    '<div style="width:2000px">wide</div></body></html>');
  const before = failures, silent = console.error;
  const seen = [];
  console.error = (words) => seen.push(words);
  await checkMarkup('bad', bad);
  const context = await chrome.newContext({ bypassCSP: true, viewport: { width: 320, height: 800 } });
  const page = await context.newPage();
  await page.goto(pathToFileURL(bad).href);
  await checkRoom('bad', page);
  await checkContrast('bad', page);
  await checkAxe('bad', page);
  await context.close();
  console.error = silent;
  failures = before;
  for (const expected of ['no-inline-style', 'pixels wide', 'contrast 1.', 'html-has-lang', 'image-alt'])
    if (!seen.some((words) => words.includes(expected))) fail('the checks', `did not see ${expected}`);
}

const chrome = await chromium.launch({ executablePath: browser, args: ['--no-sandbox', '--disable-gpu'] }).catch((why) => {
  console.log(`skipped: pages as a browser draws them: it does not start here: ${why.message.split('\n')[0]}`);
  process.exit(77);
});
await checkChecks(chrome);
for (const [name, path] of Object.entries(pages)) {
  await checkMarkup(name, path);
  await checkPolicy(chrome, name, path);
  await checkDrawn(chrome, name, path);
}
await chrome.close();
console.log(`${Object.keys(pages).length} pages, ${failures} faults`);
process.exit(failures === 0 ? 0 : 1);
