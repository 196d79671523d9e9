// Elements and sentences that scripts put on a page. No sentence stands in a script: they come with the page, by their keys.

/**
 * An element with properties and children; `role` is an attribute.
 * @param {string} tag
 * @param {Record<string, any>} properties
 * @param {...(Node|string)} children
 * @returns {any}
 */
export function make(tag, { role, ...properties }, ...children) {
  const made = Object.assign(document.createElement(tag), properties);
  if (role) made.setAttribute("role", role);
  made.append(...children);
  return made;
}

/**
 * A button that leads to no other page.
 * @param {string} label
 * @param {() => void} press
 * @param {string} [look] its class
 */
export function button(label, press, look = "small") {
  const made = make("button", { type: "button", className: look, textContent: label });
  made.addEventListener("click", press);
  return made;
}

/**
 * Says sentences by their keys; what stands in braces is put in.
 * @param {Record<string, string>} words
 * @returns {(key: string, values?: Record<string, string|number>) => string}
 */
export function sayer(words) {
  return (key, values = {}) => (words[key] ?? key).replace(/\{(\w+)\}/g, (whole, name) => String(values[name] ?? whole));
}
