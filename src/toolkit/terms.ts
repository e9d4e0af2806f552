import { InputError } from '../base/inputError.ts';
import { TERMS, type Term, type TermGroup, type TermId } from '../physiology/terms.ts';
import { folded, prose, type StackView } from '../view/view.ts';

const explanation = ({ says, source }: Term): string => `${says} Source: ${source}.`;

/**
 * A term in prose, as Markdown: on the page its words open its explanation.
 *
 * Throws    InputError for a term that the list does not have
 *
 * @example
 * term('seed', 'seeds').slice(0, 17) // '[seeds](term:seed'
 */
export function term(id: TermId, words?: string): string {
  if (!Object.hasOwn(TERMS, id))
    throw new InputError(`term: '${id}' is not in the list; there are ${Object.keys(TERMS).join(', ')}`);
  const { name } = TERMS[id];
  return `[${words ?? name.toLowerCase()}](term:${id} "${explanation(TERMS[id])}")`;
}

/** The terms of these groups, each in a sentence and with its source, folded. */
export function termList(...groups: TermGroup[]): StackView {
  const items = Object.values(TERMS)
    .filter(({ group }) => groups.includes(group))
    .map(({ name, says, source }) => `- **${name}:** ${says} *${source}*`);
  return folded('Each in a sentence, with its source', prose`${items.join('\n')}`);
}
