// What is kept on this device: records of cases, as the lines of a case's file, and who works here. A line is kept when its transaction is complete.
'use strict';

const asked = request => new Promise((yes, no) => {
  request.onsuccess = () => yes(request.result);
  request.onerror = () => no(request.error);
});
const complete = transaction => new Promise((yes, no) => {
  transaction.oncomplete = () => yes();
  transaction.onabort = () => no(transaction.error ?? new Error('not kept'));
  transaction.onerror = () => no(transaction.error);
});

class Keeping {
  // Null where this browser keeps nothing of this page. That is tried, not believed.
  static async open() {
    try {
      const request = indexedDB.open('telltale', 1);
      request.onupgradeneeded = () => {
        request.result.createObjectStore('lines', { keyPath: ['case', 'at'] }).createIndex('case', 'case');
        request.result.createObjectStore('settings');
      };
      const keeping = new Keeping();
      keeping.base = await asked(request);
      await keeping.set('tried', Date.now());
      return await keeping.get('tried') > 0 ? keeping : null;
    } catch {
      return null;
    }
  }

  store(name) {
    return this.base.transaction(name, 'readonly').objectStore(name);
  }
  get(name) {
    return asked(this.store('settings').get(name));
  }
  set(name, value) {
    const transaction = this.base.transaction('settings', 'readwrite', { durability: 'strict' });
    transaction.objectStore('settings').put(value, name);
    return complete(transaction);
  }

  // Lines of one case, behind those that there are: all of them or none.
  async add(caseId, lines) {
    const transaction = this.base.transaction('lines', 'readwrite', { durability: 'strict' });
    const store = transaction.objectStore('lines'), done = complete(transaction);
    const count = await asked(store.index('case').count(caseId));
    lines.forEach((line, i) => store.add({ case: caseId, at: count + i, line }));
    return done;
  }
  async lines(caseId) {
    return (await asked(this.store('lines').index('case').getAll(caseId))).map(row => row.line);
  }
  async cases() {
    const ids = new Set();
    for (const [id] of await asked(this.store('lines').getAllKeys())) ids.add(id);
    return [...ids].sort().reverse();
  }
  erase(caseId) {
    const transaction = this.base.transaction('lines', 'readwrite', { durability: 'strict' });
    transaction.objectStore('lines').delete(IDBKeyRange.bound([caseId, 0], [caseId, Infinity]));
    return complete(transaction);
  }
}

// A case that came as text: its lines by the case that they name; lines that name none are left out. Null: there are none.
function casesInText(text) {
  const cases = new Map();
  for (const line of text.split('\n').map(l => l.trim()).filter(l => l.length > 0)) {
    let id = null;
    try {
      const record = JSON.parse(line);
      if (typeof record.case === 'string' && typeof record.writer === 'string' && record.seq > 0) id = record.case;
    } catch { /* no record */ }
    if (id !== null) cases.set(id, [...(cases.get(id) ?? []), line]);
  }
  return cases.size > 0 ? cases : null;
}
