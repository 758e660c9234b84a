/** The verdict that findings give. One nonconformity is enough against; without one, anything not judged keeps it open; no pass, nothing to comply. */
import type { Finding, Verdict } from './assessment.ts';

export function verdictFrom(findings: readonly Pick<Finding, 'severity'>[], hasBegunWelding: boolean): Verdict {
  if (findings.some(({ severity }) => severity === 'nonconformity')) return 'does-not-comply';
  if (findings.some(({ severity }) => severity === 'not judged')) return 'cannot-be-judged';
  return hasBegunWelding ? 'complies' : 'cannot-be-judged';
}
