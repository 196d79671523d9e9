// Saying sentences that came with the page: what varies is put in here, the sentences themselves are not.

/** @typedef {Record<string, string|[string, string]>} Dictionary */

/**
 * Says sentences by their keys; what stands in braces is put in. Of a sentence that counts there are two forms, the first for one.
 * @param {Dictionary} words
 * @returns {(key: string, args?: Record<string, string|number>) => string}
 */
export function sayer(words) {
  return (key, args = {}) => {
    const said = words[key] ?? key;
    const text = Array.isArray(said) ? said[args.n === 1 ? 0 : 1] : said;
    return text.replace(/\{(\w+)\}/g, (whole, name) => String(args[name] ?? whole));
  };
}

/** A {@link sayer} that also tells ages. @param {Dictionary} words */
export function speaker(words) {
  const say = sayer(words);
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
