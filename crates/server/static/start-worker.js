// Lets the phone start out of range, where the browser allows it: only at an address it trusts.

/** @param {string} mark  the mark of all scripts, so that a new program brings a new worker */
export async function startWorker(mark) {
  if (!("serviceWorker" in navigator)) return;
  try {
    await navigator.serviceWorker.register(`/worker.js?${mark}`, { type: "module", scope: "/" });
  } catch {
    // Refused where the certificate is not trusted: everything else goes on as on a plain address.
    return;
  }
  const { active } = await navigator.serviceWorker.ready;
  const files = performance.getEntriesByType("resource").map((entry) => new URL(entry.name)).filter((file) => file.origin === location.origin);
  active?.postMessage({ page: location.pathname, files: files.map((file) => file.pathname) });
}
