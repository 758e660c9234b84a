/** What a question can choose among. */
import type { Verdict } from '../judgement/assessment.ts';
import type { FindingKind } from '../judgement/finding-kind.ts';
import { severities } from '../judgement/rules.ts';

export const verdicts = ['complies', 'does-not-comply', 'cannot-be-judged'] as const satisfies readonly Verdict[];
export const findingKinds = Object.keys(severities).sort() as FindingKind[];
