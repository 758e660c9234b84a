/** What a report says of the instruments: their calibration, what the uncertainty of each probe is made of, the decision rule. */
import { expect, test, vi } from 'vitest';
import { modelText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import { reportFacts } from '../../support/report-fixture.ts';
import { fixtureJoint } from '../../support/report-joint.ts';

// Judging hours of readings takes a while on a busy machine; nothing here is judged by time.
vi.setConfig({ testTimeout: 60_000 });

const plain = fixtureJoint();
const [first] = plain.probes;
const registered = fixtureJoint({
  probes: plain.probes.map((probe, index) =>
    index === 0 ? { ...probe, wire: 'W-1', extension: 'none', attachmentErrorKelvin: 1 } : probe,
  ),
  instruments: [
    {
      id: 'W-1',
      kind: 'wire lot',
      thermocouple: first!.thermocouple,
      toleranceClass: 'IEC 60584-1 class 1',
      certificate: 'C-17',
      calibratedOn: '2025-01-10',
      dueOn: '2026-01-09',
    },
    { id: 'B-1', kind: 'board', board: first!.board, maximumErrorKelvin: 1.5, coldJunctionErrorKelvin: 0 },
  ],
  procedure: { ...plain.procedure, decisionRule: 'guarded', guardFactor: 1.645 },
});

test('the register stands in the report with its calibration, and each budget says what nobody entered', () => {
  const text = modelText(pages(reportFacts({ joint: registered })));
  expect(text).toMatch(/W-1.*wire lot.*IEC 60584-1 class 1.*C-17.*2025-01-10.*2026-01-09.*overdue/s);
  expect(text).toMatch(/B-1.*±1\.5 K.*not entered.*not known/s);
  // 2 x sqrt((1.5^2 + 1.5^2 + 0 + 1^2) / 3) = 2.708, computed; stated as 2.8, rounded up.
  expect(text).toContain('attachment 1.0 K (as entered)');
  expect(text).toContain('±2.8 K');
  expect(text).toContain('attachment 5.0 K* (nothing entered)');
  expect(text).toContain('guarded (ISO 14253-1)');
  expect(text).toContain('Calibration of W-1 is overdue');
});

test('a joint without a register says that no calibration was entered, and by which rule it was judged', () => {
  const text = modelText(pages(reportFacts()));
  expect(text).toContain('no calibration of thermocouples or instruments is entered');
  expect(text).toContain('simple acceptance');
});
