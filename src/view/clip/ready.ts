/** Whether the section stands: what is drawn of a refused build, or of gaps not proven yet, would be handed out as if it held. */
import type { State } from '../../model/state.ts';

/** What stands in the way, in words; empty when nothing does. */
export function inTheWay({ refused, gaps }: Pick<State, 'refused' | 'gaps'>): string {
  if (refused.length > 0) return 'The build as typed is refused: put it right first.';
  if (gaps.some((g) => !g.certified && !g.budgetSpent)) return 'The gaps are not proven yet: wait a moment.';
  return '';
}
