/** The report as text: what stands on page one, what is marked, what is never said. */

import { describe, expect, it, vi } from 'vitest';
import { type Instant, instant } from '../../../server/measure/quantity.ts';
import { requirement } from '../../../server/metallurgy/requirement.ts';
import { blockText, modelText, type PageModel, sectionText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { cautions } from '../../../server/wording/cautions.ts';
import { noInterlock } from '../../../server/wording/signal.ts';
import { plainJoint } from '../../support/plain-joint.ts';
import { fixtureStart, reportFacts } from '../../support/report-fixture.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

// Judging hours of readings takes a while on a busy machine; nothing here is judged by time.
vi.setConfig({ testTimeout: 60_000 });

const facts = reportFacts();
const model = pages(facts);
const section = (of: PageModel, heading: string): string => {
  const found = of.sections.find((each) => each.heading === heading);
  if (found === undefined) throw new Error(`no section "${heading}"`);
  return sectionText(found);
};
const pageOne = (of: PageModel): string =>
  [...of.head.marks, ...of.above.map(blockText), of.title, sectionText(of.sections[0]!)].join('\n');
const minute = (count: number): Instant => instant(fixtureStart + count * 60_000);

describe('page one', () => {
  it('says what, by which procedure, how hot and why, and the verdict with nothing open', () => {
    const text = pageOne(model);
    expect(text).toContain('Joint: Ring seam 4 of the press cylinder (ring-seam-4)');
    expect(text).toContain('Procedure: WP-12, revision 3');
    expect(text).toContain('Minimum preheat: 150 °C. Governed by the procedure.');
    expect(text).toContain('Complies\nEvery temperature limit that was judged was kept, over 3 passes.');
    expect(text).toContain('Open points\n- none');
    expect(text).toContain('2026-11-25 07:00:00 UTC+01:00, opened by Łukasz Żółć');
  });

  it('lists what was not kept and what was not judged, and says that this is not a pass', () => {
    const silent = pages(reportFacts({ silences: [['PB-0041', 104, 107]] }));
    const text = pageOne(silent);
    expect(text).toContain('Cannot be judged\n');
    expect(text).toContain('This is not a pass.');
    expect(text).toMatch(/- Minimum preheat not judged for pass 1/);
    expect(text).not.toMatch(/complies/i);
  });

  it('says so while the record is open, and that no verdict was recorded', () => {
    const open = pages(reportFacts({ close: false }));
    expect(open.head.marks).toContain('STILL OPEN');
    expect(pageOne(open)).toContain('The record is still open: this speaks of it up to');
    expect(pageOne(open)).toContain('No verdict was recorded to compare with.');
  });
});

describe('a recorded verdict that differs from the one judged again', () => {
  const cases = [
    { recorded: 'complies', now: 'does-not-comply', said: ['limits kept', 'limits not kept'] },
    { recorded: 'does-not-comply', now: 'complies', said: ['limits not kept', 'limits kept'] },
    { recorded: 'complies', now: 'cannot-be-judged', said: ['limits kept', 'cannot be judged'] },
  ] as const;
  it.each(cases)('$recorded, now $now: first of all, with both and the cause, and nothing complies', (each) => {
    const differing = pages({
      ...facts,
      assessment: { ...facts.assessment, verdict: each.now },
      recordedVerdict: { verdict: each.recorded, at: minute(180), rules: '0 (00aa)' },
      // The gatherer did not notice; the two verdicts themselves are enough.
      differs: false,
      differsBecause: { kind: 'rules version', detail: '0 to 1' },
    });
    const first = blockText(differing.above[0]!);
    expect(first.split('\n')[0]).toMatch(/^Recorded verdict and verdict judged again differ/);
    expect(first).toContain(`by rules 0 (00aa): ${each.said[0]}.`);
    expect(first).toContain(`by rules 1 (8c1f27aa): ${each.said[1]}.`);
    expect(first).toContain('the rules of this program have changed since (0 to 1)');
    expect(differing.head.marks).toContain('VERDICTS DIFFER');
    expect(modelText(differing)).not.toMatch(/\bcomplies\b/i);
  });

  it('is also told where only the findings differ', () => {
    const differing = pages({ ...facts, differs: true });
    expect(blockText(differing.above[0]!)).toContain('Cause: not known');
    expect(pageOne(differing)).not.toMatch(/\bcomplies\b/i);
  });

  it('is not told where they are the same', () => {
    expect(model.above).toEqual([]);
    expect(model.head.marks).toEqual(['SIMULATED']);
  });
});

describe('the mark of the source', () => {
  it.each([
    ['simulated', 'SIMULATED'],
    ['imported', 'IMPORTED'],
    ['replayed', 'REPLAYED'],
    ['not verified', 'SOURCE NOT VERIFIED'],
  ] as const)('%s stands at the head of every page', (kind, mark) => {
    expect(pages({ ...facts, source: { kind, detail: 'port 1' } }).head.marks).toContain(mark);
  });
  it('is absent for a measurement only', () => {
    expect(pages({ ...facts, source: { kind: 'measured', detail: '' } }).head.marks).toEqual([]);
  });
});

describe('sections', () => {
  it('names what nobody entered, of whom it is missing, and nothing that stands', () => {
    const named = (joint: Joint): string =>
      sectionText(pages(reportFacts({ joint })).sections.find(({ heading }) => heading === 'Not given')!);
    const { drawing: _drawing, ...rest } = fixtureJoint();
    const [first, ...others] = rest.parts;
    const { grade: _grade, ...plain } = first!;
    const bare = named({ ...rest, parts: [plain, ...others] });
    expect(bare).toMatch(/^- Drawing$/m);
    expect(bare).toContain(`- Grade of the part: ${first!.id}`);
    const full = named(fixtureJoint({ drawing: 'D-1' }));
    expect(full).not.toMatch(/Drawing|Grade of the part|Start of heating/);
  });

  it('stand in their order', () => {
    expect(model.sections.map(({ heading }) => heading)).toEqual([
      'Summary',
      'Contents',
      'Requirement and its working',
      'Procedure',
      'Probes and set-up',
      'Course of the temperatures',
      'Readings by hand',
      'Soak and heat',
      'Heat through the thickness',
      'Passes',
      'Breaks',
      'After welding',
      'Findings and alarms',
      'Notes and events',
      'Documents',
      'Deviations and named answers',
      'Not given',
      'Signatures',
      'Method and rules',
      'Cautions',
      'Identity of the record',
    ]);
  });

  it('show the working: formula, inputs with their origin, each term, sum and source', () => {
    const text = section(model, 'Requirement and its working');
    const method = facts.assessment.requirement.methods[0]!;
    expect(text).toContain(method.formula);
    expect(text).toContain('HD | 5 ml/100 g | upper bound of class H5');
    for (const term of method.terms) expect(text).toContain(`${term.name} | ${term.formula}`);
    expect(text).toContain('Result | as computed, not rounded up');
    expect(text).toContain(method.source);
  });

  it('give what only compares and shows no number a line with its reason, and the others their working and notes', () => {
    const text = section(
      pages({
        ...facts,
        assessment: {
          ...facts.assessment,
          requirement: requirement(plainJoint({ restraint: 'medium', units: 'metric' }), []),
        },
      }),
      'Requirement and its working',
    );
    expect(text).toContain('140 °C out of the table');
    expect(text).toContain(
      'Group C by the index 3.9, group C by the look-up table (H1, Pcm below 0.28); the two agree',
    );
    expect(text).toContain('an indication, no temperature');
    expect(text.match(/ASME B31\.1 paragraph 131\.4/g)).toHaveLength(1);
  });

  it('show each pass with what was measured and both times of a late entry', () => {
    const late = pages({
      ...facts,
      assessment: {
        ...facts.assessment,
        passes: [{ ...facts.assessment.passes[0]!, startedAt: minute(100), enteredAt: minute(104), outside: ['soak'] }],
      },
    });
    const text = section(late, 'Passes');
    expect(text).toContain('08:40:00 to 08:59:00\nentered 08:44:00');
    expect(text).toContain('began outside: soak');
    expect(text).toMatch(/\d+ °C Z5/);
  });

  it('keep the words of persons as they were typed, with their names', () => {
    const text = section(model, 'Notes and events');
    expect(text).toContain(
      'Łukasz Żółć, inspector |  | Note: Pads fitted on the back face, insulation 50 mm.\nSurface dry, 14 °C in the hall.',
    );
    const contact = pages(
      reportFacts({
        hours: 2,
        periodSeconds: 60,
        extraActs: [
          [
            50,
            'Ann Example',
            {
              kind: 'contact reading',
              celsius: 181.5,
              instrument: 'CP-3',
              use: 'interpass',
              place: { part: 'shell course 2', side: 'A', face: 'front', distanceMillimetres: 10 },
            },
          ],
        ],
      }),
    );
    // As it was read, not rounded.
    expect(section(contact, 'Notes and events')).toContain('Contact reading 181.5 °C with CP-3');
    expect(text).toContain('Closed the joint: All passes welded, heat off under cover.');
  });

  it('carry hash, documents, named answers, signatures with their meaning, and all cautions', () => {
    const answered = pages(
      reportFacts({
        extraActs: [
          [50, 'Ann Example', { kind: 'accept', subject: 'extended range', method: 'b', reason: 'test weld 7' }],
        ],
      }),
    );
    const text = modelText(answered);
    expect(text).toContain(`Head hash ${facts.head.hash}`);
    expect(text).toContain('b7e4'.repeat(16));
    expect(text).toContain('Ann Example | accepted: extended range, b | test weld 7');
    expect(text).toContain('Welder Jiří Dvořák: I welded the passes that stand under my name, as listed.');
    expect(text).toContain('Łukasz Żółć, inspector | not recorded | 2 | 07:04:00 to 10:00:00');
    for (const caution of [...cautions, noInterlock]) expect(text).toContain(caution);
  });

  it('say plainly that a document is not what it was', () => {
    const [document] = facts.documents;
    const text = section(pages({ ...facts, documents: [{ ...document!, present: false }] }), 'Documents');
    expect(text).toContain('MISSING OR ALTERED');
  });

  it('never call the weld safe', () => {
    const text = modelText(model).replaceAll(cautions[0]!, '');
    expect(text).not.toMatch(/\bsafe\b/i);
  });
});

describe('local times', () => {
  it('carry the date where the record spans midnight', () => {
    const night = reportFacts({ start: instant(Date.UTC(2026, 10, 25, 22, 30, 0)), hours: 2.5, periodSeconds: 60 });
    const text = section(pages(night), 'Notes and events');
    expect(text).toContain('2026-11-25 23:33:00 | Дмитрий Орлов');
    expect(text).toContain('2026-11-26 02:00:00 | Łukasz Żółć');
  });
  it('carry their offset where the clocks changed, so that no hour stands for two', () => {
    // Warsaw goes from UTC+02:00 to UTC+01:00 at 2026-10-25 01:00 UTC.
    const change = reportFacts({
      start: instant(Date.UTC(2026, 9, 24, 23, 20, 0)),
      hours: 2.5,
      periodSeconds: 60,
      extraActs: [[45, 'Ann Example', { kind: 'note', text: 'before the change' }]],
    });
    const text = section(pages(change), 'Notes and events');
    expect(text).toContain('2026-10-25 02:05:00 UTC+02:00 | Ann Example');
    expect(text).toContain('2026-10-25 02:05:00 UTC+01:00 | Jiří Dvořák');
  });
});

describe('little to say', () => {
  it('says so, section by section', () => {
    const empty = pages({
      ...reportFacts({
        joint: fixtureJoint({ probes: [], procedure: { ...fixtureJoint().procedure, ambientCheck: 'not asked' } }),
        hours: 2,
        passes: 0,
        close: false,
      }),
      timeline: [],
      documents: [],
    });
    const text = modelText(empty);
    for (const words of [
      'No probe was fitted.',
      'No probe, so nothing to draw.',
      'No pass was entered.',
      'No findings.',
      'No document was attached.',
      'Neither heat on nor heat off was entered.',
    ])
      expect(text).toContain(words);
  });
});
