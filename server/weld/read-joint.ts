/** A joint file, or the same as parsed JSON, to a Joint; or every problem with it, each with what to do. Never throws. */
import { limits } from '../measure/limits.ts';
import { type Joint, jointSchema } from './joint.ts';
import { type Problem, problems } from './problems.ts';

export type JointResult = { readonly joint: Joint } | { readonly problems: readonly Problem[] };

/** A string is taken as the text of a file, anything else as JSON that is parsed already. */
export function readJoint(source: unknown): JointResult {
  const parsed = typeof source === 'string' ? parseText(source) : { json: source };
  if ('problem' in parsed) return { problems: [parsed.problem] };
  const result = jointSchema.safeParse(parsed.json);
  return result.success ? { joint: result.data } : { problems: problems(result.error, parsed.json) };
}

function parseText(text: string): { json: unknown } | { problem: Problem } {
  if (text.length > limits.bodyMaximum) {
    return whole(`${text.length} characters`, `at most ${limits.bodyMaximum} characters; is this a joint file?`);
  }
  const bare = text.replace(/^\uFEFF/, '');
  if (bare.trim() === '') return whole('an empty file', 'a joint in JSON');
  try {
    return { json: JSON.parse(bare) as unknown };
  } catch (error) {
    return whole(
      `text that is not JSON (${(error as Error).message})`,
      'a joint in JSON; look for a missing quote, comma or brace there',
    );
  }
}

const whole = (found: string, allowed: string): { problem: Problem } => ({
  problem: { field: '(whole)', found, allowed },
});
