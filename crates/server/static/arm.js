// The arm under the finger: drags the tooth, moves the rams by sliders and numbers, and shows what the yard's computer says of it.

const form = /** @type {HTMLFormElement|null} */ (document.getElementById("arm-form"));
const figure = document.getElementById("arm-drawing");
const lines = document.getElementById("arm-lines");
const told = document.getElementById("arm-said");
const now = document.getElementById("arm-now");

/** How near a finger must come to the tooth to take hold of it, in the page's pixels. */
const GRASP = 48;

if (form && figure && lines && told) start(form, figure, lines, told);

/**
 * @param {HTMLFormElement} form
 * @param {HTMLElement} figure
 * @param {HTMLElement} lines
 * @param {HTMLElement} told
 */
function start(form, figure, lines, told) {
  const svg = /** @type {SVGSVGElement} */ (figure.querySelector("svg"));
  const numbers = /** @type {HTMLInputElement[]} */ ([...form.querySelectorAll("input[type=number]")]);
  const sliders = /** @type {HTMLInputElement[]} */ ([...form.querySelectorAll("input[type=range]")]);
  for (const part of form.querySelectorAll("[data-with-script], input[type=range]")) /** @type {HTMLElement} */ (part).hidden = false;
  for (const part of form.querySelectorAll("[data-without-script]")) /** @type {HTMLElement} */ (part).hidden = true;

  /** What waits to be asked next; only the newest is. @type {Record<string, string>|null} */
  let waiting = null;
  let asking = false;
  let tooth = (figure.dataset.tooth ?? "").split(" ").map(Number);
  /** @type {ReturnType<typeof setTimeout>|undefined} */
  let quiet;

  /** The form as an address, with more. @param {Record<string, string>} more */
  function address(more) {
    const fields = new URLSearchParams();
    for (const [name, value] of new FormData(form)) fields.set(name, String(value));
    for (const [name, value] of Object.entries(more)) fields.set(name, value);
    return `${form.dataset.pose}?${fields}`;
  }

  /** Asks at most once a frame, and never two at a time. @param {Record<string, string>} more */
  function ask(more = {}) {
    if (waiting?.map && !more.map) more.map = waiting.map;
    const first = waiting === null;
    waiting = more;
    if (first && !asking) requestAnimationFrame(next);
  }

  async function next() {
    if (waiting === null || asking) return;
    const more = waiting;
    waiting = null;
    asking = true;
    try {
      const answer = await fetch(address(more), { headers: { accept: "application/json" } });
      if (answer.ok) show(await answer.json(), Boolean(more.r));
    } catch {
      // Out of reach of the yard's computer: the picture stays as it was.
    }
    asking = false;
    if (waiting !== null) requestAnimationFrame(next);
  }

  /**
   * @param {{out: number[], tooth: [number, number], arm: string, now: string[], lines: string, map?: string}} pose
   * @param {boolean} dragged
   */
  function show(pose, dragged) {
    tooth = pose.tooth;
    figure.dataset.tooth = tooth.join(" ");
    part("arm-arm", pose.arm);
    if (pose.map !== undefined) part("arm-map", pose.map);
    const open = [...lines.querySelectorAll("details")].map((section) => section.open);
    if (now) {
      const first = document.createElement("b");
      first.textContent = pose.now[0];
      now.replaceChildren(first, ` ${pose.now[1]}`);
    }
    const said = new DOMParser().parseFromString(pose.lines, "text/html");
    lines.replaceChildren(...said.body.childNodes);
    lines.querySelectorAll("details").forEach((section, n) => { if (open[n] !== undefined) section.open = open[n]; });
    // Only a drag moves the rams; what was written or slid meanwhile is newer than this answer.
    if (dragged) {
      pose.out.forEach((out, n) => {
        numbers[n].value = String(out);
        sliders[n].value = String(out);
      });
    }
    clearTimeout(quiet);
    quiet = setTimeout(() => { told.textContent = pose.now.join(" "); }, 600);
  }

  /** Puts shapes in the place of those of a group. @param {string} id @param {string} shapes */
  function part(id, shapes) {
    const old = svg.querySelector(`#${id}`);
    const read = new DOMParser().parseFromString(`<svg xmlns="http://www.w3.org/2000/svg"><g id="${id}">${shapes}</g></svg>`, "image/svg+xml");
    const fresh = read.querySelector("g");
    if (old && fresh) old.replaceWith(document.importNode(fresh, true));
  }

  /** Where on the arm plane a pointer is, in metres. @param {PointerEvent} event */
  function place(event) {
    const matrix = svg.getScreenCTM();
    if (!matrix) return null;
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    return { r: at.x / 100, z: -at.y / 100, scale: matrix.a };
  }

  numbers.forEach((number, n) => {
    number.addEventListener("input", () => { sliders[n].value = number.value; ask(); });
    sliders[n].addEventListener("input", () => { number.value = sliders[n].value; ask(); });
  });
  for (const choice of form.querySelectorAll("input[type=radio]")) choice.addEventListener("change", () => ask({ map: "1" }));
  form.addEventListener("submit", (event) => { event.preventDefault(); ask({ map: "1" }); });

  let holding = false;
  svg.addEventListener("pointerdown", (event) => {
    const at = place(event);
    if (!at) return;
    const far = Math.hypot(at.r - tooth[0], at.z - tooth[1]) * 100 * at.scale;
    if (far > GRASP) return;
    holding = true;
    svg.setPointerCapture(event.pointerId);
    event.preventDefault();
  });
  svg.addEventListener("pointermove", (event) => {
    const at = holding ? place(event) : null;
    if (at) ask({ r: at.r.toFixed(3), z: at.z.toFixed(3) });
  });
  for (const end of ["pointerup", "pointercancel"]) svg.addEventListener(end, () => { holding = false; });
  // A finger on the tooth moves the tooth; beside it, it moves the page as ever.
  svg.addEventListener("touchstart", (event) => {
    const touch = event.touches[0];
    const matrix = svg.getScreenCTM();
    if (!matrix || event.touches.length !== 1) return;
    const at = new DOMPoint(touch.clientX, touch.clientY).matrixTransform(matrix.inverse());
    if (Math.hypot(at.x / 100 - tooth[0], -at.y / 100 - tooth[1]) * 100 * matrix.a <= GRASP) event.preventDefault();
  }, { passive: false });
}
