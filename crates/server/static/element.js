// Elements that scripts put on a page.

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
