// `schema` against `check`: every good book of ours fits its own schema, and a name that is spelled wrong anywhere breaks both.
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { expect, finish, need, scratch, skipWithout, source, telltale } from './tools.mjs';

skipWithout('schemas of books against what check says', 'ajv', 'yaml');
const Ajv = need('ajv').default ?? need('ajv');
const YAML = need('yaml');

const files = (folder) => readdirSync(folder).flatMap((name) => {
  const path = join(folder, name);
  return statSync(path).isDirectory() ? files(path) : /\.ya?ml$/.test(name) ? [path] : [];
});

function book(folder) {
  const ajv = new Ajv({ strict: false, allErrors: false, inlineRefs: false });
  const schema = JSON.parse(telltale(['schema', folder], 0));
  return { folder, fits: ajv.compile(schema), ajv, files: files(folder) };
}

// A seed of its own: the same places in every run.
let drawn = 7;
const below = (limit) => (drawn = (drawn * 48271) % 2147483647) % limit;

// Scalars that are the name of something: keys and values.
function places(document) {
  const found = [];
  YAML.visit(document, { Scalar: (key, node, path) => {
    if (typeof node.value === 'string' && /^[a-z][a-z0-9-]*( of [a-z -]+)?$/.test(node.value)) found.push({ node, path });
  } });
  return found;
}

function wrongNames(b, most) {
  let tried = 0, broken = 0;
  rmSync(join(scratch, 'copy'), { recursive: true, force: true }); // nothing of the book before
  for (let round = 0; round < most; round++) {
    const path = b.files[below(b.files.length)];
    const document = YAML.parseDocument(readFileSync(path, 'utf8'));
    const all = places(document);
    if (all.length === 0) continue;
    const place = all[below(all.length)], was = place.node.value;
    place.node.value = was.replace(/^[a-z0-9-]+/, (base) => `${base}-zz`);
    place.node.source = undefined;
    const copy = join(scratch, 'copy');
    cpSync(b.folder, copy, { recursive: true, force: true });
    const target = join(copy, relative(b.folder, path));
    writeFileSync(target, document.toString({ lineWidth: 0 }));
    const faults = telltale(['check', copy, '--json'], 0, 1).split('\n').filter(Boolean).map((line) => JSON.parse(line));
    // Where a text may stand in the place of a name, as under 'protect' and 'harm', the schema can't tell.
    const here = faults.filter((f) => !/There is no (protection|harm)/.test(f.text)).filter((f) => f.file === relative(b.folder, path) && /There is no|is no answer|names the|has no key|is no word|no such|is no unit/.test(f.text) && f.text.includes(`${was.split(' ')[0]}-zz`));
    const valid = b.fits(YAML.parse(readFileSync(target, 'utf8')));
    if (here.length > 0) {
      broken++;
      expect(!valid, `${target}: check says '${here[0].text}', the schema nothing`);
    }
    if (faults.every((f) => f.severity !== 'error')) expect(valid, `${target}: '${was}' as '${place.node.value}' is good for check, not for the schema: ${b.ajv.errorsText(b.fits.errors)}`);
    tried++;
    writeFileSync(target, readFileSync(path));
  }
  return [tried, broken];
}

const folders = ['rules/foam-line', 'rules/dosing-and-pumping', 'rules/standby-generator', ...readdirSync(join(source, 'tests/cli')).map((f) => `tests/cli/${f}`)]
  .map((f) => join(source, f)).filter((f) => statSync(f).isDirectory() && files(f).some((path) => /^book:/m.test(readFileSync(path, 'utf8'))));
for (const name of ['full', 'equipment', 'quantities']) {
  const folder = join(scratch, name);
  mkdirSync(folder);
  cpSync(join(source, `tests/unit/read/${name}.yaml`), join(folder, `${name}.yaml`));
  if (name === 'full') cpSync(join(source, 'tests/unit/read/pump.svg'), join(folder, 'pump.svg'));
  folders.push(folder);
}
for (const folder of folders) {
  const b = book(folder);
  for (const path of b.files) expect(b.fits(YAML.parse(readFileSync(path, 'utf8'))), `${path}: ${b.ajv.errorsText(b.fits.errors)}`);
  const [tried, broken] = wrongNames(b, folder.includes('foam-line') ? 60 : 40);
  console.log(`${folder}: ${tried} names changed, ${broken} of them names of something else`);
}
finish();
