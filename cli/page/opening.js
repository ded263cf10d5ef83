// How the page opens: what it carries is taken out of its packing by a small module, and the script in it takes over.
'use strict';

const carried = { danger: false }; // `danger`: the red bar was touched before there was anything to answer it

function sayWhatFailed(error) {
  console.error(error);
  const line = (tag, text) => Object.assign(document.createElement(tag), { textContent: text });
  document.getElementById('turn').replaceChildren(line('h1', 'This browser can\'t run this page.'),
    line('p', 'Use a newer one. If there is danger: stop, keep away, and call for help.'), line('p', String(error.message ?? error)));
  document.body.dataset.ready = 'no';
}

// Letters are bytes (letters.h), these an .lzma file, and that the load: the module reads the first and unpacks the second.
async function unpackedLoad() {
  const text = id => document.getElementById(id).textContent;
  const opener = Uint8Array.from(atob(text('opener')), letter => letter.charCodeAt(0));
  const { memory, bytes_of_letters: read, unpack, __heap_base: from } = (await WebAssembly.instantiate(opener, {})).instance.exports;
  const room = end => {
    const missing = end - memory.buffer.byteLength;
    if (missing > 0) memory.grow(Math.ceil(missing / 65536));
  };
  const letters = new TextEncoder().encode(text('load')), packed = from.value + letters.length;
  room(packed + letters.length);
  new Uint8Array(memory.buffer).set(letters, from.value);
  const length = read(from.value, letters.length, packed), out = packed + length;
  const size = new DataView(memory.buffer).getUint32(packed + 5, true);
  room(out + size);
  if (!unpack(packed, length, out)) throw new Error('the page is damaged');
  return new Uint8Array(memory.buffer, out, size);
}

// A load is the lengths of the module and of the script, these two, and what the engine is opened with.
async function open() {
  const load = await unpackedLoad(), lengths = new DataView(load.buffer, load.byteOffset, 8);
  const script = 8 + lengths.getUint32(0, true), setup = script + lengths.getUint32(4, true);
  carried.module = load.subarray(8, script);
  carried.setup = load.subarray(setup);
  document.head.append(Object.assign(document.createElement('script'), { textContent: new TextDecoder().decode(load.subarray(script, setup)) }));
  if (!window.telltaleTurn) throw new Error('the page is damaged');
}

document.getElementById('danger').addEventListener('click', () => { carried.danger = true; });
open().catch(sayWhatFailed);
