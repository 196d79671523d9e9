// Saying sentences that came with the page: what varies is put in here, the sentences themselves are not.

/** @typedef {Record<string, string|[string, string]>} Dictionary */

/** @param {Dictionary} words */
export function speaker(words) {
  /** @param {string} key @param {Record<string, string|number>} [args] */
  const say = (key, args = {}) => {
    const said = words[key];
    const text = Array.isArray(said) ? said[args.n === 1 ? 0 : 1] : said;
    if (text === undefined) return key;
    return text.replace(/\{(\w+)\}/g, (whole, name) => (name in args ? String(args[name]) : whole));
  };
  /** How long ago, in words. @param {number} ms */
  const age = (ms) => {
    const minutes = Math.max(0, Math.floor(ms / 60000));
    if (minutes < 1) return say("phone-age-now");
    if (minutes < 90) return say("phone-age-minutes", { n: minutes });
    if (minutes < 48 * 60) return say("phone-age-hours", { n: Math.floor(minutes / 60) });
    return say("phone-age-days", { n: Math.floor(minutes / 1440) });
  };
  return { say, age };
}

/** @typedef {ReturnType<typeof speaker>} Speaker */
