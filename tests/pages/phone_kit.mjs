// What trying the page for a phone in a browser needs: pages made by the program, opened in chromium, and touched.

import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

export const [program, source, pictures] = process.argv.slice(2);
const tools = join(process.env.TT_PAGE_TOOLS ?? '', 'node_modules');
const browserPath = process.env.TT_CHROMIUM ?? '/usr/bin/chromium';
export const need = createRequire(join(tools, 'any.js'));

let test = '';
const skip = what => {
  console.log(`skipped: ${test}: ${what} is not here; ./tests/run --everything brings it`);
  process.exit(0);
};
export function skipWithoutTools(name) {
  test = name;
  for (const needed of [browserPath, join(tools, 'playwright-core'), join(tools, 'html-validate'), join(tools, 'axe-core')]) if (!existsSync(needed)) skip(needed);
}

export const scratch = mkdtempSync(join(tmpdir(), 'telltale-phone-'));
process.on('exit', () => rmSync(scratch, { recursive: true, force: true }));

// The foam line's page.
export function made(name, ...words) {
  const path = join(scratch, `${name}.html`);
  try {
    execFileSync(program, ['page', join(source, 'rules/foam-line'), '--into', path, ...words], { stdio: ['ignore', 'ignore', 'pipe'] });
  } catch (failed) {
    if (failed.status === 66) skip('the page\'s engine');
    throw failed;
  }
  return path;
}

let failures = 0;
export const faults = () => failures;
export const fail = (where, words) => {
  failures++;
  console.error(`${where}: ${words}`);
};
export const holds = (where, what, words) => what || fail(where, words);

const browserOptions = { executablePath: browserPath, args: ['--no-sandbox'] };
export const launched = () => need('playwright-core').chromium.launch(browserOptions);
// With what it keeps in a folder.
export const launchedIn = (folder, options) => need('playwright-core').chromium.launchPersistentContext(folder, { ...browserOptions, ...options });

// `slower`: at this part of the machine's speed.
export async function opened(context, path, slower = 1) {
  const page = await context.newPage(), requests = [];
  if (slower > 1) await (await context.newCDPSession(page)).send('Emulation.setCPUThrottlingRate', { rate: slower });
  page.setDefaultTimeout(0); // it waits for what happens, never for a time
  page.on('request', request => requests.push(request.url()));
  page.on('pageerror', error => fail(path, error.message));
  page.on('console', message => message.type() === 'error' && fail(path, message.text()));
  await page.goto(pathToFileURL(path).href);
  await page.waitForFunction(() => document.body.dataset.ready);
  page.requests = requests;
  return page;
}

// Waits until another screen is there.
export async function then(page, act) {
  const before = await page.evaluate(() => (window.screensShown ??= 0, window.watching ??= new MutationObserver(() => { window.screensShown++; }),
    window.watching.observe(document.getElementById('turn'), { childList: true }), window.screensShown));
  await act();
  await page.waitForFunction(count => window.screensShown > count, before);
}
export async function touch(page, selector) {
  if (await page.locator(selector).count() === 0) throw new Error(`there is no ${selector} to touch`);
  return then(page, () => page.locator(selector).first().click());
}
