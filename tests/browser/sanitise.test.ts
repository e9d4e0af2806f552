import * as Plot from '@observablehq/plot';
import { expect, test } from 'vitest';
import { sanitise } from '../../src/host/share/sanitise.ts';
import { SHIPPED } from '../../src/host/shipped.ts';
import { snapshotsOf } from '../../src/page/results/snapshot.ts';
import { runWorkbook } from './support/charts.ts';

/** Markup as a browser reads it, a line an element: its name, what is said of it, and the text right in it. */
function elementsOf(html: string): string[] {
  const template = document.createElement('template');
  template.innerHTML = html;
  // The style sheet that a picture brings says what ours says (src/look/results.css).
  return [...template.content.querySelectorAll('*:not(svg > style)')].map((element) => {
    const said = [...element.attributes].map(({ name, value }) => `${name}=${value.trim()}`).sort();
    const texts = [...element.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE);
    const text = texts.map((node) => node.nodeValue).join(' ');
    return `${element.localName} ${said.filter(isKept(element)).join(' ')} ${text.replace(/\s+/g, ' ').trim()}`;
  });
}

/** What is dropped on purpose: classes without a name, and names of parts of a picture, which is one image. */
const isKept = (element: Element) => (said: string) =>
  said !== 'class=' && !(element.localName === 'g' && said.startsWith('aria-label='));

const SAMPLES = SHIPPED.filter(({ name }) => ['cyclist', 'own', 'methods'].includes(name));

test.each(SAMPLES)(
  '$title: the sanitiser takes nothing from what the cells show',
  async ({ cells }) => {
    const engine = await runWorkbook(await cells());
    const shown = snapshotsOf(engine.states(), Plot, () => null);
    for (const { name, html, inShort } of shown)
      expect(elementsOf(sanitise(inShort) + sanitise(html)), name).toEqual(elementsOf(inShort + html));
    expect(shown.flatMap(({ html }) => elementsOf(html)).length).toBeGreaterThan(300);
  },
  60_000,
);
