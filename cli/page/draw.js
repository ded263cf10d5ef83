// From a turn to what is seen. Whatever is touched goes back as a reply; what it does is the engine's business.
'use strict';

function make(tag, attributes = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? '' : value);
  }
  element.append(...inside.filter(i => i !== null && i !== undefined));
  return element;
}
const button = (text, onclick, attributes = {}) => make('button', { type: 'button', onclick, ...attributes }, text);
const fill = (text, ...inserts) => inserts.reduce((t, insert, i) => t.replaceAll(`{${i + 1}}`, insert), text);

// ---- numbers to call ----

const NUMBER = /\+?\d[\d ()/-]{1,}\d/g;
const isNumber = text => text.replace(/\D/g, '').length >= 3;

// A text with its telephone numbers as links.
function withLinks(text) {
  const parts = [];
  let done = 0;
  for (const found of text.matchAll(NUMBER)) {
    if (!isNumber(found[0])) continue;
    parts.push(text.slice(done, found.index), make('a', { href: `tel:${found[0].replace(/[^\d+]/g, '')}` }, found[0]));
    done = found.index + found[0].length;
  }
  parts.push(text.slice(done));
  return make('span', {}, ...parts);
}

function contactButtons(contacts, texts) {
  return contacts.filter(c => c.telephone).map(c => {
    const who = c.who ?? c.telephone;
    return make('a', { class: 'button call', href: `tel:${c.telephone.replace(/[^\d+]/g, '')}` },
      '☎ ', fill(texts.PHONE_CALL, who), ' ', make('span', {}, c.telephone), c.hours ? ` (${c.hours})` : '');
  });
}

// ---- what is told ----

const GRAVE = ['do', 'first-aid', 'locked'];
const CAREFUL = ['caution', 'hazards', 'risk', 'announce', 'isolate', 'release', 'prove', 'restore', 'wear', 'to-put-back'];

function drawPart(part, texts) {
  const kind = GRAVE.includes(part.kind) ? 'grave' : CAREFUL.includes(part.kind) ? 'caution' : 'part';
  const items = part.items.map(text => (part.kind === 'call' ? withLinks(text) : text));
  const signal = part.kind === 'caution' && texts[`PAGE_${(part.title ?? '').toUpperCase()}`];
  const heading = part.title ? make('h2', {}, signal || part.title) : null;
  const body = items.length === 1 && part.kind !== 'do' ? make('p', {}, items[0]) : make(part.numbered ? 'ol' : 'ul', {}, ...items.map(i => make('li', {}, i)));
  return make('section', { class: kind, 'data-part': part.kind }, heading, items.length > 0 ? body : null);
}

// Each line is ticked off; `whenAll` is told whether all are.
function tickList(part, whenTicked) {
  const lines = part.items.map((text, i) =>
    make('label', { class: 'tick' }, make('input', { type: 'checkbox', onchange: whenTicked }), make('span', {}, part.numbered ? `${i + 1}. ` : '', text)));
  return make('div', { class: 'caution', role: 'group', 'aria-label': part.title ?? '', 'data-part': part.kind }, make('h2', {}, part.title ?? ''), ...lines);
}

// ---- pictures ----

// The engine lets nothing through that could do anything (engine/draw).
function drawing(picture, classes) {
  const holder = make('div', { class: classes, role: 'img', 'aria-label': picture.text });
  holder.innerHTML = picture.svg;
  holder.firstElementChild?.setAttribute('aria-hidden', 'true');
  return holder;
}

function pictureWithAreas(picture, turn, reply) {
  const holder = make('div', { class: 'picture' });
  holder.append(drawing(picture, ''));
  const { x, y, width, height } = holder.querySelector('svg').viewBox.baseVal;
  for (const area of picture.areas ?? []) {
    if (!turn.choices.some(c => c.name === area.name)) continue;
    const touch = button('', () => reply({ choice: area.name }), { class: 'area', 'aria-label': area.text, title: area.text });
    touch.style.left = `${(area.x - x) / width * 100}%`;
    touch.style.top = `${(area.y - y) / height * 100}%`;
    touch.style.width = `${area.width / width * 100}%`;
    touch.style.height = `${area.height / height * 100}%`;
    holder.append(touch);
  }
  return holder;
}

// ---- what can be said ----

function choiceButtons(turn, texts, reply, isMain) {
  return turn.choices.map((choice, i) => {
    const made = button('', () => reply({ choice: choice.name }), { class: isMain && i === 0 ? 'main' : null, 'data-choice': choice.name });
    made.append(make('span', { class: 'key', 'aria-hidden': 'true' }, i < 9 ? `${i + 1} ` : ''), choice.text);
    if (choice.picture) made.append(drawing(choice.picture, 'choice-picture'));
    return made;
  });
}

function severalButtons(turn, texts, reply) {
  const chosen = new Set();
  const all = turn.choices.map(choice => button(choice.text, event => {
    if (!chosen.delete(choice.name)) chosen.add(choice.name);
    event.currentTarget.setAttribute('aria-pressed', String(chosen.has(choice.name)));
  }, { 'aria-pressed': 'false', 'data-choice': choice.name }));
  return [...all, button(texts.PHONE_THESE, () => chosen.size > 0 && reply({ options: [...chosen] }), { class: 'main' })];
}

