// Getting unsent entries off a phone that cannot reach the yard's computer: as text, and as square codes another phone reads.

import { addressLetters, cut, keyOf, textOf, wholeOf } from "./parts.js";
import { qrMakeUp, qrSvg } from "./qr.js";

/**
 * Every word shown. What stands in braces is put in here.
 * @typedef {object} Words
 * @property {string} head lines that stand above the text when it is sent, saying what it is and what to do with it: `{n}` entries, `{address}`
 * @property {string} textTitle heading of the text
 * @property {string} textHow what to do with it
 * @property {string} textLabel label of the text's box
 * @property {string} copy button: copy the text
 * @property {string} copied said when it was copied
 * @property {string} copyByHand said when the browser did not copy it: it is marked, copy it by hand
 * @property {string} share button: hand the text to another program of the phone
 * @property {string} save button: keep the text as a file
 * @property {string} fileName name of that file
 * @property {string} codesTitle heading of the codes
 * @property {string} codesHow how to read them with the other phone
 * @property {string} codesMany said where there are many of them: text is quicker
 * @property {string} codesShow button: show the codes
 * @property {string} codesHide button: put them away
 * @property {string} place where in the series: `{n}` of `{of}`
 * @property {string} codeTitle what a code is, read out in its place: `{n}` of `{of}`
 * @property {string} next button
 * @property {string} back button
 * @property {string} run button: let them change by themselves
 * @property {string} pause button: stop that
 * @property {string} photos said where photos stay behind on the phone: `{n}`
 */

/** A code of this version is 85 modules wide with its margin: four pixels each on a screen of 360. */
const LARGEST = 15;
/** With more codes than this one does better to send the text. */
const MANY = 12;
/** How long a code stands when they change by themselves, milliseconds: time to find it with a camera. */
const STANDS = 6000;

/**
 * Shows both ways out inside an element, in place of what is there.
 * @param {HTMLElement} inside
 * @param {string[]} entries the texts of the entries, exactly as they are kept
 * @param {Words} words
 * @param {string} address the yard's, as the other phone reaches it, e.g. `http://192.0.2.7:4720/y/0123456789`
 * @param {string[]} [photos] ids of photos that stay behind
 */
export async function renderCopyOut(inside, entries, words, address, photos = []) {
  const whole = wholeOf({ entries, photos });
  const [text, codes] = await Promise.all([copyOutText(whole, entries.length, words, address), codeAddresses(whole, address)]);
  const left = photos.length ? [make("p", { textContent: put(words.photos, { n: photos.length }) })] : [];
  inside.replaceChildren(...left, ...textWay(text, words), ...codesWay(codes, words));
}

/**
 * The text to be sent by any means: what it is in words, then the entries in parts with checksums.
 * @param {Uint8Array} whole
 * @param {number} count of its entries
 * @param {Words} words
 * @param {string} address
 * @returns {Promise<string>}
 */
export async function copyOutText(whole, count, words, address) {
  const head = put(words.head, { n: count, address: `${address}/take-in` });
  return `${head}\n\n${await textOf(whole)}\n`;
}

/**
 * What each code says: an address that any phone's camera opens.
 * @param {Uint8Array} whole
 * @param {string} address
 * @returns {Promise<string[]>}
 */
export async function codeAddresses(whole, address) {
  const start = `${address}/take-in#k=`;
  const longestKey = "1000.1000.00000000.00000000.z&d=".length;
  const letters = qrMakeUp(LARGEST, "L").bytes - start.length - longestKey;
  const parts = await cut(whole, Math.max(90, Math.floor((letters * 3) / 4)), true);
  return parts.map((part) => `${start}${keyOf(part)}&d=${addressLetters(part)}`);
}

function make(tag, properties, ...children) {
  const { role, ...rest } = properties;
  const made = Object.assign(document.createElement(tag), rest);
  if (role) made.setAttribute("role", role);
  made.append(...children);
  return made;
}

function button(label, press, look = "small") {
  const made = make("button", { type: "button", className: look, textContent: label });
  made.addEventListener("click", press);
  return made;
}

