// Calls on the engine. Texts go in and come out; what they mean is the engine's business.
'use strict';

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
