// An editor's language server with the schema of a book: what it completes, shows and marks, in every place where a name,
// an answer or a unit stands.
import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, finish, need, scratch, skipWithout, source, telltale } from './tools.mjs';

skipWithout('what editors show of a book', 'yaml-language-server', 'vscode-jsonrpc');
const rpc = need('vscode-jsonrpc/node');
const schema = join(scratch, 'foam.schema.json');
writeFileSync(schema, telltale(['schema', join(source, 'rules/foam-line')], 0));

// ---- the server ----

const settings = { schemas: { [pathToFileURL(schema).href]: '*.yaml' }, validate: true, hover: true, completion: true, schemaStore: { enable: false } };
const server = spawn(process.execPath, [need.resolve('yaml-language-server/bin/yaml-language-server'), '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
const talk = rpc.createMessageConnection(new rpc.StreamMessageReader(server.stdout), new rpc.StreamMessageWriter(server.stdin));
talk.onRequest('workspace/configuration', (asked) => asked.items.map((item) => (item.section === 'yaml' ? settings : {})));
talk.onRequest('client/registerCapability', () => null);
const marks = new Map();
talk.onNotification('textDocument/publishDiagnostics', (p) => marks.get(p.uri)?.(p.diagnostics));
talk.listen();
const markdown = ['markdown'];
await talk.sendRequest('initialize', { processId: process.pid, rootUri: pathToFileURL(scratch).href, capabilities: {
  textDocument: { hover: { contentFormat: markdown }, completion: { completionItem: { documentationFormat: markdown } } },
  workspace: { configuration: true, didChangeConfiguration: { dynamicRegistration: true } } } });
talk.sendNotification('initialized', {});
talk.sendNotification('workspace/didChangeConfiguration', { settings: { yaml: settings } });

let count = 0;
// Opens a text in which § is where the cursor stands; the marks come once it was looked at.
async function open(marked) {
  const at = marked.indexOf('§'), text = marked.replace('§', ''), before = marked.slice(0, at).split('\n');
  const uri = pathToFileURL(join(scratch, `${count++}.yaml`)).href;
  const marked_ = new Promise((done) => marks.set(uri, done));
  talk.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'yaml', version: 1, text } });
  const diagnostics = await marked_;
  const position = { line: before.length - 1, character: before[before.length - 1].length };
  return { diagnostics, about: { textDocument: { uri }, position } };
}

async function completes(text, ...wanted) {
  const { about } = await open(text);
  const items = (await talk.sendRequest('textDocument/completion', about)).items.map((i) => i.label);
  for (const one of wanted) expect(items.includes(one), `${text}\n  offers ${items.slice(0, 9)} … and not ${one}`);
}

async function shows(text, wanted) {
  const { about } = await open(text);
  const said = (await talk.sendRequest('textDocument/hover', about))?.contents?.value ?? '';
  expect(said.includes(wanted), `${text}\n  shows ${said.slice(0, 300)}\n  and not ${wanted}`);
}

async function takes(text, good) {
  const { diagnostics } = await open(text + '§');
  expect((diagnostics.length === 0) === good, `${text}\n  ${good ? 'is marked' : 'is not marked'}: ${diagnostics.map((d) => d.message.slice(0, 200)).join('; ')}`);
}

// ---- every place: before it, a right name, a wrong one ----

