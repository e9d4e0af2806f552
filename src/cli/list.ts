import { METHODS, needsOf } from '../physiology/methods/index.ts';
import { alignColumns } from './table.ts';

/** Every method there is: what it claims, where it comes from, what it needs from a test. */
export function listOutput(json: boolean): string {
  const methods = METHODS.map((method) => ({
    id: method.id,
    claim: method.claim,
    source: method.source,
    needs: needsOf(method),
  }));
  if (json) return `${JSON.stringify({ methods }, null, 2)}\n`;
  const rows = methods.map(({ id, claim, needs }) => [id, claim.padEnd(4), needs.join('; ')]);
  const table = alignColumns([['method', 'claim', 'needs'], ...rows], 3);
  const sources = methods.map(({ id, source }) => `  ${id}: ${source}`);
  return `${table}\n\nSources\n${sources.join('\n')}\n`;
}
