// The engine in the page: how the module is taken out of the page, and the calls on it. Texts go in and come out; what they mean is the engine's business.
'use strict';

// Eighty-five letters that mean nothing in HTML: five of them are four bytes, the first counting most; a rest of n + 1 letters is n bytes.
const LETTERS = '0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.-:+=^!/*?_~()[]{}@%$#;';

function bytesOfLetters(text) {
  const values = new Uint8Array(128);
  for (let i = 0; i < 85; i++) values[LETTERS.charCodeAt(i)] = i;
  const length = Math.floor(text.length / 5) * 4 + (text.length % 5 > 0 ? text.length % 5 - 1 : 0);
  const bytes = new Uint8Array(length + 4), view = new DataView(bytes.buffer);
  for (let from = 0, to = 0; to < length; from += 5, to += 4) {
    let number = 0;
    for (let i = 0; i < 5; i++) number = number * 85 + (from + i < text.length ? values[text.charCodeAt(from + i)] : 84);
    view.setUint32(to, number);
  }
  return bytes.subarray(0, length);
}

// What `packed` holds, by the small module that the page carries unpacked.
async function unpacked(unpackModule, packed) {
  const { instance } = await WebAssembly.instantiate(unpackModule, {});
  const { memory, unpack, __heap_base: from } = instance.exports;
  const size = new DataView(packed.buffer, packed.byteOffset).getUint32(5, true), out = from.value + packed.length;
  const missing = out + size - memory.buffer.byteLength;
  if (missing > 0) memory.grow(Math.ceil(missing / 65536));
  new Uint8Array(memory.buffer).set(packed, from.value);
  if (!unpack(from.value, packed.length, out)) throw new Error('the page is damaged');
  return new Uint8Array(memory.buffer, out, size);
}

// A load is the length of the module, the module, and what it is opened with.
function partsOfLoad(load) {
  const length = new DataView(load.buffer, load.byteOffset).getUint32(0, true);
  return { module: load.subarray(4, 4 + length), setup: load.subarray(4 + length) };
}

class Engine {
  // `setup`: bytes of the JSON that page_open takes. What is wrong with it is thrown.
  static async open(module, setup) {
    const refuse = () => 8; // the module has no files
    const outside = {
      page: { stopped: (at, length) => { throw new Error(engine.textAt(at, length)); } },
      wasi_snapshot_preview1: { fd_close: refuse, fd_read: refuse, fd_seek: refuse, fd_write: refuse },
    };
    const engine = new Engine();
    engine.is = (await WebAssembly.instantiate(module, outside)).instance.exports;
    engine.page = engine.withBytes(setup, (at, length) => engine.is.page_open(at, length));
    engine.book = JSON.parse(engine.said());
    if (engine.book.wrong) throw new Error(engine.book.wrong);
    return engine;
  }

  textAt(at, length) {
    return new TextDecoder().decode(new Uint8Array(this.is.memory.buffer, at, length));
  }
  said() {
    const at = this.is.page_said(this.page), bytes = new Uint8Array(this.is.memory.buffer, at);
    return this.textAt(at, bytes.indexOf(0));
  }
  withBytes(bytes, call) {
    const at = this.is.page_take(bytes.length + 1);
    if (at === 0) throw new Error('there is no memory left');
    new Uint8Array(this.is.memory.buffer).set(bytes, at);
    try {
      return call(at, bytes.length);
    } finally {
      this.is.page_give_back(at);
    }
  }
  call(name, what) {
    const text = typeof what === 'string' ? what : JSON.stringify(what);
    this.withBytes(new TextEncoder().encode(text), (at, length) => this.is[name](this.page, at, length));
    return JSON.parse(this.said());
  }

  // Each of these gives { keep: lines, turn: the next turn as a line of JSON, or null while there is something to keep }.
  begin(setup) { return this.call('page_begin', setup); }
  hear(reply) { return this.call('page_hear', reply); }
  kept(whether) {
    this.is.page_kept(this.page, whether ? 1 : 0);
    return JSON.parse(this.said());
  }
  // Our own words around a turn, by their ids.
  texts(language) { return this.call('page_texts', { language }); }
  summary(caseId, records) { return this.call('page_summary', { case: caseId, records }); }
}
