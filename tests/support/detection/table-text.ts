/** The detection table as a page of text. */
import type { Healthy } from './healthy.ts';
import type { Row } from './table.ts';

export function tableText(rows: readonly Row[], healthy: Healthy): string {
  const seen = rows.filter(({ blind }) => blind === undefined);
  const short = seen.filter(({ detected, runs }) => detected < 0.95 * runs);
  const blind = new Map(
    rows
      .filter((row) => row.blind !== undefined)
      .map((row) => [`${row.case.kind}, ${row.severity.text}, ${row.stage}`, row.blind!]),
  );
  const names = new Map(rows.filter((row) => row.case.names.length > 1).map((row) => [row.case.kind, row.case.names]));
  return [
    '# What faulty probes are told by, and how soon',
    '',
    'Made by `npm run bench -- detection`; not written by hand. Each fault of `firmware-protocol/emulator/mishaps/` is done to probe A1 of',
    'an emulated job (two plates of 60 mm, heated from 20 to 160 °C with pads, held, welded in three passes; eight probes read once a second,',
    'A2 the spare beside A1), with noise of real thermocouples (`tests/support/detection/residuals.ts`), over seeds that no number was chosen by.',
    'The smallest severity moves the reading by about three times its expanded uncertainty (9 K; type K, class 1), where it has one.',
    '',
    `Rows that are to be seen: ${seen.length}. Told in at least 95 % of the runs within the stated time: ${seen.length - short.length}.`,
    `Sound runs: ${healthy.runs} of ${Math.round(healthy.hours)} h in all, with ${healthy.findings} findings: ${(healthy.findings / (healthy.hours / 168)).toFixed(2)} a week of running of one joint.`,
    ...(healthy.told.length === 0 ? [] : ['', `Told of sound probes: ${[...new Set(healthy.told)].join(', ')}.`]),
    '',
    '| fault | severity | stage | told | after s, median | within s | also told | sound probe named |',
    '| ----- | -------- | ----- | ---- | --------------- | -------- | --------- | ----------------- |',
    ...seen.map(rowText),
    '',
    '## Not to be seen',
    '',
    ...[...blind].map(([what, why]) => `- ${what}: ${why}.`),
    '- Below the smallest severities, drift, cables and types without a spare beside the probe, and two probes of one face that changed places: not told.',
    '- Mains at a whole multiple of the reading rate is a constant offset, and two probes that read alike can not be told apart.',
    '- Anything on a face that a gas flame passes over, but flags, stuck numbers and bus patterns: a flame moves a sound probe as much.',
    '',
    '## Not to be told apart',
    '',
    'Either name counts, and the finding says what else it may be.',
    '',
    ...[...names].map(([kind, all]) => `- ${kind}: ${[...new Set(all)].filter((each) => each !== kind).join(', ')}.`),
    '- A number read again for half a minute or longer: stuck, or read much too often.',
    '',
  ].join('\n');
}

function rowText({
  case: fault,
  severity,
  stage,
  within,
  runs,
  detected,
  middleSeconds,
  otherNames,
  falselyNamed,
}: Row): string {
  const also = [...otherNames].map(([kind, times]) => `${kind} ${times}`).join(', ');
  return `| ${[fault.kind, severity.text, stage, `${detected} of ${runs}`, middleSeconds ?? '', within, also, falselyNamed === 0 ? '' : falselyNamed].join(' | ')} |`;
}
