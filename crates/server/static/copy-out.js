// Getting unsent entries off a phone that cannot reach the yard's computer: as text, and as square codes another phone reads.

import { button, make } from "./element.js";
import { addressLetters, cut, keyOf, textOf, wholeOf } from "./parts.js";
import { qrMakeUp, qrSvg } from "./qr.js";
import { sayer } from "./say.js";

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
 * @param {Record<string, string>} words the sentences `copy-out-…` by their keys
 * @param {string} address the server's, as the other phone reaches it, e.g. `http://192.0.2.7:4720`
 * @param {string} tag the yard's
 * @param {string[]} [photos] ids of photos that stay behind
 */
export async function renderCopyOut(inside, entries, words, address, tag, photos = []) {
  const say = sayer(words);
  const whole = wholeOf({ entries, photos });
  const page = `${address}/y/${tag}/take-in`;
  const [text, codes] = await Promise.all([textOf(whole), codeAddresses(whole, page)]);
  const head = say("copy-out-head", { n: entries.length, address: page });
  const left = photos.length ? [make("p", { textContent: say("copy-out-photos", { n: photos.length }) })] : [];
  inside.replaceChildren(...left, ...textWay(`${head}\n\n${text}\n`, say), ...codesWay(codes, say));
}

/**
 * What each code says: an address that any phone's camera opens.
 * @param {Uint8Array} whole
 * @param {string} page where parts are taken in
 * @returns {Promise<string[]>}
 */
export async function codeAddresses(whole, page) {
  const longestKey = "#k=1000.1000.00000000.00000000.z&d=".length;
  const letters = qrMakeUp(LARGEST, "L").bytes - page.length - longestKey;
  const parts = await cut(whole, Math.max(90, Math.floor((letters * 3) / 4)), true);
  return parts.map((part) => `${page}#k=${keyOf(part)}&d=${addressLetters(part)}`);
}

// --- As text ---

function textWay(text, say) {
  const box = make("textarea", { value: text, readOnly: true, className: "armour", spellcheck: false });
  const said = make("p", { role: "status" });
  const copy = async () => {
    said.textContent = (await copied(box)) ? say("copy-out-copied") : say("copy-out-copy-by-hand");
  };
  const ways = [button(say("copy-out-copy"), copy)];
  if (navigator.share) {
    // Put off by the person is no trouble; anything else leaves the text where it is.
    ways.push(button(say("copy-out-share"), () => navigator.share({ text }).catch(() => {})));
  }
  ways.push(button(say("copy-out-save"), () => save(text, say("copy-out-file-name"))));
  return [
    make("h2", { textContent: say("copy-out-text-title") }),
    make("p", { textContent: say("copy-out-text-how") }),
    make("label", { className: "field", textContent: say("copy-out-text-label") }, box),
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

function codesWay(codes, say) {
  const view = new CodeView(codes, say);
  const many = codes.length > MANY ? [make("p", { textContent: say("copy-out-codes-many") })] : [];
  return [
    make("h2", { textContent: say("copy-out-codes-title") }),
    make("p", { textContent: say("copy-out-codes-how") }),
    ...many,
    view.opener,
    view.whole,
  ];
}

/** One code at a time, as large as the screen allows. */
class CodeView {
  constructor(codes, say) {
    this.codes = codes;
    this.say = say;
    this.at = 0;
    this.timer = 0;
    this.place = make("p", { className: "strong", role: "status" });
    this.frame = make("div", { className: "code" });
    this.opener = button(say("copy-out-codes-show"), () => this.show(this.whole.hidden));
    this.opener.setAttribute("aria-expanded", "false");
    this.runner = button(say("copy-out-run"), () => this.run(!this.timer));
    const steps = codes.length > 1 ? this.steps() : [];
    this.whole = make("div", { hidden: true }, this.place, this.frame, ...steps);
    // A code that nobody sees need not change.
    document.addEventListener("visibilitychange", () => document.hidden && this.run(false));
  }

  steps() {
    const { say } = this;
    const step = (by) => () => {
      this.run(false);
      this.draw(this.at + by);
    };
    const pair = make("div", { className: "pair" }, button(say("copy-out-back"), step(-1)), button(say("copy-out-next"), step(1)));
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    return still ? [pair] : [pair, this.runner];
  }

  show(shown) {
    this.run(false);
    this.whole.hidden = !shown;
    this.opener.textContent = shown ? this.say("copy-out-codes-hide") : this.say("copy-out-codes-show");
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
    this.place.textContent = this.say("copy-out-place", values);
    this.frame.replaceChildren(qrSvg(bytes, { level: "L", title: this.say("copy-out-code-title", values) }));
  }

  run(running) {
    clearInterval(this.timer);
    this.timer = running ? setInterval(() => this.turn(), STANDS) : 0;
    // What changes by itself is not read out each time.
    this.place.setAttribute("aria-live", running ? "off" : "polite");
    this.runner.textContent = running ? this.say("copy-out-pause") : this.say("copy-out-run");
  }

  turn() {
    // Taken off the page with the timer still going.
    if (this.whole.isConnected) this.draw(this.at + 1);
    else this.run(false);
  }
}
