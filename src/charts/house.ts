import type * as PlotModule from '@observablehq/plot';
import type { Claim } from '../physiology/methods/method.ts';
import { type ChartView, chart, type DrawContext, type TableView } from '../view/view.ts';

/** The page's colours, by what they stand for; light, dark and print give them their values (src/look). */
export const COLOUR = {
  ink: 'var(--ink)',
  muted: 'var(--muted)',
  rule: 'var(--rule)',
  paper: 'var(--paper)',
  first: 'var(--first)',
  second: 'var(--second)',
  undecided: 'var(--undecided)',
  caution: 'var(--caution)',
} as const;

/** Fills of what lies below the thresholds, between them and above. */
export const ZONE_FILL = {
  below: 'var(--first-soft)',
  between: 'var(--undecided-soft)',
  above: 'var(--second-soft)',
} as const;

/** Below this width names move above their rows and labels get shorter. */
const NARROW = 560;

/** Whether a picture of this width, px, has no room for names beside its rows. */
export const isNarrow = (width: number): boolean => width < NARROW;

/** Colour and shape always go together, so that a threshold is told by its shape where colours are not seen. */
export const claimColour = (claim: Claim): string => (claim === 'LT1' ? COLOUR.first : COLOUR.second);
/** The shape of a threshold: goes with `claimColour`. */
export const claimSymbol = (claim: Claim): 'circle' | 'diamond' => (claim === 'LT1' ? 'circle' : 'diamond');

/** A threshold in full words. */
export const claimName = (claim: Claim): string =>
  claim === 'LT1' ? 'First threshold' : claim === 'LT2' ? 'Second threshold' : 'Maximal lactate steady state';

/** Text in the page's own type; a halo of paper keeps labels legible where they cross a line. */
export const HALO = { stroke: COLOUR.paper, strokeWidth: 4, fill: COLOUR.ink } as const;

interface HouseOptions extends PlotModule.PlotOptions {
  title: string;
  summary: string;
}

/** One picture in the house style: the page's type and colours, a name for those who do not see it. */
export function picture(context: DrawContext, options: HouseOptions): SVGSVGElement {
  const { title, summary, ...plotOptions } = options;
  const size = isNarrow(context.width) ? 11 : 12;
  const svg = context.Plot.plot({
    document: context.document,
    width: context.width,
    style: `font-family: inherit; font-size: ${size}px; background: none; color: ${COLOUR.ink}; overflow: visible; --plot-background: ${COLOUR.paper};`,
    ...plotOptions,
  }) as SVGSVGElement;
  // Its rules stand in ours (src/look/results.css): a style sheet that comes or goes makes the browser match the whole
  // page anew.
  svg.querySelector('style')?.remove();
  svg.removeAttribute('class');
  svg.setAttribute('role', 'img');
  setName(svg, { title, summary });
  return svg;
}

/** The picture in words, for those who do not see it. */
export function setName(svg: SVGSVGElement, { title, summary }: { title: string; summary: string }): void {
  svg.setAttribute('aria-label', `${title}. ${summary}`);
}

interface Described {
  title: string;
  summary: string;
  data?: TableView;
}

/** A chart that `draw` makes of what describes it. */
export const pictured = <Spec extends Described>(
  spec: Spec,
  draw: (context: DrawContext, spec: Spec) => SVGSVGElement,
): ChartView =>
  chart({
    title: spec.title,
    summary: spec.summary,
    ...(spec.data && { data: spec.data }),
    still: true,
    draw: (context) => draw(context, spec),
  });

/** Round steps of 1, 2 or 5 over [low, high], about `count` of them. */
export function roundTicks(low: number, high: number, count: number): number[] {
  const rough = (high - low) / Math.max(1, count);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5].find((m) => m * power >= rough) ?? 10);
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) =>
    Number(((first + i) * step).toPrecision(12)),
  );
}