function put(template, values) {
  return template.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

// --- As text ---

function textWay(text, words) {
  const box = make("textarea", { value: text, readOnly: true, className: "armour", spellcheck: false });
  const said = make("p", { role: "status" });
  const copy = async () => {
    said.textContent = (await copied(box)) ? words.copied : words.copyByHand;
  };
  const ways = [button(words.copy, copy)];
  if (navigator.share) {
    // Put off by the person is no trouble; anything else leaves the text where it is.
    ways.push(button(words.share, () => navigator.share({ text }).catch(() => {})));
  }
  ways.push(button(words.save, () => save(text, words.fileName)));
  return [
    make("h2", { textContent: words.textTitle }),
    make("p", { textContent: words.textHow }),
    make("label", { className: "field", textContent: words.textLabel }, box),
    make("div", { className: "ways" }, ...ways),
    said,
  ];
}

/** Over plain http there is no clipboard to write to; marking and the old command still are. */
async function copied(box) {
  box.focus();
  box.select();
  try {
    if (navigator.clipboard) {
      await navigator.clipboard.writeText(box.value);
      return true;
    }
    return document.execCommand("copy");
  } catch {
    return false;
  }
}

function save(text, name) {
  const address = URL.createObjectURL(new Blob([text], { type: "text/plain" }));
  make("a", { href: address, download: name }).click();
  // The browser has its own hold on it once the click is done.
  setTimeout(() => URL.revokeObjectURL(address), 0);
}

// --- As square codes ---

function codesWay(codes, words) {
  const view = new CodeView(codes, words);
  const many = codes.length > MANY ? [make("p", { textContent: words.codesMany })] : [];
  return [
    make("h2", { textContent: words.codesTitle }),
    make("p", { textContent: words.codesHow }),
    ...many,
    view.opener,
    view.whole,
  ];
}

/** One code at a time, as large as the screen allows. */
class CodeView {
  constructor(codes, words) {
    this.codes = codes;
    this.words = words;
    this.at = 0;
    this.timer = 0;
    this.place = make("p", { className: "strong", role: "status" });
    this.frame = make("div", { className: "code" });
    this.opener = button(words.codesShow, () => this.show(this.whole.hidden));
    this.opener.setAttribute("aria-expanded", "false");
    this.runner = button(words.run, () => this.run(!this.timer));
    const steps = codes.length > 1 ? this.steps() : [];
    this.whole = make("div", { hidden: true }, this.place, this.frame, ...steps);
    // A code that nobody sees need not change.
    document.addEventListener("visibilitychange", () => document.hidden && this.run(false));
  }

  steps() {
    const { words } = this;
    const step = (by) => () => {
      this.run(false);
      this.draw(this.at + by);
    };
    const pair = make("div", { className: "pair" }, button(words.back, step(-1)), button(words.next, step(1)));
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    return still ? [pair] : [pair, this.runner];
  }

  show(shown) {
    this.run(false);
    this.whole.hidden = !shown;
    this.opener.textContent = shown ? this.words.codesHide : this.words.codesShow;
    this.opener.setAttribute("aria-expanded", String(shown));
    if (shown) {
      this.draw(this.at);
      this.frame.scrollIntoView({ block: "center" });
    }
  }

  draw(at) {
    const of = this.codes.length;
    this.at = (at + of) % of;
    const values = { n: this.at + 1, of };
    const bytes = new TextEncoder().encode(this.codes[this.at]);
    this.place.textContent = put(this.words.place, values);
    this.frame.replaceChildren(qrSvg(bytes, { level: "L", title: put(this.words.codeTitle, values) }));
  }

  run(running) {
    clearInterval(this.timer);
    this.timer = running ? setInterval(() => this.turn(), STANDS) : 0;
    // What changes by itself is not read out each time.
    this.place.setAttribute("aria-live", running ? "off" : "polite");
    this.runner.textContent = running ? this.words.pause : this.words.run;
  }

  turn() {
    // Taken off the page with the timer still going.
    if (this.whole.isConnected) this.draw(this.at + 1);
    else this.run(false);
  }
}
