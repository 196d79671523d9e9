// Signing out, also out of reach: forgotten here at once, ended with the yard's computer as soon as it can be told.

import { keepThing, thing } from "./keep.js";

/** Signs out on this phone; whether the yard's computer knows. @param {string} tag @returns {Promise<boolean>} */
export async function signOut(tag) {
  await keepThing("me", undefined);
  await keepThing("signed-out", true);
  return tellSignedOut(tag).catch(() => false);
}

/** Ends a sign-in that was ended here out of reach; whether nothing is left to tell. @param {string} tag @returns {Promise<boolean>} */
export async function tellSignedOut(tag) {
  if (!(await thing("signed-out"))) return true;
  const got = await fetch(`/y/${tag}/sign-out`, { method: "POST", body: new URLSearchParams(), redirect: "manual", signal: AbortSignal.timeout(3000) });
  if (got.type !== "opaqueredirect" && !got.ok) return false;
  await keepThing("signed-out", undefined);
  return true;
}