const symptom = (rest) => `symptoms:\n  new-sign:\n    text: New\n${rest}`;
const fix = (rest) => `fixes:\n  new-fix:\n    text: New\n    role: attendant\n    harm: none\n    put-back: not needed\n    cures: {foam-air-high: usually}\n${rest}`;
const rule = (rest) => `rules:\n  new-rule:\n    when: {foam-look: stiff}\n    then:\n${rest}`;
const worked = (rest) => `cases:\n  new-case:\n    expect: {leading-cause: foam-air-high}\n${rest}`;
const shown = '    shown-by: {foam-air-high: often}\n';
const places = [
  [symptom(`${shown}    when:\n      `), 'foam-look', ': stiff\n'],
  [symptom(`${shown}    when: {foam-look: `), 'stiff', '}\n'],
  [symptom(`${shown}    when: {any: [{foam-look: [stiff, `), 'runny', ']}]}\n'],
  [symptom(`${shown}    when: {foam-look: {not: `), 'stiff', '}}\n'],
  [symptom(`${shown}    when: {foam-too-dry: `), 'shown', '}\n'],
  [symptom('    when: {foam-look: stiff}\n    shown-by:\n      '), 'foam-air-high', ': often\n'],
  [symptom('    when: {foam-look: stiff}\n    shown-by: {foam-air-high: '), 'often', '}\n'],
  [symptom(`    when: {foam-look: stiff}\n${shown}    for-each: `), 'station', '\n'],
  [fix('    look-again: ['), 'foam-look', ']\n'],
  [fix('    adjust: {by: 5 psi, within: 20 to 60 psi, at-most: 3 times, reading: '), 'foam-air', '}\n'],
  [rule('      rule-out: ['), 'foam-air-high', ']\n'],
  [rule('      likelier:\n        '), 'foam-air-high', ': 3 times\n'],
  [rule('      skip: ['), 'foam-look', ']\n'],
  [rule('      stop: Stop\n      call: '), 'technician', '\n'],
  [worked('    as: '), 'technician', '\n'],
  [worked('    complaint: '), 'foam-too-dry', '\n'],
  [worked('    answers:\n      '), 'foam-look', ': stiff\n'],
  [worked('    answers: {foam-look: '), 'stiff', '}\n'],
  ['cases:\n  c:\n    expect: {leading-cause: ', 'foam-air-high', '}\n'],
  ['cases:\n  c:\n    expect: {first-fix: ', 'lower-foam-air', '}\n'],
  ['cases:\n  c:\n    expect: {next: ', 'foam-look', '}\n'],
  ['cases:\n  c:\n    expect: {never-asked: [', 'foam-look', ']}\n'],
  ['causes:\n  c:\n    text: New\n    never-with: [', 'foam-air-high', ']\n'],
  ['causes:\n  c:\n    text: New\n    confirmed-by: ', 'technician', '\n'],
  ['questions:\n  q:\n    ask: New?\n    role: ', 'technician', '\n'],
  ['questions:\n  q:\n    ask: New?\n    confirms: {yes: ', 'foam-air-high', '}\n'],
  ['questions:\n  q:\n    ask: New?\n    reading: pressure\n    unit: ', 'psi', '\n'],
];
for (const [before, name, behind] of places) {
  await completes(`${before}§${behind.startsWith(':') ? '\n' : behind}`, name);
  await takes(before + name + behind, true);
  await takes(`${before}${name}zz${behind}`, false);
}

await shows(symptom(`${shown}    when: {foam-l§ook: stiff}\n`), 'How does the foam look');
await shows(symptom(`${shown}    when: {foam-look: sti§ff}\n`), 'Dry and stiff');
await shows(symptom('    when: {foam-look: stiff}\n    shown-by: {foam-air-h§igh: often}\n'), 'The foam air is set too high. How often: common.');
await shows(symptom('    when: {foam-look: stiff}\n    shown-by: {foam-air-high: oft§en}\n'), '70 of 100');
await shows(fix('    look-again: [foam-l§ook]\n'), 'How does the foam look');
await shows(rule('      rule-out: [foam-air-h§igh]\n'), 'The foam air is set too high');
await shows(worked('    as: techni§cian\n'), 'A role of this book');
await shows('cases:\n  c:\n    expect: {first-fix: lower-foam-a§ir}\n', 'Turn the foam air down');

// ---- units that fit, and others ----

for (const [reading, good] of [['below 20 psi', true], ['above 1.4 bar', true], ['20 to 40 psi', true], ['at least 140 kPa', true], ['above pump-air + 5 psi', true],
  ['known', true], ['below 20 kg', false], ['below 20', false], ['20 psii', false], ['beneath 20 psi', false], ['above pump-sir + 5 psi', false]])
  await takes(symptom(`${shown}    when: {foam-air: ${reading}}\n`), good);
for (const [reading, good] of [['40 psi', true], ['2.8 bar', true], ['unsure', true], ['40 gpm', false], ['40', false]])
  await takes(worked(`    answers: {foam-air: ${reading}}\n`), good);
await completes(symptom(`${shown}    when: {foam-air: §}\n`), 'known');

talk.dispose();
server.kill();
finish();
