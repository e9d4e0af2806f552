import { withUnit } from '../../base/format.ts';

/** What people showed when a method was held against their maximal lactate steady state. */
interface PublishedBias {
  /** Id of the method. */
  method: string;
  /** Answer of the method less the steady state, in the unit of the paper; in words where only those are known. */
  found: string;
  /** True for what is no figure for a table. */
  wordsOnly?: true;
  sport: string;
  who: string;
  source: string;
}

const HAUSER = {
  sport: 'cycling',
  who: '57 men, 4-min stages of 40 W',
  source: 'Hauser et al. 2014, Int J Sports Med 35:517–521 (abstract)',
};
const BENEKE = {
  sport: 'rowing',
  who: '9 rowers, 3-min stages of 35 W',
  source: 'Beneke 1995, Med Sci Sports Exerc 27:863–867 (abstract; pages from memory)',
};
const FIGUEIRA = 'Figueira et al. 2008, J Sci Med Sport 11:280–286 (abstract)';

/** Published bias against the maximal lactate steady state, where it is known to us. */
export const PUBLISHED_BIAS: readonly PublishedBias[] = [
  { method: 'fixed-4.0', found: withUnit('−7', 'W'), ...HAUSER },
  { method: 'fixed-4.0', found: withUnit('+12.5', '%'), ...BENEKE },
  {
    method: 'fixed-3.5',
    found: withUnit('−13', '%'),
    sport: 'cycling',
    who: '11 men, 3-min stages',
    source: FIGUEIRA,
  },
  {
    method: 'fixed-3.5',
    found: withUnit('+3', '%'),
    sport: 'running',
    who: 'the same 11 men',
    source: FIGUEIRA,
  },
  { method: 'minimum-equivalent-plus-1.5', found: withUnit('−37', 'W'), ...HAUSER },
  { method: 'individual-anaerobic', found: withUnit('+12', 'W'), ...HAUSER },
  { method: 'individual-anaerobic', found: withUnit('+12.5', '%'), ...BENEKE },
  {
    method: 'individual-anaerobic',
    found: 'lactate was steady in 26 of 30 bouts at it',
    wordsOnly: true,
    sport: 'cycling and running',
    who: '3-min stages (the sports from memory)',
    source: 'Urhausen et al. 1993, Int J Sports Med 14:134–139 (abstract)',
  },
  {
    method: 'dmax',
    found:
      'power at it went along with that at the steady state (r² 0.72) on 6-min stages, and not on 30-s ones',
    wordsOnly: true,
    sport: 'cycling',
    who: '21 elite cyclists',
    source: 'Van Schuylenbergh et al. 2004, Int J Sports Med 25:403–408 (abstract)',
  },
  {
    method: 'modified-dmax',
    found: `${withUnit('1', 'W')} apart`,
    sport: 'cycling',
    who: '17 men, 4-min stages; a variant of it, the best of 56 ways that were tried',
    source: 'Jamnick et al. 2018, PLoS ONE 13:e0199794 (abstract)',
  },
  {
    method: 'baseline-plus-1.0',
    found: `${withUnit('0.2', 'km/h')} apart`,
    sport: 'running',
    who: '22 men; 1.0 above the lactate at their threshold',
    source: 'Cerezuela-Espejo et al. 2018, Front Physiol (abstract)',
  },
  {
    method: 'baseline-plus-0.5',
    found: 'near it',
    sport: 'cycling',
    who: '14 men, 1-min stages; 0.5 above the lactate at their threshold',
    source: 'Pallarés et al. 2016, PLoS ONE 11:e0163389 (abstract)',
  },
];

/** What is published of one method; empty where nothing is known to us. */
export const publishedBias = (method: string): PublishedBias[] =>
  PUBLISHED_BIAS.filter((published) => published.method === method);
