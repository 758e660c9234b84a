/** The report on a joint whose readings are in a package: it says so first, gives what was recorded, and draws and judges nothing. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Finding } from '../../../server/judgement/assessment.ts';
import type { EntryItem } from '../../../server/ledger/item.ts';
import { gather, ofRecord } from '../../../server/report/gather.ts';
import { modelText, sectionText } from '../../../server/report/page-model.ts';
import { pages } from '../../../server/report/pages.ts';
import { at, shortJob } from '../../support/record.ts';
import { archived, opened, reading, remove } from '../../support/removed-record.ts';

const told = {
  key: 'silent/A1/3000',
  kind: 'silent',
  severity: 'not judged',
  probe: 'A1',
  from: at(3000),
  to: at(5000),
};
const concluded = (change: 'opened' | 'withdrawn', finding: object): EntryItem => ({
  ...{ type: 'entry', chain: 'joint-1', at: at(5000), who: 'station', class: 'conclusion', kind: 'finding' },
  body: { kind: 'finding', change, finding },
});

test('the conclusions that were recorded are printed, and everything that takes readings is a sentence', () => {
  const job = shortJob();
  const finding = { ...told, knownAt: at(4000) } as unknown as Finding;
  const other = { ...finding, key: 'silent/A2/3000', probe: 'A2' };
  const conclusions = [concluded('opened', finding), concluded('opened', other), concluded('withdrawn', other)];
  const made = archived([...job.slice(0, 6), ...conclusions, ...job.slice(6)]);
  made.bed.reopen();
  const bytes = new Uint8Array(readFileSync(made.path));
  remove(made.bed.store, bytes);
  made.bed.store.close();
  const model = reading(made.folder, (reader) =>
    pages(
      gather({
        ...ofRecord(reader, 'joint-1'),
        ...{ program: { name: 'test', version: '1' }, rules: 'rules of today', zone: 'UTC' },
      }),
    ),
  );
  const text = modelText(model);
  expect(model.head.marks).toContain('READINGS REMOVED');
  expect(text).toContain('The readings are not in this record: nothing was judged again for this report');
  expect(text).toContain('by Imke Sorel, coordinator: ten years are over');
  expect(text).toContain(opened(bytes).sha256);
  expect(text).toMatch(/Verdict, as recorded\nCannot be judged\nRecorded 2026-03-02 06:00:11 UTC by rules test/);
  expect(text).not.toMatch(/judged again for this report; the verdict/i);
  const section = (heading: string) => sectionText(model.sections.find((each) => each.heading === heading)!);
  expect(section('Findings and alarms')).toContain('Findings, as recorded');
  expect(section('Findings and alarms')).toMatch(/A1/);
  expect(section('Findings and alarms').split('Said at the time')[0]).not.toMatch(/A2/);
  expect(model.sections.map(({ heading }) => heading)).not.toContain('Passes');
  expect(section('Course, soak, passes and probes')).toContain(
    'follow from the readings, and those are not in this record',
  );
  expect(section('Notes and events')).toContain('wind from the door');
});
