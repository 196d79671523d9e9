// Making an entry: its id, its device and number, its time, all here and now, at the moment of submitting.

import { keepEntry } from "./keep.js";

/** Random bytes; this much every browser has, also at a plain address. @param {number} count */
export function chance(count) {
  return crypto.getRandomValues(new Uint8Array(count));
}

/** @param {Uint8Array} bytes */
function hex(bytes) {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** A UUID of version 7 (RFC 9562, section 5.7): 48 bits of time in milliseconds, then chance. @param {number} at */
export function newId(at) {
  const bytes = chance(16);
  let time = Math.max(0, Math.floor(at));
  for (let i = 5; i >= 0; i -= 1) {
    bytes[i] = time % 256;
    time = Math.floor(time / 256);
  }
  bytes[6] = 0x70 | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const digits = hex(bytes);
  return [digits.slice(0, 8), digits.slice(8, 12), digits.slice(12, 16), digits.slice(16, 20), digits.slice(20)].join("-");
}

/** @typedef {{yard: string, tag: string, machine: string|null, person: string}} Writer */

/**
 * Writes an entry and keeps it on this phone.
 * @param {Writer} writer
 * @param {string} kind
 * @param {object} body
 * @param {{worse?: string[], photos?: string[], at?: number}} [more]
 */
export function write(writer, kind, body, more = {}) {
  const at = more.at ?? Date.now();
  const id = newId(at);
  const make = (/** @type {string} */ device, /** @type {number} */ counter) => {
    const machine = writer.machine === null ? {} : { machine: writer.machine };
    const entry = {
      id, yard: writer.yard, ...machine, kind, version: 1, at: new Date(at).toISOString(), by: writer.person, device, counter, body,
    };
    return {
      id, tag: writer.tag, text: JSON.stringify(entry), kind, machine: writer.machine, counter, at, person: writer.person,
      worse: more.worse ?? [], state: /** @type {const} */ ("waiting"),
    };
  };
  return keepEntry(make, `phone ${hex(chance(4))}`, more.photos ?? []);
}
