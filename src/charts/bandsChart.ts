import type { Axis } from '../base/units.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { hatchX } from './hatch.ts';
import { COLOUR, claimColour, claimName, isNarrow, picture, pictured, ZONE_FILL } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';

interface BandRange {
  name: string;
  from: number;
  to: number;
  /** Colour family: below the first threshold, between the two, above the second. */
  tone: 'below' | 'between' | 'above';
  /** Hatched and unnamed: the draws do not agree on which side it lies. */
  undecided: boolean;
}

/** Bands over the tested range, W or km/h, and the chosen thresholds with the spread of their draws. */
export interface BandsChartData {
  axis: Axis;
  lo: number;
  hi: number;
  /** Side by side, from the easiest to the hardest. */
  bands: readonly BandRange[];
  /** The chosen thresholds and how their draws spread. */
  thresholds: readonly {
    claim: Claim;
    intensity: number;
    label: string;
    density: { x: ArrayLike<number>; y: ArrayLike<number> } | null;
  }[];
  title: string;
  summary: string;
  data?: TableView;
}

const RIDGE = { top: 42, bottom: 112 };
const STRIP = { top: 112, bottom: 170 };

/** The training bands as one strip; hatched where the thresholds' own error leaves the band open. */
export const bandsChart = (spec: BandsChartData): ChartView => pictured(spec, drawBands);

function drawBands(context: DrawContext, spec: BandsChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { axis, thresholds, title, summary } = spec;
  const bands = spec.bands.filter((band) => !band.undecided);
  const undecided = spec.bands.filter((band) => band.undecided);
  const domain = intensityDomain(spec.lo, spec.hi);
  const marginLeft = 10;
  const perUnit = (width - 2 * marginLeft) / (domain[1] - domain[0]);
  const named = namesInRows(bands, perUnit, isNarrow(width) ? 6.2 : 6.8);
  const levels = Math.max(...named.map((n) => n.level)) + 1;
  return picture(context, {
    title,
    summary,
    height: STRIP.bottom + levels * 17 + intensityFoot(axis) + 6,
    marginLeft,
    marginRight: marginLeft,
    marginTop: 0,
    marginBottom: intensityFoot(axis),
    x: { domain },
    y: { type: 'identity', axis: null },
    marks: [
      Plot.rect(bands, {
        x1: 'from',
        x2: 'to',
        y1: () => STRIP.top,
        y2: () => STRIP.bottom,
        fill: (band: BandRange) => ZONE_FILL[band.tone],
      }),
      hatchX(undecided, { ...STRIP, colour: COLOUR.undecided }),
      Plot.ruleX(spec.bands.slice(1), {
        x: 'from',
        y1: () => STRIP.top,
        y2: () => STRIP.bottom,
        stroke: COLOUR.paper,
        strokeWidth: 2,
      }),
      thresholds.map((threshold) => thresholdRidge(Plot, threshold)),
      thresholdLabels(context, spec, domain),
      Plot.text(named, {
        x: 'x',
        y: (n) => STRIP.bottom + 12 + n.level * 17,
        text: 'name',
        fill: COLOUR.ink,
      }),
      intensityAxis(Plot, axis, domain, width),
    ],
  });
}

function thresholdRidge(
  Plot: DrawContext['Plot'],
  { claim, intensity, density }: BandsChartData['thresholds'][number],
): ReturnType<typeof intensityAxis> {
  const peak = density === null ? 1 : Math.max(...Array.from(density.y));
  const outline =
    density === null
      ? []
      : Array.from(density.x, (x, i) => ({
          x,
          y: RIDGE.bottom - ((RIDGE.bottom - RIDGE.top) * density.y[i]!) / peak,
        }));
  return [
    Plot.areaY(outline, {
      x: 'x',
      y1: () => RIDGE.bottom,
      y2: 'y',
      fill: claimColour(claim),
      fillOpacity: 0.28,
      stroke: claimColour(claim),
    }),
    Plot.ruleX([intensity], {
      y1: RIDGE.top - 2,
      y2: STRIP.bottom,
      stroke: claimColour(claim),
      strokeWidth: 2,
      ...(claim === 'LT1' ? {} : { strokeDasharray: '6 2' }),
    }),
  ];
}

/** One line for each threshold above its ridge, kept inside the picture. */
function thresholdLabels(
  { Plot, width }: DrawContext,
  { thresholds }: BandsChartData,
  [low, high]: readonly [number, number],
): ReturnType<typeof intensityAxis> {
  return thresholds.map(({ claim, intensity, label }, i) => {
    const name = isNarrow(width) ? claim : claimName(claim);
    return Plot.text([`${name} ${label}`], {
      x: () => intensity,
      y: () => 10 + i * 17,
      textAnchor: anchorAt((intensity - low) / (high - low)),
      fontWeight: 600,
      fill: claimColour(claim),
    });
  });
}

const anchorAt = (share: number): 'start' | 'middle' | 'end' => {
  if (share < 0.35) return 'start';
  return share > 0.65 ? 'end' : 'middle';
};

interface PlacedName {
  name: string;
  x: number;
  level: number;
}

/** Names centred under their bands, on the first line where they do not touch the name before. */
export function namesInRows(
  bands: readonly BandRange[],
  pixelsPerUnit: number,
  letter: number,
): PlacedName[] {
  const ends: number[] = [];
  return bands.map(({ name, from, to }) => {
    const x = (from + to) / 2;
    const half = (name.length * letter) / 2 / pixelsPerUnit;
    let level = ends.findIndex((end) => x - half > end);
    if (level === -1) level = ends.length;
    ends[level] = x + half + letter / pixelsPerUnit;
    return { name, x, level };
  });
}
