// The page: which screen is shown, what is kept, and the calls on the engine in between. It decides nothing about the case.
'use strict';

const at = id => document.getElementById(id);

const page = {
  engine: null,
  keeping: null,   // null: this browser keeps nothing of the page
  texts: {},
  language: null,
  lines: [],       // of the case that is open
  caseId: null,
  turn: null,
  words: {},
  isKept: true,
  release: null,   // gives the case back to other windows
};

// ---- moments and names ----

function now() {
  const date = new Date(), offset = -date.getTimezoneOffset(), two = n => String(Math.abs(n)).padStart(2, '0');
  const local = new Date(date.getTime() + offset * 60000).toISOString().slice(0, -1);
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.trunc(offset / 60))}:${two(offset % 60)}`;
}

// A UUID of version 7: by time, and by chance.
function newCaseId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  for (let i = 0, time = Date.now(); i < 6; i++, time = Math.floor(time / 256)) bytes[5 - i] = time % 256;
  bytes[6] = 0x70 | (bytes[6] & 15);
  bytes[8] = 0x80 | (bytes[8] & 63);
  const hex = [...bytes].map(b => b.toString(16).padStart(2, '0')).join('');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}

async function writer() {
  if (page.keeping === null) return 'page';
  const known = await page.keeping.get('writer');
  if (known) return known;
  const made = [...crypto.getRandomValues(new Uint8Array(6))].map(b => b.toString(16).padStart(2, '0')).join('');
  await page.keeping.set('writer', made);
  return made;
}

// ---- a case ----

// One window at a time has a case. False: another has it.
async function hold(caseId) {
  page.release?.();
  page.release = null;
  if (!navigator.locks) return true;
  return new Promise(got => {
    navigator.locks.request(`telltale ${caseId}`, { ifAvailable: true }, lock => {
      got(lock !== null);
      return lock === null ? null : new Promise(free => { page.release = free; });
    });
  });
}

// What the engine says: records are kept first, and only then is the next turn there.
async function follow(said) {
  if (said.wrong) throw new Error(said.wrong);
  const leftOut = said.left_out > 0;
  while (said.turn === null) {
    let kept = false;
    page.lines.push(...said.keep);
    try {
      if (page.keeping !== null) {
        await page.keeping.add(page.caseId, said.keep);
        kept = true;
      }
    } catch { /* said on the screen, with each turn */ }
    page.isKept = kept;
    said = page.engine.kept(kept);
  }
  page.turn = JSON.parse(said.turn);
  page.words = said.words;
  page.number = said.number;
  showTurn();
  if (leftOut) at('turn').prepend(make('p', { class: 'wrong', role: 'alert' }, page.texts.PHONE_LEFT_OUT));
}

async function begin(how) {
  const by = page.keeping !== null ? await page.keeping.get('name') : null;
  await follow(page.engine.begin({
    case: page.caseId, writer: await writer(), now: now(), by: by || 'somebody', on: 'page', how, language: page.language, kept: true, records: page.lines,
  }));
}

async function openCase(caseId) {
  if (!await hold(caseId)) return showCases(page.texts.PHONE_OTHER_WINDOW);
  page.caseId = caseId;
  page.lines = page.keeping !== null ? await page.keeping.lines(caseId) : [];
  page.isKept = page.keeping !== null;
  return begin('resume');
}

async function newCase() {
  page.caseId = newCaseId();
  await hold(page.caseId);
  page.lines = [];
  page.isKept = page.keeping !== null;
  return begin(null);
}

// A module that stopped is begun anew from what was kept.
async function beginAnew(error) {
  console.error(error);
  page.engine = await Engine.open(carried.module, carried.setup);
  await begin(page.lines.length > 0 ? 'resume' : null);
  at('turn').prepend(make('p', { class: 'wrong', role: 'alert' }, page.texts.PHONE_STOPPED));
}

let busy = false;
async function reply(what) {
  if (busy) return;
  busy = true;
  quiet();
  try {
    await follow(page.engine.hear({ turn: page.turn.turn, ...what, now: now() }));
  } catch (error) {
    await beginAnew(error);
  } finally {
    busy = false;
  }
}

// ---- screens ----

function marks() {
  const all = [];
  if (page.practice) all.push(page.texts.PHONE_PRACTICE);
  if (page.keeping === null) all.push(page.texts.PHONE_NOT_KEPT);
  else if (!page.isKept) all.push(page.texts.PHONE_FULL);
  at('marks').replaceChildren(...all.map(text => make('span', { class: 'mark' }, text)));
}

function tool(text, onclick, attributes = {}) {
  return button(text, onclick, attributes);
}

function show(where, progress, content, tools) {
  at('where').textContent = where;
  at('progress').textContent = progress;
  marks();
  at('turn').replaceChildren(...content);
  at('tools').replaceChildren(...tools);
  at('columns').scrollTop = 0;
  (at('turn').querySelector('h1') ?? at('turn')).focus();
}

function progressWords(turn) {
  if (turn.kind === 'end' || turn.dangerous) return '';
  const asked = turn.progress.asked > 0 ? fill(page.texts.PHONE_QUESTION, turn.progress.asked) : '';
  const left = turn.progress.minutes_left > 0 ? fill(page.texts.PHONE_SHORT, Math.max(1, Math.round(turn.progress.minutes_left))) : '';
  return [asked, left].filter(t => t).join(', ');
}

function showTurn() {
  followLanguage();
  const { texts, words } = page, turn = forTouch(page.turn, texts), last = turn.kind === 'end';
  const where = turn.place ?? (turn.case ? fill(texts.PHONE_CASE, turn.case) : titles().title);
  const word = (id, text) => (words[id] ? tool(text, () => reply({ word: id }), { 'data-word': id }) : null);
  turn.notes = turn.notes.filter(note => note !== where);
  const content = drawTurn(turn, words, texts, reply);
  if (last) content.push(button(texts.PHONE_PASS_ON, showPassOn, { id: 'pass-on' }), button(texts.PHONE_ALL_CASES, () => showCases(), { id: 'all-cases' }));
  show(where, progressWords(turn), content, [word('back', texts.PHONE_BACK), aloudTool(), word('why', texts.PHONE_WHY), word('known', texts.PHONE_ANSWERS),
    tool(texts.PHONE_MORE, showMore, { id: 'more' })].filter(t => t));
  at('standing').replaceChildren(...drawStanding(turn, texts), ...contactButtons(turn.contacts, texts), make('p', { class: 'soft' }, texts.PHONE_KEYS));
}

function showMore() {
  const { texts, words } = page;
  const word = (id, text) => (words[id] ? button(text, () => reply({ word: id }), { 'data-word': id }) : null);
  const content = [make('h1', { tabindex: '-1' }, texts.PHONE_MORE), button(texts.PHONE_CLOSE, showTurn, { class: 'main' }),
    word('change', texts.PHONE_CHANGE), word('cautions', texts.PHONE_HARM), word('?', texts.PHONE_HELP), word('stop', texts.PHONE_STOP),
    button(texts.PHONE_PASS_ON, showPassOn, { id: 'pass-on' }), button(texts.PHONE_ALL_CASES, () => showCases(), { id: 'all-cases' }), ...languageTools()];
  show(fill(texts.PHONE_CASE, page.number), '', content.filter(c => c), []);
}

// ---- many cases ----

// Of the book and the site, in the language that is spoken.
const titles = () => page.engine.book.titles[page.language ?? page.engine.book.language] ?? page.engine.book;

// Pages of other rules and other sites may keep theirs in the same place: those of one address do, and all that are opened from files.
function isOurs(summary) {
  const { folder, name } = summary.rulebook ?? {}, { title, site } = page.engine.book;
  if (folder?.split('/').at(-1) !== page.folder && name !== title) return false;
  return page.practice ? !summary.site : !site || summary.site === site;
}

async function caseCard(id, erasable) {
  const { texts } = page, summary = page.engine.summary(id, await page.keeping.lines(id));
  if (!isOurs(summary)) return null;
  const state = ['open', 'waiting', 'on-hold'].includes(summary.state) ? texts.PHONE_OPEN : texts.PHONE_ENDED;
  const said = summary.complaint?.text ?? summary.complaint ?? texts.PHONE_NO_COMPLAINT;
  const card = make('section', { class: 'case' }, make('h2', {}, `${summary.case ?? summary.number}: ${said}`),
    make('p', { class: 'soft' }, `${state}, ${(summary.last ?? '').slice(0, 16).replace('T', ' ')}`),
    button(texts.PHONE_GO_ON, () => openCase(id), { class: 'main', 'data-case': id }));
  if (erasable) card.append(button(texts.PHONE_ERASE, () => askErase(id, summary), { class: 'aside' }));
  return card;
}

function askErase(id, summary) {
  const { texts } = page;
  show(titles().title, '', [make('h1', { tabindex: '-1' }, fill(texts.PHONE_ERASE_SURE, summary.case ?? summary.number)),
    button(texts.PHONE_NO, () => showCases(), { class: 'main' }),
    button(texts.PHONE_ERASE_YES, async () => {
      await page.keeping.erase(id);
      showCases();
    })], []);
}

async function showCases(told) {
  const { texts } = page;
  page.release?.();
  page.release = null;
  page.caseId = null;
  const ids = page.keeping !== null ? await page.keeping.cases() : [];
  const content = [make('h1', { tabindex: '-1' }, titles().title)];
  if (titles().site) content.push(make('p', {}, titles().site));
  if (told) content.push(make('p', { class: 'wrong', role: 'alert' }, told));
  content.push(button(texts.PHONE_NEW, newCase, { class: 'main', id: 'new' }));
  const cards = [];
  for (const id of ids) cards.push(await caseCard(id, true));
  if (cards.some(card => card)) content.push(make('h2', {}, texts.PHONE_CASES), ...cards.filter(card => card));
  if (page.keeping !== null) content.push(takeIn(), await nameField());
  at('standing').replaceChildren();
  show(titles().title, '', content, languageTools());
}

async function nameField() {
  const field = make('input', { type: 'text', id: 'name', autocomplete: 'off', value: await page.keeping.get('name') ?? '' });
  field.addEventListener('change', () => page.keeping.set('name', field.value.trim()));
  return make('p', {}, make('label', { for: 'name' }, page.texts.PHONE_NAME), field);
}

function takeIn() {
  const { texts } = page;
  const file = make('input', { type: 'file', id: 'file', accept: '.jsonl,.txt,application/jsonl,text/plain' });
  file.addEventListener('change', async () => file.files.length > 0 && takeText(await file.files[0].text()));
  const pasted = make('textarea', { id: 'pasted', rows: '3' });
  return make('details', {}, make('summary', { class: 'button' }, texts.PHONE_TAKE_IN),
    make('label', { for: 'file' }, texts.PHONE_TAKE_FILE), file,
    make('label', { for: 'pasted' }, texts.PHONE_TAKE_PASTED), pasted,
    button(texts.PHONE_TAKE, () => takeText(pasted.value)));
}

// Lines that are there already are not taken twice.
async function takeText(text) {
  const cases = casesInText(text), numbers = [];
  let others = false;
  for (const [id, lines] of cases ?? []) {
    const summary = page.engine.summary(id, lines);
    if (summary.wrong) continue;
    if (!isOurs(summary)) {
      others = true;
      continue;
    }
    const known = new Set(await page.keeping.lines(id)), missing = lines.filter(line => !known.has(line));
    if (missing.length > 0) await page.keeping.add(id, missing);
    numbers.push(summary.case ?? summary.number);
  }
  return showCases(numbers.length > 0 ? numbers.map(n => fill(page.texts.PHONE_TAKEN, n)).join(' ') : others ? page.texts.PHONE_NOT_OURS : page.texts.PHONE_NO_CASE);
}

// ---- passing on ----

function showPassOn() {
  const { texts } = page, text = page.lines.join('\n') + '\n', name = `case-${page.number}.jsonl`;
  const file = new File([text], name, { type: 'text/plain' });
  const told = make('p', { role: 'status' });
  const byHand = () => [make('label', { for: 'copied' }, texts.PHONE_COPY_BY_HAND), make('textarea', { id: 'copied', readonly: true }, text)];
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      told.textContent = texts.PHONE_COPIED;
    } catch {
      told.replaceChildren(...byHand());
      at('copied').select();
    }
  };
  const save = () => {
    const link = make('a', { href: URL.createObjectURL(file), download: name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  };
  const canShare = navigator.canShare?.({ files: [file] }) === true;
  show(fill(texts.PHONE_CASE, page.number), '', [make('h1', { tabindex: '-1' }, texts.PHONE_PASS_ON),
    button(texts.PHONE_CLOSE, showTurn, { class: 'main' }),
    canShare ? button(texts.PHONE_SHARE, () => navigator.share({ files: [file], title: name }).catch(() => {})) : null,
    button(texts.PHONE_SAVE, save, { id: 'save' }), button(texts.PHONE_COPY, copy, { id: 'copy' }),
    button(texts.PHONE_PRINT, () => { showTurn(); window.print(); }), told].filter(c => c), []);
}

// ---- aloud ----

const canSpeak = 'speechSynthesis' in window;
function quiet() {
  if (canSpeak) speechSynthesis.cancel();
}
function aloud() {
  const turn = forTouch(page.turn, page.texts);
  const text = [turn.wrong?.text, ...turn.notes, ...turn.parts.flatMap(p => [p.title, ...p.items]), turn.say || turn.prompt, ...turn.choices.map(c => c.text)];
  quiet();
  for (const sentence of text.filter(t => t)) {
    const spoken = new SpeechSynthesisUtterance(sentence);
    spoken.lang = page.language ?? page.engine.book.language;
    speechSynthesis.speak(spoken);
  }
}
function aloudTool() {
  if (!canSpeak) return null;
  return tool(page.texts.PHONE_ALOUD, () => (speechSynthesis.speaking ? quiet() : aloud()), { id: 'aloud' });
}

// ---- danger, keys, languages ----

// Where no case is open, or it is over, a new one begins with it.
async function danger() {
  if (page.caseId === null || !page.words.danger) await newCase();
  if (page.words.danger) await reply({ word: 'danger' });
  else showTurn();
}

function onKey(event) {
  const typing = event.target.matches?.('input[type="text"], textarea');
  if (typing || event.ctrlKey || event.metaKey || event.altKey || page.caseId === null) return;
  const choice = /^[1-9]$/.test(event.key) ? page.turn.choices[Number(event.key) - 1] : null;
  const word = { b: 'back', w: 'why', a: 'known' }[event.key.toLowerCase()];
  if (choice) at('turn').querySelector(`[data-choice="${CSS.escape(choice.name)}"]`)?.click();
  else if (word && page.words[word]) reply({ word });
  else if (event.key.toLowerCase() === 'd') danger();
  else if (event.key.toLowerCase() === 'r') at('aloud')?.click();
}

// As it was chosen here before; else the browser's, if we have it; else the book's own.
async function preferred() {
  const { tongues, language } = page.engine.book, chosen = page.keeping !== null ? await page.keeping.get('language') : null;
  const wanted = [chosen, ...(navigator.languages ?? [])].filter(tag => tag).map(tag => tag.toLowerCase().split('-')[0]);
  const found = wanted.find(tag => tongues.includes(tag)) ?? null;
  return chosen || found !== language ? found : null; // what the book speaks anyhow need not be said
}

// A case that is open goes on where it is, in the other language.
async function speak(language) {
  if (busy) return;
  quiet();
  page.language = language;
  if (page.keeping !== null) await page.keeping.set('language', language);
  setTexts();
  if (page.caseId === null) await showCases();
  else if (page.turn.kind === 'end') await begin('resume');
  else await reply({ language });
}

// Who asked for a language in words sees the page's own words in it, too.
function followLanguage() {
  const tag = page.turn.language.toLowerCase().split('-')[0];
  if (tag === (page.language ?? page.engine.book.language) || !page.engine.book.tongues.includes(tag)) return;
  page.language = tag;
  setTexts();
}

function languageTools() {
  const spoken = page.language ?? page.engine.book.language;
  return page.engine.book.tongues.filter(tag => tag !== spoken)
    .map(tag => tool(page.engine.texts(tag).PHONE_OWN_NAME, () => speak(tag), { lang: tag, 'data-language': tag }));
}

function setTexts() {
  const spoken = page.language ?? page.engine.book.language;
  page.texts = page.engine.texts(spoken);
  document.documentElement.lang = spoken;
  at('danger').textContent = page.texts.PHONE_DANGER;
}

async function start() {
  const { practice, folder } = JSON.parse(new TextDecoder().decode(carried.setup));
  Object.assign(page, { practice, folder });
  page.engine = await Engine.open(carried.module, carried.setup);
  page.keeping = await Keeping.open();
  page.language = await preferred();
  setTexts();
  at('danger').addEventListener('click', danger);
  document.addEventListener('keydown', onKey);
  if (carried.danger) await danger();
  else await showCases();
  document.body.dataset.ready = 'yes';
}

// For whoever tries the page from outside.
window.telltaleTurn = () => page.turn;
window.telltaleLines = () => page.lines;

start().catch(sayWhatFailed);
