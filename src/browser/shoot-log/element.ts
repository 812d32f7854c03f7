/** An element with attributes and children. */
export function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Readonly<Record<string, string>> = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

/** A button that does something when it is pressed. */
export function button(
  text: string,
  attributes: Readonly<Record<string, string>>,
  press: () => void,
  ...more: Node[]
): HTMLButtonElement {
  const made = element('button', { type: 'button', ...attributes }, text, ...more);
  made.addEventListener('click', press);
  return made;
}
