import * as Plot from '@observablehq/plot';
import * as arquero from 'arquero';
import * as d3Array from 'd3-array';
import * as hourline from '#hourline';
import { createEngine } from '../../workbook/engine.ts';
import type { Engine } from '../../workbook/engineTypes.ts';
import { readCell } from '../../workbook/readCell.ts';

/** An empty engine in Node, with every library that a cell may import, and no page. It runs whatever cells it is given. */
export const nodeEngine = (): Engine =>
  createEngine({
    read: readCell,
    libraries: {
      '#hourline': () => hourline,
      '@observablehq/plot': () => Plot,
      arquero: () => arquero,
      'd3-array': () => d3Array,
    },
    onState: () => {},
  });
