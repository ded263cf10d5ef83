// `check --sarif` against the schema of SARIF 2.1.0, for every file of faults that we have; and that what it would have
// replaced mends what was wrong.
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, finish, need, scratch, skipWithout, source, telltale, tools } from './tools.mjs';

const schemaPath = '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json';
skipWithout('logs of faults against the schema of their standard', schemaPath, 'ajv-draft-04', 'ajv');
const Ajv = need('ajv-draft-04').default ?? need('ajv-draft-04');
const ajv = new Ajv({ strict: false, validateFormats: false, allErrors: true, unicodeRegExp: false });
const fits = ajv.compile(JSON.parse(readFileSync(join(tools, schemaPath), 'utf8')));

function log(folder) {
  const text = telltale(['check', folder, '--sarif'], 0, 1);
  const value = JSON.parse(text);
  expect(fits(value), `${folder}: ${ajv.errorsText(fits.errors?.slice(0, 5))}`);
  return value;
}

// The check sees what is no log.
expect(!fits({ version: '2.1.0', runs: [{}] }), 'a run without a tool was taken for one');

// ---- every fault there is an example of ----

let results = 0, mended = 0;
const put = (lines, at, text) => {
  const points = (line) => [...line];
  const first = points(lines[at.startLine - 1]), last = points(lines[at.endLine - 1]);
  const line = first.slice(0, at.startColumn - 1).join('') + text + last.slice(at.endColumn - 1).join('');
  return [...lines.slice(0, at.startLine - 1), line, ...lines.slice(at.endLine)];
};

const codes = (value) => value.runs[0].results.map((r) => r.ruleId);

for (const stage of ['load', 'read']) {
  const folder = join(source, 'tests/unit', stage, 'faults');
  for (const name of readdirSync(folder).filter((f) => f.endsWith('.yaml'))) {
    const book = join(scratch, `${stage}-${name}`);
    mkdirSync(book);
    cpSync(join(folder, name), join(book, name));
    const drawing = name.replace(/\.yaml$/, '.svg');
    if (existsSync(join(folder, drawing))) cpSync(join(folder, drawing), join(book, drawing));
    const before = log(book);
    results += before.runs[0].results.length;
    for (const r of before.runs[0].results.filter((one) => one.fixes !== undefined)) {
      const change = r.fixes[0].artifactChanges[0];
      const path = join(book, decodeURIComponent(change.artifactLocation.uri));
      const was = readFileSync(path, 'utf8');
      const { deletedRegion, insertedContent } = change.replacements[0];
      writeFileSync(path, put(was.split('\n'), deletedRegion, insertedContent.text).join('\n'));
      const after = log(book);
      const same = (list) => codes(list).filter((code) => code === r.ruleId).length;
      expect(same(after) < same(before), `${name}: ${r.message.text} is not mended by '${insertedContent.text}'`);
      writeFileSync(path, was);
      mended++;
    }
  }
}
expect(results > 100 && mended > 10, `only ${results} results, ${mended} of them with a mend`);
console.log(`${results} results, ${mended} mended`);
for (const book of ['rules/foam-line', 'tests/cli/well']) expect(codes(log(join(source, book))).length === 0, `${book} has faults`);
finish();
