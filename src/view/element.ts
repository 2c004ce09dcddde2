/** Makes one element with attributes and children: the only way the panels build their part of the page. */

type Attributes = Readonly<Record<string, string>>;

const SVG = 'http://www.w3.org/2000/svg';

/** An HTML element; children that are strings become text. No attribute is read as markup or as style. */
export function html<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children);
  return made;
}

/** An SVG element; children that are strings become text. */
export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: (Node | string)[]
): SVGElementTagNameMap[K] {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children);
  return made;
}

/** Sets text only where it differs, so that screen readers and layout are left in peace. */
export function setText(node: Node, text: string): void {
  if (node.textContent !== text) node.textContent = text;
}
