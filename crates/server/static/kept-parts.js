// Parts taken in so far, kept in this browser until their entries are delivered. Each part has a place of its own, so that tabs agree.

import { addressLetters, keyOf, partOf } from "./parts.js";

/** @typedef {import("./parts.js").Part} Part */
/** @typedef {{id: string, is: string, told: string}} Told what became of one entry */
/** @typedef {{whole: string, form: string, of: number, parts: Part[], missing: number[]}} Series */

/** So many deliveries are remembered, to say so when one of their parts comes again. */
const MOST_DONE = 100;

export class KeptParts {
  /** @param {string} yard the yard's tag @param {Storage} storage */
  constructor(yard, storage) {
    this.storage = storage;
    this.partPlace = `take-in ${yard} part `;
    this.toldPlace = `take-in ${yard} told `;
    this.donePlace = `take-in ${yard} done`;
  }

  /**
   * Keeps a part; the same twice is once.
   * @param {Part} part
   * @returns {"kept"|"done"|"full"} done: what it belongs to was delivered before; full: the browser has no room
   */
  keep(part) {
    if (this.done().includes(part.whole)) return "done";
    try {
      this.storage.setItem(`${this.partPlace}${part.whole}.${part.form}.${part.of}.${part.n}`, `${keyOf(part)} ${addressLetters(part)}`);
      return "kept";
    } catch {
      return "full";
    }
  }

  /** @returns {Series[]} where a series is whole, others of the same entries (text beside codes, say) are left out */
  series() {
    const all = new Map();
    for (const part of this.parts()) {
      const name = `${part.whole}.${part.form}.${part.of}`;
      const { whole, form, of } = part;
      const series = all.get(name) ?? { whole, form, of, parts: [], missing: [] };
      series.parts.push(part);
      all.set(name, series);
    }
    const list = [...all.values()];
    for (const series of list) {
      const here = new Set(series.parts.map((part) => part.n));
      series.missing = Array.from({ length: series.of }, (_, i) => i + 1).filter((n) => !here.has(n));
    }
    const complete = list.filter((series) => !series.missing.length);
    const first = (series) => complete.find((other) => other.whole === series.whole);
    return list
      .filter((series) => first(series) === undefined || first(series) === series)
      .sort((a, b) => (a.whole < b.whole ? -1 : Number(a.whole > b.whole)));
  }

  parts() {
    const places = this.places(this.partPlace);
    const read = places.map((place) => partOf(...(this.storage.getItem(place) ?? "").split(" ")));
    return read.filter((part) => part !== null);
  }

  /** What became of the entries of a whole at earlier tries. @param {string} whole @returns {Told[]} */
  told(whole) {
    return this.list(`${this.toldPlace}${whole}`);
  }

  /** @param {string} whole @param {Told[]} told @returns {boolean} whether there was room for it */
  keepTold(whole, told) {
    return this.write(`${this.toldPlace}${whole}`, told);
  }

  /** Puts a whole away: everything of it is delivered. @param {string} whole */
  finish(whole) {
    this.write(this.donePlace, [...this.done(), whole].slice(-MOST_DONE));
    this.forget(whole);
  }

  /** Lets go of a whole, with all its parts, because the person said so. @param {string} whole */
  forget(whole) {
    for (const place of this.places(`${this.partPlace}${whole}.`)) this.storage.removeItem(place);
    this.storage.removeItem(`${this.toldPlace}${whole}`);
  }

  done() {
    return this.list(this.donePlace);
  }

  places(start) {
    const all = Array.from({ length: this.storage.length }, (_, i) => this.storage.key(i));
    return all.filter((place) => place !== null && place.startsWith(start));
  }

  list(place) {
    try {
      const list = JSON.parse(this.storage.getItem(place) ?? "[]");
      return Array.isArray(list) ? list : [];
    } catch {
      return [];
    }
  }

  write(place, value) {
    try {
      this.storage.setItem(place, JSON.stringify(value));
      return true;
    } catch {
      return false;
    }
  }
}
