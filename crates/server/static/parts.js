// Unsent entries cut into parts that travel as square codes or as text, and put together again, each part with its checksum.

import { crcHex } from "./crc.js";

/**
 * The key of a part is written `n.of.whole.part.form`: which part of how many; checksum of the whole as it was before packing;
 * checksum of this part and of the rest of its key; `p` for plain or `z` for deflated (RFC 1951).
 * @typedef {{n: number, of: number, whole: string, form: "p"|"z", bytes: Uint8Array}} Part
 * @typedef {{entries: string[], photos: string[]}} Load
 */

const KEY = /^([1-9][0-9]{0,3})\.([1-9][0-9]{0,3})\.([0-9a-f]{8})\.([0-9a-f]{8})\.([pz])$/;
/** Word and number that say what the whole is. */
const FORM = "unsent-entries";
const VERSION = 1;
/** More than this never comes out of one phone: 8 MiB. */
const MOST_BYTES = 8 << 20;
/** Bytes in a part of the text: sixteen lines of 64 letters. */
const TEXT_PART = 768;
const LINE = 64;

/** @param {Load} load @returns {Uint8Array} */
export function wholeOf({ entries, photos }) {
  return new TextEncoder().encode(JSON.stringify({ form: FORM, version: VERSION, entries, photos }));
}

/**
 * @param {Uint8Array} whole
 * @returns {Load|null} none where it is something else
 */
export function loadOf(whole) {
  const texts = (list) => Array.isArray(list) && list.every((text) => typeof text === "string");
  try {
    const { form, version, entries, photos } = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(whole));
    return form === FORM && version === VERSION && texts(entries) && texts(photos) ? { entries, photos } : null;
  } catch {
    return null;
  }
}

/** Whether this browser can make bytes smaller and larger again. */
export function canPack() {
  return typeof CompressionStream === "function" && typeof DecompressionStream === "function";
}

/**
 * Cuts the whole into parts of at most `most` bytes, deflated first where that is wanted, possible and smaller.
 * @param {Uint8Array} whole
 * @param {number} most
 * @param {boolean} pack
 * @returns {Promise<Part[]>}
 */
export async function cut(whole, most, pack) {
  const deflated = pack && canPack() ? await through(whole, new CompressionStream("deflate-raw")) : null;
  const smaller = deflated !== null && deflated.length < whole.length;
  const bytes = smaller ? deflated : whole;
  const of = Math.max(1, Math.ceil(bytes.length / most));
  const each = Math.ceil(bytes.length / of);
  return Array.from({ length: of }, (_, i) => ({
    n: i + 1,
    of,
    whole: crcHex(whole),
    form: smaller ? "z" : "p",
    bytes: bytes.subarray(i * each, (i + 1) * each),
  }));
}

/** Why parts that are all there do not come to a whole. */
export class NotWhole extends Error {
  /** @param {"cannot-unpack"|"damaged"} why */
  constructor(why) {
    super(why);
    this.why = why;
  }
}

/**
 * Puts the parts of one series together.
 * @param {Part[]} parts all of them, in any order
 * @returns {Promise<Load>}
 * @throws {NotWhole}
 */
export async function join(parts) {
  const inOrder = [...parts].sort((a, b) => a.n - b.n);
  let bytes = joined(inOrder.map((part) => part.bytes));
  const { whole, form } = inOrder[0];
  if (form === "z") {
    if (!canPack()) throw new NotWhole("cannot-unpack");
    bytes = await through(bytes, new DecompressionStream("deflate-raw")).catch(() => new Uint8Array());
  }
  const load = crcHex(bytes) === whole ? loadOf(bytes) : null;
  if (!load) throw new NotWhole("damaged");
  return load;
}

async function through(bytes, stream) {
  const writer = stream.writable.getWriter();
  // What is wrong with the bytes comes out at the reading end.
  writer.write(bytes).catch(() => {});
  writer.close().catch(() => {});
  const reader = stream.readable.getReader();
  const pieces = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return joined(pieces);
    length += value.length;
    if (length > MOST_BYTES) throw new RangeError("too long");
    pieces.push(value);
  }
}

