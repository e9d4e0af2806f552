const SVG = 'http://www.w3.org/2000/svg';

/**
 * An element of a picture: its kind, its attributes, and the text in it. An outline is a polygon and not a path: its points
 * are no property of its style, and the browser moves it at half the cost.
 */
export interface Part {
  kind: 'polygon' | 'rect' | 'line' | 'text';
  look: Readonly<Record<string, string | number>>;
  text?: string;
}

/** The texts of places, by tenths of a pixel: a picture has not many of them, and one that moves asks for thousands. */
const written = new Map<number, string>();

/** A place in a picture as text, to a tenth of a pixel. */
export function tenths(pixels: number): string {
  const whole = Math.round(10 * pixels);
  let text = written.get(whole);
  if (text === undefined) {
    text = String(whole / 10);
    written.set(whole, text);
  }
  return text;
}

/** A new group of these layers, each a group of its parts. */
export function placed(document: Document, layers: readonly (readonly Part[])[]): SVGGElement {
  const group = document.createElementNS(SVG, 'g') as SVGGElement;
  for (const _ of layers) group.append(document.createElementNS(SVG, 'g'));
  place(group, layers);
  return group;
}

/** Makes what is in a group of so many layers these; of the parts that are there already, what differs alone is touched. */
export function place(group: Element, layers: readonly (readonly Part[])[]): void {
  layers.forEach((parts, i) => {
    placeParts(group.children[i]!, parts);
  });
}

function placeParts(layer: Element, parts: readonly Part[]): void {
  const before = [...layer.children];
  parts.forEach((part, i) => {
    const there = before[i];
    if (there?.nodeName === part.kind) change(there, part);
    else {
      const made = layer.ownerDocument.createElementNS(SVG, part.kind);
      change(made, part);
      if (there) there.replaceWith(made);
      else layer.append(made);
    }
  });
  for (const extra of before.slice(parts.length)) extra.remove();
}

function change(element: Element, { look, text }: Part): void {
  for (const name in look) {
    const value = String(look[name]);
    if (element.getAttribute(name) !== value) element.setAttribute(name, value);
  }
  if (element.attributes.length > Object.keys(look).length) {
    for (const name of element.getAttributeNames()) if (!(name in look)) element.removeAttribute(name);
  }
  if (text === undefined) return;
  if (!element.firstChild) element.append(text);
  else if (element.firstChild.nodeValue !== text) element.firstChild.nodeValue = text;
}
