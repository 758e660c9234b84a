/** The single papers of a joint by name. */
import type { PageModel } from '../page-model.ts';
import type { PaperFacts } from './paper-facts.ts';
import { setUpCard } from './set-up-card.ts';
import { workingPage } from './working-page.ts';

export type PaperKind = 'working' | 'card';

export const papers: Readonly<Record<PaperKind, (facts: PaperFacts) => PageModel>> = {
  working: workingPage,
  card: setUpCard,
};
