/**
 * `requirement JOINT.json`: how hot, and why, with what stands beside it: cooling, limits upward, what comes after
 * welding, what matters most. With --json as plain data; otherwise words with the working.
 */
import type { Requirement } from '../metallurgy/answer.ts';
import { explain } from '../metallurgy/explanation.ts';
import { sensitivities } from '../metallurgy/what-if.ts';
import { readArguments, refuse } from './arguments.ts';
import { type Command, exitStatus } from './command.ts';
import { explanationText } from './explanation-text.ts';
import { readJointFile } from './joint-file.ts';
import { paperOptions, writePapers } from './joint-papers.ts';
import { requirementText } from './requirement-text.ts';

const help = `requirement JOINT.json [--working OUT.pdf] [--card OUT.pdf] [--json]

Works out the required preheat of a joint: every carbon equivalent and every method for every part, with its
formula, inputs, terms, range and source; which value governs, and what a person must be told or asked. Beside
it: cooling time and the heat input that a window allows, limits upward, what comes after welding, and which
input matters most.

  --working OUT.pdf  also write the working on one page, for a coordinator to sign, with its terms on the next
  --card OUT.pdf     also write the card to hang on the part: drawing, limits, wait, whom to call
  --json             the answer as JSON: {units, equivalents, methods, governing, warnings, combinedThickness,
                     martensiteStart, cooling, upperLimits, afterWelding, sensitivities}
  --help             this page

Exit status: 0 a minimum governs (or no preheat is needed), 2 none can be given, 3 bad input.
A value beyond a method's validated range governs only once a named person accepts it; that is done on the
joint's own record, not here.

Example: npm run -s ledger -- requirement demo-data/s1-base-plate.json`;

export const requirement: Command = {
  name: 'requirement',
  summary: 'required preheat of a joint file, with its working',
  help,
  async run(args, terminal) {
    const asked = readArguments(requirement, { ...paperOptions, json: { type: 'boolean' } }, args, terminal);
    if (typeof asked === 'number') return asked;
    const [path, ...rest] = asked.positionals;
    if (path === undefined || rest.length > 0) return refuse(requirement, 'name one joint file', terminal);
    const joint = await readJointFile(path, terminal);
    if (joint === undefined) return exitStatus.failed;
    if (!(await writePapers(joint, path, asked.values, terminal))) return exitStatus.failed;
    const { requirement: answer, ...beside } = explain(joint, []);
    const matters = sensitivities(joint, []);
    terminal.out(
      asked.values.json === true
        ? JSON.stringify({ ...answer, ...beside, sensitivities: matters }, null, 2)
        : requirementText(joint, answer, explanationText(beside, matters, answer.units)),
    );
    return status(answer);
  },
};

const status = (answer: Requirement): number =>
  answer.governing.kind === 'none' ? exitStatus.cannotBeJudged : exitStatus.done;