function numberPad(turn, texts, reply) {
  const unit = turn.question?.unit ?? '';
  const field = make('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', id: 'number', 'aria-label': `${texts.PHONE_NUMBER} ${unit}` });
  const send = () => {
    const typed = field.value.trim();
    const plain = /^\d+([.,]\d+)?$/.test(typed);
    if (typed !== '') reply(plain ? { reading: Number(typed.replace(',', '.')) } : { answer: typed });
  };
  field.addEventListener('keydown', event => event.key === 'Enter' && send());
  const keys = ['1', '2', '3', '4', '5', '6', '7', '8', '9', unit.startsWith('1:') ? ':' : '.', '0'].map(k => button(k, () => { field.value += k; }));
  keys.push(button('⌫', () => { field.value = field.value.slice(0, -1); }, { 'aria-label': texts.PHONE_DELETE }));
  return make('div', {}, make('div', { class: 'number' }, field, make('span', {}, unit), button(texts.PHONE_SEND, send, { class: 'main', id: 'send' })),
    make('div', { class: 'pad' }, ...keys));
}

function ownWords(texts, reply) {
  const field = make('input', { type: 'text', id: 'own', autocomplete: 'off' });
  const send = () => field.value.trim() !== '' && reply({ answer: field.value });
  field.addEventListener('keydown', event => event.key === 'Enter' && send());
  return make('div', { class: 'own' }, make('label', { for: 'own' }, texts.PHONE_OWN_WORDS, field), button(texts.PHONE_SEND, send));
}

// ---- the whole ----

function drawStanding(turn, texts) {
  if (turn.dangerous || turn.leading.length === 0) return [];
  return [make('h2', {}, texts.PHONE_THINK), make('ul', {}, ...turn.leading.map(l => make('li', {}, l.text)))];
}

// As it came, but for what tells to type where one touches.
function forTouch(turn, texts) {
  const said = text => texts.touched[text] ?? text;
  return { ...turn, prompt: turn.prompt && said(turn.prompt), notes: turn.notes.map(said), wrong: turn.wrong && { ...turn.wrong, text: said(turn.wrong.text) },
    parts: turn.parts.map(p => ({ ...p, title: p.title && said(p.title), items: p.items.map(said) })) };
}

function drawTurn(turn, words, texts, reply) {
  const parts = [];
  const add = (...all) => parts.push(...all.filter(p => p));
  const isBefore = turn.kind === 'before-fix', last = turn.kind === 'end';
  const ticked = isBefore ? turn.parts.filter(p => ['wear', 'announce', 'isolate', 'release', 'prove'].includes(p.kind) && p.items.length > 0) : [];
  if (turn.wrong) add(make('p', { class: 'wrong', role: 'alert' }, turn.wrong.text));
  const notes = turn.notes.length > 0 ? make('div', { class: 'soft', id: 'notes' }, ...turn.notes.map(n => make('p', {}, n))) : null;
  if (turn.kind !== 'stop') add(notes);
  if (turn.title && turn.title !== turn.prompt) add(make('p', { class: 'soft' }, turn.steps > 0 ? `${turn.title}. ${fill(texts.PHONE_OF, turn.step, turn.steps)}` : turn.title));
  if (turn.steps > 0) {
    const bar = make('span');
    bar.style.width = `${turn.step / turn.steps * 100}%`;
    add(make('div', { class: 'bar', 'aria-hidden': 'true' }, bar));
  }
  if (turn.leading.length > 0 && !turn.dangerous && !last && turn.progress.asked > 1)
    add(make('p', { class: 'think here' }, `${texts.PHONE_THINK}: ${turn.leading[0].text}`));
  const heading = make('h1', { tabindex: '-1', class: turn.kind === 'stop' ? 'grave' : null }, turn.prompt || (turn.title ?? ''));
  const told = turn.parts.filter(p => !ticked.includes(p) && p.kind !== 'command'), now = told.filter(p => p.kind === 'do');
  add(heading, ...now.map(p => drawPart(p, texts))); // the stop button and the rinse come before any telephone
  if (['stop', 'call', 'waiting', 'end'].includes(turn.kind)) add(...contactButtons(turn.contacts, texts));
  add(...told.filter(p => !now.includes(p)).map(p => drawPart(p, texts)));
  if (turn.kind === 'stop') add(notes); // what to do now comes first
  if (turn.because) add(make('p', { class: 'soft' }, turn.because));
  if (turn.picture) {
    const touch = (turn.picture.areas ?? []).some(a => turn.choices.some(c => c.name === a.name));
    if (touch) add(make('p', {}, texts.PHONE_TOUCH));
    add(touch ? pictureWithAreas(turn.picture, turn, reply) : drawing(turn.picture, 'picture'));
  }
  const isMain = ['fix-step', 'put-back', 'before-fix', 'known', 'why', 'words', 'cautions', 'procedure', 'call'].includes(turn.kind);
  const choices = turn.takes.includes('options') ? severalButtons(turn, texts, reply) : choiceButtons(turn, texts, reply, isMain);
  if (ticked.length > 0) gate(ticked, choices[0], texts, add);
  if (turn.takes.includes('reading')) add(numberPad(turn, texts, reply));
  add(...choices);
  for (const word of ['unsure', 'cannot']) if (words[word]) add(button(words[word], () => reply({ word }), { class: 'aside', 'data-word': word }));
  if (turn.takes.includes('answer')) add(ownWords(texts, reply));
  return parts;
}

// The first choice is there for whoever has ticked all lines.
function gate(ticked, go, texts, add) {
  const lists = ticked.map(part => tickList(part, () => show()));
  const how = make('p', { class: 'soft', id: 'how' }, texts.PHONE_TICK_FIRST);
  const all = () => lists.every(list => [...list.querySelectorAll('input')].every(i => i.checked));
  const show = () => {
    if (all()) go.removeAttribute('aria-disabled');
    else go.setAttribute('aria-disabled', 'true');
  };
  go.setAttribute('aria-describedby', 'how');
  go.addEventListener('click', event => {
    if (all()) return;
    event.stopImmediatePropagation();
    lists.flatMap(list => [...list.querySelectorAll('input')]).find(i => !i.checked).focus();
  }, true);
  show();
  add(how, ...lists);
}