function joined(pieces) {
  const all = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

// --- A part on its way: its key and its letters ---

function checksum({ n, of, whole, form, bytes }) {
  return crcHex(joined([new TextEncoder().encode(`${n}.${of}.${whole}.${form}:`), bytes]));
}

/** @param {Part} part @returns {string} */
export function keyOf(part) {
  return `${part.n}.${part.of}.${part.whole}.${checksum(part)}.${part.form}`;
}

/** Letters of base64 (RFC 4648) without filling. @param {Uint8Array} bytes */
function letters(bytes) {
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replace(/=+$/, "");
}

/** Letters that may stand in an address (RFC 4648, section 5). @param {Part} part */
export function addressLetters(part) {
  return letters(part.bytes).replaceAll("+", "-").replaceAll("/", "_");
}

/**
 * A part from its key and letters.
 * @param {string} key
 * @param {string} data base64 of either alphabet; anything else between the letters is passed over
 * @returns {Part|null} none where a checksum or the key is wrong
 */
export function partOf(key, data) {
  const read = KEY.exec(key);
  if (!read) return null;
  const [n, of, whole, part, form] = [Number(read[1]), Number(read[2]), read[3], read[4], read[5]];
  const made = n <= of ? { n, of, whole, form, bytes: bytesOf(data) } : null;
  return made && made.bytes && checksum(made) === part ? made : null;
}

function bytesOf(data) {
  const plain = data.replaceAll("-", "+").replaceAll("_", "/").replace(/[^A-Za-z0-9+/]/g, "");
  try {
    return Uint8Array.from(atob(plain), (letter) => letter.charCodeAt(0));
  } catch {
    return null;
  }
}

/**
 * The part that an address carries behind its `#`.
 * @param {string} fragment
 * @returns {Part|null|undefined} undefined where it carries none; null where it is damaged
 */
export function fromFragment(fragment) {
  const read = /^#?k=([^&]*)&d=(.*)$/.exec(fragment);
  return read ? partOf(read[1], read[2]) : undefined;
}

// --- As text: each part between brackets, which no quoting or wrapping by a mail program touches ---

/**
 * The parts as text. Never packed, so that the server can read them without more.
 * @param {Uint8Array} whole
 * @returns {Promise<string>}
 */
export async function textOf(whole) {
  const parts = await cut(whole, TEXT_PART, false);
  const blocks = parts.map((part) => {
    const lines = letters(part.bytes).match(new RegExp(`.{1,${LINE}}`, "g")) ?? [];
    return [`[kingpost ${keyOf(part)}`, ...lines, "]"].join("\n");
  });
  return blocks.join("\n");
}

/**
 * Reads text that may have been wrapped, quoted and padded on its way.
 * @param {string} text
 * @returns {{parts: Part[], damaged: number[], missing: number[], of: number}} the sound parts of the series that has most of them,
 *   and the numbers of those that came damaged and not at all; `of` is 0 where there was nothing to read
 */
export function readText(text) {
  const brackets = [...text.matchAll(/\[([^[\]]*)/g)].map(([, inside]) => inside.replace(/[^A-Za-z0-9+/._-]/g, ""));
  const blocks = brackets.filter((inside) => /^kingpost/i.test(inside)).map(readBlock);
  const sound = blocks.map((block) => block.part).filter((part) => part !== null);
  const of = mostOften([...sound.map((part) => part.of), ...blocks.map((block) => block.of)].filter((n) => n > 0));
  const series = mostOften(sound.filter((part) => part.of === of).map((part) => `${part.whole}${part.form}`));
  const parts = new Map(
    sound.filter((part) => part.of === of && `${part.whole}${part.form}` === series).map((part) => [part.n, part]),
  );
  const seen = new Set(blocks.map((block) => block.n));
  const lacking = Array.from({ length: of ?? 0 }, (_, i) => i + 1).filter((n) => !parts.has(n));
  return {
    parts: [...parts.values()].sort((a, b) => a.n - b.n),
    damaged: lacking.filter((n) => seen.has(n)),
    missing: lacking.filter((n) => !seen.has(n)),
    of: of ?? 0,
  };
}

/** One bracket's content, letters only: its part, and what its key says of itself where that can be told. */
function readBlock(inside) {
  const plain = inside.slice("kingpost".length);
  // A key has one length for each length of its numbers, so that it can be told from the letters behind it.
  const read = /^([1-9][0-9]{0,3})\.([1-9][0-9]{0,3})\.[0-9a-z]{8}\.[0-9a-z]{8}\.[a-z]/.exec(plain);
  if (read) {
    return { part: partOf(read[0], plain.slice(read[0].length)), n: Number(read[1]), of: Number(read[2]) };
  }
  const start = /^([1-9][0-9]{0,3})\.([1-9][0-9]{0,3})\./.exec(plain);
  return { part: null, n: start ? Number(start[1]) : 0, of: start ? Number(start[2]) : 0 };
}

function mostOften(values) {
  const counts = new Map();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  let best;
  for (const [value, count] of counts) if (best === undefined || count > counts.get(best)) best = value;
  return best;
}
