/**
 * Turns a drawn picture into a newer one by changing what differs, part by part in their order: the browser works out styles
 * and places of those parts alone. What has no counterpart comes or goes.
 */
export function turnInto(drawn: ChildNode, newer: ChildNode): void {
  if (drawn.nodeName !== newer.nodeName) {
    drawn.replaceWith(newer);
    return;
  }
  if (drawn instanceof Element && newer instanceof Element) turnAttributes(drawn, newer);
  else if (drawn.nodeValue !== newer.nodeValue) drawn.nodeValue = newer.nodeValue;
  const parts = [...newer.childNodes];
  const before = [...drawn.childNodes];
  for (const [i, part] of before.entries()) {
    if (i < parts.length) turnInto(part, parts[i]!);
    else part.remove();
  }
  if (parts.length > before.length) (drawn as Element).append(...parts.slice(before.length));
}

function turnAttributes(drawn: Element, newer: Element): void {
  const names = newer.getAttributeNames();
  for (const name of names) {
    const value = newer.getAttribute(name)!;
    if (drawn.getAttribute(name) !== value) drawn.setAttribute(name, value);
  }
  for (const name of drawn.getAttributeNames()) if (!names.includes(name)) drawn.removeAttribute(name);
}
