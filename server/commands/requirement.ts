/**
 * `requirement JOINT.json`: how hot, and why. With --json the plain answer
 * {equivalents, methods, governing, warnings}; otherwise words with the working.
 */
import type { Requirement } from '../metallurgy/answer.ts';
import { requirement as requirementOf } from '../metallurgy/requirement.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';
import { readJointFile } from './joint-file.ts';
import { requirementText } from './requirement-text.ts';

const help = `requirement JOINT.json [--json]

Works out the required preheat of a joint: every carbon equivalent and every method for every part, with its
formula, inputs, terms, range and source; which value governs, and what a person must be told or asked.

  --json   the answer as JSON: {equivalents, methods, governing, warnings}
  --help   this page

Exit status: 0 a minimum governs (or no preheat is needed), 2 none can be given, 3 bad input.
A value beyond a method's validated range governs only once a named person accepts it; that is done on the
joint's own record, not here.

Example: npm run -s ledger -- requirement demo-data/s1-base-plate.json`;

export const requirement: Command = {
  name: 'requirement',
  summary: 'required preheat of a joint file, with its working',
  help,
  async run(args, terminal) {
    const asked = readArguments(requirement, { json: { type: 'boolean' } }, args, terminal);
    if (typeof asked === 'number') return asked;
    const [path, ...rest] = asked.positionals;
    if (path === undefined || rest.length > 0) return refuse(requirement, 'name one joint file', terminal);
    const joint = await readJointFile(path, terminal);
    if (joint === undefined) return exitStatus.failed;
    const answer = requirementOf(joint, []);
    terminal.out(asked.values.json === true ? JSON.stringify(answer, null, 2) : requirementText(joint, answer));
    return status(answer);
  },
};

const status = (answer: Requirement): number =>
  answer.governing.kind === 'none' ? exitStatus.cannotBeJudged : exitStatus.done;
